#pragma once

#include "padwalk/diagnosis/network.hpp"

#include <cstddef>
#include <span>
#include <stdexcept>
#include <vector>

namespace padwalk::diagnosis
{

/// How likely what was observed would be, were the finding truly there, and were it truly not there.
///
/// Only the ratio of the two matters to a posterior. Both are finite and at least 0. A finding nobody looked at is
/// simply not listed. Several pieces of evidence about one finding are taken as independent and multiply.
struct Evidence
{
    std::size_t finding; ///< position in Network::findings, from 0
    double if_present;
    double if_absent;
};

/// The finding is there for certain.
[[nodiscard]] Evidence seen(std::size_t finding);

/// The finding is not there for certain.
[[nodiscard]] Evidence not_seen(std::size_t finding);

/// An instrument or a model, which began undecided (1 to 1), now gives the finding this probability.
/// `likely(f, 1)` is `seen(f)`, `likely(f, 0)` is `not_seen(f)`, and `likely(f, 0.5)` says nothing.
///
/// Throws: NetworkProblem, if the probability is NaN or outside 0 to 1
[[nodiscard]] Evidence likely(std::size_t finding, double probability);

/// What is left of a network after evidence.
struct Posterior
{
    std::vector<double> causes; ///< P(cause present | evidence), as Network::causes; empty if not possible
    double log_evidence;        ///< natural log of P(evidence); minus infinity if not possible
    bool possible;              ///< false: the network says this evidence cannot happen
};

/// The question is sound, but its exact answer would take tables of more than 2^24 entries in all.
class TooEntangled : public std::runtime_error
{
public:
    using std::runtime_error::runtime_error;
};

/// P(cause | evidence) for every cause, and P(evidence), exactly, whichever causes occur together.
///
/// Method: evidence that a finding is absent, and evidence on a finding with one parent, scales the odds of its
/// causes one by one. Every other finding with evidence ties its parents together. A sweep goes through the links of
/// these, one after the other, and keeps one table: over the causes that still have links to come ("present?") and
/// the findings that still have ("fired by now?", the leak first, then parent after parent). What has no more links
/// is summed out. So no number is negative, sums never cancel, and the table stays as small as the order of the
/// links allows: neither many causes of one finding nor many findings of one cause widen it. A second pass from the
/// end gives every cause its share. Numbers are scaled by powers of two, which rounds nothing; should one still leave
/// the range of `double`, all is computed again with numbers that carry their own exponent. The result does not depend
/// on the order of the evidence, to the last bit.
///
/// Accuracy: posteriors 1e-9 absolute, P(evidence) 1e-9 relative, against exact fractions (inference_test.cpp)
/// Source:   derived from the definition in network.hpp; summing out along a sweep, and forwards and backwards, are
///           textbook methods, used from memory, and the figures come from an independent calculation
///           (tests/reference/diagnosis)
/// Throws:   NetworkProblem (also for evidence on a finding that does not exist), TooEntangled
[[nodiscard]] Posterior posterior(Network const& network, std::span<Evidence const> evidence);

/// P(finding there | evidence) for every finding, whether there was evidence on it or not; with evidence short of
/// certainty it is the updated probability. Empty if the evidence is impossible.
///
/// Throws: as posterior
[[nodiscard]] std::vector<double> finding_probabilities(Network const& network, std::span<Evidence const> evidence);

/// How much one piece of evidence speaks for a cause, all other evidence being kept.
struct Weight
{
    std::size_t finding;
    double log_odds; ///< natural log; positive speaks for the cause, negative against it
};

/// For each piece of evidence, in the order given: by how much the log odds of the cause would change back if that
/// piece alone were left out,
///
///     log_odds = ln O(cause | all evidence) − ln O(cause | all evidence but this),    O = P / (1 − P)
///
/// Plus or minus infinity: this piece alone settles the cause. 0: it changes nothing, also where the cause is
/// settled without it. These weights add up to the total change only where no two findings share an explanation.
/// Empty if the evidence is impossible.
///
/// Throws: as posterior; NetworkProblem also for a cause that does not exist
[[nodiscard]] std::vector<Weight> weights_of_evidence(Network const& network, std::span<Evidence const> evidence,
                                                      std::size_t cause);

} // namespace padwalk::diagnosis
