#include "sound_loop_parts.hpp"

#include "padwalk/circulation/head.hpp"
#include "padwalk/circulation/suction.hpp"
#include "padwalk/figures/model.hpp"
#include "padwalk/physics/water.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace padwalk::circulation
{

using figures::NotComputed;

namespace
{

void multiply(Pipe& pipe, double factor)
{
    pipe.length = pipe.length * factor;
    pipe.minor_loss = pipe.minor_loss * factor;
}

void multiply_returns(Plant& plant, double factor)
{
    multiply(plant.return_trunk, factor);
    for (auto& r : plant.returns)
    {
        multiply(r.pipe, factor);
        if (r.nozzle)
            r.nozzle = *r.nozzle * std::pow(factor, -0.25); // its loss goes with the opening's fourth power
    }
}

void multiply_filter(Plant& plant, double factor)
{
    if (plant.filter)
        plant.filter->loss_factor = plant.filter->loss_factor * factor;
}

double shown_at(std::optional<units::GaugePressure> const& at_pad, units::Length height, units::Temperature water)
{
    if (!at_pad)
        throw NotComputed("a shut valve cuts a gauge off from all water");
    return units::in_si(*at_pad) - units::in_si(pressure_of_head(units::Head{height}, water));
}

double rise(PlantState const& state, LoopAsKnown const& loop, double heat_left)
{
    if (!loop.heat || !loop.plant.heater)
        throw NotComputed("a rise says nothing where the heat is not known");
    double const capacity = units::in_si(physics::density(loop.plant.water)) *
                            units::in_si(physics::specific_heat(loop.plant.water)) * units::in_si(state.through_heater);
    if (!(capacity > 0))
        throw NotComputed("no water passes the heater");
    return units::in_si(*loop.heat) * heat_left / capacity;
}

} // namespace

Plant moved(Plant plant, LoopDoubt const& doubt, double deviations)
{
    double const by = doubt.spread.value() * deviations, factor = std::exp(by);
    switch (doubt.what)
    {
    case Unsure::pump_head:
        for (auto& pump : plant.pumps)
            for (auto& p : pump.curve)
                p.head = p.head * factor;
        break;
    case Unsure::pump_flow:
        for (auto& pump : plant.pumps)
            for (auto& p : pump.curve)
                p.flow = p.flow * factor;
        break;
    case Unsure::speed:
        for (auto& pump : plant.pumps)
            pump.speed = pump.speed * factor;
        break;
    case Unsure::suction_loss:
        multiply(plant.suction_trunk, factor);
        for (auto& s : plant.suctions)
            multiply(s.pipe, factor);
        break;
    case Unsure::return_loss: multiply_returns(plant, factor); break;
    case Unsure::filter_loss: multiply_filter(plant, factor); break;
    case Unsure::filter_loading:
        if (plant.filter)
            plant.filter->loading = fraction(std::clamp(plant.filter->loading.value() + by, 0.0, 1.0));
        break;
    case Unsure::heater_loss:
        if (plant.heater)
            plant.heater->loss = plant.heater->loss.value_or(units::Number{}) * factor;
        break;
    case Unsure::pump_height: plant.pad_height = plant.pad_height + units::of_si<units::Length>(by); break;
    case Unsure::heat:
    case Unsure::motor_losses: break;
    }
    return plant;
}

bool in_the_plant(LoopDoubt const& doubt)
{
    return doubt.what != Unsure::heat && doubt.what != Unsure::motor_losses;
}

namespace
{

/// Judgement: two thermometers differ by it.
constexpr double least_rise = 0.2; // K

} // namespace

double to_scale(LoopGauge gauge, double si)
{
    return gauge == LoopGauge::heater_rise ? std::log(std::max(0.0, si) + least_rise) : si;
}

double from_scale(LoopGauge gauge, double scaled)
{
    return gauge == LoopGauge::heater_rise ? std::exp(scaled) - least_rise : scaled;
}

double change_to_scale(LoopGauge gauge, double si, double change)
{
    return gauge == LoopGauge::heater_rise ? change / (std::max(0.0, si) + least_rise) : change;
}

double change_from_scale(LoopGauge gauge, double si, double change)
{
    return gauge == LoopGauge::heater_rise ? change * (std::max(0.0, si) + least_rise) : change;
}

double input_power(Plant const& plant, PlantState const& state, PumpPowerTable const& motors)
{
    double watts = 0;
    for (std::size_t i = 0; i < plant.pumps.size(); ++i)
    {
        auto const& pump = plant.pumps[i];
        PumpCurve const curve(pump.curve, pump.speed);
        auto const as_fraction = [](JudgedNumber const& n) { return fraction(n.value.value()); };
        PumpPower const power(curve, as_fraction(motors.no_flow_share), as_fraction(motors.best_efficiency),
                              plant.water);
        auto const motor =
            motor_efficiency_at(as_fraction(motors.motor_efficiency), pump.speed, motors.motor_speed_exponent.value);
        auto const flow = std::clamp(state.pumps[i].flow, curve.least_flow(), curve.greatest_flow());
        watts += units::in_si(power.shaft_at(flow)) / motor.value();
    }
    return watts;
}

double gauge_of(LoopGauge gauge, PlantState const& state, LoopAsKnown const& loop, double heat_left)
{
    auto const& g = state.gauges;
    units::Temperature const water = loop.plant.water;
    switch (gauge)
    {
    case LoopGauge::suction:
    {
        double const least = units::in_si(vacuum_at_boiling(water, loop.plant.altitude));
        return std::max(least, shown_at(g.pump_suction, loop.suction_gauge_height, water));
    }
    case LoopGauge::pump_outlet: return shown_at(g.pump_discharge, {}, water);
    case LoopGauge::filter:
    case LoopGauge::filter_when_clean:
        return shown_at(g.filter_in ? g.filter_in : g.pump_discharge, loop.filter_gauge_height, water);
    case LoopGauge::behind_filter: return shown_at(g.filter_out, loop.filter_gauge_height, water);
    case LoopGauge::flow_meter: return units::in_si(state.total);
    case LoopGauge::heater_rise: return rise(state, loop, heat_left);
    case LoopGauge::motor_power: break;
    }
    throw std::logic_error("the motor's power is no gauge of the plant");
}

} // namespace padwalk::circulation
