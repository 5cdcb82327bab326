#include "padwalk/level/fill_valve.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/units/definitions.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace padwalk::level
{

using figures::NotComputed;
using units::exact::day;

namespace
{

constexpr double cool_water = 999; ///< kg/m3: a supply; within a thousandth from 5 to 20 degC

units::Length metres(double si)
{
    return units::of_si<units::Length>(si);
}

void require_valve(FillValve const& v)
{
    if (!(v.area > units::Area()))
        throw NotComputed("needs area: the surface of the water");
    if (!(v.travel > units::Length()))
        throw NotComputed("needs travel: how far the level falls until the valve stands wide open");
    if (!v.dead_for && !(v.flow > units::VolumeFlow()))
        throw NotComputed("needs flow: what the valve delivers wide open");
}

/// Level rate of the water that runs in whatever the level does, m/s.
double always(FillValve const& v)
{
    double const stuck = std::max(units::in_si(v.through), v.stuck.value() * units::in_si(v.flow));
    return v.dead_for ? 0 : stuck / units::in_si(v.area);
}

units::GaugePressure peak(FillValve const& v)
{
    if (v.dead_for || !(v.wave > units::Velocity()))
        return v.supply;
    double const bore = units::in_si(v.line_bore), section = std::numbers::pi / 4 * bore * bore;
    auto const velocity = units::of_si<units::Velocity>(units::in_si(v.flow) / section);
    return v.supply +
           water_hammer(velocity, v.wave, v.line_length, v.closing, units::of_si<units::Density>(cool_water)).rise;
}

/// Level below the wanted one and inflow as a level rate, by what runs whatever the level and what the valve adds.
struct Settled
{
    double below = 0, inflow = 0, starts = 0, falls = 0;
};

Settled settle(FillValve const& v, double watched)
{
    double const q = units::in_si(v.flow) / units::in_si(v.area), loss = units::in_si(v.loss), least = always(v);
    double const travel = units::in_si(v.travel), set = units::in_si(v.set_high), top = units::in_si(v.overflow);
    double const needed = loss - least, most = v.dead_for ? 0 : q - least;
    if (v.dead_for)
        return {loss * units::in_si(*v.dead_for) - set, 0, 0, loss};
    if (needed <= 0)
        return {-top, least, 0, 0};
    if (most <= needed) // as wide open as it gets
        return {travel - set + (needed - most) * watched, least + most, 0, needed - most};
    if (v.kind == FillKind::level_sensor)
    {
        if (set > top) // the water runs off before it reaches the height at which the valve shuts
            return {-top, q, 0, 0};
        return {std::max(travel / 2 - set, -top), loss, needed / travel * (1 - needed / most) * day, 0};
    }
    double const rest = travel * needed / q - set;
    if (rest < -top) // it runs off before the float shuts the valve
        return {-top, least + std::min(most, q * (set - top) / travel), 0, 0};
    return {rest, loss, 0, 0};
}

} // namespace

units::VolumeFlow wide_open_flow(units::VolumeFlow seat, std::optional<units::VolumeFlow> line)
{
    if (!line)
        return seat;
    double const a = units::in_si(seat), b = units::in_si(*line);
    return units::of_si<units::VolumeFlow>(a > 0 && b > 0 ? a * b / std::hypot(a, b) : 0);
}

FillAtRest fill_at_rest(FillValve const& v, FillValveTable const& table)
{
    require_valve(v);
    Settled const s = settle(v, table.watched.si());
    double const area = units::in_si(v.area);
    FillAtRest out;
    out.holds = s.falls <= 0;
    out.below = metres(s.below);
    out.day = units::of_si<units::Volume>(s.inflow * area * day);
    out.run = units::Fraction::from_value(v.flow > units::VolumeFlow() ? s.inflow * area / units::in_si(v.flow) : 0);
    out.starts = units::Number::from_value(s.starts);
    out.held_down = v.dead_for ? units::VolumeFlow() : v.flow;
    out.held_up = units::of_si<units::VolumeFlow>(always(v) * area);
    out.peak = peak(v);
    out.falls = units::of_si<units::Velocity>(s.falls);
    return out;
}

std::optional<units::Duration> time_to_make_up(FillValve const& v, units::Length below, units::Length near)
{
    require_valve(v);
    double const q = units::in_si(v.flow) / units::in_si(v.area), loss = units::in_si(v.loss);
    double const travel = units::in_si(v.travel), from = units::in_si(below), close = units::in_si(near);
    if (v.dead_for || q <= loss)
        return std::nullopt;
    if (v.kind == FillKind::level_sensor)
        return units::of_si<units::Duration>(std::max(0.0, from) / (q - loss));
    double const rest = travel * loss / q, throttled = std::min(from, travel);
    double time = from > travel ? (from - travel) / (q - loss) : 0;
    if (throttled - rest > close)
        time += travel / q * std::log((throttled - rest) / close);
    return units::of_si<units::Duration>(time);
}

FillValve with_fill_fault(FillValve v, FillFaultKind kind, units::Fraction severity, FillValveTable const& table)
{
    if (!(severity.value() >= 0 && severity.value() <= 1))
        throw NotComputed("a fault's severity lies between 0 and 1");
    auto const& rule = table.fault(kind);
    double const size = rule.mildest.value() * std::pow(rule.worst / rule.mildest, severity.value());
    switch (kind)
    {
    case FillFaultKind::dead: v.dead_for = units::of_si<units::Duration>(size * day); break;
    case FillFaultKind::weak: v.flow = v.flow * size; break;
    case FillFaultKind::stuck_open: v.stuck = units::Fraction::from_value(size); break;
    case FillFaultKind::set_too_high: v.set_high = v.set_high + metres(size * units::exact::inch); break;
    case FillFaultKind::set_too_low: v.set_high = v.set_high - metres(size * units::exact::inch); break;
    case FillFaultKind::hammering: v.closing = v.closing * size; break;
    case FillFaultKind::leaking_through: v.through = v.flow * size; break;
    case FillFaultKind::hides_leak:
        v.loss = v.loss + units::of_si<units::Velocity>(size * units::exact::inch / day);
        break;
    }
    return v;
}

} // namespace padwalk::level
