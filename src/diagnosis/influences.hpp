#pragma once

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
/// leak alone is certain. What `found` held before is gone; its memory is used again.
void read_influences(Network const& network, std::size_t finding, Influences& found);

[[nodiscard]] Influences influences(Network const& network, std::size_t finding);

} // namespace padwalk::diagnosis
