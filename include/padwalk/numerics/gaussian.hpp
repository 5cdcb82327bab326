#pragma once
/// Several quantities that are uncertain together, taken as normal.

#include <cstddef>
#include <vector>

namespace padwalk::numerics
{

/// A symmetric table, n by n.
class Covariance
{
public:
    explicit Covariance(std::size_t n) : n_(n), values_(n * n, 0.0) {}
    [[nodiscard]] std::size_t size() const { return n_; }
    [[nodiscard]] double operator()(std::size_t i, std::size_t k) const { return values_[i * n_ + k]; }
    /// Adds v vT: something that moves all of them together by v for one of its standard deviations.
    void add_together(std::vector<double> const& v);
    /// Adds to the variance of one of them alone.
    void add_alone(std::size_t i, double variance);
    /// Without one of them.
    [[nodiscard]] Covariance without(std::size_t i) const;

private:
    std::size_t n_;
    std::vector<double> values_;
};

/// How far values lie from their means, all together.
struct Departure
{
    double square = 0.0;      ///< r V^-1 r: chi squared with as many degrees of freedom as there are values
    double log_density = 0.0; ///< natural log of the normal density there
};

/// The normal density of values that lie `from_mean` away from their means.
///
///     -1/2 (r V^-1 r + ln det V + n ln 2 pi),   by the Cholesky factor of V (Eigen)
///
/// Of no values: 0 and 0.
/// Throws: std::invalid_argument where the sizes differ, a value is not finite, or V is not positive definite
[[nodiscard]] Departure departure(std::vector<double> const& from_mean, Covariance const& covariance);

/// The natural log of the mean of numbers given by their logs, which may be far below what a double can hold.
///
///     m + ln(sum exp(l - m)/n),   m the greatest
///
/// Throws: std::invalid_argument for none
[[nodiscard]] double log_mean(std::vector<double> const& logs);

/// The chance that chi squared of so many degrees of freedom comes out above this.
///
/// Source: Boost.Math, complement of its chi_squared distribution
/// Throws: std::invalid_argument for less than one degree, or chi squared below zero
[[nodiscard]] double chance_above(double chi_squared, int degrees);

} // namespace padwalk::numerics
