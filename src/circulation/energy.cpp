#include "padwalk/circulation/energy.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/numerics/root.hpp"
#include "padwalk/units/definitions.hpp"
#include "padwalk/units/print.hpp"

#include <cmath>

namespace padwalk::circulation
{

using fields::Record;

Record<ReferenceCurve> const& ReferenceCurve::declaration()
{
    static Record<ReferenceCurve> const record =
        Record<ReferenceCurve>("reference curve", "a system curve on which pumps are compared")
            .field("name", &ReferenceCurve::name, "its letter")
            .required()
            .field("feet_per_gpm_squared", &ReferenceCurve::feet_per_gpm_squared, "head over flow squared, ft/gpm²")
            .within("0.0001", "1")
            .required()
            .field("used_by", &ReferenceCurve::used_by, "who uses it")
            .required()
            .field("source", &ReferenceCurve::source, "where it stands")
            .required();
    return record;
}

Record<FactorMinimum> const& FactorMinimum::declaration()
{
    static Record<FactorMinimum> const record =
        Record<FactorMinimum>("minimum", "least weighted energy factor")
            .field("kind", &FactorMinimum::kind, "kind of pump")
            .required()
            .field("up_to", &FactorMinimum::up_to, "hydraulic power where the row ends")
            .within("0.01 hp", "20 hp")
            .required()
            .field("end_included", &FactorMinimum::end_included, "a pump of just that power falls under it")
            .required()
            .field("constant", &FactorMinimum::constant, "kgal/kWh")
            .required()
            .field("slope", &FactorMinimum::slope, "times ln of the hydraulic power in hp")
            .required()
            .field("source", &FactorMinimum::source, "where it stands")
            .required();
    return record;
}

Record<PumpRule> const& PumpRule::declaration()
{
    static Record<PumpRule> const record =
        Record<PumpRule>("pump rule", "the US rule on pool pumps")
            .field("reference_curves", &PumpRule::reference_curves, "system curves")
            .required()
            .field("low_flow_weight", &PumpRule::low_flow_weight, "weight of the low flow")
            .required()
            .field("minimums", &PumpRule::minimums, "least factors")
            .required();
    return record;
}

namespace
{

struct EnergyFile
{
    PumpRule table;
    fields::Named<reference::Source> sources;
    static Record<EnergyFile> const& declaration()
    {
        static Record<EnergyFile> const record = Record<EnergyFile>("file", "the rule and the works it cites")
                                                     .field("table", &EnergyFile::table, "the rule")
                                                     .required()
                                                     .field("sources", &EnergyFile::sources, "works cited");
        return record;
    }
};

units::Duration year()
{
    return units::of_si<units::Duration>(365.25 * units::exact::day);
}

std::string text(units::VolumeFlow flow)
{
    return units::show(units::Measure::volume_flow, units::in_si(flow), 0, {units::System::us, "gpm", {}});
}

} // namespace

PumpRule pump_rule(reference::Data const& data)
{
    return reference::read_table<EnergyFile>(data, "circulation/energy.yaml").table;
}

RunningCost running_cost(DailyRun const& run, units::Number tariff)
{
    RunningCost out;
    double const running = units::in_si(run.per_day) / units::exact::day;
    out.energy_year = run.power * (year() * running);
    out.energy_month = out.energy_year / 12.0;
    out.cost_year = tariff * (units::in_si(out.energy_year) / units::exact::kilowatt_hour);
    out.cost_month = out.cost_year / 12.0;
    return out;
}

DailyRun at_lower_speed(DailyRun const& run, units::RotationSpeed speed, units::RotationSpeed lower_speed,
                        units::Number exponent)
{
    double const s = lower_speed / speed;
    if (!(s > 0 && s < 1))
        throw figures::NotComputed("lower_speed must be below speed");
    return {run.power * std::pow(s, exponent.value()), run.per_day / s};
}

units::Head ReferenceCurve::head_at(units::VolumeFlow flow) const
{
    double const gpm = units::in_si(flow) / (units::exact::us_gallon / units::exact::minute);
    return units::of_si<units::Head>(feet_per_gpm_squared.value() * gpm * gpm * units::exact::foot);
}

Duty duty_on(ReferenceCurve const& curve, PumpCurve const& pump, units::Temperature water)
{
    auto const surplus_m = [&](units::VolumeFlow flow) { return (pump.head_at(flow) - curve.head_at(flow)).value(); };
    if (surplus_m(pump.greatest_flow()) > 0)
        throw figures::NotComputed("curve " + curve.name + " meets the pump's beyond its last point, " +
                                   text(pump.greatest_flow()) + "; give a point at a higher flow");
    if (surplus_m(pump.least_flow()) < 0)
        throw figures::NotComputed("curve " + curve.name + " meets the pump's before its first point, " +
                                   text(pump.least_flow()) + "; give a point at a lower flow");
    double const root =
        numerics::bracketed_root([&](double q) { return surplus_m(units::of_si<units::VolumeFlow>(q)); },
                                 units::in_si(pump.least_flow()), units::in_si(pump.greatest_flow()), 1e-12);
    auto const flow = units::of_si<units::VolumeFlow>(root);
    units::Head const head = curve.head_at(flow);
    return {flow, head, hydraulic_power(flow, head, water)};
}

units::Number weighted_energy_factor(std::optional<TestPoint> const& low, TestPoint const& high,
                                     units::Number low_weight)
{
    double const w = low ? low_weight.value() : 0;
    units::VolumeFlow flow = high.flow * (1 - w);
    units::Power input = high.input * (1 - w);
    if (low)
    {
        flow = flow + low->flow * w;
        input = input + low->input * w;
    }
    // 1000 gal in 1 kWh, in m3/J
    constexpr double unit = 1000 * units::exact::us_gallon / units::exact::kilowatt_hour;
    return units::of_si<units::Number>(units::in_si(flow) / units::in_si(input) / unit);
}

FactorMinimum const* minimum_row(PumpRule const& rule, PumpKind kind, units::Power hydraulic)
{
    for (auto const& row : rule.minimums)
        if (row.kind == kind && (row.end_included ? hydraulic <= row.up_to : hydraulic < row.up_to))
            return &row;
    return nullptr;
}

units::Number minimum_factor(FactorMinimum const& row, units::Power hydraulic)
{
    return row.constant + row.slope * std::log(units::in_si(hydraulic) / units::exact::horsepower);
}

} // namespace padwalk::circulation
