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

} // namespace

std::vector<figures::Model> heat_models()
{
    return {heater_rise_model(), heat_flow_estimate_model()};
}

} // namespace padwalk::heating
