#pragma once
/// How fast an open pool evaporates.

#include "padwalk/physics/evaporation.hpp"
#include "padwalk/reference/evaporation_table.hpp"
#include "padwalk/units/quantity.hpp"

namespace padwalk::level
{

using physics::OpenWater;
using reference::Activity;
using reference::evaporation_table;
using reference::EvaporationForm;
using reference::EvaporationTable;

/// Water leaving each square metre, kg/(m2 s).
///
///     flux = factor·(h0 + h1 v)(pw(water) - humidity·ps(air))/L(water)
///
/// pw, ps vapour pressures and L the latent heat by IAPWS-IF97; v the wind at the surface. Zero where both pressures
/// are equal.
///
/// Valid:    water 0 to 60 °C; forms made from pools with wind to 2.2 m/s at the surface, near sea level (no air
/// pressure
///           stands in either form; thin air evaporates more)
/// Accuracy: 0.5 % of values computed elsewhere from the printed form; the form itself is good to about 15 % (one
///           standard uncertainty, judged from the spread of published forms)
/// Source:   [ashrae-trans-1998-pools], [smith-lof-jones-1994]
/// Throws:   physics::OutOfRange; figures::NotComputed where vapour would condense on the water
[[nodiscard]] units::MassFlux evaporation_flux(OpenWater const& open, EvaporationForm form, Activity activity,
                                               EvaporationTable const& table);

} // namespace padwalk::level
