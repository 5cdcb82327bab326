#include "chain_plan.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

namespace padwalk::diagnosis
{
namespace
{

using elimination::Scope;
using elimination::Step;
using elimination::Variable;

constexpr double cheap = 4096.0;       // entries below which no better plan is looked for; judgement
constexpr double largest = 16777216.0; // 2^24 entries, of which each takes some 15 bytes and 15 ns; judgement

std::vector<std::size_t> causes_in(std::vector<Chain> const& chains, std::size_t causes)
{
    auto tied = std::vector<bool>(causes, false);
    for (auto const& chain : chains)
    {
        for (auto const& link : chain.parents)
        {
            tied[link.cause] = true;
        }
    }
    auto found = std::vector<std::size_t>{};
    for (std::size_t cause = 0; cause < causes; ++cause)
    {
        if (tied[cause])
        {
            found.push_back(cause);
        }
    }
    return found;
}

/// The variable of each cause; causes outside the chains have none, their entry means nothing.
std::vector<Variable> variables_of(std::vector<std::size_t> const& tied_causes, std::size_t causes)
{
    auto found = std::vector<Variable>(causes, 0);
    for (Variable variable = 0; variable < tied_causes.size(); ++variable)
    {
        found[tied_causes[variable]] = variable;
    }
    return found;
}

/// The variables of the causes as they would be summed out if each finding tied all its parents.
std::vector<Variable> common_order(std::vector<Chain> const& chains, std::vector<Variable> const& variable_of,
                                   std::size_t tied)
{
    auto cliques = std::vector<Scope>{};
    for (auto const& chain : chains)
    {
        auto& clique = cliques.emplace_back();
        for (auto const& link : chain.parents)
        {
            clique.push_back(variable_of[link.cause]);
        }
    }
    auto order = std::vector<Variable>{};
    for (auto const& step : elimination::min_fill_order(tied, cliques))
    {
        order.push_back(step.variable);
    }
    return order;
}

/// Lets all chains run the same way through the causes.
void comb(std::vector<Chain>& chains, std::vector<Variable> const& variable_of, std::vector<Variable> const& order)
{
    auto rank = std::vector<std::size_t>(order.size());
    for (std::size_t i = 0; i < order.size(); ++i)
    {
        rank[order[i]] = i;
    }
    auto const earlier = [&](Link const& a, Link const& b)
    { return rank[variable_of[a.cause]] < rank[variable_of[b.cause]]; };
    for (auto& chain : chains)
    {
        std::sort(chain.parents.begin(), chain.parents.end(), earlier);
    }
}

/// The scopes of all tables, and the steps by fewest new ties.
ChainPlan laid_out(std::vector<Chain> chains, std::vector<std::size_t> tied_causes,
                   std::vector<Variable> const& variable_of)
{
    auto plan = ChainPlan{std::move(chains), {}, {}, std::move(tied_causes)};
    auto variables = plan.tied_causes.size();
    for (auto const& chain : plan.chains)
    {
        for (auto& scope : scopes(chain, variable_of, variables))
        {
            plan.scopes.push_back(std::move(scope));
        }
    }
    plan.steps = elimination::min_fill_order(variables, plan.scopes);
    return plan;
}

/// Cause after cause in the common order; before a cause goes, each chain through it moves on past it.
std::vector<Variable> sweep(ChainPlan const& plan, std::vector<Variable> const& causes)
{
    auto passed = std::vector<std::vector<Variable>>(causes.size()); // per cause: "fired before" of its chains
    std::size_t table = 0;
    for (auto const& chain : plan.chains)
    {
        auto const first = table;
        table += chain.parents.size() == 2 ? 1 : chain.parents.size();
        for (auto position = first + 1; position < table; ++position)
        {
            auto const& scope = plan.scopes[position]; // (fired before, parent, …)
            passed[scope[1]].push_back(scope[0]);
        }
    }
    auto order = std::vector<Variable>{};
    for (auto const cause : causes)
    {
        order.insert(order.end(), passed[cause].begin(), passed[cause].end());
        order.push_back(cause);
    }
    return order;
}

bool is_cheaper(std::vector<Step> const& a, std::vector<Step> const& b)
{
    return elimination::entries(a) < elimination::entries(b);
}

void require_feasible(ChainPlan const& plan)
{
    auto const entries = elimination::entries(plan.steps);
    if (entries > largest)
    {
        throw TooEntangled{"too many findings with evidence share too many causes for an exact answer: it would take "
                           "tables of about 2^" +
                           std::to_string(std::lround(std::log2(entries))) + " entries, and the limit is 2^24"};
    }
}

} // namespace

ChainPlan plan(std::vector<Chain> chains, std::size_t causes)
{
    auto const tied_causes = causes_in(chains, causes);
    auto const variable_of = variables_of(tied_causes, causes);
    auto best = laid_out(chains, tied_causes, variable_of);
    if (elimination::entries(best.steps) > cheap)
    {
        auto const order = common_order(chains, variable_of, tied_causes.size());
        comb(chains, variable_of, order);
        auto combed = laid_out(std::move(chains), tied_causes, variable_of);
        auto swept = elimination::steps_in(sweep(combed, order), combed.scopes);
        if (is_cheaper(swept, combed.steps))
        {
            combed.steps = std::move(swept);
        }
        if (is_cheaper(combed.steps, best.steps))
        {
            best = std::move(combed);
        }
    }
    require_feasible(best);
    return best;
}

} // namespace padwalk::diagnosis
