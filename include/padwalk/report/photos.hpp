#pragma once
/// Photos as a page can hold them.

#include <map>
#include <string>

namespace padwalk::report
{

/// One photo, or why it can't be shown.
struct PhotoShown
{
    std::string data_uri; ///< 'data:image/jpeg;base64,…'; empty: not shown
    int width = 0, height = 0;
    std::string why_not; ///< 'is no picture that can be read'
    std::string remark;  ///< 'only part of it could be read'
};

/// By the file as the visit names it.
using Photos = std::map<std::string, PhotoShown>;

} // namespace padwalk::report
