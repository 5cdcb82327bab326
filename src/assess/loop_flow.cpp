// The flow of a loop by every way that the readings allow, and all of them together.
#include "walked_loop.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::assess
{
namespace
{

using circulation::FlowEstimate;
using units::Measured;

std::optional<units::Power> rated(LoopBench const& b)
{
    if (!b.v.pump || !b.v.pump->rated_power)
        return std::nullopt;
    auto const& pumps = b.w.engine.loop_tables().pumps;
    units::Power const power = b.v.pump->rated_power->value;
    return power < pumps.front().rated || power > pumps.back().rated ? std::nullopt : std::optional(power);
}

/// Where the pump's own curve is not known: that of a usual pump of its power, at the head that the gauges show.
visit::Taken<units::VolumeFlow> on_usual_curve(LoopBench& b)
{
    auto const power = rated(b);
    // The usual curve is for full speed; a drive may run at any.
    if (!b.head || !power || b.v.pump->curve || b.variable_speed())
        return std::nullopt;
    auto const curve = circulation::generic_curve(*power, b.w.engine.loop_tables().pumps);
    figures::Inputs in;
    in.add_node("curve", curve_node(curve)).add("head", b.head);
    auto const figure = b.w.figure(b.pump, "pump_flow", in,
                                   "flow of a usual pump of the power of " + b.w.name(b.pump) + " at that head");
    auto flow = figure.get<units::VolumeFlow>("flow");
    if (!flow)
        return std::nullopt;
    b.w.meaning("its own curve was not noted, and pumps of one power differ: rough");
    double const head = units::in_si(b.w.rules.limit<units::Number>("spread_usual_head").value);
    double const share = units::in_si(b.w.rules.limit<units::Number>("spread_usual_flow").value);
    // A head that pumps of that power don't share moves the flow by the curve's slope there.
    circulation::PumpCurve const pump(curve);
    auto const moved = [&](double by)
    {
        double const at = units::in_si(b.head->value) * std::exp(by);
        double const least = pump.least_head().value(), most = pump.greatest_head().value();
        return units::in_si(pump.flow_at(units::of_si<units::Head>(std::clamp(at, least, most))));
    };
    double const by_head = (moved(-head) - moved(head)) / 2;
    flow->doubt = units::of_si<units::VolumeFlow>(
        std::hypot(units::in_si(flow->doubt), share * units::in_si(flow->value), by_head));
    return flow;
}

/// Where the head lies below the last point of the pump's own curve: the curve carried on.
visit::Taken<units::VolumeFlow> beyond_the_curve(LoopBench& b)
{
    constexpr double doubt = 0.15; // judgement: makers stop printing where the flow grows unsure
    if (!b.head || !b.v.pump || !b.v.pump->curve || !curve_not_usable(b).empty())
        return std::nullopt;
    try
    {
        figures::Inputs in;
        in.add_node("curve", curve_node(circulation::carried_on(*b.v.pump->curve))).add("head", b.head);
        if (auto const ratio = speed_ratio(*b.v.pump))
            in.add("speed_ratio", units::Reading::exact(*ratio));
        auto const figure =
            figures::run(b.w.engine.catalogue().at("pump_flow"), in); // the figure that failed stands already
        auto flow = figure.get<units::VolumeFlow>("flow");
        if (!flow)
            return std::nullopt;
        flow->doubt =
            units::of_si<units::VolumeFlow>(std::hypot(units::in_si(flow->doubt), doubt * units::in_si(flow->value)));
        b.w.out.assumptions.push_back(
            {"the curve of " + b.w.name(b.pump) + " goes on beyond its last point, to about " + b.w.show(*flow),
             "the head that the gauges show is less than its last point has"});
        return flow;
    }
    catch (figures::NotComputed const&)
    {
        return std::nullopt; // the curve itself can't be used, and that is said with its figure
    }
}

visit::Taken<units::VolumeFlow> by_curve(LoopBench& b)
{
    if (b.on_curve)
        return b.on_curve;
    auto const beyond = beyond_the_curve(b);
    return beyond ? beyond : on_usual_curve(b);
}

/// Through returns that are known, by the gauge behind the filter, else by the filter's own.
visit::Taken<units::VolumeFlow> by_pressure(LoopBench& b)
{
    if (!b.v.discharge || !b.v.discharge->bore || !b.v.discharge->length || !b.v.filter || b.v.roof_height ||
        !b.v.return_inlets || !b.v.return_inlets->count || !b.v.return_inlets->opening || !b.v.pump_height)
        return std::nullopt;
    auto const& filter = *b.v.filter;
    bool const behind = filter.outlet_gauge.has_value();
    if (!behind && !(filter.gauge && filter.media && filter.area))
        return std::nullopt;
    auto const loss = minor_loss(b, *b.v.discharge, "return");
    if (!loss)
        return std::nullopt;
    figures::Inputs in;
    Measured<units::Length> height = *b.v.pump_height;
    if (filter.gauge_height)
        height = {height.value + filter.gauge_height->value,
                  units::of_si<units::Length>(
                      std::hypot(units::in_si(height.doubt), units::in_si(filter.gauge_height->doubt))),
                  "sum"};
    in.add("gauge_pressure", behind ? filter.outlet_gauge : filter.gauge)
        .add_words("gauge_at", behind ? "behind_filter" : "filter_inlet")
        .add("gauge_height", visit::Taken<units::Length>(height))
        .add("return_bore", b.v.discharge->bore)
        .add("return_length", b.v.discharge->length)
        .add("return_minor_loss", loss)
        .add("openings", b.v.return_inlets->count)
        .add("opening_diameter", b.v.return_inlets->opening)
        .add("water_temperature", b.water);
    bool heater = false;
    for (auto const& t : b.w.property.things())
        heater = heater || (t.entry.kind == "heater" && t.loops.contains(b.loop));
    if (!heater)
        in.add("heater_loss", units::Reading::exact(units::Number{}));
    if (behind)
        in.add("filter_loading", units::Reading::exact(units::Fraction{}));
    else
        in.add("filter_area", filter.area)
            .add_words("filter_medium", *filter.media == visit::Media::sand        ? "sand"
                                        : *filter.media == visit::Media::cartridge ? "cartridge"
                                                                                   : "precoat")
            .add("filter_loading", visit::Taken<units::Fraction>(b.w.rules.limit<units::Fraction>("usual_loading")));
    auto const flow = b.w.figure(b.loop, "pressure_flow", in, "flow of " + b.w.name(b.loop) + " by its pressure")
                          .get<units::VolumeFlow>("flow");
    if (flow)
        b.w.meaning(behind ? "if returns and heater let pass what they should"
                           : "if filter, heater and returns let pass what they should");
    return flow;
}

visit::Taken<units::VolumeFlow> by_heat(LoopBench const& b)
{
    for (auto const& heat : b.w.heats)
        if (heat.flow && b.w.property.at(heat.heater).loops.contains(b.loop))
            return heat.flow;
    return std::nullopt;
}

visit::Taken<units::VolumeFlow> by_power(LoopBench& b)
{
    if (!b.v.pump || !b.v.pump->motor || !b.v.pump->motor->power || !b.v.pump->curve || !curve_not_usable(b).empty())
        return std::nullopt;
    figures::Inputs in;
    in.add_node("curve", curve_node(*b.v.pump->curve))
        .add("input_power", b.v.pump->motor->power)
        .add("water_temperature", b.water);
    if (auto const ratio = speed_ratio(*b.v.pump))
        in.add("speed_ratio", units::Reading::exact(*ratio));
    return b.w.figure(b.pump, "motor_flow", in, "flow of " + b.w.name(b.pump) + " by what its motor takes")
        .get<units::VolumeFlow>("flow");
}

struct Way
{
    char const* name;
    char const* input; ///< of the figure joint_flow
    visit::Taken<units::VolumeFlow> flow;
};

/// The figure, for the list of figures.
void joint_figure(LoopBench& b, std::vector<Way> const& ways)
{
    figures::Inputs in;
    for (auto const& way : ways)
        in.add(way.input, units::Reading::exact(way.flow->value))
            .add(way.input + std::string("_doubt"), units::Reading::exact(way.flow->doubt));
    b.w.figure(b.loop, "joint_flow", in, "flow of " + b.w.name(b.loop) + " by all ways together");
}

/// What a sound loop would move at the pump's full speed, where enough of the pump is known.
visit::Taken<units::VolumeFlow> sound_at_full_speed(LoopBench const& b)
{
    if (!b.v.pump || !(b.v.pump->curve || rated(b)))
        return std::nullopt;
    auto const walked = walked_loop(b, At::full_speed);
    try
    {
        auto const& tables = b.w.engine.loop_tables();
        circulation::LoopComparison const loop(walked.known, {}, tables.plants, tables.sound);
        return Measured<units::VolumeFlow>{loop.sound_state().total, loop.sound_flow_doubt(), "computed"};
    }
    catch (figures::NotComputed const&)
    {
        return std::nullopt;
    }
}

} // namespace

void most_flow(LoopBench& b)
{
    auto const* pump = b.v.pump ? &*b.v.pump : nullptr;
    bool const several = b.variable_speed();
    if (b.flow && !several)
    {
        b.most_flow = b.flow;
        b.most_flow_words = b.v.flow ? "the flow is as read" : "the flow is estimated";
        return;
    }
    if (b.flow && pump != nullptr && pump->speed)
    {
        auto const full = pump->curve_speed ? pump->curve_speed->value
                                            : b.w.rules.limit<units::RotationSpeed>("usual_curve_speed").value;
        double const times = std::max(1.0, units::in_si(full) / units::in_si(pump->speed->value));
        b.most_flow = Measured<units::VolumeFlow>{b.flow->value * times, b.flow->doubt * times, "at full speed"};
        b.most_flow_words = times > 1 ? "the flow is what it would be at the pump's full speed" : "the flow is as read";
        return;
    }
    b.most_flow = sound_at_full_speed(b);
    b.most_flow_words =
        "the flow was not measured at full speed and is what this pump would move through a loop as far "
        "as this one is known";
    if (b.flow && (!b.most_flow || b.flow->value > b.most_flow->value))
    {
        b.most_flow = b.flow;
        b.most_flow_words = "the flow is as read, at a speed that was not recorded; at full speed it would be more";
    }
}

void loop_flow(LoopBench& b)
{
    std::vector<Way> ways{{"flow meter", "by_meter", b.v.flow},
                          {"head on the pump's curve", "by_curve", by_curve(b)},
                          {"pressure before the returns", "by_pressure", by_pressure(b)},
                          {"heater's rise and input", "by_heat", by_heat(b)},
                          {by_motor_power, "by_power", by_power(b)}};
    ways.erase(std::remove_if(ways.begin(), ways.end(),
                              [](Way const& way) { return !way.flow || !(units::in_si(way.flow->doubt) > 0); }),
               ways.end());
    if (ways.empty())
    {
        b.flow = b.v.flow; // a reading without doubt stands by itself
        return;
    }
    std::vector<FlowEstimate> estimates;
    for (auto const& way : ways)
        estimates.push_back({way.name, *way.flow});
    auto const joint = circulation::joint_flow(estimates);
    for (std::size_t i = 0; i < ways.size(); ++i)
        b.ways.push_back({ways[i].name, *ways[i].flow, joint.off[i], joint.odd == i});
    b.flow_words = circulation::joint_in_words(joint, estimates);
    b.flow = joint.flow;
    if (ways.size() > 1)
        joint_figure(b, ways);
    if (joint.odd)
    {
        estimates.erase(estimates.begin() + static_cast<std::ptrdiff_t>(*joint.odd));
        b.flow = circulation::joint_flow(estimates).flow;
        b.flow_words += "; the figures that follow are worked out without it";
    }
    if (!b.v.flow)
        b.w.out.assumptions.push_back({"flow of " + b.w.name(b.loop) + " is " + b.w.show(*b.flow) + ", by " +
                                           (ways.size() == 1 ? ways.front().name : "all ways there are"),
                                       "no flow was measured"});
}

} // namespace padwalk::assess
