#pragma once

#include "chain.hpp"
#include "elimination_order.hpp"

#include <vector>

namespace padwalk::diagnosis
{

/// How the chains are laid out and in which order their variables are summed out.
struct ChainPlan
{
    std::vector<Chain> chains;
    std::vector<elimination::Scope> scopes; ///< of all tables, chain after chain
    std::vector<elimination::Step> steps;   ///< one per variable
    std::vector<std::size_t> tied_causes;   ///< the causes in chains: variables 0, 1, …; then come the chains' own
};

/// The cheapest of a few plans: the parents in the given or in a common order, and the variables by fewest new ties
/// or in a sweep along that common order. The sweep needs tables over at most two variables more than there are
/// chains, however many parents these have.
///
/// Throws: TooEntangled
[[nodiscard]] ChainPlan plan(std::vector<Chain> chains, std::size_t causes);

} // namespace padwalk::diagnosis
