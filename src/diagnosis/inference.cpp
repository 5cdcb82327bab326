#include "padwalk/diagnosis/inference.hpp"

#include "noisy_or.hpp"
#include "wording.hpp"

#include <limits>

namespace padwalk::diagnosis
{
namespace
{

/// The second of two numbers as a share of both. Requires: not both are zero
double share(Scaled rest, Scaled part)
{
    return (part / (rest + part)).value();
}

/// Natural log of present : absent, of which at most one is zero.
double log_odds(Pair const& pair)
{
    return pair.present.log() - pair.absent.log();
}

/// P(finding there | evidence) where there is evidence on it. Requires: all evidence together is possible
double of_observed(NoisyOr const& model, Observations observations, std::size_t finding)
{
    auto const likelihood = observations.of(finding);
    if (likelihood.present.is_zero() || likelihood.absent.is_zero())
    {
        return likelihood.present.is_zero() ? 0.0 : 1.0;
    }
    observations.set(finding, Likelihood{likelihood.present, Scaled{0.0}});
    auto const there = model.total(model.terms(observations));
    observations.set(finding, Likelihood{Scaled{0.0}, likelihood.absent});
    auto const not_there = model.total(model.terms(observations));
    return share(not_there, there);
}

/// P(at least one parent has brought the finding about, evidence):
///
///     Σ over parents E[ Π over earlier present parents (1 − weight) · weight · parent present ]
///
/// a sum without a minus sign, so that a small probability keeps its digits.
Scaled fired_by_parents(NoisyOr const& model, Terms terms, std::vector<Link> const& parents)
{
    auto fired = Scaled{0.0};
    for (auto const& link : parents)
    {
        auto& cause = terms.causes[link.cause];
        auto const before = cause;
        cause = Pair{Scaled{0.0}, before.present * Scaled{link.weight}};
        fired = fired + model.total(terms);
        cause = Pair{before.absent, before.present * Scaled{1.0 - link.weight}};
    }
    return fired;
}

/// P(no parent has brought the finding about, evidence)
Scaled not_fired_by_parents(NoisyOr const& model, Terms terms, std::vector<Link> const& parents)
{
    for (auto const& link : parents)
    {
        auto& cause = terms.causes[link.cause];
        cause.present = cause.present * Scaled{1.0 - link.weight};
    }
    return model.total(terms);
}

/// P(finding there | evidence) where there is none on it. Requires: evidence, its probability, is not zero
double of_unobserved(NoisyOr const& model, Terms const& terms, Scaled evidence, Influences const& finding)
{
    auto const& [leak, parents] = finding;
    if (parents.empty())
    {
        return leak.by_now;
    }
    auto const none = not_fired_by_parents(model, terms, parents);
    auto const digits_kept = 0.9999; // above it, 1 − P(none) would lose more than four of some fourteen digits
    auto const some = (none / evidence).value() < digits_kept ? Scaled{1.0 - (none / evidence).value()} * evidence
                                                              : fired_by_parents(model, terms, parents);
    return share(Scaled{leak.not_yet} * none, Scaled{leak.by_now} * evidence + Scaled{leak.not_yet} * some);
}

Sums sums_of(NoisyOr const& model, Observations const& observations)
{
    return model.sums(model.terms(observations));
}

/// The evidence without the item at this position.
std::vector<Evidence> without(std::span<Evidence const> evidence, std::size_t position)
{
    auto rest = std::vector<Evidence>(evidence.begin(), evidence.end());
    rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(position));
    return rest;
}

} // namespace

Posterior posterior(Network const& network, std::span<Evidence const> evidence)
{
    check(network);
    check(network, evidence);
    auto const observations = gather(evidence);
    auto const model = NoisyOr{network, observations};
    auto const sums = sums_of(model, observations);
    if (sums.total.is_zero())
    {
        return Posterior{{}, -std::numeric_limits<double>::infinity(), false};
    }
    auto found = Posterior{{}, sums.total.log(), true};
    for (auto const& pair : sums.shares)
    {
        found.causes.push_back(share(pair.absent, pair.present));
    }
    return found;
}

std::vector<double> finding_probabilities(Network const& network, std::span<Evidence const> evidence)
{
    check(network);
    check(network, evidence);
    auto const observations = gather(evidence);
    auto const model = NoisyOr{network, observations};
    auto const terms = model.terms(observations);
    auto const total = model.total(terms);
    auto found = std::vector<double>{};
    if (total.is_zero())
    {
        return found;
    }
    for (std::size_t finding = 0; finding < network.findings.size(); ++finding)
    {
        auto const idle = observations.of(finding).is_idle();
        found.push_back(idle ? of_unobserved(model, terms, total, influences(network, finding))
                             : of_observed(model, observations, finding));
    }
    return found;
}

std::vector<Weight> weights_of_evidence(Network const& network, std::span<Evidence const> evidence, std::size_t cause)
{
    check(network);
    check(network, evidence);
    if (cause >= network.causes.size())
    {
        throw NetworkProblem{"asked about cause " + std::to_string(cause) + ", but " +
                             how_many(network.causes.size(), "cause") + ", counted from 0"};
    }
    auto const observations = gather(evidence);
    auto const model = NoisyOr{network, observations};
    auto const all = sums_of(model, observations);
    auto found = std::vector<Weight>{};
    for (std::size_t i = 0; i < evidence.size() && !all.total.is_zero(); ++i)
    {
        auto const rest = gather(without(evidence, i));
        auto const sums = model.fits(rest) ? sums_of(model, rest) : sums_of(NoisyOr{network, rest}, rest);
        auto const before = log_odds(sums.shares[cause]);
        auto const after = log_odds(all.shares[cause]);
        found.push_back(Weight{evidence[i].finding, before == after ? 0.0 : after - before}); // ∞ − ∞: no change
    }
    return found;
}

} // namespace padwalk::diagnosis
