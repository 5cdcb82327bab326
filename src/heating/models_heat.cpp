#include "model_groups.hpp"

#include "padwalk/heating/heat.hpp"

namespace padwalk::heating
{
namespace
{

using fields::Record;

constexpr char const* water_reason = "density times specific heat of water changes by only 1 % from 50 to 104 degF";
constexpr char const* efficiency_meaning = "heat into the water per energy used; a heat pump's COP of 5 is 500 %";

struct RiseInput
{
    units::Power input{};
    units::Fraction efficiency{};
    units::VolumeFlow flow{};
    units::Temperature inlet_temperature{};
    static Record<RiseInput> const& declaration()
    {
        static Record<RiseInput> const record =
            Record<RiseInput>("heater_rise", "how much warmer the water leaves the heater")
                .field("input", &RiseInput::input, "fuel or electricity the heater takes in")
                .required()
                .within("0.5 kW", "5000 kBtu/h")
                .field("efficiency", &RiseInput::efficiency, efficiency_meaning)
                .required()
                .within("5 %", "800 %")
                .usual("60 %", "100 %")
                .field("flow", &RiseInput::flow, "flow through the heater")
                .required()
                .within("1 gpm", "1000 gpm")
                .field("inlet_temperature", &RiseInput::inlet_temperature, "water going into the heater")
                .otherwise("80 degF", water_reason)
                .within("33 degF", "140 degF");
        return record;
    }
};

struct RiseOutput
{
    units::TemperatureDifference rise{};
    units::Temperature outlet_temperature{};
    static Record<RiseOutput> const& declaration()
    {
        static Record<RiseOutput> const record =
            Record<RiseOutput>("heater_rise", "how much warmer the water leaves the heater")
                .field("rise", &RiseOutput::rise, "outlet less inlet temperature")
                .field("outlet_temperature", &RiseOutput::outlet_temperature, "water coming out of the heater");
        return record;
    }
};

RiseOutput rise_of(RiseInput const& in)
{
    auto const rise = heater_rise(in.input, in.efficiency, in.flow, in.inlet_temperature);
    return {rise, in.inlet_temperature + rise};
}

struct FlowInput
{
    units::Power input{};
    units::Fraction efficiency{};
    units::TemperatureDifference rise{};
    units::Temperature inlet_temperature{};
    static Record<FlowInput> const& declaration()
    {
        static Record<FlowInput> const record =
            Record<FlowInput>("heat_flow_estimate", "the heater as a flow meter")
                .field("input", &FlowInput::input, "fuel or electricity the heater takes in")
                .required()
                .within("0.5 kW", "5000 kBtu/h")
                .field("efficiency", &FlowInput::efficiency, efficiency_meaning)
                .required()
                .within("5 %", "800 %")
                .usual("60 %", "100 %")
                .field("rise", &FlowInput::rise, "outlet less inlet temperature, steady")
                .required()
                .within("0.2 degF", "120 degF")
                .field("inlet_temperature", &FlowInput::inlet_temperature, "water going into the heater")
                .otherwise("80 degF", water_reason)
                .within("33 degF", "140 degF");
        return record;
    }
};

struct FlowOutput
{
    units::VolumeFlow flow{};
    static Record<FlowOutput> const& declaration()
    {
        static Record<FlowOutput> const record = Record<FlowOutput>("heat_flow_estimate", "the heater as a flow meter")
                                                     .field("flow", &FlowOutput::flow, "flow through the heater")
                                                     .shown_in("gpm", "L/min");
        return record;
    }
};

struct HeatUpInput
{
    units::Volume volume{};
    units::Temperature from{};
    units::Temperature to{};
    units::Power input{};
    units::Fraction efficiency{};
    units::Power loss{};
    static Record<HeatUpInput> const& declaration()
    {
        static Record<HeatUpInput> const record =
            Record<HeatUpInput>("heat_up", "time and energy to warm the water")
                .field("volume", &HeatUpInput::volume, "water in the pool or spa")
                .required()
                .within("10 gal", "2000000 gal")
                .field("from", &HeatUpInput::from, "water now")
                .required()
                .within("32.1 degF", "120 degF")
                .field("to", &HeatUpInput::to, "water wanted")
                .required()
                .within("32.1 degF", "120 degF")
                .usual("60 degF", "104 degF")
                .field("input", &HeatUpInput::input, "fuel or electricity the heater takes in")
                .required()
                .within("0.5 kW", "5000 kBtu/h")
                .field("efficiency", &HeatUpInput::efficiency, efficiency_meaning)
                .required()
                .within("5 %", "800 %")
                .usual("60 %", "100 %")
                .field("loss", &HeatUpInput::loss, "heat lost from the water meanwhile")
                .otherwise("0 W", "nothing said of cover, wind and air: the time is then the shortest possible")
                .within("0 W", "5000 kBtu/h");
        return record;
    }
};

struct HeatUpOutput
{
    units::Duration time{};
    units::Energy energy_used{};
    units::Energy heat_needed{};
    static Record<HeatUpOutput> const& declaration()
    {
        static Record<HeatUpOutput> const record =
            Record<HeatUpOutput>("heat_up", "time and energy to warm the water")
                .field("time", &HeatUpOutput::time, "time at full input")
                .shown_in("h", "h")
                .field("energy_used", &HeatUpOutput::energy_used, "fuel or electricity used, losses included")
                .shown_in("kWh", "kWh")
                .field("heat_needed", &HeatUpOutput::heat_needed, "heat stored in the water")
                .shown_in("kWh", "kWh");
        return record;
    }
};

HeatUpOutput heat_up_of(HeatUpInput const& in)
{
    auto const found = heat_up(in.volume, in.from, in.to, in.input, in.efficiency, in.loss);
    return {found.time, found.energy_used, found.heat_needed};
}

struct ElectricInput
{
    units::Volume volume{};
    units::Power power{};
    units::Duration elapsed{};
    units::Temperature water_temperature{};
    static Record<ElectricInput> const& declaration()
    {
        static Record<ElectricInput> const record =
            Record<ElectricInput>("electric_rise", "how fast an electric element warms the water")
                .field("volume", &ElectricInput::volume, "water in the spa")
                .required()
                .within("10 gal", "2000000 gal")
                .field("power", &ElectricInput::power, "electric power of the element")
                .required()
                .within("0.1 kW", "500 kW")
                .field("elapsed", &ElectricInput::elapsed, "how long it heats")
                .otherwise("1 h", "the rise is usually asked for per hour")
                .within("1 min", "60 day")
                .field("water_temperature", &ElectricInput::water_temperature, "water at the time")
                .otherwise("80 degF", water_reason)
                .within("32.1 degF", "140 degF");
        return record;
    }
};

struct ElectricOutput
{
    units::TemperatureDifference rise{};
    static Record<ElectricOutput> const& declaration()
    {
        static Record<ElectricOutput> const record =
            Record<ElectricOutput>("electric_rise", "how fast an electric element warms the water")
                .field("rise", &ElectricOutput::rise, "warmer by so much after the time");
        return record;
    }
};

figures::Model heater_rise_model()
{
    return figures::model<RiseInput, RiseOutput>({.name = "heater_rise",
                                                  .title = "how much warmer the water leaves the heater",
                                                  .equation = "rise = input · efficiency / (density · specific heat · "
                                                              "flow), both of water at the inlet's temperature",
                                                  .valid = "steady firing, all of the flow through the heater, gross "
                                                           "input; hold both thermometers in one bucket first" +
                                                           std::string(rules_decide),
                                                  .sources = {"iapws-if97"},
                                                  .cautions = {"hot_water"}},
                                                 rise_of);
}

figures::Model heat_flow_estimate_model()
{
    return figures::model<FlowInput, FlowOutput>(
        {.name = "heat_flow_estimate",
         .title = "flow through the heater from its rise",
         .equation = "flow = input · efficiency / (density · specific heat · rise), both of water at the inlet's "
                     "temperature",
         .valid = "steady firing, efficiency known from elsewhere (never from this same rise); at a small rise the "
                  "thermometers' doubt is most of the answer" +
                  std::string(rules_decide),
         .sources = {"iapws-if97"},
         .cautions = {"hot_water"}},
        [](FlowInput const& in)
        { return FlowOutput{flow_from_rise(in.input, in.efficiency, in.rise, in.inlet_temperature)}; });
}

figures::Model heat_up_model()
{
    return figures::model<HeatUpInput, HeatUpOutput>(
        {.name = "heat_up",
         .title = "time and energy to warm the water",
         .equation = "heat = volume · density · specific heat · (to - from), both at the mean temperature; "
                     "time = heat / (input · efficiency - loss)",
         .valid = "well-mixed water, full input all the time, a constant loss; shells and ground take some heat too" +
                  std::string(rules_decide),
         .sources = {"iapws-if97"},
         .cautions = {"hot_water"}},
        heat_up_of);
}

figures::Model electric_rise_model()
{
    return figures::model<ElectricInput, ElectricOutput>(
        {.name = "electric_rise",
         .title = "how fast an electric element warms the water",
         .equation = "rise = power · elapsed / (volume · density · specific heat)",
         .valid = "all of the power reaches the water and nothing is lost: the most that can be expected" +
                  std::string(rules_decide),
         .sources = {"iapws-if97"},
         .cautions = {"hot_water"}},
        [](ElectricInput const& in)
        { return ElectricOutput{electric_rise(in.volume, in.power, in.elapsed, in.water_temperature)}; });
}

} // namespace

std::vector<figures::Model> heat_models()
{
    return {heater_rise_model(), heat_flow_estimate_model(), heat_up_model(), electric_rise_model()};
}

} // namespace padwalk::heating
