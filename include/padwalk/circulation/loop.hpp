#pragma once
/// Where the pump's curve meets the loop's: the flow that pump, pipes, filter and heater settle on.

#include "padwalk/circulation/pipe.hpp"
#include "padwalk/circulation/pump.hpp"

namespace padwalk::circulation
{

/// One circulation from the water through suction, pump, filter and heater back to the same water.
struct Loop
{
    Pipe suction;
    Pipe discharge;
    units::Number filter_loss{}; ///< loss coefficient on the discharge bore
    units::Number heater_loss{}; ///< the same
    FrictionFormula formula = FrictionFormula::darcy_weisbach;
};

struct LoopLosses
{
    PipeLoss suction;
    PipeLoss discharge;
    units::Head filter{};
    units::Head heater{};
    [[nodiscard]] units::Head total() const { return suction.total() + discharge.total() + filter + heater; }
};

/// What the loop takes at this flow.
///
/// Throws: physics::OutOfRange
[[nodiscard]] LoopLosses loop_losses(Loop const& loop, units::VolumeFlow flow, units::Temperature water);

struct OperatingPoint
{
    units::VolumeFlow flow{};
    units::Head pump_head{};
    LoopLosses losses;
};

/// The flow at which the pump gives what the loop takes: root of H(Q) - losses(Q).
///
/// The curve falls and the losses rise, so there is at most one. Nothing is lifted: the water returns to where it came
/// from. Accuracy: 1e-4 in flow and head against an independent solution of the same equations, 2e-3 against
/// [circ-epanet], which
///           uses an explicit friction factor and its own rounded constants. Real loops: as good as the loss
///           coefficients, of which a published one is known to tens of per cent [hydraulic-institute].
/// Throws:   figures::NotComputed with advice where the point lies outside the pump's curve; physics::OutOfRange
[[nodiscard]] OperatingPoint operating_point(Loop const& loop, PumpCurve const& pump, units::Temperature water);

/// The same for water of known viscosity, whose computing takes longer than all the rest: for many points of one water.
[[nodiscard]] OperatingPoint operating_point(Loop const& loop, PumpCurve const& pump,
                                             units::KinematicViscosity viscosity);

} // namespace padwalk::circulation
