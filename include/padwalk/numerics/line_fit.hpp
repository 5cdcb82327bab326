#pragma once
/// A straight line through values that have doubt.

#include <cstddef>
#include <span>

namespace padwalk::numerics
{

/// y = at_centre + slope (x − centre); the two numbers of such a line are not correlated.
struct LineFit
{
    double centre = 0.0;    ///< weighted mean of x
    double at_centre = 0.0; ///< y there
    double slope = 0.0;
    double slope_doubt = 0.0; ///< its standard uncertainty, from the values' own doubts alone
    double chi_squared = 0.0; ///< about (values − 2) where they lie on a line within their doubts
    std::size_t values = 0;
};

/// The line of least squares through independent values, each weighted by the inverse square of its standard
/// uncertainty; x has no doubt.
///
///     w = 1/u²,   centre = Σ(w x)/Σw,   at_centre = Σ(w y)/Σw
///     slope = Σ(w (x − centre) y)/Σ(w (x − centre)²),   slope_doubt = 1/√Σ(w (x − centre)²)
///     chi_squared = Σ(w (y − line)²)
///
/// Accuracy: 12 digits of slope and of the scatter, against certified values of a published line (line_fit_test.cpp)
/// Throws: std::invalid_argument for fewer than two values, sizes that differ, a value not finite, a doubt not finite
///         or not above 0, or x all the same
[[nodiscard]] LineFit fit_line(std::span<double const> x, std::span<double const> y, std::span<double const> doubts);

/// A slope with the half-width of its 95 % interval.
struct SlopeInterval
{
    double slope = 0.0, half_width = 0.0;
    bool by_scatter = false; ///< the values scatter about the line by more than their doubts, which decided
};

/// The 95 % interval of a fitted slope, u being its doubt and b = √(χ²/(n − 2)) how far the values scatter about the
/// line against their doubts:
///
///     half_width = z u max(1, b),   z = 1.960
///     half_width = t u b            where chance alone gives such a scatter less than once in 20, or where the
///                                   doubts are not known (`doubts_known` false: they are weights alone)
///
/// t being the 97.5 % point of Student's t of n − 2 degrees of freedom. Of two values there is no scatter.
/// Throws: std::invalid_argument for two values whose doubts are not known
/// Source: least squares; Student's t and chi squared of Boost.Math
[[nodiscard]] SlopeInterval slope_interval(LineFit const& fit, bool doubts_known = true);

} // namespace padwalk::numerics
