#pragma once
/// The mean of a likelihood over rates that are uniform in their logarithm.

#include <functional>
#include <vector>

namespace padwalk::level
{

/// Rates to integrate over: even in the logarithm, and finer where the likelihood is expected to peak.
[[nodiscard]] std::vector<double> rate_nodes(double least, double most, double peak, double spread);

/// ln of (1/ln(most/least)) ∫ L dq/q by the trapezoid rule over the nodes.
[[nodiscard]] double log_mean_over(std::vector<double> const& rates,
                                   std::function<double(double)> const& log_likelihood);

/// The mean of exp(peak_log - (q - mean)²/2 spread²) over such rates, as its natural log.
[[nodiscard]] double log_mean_normal(double least, double most, double mean, double spread);

} // namespace padwalk::level
