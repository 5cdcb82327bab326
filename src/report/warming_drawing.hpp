#pragma once
#include "page.hpp"

namespace padwalk::report
{

/// The temperature over the hours: the likely run, between which runs it lies 19 times in 20, what is wanted, and where
/// it stops short. No SVG without a run. `id` is unique on the page.
[[nodiscard]] Drawing warming_drawing(assess::Assessment const& a, assess::WarmingEntry const& warming,
                                      units::System system, std::string const& id);

} // namespace padwalk::report
