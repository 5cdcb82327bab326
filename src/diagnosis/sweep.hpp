#pragma once

#include "scaled.hpp"
#include "sweep_plan.hpp"

#include <vector>

namespace padwalk::diagnosis
{

/// A number for "absent" and one for "present": a table over one cause.
struct Pair
{
    Scaled absent;
    Scaled present;
};

/// What the sweep multiplies besides the links, each as the plan counts them. Nothing is negative.
struct SweepTerms
{
    std::vector<Pair> causes;
    std::vector<Likelihood> ties;
};

struct Sums
{
    Scaled total;             ///< the product, summed over all states
    std::vector<Pair> shares; ///< per cause: the same with that cause held absent or present, up to a factor
};

/// The product of all terms and links of a plan, summed over which causes are present and which findings have fired.
///
/// One table is kept over what is open. Forwards it holds the sum over all that is closed, backwards over all that is
/// yet to open, both without dividing (a number may be zero); where a cause closes, the two together give its share.
[[nodiscard]] Scaled swept_total(SweepPlan const& plan, SweepTerms const& terms);
[[nodiscard]] Sums swept_sums(SweepPlan const& plan, SweepTerms const& terms);

} // namespace padwalk::diagnosis
