#pragma once
/// The pictures of a visit as a page can hold them.

#include <map>
#include <string>

namespace padwalk::report
{

/// One picture, ready to be shown, or why it isn't.
struct PhotoShown
{
    std::string data_uri;      ///< 'data:image/jpeg;base64,…'; empty where it is not shown
    int width = 0, height = 0; ///< pixels
    std::string why_not;       ///< goes on from the file's name: 'is empty'; empty where it is shown
    std::string remark;        ///< what is wrong with it though it shows: 'ends early: part of it may be missing'
};

/// By the file as the visit file writes it.
using Photos = std::map<std::string, PhotoShown>;

} // namespace padwalk::report
