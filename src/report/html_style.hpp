#pragma once
#include <string_view>

namespace padwalk::report
{

/// The look of the page: a notebook with ruled lines, a margin line and one ink beside the black.
[[nodiscard]] std::string_view html_style();

} // namespace padwalk::report
