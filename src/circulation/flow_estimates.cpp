#include "padwalk/circulation/flow_estimates.hpp"

#include "padwalk/circulation/head.hpp"
#include "padwalk/figures/model.hpp"
#include "padwalk/numerics/gaussian.hpp"
#include "padwalk/numerics/root.hpp"
#include "padwalk/numerics/statistics.hpp"
#include "padwalk/physics/water.hpp"
#include "padwalk/units/definitions.hpp"
#include "padwalk/units/print.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace padwalk::circulation
{
namespace
{

using fields::Record;
using figures::NotComputed;

std::string text(units::Power power)
{
    return units::show(units::Measure::power, units::in_si(power), 0, {units::System::us, "W", {}});
}

std::string text(units::VolumeFlow flow)
{
    return units::show(units::Measure::volume_flow, units::in_si(flow), 0, {units::System::us, "gpm", {}});
}

/// The path's losses less the velocity head that the gauge doesn't show, m, rising with flow.
class TakenByPath
{
public:
    TakenByPath(ReturnPath const& path, units::Temperature water)
        : path_(path), viscosity_(physics::kinematic_viscosity(water)),
          velocity_heads_(outlet_loss(path) + path.heater.value() - 1)
    {
    }

    [[nodiscard]] double at(double flow_m3s) const
    {
        auto const flow = units::of_si<units::VolumeFlow>(flow_m3s);
        PipeLoss const pipe = pipe_loss(path_.pipe, flow, FrictionFormula::darcy_weisbach, viscosity_);
        double const head = pipe.total().value() + velocity_heads_ * velocity_head(pipe.velocity).value();
        if (!path_.filter)
            return head;
        double const share = flow_m3s / units::in_si(path_.filter->at);
        return head + share * (path_.filter->linear.value() + share * path_.filter->quadratic.value());
    }

private:
    // The jets' velocity head is lost in the water.
    static double outlet_loss(ReturnPath const& path)
    {
        double const bores = units::in_si(path.pipe.bore / path.opening);
        double const areas = bores * bores / (path.openings.value() * path.discharge_coefficient.value());
        return areas * areas;
    }

    ReturnPath const& path_;
    units::KinematicViscosity viscosity_;
    double velocity_heads_;
};

void require_path(ReturnPath const& path)
{
    if (!(path.pipe.bore > units::Length{}))
        throw NotComputed("the return pipe has no bore");
    if (!(path.opening > units::Length{}) || !(path.openings > units::Number{}) ||
        !(path.discharge_coefficient > units::Number{}))
        throw NotComputed("there is no opening through which the water comes back");
}

} // namespace

FilterLoss filter_loss_of(std::vector<FilterKind> const& kinds, FilterMedium medium, units::Area area,
                          units::Fraction loading, units::Temperature water)
{
    if (!(area > units::Area{}))
        throw NotComputed("the filter has no area");
    for (auto const& kind : kinds)
        if (kind.medium == medium)
            return {kind.at_per_square_foot * (units::in_si(area) / units::exact::square_foot),
                    head_of_pressure(kind.linear, water) + head_of_pressure(kind.dirty, water) * loading.value(),
                    head_of_pressure(kind.quadratic, water)};
    throw NotComputed("no loss is known for this kind of filter");
}

units::VolumeFlow flow_by_pressure(ReturnGauge const& gauge, ReturnPath const& path)
{
    require_path(path);
    double const head = head_of_pressure(gauge.reading.from_zero(), gauge.water).value() +
                        units::in_si(gauge.height - path.outlet_height);
    if (!(head > 0))
        throw NotComputed("the gauge shows no more than the height of the water it returns to, so nothing says that "
                          "water moves; check the gauge's zero and its height above the water");
    TakenByPath const taken(path, gauge.water);
    constexpr double beginning = 1.0; // m/s in the bore
    constexpr int most_doublings = 8; // 256 m/s: no gauge shows what that takes
    double high = beginning * units::in_si(bore_area(path.pipe.bore));
    for (int i = 0; i < most_doublings && taken.at(high) < head; ++i)
        high *= 2;
    if (taken.at(high) < head)
        throw NotComputed("such wide openings and so little pipe hold no water back; check their number and diameter, "
                          "and whether the gauge's place is the one said");
    return units::of_si<units::VolumeFlow>(
        numerics::bracketed_root([&](double q) { return taken.at(q) - head; }, 0, high, 1e-11));
}

Record<JudgedNumber> const& JudgedNumber::declaration()
{
    static Record<JudgedNumber> const record =
        Record<JudgedNumber>("judged number", "a number of the trade with its doubt")
            .field("value", &JudgedNumber::value, "the number")
            .required()
            .field("doubt", &JudgedNumber::doubt, "its standard doubt")
            .required()
            .field("meaning", &JudgedNumber::meaning, "what it is")
            .required()
            .field("source", &JudgedNumber::source, "where it comes from")
            .required();
    return record;
}

Record<PumpPowerTable> const& PumpPowerTable::declaration()
{
    using T = PumpPowerTable;
    static Record<T> const record =
        Record<T>("pump power", "what a small pump and its motor take")
            .field("no_flow_share", &T::no_flow_share, "shaft power at no flow")
            .required()
            .field("best_efficiency", &T::best_efficiency, "of the pump")
            .required()
            .field("motor_efficiency", &T::motor_efficiency, "of the motor at the curve's speed")
            .required()
            .field("motor_speed_exponent", &T::motor_speed_exponent, "how it falls with speed")
            .required()
            .field("form", &T::form, "doubt of the straight line")
            .required();
    return record;
}

namespace
{

struct PumpPowerFile
{
    PumpPowerTable table;
    static Record<PumpPowerFile> const& declaration()
    {
        static Record<PumpPowerFile> const record =
            Record<PumpPowerFile>("file", "the table").field("table", &PumpPowerFile::table, "the table").required();
        return record;
    }
};

/// The flow at which Q^k H(Q) is greatest: among points over the curve, then between the neighbours of the best of
/// them by thirds.
units::VolumeFlow greatest_of(PumpCurve const& curve, double k)
{
    double const least = units::in_si(curve.least_flow()), most = units::in_si(curve.greatest_flow());
    auto const value = [&](double q)
    { return std::pow(q, k) * curve.head_at(units::of_si<units::VolumeFlow>(q)).value(); };
    constexpr int places = 40;
    double const step = (most - least) / places;
    int best = 0;
    for (int i = 1; i <= places; ++i)
        if (value(least + i * step) > value(least + best * step))
            best = i;
    if (best == places)
        throw NotComputed("the curve ends, at " + text(curve.greatest_flow()) +
                          ", before the flow of the pump's best efficiency; give a point at a higher flow");
    double low = least + std::max(best - 1, 0) * step, high = least + (best + 1) * step;
    while (high - low > 1e-8 * most) // flat at its top: closer it can't be told
    {
        double const third = (high - low) / 3;
        if (value(low + third) < value(high - third))
            low += third;
        else
            high -= third;
    }
    return units::of_si<units::VolumeFlow>((low + high) / 2);
}

} // namespace

PumpPowerTable pump_power_table(reference::Data const& data)
{
    return reference::read_table<PumpPowerFile>(data, "circulation/pump_power.yaml").table;
}

PumpPower::PumpPower(PumpCurve const& curve, units::Fraction no_flow_share, units::Fraction best_efficiency,
                     units::Temperature water, std::optional<units::VolumeFlow> best_flow)
    : no_flow_share_(no_flow_share.value()), least_(curve.least_flow()), greatest_(curve.greatest_flow())
{
    best_flow_ = best_flow ? *best_flow : greatest_of(curve, no_flow_share_);
    best_power_ = hydraulic_power(best_flow_, curve.head_at(best_flow_), water) / best_efficiency.value();
}

units::Power PumpPower::shaft_at(units::VolumeFlow flow) const
{
    return best_power_ * (no_flow_share_ + (1 - no_flow_share_) * units::in_si(flow / best_flow_));
}

units::VolumeFlow PumpPower::flow_at(units::Power shaft) const
{
    if (shaft < shaft_at(least_))
        throw NotComputed("no flow on the curve fits: a shaft power of " + text(shaft) + " is less than the " +
                          text(shaft_at(least_)) + " that such a pump would take at " + text(least_) +
                          ". It may run dry, against a shut valve or slower than said, or its curve or efficiencies "
                          "are others");
    if (shaft > shaft_at(greatest_))
        throw NotComputed("no flow on the curve fits: a shaft power of " + text(shaft) + " is more than the " +
                          text(shaft_at(greatest_)) + " that such a pump would take at the curve's last point, " +
                          text(greatest_) +
                          ". It may rub or run faster than said, or its curve or efficiencies are others");
    double const share = units::in_si(shaft / best_power_);
    return best_flow_ * ((share - no_flow_share_) / (1 - no_flow_share_));
}

units::Fraction motor_efficiency_at(units::Fraction at_full_speed, units::Fraction speed, units::Number exponent)
{
    return at_full_speed * std::pow(std::min(speed.value(), 1.0), exponent.value());
}

namespace
{

constexpr double by_chance = 0.05;   // a disagreement that chance makes less often than this is none of chance
constexpr double one_degree = 3.841; // chi-square of one degree that chance passes in one case of 20; any table

/// What all of them but one say; none left out: all.
numerics::Combined combined(std::vector<FlowEstimate> const& estimates, std::optional<std::size_t> without = {})
{
    std::vector<double> values, doubts;
    for (std::size_t i = 0; i < estimates.size(); ++i)
        if (i != without)
        {
            values.push_back(units::in_si(estimates[i].flow.value));
            doubts.push_back(units::in_si(estimates[i].flow.doubt));
        }
    return numerics::combine(values, doubts);
}

void require_estimates(std::vector<FlowEstimate> const& estimates)
{
    if (estimates.empty())
        throw NotComputed("no flow is known by any way");
    for (auto const& e : estimates)
    {
        double const value = units::in_si(e.flow.value), doubt = units::in_si(e.flow.doubt);
        if (!std::isfinite(value) || !std::isfinite(doubt) || !(doubt > 0))
            throw NotComputed("the flow by " + e.way + " needs its standard doubt, above zero, to be weighed");
    }
}

/// The one without which the others agree; `rest`: chi-square without each.
std::optional<std::size_t> odd_one(std::vector<double> const& rest)
{
    int const degrees = static_cast<int>(rest.size()) - 2;
    if (degrees < 1)
        return std::nullopt;
    auto const least = std::min_element(rest.begin(), rest.end());
    auto const agree = [&](double chi_square) { return numerics::chance_above(chi_square, degrees) >= by_chance; };
    if (!agree(*least))
        return std::nullopt;
    for (auto r = rest.begin(); r != rest.end(); ++r)
        if (r != least && agree(*r) && *r - *least <= one_degree)
            return std::nullopt;
    return static_cast<std::size_t>(least - rest.begin());
}

} // namespace

JointFlow joint_flow(std::vector<FlowEstimate> const& estimates)
{
    require_estimates(estimates);
    numerics::Combined const all = combined(estimates);
    JointFlow out;
    out.chi_square = all.chi_squared;
    out.degrees = static_cast<int>(estimates.size()) - 1;
    double const birge = out.degrees > 0 ? std::max(1.0, std::sqrt(all.chi_squared / out.degrees)) : 1.0;
    out.flow = {units::of_si<units::VolumeFlow>(all.value), units::of_si<units::VolumeFlow>(all.doubt * birge),
                "computed"};
    out.off.assign(estimates.size(), 0.0);
    if (out.degrees == 0)
        return out;
    std::vector<double> rest;
    for (std::size_t i = 0; i < estimates.size(); ++i)
    {
        auto const others = combined(estimates, i);
        rest.push_back(others.chi_squared);
        auto const& own = estimates[i].flow;
        out.off[i] = (units::in_si(own.value) - others.value) / std::hypot(units::in_si(own.doubt), others.doubt);
    }
    out.disagree = numerics::chance_above(all.chi_squared, out.degrees) < by_chance;
    if (out.disagree)
        out.odd = odd_one(rest);
    return out;
}

std::string joint_in_words(JointFlow const& joint, std::vector<FlowEstimate> const& estimates)
{
    if (estimates.size() == 1)
        return "known by " + estimates.front().way + " alone; nothing else checks it";
    if (!joint.disagree)
        return "the ways to know the flow agree within their doubts";
    if (joint.odd)
        return "the flow by " + estimates[*joint.odd].way +
               " disagrees with the others, which agree without it; it still counts in the joint flow, whose doubt is "
               "the wider for it. Look at that way's reading and at what it takes for granted";
    return estimates.size() == 2
               ? "the two ways to know the flow disagree, and two can't tell which of them is wrong"
               : "the ways to know the flow disagree by more than their doubts, and it can't be told which is wrong";
}

} // namespace padwalk::circulation
