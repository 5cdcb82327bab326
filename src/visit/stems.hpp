#pragma once
/// Words of a note, as the matcher and the search for danger take them.

#include <string>
#include <string_view>
#include <vector>

namespace padwalk::visit::words
{

/// Lower-case words; "can't" and 'cant' as 'can', 'not'.
[[nodiscard]] std::vector<std::string> split(std::string_view text);
/// Endings off, the same way on both sides; it need not make words, only make forms of one word meet.
[[nodiscard]] std::string stem(std::string word);

[[nodiscard]] bool is_filler(std::string_view word);
[[nodiscard]] bool is_denial(std::string_view word); ///< 'no', 'not', 'without'
[[nodiscard]] bool is_lack(std::string_view word);   ///< 'missing', 'gone'
[[nodiscard]] bool is_hedge(std::string_view word);  ///< 'maybe'
/// Whether one letter more, less, other, or two changed places make one of the other.
[[nodiscard]] bool one_edit_apart(std::string_view a, std::string_view b);

} // namespace padwalk::visit::words
