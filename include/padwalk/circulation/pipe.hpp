#pragma once
/// What a pipe and its fittings take from the water.

#include "padwalk/fields/record.hpp"
#include "padwalk/units/definitions.hpp"
#include "padwalk/units/quantity.hpp"

#include <optional>

namespace padwalk::circulation
{

enum class FrictionFormula
{
    darcy_weisbach,
    hazen_williams
};

/// One run of one bore with the sum of its fittings' loss coefficients.
struct Pipe
{
    units::Length bore{};
    units::Length length{};
    units::Number minor_loss{};
    units::Length roughness{};
    units::Number hazen_williams_c{};
};

struct PipeLoss
{
    units::Velocity velocity{};
    units::Number reynolds{};
    std::optional<units::Number> friction_factor{}; ///< Darcy's; none with Hazen-Williams or without flow
    units::Head friction{};
    units::Head minor{};
    [[nodiscard]] units::Head total() const { return friction + minor; }
};

/// Area of a round bore: pi d2 / 4.
[[nodiscard]] units::Area bore_area(units::Length bore);

/// Mean velocity in a full round pipe: Q / A.
[[nodiscard]] units::Velocity pipe_velocity(units::VolumeFlow flow, units::Length bore);

/// Re = v d / nu.
[[nodiscard]] units::Number reynolds(units::Velocity velocity, units::Length bore, units::KinematicViscosity viscosity);

/// Darcy friction factor of turbulent flow, the root of
///
///     1/sqrt f = -2 log10( e/(3.7 d) + 2.51/(Re sqrt f) )
///
/// found by Halley's steps to 1e-14, not by an explicit stand-in (which differ from it by 0.3 to 1.6 %).
///
/// Valid:    Re 2000 to 1e8, e/d 0 to 0.05. Meant for Re above 4000.
/// Accuracy: 1e-7 against tabled roots; against nature 5 to 10 % by common report [from memory]
/// Source:   [hydraulic-institute] equation 3.A
/// Throws:   physics::OutOfRange
[[nodiscard]] units::Number friction_factor_colebrook(units::Number reynolds, units::Number relative_roughness);

/// Darcy friction factor at any Reynolds number above 0.
///
///     Re up to 2000    64/Re
///     2000 to 4000     a straight line in Re from 64/2000 to Colebrook's value at 4000: our own bridge. The flow there
///                      jumps between two states and no formula is right; the bridge is continuous and keeps the loss
///                      rising with flow, so that a loop has one operating point.
///     from 4000        friction_factor_colebrook
///
/// Throws: physics::OutOfRange
[[nodiscard]] units::Number friction_factor(units::Number reynolds, units::Number relative_roughness);

/// Darcy-Weisbach: h = f (l/d) v2/2g.
[[nodiscard]] units::Head friction_head(units::Number friction_factor, units::Length length, units::Length bore,
                                        units::Velocity velocity);

/// Hazen-Williams, water near room temperature in turbulent flow.
///
///     h = 10.67 l Q^1.852 / (C^1.852 d^4.8704)   (m, m3/s)
///
/// Accuracy: the common forms of the formula (US, SI, the fire trade's) differ among themselves by 1.3 %
/// Source:   [circ-hazen-williams]; exponent 4.8704 from memory
[[nodiscard]] units::Head friction_head_hazen_williams(units::VolumeFlow flow, units::Length length, units::Length bore,
                                                       units::Number c);

/// Loss in fittings: h = K v2/2g.
[[nodiscard]] units::Head minor_head(units::Number loss_coefficient, units::Velocity velocity);

/// All of it for one pipe. No flow, no loss.
///
/// Throws: physics::OutOfRange
[[nodiscard]] PipeLoss pipe_loss(Pipe const& pipe, units::VolumeFlow flow, FrictionFormula formula,
                                 units::KinematicViscosity viscosity);

/// Throws figures::NotComputed where Hazen-Williams was used and the flow is not turbulent (Re below 4000).
void require_turbulent_for(FrictionFormula formula, PipeLoss const& loss);

} // namespace padwalk::circulation

template <> struct padwalk::fields::words_of<padwalk::circulation::FrictionFormula>
{
    static std::vector<std::string> words() { return {"darcy_weisbach", "hazen_williams"}; }
};
