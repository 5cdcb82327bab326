#include "padwalk/level/leak_rate.hpp"

#include "padwalk/numerics/quasi_random.hpp"
#include "rate_integral.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace padwalk::level
{
namespace
{

constexpr double held = 0.95;

/// Density of the rate above zero on an even grid, and what lies below each of its places.
struct Grid
{
    double from = 0, step = 0;
    std::vector<double> density, below;

    [[nodiscard]] double at(std::size_t i) const { return from + step * static_cast<double>(i); }
    /// The rate below which the share lies.
    [[nodiscard]] double quantile(double share) const
    {
        double const wanted = share * below.back();
        auto const above = std::upper_bound(below.begin() + 1, below.end() - 1, wanted);
        auto const i = static_cast<std::size_t>(above - below.begin());
        double const in_cell = below[i] - below[i - 1];
        return at(i - 1) + (in_cell > 0 ? step * (wanted - below[i - 1]) / in_cell : 0);
    }
};

double log_density(std::vector<RateLikelihood> const& likelihood, double rate)
{
    double out = -HUGE_VAL;
    for (auto const& part : likelihood)
    {
        double const z = (rate - part.mean) / part.spread;
        double log = part.log_weight - z * z / 2 - std::log(part.spread); // less a constant of all
        if (part.cut)
            log += std::log(std::max(
                1e-300, numerics::standard_normal_cdf(part.cut->slope * (rate - part.mean) + part.cut->shift)));
        out = std::max(out, log) + std::log1p(std::exp(-std::abs(out - log)));
    }
    return out;
}

/// Places from zero, or six deviations below the least estimate, to six above the greatest, or above zero.
Grid grid_of(std::vector<RateLikelihood> const& likelihood)
{
    constexpr std::size_t places = 601;
    constexpr double deviations = 6;
    double low = HUGE_VAL, high = 0;
    for (auto const& part : likelihood)
    {
        low = std::min(low, part.mean - deviations * part.spread);
        high = std::max(high, std::max(0.0, part.mean) + deviations * part.spread);
    }
    Grid out;
    out.from = std::max(0.0, low);
    out.step = (high - out.from) / static_cast<double>(places - 1);
    std::vector<double> logs;
    for (std::size_t i = 0; i < places; ++i)
        logs.push_back(log_density(likelihood, out.at(i)));
    double const greatest = *std::max_element(logs.begin(), logs.end());
    for (std::size_t i = 0; i < places; ++i)
    {
        out.density.push_back(std::exp(logs[i] - greatest));
        out.below.push_back(i == 0 ? 0 : out.below[i - 1] + out.step * (out.density[i] + out.density[i - 1]) / 2);
    }
    return out;
}

double mean_of(Grid const& grid)
{
    double sum = 0;
    for (std::size_t i = 1; i < grid.density.size(); ++i)
        sum += grid.step * (grid.density[i] * grid.at(i) + grid.density[i - 1] * grid.at(i - 1)) / 2;
    return sum / grid.below.back();
}

/// The shortest interval that holds 95 %.
std::pair<double, double> shortest(Grid const& grid)
{
    std::pair<double, double> best{grid.at(0), grid.quantile(held)};
    for (std::size_t i = 1; i < grid.below.size(); ++i)
    {
        double const share = grid.below[i] / grid.below.back();
        if (share >= 1 - held)
            break;
        double const high = grid.quantile(share + held);
        if (high - grid.at(i) < best.second - best.first)
            best = {grid.at(i), high};
    }
    return best;
}

units::Velocity rate(double si)
{
    return units::of_si<units::Velocity>(si);
}

} // namespace

units::Measured<units::Velocity> leak_estimate(std::vector<RateLikelihood> const& likelihood)
{
    double greatest = -HUGE_VAL;
    for (auto const& part : likelihood)
        greatest = std::max(greatest, part.log_weight);
    double sum = 0, first = 0, second = 0;
    for (auto const& part : likelihood)
    {
        double const weight = std::exp(part.log_weight - greatest);
        sum += weight;
        first += weight * part.mean;
        second += weight * (part.mean * part.mean + part.spread * part.spread);
    }
    double const mean = first / sum;
    return {rate(mean), rate(std::sqrt(std::max(0.0, second / sum - mean * mean))), "computed"};
}

LeakRate leak_rate(std::vector<RateLikelihood> const& likelihood)
{
    if (likelihood.empty())
        throw std::invalid_argument("a rate of no likelihood");
    Grid const grid = grid_of(likelihood);
    auto const [low, high] = shortest(grid);
    return {leak_estimate(likelihood), rate(mean_of(grid)), rate(grid.quantile(0.5)), rate(low), rate(high)};
}

double log_ratio_of(units::Velocity leak, units::Measured<units::Velocity> const& estimate)
{
    double const q = units::in_si(leak), m = units::in_si(estimate.value), s = units::in_si(estimate.doubt);
    return (q * m - q * q / 2) / (s * s);
}

LeakOdds leak_odds(units::Measured<units::Velocity> const& estimate, BalanceTable const& table)
{
    double const m = units::in_si(estimate.value), s = units::in_si(estimate.doubt);
    double const none = -m * m / (2 * s * s);
    LeakOdds out;
    out.log_ratio = log_mean_normal(table.least_leak.si(), table.most_leak.si(), m, s) - none;
    double const before = table.chance_of_leak.si();
    out.none = units::Fraction::from_value(1 / (1 + std::exp(out.log_ratio) * before / (1 - before)));
    return out;
}

units::Velocity least_leak_shown(units::Velocity spread)
{
    constexpr double of_a_hundred = 0.95;
    return spread * (2 * numerics::standard_normal_quantile(of_a_hundred));
}

} // namespace padwalk::level
