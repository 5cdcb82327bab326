#include "network_parts.hpp"

#include "padwalk/figures/model.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace padwalk::circulation
{
namespace
{

constexpr double creeping_reynolds = 1e-3; ///< laminar beyond doubt: the law is a straight line below
constexpr double leak_slope = 1e6;         ///< m per m3/s of a check valve run backwards: 10 m push 0.01 L/s through it
constexpr double beyond_curve = 3;         ///< times steeper than the mean of the curve: only steers the search back

units::VolumeFlow flow_of(double si)
{
    return units::of_si<units::VolumeFlow>(si);
}

/// d ln f / d ln Re of friction_factor.
double exponent_of_friction(double f, double reynolds, double roughness_share)
{
    constexpr double laminar_to = 2000, turbulent_from = 4000;
    if (reynolds <= laminar_to)
        return -1;
    if (reynolds < turbulent_from)
        return (f - 64 / laminar_to) / (reynolds - laminar_to) * reynolds / f;
    double const x = 1 / std::sqrt(f);
    double const smooth = 2.51 * x / reynolds;
    double const share = 2 / std::numbers::ln10 * smooth / (roughness_share / 3.7 + smooth);
    return -2 * share / (x + share);
}

} // namespace

double slope_over_flow(Pipe const& pipe, PipeLoss const& loss)
{
    double exponent = 1.852; // Hazen-Williams
    if (loss.friction_factor)
        exponent = 2 + exponent_of_friction(loss.friction_factor->value(), loss.reynolds.value(),
                                            units::in_si(pipe.roughness / pipe.bore));
    return exponent * loss.friction.value() + 2 * loss.minor.value();
}

LinkLaw::LinkLaw(NetworkLink const& link, FrictionFormula formula, units::KinematicViscosity viscosity)
    : link_(&link), formula_(formula), viscosity_(viscosity)
{
    if (auto const* p = std::get_if<Pipe>(&link.element))
    {
        least_ = creeping_reynolds * units::in_si(viscosity) / units::in_si(p->bore) * units::in_si(bore_area(p->bore));
        least_slope_ = pipe_loss(*p, flow_of(least_), formula, viscosity).total().value() / least_;
    }
    if (auto const* curve = std::get_if<PumpCurve>(&link.element))
    {
        least_ = units::in_si(curve->least_flow());
        greatest_ = units::in_si(curve->greatest_flow());
        double const mean = (curve->greatest_head() - curve->least_head()).value() / (greatest_ - least_);
        least_slope_ = end_slope_ = beyond_curve * mean;
    }
}

Drop LinkLaw::pipe(Pipe const& pipe, double flow) const
{
    if (flow <= least_)
        return {least_slope_ * flow, least_slope_};
    PipeLoss const loss = pipe_loss(pipe, flow_of(flow), formula_, viscosity_);
    return {loss.total().value(), slope_over_flow(pipe, loss) / flow};
}

Drop LinkLaw::pump(PumpCurve const& curve, double flow) const
{
    if (flow < least_)
        return {-curve.greatest_head().value() + least_slope_ * (flow - least_), least_slope_};
    if (flow > greatest_)
        return {-curve.least_head().value() + end_slope_ * (flow - greatest_), end_slope_};
    double const aside = 1e-5 * (greatest_ - least_);
    double const low = std::max(flow - aside, least_), high = std::min(flow + aside, greatest_);
    double const slope = (curve.head_at(flow_of(low)) - curve.head_at(flow_of(high))).value() / (high - low);
    return {-curve.head_at(flow_of(flow)).value(), slope};
}

Drop LinkLaw::forward(double flow) const
{
    if (auto const* p = std::get_if<Pipe>(&link_->element))
        return pipe(*p, flow);
    if (auto const* fixed = std::get_if<FixedLoss>(&link_->element))
    {
        double const head = minor_head(fixed->coefficient, pipe_velocity(flow_of(flow), fixed->bore)).value();
        return {head, flow > 0 ? 2 * head / flow : 0};
    }
    auto const& filter = std::get<FilterLoss>(link_->element);
    double const q0 = units::in_si(filter.at), share = flow / q0;
    double const linear = filter.linear.value(), quadratic = filter.quadratic.value();
    return {share * (linear + quadratic * share), (linear + 2 * quadratic * share) / q0};
}

Drop LinkLaw::at(double flow) const
{
    if (auto const* curve = std::get_if<PumpCurve>(&link_->element))
    {
        Drop drop = pump(*curve, flow);
        if (link_->one_way && flow < 0)
            drop = {drop.head + leak_slope * flow, drop.slope + leak_slope};
        return drop;
    }
    if (flow >= 0)
        return forward(flow);
    if (link_->one_way)
        return {leak_slope * flow, leak_slope};
    Drop const back = forward(-flow);
    return {-back.head, back.slope};
}

void LinkLaw::require_valid(double flow) const
{
    auto const named = [&](std::string const& what) { return "'" + link_->name + "': " + what; };
    if (auto const* curve = std::get_if<PumpCurve>(&link_->element))
    {
        if (flow < -1e-9 * greatest_)
            throw figures::NotComputed(named("water is pushed backwards through this pump; a check valve behind it, a "
                                             "higher speed or a shut valve would hold it"));
        try
        {
            static_cast<void>(curve->head_at(flow_of(flow)));
        }
        catch (figures::NotComputed const& e)
        {
            throw figures::NotComputed(named(e.what()));
        }
    }
    auto const* p = std::get_if<Pipe>(&link_->element);
    if (p == nullptr || formula_ != FrictionFormula::hazen_williams)
        return;
    PipeLoss const loss = pipe_loss(*p, flow_of(std::abs(flow)), formula_, viscosity_);
    if (loss.reynolds.value() < 1)
        return; // as good as no flow: it takes no head by any formula
    try
    {
        require_turbulent_for(formula_, loss);
    }
    catch (figures::NotComputed const& e)
    {
        throw figures::NotComputed(named(e.what()));
    }
}

} // namespace padwalk::circulation
