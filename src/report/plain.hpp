#pragma once
/// Text that came from people, made safe to show, and measured.

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace padwalk::report
{

/// Valid UTF-8 without control characters and without marks that turn the direction of writing: each becomes U+FFFD.
/// Line ends stay, tabs become spaces.
[[nodiscard]] std::string clean(std::string_view text);

/// Clean text as HTML and SVG want it, its line ends as given.
[[nodiscard]] std::string in_markup(std::string_view text, std::string_view line_end);

/// Clean text as a string of CSS, with its quotes: every character but letters, digits and blanks is written by its
/// number, so that nothing can end the string or the style.
[[nodiscard]] std::string in_css(std::string_view text);

/// Columns of a terminal: one for each character, two for the wide ones of East Asia and for most pictures, none for
/// marks that are set over others.
[[nodiscard]] std::size_t width(std::string_view text);

/// Lines of at most `first` columns (the first one) and `rest` columns (the others), two at least. Line ends break,
/// no-break spaces hold as long as what they join fits a line, and are printed as spaces; a word longer than a line is
/// broken wherever the line ends.
[[nodiscard]] std::vector<std::string> wrapped(std::string_view text, std::size_t first, std::size_t rest);

/// 'a, b and c'.
[[nodiscard]] std::string joined(std::vector<std::string> const& words, std::string_view between = ", ",
                                 std::string_view last = " and ");

/// Adds a text that is not there yet; an empty one is nothing.
void once(std::vector<std::string>& list, std::string text);

/// With a capital first letter, unless the word has a capital of its own (pH).
[[nodiscard]] std::string capitalised(std::string_view text);

/// A quantity's number and unit kept on one line: '18 ± 2 psi' with no-break spaces.
[[nodiscard]] std::string glued(std::string_view quantity);

} // namespace padwalk::report
