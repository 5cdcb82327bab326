#include "padwalk/circulation/pipe.hpp"

#include "colebrook.hpp"
#include "padwalk/circulation/head.hpp"
#include "padwalk/figures/model.hpp"
#include "padwalk/numerics/number_text.hpp"
#include "padwalk/numerics/root.hpp"
#include "padwalk/physics/range.hpp"
#include "padwalk/units/print.hpp"

#include <cmath>
#include <numbers>

namespace padwalk::circulation
{
namespace
{

constexpr double laminar_to = 2000; // [hydraulic-institute] 3.A: 64/Re below, undetermined to 4000
constexpr double turbulent_from = 4000;
constexpr physics::Range colebrook_reynolds{laminar_to, 1e8, "", "hydraulic-institute"};
constexpr physics::Range any_reynolds{1e-9, 1e8, "", "hydraulic-institute"};
constexpr physics::Range roughness_share{0, 0.05, "", "hydraulic-institute"};

units::Number number(double value)
{
    return units::of_si<units::Number>(value);
}

} // namespace

units::Area bore_area(units::Length bore)
{
    return std::numbers::pi / 4 * bore * bore;
}

units::Velocity pipe_velocity(units::VolumeFlow flow, units::Length bore)
{
    return flow / bore_area(bore);
}

units::Number reynolds(units::Velocity velocity, units::Length bore, units::KinematicViscosity viscosity)
{
    return units::Number{velocity * bore / viscosity};
}

units::Number friction_factor_colebrook(units::Number reynolds, units::Number relative_roughness)
{
    double const re = reynolds.value();
    double const roughness = relative_roughness.value();
    physics::require_within(colebrook_reynolds, re, "Reynolds number");
    physics::require_within(roughness_share, roughness, "roughness over bore");
    // In x = 1/sqrt f the equation g(x) = 0 has a g that rises with a slope from 1 to 1.3 and hardly bends; x lies
    // between 3 and 14 in the whole range. So Halley's steps close in from the first on.
    constexpr int most_steps = 20;
    Colebrook const root(re, roughness);
    double x = usual_root;
    for (int step = 0; step < most_steps; ++step)
    {
        double const move = root.step(x).move;
        x -= move;
        if (std::abs(move) <= settled_move)
            return number(1 / (x * x));
    }
    throw numerics::NoConvergence("no root yet of Colebrook's equation at Reynolds number " +
                                  numerics::number_text(re));
}

units::Number friction_factor(units::Number reynolds, units::Number relative_roughness)
{
    double const re = reynolds.value();
    physics::require_within(any_reynolds, re, "Reynolds number");
    if (re <= laminar_to)
        return number(64 / re);
    if (re >= turbulent_from)
        return friction_factor_colebrook(reynolds, relative_roughness);
    double const laminar = 64 / laminar_to;
    double const turbulent = friction_factor_colebrook(number(turbulent_from), relative_roughness).value();
    double const share = (re - laminar_to) / (turbulent_from - laminar_to);
    return number(laminar + share * (turbulent - laminar));
}

units::Head friction_head(units::Number friction_factor, units::Length length, units::Length bore,
                          units::Velocity velocity)
{
    return friction_factor.value() * units::in_si(length / bore) * velocity_head(velocity);
}

units::Head friction_head_hazen_williams(units::VolumeFlow flow, units::Length length, units::Length bore,
                                         units::Number c)
{
    double const flow_m3s = units::in_si(flow);
    double const bore_m = units::in_si(bore);
    return units::of_si<units::Head>(10.67 * units::in_si(length) * std::pow(flow_m3s / c.value(), 1.852) /
                                     std::pow(bore_m, 4.8704));
}

units::Head minor_head(units::Number loss_coefficient, units::Velocity velocity)
{
    return loss_coefficient.value() * velocity_head(velocity);
}

PipeLoss pipe_loss(Pipe const& pipe, units::VolumeFlow flow, FrictionFormula formula,
                   units::KinematicViscosity viscosity)
{
    PipeLoss loss;
    if (flow <= units::VolumeFlow{})
        return loss;
    loss.velocity = pipe_velocity(flow, pipe.bore);
    loss.reynolds = reynolds(loss.velocity, pipe.bore, viscosity);
    loss.minor = minor_head(pipe.minor_loss, loss.velocity);
    if (formula == FrictionFormula::hazen_williams)
    {
        loss.friction = friction_head_hazen_williams(flow, pipe.length, pipe.bore, pipe.hazen_williams_c);
        return loss;
    }
    loss.friction_factor = friction_factor(loss.reynolds, number(units::in_si(pipe.roughness / pipe.bore)));
    loss.friction = friction_head(*loss.friction_factor, pipe.length, pipe.bore, loss.velocity);
    return loss;
}

void require_turbulent_for(FrictionFormula formula, PipeLoss const& loss)
{
    if (formula == FrictionFormula::hazen_williams && loss.reynolds.value() < turbulent_from)
        throw figures::NotComputed("the flow is not turbulent (Reynolds number " +
                                   units::show_significant(loss.reynolds.value(), 3) +
                                   ", below 4000), where hazen_williams does not hold; use darcy_weisbach");
}

} // namespace padwalk::circulation
