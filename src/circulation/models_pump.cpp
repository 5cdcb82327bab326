#include "models_parts.hpp"

#include "padwalk/circulation/energy.hpp"
#include "padwalk/circulation/pump.hpp"
#include "padwalk/units/definitions.hpp"

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

struct PumpEnergyInput
{
    units::Power input_power{};
    std::optional<units::Duration> hours_per_day;

    static Record<PumpEnergyInput> const& declaration()
    {
        static Record<PumpEnergyInput> const record =
            Record<PumpEnergyInput>("pump_energy", "what a pump takes, and how long")
                .field("input_power", &PumpEnergyInput::input_power, "electric power the motor takes at this speed")
                .required()
                .within("1 W", "100 kW")
                .like("1500 W")
                .field("hours_per_day", &PumpEnergyInput::hours_per_day, "how long it runs each day")
                .within("0.1 h", "24 h")
                .like("8 h");
        return record;
    }
};

struct PumpEnergyOutput
{
    units::Energy energy_hour{};
    std::optional<units::Energy> energy_month, energy_year;

    static Record<PumpEnergyOutput> const& declaration()
    {
        static Record<PumpEnergyOutput> const record =
            Record<PumpEnergyOutput>("pump_energy", "energy it takes")
                .field("energy_hour", &PumpEnergyOutput::energy_hour, "energy for each hour that it runs")
                .shown_in("kWh", "kWh")
                .field("energy_month", &PumpEnergyOutput::energy_month, "energy in a month")
                .shown_in("kWh", "kWh")
                .field("energy_year", &PumpEnergyOutput::energy_year, "energy in a year")
                .shown_in("kWh", "kWh");
        return record;
    }
};

PumpEnergyOutput pump_energy(PumpEnergyInput const& in)
{
    PumpEnergyOutput out;
    out.energy_hour = in.input_power * units::of_si<units::Duration>(units::exact::hour);
    if (in.hours_per_day)
    {
        RunningCost const run = running_cost({in.input_power, *in.hours_per_day}, {});
        out.energy_month = run.energy_month, out.energy_year = run.energy_year;
    }
    return out;
}

struct LowerSpeedInput
{
    units::Power input_power{};
    units::VolumeFlow flow{};
    units::Fraction speed_share{};
    units::Number exponent{};
    std::optional<units::Volume> volume;
    std::optional<units::Duration> hours_per_day;
    std::optional<units::Number> tariff;

    static Record<LowerSpeedInput> const& declaration()
    {
        using In = LowerSpeedInput;
        static Record<In> const record =
            Record<In>("pump_lower_speed", "a pump at work and a lower speed")
                .field("input_power", &In::input_power, "electric power the motor takes now")
                .required()
                .within("1 W", "100 kW")
                .like("1500 W")
                .field("flow", &In::flow, "flow now")
                .required()
                .within("0.1 gpm", "5000 gpm")
                .field("speed_share", &In::speed_share, "the lower speed as a share of the speed now")
                .required()
                .within("20 %", "99 %")
                .like("60 %")
                .field("exponent", &In::exponent, "power of the speed with which the motor's input falls")
                .otherwise("2.6 ± 0.3", "the water's power falls with the cube, but motor and drive lose efficiency "
                                        "at low speed; how much is our judgement")
                .within("1.5", "3")
                .field("volume", &In::volume, "water that it turns over")
                .within("1 gal", "2000000 gal")
                .field("hours_per_day", &In::hours_per_day, "how long it runs each day now")
                .within("0.1 h", "24 h")
                .like("8 h")
                .field("tariff", &In::tariff, "price of 1 kWh, a plain number in any money")
                .within("0", "1000")
                .like("0.20");
        return record;
    }
};

struct LowerSpeedOutput
{
    units::Fraction saved_share{};
    std::optional<units::Number> saved_year;
    std::optional<units::Energy> saved_energy_year;
    std::optional<units::Duration> turnover, lower_hours_per_day;
    units::Power lower_power{};
    units::VolumeFlow lower_flow{};
    std::string in_words;

    static Record<LowerSpeedOutput> const& declaration()
    {
        using Out = LowerSpeedOutput;
        static Record<Out> const record =
            Record<Out>("pump_lower_speed", "the same water moved more slowly")
                .field("saved_share", &Out::saved_share, "share of the energy saved for the same volume of water")
                .field("saved_year", &Out::saved_year, "money saved in a year, in the money of the tariff")
                .field("saved_energy_year", &Out::saved_energy_year, "energy saved in a year")
                .shown_in("kWh", "kWh")
                .field("turnover", &Out::turnover, "time for one turnover at the lower speed")
                .shown_in("h", "h")
                .field("lower_hours_per_day", &Out::lower_hours_per_day, "hours a day for the same volume of water")
                .shown_in("h", "h")
                .field("lower_power", &Out::lower_power, "electric power there")
                .shown_in("W", "W")
                .field("lower_flow", &Out::lower_flow, "flow at the lower speed")
                .shown_in("gpm", "m3/h")
                .field("in_words", &Out::in_words, "what to look at before");
        return record;
    }
};

LowerSpeedOutput lower_speed(LowerSpeedInput const& in)
{
    double const s = in.speed_share.value();
    LowerSpeedOutput out;
    out.lower_flow = in.flow * s;
    DailyRun const now{in.input_power, in.hours_per_day.value_or(units::of_si<units::Duration>(0))};
    DailyRun const slow =
        at_lower_speed(now, units::of_si<units::RotationSpeed>(1), units::of_si<units::RotationSpeed>(s), in.exponent);
    out.lower_power = slow.power;
    out.saved_share = units::of_si<units::Fraction>(1 - units::in_si(slow.power / now.power) / s);
    if (in.volume)
        out.turnover = *in.volume / out.lower_flow;
    if (!in.hours_per_day)
        return out;
    out.lower_hours_per_day = slow.per_day;
    if (units::in_si(slow.per_day) > units::exact::day)
        return out;
    units::Number const price = in.tariff.value_or(units::Number{});
    RunningCost const before = running_cost(now, price), after = running_cost(slow, price);
    out.saved_energy_year = before.energy_year - after.energy_year;
    if (in.tariff)
        out.saved_year = before.cost_year - after.cost_year;
    return out;
}

void lower_speed_in_words(LowerSpeedInput const& in, LowerSpeedOutput& out)
{
    bool const too_short = in.hours_per_day && !out.saved_energy_year;
    out.in_words = too_short ? "the day is too short to move the same volume at this speed; take one in between"
                             : "the same volume in longer hours for less energy; check that the lower flow still does "
                               "for heater, chlorine cell, skimmers and the turnover that codes ask";
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
    models.push_back(figures::model<PumpEnergyInput, PumpEnergyOutput>(
        {.name = "pump_energy",
         .title = "energy that a pump takes for each hour, month and year",
         .equation = "energy = power x hours; a month: hours a day x 365.25/12 days",
         .valid = "one speed; the power as measured, or volts x amps x power factor, for a nameplate is not what a "
                  "motor takes. With a price: pump_running_cost",
         .sources = {"judgement"}},
        pump_energy));
    models.push_back(figures::model<LowerSpeedInput, LowerSpeedOutput>(
        {.name = "pump_lower_speed",
         .title = "what the same water costs at a lower speed",
         .equation = "s = speed share: flow s Q, power s^e P, hours t/s;  saved = 1 - s^(e-1);  turnover = V/(s Q)",
         .valid = "a loop of friction only, without lift (a roof collector, a spillover), where the flow falls with "
                  "the speed. From memory: measured input falls less than the cube; the exponent 2.6 ± 0.3 is our "
                  "judgement, and a power measured at the lower speed goes before it",
         .sources = {"hydraulic-institute", "judgement"}},
        lower_speed, lower_speed_in_words));
}

} // namespace padwalk::circulation
