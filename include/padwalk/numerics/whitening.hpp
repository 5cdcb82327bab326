#pragma once
/// Making values that are uncertain together into values that are uncertain alone.

#include "padwalk/numerics/gaussian.hpp"

#include <vector>

namespace padwalk::numerics
{

/// The Cholesky factor of a covariance V = C CT (Eigen), kept for use on many vectors.
///
///     whitened(x) = C^-1 x,   so that whitened(a)·whitened(b) = aT V^-1 b
///
/// Throws: std::invalid_argument where V is not positive definite, or a size differs
class Whitening
{
public:
    explicit Whitening(Covariance const& covariance);

    [[nodiscard]] std::vector<double> operator()(std::vector<double> const& values) const;
    /// Natural log of the density at the mean: -1/2 (ln det V + n ln 2 pi).
    [[nodiscard]] double log_peak() const { return log_peak_; }
    [[nodiscard]] std::size_t size() const { return n_; }

private:
    std::size_t n_;
    std::vector<double> factor_; ///< lower triangle by rows
    double log_peak_ = 0.0;
};

} // namespace padwalk::numerics
