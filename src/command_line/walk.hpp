#pragma once
/// A guided visit: asks, and writes each answer into the visit file at once.

#include "padwalk/assess/telling.hpp"
#include "padwalk/command_line/program.hpp"

namespace padwalk::command_line
{

/// Walks with a visit file that need not be there yet; `text` is what it holds, none where there is no such file. Ends
/// when nothing is left to ask, when it is left, and at the end of the input.
///
/// The file is the only memory: left and begun again, the walk goes on where it was. Nothing of its text is taken out,
/// but by 'back', which puts the text as it was before the last answer.
///
/// Throws: FileProblem where an answer can't be written, or somebody else changed the file meanwhile
[[nodiscard]] assess::Assessment walk(std::string const& file, std::optional<std::string> const& text,
                                      assess::Engine const& engine, units::System system, World& world);

/// Whether a text holds no entry at all, only comments.
[[nodiscard]] bool says_nothing(std::string const& text);

} // namespace padwalk::command_line
