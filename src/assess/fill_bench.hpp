#pragma once
#include "workbench.hpp"

namespace padwalk::assess
{

/// Fall of a water's level by evaporation in the weather of the visit; a usual one with a wide doubt where that is not
/// known, and then said to be assumed.
[[nodiscard]] units::Measured<units::Velocity> evaporation_of(Workbench& w, std::size_t water,
                                                              units::Measured<units::Area> const& area);

/// Flow of a valve wide open, by the supply's pressure and its seat; by the bore of its outlet, which passes no less,
/// where the seat is not known. Nothing where it can't be worked out.
[[nodiscard]] visit::Taken<units::VolumeFlow> wide_open_flow_of(Workbench& w, std::size_t item,
                                                                visit::FillValve const& valve);

/// What was read of a valve against a sound one and every fault that can be simulated, and how it is reached.
/// `wide_open` as above, by its seat.
void weigh_fill_readings(Workbench& w, std::size_t item, visit::FillValve const& valve,
                         visit::Taken<units::VolumeFlow> const& wide_open);

} // namespace padwalk::assess
