#include "padwalk/heating/heat_pump.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/physics/air.hpp"
#include "padwalk/units/definitions.hpp"

#include <cmath>

namespace padwalk::heating
{
namespace
{

using fields::Record;
using namespace units::exact;

units::Temperature fahrenheit(Constant const& constant)
{
    return units::of_si<units::Temperature>((constant.value() + fahrenheit_zero) * fahrenheit_degree);
}

// Water over the refrigerant's lift, in K of each.
double carnot(units::Temperature water, units::Temperature wet_bulb, HeatPumpFacts const& facts)
{
    double const lift = units::in_si(water - wet_bulb) + facts.lift_added.value();
    if (lift <= 0)
        throw figures::NotComputed("the air is so much warmer than the water that no heat pump is needed");
    return units::in_si(water) / lift;
}

} // namespace

Record<HeatPumpFacts> const& HeatPumpFacts::declaration()
{
    using H = HeatPumpFacts;
    static Record<H> const record =
        Record<H>("heat_pump", "a generic heat pump")
            .field("rating_air", &H::rating_air, "air of the rating point, degF")
            .required()
            .field("rating_humidity", &H::rating_humidity, "its humidity, %")
            .required()
            .field("rating_water", &H::rating_water, "water of the rating point, degF")
            .required()
            .field("lift_added", &H::lift_added, "lift beside that of water and wet bulb, K")
            .required()
            .field("capacity_per_kelvin", &H::capacity_per_kelvin, "heat by wet bulb, 1/K")
            .required()
            .field("capacity_per_water_kelvin", &H::capacity_per_water_kelvin, "heat by water, 1/K")
            .required()
            .field("frost_approach", &H::frost_approach, "coil below wet bulb, K")
            .required()
            .field("works_well_from", &H::works_well_from, "air above which it works well, degF")
            .required()
            .field("cop_least", &H::cop_least, "least COP published")
            .required()
            .field("cop_most", &H::cop_most, "greatest COP published")
            .required()
            .field("sources", &H::sources, "works cited");
    return record;
}

HeatPumpFacts heat_pump_facts(reference::Data const& data)
{
    return reference::read_table<HeatPumpFacts>(data, "heating/heat_pump.yaml");
}

HeatPumpRun heat_pump(HeatPumpState const& state, HeatPumpRating const& rating, HeatPumpFacts const& facts)
{
    auto const rated_humidity = units::Fraction::from_value(facts.rating_humidity.value() / 100);
    units::Temperature const rated_water = fahrenheit(facts.rating_water);
    units::Temperature const rated_bulb = physics::wet_bulb(fahrenheit(facts.rating_air), rated_humidity);
    units::Temperature const bulb = physics::wet_bulb(state.air_temperature, state.humidity);
    double const by_air = std::exp(facts.capacity_per_kelvin.value() * units::in_si(bulb - rated_bulb));
    double const by_water =
        1 - facts.capacity_per_water_kelvin.value() * units::in_si(state.water_temperature - rated_water);
    HeatPumpRun out;
    out.capacity = rating.capacity * (by_air * by_water);
    out.cop = rating.cop * (carnot(state.water_temperature, bulb, facts) / carnot(rated_water, rated_bulb, facts));
    out.input = out.capacity / out.cop.value();
    out.frosts = units::in_si(bulb) - facts.frost_approach.value() < celsius_zero;
    return out;
}

units::Power element_power(units::Power rated, units::Voltage rated_voltage, units::Voltage supply)
{
    if (units::in_si(rated_voltage) <= 0)
        throw figures::NotComputed("an element's power on another voltage needs the voltage it is rated for");
    double const ratio = units::in_si(supply / rated_voltage);
    return rated * (ratio * ratio);
}

} // namespace padwalk::heating
