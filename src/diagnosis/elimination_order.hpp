#pragma once

#include <cstddef>
#include <vector>

/// Exact sums over yes/no variables, one variable after the other.
namespace padwalk::diagnosis::elimination
{

using Variable = std::size_t;
using Scope = std::vector<Variable>;

/// One variable summed out, and the variables that its sum then ties together.
struct Step
{
    Variable variable;
    Scope neighbours; ///< those not yet summed out, in increasing number
};

/// An order of elimination that at each step adds the fewest new ties; equals are settled by fewest neighbours, then
/// by lowest number. Variables 0 to `variables` − 1 are tied where they share a scope.
[[nodiscard]] std::vector<Step> min_fill_order(std::size_t variables, std::vector<Scope> const& scopes);

/// The steps of an order given beforehand. Requires: each variable is named once
[[nodiscard]] std::vector<Step> steps_in(std::vector<Variable> const& order, std::vector<Scope> const& scopes);

/// Entries of all the tables that these steps build.
[[nodiscard]] double entries(std::vector<Step> const& steps);

} // namespace padwalk::diagnosis::elimination
