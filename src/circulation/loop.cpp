#include "padwalk/circulation/loop.hpp"

#include "colebrook.hpp"
#include "network_parts.hpp"
#include "padwalk/circulation/head.hpp"
#include "padwalk/figures/model.hpp"
#include "padwalk/numerics/root.hpp"
#include "padwalk/physics/water.hpp"
#include "padwalk/units/print.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace padwalk::circulation
{
namespace
{

LoopLosses losses_at(Loop const& loop, units::VolumeFlow flow, units::KinematicViscosity viscosity)
{
    LoopLosses losses;
    losses.suction = pipe_loss(loop.suction, flow, loop.formula, viscosity);
    losses.discharge = pipe_loss(loop.discharge, flow, loop.formula, viscosity);
    losses.filter = minor_head(loop.filter_loss, losses.discharge.velocity);
    losses.heater = minor_head(loop.heater_loss, losses.discharge.velocity);
    return losses;
}

std::string text(units::VolumeFlow flow)
{
    return units::show(units::Measure::volume_flow, units::in_si(flow), 0, {units::System::us, "gpm", {}});
}

/// One pipe's law in SI with all that does not change with flow worked out once, and the root of Colebrook's equation
/// kept from flow to flow: from a flow nearby one step finds it.
class PipeWalk
{
public:
    /// `more`: loss coefficient of what else stands on this bore.
    PipeWalk(Pipe const& pipe, double more, FrictionFormula formula, units::KinematicViscosity viscosity)
        : pipe_(pipe), formula_(formula), viscosity_(viscosity), more_(more), bore_(units::in_si(pipe.bore)),
          per_bore_(1 / bore_), per_flow_(4 / std::numbers::pi * per_bore_ * per_bore_),
          reynolds_per_flow_(per_flow_ * bore_ / units::in_si(viscosity)),
          head_per_square_(velocity_head(units::of_si<units::Velocity>(per_flow_)).value()),
          slenderness_(units::in_si(pipe.length) * per_bore_), roughness_(units::in_si(pipe.roughness) * per_bore_)
    {
        if (formula == FrictionFormula::hazen_williams)
            hazen_williams_ = friction_head_hazen_williams(units::of_si<units::VolumeFlow>(1), pipe.length, pipe.bore,
                                                           pipe.hazen_williams_c)
                                  .value();
    }

    /// m per (m3/s)2 with this friction factor.
    [[nodiscard]] double coefficient(double friction_factor) const
    {
        return (friction_factor * slenderness_ + pipe_.minor_loss.value() + more_) * head_per_square_;
    }

    /// Goes to this flow. `power`: flow to 1.852, asked of Hazen-Williams only.
    void go_to(double flow, double power)
    {
        square_ = head_per_square_ * flow * flow;
        fixed_ = (pipe_.minor_loss.value() + more_) * square_;
        loss_.velocity = units::of_si<units::Velocity>(per_flow_ * flow);
        double const reynolds = reynolds_per_flow_ * flow;
        loss_.reynolds = units::of_si<units::Number>(reynolds);
        loss_.minor = units::of_si<units::Head>(pipe_.minor_loss.value() * square_);
        double friction = 0, exponent = 1.852;
        if (formula_ == FrictionFormula::hazen_williams)
            friction = hazen_williams_ * power;
        else
            friction = turbulent(reynolds) ? rough_friction(reynolds, exponent) : any_friction(flow, exponent);
        loss_.friction = units::of_si<units::Head>(friction);
        head_ = friction + fixed_;
        steepness_ = exponent * friction + 2 * fixed_;
    }

    [[nodiscard]] double head() const { return head_; }           ///< m, with what else stands on the bore
    [[nodiscard]] double steepness() const { return steepness_; } ///< d head / d ln Q, m
    [[nodiscard]] bool settled() const { return settled_; }       ///< Colebrook's root is found, not only neared
    [[nodiscard]] PipeLoss const& loss() const { return loss_; }
    [[nodiscard]] units::Head of_coefficient(units::Number k) const
    {
        return units::of_si<units::Head>(k.value() * square_);
    }

private:
    // Within these friction_factor is Colebrook's root and throws nothing.
    [[nodiscard]] bool turbulent(double reynolds) const
    {
        return reynolds >= 4000 && reynolds <= 1e8 && roughness_ >= 0 && roughness_ <= 0.05;
    }

    double rough_friction(double reynolds, double& exponent)
    {
        Colebrook const root(reynolds, roughness_);
        if (!walked_)
            x_ -= root.step(x_).move;
        walked_ = true;
        auto const step = root.step(x_);
        x_ -= step.move;
        settled_ = std::abs(step.move) <= settled_move;
        double const f = 1 / (x_ * x_);
        loss_.friction_factor = units::of_si<units::Number>(f);
        exponent = step.exponent;
        return f * slenderness_ * square_;
    }

    double any_friction(double flow, double& exponent)
    {
        settled_ = true;
        loss_ = pipe_loss(pipe_, units::of_si<units::VolumeFlow>(flow), formula_, viscosity_);
        double const friction = loss_.friction.value();
        if (friction > 0)
            exponent = (slope_over_flow(pipe_, loss_) - 2 * loss_.minor.value()) / friction;
        return friction;
    }

    Pipe const& pipe_;
    FrictionFormula formula_;
    units::KinematicViscosity viscosity_;
    double more_, bore_, per_bore_, per_flow_, reynolds_per_flow_, head_per_square_, slenderness_, roughness_;
    double hazen_williams_ = 0;
    double x_ = usual_root;
    bool walked_ = false, settled_ = true;
    double square_ = 0, fixed_ = 0, head_ = 0, steepness_ = 0;
    PipeLoss loss_;
};

/// Both pipes of the loop at one flow.
struct LoopWalk
{
    LoopWalk(Loop const& loop, units::KinematicViscosity viscosity)
        : hazen_williams(loop.formula == FrictionFormula::hazen_williams),
          suction(loop.suction, 0, loop.formula, viscosity),
          discharge(loop.discharge, loop.filter_loss.value() + loop.heater_loss.value(), loop.formula, viscosity)
    {
    }

    void go_to(double flow)
    {
        double const power = hazen_williams ? std::pow(flow, 1.852) : 0;
        suction.go_to(flow, power);
        discharge.go_to(flow, power);
    }

    bool hazen_williams;
    PipeWalk suction, discharge;
};

/// Flow squared where straight lines in it meet: the pump's chord, and losses with one usual friction factor.
double first_guess(LoopWalk const& walk, PumpCurve const& pump)
{
    constexpr double usual_friction = 1 / (usual_root * usual_root);
    double const taken = walk.suction.coefficient(usual_friction) + walk.discharge.coefficient(usual_friction);
    double const low = units::in_si(pump.least_flow()), high = units::in_si(pump.greatest_flow());
    double const chord = (pump.greatest_head() - pump.least_head()).value() / (high * high - low * low);
    return (pump.greatest_head().value() + chord * low * low) / (taken + chord);
}

/// Newton's method in flow squared, in which both curves are nearly straight; the friction factors walk with it. None
/// where it leaves the pump's curve or has not settled after a few steps: then bracketing decides, and says why there
/// is no point.
std::optional<OperatingPoint> quick_point(Loop const& loop, PumpCurve const& pump, units::KinematicViscosity viscosity)
{
    constexpr int most_steps = 10;
    constexpr double settled = 1e-12; // of the flow
    double const low = units::in_si(pump.least_flow()), high = units::in_si(pump.greatest_flow());
    LoopWalk walk(loop, viscosity);
    double flow = std::sqrt(first_guess(walk, pump));
    for (int step = 0; step < most_steps; ++step)
    {
        if (!(flow > low && flow < high && flow > 0))
            return std::nullopt;
        auto const at = units::of_si<units::VolumeFlow>(flow);
        HeadAndSlope const made = pump.head_and_slope_at(at);
        walk.go_to(flow);
        double const surplus = made.head.value() - walk.suction.head() - walk.discharge.head();
        double const move =
            surplus / (made.slope * flow - walk.suction.steepness() - walk.discharge.steepness()); // of ln flow
        if (std::abs(move) <= settled && walk.suction.settled() && walk.discharge.settled())
            return OperatingPoint{at,
                                  made.head,
                                  {walk.suction.loss(), walk.discharge.loss(),
                                   walk.discharge.of_coefficient(loop.filter_loss),
                                   walk.discharge.of_coefficient(loop.heater_loss)}};
        flow *= std::sqrt(1 - 2 * move);
    }
    return std::nullopt;
}

/// The same between the ends of the pump's curve.
double bracketed_flow(Loop const& loop, PumpCurve const& pump, units::KinematicViscosity viscosity)
{
    auto const surplus_m = [&](units::VolumeFlow flow)
    { return (pump.head_at(flow) - losses_at(loop, flow, viscosity).total()).value(); };
    if (surplus_m(pump.greatest_flow()) > 0)
        throw figures::NotComputed(
            "at the last point of the pump curve, " + text(pump.greatest_flow()) +
            ", the pump still makes more head than the loop takes; give a point at a higher flow, or "
            "check that no loss was left out");
    if (surplus_m(pump.least_flow()) < 0)
        throw figures::NotComputed("already at the first point of the pump curve, " + text(pump.least_flow()) +
                                   ", the loop takes more head than the pump makes; give a point at a lower flow");
    return numerics::bracketed_root([&](double q) { return surplus_m(units::of_si<units::VolumeFlow>(q)); },
                                    units::in_si(pump.least_flow()), units::in_si(pump.greatest_flow()), 1e-12);
}

} // namespace

LoopLosses loop_losses(Loop const& loop, units::VolumeFlow flow, units::Temperature water)
{
    return losses_at(loop, flow, physics::kinematic_viscosity(water));
}

OperatingPoint operating_point(Loop const& loop, PumpCurve const& pump, units::Temperature water)
{
    return operating_point(loop, pump, physics::kinematic_viscosity(water));
}

OperatingPoint operating_point(Loop const& loop, PumpCurve const& pump, units::KinematicViscosity viscosity)
{
    OperatingPoint point;
    if (auto const quick = quick_point(loop, pump, viscosity))
        point = *quick;
    else
    {
        point.flow = units::of_si<units::VolumeFlow>(bracketed_flow(loop, pump, viscosity));
        point.losses = losses_at(loop, point.flow, viscosity);
        point.pump_head = pump.head_at(point.flow);
    }
    require_turbulent_for(loop.formula, point.losses.suction);
    require_turbulent_for(loop.formula, point.losses.discharge);
    return point;
}

} // namespace padwalk::circulation
