#pragma once
#include "padwalk/circulation/sound_loop.hpp"

namespace padwalk::circulation
{

inline constexpr double no_heat_lost = 1.0; ///< share of the heater's heat that is left

[[nodiscard]] inline units::Fraction fraction(double value)
{
    return units::of_si<units::Fraction>(value);
}

/// The plant with one doubt moved by so many standard deviations. Heat and the motor's losses are no part of it.
[[nodiscard]] Plant moved(Plant plant, LoopDoubt const& doubt, double deviations);
[[nodiscard]] bool in_the_plant(LoopDoubt const& doubt);

/// What the motor takes at the plant's flow, W: the pump's line of shaft power, whatever ails the pump.
[[nodiscard]] double input_power(Plant const& plant, PlantState const& state, PumpPowerTable const& motors);

/// What a gauge shows in a state, SI. Throws figures::NotComputed where it sits on nothing, std::logic_error for the
/// motor's power, which is input_power.
[[nodiscard]] double gauge_of(LoopGauge gauge, PlantState const& state, LoopAsKnown const& loop, double heat_left);

} // namespace padwalk::circulation
