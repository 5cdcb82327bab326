#pragma once
#include "padwalk/assess/assess.hpp"
#include "padwalk/command_line/program.hpp"

#include "arguments.hpp"

namespace padwalk::command_line
{

/// `padwalk compare EARLIER LATER`: a return visit held against the one before.
/// Status: nothing_to_refer where nothing is open or new, something_to_refer, unsafe, input_problem.
int compare(Arguments const& arguments, assess::Engine const& engine, World& world);

} // namespace padwalk::command_line
