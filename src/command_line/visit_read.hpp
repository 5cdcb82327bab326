#pragma once
/// What every command does that reads a visit.

#include "arguments.hpp"
#include "padwalk/assess/assess.hpp"
#include "padwalk/command_line/program.hpp"

#include <optional>

namespace padwalk::command_line
{

/// The built-in data, or that of the folder that was named.
[[nodiscard]] reference::Data data_for(Arguments const& arguments, World& world);

[[nodiscard]] fields::Tree problem_tree(std::vector<fields::Problem> const& problems);

/// The program's read of a visit, or none after having said why.
[[nodiscard]] std::optional<visit::ReadVisit> visit_or_problems(std::string const& text, Arguments const& arguments,
                                                                fields::Instruments const& instruments, World& world);

/// The exit status that an assessment calls for.
[[nodiscard]] int status_of(assess::Assessment const& assessment);

} // namespace padwalk::command_line
