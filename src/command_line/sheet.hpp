#pragma once
#include "arguments.hpp"
#include "padwalk/command_line/program.hpp"
#include "padwalk/reference/data.hpp"
#include "padwalk/visit/visit.hpp"

#include <functional>

namespace padwalk::command_line
{

/// `padwalk sheet`: with parts alone, a visit file to fill in; on paper (as text or as a page), what is to be written
/// on site for those parts or for the items of a visit. `read` gives the visit that was named, or none after having
/// said what is wrong with it.
int sheet(Arguments const& arguments, reference::Data const& data,
          std::function<std::optional<visit::ReadVisit>()> const& read, World& world);

} // namespace padwalk::command_line
