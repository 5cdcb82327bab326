#pragma once
#include "padwalk/assess/tuning.hpp"
#include "padwalk/command_line/program.hpp"

#include "arguments.hpp"

namespace padwalk::command_line
{

/// `padwalk tune FOLDER`: what technicians found, counted over the visits of a folder, and what it would change.
int tune(Arguments const& arguments, assess::Engine const& engine, World& world);

} // namespace padwalk::command_line
