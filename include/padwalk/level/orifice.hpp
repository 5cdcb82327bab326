#pragma once
/// Flow through a hole: a leak, or the seat of a fill valve.

#include "padwalk/units/quantity.hpp"

namespace padwalk::level
{

/// Flow of a liquid through a hole that discharges freely.
///
///     Q = C·(π/4) bore²·sqrt(2 Δp/ρ)
///
/// Valid:    sharp-edged hole in a thin wall, C about 0.62; a hole in soil, a crack or a long passage passes less
/// Accuracy: to the rounding of the utilities' leak tables (800, 3200, 13 000 gal/day printed; 806, 3226, 12 904
/// computed) Source:   orifice law; C [durant-leak-table]
[[nodiscard]] units::VolumeFlow orifice_flow(units::Length bore, units::Pressure difference, units::Number coefficient,
                                             units::Density density);

} // namespace padwalk::level
