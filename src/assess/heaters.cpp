// What the readings of a heater, its vent and its room say.
#include "workbench.hpp"

#include "padwalk/venting/carbon_monoxide.hpp"
#include "padwalk/venting/clearance.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::assess
{
namespace
{

using units::Measured;

struct Bench
{
    Workbench& w;
    std::size_t heater;
    std::optional<std::size_t> vent;
    visit::Heater const& v;
    visit::Taken<units::VolumeFlow> flow;
    visit::Taken<units::Power> input; ///< clocked where it was, else nameplate
    visit::Taken<units::TemperatureDifference> rise;
    visit::Taken<units::Fraction> efficiency;
};

template <class Q> Measured<units::Fraction> ratio(Measured<Q> const& a, Measured<Q> const& b)
{
    double const value = units::in_si(a.value) / units::in_si(b.value);
    double const doubt = std::abs(value) * std::hypot(units::in_si(a.doubt) / units::in_si(a.value),
                                                      units::in_si(b.doubt) / units::in_si(b.value));
    return {units::of_si<units::Fraction>(value), units::of_si<units::Fraction>(doubt), "ratio"};
}

bool burns_gas(visit::Heater const& h)
{
    return !h.energy || *h.energy == visit::EnergyKind::natural_gas || *h.energy == visit::EnergyKind::propane;
}

void carbon_monoxide(Bench& b)
{
    auto const& air = b.v.carbon_monoxide_in_air;
    if (!air)
        return;
    auto const limits = venting::carbon_monoxide_limits(b.w.engine.data());
    std::string broken;
    for (auto const& limit : limits)
        if (limit.where == venting::WhereBreathed::ambient && air->value >= limit.limit &&
            limit.source.seen != reference::Seen::memory)
            broken += (broken.empty() ? "; at or above " : ", ") +
                      b.w.show(Measured<units::GasFraction>{limit.limit, {}, {}}) + " " + limit.body;
    b.w.computed(b.heater, "ambient_co_high", probability_above(*air, b.w.rules.limit<units::GasFraction>("co_in_air")),
                 b.w.show(*air) + " in the air; speaks above " + b.w.rules.cited("co_in_air") + broken);
}

void flue(Bench& b)
{
    if (!b.v.flue)
        return;
    figures::Inputs in;
    in.add("carbon_monoxide", b.v.flue->carbon_monoxide).add("oxygen", b.v.flue->oxygen);
    auto const figure = b.w.figure(b.heater, "carbon_monoxide_air_free", in,
                                   "air-free carbon monoxide in the flue of " + b.w.name(b.heater));
    if (auto const air_free = figure.get<units::GasFraction>("air_free"))
    {
        b.w.computed(b.heater, "flue_co_high",
                     probability_above(*air_free, b.w.rules.limit<units::GasFraction>("co_air_free")),
                     b.w.show(*air_free) + " air free; speaks above " + b.w.rules.cited("co_air_free"));
    }
    figures::Inputs loss;
    loss.add("flue_temperature", b.v.flue->temperature)
        .add("air_temperature", b.w.visit.air_temperature)
        .add("oxygen", b.v.flue->oxygen);
    if (b.v.energy)
        loss.add_words("fuel", *b.v.energy == visit::EnergyKind::propane ? "propane" : "natural_gas");
    b.w.figure(b.heater, "stack_loss", loss, "heat lost up the vent of " + b.w.name(b.heater));
}

void gas_input(Bench& b)
{
    b.input = b.v.input;
    if (!b.v.meter)
        return;
    figures::Inputs in;
    in.add("dial", b.v.meter->dial).add("elapsed", b.v.meter->elapsed).add("heating_value", b.v.meter->heating_value);
    in.add("meter_pressure", b.v.meter->pressure).add("altitude", b.w.visit.altitude);
    auto const figure = b.w.figure(b.heater, "gas_input", in, "gas input of " + b.w.name(b.heater) + " by the meter");
    auto const clocked = figure.get<units::Power>("input");
    if (!clocked)
        return;
    b.input = clocked;
    if (!b.v.input)
        return;
    auto const share = ratio(*clocked, *b.v.input);
    std::string const from = "clocked " + b.w.show(*clocked) + ", nameplate " + b.w.show(*b.v.input);
    b.w.computed(b.heater, "heater_input_low",
                 1 - probability_above(share, b.w.rules.limit<units::Fraction>("input_low_share")),
                 from + "; speaks below " + b.w.rules.cited("input_low_share"));
    b.w.computed(b.heater, "heater_input_high",
                 probability_above(share, b.w.rules.limit<units::Fraction>("input_high_share")),
                 from + "; speaks above " + b.w.rules.cited("input_high_share"));
}

void nameplate_efficiency(Bench& b)
{
    b.efficiency = b.v.efficiency;
    if (!b.efficiency && b.v.output && b.v.input)
        b.efficiency = ratio(*b.v.output, *b.v.input);
    if (!b.efficiency && burns_gas(b.v))
    {
        b.efficiency = b.w.rules.limit<units::Fraction>("gas_efficiency");
        if (b.rise)
            b.w.out.assumptions.push_back(
                {"efficiency of " + b.w.name(b.heater) + " is " + b.w.rules.cited("gas_efficiency"),
                 "its nameplate efficiency was not recorded"});
    }
    if (!b.efficiency && b.v.energy == visit::EnergyKind::electric_element)
        b.efficiency =
            Measured<units::Fraction>{units::of_si<units::Fraction>(1.0), units::of_si<units::Fraction>(0.01),
                                      "an element gives all its power to the water"};
}

void rise(Bench& b)
{
    if (!b.rise)
        return;
    auto const& measured = *b.rise;
    b.w.computed(b.heater, "heater_rise_high",
                 probability_above(measured, b.w.rules.limit<units::TemperatureDifference>("rise_high")),
                 "rise " + b.w.show(measured) + "; speaks above " + b.w.rules.cited("rise_high"));
    figures::Inputs in;
    in.add("input", b.input)
        .add("efficiency", b.efficiency)
        .add("flow", b.flow)
        .add("inlet_temperature", b.v.inlet_temperature);
    auto const expected_figure =
        b.w.figure(b.heater, "heater_rise", in, "rise that " + b.w.name(b.heater) + " should give");
    if (auto const expected = expected_figure.get<units::TemperatureDifference>("rise"))
    {
        b.w.meaning("measured: " + b.w.show(measured));
        auto const share = ratio(measured, *expected);
        std::string const from = "rise " + b.w.show(measured) + " where input and flow give " + b.w.show(*expected);
        b.w.computed(b.heater, "heater_rise_low",
                     1 - probability_above(share, b.w.rules.limit<units::Fraction>("rise_low_share")),
                     from + "; speaks below " + b.w.rules.cited("rise_low_share"));
        b.w.computed(b.heater, "heater_rise_high",
                     probability_above(share, b.w.rules.limit<units::Fraction>("rise_high_share")),
                     from + "; speaks above " + b.w.rules.cited("rise_high_share"));
    }
    figures::Inputs efficiency;
    efficiency.add("rise", b.rise)
        .add("flow", b.flow)
        .add("input", b.input)
        .add("inlet_temperature", b.v.inlet_temperature);
    auto const figure =
        b.w.figure(b.heater, "heater_efficiency", efficiency, "efficiency of " + b.w.name(b.heater) + " by its rise");
    if (auto const found = figure.get<units::Fraction>("efficiency"))
    {
        if (burns_gas(b.v))
            b.w.computed(b.heater, "heater_efficiency_low",
                         1 - probability_above(*found, b.w.rules.limit<units::Fraction>("efficiency_low")),
                         "efficiency " + b.w.show(*found) + "; speaks below " + b.w.rules.cited("efficiency_low"));
    }
    if (!b.flow)
    {
        figures::Inputs flow;
        flow.add("input", b.input)
            .add("efficiency", b.efficiency)
            .add("rise", b.rise)
            .add("inlet_temperature", b.v.inlet_temperature);
        b.w.figure(b.heater, "heat_flow_estimate", flow,
                   "flow through " + b.w.name(b.heater) + " if its input and efficiency are right");
    }
}

void room(Bench& b)
{
    if (!b.v.room || !b.vent || !burns_gas(b.v))
        return;
    figures::Inputs in;
    in.add("input", b.v.input ? b.v.input : b.input)
        .add("room_volume", b.v.room->volume)
        .add("high_opening", b.v.room->high_opening)
        .add("low_opening", b.v.room->low_opening);
    if (b.v.room->air_from)
        in.add_words("source",
                     fields::words_of<visit::AirSource>::words()[static_cast<std::size_t>(*b.v.room->air_from)]);
    if (b.v.room->louvre)
        in.add_words("louvre", fields::words_of<visit::Louvre>::words()[static_cast<std::size_t>(*b.v.room->louvre)]);
    auto const figure = b.w.figure(*b.vent, "combustion_air", in, "combustion air of " + b.w.name(b.heater));
    if (!figure.computed())
        return;
    std::string const verdict = figure.output("verdict").words;
    if (verdict == "enough" || verdict == "short")
        b.w.computed(*b.vent, "combustion_air_short", verdict == "short" ? 0.95 : 0.05,
                     figure.output("in_words").words);
}

void clearances(Bench& b)
{
    if (!b.v.vent || !b.vent)
        return;
    auto const known = fields::words_of<venting::ClearanceId>::words();
    double worst = -1;
    double best_opening = 2;
    std::string from, opening_from;
    for (auto const& [what, distance] : b.v.vent->clearances)
    {
        if (std::find(known.begin(), known.end(), what) == known.end())
        {
            std::string const near = fields::nearest(what, known);
            b.w.out.questions.push_back({*b.vent,
                                         "clearances: " + what,
                                         near.empty()
                                             ? "is no rule known here; 'padwalk figure vent_clearance' lists them"
                                             : "is no rule known here; did you mean " + near + "?",
                                         {}});
            continue;
        }
        bool const below = units::in_si(distance) < 0;
        double p = 1.0;
        std::string said =
            what + " " + b.w.show(Measured<units::Length>{distance, {}, {}}) + ": the end lies on the wrong side";
        if (!below)
        {
            figures::Inputs in;
            in.add_words("what", what)
                .add("distance",
                     units::Reading{units::Measure::length, units::in_si(distance), 0.013, "tape measure", false});
            auto const figure =
                b.w.figure(*b.vent, "vent_clearance", in, "clearance of " + b.w.name(*b.vent) + ", " + what);
            if (!figure.computed())
                continue;
            auto const least = figure.get<units::Length>("least");
            p = 1 - probability_above(units::in_si(distance), 0.013, units::in_si(least->value), 0.0);
            said = figure.output("in_words").words;
        }
        bool const one_of = what.starts_with("opening_"); // below, beside or above: keeping one of them is enough
        if (one_of && p < best_opening)
        {
            best_opening = p;
            opening_from = said;
        }
        else if (!one_of && p > worst)
        {
            worst = p;
            from = said;
        }
    }
    if (best_opening <= 1 && best_opening > worst)
    {
        worst = best_opening;
        from = opening_from;
    }
    if (worst >= 0)
        b.w.computed(*b.vent, "vent_clearance_short", worst, from);
}

void draft(Bench& b)
{
    if (!b.v.vent || !b.v.vent->height || !b.vent)
        return;
    figures::Inputs in;
    in.add("height", b.v.vent->height)
        .add("outside_temperature", b.w.visit.air_temperature)
        .add("altitude", b.w.visit.altitude);
    if (b.v.flue && b.v.flue->temperature)
        in.add("flue_temperature", b.v.flue->temperature);
    else
        in.add("flue_temperature", b.w.rules.limit<units::Temperature>("flue_warm"));
    auto const figure = b.w.figure(*b.vent, "stack_draft", in, "draft of " + b.w.name(*b.vent));
    if (auto const pull = figure.get<units::Pressure>("draft"))
    {
        if (!(b.v.flue && b.v.flue->temperature))
            b.w.out.assumptions.push_back({"flue gas at " + b.w.rules.cited("flue_warm"), "it was not measured"});
        b.w.computed(*b.vent, "vent_draft_weak",
                     1 - probability_above(*pull, b.w.rules.limit<units::Pressure>("draft_weak")),
                     "draft " + b.w.show(*pull) + "; speaks below " + b.w.rules.cited("draft_weak"));
    }
}

void heat_up(Bench& b)
{
    for (std::size_t const i : b.w.property.at(b.heater).waters)
    {
        Thing const& water = b.w.property.at(i);
        bool const spa = water.holds.contains("spa");
        if (!spa || !water.water->temperature || !b.input || !b.efficiency)
            continue;
        visit::Taken<units::Volume> volume = water.water->volume;
        for (auto const& entry : b.w.out.figures)
            if (!volume && entry.item == i && entry.figure.model->name == "water_volume")
                volume = entry.figure.get<units::Volume>("volume");
        auto const target = b.w.rules.limit<units::Temperature>("spa_too_hot");
        if (!(target.value > water.water->temperature->value))
            continue;
        figures::Inputs in;
        in.add("volume", volume)
            .add("from", water.water->temperature)
            .add("to", units::Reading::exact(target.value))
            .add("input", b.input)
            .add("efficiency", b.efficiency);
        b.w.figure(b.heater, "heat_up", in, "time to heat " + b.w.name(i) + " to 104 °F");
    }
}

} // namespace

void assess_heaters(Workbench& w)
{
    for (std::size_t i = 0; i < w.property.things().size(); ++i)
    {
        Thing const& t = w.property.at(i);
        if (t.entry.kind != "heater")
            continue;
        Bench b{w, i, std::nullopt, *t.heater, std::nullopt, std::nullopt, std::nullopt, std::nullopt};
        if (i + 1 < w.property.things().size() && w.property.at(i + 1).entry.kind == "vent")
            b.vent = i + 1;
        if (t.loop != nullptr)
            b.flow = t.loop->flow;
        if (t.heater->inlet_temperature && t.heater->outlet_temperature)
        {
            auto const& in = *t.heater->inlet_temperature;
            auto const& out = *t.heater->outlet_temperature;
            b.rise = Measured<units::TemperatureDifference>{
                out.value - in.value,
                units::of_si<units::TemperatureDifference>(std::hypot(units::in_si(in.doubt), units::in_si(out.doubt))),
                "difference"};
        }
        carbon_monoxide(b);
        flue(b);
        gas_input(b);
        nameplate_efficiency(b);
        rise(b);
        room(b);
        clearances(b);
        draft(b);
        heat_up(b);
    }
}

void assess_fill_valves(Workbench& w)
{
    for (std::size_t i = 0; i < w.property.things().size(); ++i)
    {
        Thing const& t = w.property.at(i);
        if (t.fill_valve == nullptr)
            continue;
        auto const& v = *t.fill_valve;
        if (v.flow)
        {
            w.computed(i, "fill_delivers_nothing",
                       1 - probability_above(*v.flow, w.rules.limit<units::VolumeFlow>("fill_nothing")),
                       "delivers " + w.show(*v.flow, "gpm") + "; speaks below " + w.rules.cited("fill_nothing"));
            double const nothing = 1 - probability_above(*v.flow, w.rules.limit<units::VolumeFlow>("fill_nothing"));
            if (nothing < 0.5)
                w.computed(i, "fill_flow_weak",
                           1 - probability_above(*v.flow, w.rules.limit<units::VolumeFlow>("fill_weak")),
                           "delivers " + w.show(*v.flow, "gpm") + "; speaks below " + w.rules.cited("fill_weak"));
        }
        figures::Inputs flow;
        flow.add("supply_pressure", v.supply_pressure);
        flow.add("bore", v.bore);
        w.figure(i, "fill_valve_flow", flow, "flow that " + w.name(i) + " should give, wide open");
        if (v.air_gap && !v.backflow_device.value_or(false))
        {
            figures::Inputs gap;
            gap.add("bore", v.bore).add("gap", v.air_gap);
            auto const figure = w.figure(i, "air_gap", gap, "air gap of " + w.name(i));
            auto const missing = figure.get<units::Length>("shortfall");
            if (missing)
            {
                w.computed(i, "fill_air_gap_short",
                           probability_above(units::in_si(missing->value), units::in_si(missing->doubt), 0.0, 0.0),
                           figure.output("in_words").words);
            }
            else if (units::in_si(v.air_gap->value) < 0)
                w.computed(i, "fill_air_gap_short", 1.0,
                           "the outlet ends " + w.show(*v.air_gap) +
                               " above the water, that is under it, and no backflow device was seen");
        }
    }
}

} // namespace padwalk::assess
