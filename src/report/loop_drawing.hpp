#pragma once
#include "page.hpp"

namespace padwalk::report
{

/// The loop as a schematic from top to bottom: the water, each part with its readings beside what a sound loop shows,
/// flags where the named causes sit, and the water again. A roof collector and a heater's bypass are side branches.
/// `id` is unique on the page.
[[nodiscard]] Drawing loop_drawing(assess::Assessment const& a, assess::LoopEntry const& loop, units::System system,
                                   std::string const& id);

} // namespace padwalk::report
