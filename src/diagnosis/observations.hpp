#pragma once

#include "padwalk/diagnosis/inference.hpp"
#include "scaled.hpp"

#include <span>
#include <vector>

namespace padwalk::diagnosis
{

/// What all evidence on one finding comes to: its likelihood were the finding there, and were it not.
struct Likelihood
{
    Scaled present{1.0};
    Scaled absent{1.0};

    /// The finding might as well not have been looked at.
    [[nodiscard]] bool is_idle() const { return present == absent; }
};

/// A finding that was looked at, and what that came to.
struct Observed
{
    std::size_t finding;
    Likelihood likelihood;
};

/// The product of the evidence, in an order of its own, so that the order in which it was given leaves no trace.
/// Evidence that is equally likely either way goes into a factor of its own and touches no likelihood.
struct Observations
{
    std::vector<Observed> looked_at; ///< in increasing number of the finding; none of them idle when gathered
    Scaled factor{1.0};

    /// What was observed of a finding; idle where nothing was.
    [[nodiscard]] Likelihood of(std::size_t finding) const;

    /// Requires: the finding is among those looked at
    void set(std::size_t finding, Likelihood const& likelihood);
};

/// Refuses evidence on a finding that does not exist, and likelihoods that are negative or not finite.
///
/// Throws: NetworkProblem, all problems together
void check(Network const& network, std::span<Evidence const> evidence);

/// Requires: evidence passed the check
[[nodiscard]] Observations gather(std::span<Evidence const> evidence);

} // namespace padwalk::diagnosis
