#include "observations.hpp"

#include "wording.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>
#include <utility>

namespace padwalk::diagnosis
{
namespace
{

bool is_likelihood(double value)
{
    return std::isfinite(value) && value >= 0.0;
}

bool comes_before(Observed const& observed, std::size_t finding)
{
    return observed.finding < finding;
}

/// Puts what is idle into the factor.
void drop_idle(Observations& observations)
{
    auto kept = std::vector<Observed>{};
    kept.reserve(observations.looked_at.size());
    for (auto const& observed : observations.looked_at)
    {
        if (observed.likelihood.is_idle())
        {
            observations.factor = observations.factor * observed.likelihood.absent;
            continue;
        }
        kept.push_back(observed);
    }
    observations.looked_at = std::move(kept);
}

} // namespace

Evidence seen(std::size_t finding)
{
    return Evidence{finding, 1.0, 0.0};
}

Evidence not_seen(std::size_t finding)
{
    return Evidence{finding, 0.0, 1.0};
}

Evidence likely(std::size_t finding, double probability)
{
    if (!(probability >= 0.0 && probability <= 1.0))
    {
        throw NetworkProblem{"evidence on finding " + std::to_string(finding) + ": the probability " +
                             not_a_probability(probability)};
    }
    return Evidence{finding, probability, 1.0 - probability};
}

void check(Network const& network, std::span<Evidence const> evidence)
{
    auto problems = std::vector<std::string>{};
    for (auto const& item : evidence)
    {
        if (item.finding >= network.findings.size())
        {
            problems.push_back("evidence on finding " + std::to_string(item.finding) + ", but " +
                               how_many(network.findings.size(), "finding") + ", counted from 0");
        }
        else if (!is_likelihood(item.if_present) || !is_likelihood(item.if_absent))
        {
            problems.push_back("evidence on finding '" + network.findings[item.finding].name + "': the likelihoods " +
                               in_digits(item.if_present) + " if present and " + in_digits(item.if_absent) +
                               " if absent must be finite and at least 0");
        }
    }
    if (!problems.empty())
    {
        throw NetworkProblem{in_lines(problems)};
    }
}

Observations gather(std::span<Evidence const> evidence)
{
    auto items = std::vector<Evidence>(evidence.begin(), evidence.end());
    std::sort(
        items.begin(), items.end(),
        [](Evidence const& a, Evidence const& b)
        { return std::tie(a.finding, a.if_present, a.if_absent) < std::tie(b.finding, b.if_present, b.if_absent); });
    auto observations = Observations{};
    auto& looked_at = observations.looked_at;
    looked_at.reserve(items.size());
    for (auto const& item : items)
    {
        if (item.if_present == item.if_absent)
        {
            observations.factor = observations.factor * Scaled{item.if_present};
            continue;
        }
        if (looked_at.empty() || looked_at.back().finding != item.finding)
        {
            looked_at.push_back(Observed{item.finding, {}});
        }
        auto& likelihood = looked_at.back().likelihood;
        likelihood.present = likelihood.present * Scaled{item.if_present};
        likelihood.absent = likelihood.absent * Scaled{item.if_absent};
    }
    drop_idle(observations);
    return observations;
}

Likelihood Observations::of(std::size_t finding) const
{
    auto const found = std::lower_bound(looked_at.begin(), looked_at.end(), finding, comes_before);
    return found == looked_at.end() || found->finding != finding ? Likelihood{} : found->likelihood;
}

void Observations::set(std::size_t finding, Likelihood const& likelihood)
{
    std::lower_bound(looked_at.begin(), looked_at.end(), finding, comes_before)->likelihood = likelihood;
}

} // namespace padwalk::diagnosis
