// What the gauges of a loop say, and the flow that the pump's curve gives at the head they show.
#include "loop_bench.hpp"

namespace padwalk::assess
{
std::string curve_not_usable(LoopBench const& b)
{
    if (!b.speed_known())
        return speed_not_recorded;
    // Whose curve it is can't be guessed: makers print one for each of several speeds.
    if (b.v.pump->speed && !b.v.pump->curve_speed && b.v.pump->variable_speed.value_or(true))
        return "the speed that the curve is for ('curve_speed') was not recorded";
    return {};
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

namespace
{

using units::Measured;

Measured<units::Pressure> difference(Measured<units::GaugePressure> const& a, Measured<units::GaugePressure> const& b)
{
    return {a.value - b.value, units::of_si<units::Pressure>(std::hypot(units::in_si(a.doubt), units::in_si(b.doubt))),
            "difference"};
}

Measured<units::Pressure> as_pressure(Measured<units::GaugePressure> const& g)
{
    return {g.value.from_zero(), g.doubt, g.method};
}

// Why the gauge can't be held against its clean reading; empty if it can.
std::string not_comparable(LoopBench& b)
{
    auto const& clean_speed = b.v.filter->clean_speed;
    auto const speed = b.v.pump ? b.v.pump->speed : visit::Taken<units::RotationSpeed>{};
    if (!b.speed_known())
        return speed_not_recorded;
    if (clean_speed && !speed)
        return "the clean reading has a speed of the pump, the other has none";
    if (clean_speed && speed)
    {
        constexpr double same = 0.03; // judgement: pressure goes with the square, so 6 %, a usual gauge's own doubt
        double const ratio = units::in_si(clean_speed->value) / units::in_si(speed->value);
        return std::abs(ratio - 1) > same
                   ? "read at " + b.w.show(*speed) + ", the clean reading at " + b.w.show(*clean_speed)
                   : std::string();
    }
    if (b.variable_speed())
        return "the pump has a variable speed, and the speed of the clean reading ('clean_speed') was not recorded";
    return {};
}

// Far below clean, and each of the two a likely clean reading: perhaps each stands in the other's place.
void ask_if_swapped(LoopBench& b, double low)
{
    auto const& f = *b.v.filter;
    constexpr double far_below = 1.5; // judgement: clean more than half above the reading
    double const gauge = units::in_si(as_pressure(*f.gauge).value);
    double const least = units::in_si(b.w.rules.limit<units::Pressure>("filter_gauge_low_unknown_clean").value);
    bool const others_tell = b.suction_gauge || b.v.flow; // what lowers a gauge so far shows there too
    if (!others_tell && b.clearly(low) && gauge > least &&
        units::in_si(as_pressure(*f.clean_gauge).value) > far_below * gauge)
        b.w.out.questions.push_back({b.filter,
                                     "gauge " + b.w.show(*f.gauge) + ", clean_gauge " + b.w.show(*f.clean_gauge),
                                     "were gauge and clean_gauge swapped? A filter in use seldom reads so far below "
                                     "its clean reading",
                                     {}});
}

/// How far the filter is on its way to the next cleaning. Speeds that differ are allowed for where both are known.
void filter_loading(LoopBench& b)
{
    auto const& f = *b.v.filter;
    auto const speed = b.v.pump ? b.v.pump->speed : visit::Taken<units::RotationSpeed>{};
    bool const same = !f.clean_speed && !b.variable_speed();
    if (!same && !(f.clean_speed && speed))
        return;
    figures::Inputs in;
    in.add("clean_gauge", f.clean_gauge).add("gauge", f.gauge);
    if (!same)
        in.add("clean_speed", f.clean_speed).add("speed", speed);
    b.w.figure(b.filter, "filter_loading", in, "rise of the gauge of " + b.w.name(b.filter) + " since it was clean");
}

void filter_against_clean(LoopBench& b)
{
    auto const& f = *b.v.filter;
    filter_loading(b);
    if (auto const why = not_comparable(b); !why.empty())
    {
        b.not_tested(b.filter, "pressure rise", why);
        return;
    }
    auto const rise = difference(*f.gauge, *f.clean_gauge);
    auto const drop = difference(*f.clean_gauge, *f.gauge);
    double const low = probability_above(drop, b.w.rules.limit<units::Pressure>("filter_drop_low"));
    std::string const readings =
        "gauge " + b.w.show(*f.gauge) + " against " + b.w.show(*f.clean_gauge) + " when clean; ";
    b.w.computed(b.filter, "filter_pressure_high",
                 probability_above(rise, b.w.rules.limit<units::Pressure>("filter_rise_high")),
                 readings + "speaks above " + b.w.rules.cited("filter_rise_high"));
    b.w.computed(b.filter, "filter_pressure_low", low,
                 readings + "speaks below by " + b.w.rules.cited("filter_drop_low"));
    ask_if_swapped(b, low);
}

// Without the clean reading only a gauge far off says anything.
void filter_alone(LoopBench& b)
{
    auto const reading = as_pressure(*b.v.filter->gauge);
    std::string const known = "gauge " + b.w.show(*b.v.filter->gauge) + ", clean reading not known; ";
    double const high = probability_above(reading, b.w.rules.limit<units::Pressure>("filter_gauge_high_unknown_clean"));
    double const low =
        1 - probability_above(reading, b.w.rules.limit<units::Pressure>("filter_gauge_low_unknown_clean"));
    // Slowed, a sound pump gives little pressure by right, and a dirty filter no high one.
    bool const say_high = b.variable_speed() ? b.clearly(high) : b.telling(high);
    bool const say_low = !b.variable_speed() && b.telling(low);
    if (say_high)
        b.w.computed(b.filter, "filter_pressure_high", high,
                     known + "speaks above " + b.w.rules.cited("filter_gauge_high_unknown_clean"));
    if (say_low)
        b.w.computed(b.filter, "filter_pressure_low", low,
                     known + "speaks below " + b.w.rules.cited("filter_gauge_low_unknown_clean"));
    if (!say_high || !say_low)
        b.not_tested(b.filter, "pressure rise",
                     b.speed_known() ? "clean reading not known"
                                     : std::string("clean reading not known; ") + speed_not_recorded);
}

void filter_gauge(LoopBench& b)
{
    if (!b.v.filter || !b.v.filter->gauge)
        return;
    double const over =
        probability_above(as_pressure(*b.v.filter->gauge), b.w.rules.limit<units::Pressure>("filter_tank"));
    constexpr double worth_saying = 0.1; // judgement: few read so high
    if (over > worth_saying)
        b.w.computed(b.filter, "filter_over_plate_pressure", over,
                     "gauge " + b.w.show(*b.v.filter->gauge) + "; speaks above " + b.w.rules.cited("filter_tank") +
                         "; the plate on the tank decides");
    if (b.v.filter->clean_gauge)
        filter_against_clean(b);
    else
        filter_alone(b);
}

// People write vacuum without its minus. A pump above the water has no pressure at its inlet.
void doubt_the_sign(LoopBench& b)
{
    constexpr double most = 6894.757; // Pa, 1 psi: a gauge off its zero; judgement
    if (!b.suction_gauge || b.v.equipment == visit::Stands::below_water ||
        units::in_si(as_pressure(*b.suction_gauge).value) <= most)
        return;
    constexpr double whole_air = 101591.7; // Pa, 30 inHg: no vacuum goes deeper
    std::string const said = b.w.show(units::Reading::exact(b.suction_gauge->value), "inHg");
    bool const may_be_vacuum = units::in_si(as_pressure(*b.suction_gauge).value) < whole_air;
    b.w.out.questions.push_back({b.loop,
                                 "suction gauge " + said,
                                 (may_be_vacuum ? "vacuum is written with a minus; say -" + said + ", or "
                                                : "this is pressure where a pump above the water has vacuum; say ") +
                                     "equipment: below_water if it really shows pressure",
                                 {}});
    b.suction_gauge.reset();
}

void vacuum(LoopBench& b)
{
    auto const reading = as_pressure(*b.suction_gauge);
    std::string const gauge = "suction gauge " + b.w.show(*b.suction_gauge);
    double const high = 1 - probability_above(reading, b.w.rules.limit<units::Pressure>("suction_vacuum_high"));
    // Slower, a pump pulls less: a deep vacuum is deep at any speed, and no other reading says anything.
    if (b.speed_known() || b.clearly(high))
        b.w.computed(b.loop, "suction_vacuum_high", high,
                     gauge + "; speaks below " + b.w.rules.cited("suction_vacuum_high"), "suction gauge");
    if (!b.speed_known())
        b.not_tested(b.loop, "suction gauge", speed_not_recorded);
    else if (b.v.equipment != visit::Stands::below_water) // a flooded pump has little vacuum by right
        b.w.computed(b.loop, "suction_vacuum_low",
                     probability_above(reading, b.w.rules.limit<units::Pressure>("suction_vacuum_low")),
                     gauge + "; speaks above " + b.w.rules.cited("suction_vacuum_low"));
}

void suction_margin(LoopBench& b)
{
    figures::Inputs in;
    in.add("suction_gauge", b.suction_gauge)
        .add("gauge_height", b.v.suction_gauge_height)
        .add("water_temperature", b.water)
        .add("altitude", b.w.visit.altitude);
    if (b.flow && b.v.suction && b.v.suction->bore)
        in.add("flow", b.flow).add("bore", b.v.suction->bore);
    bool const told = b.v.pump && b.v.pump->needs_suction_head;
    if (told)
        in.add("required", b.v.pump->needs_suction_head);
    auto const margin = b.w.figure(b.pump, "suction_margin", in, "suction margin of " + b.w.name(b.pump));
    auto const available = margin.get<units::Head>("npsh_available");
    if (!available || !b.speed_known()) // what the pump needs goes with its speed
        return;
    auto const needed = told ? *b.v.pump->needs_suction_head : b.w.rules.limit<units::Head>("suction_head");
    b.w.computed(b.pump, "pump_suction_margin_small", 1 - probability_above(*available, needed),
                 "net positive suction head available " + b.w.show(*available) + " against " + b.w.show(needed) +
                     (told ? " required" : ", " + b.w.rules.cited("suction_head")),
                 "suction gauge");
}

void total_head(LoopBench& b)
{
    auto const* discharge = b.v.pump && b.v.pump->discharge_gauge ? &b.v.pump->discharge_gauge
                            : b.v.filter                          ? &b.v.filter->gauge
                                                                  : nullptr;
    if (discharge == nullptr || !*discharge || !b.suction_gauge)
        return;
    bool const at_filter = !(b.v.pump && b.v.pump->discharge_gauge);
    figures::Inputs in;
    in.add("discharge_gauge", *discharge)
        .add("suction_gauge", b.suction_gauge)
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

void flow_on_curve(LoopBench& b)
{
    if (!b.v.pump || !b.v.pump->curve || !b.head)
        return;
    if (auto const why = curve_not_usable(b); !why.empty())
    {
        b.not_tested(b.pump, "flow by curve", why);
        return;
    }
    figures::Inputs in;
    in.add_node("curve", curve_node(*b.v.pump->curve)).add("head", b.head);
    if (auto const ratio = speed_ratio(*b.v.pump))
        in.add("speed_ratio", units::Reading::exact(*ratio));
    auto const figure =
        b.w.figure(b.pump, "pump_flow", in, "flow of " + b.w.name(b.pump) + " by its curve at that head");
    auto const on_curve = figure.get<units::VolumeFlow>("flow");
    if (!on_curve)
        return;
    b.on_curve = on_curve;
    if (!b.v.flow)
        return;
    auto const limit = share_of(*on_curve, b.w.rules.limit<units::Fraction>("below_curve_share"));
    b.w.computed(b.pump, "pump_below_curve", 1 - probability_above(*b.v.flow, limit),
                 "flow " + b.w.show(*b.v.flow) + " where the curve gives " + b.w.show(*on_curve) + "; speaks below " +
                     b.w.rules.cited("below_curve_share"));
}

} // namespace

void loop_gauges(LoopBench& b)
{
    filter_gauge(b);
    doubt_the_sign(b);
    if (b.suction_gauge)
    {
        vacuum(b);
        suction_margin(b);
    }
    total_head(b);
    flow_on_curve(b);
}

} // namespace padwalk::assess
