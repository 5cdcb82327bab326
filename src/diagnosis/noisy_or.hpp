#pragma once

#include "influences.hpp"
#include "observations.hpp"
#include "sweep.hpp"
#include "sweep_plan.hpp"

#include <vector>

namespace padwalk::diagnosis
{

/// What is summed: a pair per cause, a likelihood per tie, and a number that multiplies all.
struct Terms
{
    std::vector<Pair> causes;
    std::vector<Likelihood> ties;
    Scaled factor;
};

/// A network as a product of small terms, ready to be summed for one set of observations after another.
///
/// Which findings tie their parents together, and the order of the sweep over them, are settled once, by the
/// observations at hand; any others that need no further tie `fit`. The network must outlive this.
class NoisyOr
{
public:
    /// Throws: TooEntangled
    NoisyOr(Network const& network, Observations const& observations);

    [[nodiscard]] bool fits(Observations const& observations) const;

    /// Requires: fits(observations)
    [[nodiscard]] Terms terms(Observations const& observations) const;

    /// P(observations)
    [[nodiscard]] Scaled total(Terms const& terms) const;

    /// P(observations), and for each cause P(absent, observations) : P(present, observations)
    [[nodiscard]] Sums sums(Terms const& terms) const;

private:
    [[nodiscard]] SweepTerms terms_of_sweep(Terms const& terms) const;
    [[nodiscard]] Scaled total_outside_sweep(Terms const& terms) const;

    Network const& network_;
    SweepPlan plan_;
};

} // namespace padwalk::diagnosis
