#pragma once
#include "padwalk/assess/assess.hpp"
#include "padwalk/command_line/program.hpp"

#include "arguments.hpp"

namespace padwalk::command_line
{

/// `padwalk history FOLDER`: a folder of visits as a log.
/// Status: that of the last visits: nothing_to_refer, something_to_refer, unsafe; input_problem where there is none.
int history(Arguments const& arguments, assess::Engine const& engine, World& world);

} // namespace padwalk::command_line
