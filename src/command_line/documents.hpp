#pragma once
#include "arguments.hpp"
#include "padwalk/command_line/program.hpp"

namespace padwalk::command_line
{

/// The client's page, as text or as one HTML file.
int client(Arguments const& arguments, World& world);
/// The paper for one licensed trade, or for each that is needed. Throws UsageProblem for a trade that is not needed.
int refer(Arguments const& arguments, World& world);
/// Every document of a visit, into a folder.
int documents(Arguments const& arguments, World& world);

} // namespace padwalk::command_line
