// What the readings of a fill valve say: its flow and its air gap.
#include "fill_bench.hpp"
#include "water_bench.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/level/fill_balance.hpp"
#include "padwalk/units/print.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::assess
{
namespace
{

void flow(Workbench& w, std::size_t i, visit::FillValve const& v)
{
    if (v.flow)
    {
        double const nothing = 1 - probability_above(*v.flow, w.rules.limit<units::VolumeFlow>("fill_nothing"));
        w.computed(i, "fill_delivers_nothing", nothing,
                   "delivers " + w.show(*v.flow, "gpm") + "; speaks below " + w.rules.cited("fill_nothing"));
        if (nothing < 0.5)
            w.computed(i, "fill_flow_weak",
                       1 - probability_above(*v.flow, w.rules.limit<units::VolumeFlow>("fill_weak")),
                       "delivers " + w.show(*v.flow, "gpm") + "; speaks below " + w.rules.cited("fill_weak"));
    }
}

void air_gap(Workbench& w, std::size_t i, visit::FillValve const& v)
{
    if (v.backflow_device && (*v.backflow_device || !v.air_gap))
        w.noticed(i, "fill_no_backflow_device", !*v.backflow_device,
                  *v.backflow_device ? "a backflow device is recorded"
                                     : "no backflow device, and no air gap is recorded");
    if (!v.air_gap || v.backflow_device.value_or(false))
        return;
    figures::Inputs gap;
    gap.add("bore", v.bore).add("gap", v.air_gap);
    auto const figure = w.figure(i, "air_gap", gap, "air gap of " + w.name(i));
    if (auto const missing = figure.get<units::Length>("shortfall"))
        w.computed(i, "fill_air_gap_short",
                   probability_above(units::in_si(missing->value), units::in_si(missing->doubt), 0.0, 0.0),
                   figure.output("in_words").words);
    else if (units::in_si(v.air_gap->value) < 0)
        w.computed(i, "fill_air_gap_short", 1.0,
                   "the outlet ends " + w.show(*v.air_gap) + " above the water, that is under it, and " +
                       (v.backflow_device ? "no backflow device was seen" : "no device recorded against backflow"));
}

std::string says(Workbench const& w, visit::FillWatch const& v, level::FillSays const& says)
{
    return "in " + w.show(*v.elapsed) + " the fill gave " + w.show(*v.delivered) + " and the level fell " +
           w.show(*v.level_fell) + "; beyond evaporation that leaves " + w.show(says.leak, "in/day") + ", " +
           leak_weight(says.odds.log_ratio).words;
}

/// A valve that gives nothing while the level holds argues against a leak; one that runs all day may hide one.
void watched(Workbench& w, std::size_t i, visit::FillValve const& v)
{
    if (!v.watched)
        return;
    if (!v.watched->elapsed || !v.watched->delivered || !v.watched->level_fell)
    {
        w.out.not_tested.push_back({i, "what came in, against evaporation",
                                    "it wants the time, what was delivered and how far the level fell"});
        return;
    }
    for (std::size_t const water : w.property.at(i).waters)
    {
        if (std::any_of(w.out.levels.begin(), w.out.levels.end(), [&](auto const& l) { return l.item == water; }))
        {
            w.out.not_tested.push_back(
                {i, "what came in, against evaporation",
                 "the marks of the level were weighed, and this would count the same water again"});
            continue;
        }
        auto const area = w.area_of(water);
        if (!area)
        {
            w.out.not_tested.push_back(
                {i, "what came in, against evaporation", "the surface of the water is not known"});
            continue;
        }
        try
        {
            level::FillWatch const watch{v.watched->elapsed->value, v.watched->delivered, *v.watched->level_fell,
                                         evaporation_of(w, water, *area), area->value};
            auto const found = level::fill_says(watch, w.engine.water_tables().level.table);
            double const p = leak_weight(found.odds.log_ratio).probability;
            std::string const from = says(w, *v.watched, found);
            w.computed(water, "loss_above_evaporation", p, from);
            w.computed(water, "level_holds", 1 - p, from);
        }
        catch (figures::NotComputed const& why)
        {
            w.out.not_tested.push_back({i, "what came in, against evaporation", why.what()});
        }
    }
}

} // namespace

units::Measured<units::Velocity> evaporation_of(Workbench& w, std::size_t water,
                                                units::Measured<units::Area> const& area)
{
    auto const& table = w.engine.water_tables().level.table;
    figures::Inputs in;
    in.add("water_temperature", w.property.at(water).water->temperature)
        .add("air_temperature", w.visit.air_temperature)
        .add("humidity", w.visit.humidity)
        .add("wind", w.visit.wind)
        .add("area", visit::Taken<units::Area>(area));
    auto const rate =
        w.figure(water, "evaporation", in, "evaporation of " + w.name(water)).get<units::Velocity>("level_rate");
    double const value = rate ? units::in_si(rate->value) : table.usual_evaporation.si();
    double const spread =
        rate ? std::hypot(units::in_si(rate->doubt) / value, table.form_spread.si(), table.day_spread.si())
             : table.usual_spread.si();
    if (!rate)
        w.out.assumptions.push_back({"a usual evaporation of " + w.name(water) + ", with a wide doubt",
                                     "water and air temperature, humidity and wind would narrow it"});
    return {units::of_si<units::Velocity>(value), units::of_si<units::Velocity>(value * spread), "evaporation"};
}

visit::Taken<units::VolumeFlow> wide_open_flow_of(Workbench& w, std::size_t item, visit::FillValve const& valve)
{
    figures::Inputs in;
    in.add("supply_pressure", valve.supply_pressure).add("bore", valve.seat ? valve.seat : valve.bore);
    auto const flow = w.figure(item, "fill_valve_flow", in,
                               valve.seat ? "flow that " + w.name(item) + " should give, wide open"
                                          : "most that the outlet of " + w.name(item) + " could pass")
                          .get<units::VolumeFlow>("flow");
    return flow && units::in_si(flow->value) > 0 ? flow : std::nullopt;
}

void assess_fill_valves(Workbench& w)
{
    for (std::size_t i = 0; i < w.property.things().size(); ++i)
        if (auto const* valve = w.property.at(i).fill_valve)
        {
            flow(w, i, *valve);
            auto const wide_open = wide_open_flow_of(w, i, *valve);
            air_gap(w, i, *valve);
            watched(w, i, *valve);
            weigh_fill_readings(w, i, *valve, valve->seat ? wide_open : std::nullopt);
        }
}

} // namespace padwalk::assess
