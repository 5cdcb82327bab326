#include "noisy_or.hpp"

#include <algorithm>
#include <utility>

namespace padwalk::diagnosis
{
namespace
{

bool ties_parents(Influences const& influences, Likelihood const& likelihood)
{
    return influences.parents.size() > 1 && !likelihood.present.is_zero() && !likelihood.is_idle();
}

/// What a finding that ties nothing says of its parents.
void absorb(Influences const& finding, Likelihood const& likelihood, Terms& terms)
{
    if (likelihood.is_idle())
    {
        terms.factor = terms.factor * likelihood.absent;
    }
    else if (finding.parents.empty())
    {
        terms.factor = terms.factor * weigh(finding.leak, likelihood);
    }
    else if (finding.parents.size() == 1)
    {
        auto const& link = finding.parents.front();
        auto& cause = terms.causes[link.cause];
        cause.absent = cause.absent * weigh(finding.leak, likelihood);
        cause.present = cause.present * weigh(then(finding.leak, link.weight), likelihood);
    }
    else // not there, so none of the parents has brought it about: each on its own
    {
        terms.factor = terms.factor * likelihood.absent * Scaled{finding.leak.not_yet};
        for (auto const& link : finding.parents)
        {
            auto& cause = terms.causes[link.cause];
            cause.present = cause.present * Scaled{1.0 - link.weight};
        }
    }
}

} // namespace

NoisyOr::NoisyOr(Network const& network, Observations const& observations) : network_{network}
{
    auto ties = std::vector<Tie>{};
    auto read = Influences{};
    for (auto const& [finding, likelihood] : observations.looked_at)
    {
        read_influences(network, finding, read);
        if (ties_parents(read, likelihood))
        {
            ties.push_back(Tie{finding, read.leak, read.parents});
        }
    }
    plan_ = plan_sweep(std::move(ties), network.causes.size());
}

bool NoisyOr::fits(Observations const& observations) const
{
    auto tie = plan_.ties.begin();
    auto const is_fit = [&](Observed const& observed)
    {
        tie = std::find_if(tie, plan_.ties.end(), [&](Tie const& one) { return one.finding >= observed.finding; });
        return (tie != plan_.ties.end() && tie->finding == observed.finding) ||
               !ties_parents(influences(network_, observed.finding), observed.likelihood);
    };
    return std::all_of(observations.looked_at.begin(), observations.looked_at.end(), is_fit);
}

Terms NoisyOr::terms(Observations const& observations) const
{
    auto terms = Terms{{}, {}, observations.factor};
    terms.causes.reserve(network_.causes.size());
    for (auto const& cause : network_.causes)
    {
        terms.causes.push_back(Pair{Scaled{1.0 - cause.prior}, Scaled{cause.prior}});
    }
    for (auto const& tie : plan_.ties)
    {
        terms.ties.push_back(observations.of(tie.finding));
    }
    auto tie = plan_.ties.begin();
    auto read = Influences{};
    for (auto const& [finding, likelihood] : observations.looked_at)
    {
        for (; tie != plan_.ties.end() && tie->finding < finding; ++tie)
        {
        }
        if (tie == plan_.ties.end() || tie->finding != finding)
        {
            read_influences(network_, finding, read);
            absorb(read, likelihood, terms);
        }
    }
    return terms;
}

SweepTerms NoisyOr::terms_of_sweep(Terms const& terms) const
{
    auto of_sweep = SweepTerms{{}, terms.ties};
    of_sweep.causes.reserve(plan_.tied_causes.size());
    for (auto const cause : plan_.tied_causes)
    {
        of_sweep.causes.push_back(terms.causes[cause]);
    }
    return of_sweep;
}

Scaled NoisyOr::total_outside_sweep(Terms const& terms) const
{
    auto total = terms.factor;
    std::size_t next_tied = 0;
    for (std::size_t cause = 0; cause < terms.causes.size(); ++cause)
    {
        if (next_tied < plan_.tied_causes.size() && plan_.tied_causes[next_tied] == cause)
        {
            ++next_tied;
            continue;
        }
        total = total * (terms.causes[cause].absent + terms.causes[cause].present);
    }
    return total;
}

Scaled NoisyOr::total(Terms const& terms) const
{
    return total_outside_sweep(terms) * swept_total(plan_, terms_of_sweep(terms));
}

Sums NoisyOr::sums(Terms const& terms) const
{
    auto const swept = swept_sums(plan_, terms_of_sweep(terms));
    auto sums = Sums{total_outside_sweep(terms) * swept.total, terms.causes};
    for (std::size_t cause = 0; cause < plan_.tied_causes.size(); ++cause)
    {
        sums.shares[plan_.tied_causes[cause]] = swept.shares[cause];
    }
    return sums;
}

} // namespace padwalk::diagnosis
