#include "padwalk/circulation/loop.hpp"

#include "network_parts.hpp"
#include "padwalk/circulation/head.hpp"
#include "padwalk/figures/model.hpp"
#include "padwalk/numerics/root.hpp"
#include "padwalk/physics/water.hpp"
#include "padwalk/units/print.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::circulation
{
namespace
{

LoopLosses losses_at(Loop const& loop, units::VolumeFlow flow, units::KinematicViscosity viscosity)
{
    LoopLosses losses;
    losses.suction = pipe_loss(loop.suction, flow, loop.formula, viscosity);
    losses.discharge = pipe_loss(loop.discharge, flow, loop.formula, viscosity);
    losses.filter = minor_head(loop.filter_loss, losses.discharge.velocity);
    losses.heater = minor_head(loop.heater_loss, losses.discharge.velocity);
    return losses;
}

std::string text(units::VolumeFlow flow)
{
    return units::show(units::Measure::volume_flow, units::in_si(flow), 0, {units::System::us, "gpm", {}});
}

/// Surplus of the pump over the loop and its slope in flow squared, in which both curves are nearly straight.
struct Surplus
{
    LoopLosses losses;
    double head;  ///< m
    double slope; ///< m per (m3/s)2, below zero
};

/// d losses / d ln Q, m.
double steepness(Loop const& loop, LoopLosses const& losses)
{
    return slope_over_flow(loop.suction, losses.suction) + slope_over_flow(loop.discharge, losses.discharge) +
           2 * (losses.filter + losses.heater).value();
}

Surplus surplus_at(Loop const& loop, PumpCurve const& pump, double flow, units::KinematicViscosity viscosity)
{
    auto const head_at = [&](double q) { return pump.head_at(units::of_si<units::VolumeFlow>(q)).value(); };
    Surplus s{losses_at(loop, units::of_si<units::VolumeFlow>(flow), viscosity), 0, 0};
    constexpr double aside = 1e-6; // to the lower side, where the curve goes on
    double const head = head_at(flow);
    double const falls = (head - head_at(flow * (1 - aside))) / aside;
    s.head = head - s.losses.total().value();
    s.slope = (falls - steepness(loop, s.losses)) / (2 * flow * flow);
    return s;
}

/// Flow squared where straight lines in it meet: the pump's chord, and losses with one usual friction factor.
double first_guess(Loop const& loop, PumpCurve const& pump)
{
    constexpr double usual_friction = 0.019; // smooth plastic at the flows of a pump; only where to begin
    auto const coefficient = [&](Pipe const& p, double more)
    {
        double const area = units::in_si(bore_area(p.bore));
        double const k = usual_friction * units::in_si(p.length / p.bore) + p.minor_loss.value() + more;
        return k * velocity_head(units::of_si<units::Velocity>(1 / area)).value();
    };
    double const taken =
        coefficient(loop.suction, 0) + coefficient(loop.discharge, loop.filter_loss.value() + loop.heater_loss.value());
    double const low = units::in_si(pump.least_flow()), high = units::in_si(pump.greatest_flow());
    double const chord = (pump.greatest_head() - pump.least_head()).value() / (high * high - low * low);
    return (pump.greatest_head().value() + chord * low * low) / (taken + chord);
}

/// Newton's method in flow squared. None where it leaves the pump's curve or has not settled after a few steps: then
/// bracketing decides, and says why there is no point.
std::optional<double> quick_flow(Loop const& loop, PumpCurve const& pump, units::KinematicViscosity viscosity,
                                 LoopLosses& losses)
{
    constexpr int most_steps = 8;
    constexpr double settled = 1e-12; // of the flow
    double const low = units::in_si(pump.least_flow()), high = units::in_si(pump.greatest_flow());
    double flow = std::sqrt(first_guess(loop, pump));
    for (int step = 0; step < most_steps; ++step)
    {
        if (!(flow > low && flow < high && flow > 0))
            return std::nullopt;
        Surplus const s = surplus_at(loop, pump, flow, viscosity);
        double const move = s.head / s.slope / (2 * flow * flow);
        if (std::abs(move) <= settled)
        {
            losses = s.losses;
            return flow;
        }
        flow *= std::sqrt(1 - 2 * move);
    }
    return std::nullopt;
}

/// The same between the ends of the pump's curve.
double bracketed_flow(Loop const& loop, PumpCurve const& pump, units::KinematicViscosity viscosity)
{
    auto const surplus_m = [&](units::VolumeFlow flow)
    { return (pump.head_at(flow) - losses_at(loop, flow, viscosity).total()).value(); };
    if (surplus_m(pump.greatest_flow()) > 0)
        throw figures::NotComputed(
            "at the last point of the pump curve, " + text(pump.greatest_flow()) +
            ", the pump still makes more head than the loop takes; give a point at a higher flow, or "
            "check that no loss was left out");
    if (surplus_m(pump.least_flow()) < 0)
        throw figures::NotComputed("already at the first point of the pump curve, " + text(pump.least_flow()) +
                                   ", the loop takes more head than the pump makes; give a point at a lower flow");
    return numerics::bracketed_root([&](double q) { return surplus_m(units::of_si<units::VolumeFlow>(q)); },
                                    units::in_si(pump.least_flow()), units::in_si(pump.greatest_flow()), 1e-12);
}

} // namespace

LoopLosses loop_losses(Loop const& loop, units::VolumeFlow flow, units::Temperature water)
{
    return losses_at(loop, flow, physics::kinematic_viscosity(water));
}

OperatingPoint operating_point(Loop const& loop, PumpCurve const& pump, units::Temperature water)
{
    return operating_point(loop, pump, physics::kinematic_viscosity(water));
}

OperatingPoint operating_point(Loop const& loop, PumpCurve const& pump, units::KinematicViscosity viscosity)
{
    OperatingPoint point;
    if (auto const quick = quick_flow(loop, pump, viscosity, point.losses))
        point.flow = units::of_si<units::VolumeFlow>(*quick);
    else
    {
        point.flow = units::of_si<units::VolumeFlow>(bracketed_flow(loop, pump, viscosity));
        point.losses = losses_at(loop, point.flow, viscosity);
    }
    point.pump_head = pump.head_at(point.flow);
    require_turbulent_for(loop.formula, point.losses.suction);
    require_turbulent_for(loop.formula, point.losses.discharge);
    return point;
}

} // namespace padwalk::circulation
