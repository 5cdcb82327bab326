#include "padwalk/venting/flue_flow.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/physics/constants.hpp"

#include <cmath>
#include <numbers>
#include <stdexcept>

namespace padwalk::venting
{

using fields::Record;

Record<FlueLoss> const& FlueLoss::declaration()
{
    static Record<FlueLoss> const record = Record<FlueLoss>("loss", "one loss of a flue run")
                                               .field("k", &FlueLoss::k, "of the velocity pressure")
                                               .required()
                                               .field("source", &FlueLoss::source, "where it comes from")
                                               .required();
    return record;
}

Record<FlueEntrance> const& FlueEntrance::declaration()
{
    static Record<FlueEntrance> const record = Record<FlueEntrance>("entrance", "how the gas comes into the vent")
                                                   .field("moved_by", &FlueEntrance::moved_by, "what moves it")
                                                   .required()
                                                   .field("k", &FlueEntrance::k, "of the velocity pressure")
                                                   .required()
                                                   .field("note", &FlueEntrance::note, "what else to know")
                                                   .field("source", &FlueEntrance::source, "where it comes from")
                                                   .required();
    return record;
}

Record<FlueGasOf> const& FlueGasOf::declaration()
{
    static Record<FlueGasOf> const record = Record<FlueGasOf>("gas", "what burns to how much flue gas")
                                                .field("fuel", &FlueGasOf::fuel, "which gas")
                                                .required()
                                                .field("air", &FlueGasOf::air, "mass of air for one of fuel")
                                                .required()
                                                .field("heat", &FlueGasOf::heat, "gross heat of the fuel")
                                                .required()
                                                .field("source", &FlueGasOf::source, "where it comes from")
                                                .required();
    return record;
}

Record<ColdStart> const& ColdStart::declaration()
{
    static Record<ColdStart> const record = Record<ColdStart>("cold_start", "a vent just lit")
                                                .field("warmer", &ColdStart::warmer, "its gas than the air outside")
                                                .required()
                                                .field("source", &ColdStart::source, "where it comes from")
                                                .required();
    return record;
}

Record<FlueFlowFacts> const& FlueFlowFacts::declaration()
{
    using F = FlueFlowFacts;
    static Record<F> const record = Record<F>("flue_flow", "what the flow takes of a vent's pull")
                                        .field("entrances", &F::entrances, "how the gas comes in")
                                        .required()
                                        .field("elbow_90", &F::elbow_90, "a right angle")
                                        .required()
                                        .field("elbow_60", &F::elbow_60, "a bend of 60 degrees")
                                        .required()
                                        .field("elbow_45", &F::elbow_45, "a bend of 45 degrees")
                                        .required()
                                        .field("cap", &F::cap, "the cap")
                                        .required()
                                        .field("wall", &F::wall, "times length over bore")
                                        .required()
                                        .field("gases", &F::gases, "what burns to how much flue gas")
                                        .required()
                                        .field("cold_start", &F::cold_start, "a vent just lit")
                                        .required()
                                        .field("sources", &F::sources, "works cited");
    return record;
}

FlueEntrance const& FlueFlowFacts::entrance(MovedBy by) const
{
    for (auto const& row : entrances)
        if (row.moved_by == by)
            return row;
    throw std::logic_error("venting/flue_flow.yaml has no entrance for what moves the gas");
}

FlueGasOf const& FlueFlowFacts::gas(StackFuel fuel) const
{
    for (auto const& row : gases)
        if (row.fuel == fuel)
            return row;
    throw std::logic_error("venting/flue_flow.yaml has no flue gas for a fuel");
}

FlueFlowFacts flue_flow_facts(reference::Data const& data)
{
    return reference::read_table<FlueFlowFacts>(data, "venting/flue_flow.yaml");
}

units::Number loss_of_run(FlueRun const& run, FlueFlowFacts const& facts)
{
    units::Number const bends =
        facts.elbow_90.k * run.elbows_90 + facts.elbow_60.k * run.elbows_60 + facts.elbow_45.k * run.elbows_45;
    double const bores = units::in_si(run.height + run.run) / units::in_si(run.bore);
    units::Number const cap = run.capped ? facts.cap.k : units::Number{};
    return facts.entrance(run.moved_by).k + bends + cap + facts.wall.k * bores;
}

units::MassFlow flue_gas_flow(units::Power input, units::Fraction excess_air, FlueGasOf const& gas)
{
    double const gas_per_fuel = 1 + (1 + excess_air.value()) * gas.air.value();
    return input / gas.heat * gas_per_fuel;
}

DraftBalance draft_balance(FlueRun const& run, units::MassFlow flow, FlueWeather const& weather,
                           FlueFlowFacts const& facts)
{
    if (!(units::in_si(run.bore) > 0))
        throw figures::NotComputed("a vent without a bore carries nothing");
    units::Density const density = weather.air.from_zero() / (physics::dry_air_gas_constant * weather.flue.from_zero());
    units::Area const section = run.bore * run.bore * (std::numbers::pi / 4);
    DraftBalance out;
    out.velocity = flow / (density * section);
    out.velocity_pressure = density * out.velocity * out.velocity / 2.0;
    out.theoretical = stack_draft(run.height, weather.outside, weather.flue, weather.air);
    out.losses = out.velocity_pressure * loss_of_run(run, facts).value();
    out.available = out.theoretical - out.losses;
    double const pull = units::in_si(out.theoretical), taken = units::in_si(out.losses);
    out.carried = units::Fraction::from_value(pull > 0 && taken > 0 ? std::sqrt(pull / taken) : 0.0);
    return out;
}

std::string spill_in_words(DraftBalance const& hot, DraftBalance const& just_lit, MovedBy by)
{
    if (by == MovedBy::fan || by == MovedBy::direct)
        return "a fan moves the gas: whether it gets away is the fan's matter, and this pull is only beside it";
    constexpr double sure = 1.25; // judgement: losses are known to 20 to 50 %, the flow goes with their root
    double const when_hot = hot.carried.value(), at_first = just_lit.carried.value();
    std::string const doubt = "; losses are known to 20 to 50 % only, and a test for spill by a technician decides";
    if (when_hot < 1 / sure)
        return "the pull can't carry all of the gas even when hot: it spills at the heater" + doubt;
    if (when_hot < sure)
        return "the pull is about what the flow takes of it: whether it spills can't be told from this" + doubt;
    if (at_first < 1 / sure)
        return "enough when hot; just lit, a cold vent carries only part of the gas and the rest spills until it has "
               "warmed up" +
               doubt;
    return "more than the flow takes of it, hot and just lit, if the vent is open and no fan holds the room low" +
           doubt;
}

} // namespace padwalk::venting
