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

/// Flow and rise are compared by their logarithms: they move each other as a ratio, and a flow that is hardly known
/// moves the rise further than any straight line. Under a least amount an instrument shows nothing.
[[nodiscard]] double to_scale(LoopGauge gauge, double si);
[[nodiscard]] double from_scale(LoopGauge gauge, double scaled);
/// What a small change, SI, at `si` amounts to on the scale.
[[nodiscard]] double change_to_scale(LoopGauge gauge, double si, double change);
[[nodiscard]] double change_from_scale(LoopGauge gauge, double si, double change);

/// What a gauge shows in a state, SI. Throws figures::NotComputed where it sits on nothing, std::logic_error for the
/// motor's power, which is input_power.
[[nodiscard]] double gauge_of(LoopGauge gauge, PlantState const& state, LoopAsKnown const& loop, double heat_left);

} // namespace padwalk::circulation
