// The figures of what a pump's running costs, and of the US rule on pool pumps.
#include "models_parts.hpp"

#include "padwalk/circulation/energy.hpp"
#include "padwalk/physics/water.hpp"
#include "padwalk/units/definitions.hpp"
#include "padwalk/units/print.hpp"

namespace padwalk::circulation
{
namespace
{

using fields::Record;
using units::Number;

struct CostInput
{
    units::Power input_power{};
    units::Duration hours_per_day{};
    Number tariff{};
    std::optional<units::RotationSpeed> speed, lower_speed;
    Number exponent{};

    static Record<CostInput> const& declaration()
    {
        using In = CostInput;
        static Record<In> const record =
            Record<In>("pump_running_cost", "what a pump takes, how long, and the price of it")
                .field("input_power", &In::input_power, "electric power the motor takes at this speed")
                .required()
                .within("1 W", "100 kW")
                .like("1500 W")
                .field("hours_per_day", &In::hours_per_day, "how long it runs each day")
                .required()
                .within("0.1 h", "24 h")
                .like("8 h")
                .field("tariff", &In::tariff, "price of 1 kWh, a plain number in any money")
                .required()
                .within("0", "1000")
                .like("0.20")
                .field("speed", &In::speed, "the speed it runs at now")
                .within("100 rpm", "10000 rpm")
                .field("lower_speed", &In::lower_speed, "a lower speed to compare with")
                .within("100 rpm", "10000 rpm")
                .like("1725 rpm")
                .field("exponent", &In::exponent, "power of the speed with which the motor's input falls")
                .otherwise("2.6 ± 0.3", "the water's power falls with the cube, but motor and drive lose efficiency "
                                        "at low speed; how much is our judgement")
                .within("1.5", "3");
        return record;
    }
};

struct CostOutput
{
    units::Energy energy_month{};
    Number cost_month{};
    units::Energy energy_year{};
    Number cost_year{};
    std::optional<units::Power> lower_power;
    std::optional<units::Duration> lower_hours_per_day;
    std::optional<units::Energy> lower_energy_year;
    std::optional<Number> lower_cost_month, lower_cost_year, saved_year;
    std::optional<units::Fraction> saved_share;
    std::string in_words;

    static Record<CostOutput> const& declaration()
    {
        using Out = CostOutput;
        static Record<Out> const record =
            Record<Out>("pump_running_cost", "energy and money")
                .field("energy_month", &Out::energy_month, "energy in a month")
                .shown_in("kWh", "kWh")
                .field("cost_month", &Out::cost_month, "its cost, in the money of the tariff")
                .field("energy_year", &Out::energy_year, "energy in a year")
                .shown_in("kWh", "kWh")
                .field("cost_year", &Out::cost_year, "its cost")
                .field("lower_power", &Out::lower_power, "power at the lower speed")
                .shown_in("W", "W")
                .field("lower_hours_per_day", &Out::lower_hours_per_day, "hours a day for the same volume of water")
                .shown_in("h", "h")
                .field("lower_energy_year", &Out::lower_energy_year, "energy in a year at the lower speed")
                .shown_in("kWh", "kWh")
                .field("lower_cost_month", &Out::lower_cost_month, "cost of a month at the lower speed")
                .field("lower_cost_year", &Out::lower_cost_year, "cost of a year at the lower speed")
                .field("saved_year", &Out::saved_year, "money saved in a year")
                .field("saved_share", &Out::saved_share, "share of energy and money saved")
                .field("in_words", &Out::in_words, "what it means");
        return record;
    }
};

CostOutput pump_cost(CostInput const& in)
{
    if (in.speed.has_value() != in.lower_speed.has_value())
        throw figures::NotComputed("to compare speeds give both speed and lower_speed");
    DailyRun const now{in.input_power, in.hours_per_day};
    RunningCost const cost = running_cost(now, in.tariff);
    CostOutput out;
    out.energy_month = cost.energy_month, out.energy_year = cost.energy_year;
    out.cost_month = cost.cost_month, out.cost_year = cost.cost_year;
    if (!in.speed)
        return out;
    DailyRun const slow = at_lower_speed(now, *in.speed, *in.lower_speed, in.exponent);
    out.lower_power = slow.power;
    out.lower_hours_per_day = slow.per_day;
    if (units::in_si(slow.per_day) > units::exact::day)
        return out;
    RunningCost const lower = running_cost(slow, in.tariff);
    out.lower_energy_year = lower.energy_year;
    out.lower_cost_month = lower.cost_month, out.lower_cost_year = lower.cost_year;
    out.saved_year = cost.cost_year - lower.cost_year;
    out.saved_share = units::of_si<units::Fraction>(1 - units::in_si(lower.energy_year / cost.energy_year));
    return out;
}

void cost_in_words(CostInput const& in, CostOutput& out)
{
    if (!in.speed)
        out.in_words = "at this power and these hours; a lower speed, where the pump has one, mostly costs less";
    else if (!out.saved_year)
        out.in_words = "the day is too short to move the same volume at the lower speed; take a speed in between, or "
                       "less water where code and water quality allow";
    else
        out.in_words = "the same volume in longer hours for less energy; check that the lower flow still does for "
                       "heater, chlorine cell, skimmers and the turnover that codes ask";
}

struct CurvesInput
{
    std::vector<fields::CurvePoint> curve;
    units::Fraction speed_ratio{};
    units::Temperature water_temperature{};

    static Record<CurvesInput> const& declaration()
    {
        static Record<CurvesInput> const record =
            Record<CurvesInput>("reference_system_curves", "a pump's curve and its speed")
                .field("curve", &CurvesInput::curve,
                       "points flow:head of this pump's curve; three, the first at no flow, are best")
                .required()
                .field("speed_ratio", &CurvesInput::speed_ratio, "speed as a share of the curve's")
                .otherwise("100 %", "the pump is taken to run at the speed of its curve")
                .within("5 %", "200 %")
                .field("water_temperature", &CurvesInput::water_temperature, "temperature of the water")
                .otherwise(usual_water, usual_water_because)
                .within("32 degF", "140 degF");
        return record;
    }
};

struct OnCurve
{
    std::optional<units::VolumeFlow> flow;
    std::optional<units::Head> head;
    std::optional<units::Power> power;
};

struct CurvesOutput
{
    std::optional<units::VolumeFlow> flow_a, flow_b, flow_c;
    std::optional<units::Head> head_a, head_b, head_c;
    std::optional<units::Power> hydraulic_power_a, hydraulic_power_b, hydraulic_power_c;
    std::string in_words;

    static Record<CurvesOutput> const& declaration()
    {
        using Out = CurvesOutput;
        static Record<Out> const record =
            Record<Out>("reference_system_curves", "the pump on each curve")
                .field("flow_c", &Out::flow_c, "flow on curve C")
                .shown_in("gpm", "m3/h")
                .field("head_c", &Out::head_c, "head on curve C")
                .field("hydraulic_power_c", &Out::hydraulic_power_c, "power that the water gains on curve C")
                .shown_in("hp", "W")
                .field("flow_a", &Out::flow_a, "flow on curve A")
                .shown_in("gpm", "m3/h")
                .field("head_a", &Out::head_a, "head on curve A")
                .field("hydraulic_power_a", &Out::hydraulic_power_a, "power that the water gains on curve A")
                .shown_in("hp", "W")
                .field("flow_b", &Out::flow_b, "flow on curve B")
                .shown_in("gpm", "m3/h")
                .field("head_b", &Out::head_b, "head on curve B")
                .field("hydraulic_power_b", &Out::hydraulic_power_b, "power that the water gains on curve B")
                .shown_in("hp", "W")
                .field("in_words", &Out::in_words, "where the curves come from, and which the pump's does not meet");
        return record;
    }
};

// The duty on the curve of this letter; nothing, and the reason in `why`, where the pump's curve is too short.
OnCurve on_curve(char const* name, std::vector<ReferenceCurve> const& curves, CurvesInput const& in, std::string& why)
{
    for (auto const& curve : curves)
    {
        if (curve.name != name)
            continue;
        PumpCurve const pump(in.curve, in.speed_ratio);
        try
        {
            Duty const duty = duty_on(curve, pump, in.water_temperature);
            return {duty.flow, duty.head, duty.power};
        }
        catch (figures::NotComputed const& outside)
        {
            why += std::string("; ") + outside.what();
        }
    }
    return {};
}

CurvesOutput reference_curves(CurvesInput const& in, std::vector<ReferenceCurve> const& curves)
{
    CurvesOutput out;
    std::string why;
    OnCurve const a = on_curve("A", curves, in, why), b = on_curve("B", curves, in, why),
                  c = on_curve("C", curves, in, why);
    if (!a.flow && !b.flow && !c.flow)
        throw figures::NotComputed(why.substr(2));
    out.flow_a = a.flow, out.head_a = a.head, out.hydraulic_power_a = a.power;
    out.flow_b = b.flow, out.head_b = b.head, out.hydraulic_power_b = b.power;
    out.flow_c = c.flow, out.head_c = c.head, out.hydraulic_power_c = c.power;
    out.in_words = "the US rule compares pumps on curve C; A and B belong to older test methods; all three "
                   "coefficients are from memory" +
                   why;
    return out;
}

struct FactorInput
{
    units::VolumeFlow high_flow{};
    units::Power high_power{};
    std::optional<units::VolumeFlow> low_flow;
    std::optional<units::Power> low_power;
    PumpKind kind = PumpKind::self_priming;
    std::optional<units::Power> hydraulic_power;

    static Record<FactorInput> const& declaration()
    {
        using In = FactorInput;
        static Record<In> const record =
            Record<In>("weighted_energy_factor", "a pump's test points")
                .field(
                    "high_flow", &In::high_flow,
                    "flow at the high point: 80 % of the greatest flow on curve C; of a pump of one speed, all of it")
                .required()
                .within("1 gpm", "5000 gpm")
                .like("56 gpm")
                .field("high_power", &In::high_power, "electric power there")
                .required()
                .within("1 W", "100 kW")
                .like("600 W")
                .field("low_flow", &In::low_flow, "flow at the low point; left out for a pump of one speed")
                .within("0.1 gpm", "5000 gpm")
                .like("24.7 gpm")
                .field("low_power", &In::low_power, "electric power there")
                .within("1 W", "100 kW")
                .like("60 W")
                .field("kind", &In::kind, "kind of pump")
                .otherwise("self_priming", "pool filter pumps beside the water mostly are")
                .field("hydraulic_power", &In::hydraulic_power,
                       "rated hydraulic power: on curve C at full speed (see reference_system_curves)")
                .within("0.001 hp", "20 hp")
                .shown_in("hp", "W")
                .like("0.7 hp");
        return record;
    }
};

struct FactorOutput
{
    Number weighted_energy_factor{};
    std::optional<Number> minimum;
    std::string in_words;

    static Record<FactorOutput> const& declaration()
    {
        static Record<FactorOutput> const record =
            Record<FactorOutput>("weighted_energy_factor", "water moved for the energy")
                .field("weighted_energy_factor", &FactorOutput::weighted_energy_factor, "thousand gallons for 1 kWh")
                .field("minimum", &FactorOutput::minimum, "least factor that the US rule asks of such a pump")
                .field("in_words", &FactorOutput::in_words, "how it stands to the rule");
        return record;
    }
};

FactorOutput energy_factor(FactorInput const& in, PumpRule const& rule)
{
    if (in.low_flow.has_value() != in.low_power.has_value())
        throw figures::NotComputed("the low point needs both low_flow and low_power");
    std::optional<TestPoint> low;
    if (in.low_flow)
        low = TestPoint{*in.low_flow, *in.low_power};
    FactorOutput out;
    out.weighted_energy_factor = weighted_energy_factor(low, {in.high_flow, in.high_power}, rule.low_flow_weight.value);
    if (in.hydraulic_power)
        if (auto const* row = minimum_row(rule, in.kind, *in.hydraulic_power))
            out.minimum = minimum_factor(*row, *in.hydraulic_power);
    return out;
}

void factor_in_words(FactorInput const& in, FactorOutput& out, PumpRule const& rule)
{
    if (!in.hydraulic_power)
    {
        out.in_words = "the rule's least factor goes by the hydraulic power, which was not given";
        return;
    }
    auto const* row = minimum_row(rule, in.kind, *in.hydraulic_power);
    if (row == nullptr)
    {
        out.in_words = "the rule sets no least factor for so much hydraulic power";
        return;
    }
    bool const enough = out.weighted_energy_factor >= *out.minimum;
    out.in_words = std::string(enough ? "not below" : "below") +
                   " the least that the US rule asks of pumps made from 19 July 2021 on (" + row->source.where +
                   (row->source.seen == reference::Seen::read ? ", read in a copy)" : ", from memory)") +
                   (enough ? "" : "; an older pump is not bound by it");
}

} // namespace

void add_energy_models(std::vector<figures::Model>& models, PumpRule const& rule, double curve_doubt)
{
    models.push_back(figures::model<CostInput, CostOutput>(
        {.name = "pump_running_cost",
         .title = "what a pump's running costs, and what a lower speed would save",
         .equation =
             "energy = power x hours x 365.25/12 days (a month); cost = energy x tariff. Same volume at a lower "
             "speed: hours x n/n2, power x (n2/n)^e",
         .valid = "one speed and tariff all year; hours are those of the whole day. Lower speed: a loop of friction "
                  "only, without lift. From memory: measured input falls less than the cube; the exponent 2.6 ± 0.3 is "
                  "our judgement, and a measured power at the lower speed goes before it",
         .sources = {"hydraulic-institute", "judgement"}},
        pump_cost, cost_in_words));
    models.push_back(figures::model<CurvesInput, CurvesOutput>(
        {.name = "reference_system_curves",
         .title = "flow, head and power of a pump on the system curves by which pool pumps are compared",
         .equation = "root of H(Q) = c Q², c = 0.0167 (A), 0.050 (B), 0.0082 (C) ft/gpm²; P = rho g Q H",
         .valid = "between the first and last point of the pump's curve. No real loop is one of these curves. "
                  "Coefficients from memory: read appendix C of the rule before relying on them. The doubt is that of "
                  "a printed curve, a share from the table of instruments (row 'curve')",
         .sources = {"circ-dppp-rule", "circ-apsp-15", "hydraulic-institute", "iapws-if97", "judgement"},
         .own_doubt = curve_doubt},
        [curves = rule.reference_curves](CurvesInput const& in) { return reference_curves(in, curves); }));
    models.push_back(figures::model<FactorInput, FactorOutput>(
        {.name = "weighted_energy_factor",
         .title = "water that a pool pump moves for its energy, as the US rule weighs it",
         .equation = "WEF = sum(w Q 60/1000)/sum(w P/1000), Q gpm, P W; w 0.8 low, 0.2 high, one speed: 1. Least: "
                     "constant + slope ln(hhp), hhp on curve C at full speed",
         .valid = "test points as the rule lays them, not those of a loop on site. Low point: 24.7 gpm up to 0.75 hp, "
                  "31.1 gpm above, on curve C or higher. Weights and points from memory; of the least factors the "
                  "self-priming rows were read in a copy that was cut off, the others are from memory",
         .sources = {"circ-dppp-rule"}},
        [rule](FactorInput const& in) { return energy_factor(in, rule); },
        [rule](FactorInput const& in, FactorOutput& out) { factor_in_words(in, out, rule); }));
}

} // namespace padwalk::circulation
