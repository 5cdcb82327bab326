// What the readings of a fill valve say: its flow and its air gap.
#include "workbench.hpp"

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
    figures::Inputs wide_open;
    wide_open.add("supply_pressure", v.supply_pressure);
    wide_open.add("bore", v.bore);
    w.figure(i, "fill_valve_flow", wide_open, "flow that " + w.name(i) + " should give, wide open");
}

void air_gap(Workbench& w, std::size_t i, visit::FillValve const& v)
{
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

} // namespace

void assess_fill_valves(Workbench& w)
{
    for (std::size_t i = 0; i < w.property.things().size(); ++i)
        if (auto const* valve = w.property.at(i).fill_valve)
        {
            flow(w, i, *valve);
            air_gap(w, i, *valve);
        }
}

} // namespace padwalk::assess
