#pragma once
#include "workbench.hpp"

namespace padwalk::assess
{

/// Fall of a water's level by evaporation in the weather of the visit; a usual one with a wide doubt where that is not
/// known, and then said to be assumed.
[[nodiscard]] units::Measured<units::Velocity> evaporation_of(Workbench& w, std::size_t water,
                                                              units::Measured<units::Area> const& area);

/// What was read of a valve against a sound one and every fault that can be simulated, and how it is reached.
void weigh_fill_readings(Workbench& w, std::size_t item, visit::FillValve const& valve);

} // namespace padwalk::assess
