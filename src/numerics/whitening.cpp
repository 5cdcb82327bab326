#include "padwalk/numerics/whitening.hpp"

#include <Eigen/Cholesky>
#include <Eigen/Core>

#include <cmath>
#include <stdexcept>

namespace padwalk::numerics
{

Whitening::Whitening(Covariance const& covariance) : n_(covariance.size()), factor_(n_ * n_, 0.0)
{
    auto const n = static_cast<Eigen::Index>(n_);
    Eigen::MatrixXd v(n, n);
    for (std::size_t i = 0; i < n_; ++i)
        for (std::size_t k = 0; k < n_; ++k)
            v(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(k)) = covariance(i, k);
    Eigen::LLT<Eigen::MatrixXd> const factor(v);
    if (!v.allFinite() || factor.info() != Eigen::Success)
        throw std::invalid_argument("a covariance is not positive definite");
    constexpr double log_2_pi = 1.8378770664093454836;
    for (std::size_t i = 0; i < n_; ++i)
    {
        for (std::size_t k = 0; k <= i; ++k)
            factor_[i * n_ + k] = factor.matrixLLT()(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(k));
        log_peak_ -= std::log(factor_[i * n_ + i]) + log_2_pi / 2;
    }
}

std::vector<double> Whitening::operator()(std::vector<double> const& values) const
{
    if (values.size() != n_)
        throw std::invalid_argument("a whitening of " + std::to_string(n_) + " was given " +
                                    std::to_string(values.size()) + " values");
    std::vector<double> out(n_);
    for (std::size_t i = 0; i < n_; ++i)
    {
        double rest = values[i];
        for (std::size_t k = 0; k < i; ++k)
            rest -= factor_[i * n_ + k] * out[k];
        out[i] = rest / factor_[i * n_ + i];
    }
    return out;
}

} // namespace padwalk::numerics
