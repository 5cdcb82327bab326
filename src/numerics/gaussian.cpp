#include "padwalk/numerics/gaussian.hpp"

#include <boost/math/distributions/chi_squared.hpp>

#include <Eigen/Cholesky>
#include <Eigen/Core>

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace padwalk::numerics
{

void Covariance::add_together(std::vector<double> const& v)
{
    if (v.size() != n_)
        throw std::invalid_argument("a covariance of " + std::to_string(n_) + " was given " + std::to_string(v.size()) +
                                    " values");
    for (std::size_t i = 0; i < n_; ++i)
        for (std::size_t k = 0; k < n_; ++k)
            values_[i * n_ + k] += v[i] * v[k];
}

void Covariance::add_alone(std::size_t i, double variance)
{
    values_.at(i * n_ + i) += variance;
}

Covariance Covariance::without(std::size_t left_out) const
{
    Covariance out(n_ - 1);
    for (std::size_t i = 0, to = 0; i < n_; ++i)
        for (std::size_t k = 0; k < n_; ++k)
            if (i != left_out && k != left_out)
                out.values_[to++] = (*this)(i, k);
    return out;
}

Departure departure(std::vector<double> const& from_mean, Covariance const& covariance)
{
    if (from_mean.size() != covariance.size())
        throw std::invalid_argument("values and covariance differ in size");
    if (from_mean.empty())
        return {};
    auto const n = static_cast<Eigen::Index>(from_mean.size());
    Eigen::MatrixXd v(n, n);
    Eigen::VectorXd r(n);
    for (Eigen::Index i = 0; i < n; ++i)
    {
        r(i) = from_mean[static_cast<std::size_t>(i)];
        for (Eigen::Index k = 0; k < n; ++k)
            v(i, k) = covariance(static_cast<std::size_t>(i), static_cast<std::size_t>(k));
    }
    if (!r.allFinite() || !v.allFinite())
        throw std::invalid_argument("a value or covariance is not finite");
    Eigen::LLT<Eigen::MatrixXd> const factor(v);
    if (factor.info() != Eigen::Success)
        throw std::invalid_argument("a covariance is not positive definite");
    double log_det = 0;
    for (Eigen::Index i = 0; i < n; ++i)
        log_det += 2 * std::log(factor.matrixLLT()(i, i));
    double const square = r.dot(factor.solve(r));
    constexpr double log_2_pi = 1.8378770664093454836;
    return {square, -0.5 * (square + log_det + static_cast<double>(n) * log_2_pi)};
}

double log_mean(std::vector<double> const& logs)
{
    if (logs.empty())
        throw std::invalid_argument("no mean of nothing");
    double const greatest = *std::max_element(logs.begin(), logs.end());
    double sum = 0;
    for (double const l : logs)
        sum += std::exp(l - greatest);
    return greatest + std::log(sum / static_cast<double>(logs.size()));
}

double chance_above(double chi_squared, int degrees)
{
    if (degrees < 1 || !(chi_squared >= 0))
        throw std::invalid_argument("chi-square has one degree or more and is not below zero");
    boost::math::chi_squared const distribution(static_cast<double>(degrees));
    return boost::math::cdf(boost::math::complement(distribution, chi_squared));
}

} // namespace padwalk::numerics
