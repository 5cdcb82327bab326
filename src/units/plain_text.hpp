#pragma once
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace padwalk::units
{

/// Text with typographic characters made plain, each byte knowing where it stood.
struct PlainText
{
    std::string text;
    std::vector<std::size_t> at; ///< byte offset in the original, one more than text.size()
};

[[nodiscard]] PlainText make_plain(std::string_view original);

} // namespace padwalk::units
