// What the readings of a circulation say: head, flow, turnover, speeds, suction margin, filter, motor, drains.
#include "workbench.hpp"

#include "padwalk/circulation/limits.hpp"

#include <cmath>

namespace padwalk::assess
{
namespace
{

using units::Measured;

template <class Q> Measured<Q> share_of(Measured<Q> const& whole, Measured<units::Fraction> const& share)
{
    double const part = units::in_si(share.value);
    double const value = units::in_si(whole.value) * part;
    double const doubt =
        std::hypot(units::in_si(whole.doubt) * part, units::in_si(whole.value) * units::in_si(share.doubt));
    return {units::of_si<Q>(value), units::of_si<units::Difference<Q>>(doubt), "limit"};
}

Measured<units::Pressure> difference(Measured<units::GaugePressure> const& a, Measured<units::GaugePressure> const& b)
{
    return {a.value - b.value, units::of_si<units::Pressure>(std::hypot(units::in_si(a.doubt), units::in_si(b.doubt))),
            "difference"};
}

Measured<units::Pressure> as_pressure(Measured<units::GaugePressure> const& g)
{
    return {g.value.from_zero(), g.doubt, g.method};
}

/// One loop, its parts and what of it is known.
struct Bench
{
    Workbench& w;
    std::size_t loop, pump, filter;
    visit::Loop const& v;
    visit::Taken<units::VolumeFlow> flow;
    visit::Taken<units::Temperature> water;
    visit::Taken<units::Head> head;
};

visit::Taken<units::Temperature> water_temperature(Workbench& w, std::size_t loop)
{
    for (std::size_t const i : w.property.at(loop).waters)
    {
        auto const& water = *w.property.at(i).water;
        if (water.temperature)
            return water.temperature;
        for (auto const& test : water.tests)
            if (test.temperature)
                return test.temperature;
    }
    return std::nullopt;
}

void filter_gauge(Bench& b)
{
    if (!b.v.filter || !b.v.filter->gauge)
        return;
    auto const& f = *b.v.filter;
    if (f.clean_gauge)
    {
        auto const rise = difference(*f.gauge, *f.clean_gauge);
        auto const high = b.w.rules.limit<units::Pressure>("filter_rise_high");
        auto const low = b.w.rules.limit<units::Pressure>("filter_drop_low");
        b.w.computed(b.filter, "filter_pressure_high", probability_above(rise, high),
                     "gauge " + b.w.show(*f.gauge) + " against " + b.w.show(*f.clean_gauge) +
                         " when clean; speaks above " + b.w.rules.cited("filter_rise_high"));
        auto const drop = difference(*f.clean_gauge, *f.gauge);
        b.w.computed(b.filter, "filter_pressure_low", probability_above(drop, low),
                     "gauge " + b.w.show(*f.gauge) + " against " + b.w.show(*f.clean_gauge) +
                         " when clean; speaks below by " + b.w.rules.cited("filter_drop_low"));
        return;
    }
    auto const reading = as_pressure(*f.gauge);
    b.w.computed(b.filter, "filter_pressure_high",
                 probability_above(reading, b.w.rules.limit<units::Pressure>("filter_gauge_high_unknown_clean")),
                 "gauge " + b.w.show(*f.gauge) + ", clean reading not known; speaks above " +
                     b.w.rules.cited("filter_gauge_high_unknown_clean"));
    b.w.computed(b.filter, "filter_pressure_low",
                 1 - probability_above(reading, b.w.rules.limit<units::Pressure>("filter_gauge_low_unknown_clean")),
                 "gauge " + b.w.show(*f.gauge) + ", clean reading not known; speaks below " +
                     b.w.rules.cited("filter_gauge_low_unknown_clean"));
}

void suction_gauge(Bench& b)
{
    if (!b.v.suction_gauge)
        return;
    auto const reading = as_pressure(*b.v.suction_gauge);
    b.w.computed(b.loop, "suction_vacuum_high",
                 1 - probability_above(reading, b.w.rules.limit<units::Pressure>("suction_vacuum_high")),
                 "suction gauge " + b.w.show(*b.v.suction_gauge) + "; speaks below " +
                     b.w.rules.cited("suction_vacuum_high"));
    bool const below = b.v.equipment == visit::Stands::below_water; // a flooded pump has little vacuum by right
    if (!below)
        b.w.computed(b.loop, "suction_vacuum_low",
                     probability_above(reading, b.w.rules.limit<units::Pressure>("suction_vacuum_low")),
                     "suction gauge " + b.w.show(*b.v.suction_gauge) + "; speaks above " +
                         b.w.rules.cited("suction_vacuum_low"));

    figures::Inputs in;
    in.add("suction_gauge", b.v.suction_gauge)
        .add("gauge_height", b.v.suction_gauge_height)
        .add("water_temperature", b.water)
        .add("altitude", b.w.visit.altitude);
    if (b.flow && b.v.suction && b.v.suction->bore)
        in.add("flow", b.flow).add("bore", b.v.suction->bore);
    if (b.v.pump)
        in.add("required", b.v.pump->needs_suction_head);
    auto const margin = b.w.figure(b.pump, "suction_margin", in, "suction margin of " + b.w.name(b.pump));
    if (auto const available = margin.get<units::Head>("npsh_available"))
    {
        auto const needed = b.v.pump && b.v.pump->needs_suction_head ? *b.v.pump->needs_suction_head
                                                                     : b.w.rules.limit<units::Head>("suction_head");
        b.w.computed(
            b.pump, "pump_suction_margin_small", 1 - probability_above(*available, needed),
            "net positive suction head available " + b.w.show(*available) + " against " + b.w.show(needed) +
                (b.v.pump && b.v.pump->needs_suction_head ? " required" : ", " + b.w.rules.cited("suction_head")));
    }
}

void total_head(Bench& b)
{
    auto const* discharge = b.v.pump && b.v.pump->discharge_gauge ? &b.v.pump->discharge_gauge
                            : b.v.filter                          ? &b.v.filter->gauge
                                                                  : nullptr;
    if (discharge == nullptr || !*discharge || !b.v.suction_gauge)
        return;
    bool const at_filter = !(b.v.pump && b.v.pump->discharge_gauge);
    figures::Inputs in;
    in.add("discharge_gauge", *discharge)
        .add("suction_gauge", b.v.suction_gauge)
        .add("water_temperature", b.water)
        .add("suction_height", b.v.suction_gauge_height);
    if (at_filter)
        in.add("discharge_height", b.v.filter->gauge_height);
    if (b.flow && b.v.suction && b.v.suction->bore && b.v.discharge && b.v.discharge->bore)
        in.add("flow", b.flow).add("suction_bore", b.v.suction->bore).add("discharge_bore", b.v.discharge->bore);
    auto const figure = b.w.figure(b.loop, "total_dynamic_head", in, "total dynamic head of " + b.w.name(b.loop));
    b.head = figure.get<units::Head>("total_dynamic_head");
    if (at_filter && b.head)
        b.w.meaning("taken at the filter's gauge, so the pipe between pump and filter is left out");
}

std::optional<units::Fraction> speed_ratio(visit::Pump const& pump)
{
    if (pump.speed && pump.curve_speed)
        return units::Fraction(units::of_si<units::Dimensionless>(pump.speed->value / pump.curve_speed->value));
    return std::nullopt;
}

fields::Node curve_node(std::vector<fields::CurvePoint> const& curve)
{
    fields::Node list;
    list.kind = fields::Node::Kind::list;
    for (auto const& p : curve)
        list.items.push_back(fields::Node::scalar(units::show_significant(units::in_si(p.flow), 12) +
                                                  " m3/s:" + units::show_significant(units::in_si(p.head), 12) + " m"));
    return list;
}

void flow_on_curve(Bench& b)
{
    if (!b.v.pump || !b.v.pump->curve || !b.head)
        return;
    figures::Inputs in;
    in.add_node("curve", curve_node(*b.v.pump->curve)).add("head", b.head);
    if (auto const ratio = speed_ratio(*b.v.pump))
        in.add("speed_ratio", units::Reading::exact(*ratio));
    auto const figure =
        b.w.figure(b.pump, "pump_flow", in, "flow of " + b.w.name(b.pump) + " by its curve at that head");
    auto const on_curve = figure.get<units::VolumeFlow>("flow");
    if (!on_curve)
        return;
    if (!b.flow)
    {
        b.flow = on_curve;
        b.w.out.assumptions.push_back(
            {"flow of " + b.w.name(b.loop) + " is what the pump's curve gives at the measured head",
             "no flow was measured"});
        return;
    }
    auto const limit = share_of(*on_curve, b.w.rules.limit<units::Fraction>("below_curve_share"));
    b.w.computed(b.pump, "pump_below_curve", 1 - probability_above(*b.flow, limit),
                 "flow " + b.w.show(*b.flow) + " where the curve gives " + b.w.show(*on_curve) + "; speaks below " +
                     b.w.rules.cited("below_curve_share"));
}

std::string turnover_rule(Workbench& w, std::size_t water)
{
    return w.property.kind_of(water) == visit::WaterKind::spa ? "turnover_spa" : "turnover_pool";
}

void turnover(Bench& b)
{
    if (!b.flow)
        return;
    for (std::size_t const i : b.w.property.at(b.loop).waters)
    {
        visit::Taken<units::Volume> volume = b.w.property.at(i).water->volume;
        for (auto const& entry : b.w.out.figures)
            if (!volume && entry.item == i && entry.figure.model->name == "water_volume")
                volume = entry.figure.get<units::Volume>("volume");
        figures::Inputs in;
        in.add("volume", volume).add("flow", b.flow);
        auto const figure =
            b.w.figure(b.loop, "turnover", in, "turnover of " + b.w.name(i) + " by " + b.w.name(b.loop));
        if (auto const time = figure.get<units::Duration>("turnover"))
        {
            std::string const rule = turnover_rule(b.w, i);
            b.w.meaning("codes ask " + b.w.rules.cited(rule) + "; a private water is not bound by it");
            b.w.computed(b.loop, "turnover_slow", probability_above(*time, b.w.rules.limit<units::Duration>(rule)),
                         "turnover " + b.w.show(*time) + "; speaks above " + b.w.rules.cited(rule));
        }
    }
}

void velocities(Bench& b)
{
    double worst = -1;
    std::string from;
    auto one = [&](std::optional<visit::Pipe> const& pipe, std::string const& which, std::string const& rule)
    {
        if (!pipe || !pipe->bore || !b.flow)
            return;
        figures::Inputs in;
        in.add("flow", b.flow).add("bore", pipe->bore);
        auto const figure =
            b.w.figure(b.loop, "pipe_velocity", in, "speed of the water in the " + which + " of " + b.w.name(b.loop));
        if (auto const v = figure.get<units::Velocity>("velocity"))
        {
            b.w.meaning("limit " + b.w.rules.cited(rule));
            double const p = probability_above(*v, b.w.rules.limit<units::Velocity>(rule));
            if (p > worst)
            {
                worst = p;
                from = which + " " + b.w.show(*v) + "; speaks above " + b.w.rules.cited(rule);
            }
        }
    };
    one(b.v.suction, "suction", "velocity_suction");
    one(b.v.discharge, "return", "velocity_return");
    if (worst >= 0)
        b.w.computed(b.loop, "pipe_velocity_high", worst, from);
}

void filter_rate(Bench& b)
{
    if (!b.flow || !b.v.filter || !b.v.filter->area)
        return;
    figures::Inputs in;
    in.add("flow", b.flow).add("area", b.v.filter->area);
    auto const figure = b.w.figure(b.filter, "filter_rate", in, "filter rate of " + b.w.name(b.filter));
    auto const rate = figure.get<units::Velocity>("rate");
    if (!rate || !b.v.filter->media)
        return;
    auto const medium = *b.v.filter->media == visit::Media::sand        ? circulation::FilterMedium::sand
                        : *b.v.filter->media == visit::Media::cartridge ? circulation::FilterMedium::cartridge
                                                                        : circulation::FilterMedium::precoat;
    circulation::FilterRateLimit const* most =
        nullptr; // the most generous published limit: only beyond it is it surely high
    auto const limits = circulation::filter_rate_limits(b.w.engine.data());
    for (auto const& limit : limits)
        if (limit.medium == medium && (most == nullptr || limit.greatest() > most->greatest()))
            most = &limit;
    if (most == nullptr)
        return;
    std::string const whose = most->kind + ", " + most->where;
    std::string const limit =
        b.w.show(Measured<units::Velocity>{most->greatest(), {}, {}}, "gpm/ft2") + " (" + whose + ")";
    b.w.meaning("the most generous published limit is " + limit);
    b.w.computed(
        b.filter, "filter_rate_high",
        probability_above(
            *rate, {most->greatest(), units::of_si<units::Velocity>(0.1 * units::in_si(most->greatest())), "limit"}),
        "filter rate " + b.w.show(*rate, "gpm/ft2") + " against " + limit);
}

void motor(Bench& b)
{
    if (!b.v.pump || !b.v.pump->motor)
        return;
    auto const& m = *b.v.pump->motor;
    if (m.voltage && m.nameplate_voltage)
    {
        auto const limit = share_of(*m.nameplate_voltage, b.w.rules.limit<units::Fraction>("motor_voltage_low_share"));
        b.w.computed(b.pump, "motor_voltage_low", 1 - probability_above(*m.voltage, limit),
                     b.w.show(*m.voltage) + " running, nameplate " + b.w.show(*m.nameplate_voltage) +
                         "; speaks below " + b.w.rules.cited("motor_voltage_low_share"));
    }
    if (!m.current || !m.nameplate_current)
        return;
    auto const nameplate = *m.nameplate_current;
    Measured<units::Current> most = m.service_factor_current.value_or(nameplate);
    if (!m.service_factor_current && m.service_factor)
        most.value = nameplate.value * units::in_si(m.service_factor->value);
    figures::Inputs in;
    in.add("current", m.current).add("nameplate_current", m.nameplate_current).add("service_factor", m.service_factor);
    auto const figure = b.w.figure(b.pump, "motor_load", in, "load of the motor of " + b.w.name(b.pump));
    b.w.computed(
        b.pump, "motor_current_high",
        probability_above(*m.current, share_of(most, b.w.rules.limit<units::Fraction>("motor_current_high_share"))),
        b.w.show(*m.current) + " drawn, at most " + b.w.show(most) + " by its nameplate; speaks above " +
            b.w.rules.cited("motor_current_high_share"));
    b.w.computed(b.pump, "motor_current_low",
                 1 - probability_above(
                         *m.current, share_of(nameplate, b.w.rules.limit<units::Fraction>("motor_current_low_share"))),
                 b.w.show(*m.current) + " drawn, nameplate " + b.w.show(nameplate) + "; speaks below " +
                     b.w.rules.cited("motor_current_low_share"));
}

void drains(Bench& b)
{
    std::size_t const count = b.v.drains.size();
    for (std::size_t i = 0; i < b.w.property.things().size(); ++i)
    {
        Thing const& t = b.w.property.at(i);
        if (t.drain == nullptr || !t.loops.contains(b.loop))
            continue;
        if (t.drain->expires && b.w.visit.on)
            b.w.computed(i, "drain_cover_expired", b.w.visit.on->hours > t.drain->expires->hours + 24 ? 1.0 : 0.0,
                         "stamped to " + t.drain->expires->text + ", visited " + b.w.visit.on->text);
        if (t.drain->rating && b.flow)
        {
            // With one of several blocked the rest carry all of the flow; a single one always does.
            double const open = count > 1 ? static_cast<double>(count - 1) : 1.0;
            Measured<units::VolumeFlow> const through{b.flow->value / open, b.flow->doubt / open, "flow"};
            b.w.computed(
                i, "drain_flow_over_rating", probability_above(through, *t.drain->rating),
                b.w.show(through) + (count > 1 ? " with one outlet blocked" : " through the only outlet recorded") +
                    ", rated " + b.w.show(*t.drain->rating) + "; all of the loop's flow is taken to come this way");
        }
    }
}

} // namespace

void assess_loops(Workbench& w)
{
    for (std::size_t i = 0; i < w.property.things().size(); ++i)
    {
        Thing const& t = w.property.at(i);
        if (t.entry.kind != "loop")
            continue;
        Bench b{w,
                i,
                *w.property.part(i, "pump"),
                *w.property.part(i, "filter"),
                *t.loop,
                t.loop->flow,
                water_temperature(w, i),
                std::nullopt};
        filter_gauge(b);
        suction_gauge(b);
        total_head(b);
        flow_on_curve(b);
        turnover(b);
        velocities(b);
        filter_rate(b);
        motor(b);
        drains(b);
    }
}

} // namespace padwalk::assess
