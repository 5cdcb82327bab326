#pragma once
/// The root of a function of one variable between two ends. It is found, or an exception says why not.

#include <functional>
#include <stdexcept>

namespace padwalk::numerics
{

/// Base of everything bracketed_root can report, for a caller that handles all three alike.
struct NoRoot : std::runtime_error
{
    using std::runtime_error::runtime_error;
};

/// The function has the same sign at both ends.
struct NoBracket : NoRoot
{
    using NoRoot::NoRoot;
};

/// The interval did not shrink to the tolerance, or it shrank onto a pole.
struct NoConvergence : NoRoot
{
    using NoRoot::NoRoot;
};

/// The function returned NaN or an infinity.
struct FunctionNotFinite : NoRoot
{
    using NoRoot::NoRoot;
};

/// Where a continuous function changes sign, by Algorithm 748 [alefeld-1995] in double precision throughout.
///
/// Ends:     in either order; the function may be exactly zero at one of them, which is then the answer.
/// Accuracy: the sign change lies within relative_tolerance * max(|x|, relative_tolerance * |high - low|) of the
///           answer x; the second term is for roots at or near zero.
/// Throws:   NoBracket with the values at both ends; FunctionNotFinite with the place; NoConvergence after most_steps
///           evaluations or at a pole; std::invalid_argument for an end that is not finite, a tolerance outside
///           4 rounding errors to 0.1, or fewer than one step. What the function itself throws passes through.
[[nodiscard]] double bracketed_root(std::function<double(double)> const& function, double low, double high,
                                    double relative_tolerance, int most_steps = 200);

} // namespace padwalk::numerics
