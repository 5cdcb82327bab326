#include "noisy_or.hpp"

#include <utility>

namespace padwalk::diagnosis
{

using elimination::Pair;
using elimination::Variable;

NoisyOr::NoisyOr(Network const& network, Observations const& observations)
{
    for (auto const& cause : network.causes)
    {
        priors_.push_back(cause.prior);
    }
    auto chains = std::vector<Chain>{};
    for (auto const& finding : network.findings)
    {
        auto const number = influences_.size();
        auto const& parents = influences_.emplace_back(influences(network, finding));
        chained_.push_back(needs_chain(number, observations.of_finding[number]));
        if (chained_.back())
        {
            chains.push_back(Chain{number, parents.leak, parents.parents});
        }
    }
    plan_ = plan(std::move(chains), priors_.size());
    tree_.emplace(plan_.scopes, plan_.steps);
}

bool NoisyOr::needs_chain(std::size_t finding, Likelihood const& likelihood) const
{
    return influences_[finding].parents.size() > 1 && !likelihood.present.is_zero() && !likelihood.is_idle();
}

bool NoisyOr::fits(Observations const& observations) const
{
    for (std::size_t finding = 0; finding < influences_.size(); ++finding)
    {
        if (!chained_[finding] && needs_chain(finding, observations.of_finding[finding]))
        {
            return false;
        }
    }
    return true;
}

Terms NoisyOr::terms(Observations const& observations) const
{
    auto terms = Terms{{}, {}, observations.factor};
    for (auto const prior : priors_)
    {
        terms.causes.push_back(Pair{Scaled{1.0 - prior}, Scaled{prior}});
    }
    for (std::size_t finding = 0; finding < influences_.size(); ++finding)
    {
        if (!chained_[finding])
        {
            absorb(influences_[finding], observations.of_finding[finding], terms);
        }
    }
    for (auto const& chain : plan_.chains)
    {
        for (auto& table : tables(chain, observations.of_finding[chain.finding]))
        {
            terms.tables.push_back(std::move(table));
        }
    }
    return terms;
}

void NoisyOr::absorb(Influences const& finding, Likelihood const& likelihood, Terms& terms) const
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

elimination::Factors NoisyOr::factors_of_tree(Terms const& terms) const
{
    auto const one = Pair{Scaled{1.0}, Scaled{1.0}};
    auto factors = elimination::Factors{std::vector<Pair>(plan_.steps.size(), one), terms.tables};
    for (Variable variable = 0; variable < plan_.tied_causes.size(); ++variable)
    {
        factors.pairs[variable] = terms.causes[plan_.tied_causes[variable]];
    }
    return factors;
}

Scaled NoisyOr::total_outside_tree(Terms const& terms) const
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
    return total_outside_tree(terms) * tree_->total(factors_of_tree(terms));
}

elimination::Sums NoisyOr::sums(Terms const& terms) const
{
    auto const in_tree = tree_->sums(factors_of_tree(terms));
    auto sums = elimination::Sums{total_outside_tree(terms) * in_tree.total, terms.causes};
    for (Variable variable = 0; variable < plan_.tied_causes.size(); ++variable)
    {
        sums.shares[plan_.tied_causes[variable]] = in_tree.shares[variable];
    }
    return sums;
}

} // namespace padwalk::diagnosis
