#include "padwalk/heating/heat.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/physics/water.hpp"

namespace padwalk::heating
{
namespace
{

auto heat_capacity_per_volume(units::Temperature water)
{
    return physics::density(water) * physics::specific_heat(water);
}

units::Temperature middle(units::Temperature a, units::Temperature b)
{
    return a + (b - a) / 2.0;
}

} // namespace

HeatCapacityFlow heat_capacity_flow(units::VolumeFlow flow, units::Temperature water)
{
    return heat_capacity_per_volume(water) * flow;
}

units::TemperatureDifference heater_rise(units::Power input, units::Fraction efficiency, units::VolumeFlow flow,
                                         units::Temperature inlet)
{
    if (units::in_si(flow) <= 0)
        throw figures::NotComputed("no water flows through the heater: there is no steady rise");
    return input * efficiency.value() / heat_capacity_flow(flow, inlet);
}

units::Power useful_heat(units::TemperatureDifference rise, units::VolumeFlow flow, units::Temperature inlet)
{
    return heat_capacity_flow(flow, inlet) * rise;
}

units::Fraction heater_efficiency(units::Power useful, units::Power input)
{
    if (units::in_si(input) <= 0)
        throw figures::NotComputed("the heater takes in nothing: there is no efficiency");
    return units::Fraction(useful / input);
}

units::VolumeFlow flow_from_rise(units::Power input, units::Fraction efficiency, units::TemperatureDifference rise,
                                 units::Temperature inlet)
{
    if (units::in_si(rise) <= 0)
        throw figures::NotComputed("the water leaves no warmer than it came: no flow can be told from it");
    return input * efficiency.value() / (heat_capacity_per_volume(inlet) * rise);
}

HeatUp heat_up(units::Volume volume, units::Temperature from, units::Temperature to, units::Power input,
               units::Fraction efficiency, units::Power loss)
{
    if (to <= from)
        throw figures::NotComputed("the water is as warm as wanted already");
    units::Power const net = input * efficiency.value() - loss;
    if (units::in_si(net) <= 0)
        throw figures::NotComputed("the losses take all the heat: the water never gets that warm");
    units::Energy const needed = volume * heat_capacity_per_volume(middle(from, to)) * (to - from);
    units::Duration const time = needed / net;
    return {needed, time, input * time};
}

units::TemperatureDifference electric_rise(units::Volume volume, units::Power power, units::Duration elapsed,
                                           units::Temperature water)
{
    return power * elapsed / (volume * heat_capacity_per_volume(water));
}

} // namespace padwalk::heating
