#pragma once
/// Warming a body of water that loses more heat the warmer it gets.

#include "padwalk/units/quantity.hpp"

#include <array>
#include <functional>
#include <optional>
#include <vector>

namespace padwalk::heating
{

/// Heat lost at a temperature of the water; never less at a higher one.
using LossAt = std::function<units::Power(units::Temperature)>;

/// What is to be warmed, and with what.
struct Warming
{
    units::Volume volume{};
    units::Temperature from{};
    units::Temperature to{};
    units::Power input{};
    units::Fraction efficiency{};
};

struct WarmingRun
{
    /// Set: the water never gets to `to` but stops here, where it loses what it is given. It may lie below `from`.
    std::optional<units::Temperature> stops_at;
    units::Energy heat_needed{}; ///< stored between `from` and `to`
    // Zero where it stops short: it takes for ever.
    units::Duration time{};
    units::Energy energy_used{};                    ///< input · time
    units::Energy heat_lost{};                      ///< to the surroundings meanwhile
    std::array<units::Duration, 3> quarter_times{}; ///< to a quarter, half and three quarters of the way
};

/// The run of the temperature T from `from` to `to`:
///
///     C dT/dt = P - L(T),   C = V ρ cp at the mean temperature,   P = input · efficiency
///
/// C, P and L do not know the time, so dt = C dT/(P - L) and the time is an integral over T, found by Gauss's rule on
/// ever smaller steps. The heat lost is the integral of L dt, found by itself; P t = heat stored + heat lost is then a
/// check and no definition.
///
/// Valid:    well-mixed water, full input all the time, surroundings that stay as they are (a mean over day and night)
/// Accuracy: 1e-9 of P t = stored + lost and of a closed form (loss linear in T), tested
/// Throws:   figures::NotComputed where the water is warm enough already, or where it stops below 0.5 °C; OutOfRange
///           from the loss
[[nodiscard]] WarmingRun warming_run(Warming const& warming, LossAt const& loss);

struct HeatUpPoint
{
    units::Duration time{};
    units::Temperature water{};
};

/// The same run as points of a curve, equally spaced in temperature, first at time zero. Where the water stops short
/// the last point lies 99 % of the way to where it stops; where it cools, the curve falls.
///
/// Throws:   as warming_run; std::invalid_argument for fewer than two points
[[nodiscard]] std::vector<HeatUpPoint> heat_up_curve(Warming const& warming, LossAt const& loss, int points);

} // namespace padwalk::heating
