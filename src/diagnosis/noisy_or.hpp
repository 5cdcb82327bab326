#pragma once

#include "bucket_tree.hpp"
#include "chain.hpp"
#include "chain_plan.hpp"
#include "observations.hpp"

#include <optional>
#include <vector>

namespace padwalk::diagnosis
{

/// What is summed: a pair per cause, the tables of the chains, and a number that multiplies all.
struct Terms
{
    std::vector<elimination::Pair> causes;
    std::vector<elimination::Values> tables;
    Scaled factor;
};

/// A network as a product of small tables, ready to be summed for one set of observations after another.
///
/// Which findings are written as chains, and the order of elimination, are settled once, by the observations at
/// hand; any others that need no further chain `fit`.
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
    [[nodiscard]] elimination::Sums sums(Terms const& terms) const;

    [[nodiscard]] Influences const& of_finding(std::size_t finding) const { return influences_[finding]; }

private:
    [[nodiscard]] bool needs_chain(std::size_t finding, Likelihood const& likelihood) const;
    void absorb(Influences const& finding, Likelihood const& likelihood, Terms& terms) const;
    [[nodiscard]] elimination::Factors factors_of_tree(Terms const& terms) const;
    [[nodiscard]] Scaled total_outside_tree(Terms const& terms) const;

    std::vector<double> priors_;
    std::vector<Influences> influences_; // as Network::findings
    std::vector<bool> chained_;          // as Network::findings
    ChainPlan plan_;
    std::optional<elimination::BucketTree> tree_;
};

} // namespace padwalk::diagnosis
