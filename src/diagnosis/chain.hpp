#pragma once

#include "bucket_tree.hpp"
#include "observations.hpp"

#include <vector>

namespace padwalk::diagnosis
{

/// The chance that a finding has not been brought about yet, and that it has, by some of its parents. The two add up
/// to 1, but each is kept to its own last digit.
struct Fired
{
    double not_yet;
    double by_now;
};

/// One more parent, present, with this weight.
[[nodiscard]] Fired then(Fired before, double weight);

/// What was observed, weighed by the two chances.
[[nodiscard]] Scaled weigh(Fired fired, Likelihood const& likelihood);

/// A finding without the parents that can never matter.
struct Influences
{
    Fired leak; ///< the leak, and the parents that are present for certain (prior 1)
    std::vector<Link> parents;
};

/// Drops the parents of weight 0 or prior 0, moves those of prior 1 into the leak, and drops all others where the
/// leak alone is certain.
[[nodiscard]] Influences influences(Network const& network, Finding const& finding);

/// A finding with evidence and several parents, written as a chain of yes/no variables "fired by now":
///
///     (parent 1, fired 1) (fired 1, parent 2, fired 2) … (fired n−1, parent n and the observation)
///
/// so that n parents cost tables of at most three variables. Two parents need one table and no such variable.
struct Chain
{
    std::size_t finding;
    Fired leak;
    std::vector<Link> parents; ///< at least two, in the order of the chain
};

/// The scopes of the chain's tables. `variable_of` gives the variable of each cause; "fired by now" takes numbers from
/// `next` on, which moves past them.
[[nodiscard]] std::vector<elimination::Scope>
scopes(Chain const& chain, std::vector<elimination::Variable> const& variable_of, elimination::Variable& next);

/// The values of those tables, in the same order.
[[nodiscard]] std::vector<elimination::Values> tables(Chain const& chain, Likelihood const& likelihood);

} // namespace padwalk::diagnosis
