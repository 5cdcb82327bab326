// The pull of a vent, and what the flow of its gas takes of it.
#include "heater_bench.hpp"

#include "padwalk/venting/flue_flow.hpp"

namespace padwalk::assess
{
namespace
{

using units::Measured;

/// Only a draft hood lives by the pull of its stack. Where the kind was not said a weak pull may mean nothing.
bool may_live_by_pull(HeaterBench& b)
{
    if (!b.v.vent || !b.v.vent->height || !b.vent || !burns_gas(b.v))
        return false;
    auto const& kind = b.v.vent->kind;
    if (kind && *kind != visit::VentKind::draft_hood)
        return false;
    if (!kind && b.v.stands == visit::HeaterPlace::outdoors)
    {
        b.w.out.not_tested.push_back(
            {*b.vent, "draft", "the kind of vent was not said, and a heater outdoors may need no stack"});
        return false;
    }
    return true;
}

Measured<units::Temperature> flue_of(HeaterBench const& b)
{
    return b.v.flue && b.v.flue->temperature ? *b.v.flue->temperature
                                             : b.w.rules.limit<units::Temperature>("flue_warm");
}

void weigh(HeaterBench& b, double weak, std::string from)
{
    bool const known = b.v.vent->kind.has_value();
    if (!known)
        from += "; the kind of vent was not said, and only a draft hood needs the pull";
    b.w.computed(*b.vent, "vent_draft_weak", known ? weak : std::min(weak, 0.5), from);
}

/// The pull of the height alone.
void theoretical(HeaterBench& b)
{
    figures::Inputs in;
    in.add("height", b.v.vent->height)
        .add("outside_temperature", b.w.visit.air_temperature)
        .add("altitude", b.w.visit.altitude)
        .add("flue_temperature", flue_of(b));
    auto const figure = b.w.figure(*b.vent, "stack_draft", in, "draft of " + b.w.name(*b.vent));
    auto const pull = figure.get<units::Pressure>("draft");
    if (!pull)
        return;
    if (!b.v.flue || !b.v.flue->temperature)
        b.w.out.assumptions.push_back({"flue gas at " + b.w.rules.cited("flue_warm"), "it was not measured"});
    weigh(b, 1 - probability_above(*pull, b.w.rules.limit<units::Pressure>("draft_weak")),
          "draft " + b.w.show(*pull) + "; speaks below " + b.w.rules.cited("draft_weak"));
}

/// What is left of the pull once the gas flows. Its losses are known to a third or so, which counts as doubt.
void available(HeaterBench& b)
{
    auto const& v = *b.v.vent;
    if (!v.bore || !b.input)
        return;
    figures::Inputs in;
    in.add("input", b.input)
        .add("height", v.height)
        .add("run", v.run)
        .add("bore", v.bore)
        .add("elbows", v.elbows)
        .add("elbows_60", v.elbows_60)
        .add("elbows_45", v.elbows_45)
        .add("outside_temperature", b.w.visit.air_temperature)
        .add("altitude", b.w.visit.altitude)
        .add("flue_temperature", flue_of(b));
    if (b.v.energy)
        in.add_words("fuel", *b.v.energy == visit::EnergyKind::propane ? "propane" : "natural_gas");
    auto const figure =
        b.w.figure(*b.vent, "available_draft", in, "draft of " + b.w.name(*b.vent) + ", less what the flow takes");
    auto left = figure.get<units::Pressure>("available");
    auto const losses = figure.get<units::Pressure>("losses");
    if (!left || !losses)
        return;
    double const spread = b.w.rules.limit<units::Number>("spread_flue_losses").value.value();
    left->doubt =
        units::of_si<units::Pressure>(std::hypot(units::in_si(left->doubt), spread * units::in_si(losses->value)));
    weigh(b, 1 - probability_above(units::in_si(left->value), units::in_si(left->doubt), 0.0, 0.0),
          "left of the draft " + b.w.show(*left) + " when hot, " + b.w.show(*losses) +
              " of it taken by the flow of the gas [venting-ashrae-chimney-memory], from memory; below nothing it "
              "spills");
    for (auto& entry : b.w.out.vents)
        if (entry.item == *b.vent)
            entry.draft_words = figure.output("in_words").words;
}

} // namespace

void assess_draft(HeaterBench& b)
{
    if (!may_live_by_pull(b))
        return;
    theoretical(b);
    available(b);
}

} // namespace padwalk::assess
