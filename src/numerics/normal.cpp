// The normal distribution declared in quasi_random.hpp.
#include "padwalk/numerics/number_text.hpp"
#include "padwalk/numerics/quasi_random.hpp"

#include <boost/math/special_functions/erf.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>
#include <string>

namespace padwalk::numerics
{
namespace
{

namespace policies = boost::math::policies;

// In double, as everywhere. An overflow of erfc_inv cannot happen for the arguments it gets here.
using InDouble = policies::policy<policies::promote_float<false>, policies::promote_double<false>>;

constexpr double sqrt_two = 1.4142135623730950488;
constexpr double far_tail = 30; // sigmas; erfc underflows from 38, the series for the tail is exact to 1e-15 from 20

double share_below(double z)
{
    return 0.5 * boost::math::erfc(-z / sqrt_two, InDouble());
}

double share_between(double a, double b)
{
    return 0.5 * (boost::math::erf(b / sqrt_two, InDouble()) - boost::math::erf(a / sqrt_two, InDouble()));
}

double with_share_below(double p)
{
    return -sqrt_two * boost::math::erfc_inv(2 * p, InDouble());
}

/// Share above x over density at x: 1/x - 1/x^3 + 3/x^5 - 15/x^7 ..., x far in the upper tail.
double tail_over_density(double x)
{
    double term = 1 / x;
    double sum = term;
    for (int k = 1; k <= 15; ++k)
    {
        term *= -(2 * k - 1) / (x * x);
        sum += term;
    }
    return sum;
}

/// Share above x over share above a, both far in the upper tail, x >= a.
double tail_ratio(double x, double a)
{
    if (std::isinf(x))
        return 0.0;
    return std::exp(-(x - a) * (x + a) / 2) * tail_over_density(x) / tail_over_density(a);
}

/// The x above a, far in the upper tail, with exp(log_ratio) of a's tail above it. Newton from the exponential tail.
double with_tail_ratio(double log_ratio, double a)
{
    double step = -log_ratio / a;
    double const tail_at_a = tail_over_density(a);
    for (int turn = 0; turn < 60; ++turn)
    {
        double const tail = tail_over_density(a + step);
        double const excess = step * (a + step / 2) - std::log(tail / tail_at_a) + log_ratio;
        double const change = -excess * tail;
        step += change;
        if (std::fabs(change) <= 1e-15 * (a + step))
            return a + step;
    }
    throw std::logic_error("the tail of the normal distribution beyond " + number_text(a) + " was not inverted");
}

/// The share p (and q = 1 - p above) between a and b, with 0 <= a < b: all in shares above, which stay exact there.
double upper_side(double p, double q, double a, double b)
{
    if (a >= far_tail)
        return with_tail_ratio(std::log1p(-p * (1 - tail_ratio(b, a))), a);
    return -with_share_below(q * share_below(-a) + p * share_below(-b));
}

double standard_truncated(double p, double a, double b)
{
    double const q = 1 - p;
    if (a >= 0)
        return upper_side(p, q, a, b);
    if (b <= 0)
        return -upper_side(q, p, -b, -a);
    double const below = share_below(a) + p * share_between(a, b);
    return below <= 0.5 ? with_share_below(below) : -with_share_below(share_below(-b) + q * share_between(a, b));
}

void require_share(double p)
{
    if (!(p > 0 && p < 1))
        throw std::invalid_argument("a share of a distribution lies between 0 and 1, not at " + number_text(p));
}

void require_distribution(double mean, double sigma, double low, double high)
{
    if (!std::isfinite(mean))
        throw std::invalid_argument("a normal distribution has a finite mean, not " + number_text(mean));
    if (!(std::isfinite(sigma) && sigma >= 0))
        throw std::invalid_argument("a standard deviation is finite and not negative, not " + number_text(sigma));
    bool const infinite_point = low == high && std::isinf(low);
    if (!(low <= high) || infinite_point)
        throw std::invalid_argument("a distribution cut off below " + number_text(low) + " and above " +
                                    number_text(high) + " is empty");
    if (sigma == 0 && !(mean >= low && mean <= high))
        throw std::invalid_argument("the value " + number_text(mean) + ", without doubt, lies outside " +
                                    number_text(low) + " to " + number_text(high));
}

} // namespace

double standard_normal_cdf(double z)
{
    if (std::isnan(z))
        throw std::invalid_argument("the normal distribution has no share below nan");
    if (std::isinf(z))
        return z < 0 ? 0.0 : 1.0;
    return share_below(z);
}

double standard_normal_quantile(double p)
{
    require_share(p);
    return with_share_below(p);
}

double truncated_normal_quantile(double p, double mean, double sigma, double low, double high)
{
    require_share(p);
    require_distribution(mean, sigma, low, high);
    if (sigma == 0)
        return mean;
    if (low == high)
        return low;
    double const x = mean + sigma * standard_truncated(p, (low - mean) / sigma, (high - mean) / sigma);
    return std::clamp(x, low, high); // against the last rounding only
}

} // namespace padwalk::numerics
