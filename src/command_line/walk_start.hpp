#pragma once
/// What is there: the first questions of a new visit, and what they write.

#include <string>
#include <vector>

namespace padwalk::command_line
{

/// The kinds of things to choose from, as they are shown and as they may be typed.
[[nodiscard]] std::vector<std::string> const& things_shown();
[[nodiscard]] std::vector<std::string> const& things_typed();

/// The visit's text with the things that were chosen, under names of their own. Empty if there is no water among them.
[[nodiscard]] std::string with_things(std::string text, std::vector<std::size_t> const& chosen);

} // namespace padwalk::command_line
