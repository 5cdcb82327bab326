#include "padwalk/circulation/loop.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/numerics/root.hpp"
#include "padwalk/physics/water.hpp"
#include "padwalk/units/print.hpp"

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

} // namespace

LoopLosses loop_losses(Loop const& loop, units::VolumeFlow flow, units::Temperature water)
{
    return losses_at(loop, flow, physics::kinematic_viscosity(water));
}

OperatingPoint operating_point(Loop const& loop, PumpCurve const& pump, units::Temperature water)
{
    units::KinematicViscosity const viscosity = physics::kinematic_viscosity(water);
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
    double const flow_m3s =
        numerics::bracketed_root([&](double q) { return surplus_m(units::of_si<units::VolumeFlow>(q)); },
                                 units::in_si(pump.least_flow()), units::in_si(pump.greatest_flow()), 1e-12);
    OperatingPoint point;
    point.flow = units::of_si<units::VolumeFlow>(flow_m3s);
    point.losses = losses_at(loop, point.flow, viscosity);
    point.pump_head = pump.head_at(point.flow);
    require_turbulent_for(loop.formula, point.losses.suction);
    require_turbulent_for(loop.formula, point.losses.discharge);
    return point;
}

} // namespace padwalk::circulation
