#pragma once
#include "page.hpp"

namespace padwalk::report
{

/// The pump's curve and what a sound loop takes, over flow; where a sound loop runs and where the readings put this
/// one. No svg where there is nothing to draw. `id` is unique on the page.
[[nodiscard]] Drawing curve_drawing(assess::LoopEntry const& loop, units::System system, std::string const& id);

} // namespace padwalk::report
