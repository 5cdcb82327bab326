#pragma once
/// What many values say together.

#include <span>
#include <vector>

namespace padwalk::numerics
{

/// The value below which the share p of the values lies, by linear interpolation between the ordered values, type 7 of
/// [hyndman-fan-1996]: the position among n values, counted from 0, is p (n - 1); p = 0 is the least, 1 the greatest.
///
/// Throws: std::invalid_argument for no values, a value not finite, or p outside 0 to 1.
[[nodiscard]] double quantile(std::vector<double> values, double p);

/// Several readings of one quantity made into one.
struct Combined
{
    double value = 0.0;       ///< the weighted mean
    double doubt = 0.0;       ///< its standard uncertainty, from the readings' own doubts alone
    double chi_squared = 0.0; ///< about (readings - 1) when the readings agree within their doubts
};

/// The least-squares mean of independent readings, each weighted by the inverse square of its standard uncertainty.
///
///     w = 1/u^2,   value = sum(w x)/sum(w),   doubt = 1/sqrt(sum w),   chi_squared = sum(w (x - value)^2)
///
/// Throws: std::invalid_argument for no readings, sizes that differ, a value not finite, a doubt not finite or not
///         above 0.
[[nodiscard]] Combined combine(std::span<double const> values, std::span<double const> doubts);

} // namespace padwalk::numerics
