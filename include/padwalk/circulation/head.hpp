#pragma once
/// Pressures as heights of the water pumped, and the total head from two gauges.

#include "padwalk/units/quantity.hpp"

#include <optional>

namespace padwalk::circulation
{

/// Height of water of this temperature that makes this pressure: h = p / (rho g). 2.311 ft for 1 psi at 20 °C.
///
/// Valid:  0 to 100 °C; the density is that of pure water at one atmosphere, 0.3 % less than that of a salt pool
/// Throws: physics::OutOfRange
[[nodiscard]] units::Head head_of_pressure(units::Pressure pressure, units::Temperature water);

/// The inverse: p = rho g h.
[[nodiscard]] units::Pressure pressure_of_head(units::Head head, units::Temperature water);

/// v2 / 2g.
[[nodiscard]] units::Head velocity_head(units::Velocity velocity);

/// One gauge on the pipe beside the pump.
struct GaugePoint
{
    units::GaugePressure reading{};
    units::Length height{};              ///< of the gauge above any level common to both
    std::optional<units::Length> bore{}; ///< of the pipe it sits on
};

struct TotalHead
{
    units::Head total{};
    std::optional<units::Head> velocity_part{}; ///< none where flow or a bore is not known; then not in the total
};

/// Total head the pump adds to the water, m.
///
///     H = (p_d - p_s)/(rho g) + (z_d - z_s) + (v_d2 - v_s2)/2g
///
/// Valid:  gauges on pipes full of water, close to the pump: what the pipe between loses is counted to the pump
/// Throws: physics::OutOfRange
/// Source: [hydraulic-institute] equation 1.A
[[nodiscard]] TotalHead total_dynamic_head(GaugePoint const& suction, GaugePoint const& discharge,
                                           std::optional<units::VolumeFlow> flow, units::Temperature water);

} // namespace padwalk::circulation
