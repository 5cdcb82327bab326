#pragma once
#include <cstddef>
#include <string>
#include <string_view>

namespace padwalk::units
{

/// How many single-letter changes, additions and removals lie between two words, case aside (Levenshtein distance).
[[nodiscard]] std::size_t edits(std::string_view a, std::string_view b);

/// Bytes of the UTF-8 character that `text` starts with; 0 where it starts with none (overlong, surrogate, cut short).
[[nodiscard]] std::size_t character_length(std::string_view text);

/// Whether a terminal would obey the character that `text` starts with: C0 and C1 controls and delete.
[[nodiscard]] bool is_control(std::string_view text);

/// At most so many characters of a text, with '?' for every control and every byte that is no text, and '…' where
/// something was cut off: fit for a message whatever the text holds.
[[nodiscard]] std::string fit_to_show(std::string_view text, std::size_t most);

} // namespace padwalk::units
