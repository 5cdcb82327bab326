#pragma once
/// A level history as one normal density: what the marks should show without a leak, and how that may stray.

#include "padwalk/level/balance_table.hpp"
#include "padwalk/level/level_record.hpp"
#include "padwalk/numerics/whitening.hpp"

#include <vector>

namespace padwalk::level
{

/// In SI: m, s, m/s. What is observed: each mark after the first, then each mark on the bucket after its first.
struct LevelBudget
{
    std::vector<double> rest;           ///< observed less foretold without a leak
    numerics::Covariance doubt{0};      ///< of the rest
    std::vector<double> durations;      ///< of each stretch
    std::vector<double> gone;           ///< fall foretold over each stretch, without a leak
    std::vector<double> evaporated;     ///< of it, by evaporation
    std::vector<double> foretold_doubt; ///< of the sum of `gone` to each mark, marks' own errors and fills apart
    std::size_t marks = 0;              ///< observed on the pool
};

/// What falls alike for each observation when each stretch gains this: sums up to the mark.
[[nodiscard]] std::vector<double> summed(LevelRecord const& record, std::vector<double> const& pool,
                                         std::vector<double> const& bucket);

/// Throws: figures::NotComputed (require_weighable); physics::OutOfRange
[[nodiscard]] LevelBudget level_budget(LevelRecord const& record, EvaporationForm form, BalanceFacts const& facts);

} // namespace padwalk::level
