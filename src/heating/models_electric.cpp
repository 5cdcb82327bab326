// The figures of electric elements and heat pumps.
#include "model_groups.hpp"

#include "padwalk/heating/heat.hpp"
#include "padwalk/units/definitions.hpp"
#include "padwalk/units/print.hpp"

namespace padwalk::heating
{
namespace
{

using fields::Record;

struct ElectricInput
{
    units::Volume volume{};
    units::Power power{};
    units::Duration elapsed{};
    units::Temperature water_temperature{};
    std::optional<units::Voltage> rated_voltage, supply_voltage;

    static Record<ElectricInput> const& declaration()
    {
        using In = ElectricInput;
        static Record<In> const record =
            Record<In>("electric_rise", "how fast an electric element warms the water")
                .field("volume", &In::volume, "water in the spa")
                .required()
                .within("10 gal", "2000000 gal")
                .field("power", &In::power, "electric power of the element; on its nameplate, where voltages are given")
                .required()
                .within("0.1 kW", "500 kW")
                .field("elapsed", &In::elapsed, "how long it heats")
                .otherwise("1 h", "the rise is usually asked for per hour")
                .within("1 min", "60 day")
                .field("water_temperature", &In::water_temperature, "water at the time")
                .otherwise("80 degF", "density times specific heat of water changes by only 1 % from 50 to 104 degF")
                .within("32.1 degF", "140 degF")
                .field("rated_voltage", &In::rated_voltage, "voltage on the nameplate")
                .within("12 V", "600 V")
                .like("240 V")
                .field("supply_voltage", &In::supply_voltage, "voltage it runs on, as an electrician measured it")
                .within("12 V", "600 V")
                .like("208 V");
        return record;
    }
};

struct ElectricOutput
{
    units::TemperatureDifference rise{};
    std::optional<units::Power> power_now;
    std::optional<units::Fraction> power_share;
    std::optional<units::Current> current;
    std::string in_words;

    static Record<ElectricOutput> const& declaration()
    {
        using Out = ElectricOutput;
        static Record<Out> const record = Record<Out>("electric_rise", "how fast an electric element warms the water")
                                              .field("rise", &Out::rise, "warmer by so much after the time")
                                              .field("power_now", &Out::power_now, "power on the voltage it runs on")
                                              .shown_in("kW", "kW")
                                              .field("power_share", &Out::power_share, "share of its nameplate's power")
                                              .field("current", &Out::current, "current of a single-phase element")
                                              .field("in_words", &Out::in_words, "what the voltage does");
        return record;
    }
};

ElectricOutput electric_of(ElectricInput const& in)
{
    units::Voltage const none;
    ElectricOutput out;
    units::Power power = in.power;
    if (in.supply_voltage || in.rated_voltage)
    {
        units::Voltage const rated = in.rated_voltage.value_or(in.supply_voltage.value_or(none));
        units::Voltage const supply = in.supply_voltage.value_or(rated);
        power = element_power(in.power, rated, supply);
        out.power_now = power;
        out.power_share = units::Fraction(power / in.power);
        out.current = power / supply;
    }
    out.rise = electric_rise(in.volume, power, in.elapsed, in.water_temperature);
    return out;
}

void electric_in_words(ElectricInput const& in, ElectricOutput& out)
{
    if (!out.power_share || !in.rated_voltage || !in.supply_voltage)
        return;
    if (out.power_share->value() < 0.9)
        out.in_words = "on this voltage the element gives much less than its nameplate says: slow heating is then no "
                       "fault of the element; an electrician says which voltage it should have";
    else if (out.power_share->value() > 1.1)
        out.in_words = "on this voltage the element takes more than its nameplate says and its wires are sized for: do "
                       "not run it until an electrician has looked";
    else
        out.in_words = "the voltage is near enough to the nameplate's";
}

struct HeatPumpInput
{
    units::Power rated_capacity{};
    units::Number rated_cop{};
    units::Temperature air_temperature{};
    units::Fraction humidity{};
    units::Temperature water_temperature{};
    units::Temperature least_air_temperature{};
    std::optional<units::VolumeFlow> flow;

    static Record<HeatPumpInput> const& declaration()
    {
        using In = HeatPumpInput;
        static Record<In> const record =
            Record<In>("heat_pump", "a heat pump, its air and its water")
                .field("rated_capacity", &In::rated_capacity, "heat into the water at about 80 degF air and water")
                .required()
                .within("1 kW", "1000 kBtu/h")
                .like("100 kBtu/h")
                .field("rated_cop", &In::rated_cop, "COP there")
                .otherwise("5 ± 1.5", "middle of the published 3 to 7")
                .within("1.5", "10")
                .field("air_temperature", &In::air_temperature, "outdoor air at the unit")
                .required()
                .within("33 degF", "130 degF")
                .field("humidity", &In::humidity, "relative humidity of that air")
                .otherwise("65 % ± 20 %", "outdoor air in mild weather (judgement)")
                .within("5 %", "100 %")
                .field("water_temperature", &In::water_temperature, "water going in")
                .otherwise("80 degF", "water of the usual rating point")
                .within("40 degF", "115 degF")
                .field("least_air_temperature", &In::least_air_temperature, "air at which the unit stops by itself")
                .otherwise("45 degF", "lower end of the published 45 to 50; the unit's manual says its own")
                .within("0 degF", "70 degF")
                .field("flow", &In::flow, "flow through the unit; without it there is no rise")
                .within("1 gpm", "1000 gpm");
        return record;
    }
};

struct HeatPumpOutput
{
    units::Power capacity{};
    units::Power input_power{};
    std::optional<units::Number> cop;
    std::optional<units::TemperatureDifference> rise;
    std::string in_words;

    static Record<HeatPumpOutput> const& declaration()
    {
        using Out = HeatPumpOutput;
        static Record<Out> const record = Record<Out>("heat_pump", "heat, electricity and the rise to expect")
                                              .field("capacity", &Out::capacity, "heat into the water")
                                              .shown_in("kBtu/h", "kW")
                                              .field("input_power", &Out::input_power, "electricity it takes")
                                              .shown_in("kW", "kW")
                                              .field("cop", &Out::cop, "heat for each unit of electricity")
                                              .field("rise", &Out::rise, "outlet less inlet temperature")
                                              .field("in_words", &Out::in_words, "what that says");
        return record;
    }
};

HeatPumpOutput heat_pump_of(HeatPumpInput const& in, HeatPumpFacts const& facts)
{
    HeatPumpOutput out;
    if (in.air_temperature < in.least_air_temperature)
        return out;
    HeatPumpRun const run =
        heat_pump({in.air_temperature, in.humidity, in.water_temperature}, {in.rated_capacity, in.rated_cop}, facts);
    out.capacity = run.capacity, out.input_power = run.input, out.cop = run.cop;
    if (in.flow)
        out.rise = heater_rise(run.capacity, units::Fraction::from_value(1.0), *in.flow, in.water_temperature);
    return out;
}

void heat_pump_in_words(HeatPumpInput const& in, HeatPumpFacts const& facts, HeatPumpOutput& out)
{
    using namespace units::exact;
    if (!out.cop)
    {
        out.in_words = "air this cold stops it by itself: no heat is no fault then";
        return;
    }
    HeatPumpRun const run =
        heat_pump({in.air_temperature, in.humidity, in.water_temperature}, {in.rated_capacity, in.rated_cop}, facts);
    double const well_from = (facts.works_well_from.value() + fahrenheit_zero) * fahrenheit_degree;
    if (run.frosts)
        out.in_words = "its coil is below freezing: it frosts, stops to thaw and gives less than this; frost that "
                       "comes and goes in cool air is normal, ice in mild air is not";
    else if (units::in_si(in.air_temperature) < well_from)
        out.in_words = "near the end of what it is made for: heat pumps work well above 45 to 50 °F";
    else
        out.in_words = "within what it is made for; its rise is a few degrees, much less than a gas heater's";
    if (out.cop->value() < facts.cop_least.value() || out.cop->value() > facts.cop_most.value())
        out.in_words += ". The COP is outside the published 3 to 7: take it as rough";
}

} // namespace

figures::Model electric_rise_model()
{
    return figures::model<ElectricInput, ElectricOutput>(
        {.name = "electric_rise",
         .title = "how fast an electric element warms the water",
         .equation =
             "rise = power · elapsed / (volume · density · specific heat); power on another voltage = nameplate "
             "power · (supply / rated voltage)²; current = power / supply voltage",
         .valid = "all of the power reaches the water and nothing is lost: the most that can be expected; an element "
                  "alone on one phase" +
                  std::string(rules_decide),
         .sources = {"iapws-if97", "judgement"},
         .cautions = {"hot_water", "electric_shock"}},
        electric_of, electric_in_words);
}

figures::Model heat_pump_model(HeatPumpFacts const& facts)
{
    return figures::model<HeatPumpInput, HeatPumpOutput>(
        {.name = "heat_pump",
         .title = "heat and COP of a heat pump in this air",
         .equation = "COP = rated COP · Carnot / Carnot at the rating point, Carnot = Tw/(Tw - wet bulb + 30 K); "
                     "capacity = rated · exp(0.025/K · (wet bulb - rated wet bulb)) (1 - 0.004/K · (Tw - rated Tw))",
         .valid = "a generic form: its constants are judgement, and the maker's own table comes before it. Own doubt "
                  "12 % (one standard uncertainty, judgement). Air above freezing by the wet bulb" +
                  std::string(rules_decide),
         .sources = {"doe-heat-pump-pool", "doe-heat-pump-copy", "ashrae-hof-psychrometrics", "iapws-if97",
                     "judgement"},
         .cautions = {"refrigerant", "electric_shock", "hot_water"},
         .own_doubt = 0.12},
        [facts](HeatPumpInput const& in) { return heat_pump_of(in, facts); },
        [facts](HeatPumpInput const& in, HeatPumpOutput& out) { heat_pump_in_words(in, facts, out); });
}

} // namespace padwalk::heating
