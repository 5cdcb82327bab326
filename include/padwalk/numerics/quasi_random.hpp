#pragma once
/// Evenly spread points in place of random ones, and the normal distribution that turns them into doubts.

#include <cstddef>
#include <memory>
#include <vector>

namespace padwalk::numerics
{

/// The Sobol sequence [joe-kuo-2008] by Boost.Random: the same points on every machine and in every run.
///
/// The first point is the middle of the cube; every coordinate is 2^-53 higher than Boost's, so that none can be 0.
/// After 2^k - 1 points each coordinate, alone, has visited every multiple of 2^-k inside the cube once.
class QuasiRandom
{
public:
    /// Throws std::invalid_argument unless there are 1 to 3667 dimensions, all that the direction numbers reach.
    explicit QuasiRandom(std::size_t dimensions);
    QuasiRandom(QuasiRandom&&) noexcept;
    QuasiRandom& operator=(QuasiRandom&&) noexcept;
    ~QuasiRandom();

    /// The next point; every coordinate strictly between 0 and 1.
    [[nodiscard]] std::vector<double> next();
    [[nodiscard]] std::size_t dimensions() const { return dimensions_; }

private:
    struct Sequence;

    std::size_t dimensions_;
    std::unique_ptr<Sequence> sequence_;
};

/// Share of the standard normal distribution below z: erfc(-z / sqrt 2) / 2. Relative accuracy holds in the lower tail.
///
/// Throws: std::invalid_argument for NaN; an infinite z gives 0 or 1.
[[nodiscard]] double standard_normal_cdf(double z);

/// The z below which the share p of the standard normal distribution lies.
///
/// Throws: std::invalid_argument unless 0 < p < 1.
[[nodiscard]] double standard_normal_quantile(double p);

/// The value below which the share p lies, of a normal distribution cut off below low and above high.
///
///     Phi((x - mean)/sigma) = Phi(a) + p (Phi(b) - Phi(a)),   a = (low - mean)/sigma,  b = (high - mean)/sigma
///
/// Computed from the nearer tail, so it stays exact when the whole interval lies many sigmas from the mean. Either
/// limit may be infinite. A sigma of 0 gives the mean.
/// Throws: std::invalid_argument unless 0 < p < 1, the mean is finite, sigma is finite and not negative, low < high
///         (low = high is allowed and gives that value), and, for a sigma of 0, the mean lies between the limits.
[[nodiscard]] double truncated_normal_quantile(double p, double mean, double sigma, double low, double high);

} // namespace padwalk::numerics
