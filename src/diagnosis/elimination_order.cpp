#include "elimination_order.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdint>
#include <numeric>
#include <utility>

namespace padwalk::diagnosis::elimination
{
namespace
{

/// Which variables are tied, one row of bits per variable.
class Ties
{
public:
    explicit Ties(std::size_t variables) : words_{(variables + 63) / 64}, bits_(variables * words_, 0) {}

    [[nodiscard]] bool tied(Variable a, Variable b) const
    {
        return ((bits_[a * words_ + b / 64] >> (b % 64)) & 1U) != 0;
    }

    void tie(Variable a, Variable b)
    {
        bits_[a * words_ + b / 64] |= std::uint64_t{1} << (b % 64);
        bits_[b * words_ + a / 64] |= std::uint64_t{1} << (a % 64);
    }

    void untie(Variable a, Variable b)
    {
        bits_[a * words_ + b / 64] &= ~(std::uint64_t{1} << (b % 64));
        bits_[b * words_ + a / 64] &= ~(std::uint64_t{1} << (a % 64));
    }

    [[nodiscard]] Scope neighbours(Variable a) const { return shared(a, a); }

    /// Neighbours that a and b have in common, in increasing number.
    [[nodiscard]] Scope shared(Variable a, Variable b) const
    {
        auto found = Scope{};
        for (std::size_t word = 0; word < words_; ++word)
        {
            for (auto left = bits_[a * words_ + word] & bits_[b * words_ + word]; left != 0; left &= left - 1)
            {
                found.push_back(word * 64 + static_cast<std::size_t>(std::countr_zero(left)));
            }
        }
        return found;
    }

    [[nodiscard]] std::size_t count_shared(Variable a, Variable b) const
    {
        std::size_t count = 0;
        for (std::size_t word = 0; word < words_; ++word)
        {
            auto const both = bits_[a * words_ + word] & bits_[b * words_ + word];
            count += static_cast<std::size_t>(std::popcount(both));
        }
        return count;
    }

private:
    std::size_t words_;
    std::vector<std::uint64_t> bits_;
};

/// What summing out a variable would cost: pairs of neighbours not yet tied (each counted twice), then neighbours.
using Cost = std::pair<std::size_t, std::size_t>;

Cost cost_of(Ties const& ties, Variable variable)
{
    auto const neighbours = ties.neighbours(variable);
    std::size_t missing = 0;
    for (auto const neighbour : neighbours)
    {
        missing += neighbours.size() - 1 - ties.count_shared(variable, neighbour);
    }
    return {missing, neighbours.size()};
}

/// Sums out the variable; marks those whose cost may have changed.
void sum_out(Ties& ties, Step const& step, std::vector<bool>& stale)
{
    for (auto const neighbour : step.neighbours)
    {
        ties.untie(step.variable, neighbour);
        stale[neighbour] = true;
    }
    for (std::size_t i = 0; i < step.neighbours.size(); ++i)
    {
        for (std::size_t j = i + 1; j < step.neighbours.size(); ++j)
        {
            auto const a = step.neighbours[i];
            auto const b = step.neighbours[j];
            if (ties.tied(a, b))
            {
                continue;
            }
            for (auto const both : ties.shared(a, b)) // these have a tie less to add now
            {
                stale[both] = true;
            }
            ties.tie(a, b);
        }
    }
}

Ties all_ties(std::size_t variables, std::vector<Scope> const& scopes)
{
    auto ties = Ties{variables};
    for (auto const& scope : scopes)
    {
        for (std::size_t i = 0; i < scope.size(); ++i)
        {
            for (std::size_t j = i + 1; j < scope.size(); ++j)
            {
                ties.tie(scope[i], scope[j]);
            }
        }
    }
    return ties;
}

} // namespace

std::vector<Step> min_fill_order(std::size_t variables, std::vector<Scope> const& scopes)
{
    auto ties = all_ties(variables, scopes);
    auto left = Scope(variables);
    std::iota(left.begin(), left.end(), Variable{0});
    auto costs = std::vector<Cost>(variables);
    auto stale = std::vector<bool>(variables, true);
    auto steps = std::vector<Step>{};
    while (!left.empty())
    {
        for (auto const variable : left)
        {
            if (stale[variable])
            {
                costs[variable] = cost_of(ties, variable);
                stale[variable] = false;
            }
        }
        auto const cheaper = [&](Variable a, Variable b) { return costs[a] < costs[b]; };
        auto const best = std::min_element(left.begin(), left.end(), cheaper);
        steps.push_back(Step{*best, ties.neighbours(*best)});
        left.erase(best);
        sum_out(ties, steps.back(), stale);
    }
    return steps;
}

std::vector<Step> steps_in(std::vector<Variable> const& order, std::vector<Scope> const& scopes)
{
    auto ties = all_ties(order.size(), scopes);
    auto unused = std::vector<bool>(order.size());
    auto steps = std::vector<Step>{};
    for (auto const variable : order)
    {
        steps.push_back(Step{variable, ties.neighbours(variable)});
        sum_out(ties, steps.back(), unused);
    }
    return steps;
}

double entries(std::vector<Step> const& steps)
{
    auto total = 0.0;
    for (auto const& step : steps)
    {
        total += std::ldexp(1.0, static_cast<int>(step.neighbours.size()) + 1);
    }
    return total;
}

} // namespace padwalk::diagnosis::elimination
