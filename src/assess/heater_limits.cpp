// What a heater's flow, the length of its run and a drip under it say.
#include "heater_bench.hpp"

#include <algorithm>
#include <array>

namespace padwalk::assess
{
namespace
{

using units::Measured;

/// Of the loop, by all ways together where they were joined; nothing is known where a valve leads water past it.
visit::Taken<units::VolumeFlow> flow_through(HeaterBench const& b)
{
    if (part_passes_beside(b.v))
        return std::nullopt;
    for (auto const& entry : b.w.out.loops)
        if (entry.flow && b.w.property.at(b.heater).loops.contains(entry.item))
            return entry.flow;
    return b.flow;
}

void flow_limits(HeaterBench const& b)
{
    if (!b.v.least_flow && !b.v.most_flow)
        return;
    auto const flow = flow_through(b);
    if (!flow)
    {
        b.w.out.not_tested.push_back(
            {b.heater, "flow against what the heater's maker allows",
             b.flow ? "a valve leads water past the heater, and how much is not known" : "the flow is not known"});
        return;
    }
    std::string const from = "flow " + b.w.show(*flow, "gpm") + "; its maker allows ";
    if (b.v.least_flow)
        b.w.computed(b.heater, "heater_flow_below_least", 1 - probability_above(*flow, *b.v.least_flow),
                     from + "no less than " + b.w.show(*b.v.least_flow, "gpm"));
    if (b.v.most_flow)
        b.w.computed(b.heater, "heater_flow_above_most", probability_above(*flow, *b.v.most_flow),
                     from + "no more than " + b.w.show(*b.v.most_flow, "gpm"));
}

/// The first of its waters whose volume is known.
struct WarmedWater
{
    visit::Taken<units::Volume> volume;
    visit::Taken<units::Temperature> temperature;
};

WarmedWater warmed_water(HeaterBench const& b)
{
    WarmedWater out;
    for (std::size_t const i : b.w.property.at(b.heater).waters)
    {
        auto const& water = *b.w.property.at(i).water;
        out.temperature = water.temperature;
        out.volume = b.w.volume_of(i);
        if (out.volume)
            break;
    }
    return out;
}

/// It stopped although the thermostat can't have been content.
double stopped_too_soon(HeaterBench const& b, WarmedWater const& water, std::string& from)
{
    double p = 0;
    figures::Inputs in;
    in.add("volume", water.volume)
        .add("input", b.input)
        .add("efficiency", b.efficiency)
        .add("water_temperature", water.temperature);
    auto const figure = b.w.figure(b.heater, "heater_cycle", in, "run of " + b.w.name(b.heater) + " at its thermostat");
    if (auto const runs = figure.get<units::Duration>("runs"))
    {
        p = probability_above(*runs, *b.v.runs_for);
        from = "it ran for " + b.w.show(*b.v.runs_for) +
               "; warming all of the water by what a thermostat tells takes " + b.w.show(*runs);
    }
    if (b.v.set_temperature && water.temperature)
    {
        auto const& set = *b.v.set_temperature;
        auto const& now = *water.temperature;
        Measured<units::TemperatureDifference> const below{
            set.value - now.value,
            units::of_si<units::TemperatureDifference>(std::hypot(units::in_si(set.doubt), units::in_si(now.doubt))),
            "difference"};
        double const cold =
            probability_above(below, b.w.rules.limit<units::TemperatureDifference>("stopped_below_set"));
        from += (from.empty() ? "it stopped" : "; it stopped") + std::string(" with the water at ") + b.w.show(now) +
                " and set to " + b.w.show(set);
        // Where the water is still cold no thermostat has stopped it; where it is warm, one may have.
        p = std::max(p * 0.5 + cold * 0.5, cold);
    }
    return p;
}

void short_run(HeaterBench const& b)
{
    if (!b.v.runs_for)
        return;
    std::string from;
    double const p = stopped_too_soon(b, warmed_water(b), from);
    if (from.empty())
        b.w.out.not_tested.push_back({b.heater, "whether it stopped too soon",
                                      "it wants the water's volume and the heater's input, or the set temperature"});
    else
        b.w.computed(b.heater, "heater_cuts_out", p, from);
}

/// Any pool is cold enough for dew, and most heaters keep their tubes warmer: it is asked only where something drips.
bool drips(HeaterBench const& b)
{
    constexpr std::array what{"heater_drips", "heater_drips_firing", "heater_drips_pump", "heater_white_crust",
                              "vent_drips"};
    return b.v.drip || std::any_of(b.w.out.findings.begin(), b.w.out.findings.end(),
                                   [&](FindingEntryOf const& f)
                                   {
                                       bool const here = f.item == b.heater || f.item == b.vent;
                                       return here && f.state == FindingState::seen &&
                                              std::find(what.begin(), what.end(), f.id) != what.end();
                                   });
}

void dew(HeaterBench const& b)
{
    if (!burns_gas(b.v) || !b.v.energy || !b.v.inlet_temperature || !drips(b))
        return;
    figures::Inputs in;
    in.add_words("fuel", *b.v.energy == visit::EnergyKind::propane ? "propane" : "natural_gas");
    bool const read = b.v.flue && (b.v.flue->oxygen || b.v.flue->carbon_dioxide);
    if (!read)
        in.add("oxygen", visit::Taken<units::Fraction>(b.w.rules.limit<units::Fraction>("usual_flue_oxygen")));
    else if (b.v.flue->oxygen)
        in.add("oxygen", b.v.flue->oxygen);
    else
        in.add("carbon_dioxide", b.v.flue->carbon_dioxide);
    in.add("air_temperature", b.w.visit.air_temperature)
        .add("humidity", b.w.visit.humidity)
        .add("altitude", b.w.visit.altitude)
        .add("inlet_temperature", b.v.inlet_temperature)
        .add("input", b.input);
    auto const figure = b.w.figure(b.heater, "dew_point_flue", in, "dew on the tubes of " + b.w.name(b.heater));
    if (auto const below = figure.get<units::Temperature>("sweats_below"))
        b.w.computed(b.heater, "heater_tubes_sweat", probability_above(*below, *b.v.inlet_temperature),
                     "water going in " + b.w.show(*b.v.inlet_temperature) + "; its tubes sweat below about " +
                         b.w.show(*below));
    auto const most = figure.get<units::VolumeFlow>("most_drip");
    if (b.v.drip && most)
        b.w.computed(b.heater, "heater_drips_beyond_dew", probability_above(*b.v.drip, *most),
                     "drips " + b.w.show(*b.v.drip, "gal/day") + "; all of its flue gas could leave at most " +
                         b.w.show(*most, "gal/day"));
}

} // namespace

void assess_heater_limits(HeaterBench const& b)
{
    flow_limits(b);
    short_run(b);
}

void tell_dew_from_leak(std::vector<HeaterBench> const& heaters)
{
    for (auto const& b : heaters)
        dew(b);
}

} // namespace padwalk::assess
