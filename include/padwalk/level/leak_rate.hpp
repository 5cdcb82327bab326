#pragma once
/// A leak from an estimate with doubt: how large, how surely there is one, and the least that would have shown.

#include "padwalk/level/balance_table.hpp"
#include "padwalk/units/reading.hpp"

#include <vector>

namespace padwalk::level
{

/// One normal likelihood of a rate; several of them, each by its weight, are one likelihood.
struct RateLikelihood
{
    double log_weight = 0.0; ///< natural log of its area
    double mean = 0.0;       ///< m/s
    double spread = 1.0;     ///< m/s
    /// The likelihood at a rate is that of the mean times Phi(slope (rate - mean) + shift): another rate that can't be
    /// below zero was left out of it. None: 1.
    struct Cut
    {
        double slope, shift;
    };
    std::optional<Cut> cut;
};

/// How large a leak is if there is one.
struct LeakRate
{
    /// By least squares and not kept above zero: such estimates can be added up and averaged.
    units::Measured<units::Velocity> estimate;
    units::Velocity mean{}, median{}; ///< with the leak kept at or above zero
    units::Velocity low{}, high{};    ///< 95 %
};

/// Rate of a leak that can't be below zero. Beforehand every rate from zero up is taken as equally likely; the interval
/// is the shortest that holds 95 % of what is left of the likelihood above zero, so it begins at zero wherever zero is
/// among the likelier rates.
///
/// Accuracy: holds the truth 95 times in 100 over true rates spread evenly from zero up. At one true rate, by its size
/// in
///           deviations: 95.2 times at zero, 97.4 at one, 92.8 at three and a quarter, 95 from five on; never fewer
///           than 90.5, (1 - a)/(1 + a), the known bound of such intervals
/// Source:   definition; [roe-woodroofe-2000] for the bound
/// Throws:   std::invalid_argument for none
[[nodiscard]] LeakRate leak_rate(std::vector<RateLikelihood> const& likelihood);

/// Its `estimate` alone: mean and spread of all parts together.
[[nodiscard]] units::Measured<units::Velocity> leak_estimate(std::vector<RateLikelihood> const& likelihood);

/// Is there a leak?
struct LeakOdds
{
    /// Natural log of the likelihood of a leak over that of none. A leak's is the mean over rates from least_leak to
    /// most_leak, uniform in the logarithm.
    double log_ratio = 0.0;
    units::Fraction none{}; ///< chance that there is no leak, after chance_of_leak beforehand
};

/// Odds of one normal estimate of the leak's rate.
[[nodiscard]] LeakOdds leak_odds(units::Measured<units::Velocity> const& estimate, BalanceTable const& table);

/// Natural log of the likelihood of a leak of this rate over that of none: (q m - q²/2)/s².
[[nodiscard]] double log_ratio_of(units::Velocity leak, units::Measured<units::Velocity> const& estimate);

/// The least leak that would be called 95 times in 100, where a leak is called if its estimate lies so far above zero
/// as no leak brings it but 5 times in 100:
///
///     (1.645 + 1.645) s
///
/// Source: [currie-1968]
[[nodiscard]] units::Velocity least_leak_shown(units::Velocity spread);

} // namespace padwalk::level
