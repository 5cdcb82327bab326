#pragma once
/// How far the water at the pump's inlet is from boiling.

#include "padwalk/units/quantity.hpp"

#include <optional>
#include <string>

namespace padwalk::circulation
{

/// What is known at the pump's inlet.
struct Inlet
{
    units::GaugePressure reading{}; ///< vacuum is negative
    units::Length height{};         ///< of the gauge above the middle of the pump
    std::optional<units::Velocity>
        velocity{}; ///< in the pipe under the gauge; none: left out, which errs to the safe side
    units::Temperature water{};
    units::Length altitude{};
};

/// Net positive suction head available, m of water above its own vapour.
///
///     NPSHA = (p_air + p_gauge - p_vapour)/(rho g) + v2/2g + z
///
/// Valid:    0 to 100 °C, -500 to 11 000 m; weather moves p_air by 3 %, 0.3 m
/// Source:   [hydraulic-institute] equation 1.D.6
/// Throws:   physics::OutOfRange; figures::NotComputed for a reading of less than no pressure at all
[[nodiscard]] units::Head suction_head_available(Inlet const& inlet);

/// The gauge reading at which water of this temperature boils at this altitude: p_vapour - p_air, a vacuum.
[[nodiscard]] units::GaugePressure vacuum_at_boiling(units::Temperature water, units::Length altitude);

/// A sentence on what the margin means. `good_ratio` is available over required head from which it is called enough.
[[nodiscard]] std::string suction_in_words(units::Head available, std::optional<units::Head> required,
                                           units::Number good_ratio);

} // namespace padwalk::circulation
