#pragma once
/// One water, one step of time. Doubles here are mol per kg of water, seconds and 1/s.

#include "padwalk/chemistry/drift.hpp"

namespace padwalk::chemistry
{

/// What one sample's pool does all the time.
struct DriftRates
{
    Totals fill;             ///< what the fill water holds
    double filled = 0.0;     ///< share of the volume made up
    double runs_off = 0.0;   ///< share of the volume that leaves as liquid
    Totals added;            ///< per second
    double demand = 0.0;     ///< chlorine, mol/(kg s)
    double gas = 0.0;        ///< transfer velocity over depth
    double log_air = 0.0;    ///< carbon dioxide, log10 atm
    double in_balance = 0.0; ///< carbon dioxide that the water would hold then
    units::Length depth{};
    Sun sun = Sun::none;
    units::Fraction lean{};  ///< see sun_loss
    double sun_factor = 1.0; ///< on sun_loss: cover, doubt
    double standing = 0.0;   ///< loss of chlorine in the dark
};

/// The water after `seconds`: carbonate by an exponential Rosenbrock step, the rest in closed form.
[[nodiscard]] State advanced(Equilibria const& equilibria, State const& from, DriftRates const& rates, double seconds,
                             DriftTable const& table);

} // namespace padwalk::chemistry
