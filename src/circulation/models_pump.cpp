#include "models_parts.hpp"

#include "padwalk/circulation/pump.hpp"

namespace padwalk::circulation
{
namespace
{

using fields::Record;

struct PumpFlowInput
{
    std::vector<fields::CurvePoint> curve;
    units::Head head{};
    units::Fraction speed_ratio{};

    static Record<PumpFlowInput> const& declaration()
    {
        static Record<PumpFlowInput> const record =
            Record<PumpFlowInput>("pump_flow", "a pump's curve and its total head")
                .field("curve", &PumpFlowInput::curve,
                       "points flow:head of this pump's curve; three, the first at no flow, are best")
                .required()
                .field("head", &PumpFlowInput::head, "total dynamic head at the pump")
                .required()
                .within("0 ft", "500 ft")
                .field("speed_ratio", &PumpFlowInput::speed_ratio, "speed as a share of the curve's")
                .otherwise("100 %", "the pump is taken to run at the speed of its curve")
                .within("5 %", "200 %");
        return record;
    }
};

struct PumpFlowOutput
{
    units::VolumeFlow flow{};

    static Record<PumpFlowOutput> const& declaration()
    {
        static Record<PumpFlowOutput> const record = Record<PumpFlowOutput>("pump_flow", "flow by the curve")
                                                         .field("flow", &PumpFlowOutput::flow, "flow at this head")
                                                         .shown_in("gpm", "m3/h");
        return record;
    }
};

struct PumpSpeedInput
{
    units::VolumeFlow flow{};
    units::Head head{};
    std::optional<units::Power> power;
    units::RotationSpeed speed{};
    units::RotationSpeed new_speed{};

    static Record<PumpSpeedInput> const& declaration()
    {
        static Record<PumpSpeedInput> const record =
            Record<PumpSpeedInput>("pump_speed", "a duty and two speeds")
                .field("flow", &PumpSpeedInput::flow, "flow at the first speed")
                .required()
                .within("0.1 gpm", "5000 gpm")
                .field("head", &PumpSpeedInput::head, "total dynamic head at the first speed")
                .required()
                .within("0.1 ft", "500 ft")
                .field("power", &PumpSpeedInput::power, "shaft power at the first speed")
                .within("1 W", "100 hp")
                .field("speed", &PumpSpeedInput::speed, "the first speed")
                .required()
                .within("100 rpm", "10000 rpm")
                .field("new_speed", &PumpSpeedInput::new_speed, "the other speed")
                .required()
                .within("100 rpm", "10000 rpm");
        return record;
    }
};

struct PumpSpeedOutput
{
    units::VolumeFlow new_flow{};
    units::Head new_head{};
    std::optional<units::Power> new_power;

    static Record<PumpSpeedOutput> const& declaration()
    {
        static Record<PumpSpeedOutput> const record =
            Record<PumpSpeedOutput>("pump_speed", "the duty at the other speed")
                .field("new_flow", &PumpSpeedOutput::new_flow, "flow at the other speed")
                .shown_in("gpm", "m3/h")
                .field("new_head", &PumpSpeedOutput::new_head, "head at the other speed")
                .field("new_power", &PumpSpeedOutput::new_power, "shaft power at the other speed")
                .shown_in("W", "W");
        return record;
    }
};

PumpSpeedOutput pump_speed(PumpSpeedInput const& in)
{
    Duty const duty = at_speed({in.flow, in.head, in.power}, in.speed, in.new_speed);
    return {duty.flow, duty.head, duty.power};
}

struct WaterPowerInput
{
    units::VolumeFlow flow{};
    units::Head head{};
    units::Temperature water_temperature{};
    std::optional<units::Power> input_power;

    static Record<WaterPowerInput> const& declaration()
    {
        static Record<WaterPowerInput> const record =
            Record<WaterPowerInput>("water_power", "flow, head and what the motor takes")
                .field("flow", &WaterPowerInput::flow, "flow")
                .required()
                .within("0 gpm", "5000 gpm")
                .field("head", &WaterPowerInput::head, "total dynamic head")
                .required()
                .within("0 ft", "500 ft")
                .field("water_temperature", &WaterPowerInput::water_temperature, "temperature of the water")
                .otherwise(usual_water, usual_water_because)
                .within("32 degF", "140 degF")
                .field("input_power", &WaterPowerInput::input_power, "electric power the motor takes")
                .within("1 W", "100 kW");
        return record;
    }
};

struct WaterPowerOutput
{
    units::Power hydraulic_power{};
    std::optional<units::Fraction> efficiency;

    static Record<WaterPowerOutput> const& declaration()
    {
        static Record<WaterPowerOutput> const record =
            Record<WaterPowerOutput>("water_power", "power in the water")
                .field("hydraulic_power", &WaterPowerOutput::hydraulic_power, "power that the water gains")
                .shown_in("W", "W")
                .field("efficiency", &WaterPowerOutput::efficiency, "that power over the motor's input: wire to water");
        return record;
    }
};

WaterPowerOutput water_power(WaterPowerInput const& in)
{
    WaterPowerOutput out{hydraulic_power(in.flow, in.head, in.water_temperature), std::nullopt};
    if (!in.input_power)
        return out;
    double const efficiency = units::in_si(out.hydraulic_power / *in.input_power);
    if (efficiency >= 1)
        throw figures::NotComputed(
            "the water would gain more power than the motor takes; flow, head or input_power is wrong");
    out.efficiency = units::of_si<units::Fraction>(efficiency);
    return out;
}

} // namespace

void add_pump_models(std::vector<figures::Model>& models, double curve_doubt)
{
    models.push_back(figures::model<PumpFlowInput, PumpFlowOutput>(
        {.name = "pump_flow",
         .title = "flow at which a pump's curve has a head",
         .equation = "three points, the first at no flow: H = h0 - b Q^n exactly through them; otherwise a smooth "
                     "falling curve. At a share s "
                     "of the curve's speed: H(Q) = s² h(Q/s)",
         .valid = "between the first and last point of the curve, same pump and impeller. A worn pump gives less. "
                  "The doubt is that of a new pump against its printed curve, a share of the flow from the table of "
                  "instruments (row 'curve', our judgement); nothing is added to it for wear",
         .sources = {"circ-epanet", "hydraulic-institute", "judgement"},
         .own_doubt = curve_doubt},
        [](PumpFlowInput const& in) { return PumpFlowOutput{PumpCurve(in.curve, in.speed_ratio).flow_at(in.head)}; }));
    models.push_back(figures::model<PumpSpeedInput, PumpSpeedOutput>(
        {.name = "pump_speed",
         .title = "flow, head and shaft power of a pump at another speed",
         .equation = "Q ~ n,  H ~ n²,  P ~ n³",
         .valid = "same pump on a loop of friction only. With lift (a roof collector, a spillover) the flow falls "
                  "faster; measured input "
                  "power falls less than n³, for motor and drive lose efficiency. The doubt of 3 % (standard) is our "
                  "judgement",
         .sources = {"hydraulic-institute", "judgement"},
         .own_doubt = 0.03},
        pump_speed));
    models.push_back(figures::model<WaterPowerInput, WaterPowerOutput>(
        {.name = "water_power",
         .title = "power that the water gains, and the share of the motor's input that is",
         .equation = "P = rho g Q H;  efficiency = P / input power",
         .valid = "steady flow. From memory: small pool pumps reach 20 to 50 % wire to water",
         .sources = {"hydraulic-institute", "iapws-if97"}},
        water_power));
}

} // namespace padwalk::circulation
