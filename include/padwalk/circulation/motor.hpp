#pragma once
/// Single-phase motors: the current they should draw, and what a measured one says.

#include "padwalk/units/quantity.hpp"

#include <string>

namespace padwalk::circulation
{

struct MotorInput
{
    units::Current current{};
    units::Power power{};
};

/// Current and input power of a single-phase motor at a shaft power.
///
///     P_in = P_shaft / efficiency,   I = P_in / (V pf)
///
/// Valid: single phase, at the load to which power factor and efficiency belong; both fall at part load
[[nodiscard]] MotorInput motor_current(units::Power shaft, units::Voltage voltage, units::Fraction power_factor,
                                       units::Fraction efficiency);

/// A measured current against the plate.
struct MotorLoad
{
    units::Fraction of_rated{};    ///< measured / nameplate
    units::Fraction of_greatest{}; ///< measured / (nameplate x service factor)
};

/// Shares of the rated current and of the greatest continuous one.
///
/// Valid:    nameplate voltage within 10 %. Current is not load: below about half load it hardly falls, so a small
/// share
///           is only a hint. Where the plate prints a current at the service factor, give that as nameplate and 1 as
///           factor.
/// Accuracy: that current rises with the service factor in proportion is our own approximation, good to some 5 %
[[nodiscard]] MotorLoad motor_load(units::Current measured, units::Current nameplate, units::Number service_factor);

/// What the load means, in a sentence. Below `low` the motor is called lightly loaded.
[[nodiscard]] std::string load_in_words(MotorLoad const& load, units::Fraction low);

} // namespace padwalk::circulation
