#pragma once
/// How long a heater runs and rests at its thermostat.

#include "padwalk/units/quantity.hpp"

#include <optional>

namespace padwalk::heating
{

struct HeaterCycle
{
    units::Duration runs{};
    std::optional<units::Duration> rests; ///< none where nothing is lost: it then rests for good
};

/// A thermostat that starts at the bottom of its band and stops at the top:
///
///     runs = V ρ cp band / (P - L),   rests = V ρ cp band / L
///
/// P heat into the water, L heat lost by it; ρ and cp at the water's temperature.
///
/// Valid:    well-mixed water. A sensor beside the heater sees its own warm water and stops sooner
/// Accuracy: that of the water's properties
/// Source:   definition; [iapws-if97]
/// Throws:   figures::NotComputed where the heat does not exceed the loss; OutOfRange
[[nodiscard]] HeaterCycle heater_cycle(units::Volume volume, units::TemperatureDifference band, units::Power heat,
                                       units::Power loss, units::Temperature water);

} // namespace padwalk::heating
