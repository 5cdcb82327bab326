#include "padwalk/circulation/pump.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/numerics/root.hpp"
#include "padwalk/physics/water.hpp"
#include "padwalk/units/print.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::circulation
{
namespace
{

using fields::CurvePoint;
using figures::NotComputed;

constexpr double conversion_rounding = 1e-9; // a point read back in other units is still on the curve

std::string text(units::Head head)
{
    return units::show(units::Measure::head, head.value(), 0, {});
}

std::string text(units::VolumeFlow flow)
{
    return units::show(units::Measure::volume_flow, units::in_si(flow), 0, {units::System::us, "gpm", {}});
}

std::string text(CurvePoint const& point)
{
    return text(point.head) + " at " + text(point.flow);
}

void require_falling(std::vector<CurvePoint> const& points)
{
    if (points.size() < 2)
        throw NotComputed("a pump curve needs two points or more; three, the first at no flow, are best");
    if (points.front().flow < units::VolumeFlow{})
        throw NotComputed("a point of the pump curve has a flow below zero");
    for (std::size_t i = 1; i < points.size(); ++i)
    {
        if (points[i].flow <= points[i - 1].flow)
            throw NotComputed("two points of the pump curve have the same flow, " + text(points[i].flow));
        if (points[i].head >= points[i - 1].head)
            throw NotComputed("the pump curve does not fall from " + text(points[i - 1]) + " to " + text(points[i]) +
                              ", so a head has two flows; leave out the points to the left of the highest");
    }
}

std::vector<CurvePoint> sorted(std::vector<CurvePoint> points)
{
    std::sort(points.begin(), points.end(), [](CurvePoint const& a, CurvePoint const& b) { return a.flow < b.flow; });
    require_falling(points);
    return points;
}

numerics::MonotoneCurve smooth(std::vector<CurvePoint> const& points)
{
    std::vector<double> flows, heads;
    for (auto const& p : points)
    {
        flows.push_back(units::in_si(p.flow));
        heads.push_back(p.head.value());
    }
    return {flows, heads};
}

} // namespace

PumpCurve::PumpCurve(std::vector<CurvePoint> points, units::Fraction speed) : speed_(speed.value()), shape_(Power{})
{
    points = sorted(std::move(points));
    if (!(speed_ > 0))
        throw NotComputed("a pump that stands still has no curve: its speed must be above zero");
    first_ = points.front();
    last_ = points.back();
    if (points.size() != 3 || first_.flow > units::VolumeFlow{})
    {
        shape_ = smooth(points);
        return;
    }
    double const h0 = points[0].head.value();
    double const drop_1 = h0 - points[1].head.value();
    double const drop_2 = h0 - points[2].head.value();
    double const q1 = units::in_si(points[1].flow);
    double const n = std::log(drop_2 / drop_1) / std::log(units::in_si(points[2].flow) / q1);
    shape_ = Power{h0, drop_1 / std::pow(q1, n), n};
}

double PumpCurve::head_m(double flow_m3s) const
{
    if (auto const* power = std::get_if<Power>(&shape_))
        return power->h0 - power->b * std::pow(flow_m3s, power->n);
    return std::get<numerics::MonotoneCurve>(shape_).at(flow_m3s);
}

double PumpCurve::flow_m3s(double head) const
{
    if (auto const* power = std::get_if<Power>(&shape_))
        return std::pow((power->h0 - head) / power->b, 1 / power->n);
    auto const& curve = std::get<numerics::MonotoneCurve>(shape_);
    return numerics::bracketed_root([&](double q) { return curve.at(q) - head; }, curve.low(), curve.high(), 1e-13);
}

double PumpCurve::place_on_curve(units::VolumeFlow flow) const
{
    double const at = units::in_si(flow) / speed_;
    double const low = units::in_si(first_.flow), high = units::in_si(last_.flow);
    if (at >= low && at <= high)
        return at;
    if (!(at >= low - conversion_rounding * high))
        throw NotComputed("a flow of " + text(flow) + " is below the first point of the pump curve (" +
                          text(least_flow()) + " at this speed); give a point at a lower flow");
    if (at > high * (1 + conversion_rounding))
        throw NotComputed("a flow of " + text(flow) + " is beyond the last point of the pump curve (" +
                          text(greatest_flow()) + " at this speed); give a point at a higher flow");
    return std::clamp(at, low, high);
}

units::Head PumpCurve::head_at(units::VolumeFlow flow) const
{
    return units::of_si<units::Head>(speed_ * speed_ * head_m(place_on_curve(flow)));
}

HeadAndSlope PumpCurve::head_and_slope_at(units::VolumeFlow flow) const
{
    double const at = place_on_curve(flow);
    double const squared = speed_ * speed_;
    if (auto const* power = std::get_if<Power>(&shape_))
    {
        double const fallen = power->b * std::pow(at, power->n);
        double const slope = at > 0 ? -power->n * fallen / at : 0; // n below 1: steep without end at no flow
        return {units::of_si<units::Head>(squared * (power->h0 - fallen)), speed_ * slope};
    }
    auto const& curve = std::get<numerics::MonotoneCurve>(shape_);
    return {units::of_si<units::Head>(squared * curve.at(at)), speed_ * curve.slope(at)};
}

units::VolumeFlow PumpCurve::flow_at(units::Head head) const
{
    double const at = head.value() / (speed_ * speed_);
    double const low = last_.head.value(), high = first_.head.value();
    double const rounding = conversion_rounding * high;
    if (!(at <= high + rounding))
        throw NotComputed(first_.flow > units::VolumeFlow{}
                              ? "a head of " + text(head) + " is above the first point of the pump curve (" +
                                    text(greatest_head()) + " at this speed); give a point at a lower flow"
                              : "a head of " + text(head) + " is more than this pump can make (" +
                                    text(greatest_head()) +
                                    " with no flow, at this speed); check both gauges, the speed, and whether the "
                                    "curve is this pump's");
    if (at < low - rounding)
        throw NotComputed("a head of " + text(head) + " is below the last point of the pump curve (" +
                          text(least_head()) + " at " + text(greatest_flow()) +
                          " at this speed); give a point at a higher flow");
    return units::of_si<units::VolumeFlow>(speed_ * flow_m3s(std::clamp(at, low, high)));
}

Duty at_speed(Duty const& duty, units::RotationSpeed speed, units::RotationSpeed new_speed)
{
    double const s = new_speed / speed;
    Duty out{duty.flow * s, duty.head * (s * s), std::nullopt};
    if (duty.power)
        out.power = *duty.power * (s * s * s);
    return out;
}

units::Power hydraulic_power(units::VolumeFlow flow, units::Head head, units::Temperature water)
{
    return physics::density(water) * physics::standard_gravity * flow * head.plain();
}

std::vector<CurvePoint> carried_on(std::vector<CurvePoint> points)
{
    constexpr double least_share = 0.1;
    points = sorted(std::move(points));
    double const first = points.front().head.value(), least = least_share * first;
    CurvePoint& last = points.back();
    if (!(last.head.value() > least))
        return points;
    if (points.size() == 3 && !(points.front().flow > units::VolumeFlow{}))
    {
        double const q1 = units::in_si(points[1].flow), drop_1 = first - points[1].head.value();
        double const n = std::log((first - last.head.value()) / drop_1) / std::log(units::in_si(last.flow) / q1);
        last = {units::of_si<units::VolumeFlow>(q1 * std::pow((first - least) / drop_1, 1 / n)),
                units::of_si<units::Head>(least)};
        return points;
    }
    CurvePoint const& before = points[points.size() - 2];
    double const q = units::in_si(last.flow), h = last.head.value();
    double const slope = (before.head.value() - h) / (q - units::in_si(before.flow)); // of the fall
    // slope x (1 + x/q) = h - least
    double const x = q / 2 * (std::sqrt(1 + 4 * (h - least) / (slope * q)) - 1);
    points.push_back({units::of_si<units::VolumeFlow>(q + x), units::of_si<units::Head>(least)});
    return points;
}

} // namespace padwalk::circulation
