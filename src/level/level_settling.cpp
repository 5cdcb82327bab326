#include "padwalk/level/level_settling.hpp"

#include "level_budget.hpp"
#include "rate_integral.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace padwalk::level
{
namespace
{

using Values = std::vector<double>;

/// What a leak that stops at some depth does to the marks, and how well that fits.
class Stopping
{
public:
    Stopping(LevelRecord const& record, BalanceFacts const& facts);

    struct Fit
    {
        double log = 0;  ///< ln of the mean likelihood over rates
        double rate = 0; ///< of the likeliest, m/s
    };
    [[nodiscard]] Fit at_depth(double depth) const;
    [[nodiscard]] double never() const;
    /// Over a depth that is known with doubt.
    [[nodiscard]] double at_fitting(units::Measured<units::Length> const& depth) const;
    [[nodiscard]] double deepest() const { return table_.deepest.si(); }
    [[nodiscard]] double lowest_mark() const;

private:
    [[nodiscard]] double stretch_leak(std::size_t stretch, double rate, double depth) const;
    [[nodiscard]] double log_likelihood(Values const& leaks) const;
    [[nodiscard]] double log_likelihood(double rate, double depth) const;

    LevelRecord const& record_;
    BalanceTable const& table_;
    std::vector<numerics::Whitening> whiten_; ///< by form
    std::vector<Values> rest_;                ///< whitened
    Values durations_, steady_;               ///< s; fall without a leak, m/s
    Values none_;                             ///< a bucket does not leak
};

Stopping::Stopping(LevelRecord const& record, BalanceFacts const& facts) : record_(record), table_(facts.table)
{
    for (auto const form : {EvaporationForm::ashrae, EvaporationForm::smith})
    {
        auto const budget = level_budget(record, form, facts);
        whiten_.emplace_back(budget.doubt);
        rest_.push_back(whiten_.back()(budget.rest));
        durations_ = budget.durations;
        steady_.resize(durations_.size(), 0.0);
        for (std::size_t k = 0; k < durations_.size(); ++k)
            steady_[k] += budget.gone[k] / durations_[k] / 2;
    }
    none_.assign(durations_.size(), 0.0);
}

double Stopping::lowest_mark() const
{
    double lowest = 0;
    for (auto const& mark : record_.marks)
        lowest = std::max(lowest, units::in_si(mark.fall.value - record_.marks.front().fall.value));
    return lowest;
}

/// Fall that the leak makes over one stretch, begun at the level its first mark shows; midpoint steps.
double Stopping::stretch_leak(std::size_t stretch, double rate, double depth) const
{
    constexpr int steps = 8;
    double const dt = durations_[stretch] / steps;
    double fall = units::in_si(record_.marks[stretch].fall.value - record_.marks.front().fall.value), sum = 0;
    auto const flow = [&](double at) { return at < depth ? rate * std::sqrt(1 - at / depth) : 0.0; };
    for (int i = 0; i < steps && depth > 0; ++i)
    {
        double const half = fall + (flow(fall) + steady_[stretch]) * dt / 2;
        double const leak = std::clamp(flow(half) * dt, 0.0, std::max(0.0, depth - fall));
        fall += leak + steady_[stretch] * dt;
        sum += leak;
    }
    return sum;
}

double Stopping::log_likelihood(Values const& leaks) const
{
    auto const seen = summed(record_, leaks, none_);
    std::array<double, 2> logs{};
    for (std::size_t f = 0; f < whiten_.size(); ++f)
    {
        auto const leak = whiten_[f](seen);
        double square = 0;
        for (std::size_t i = 0; i < leak.size(); ++i)
            square += std::pow(rest_[f][i] - leak[i], 2);
        logs.at(f) = whiten_[f].log_peak() - square / 2;
    }
    return numerics::log_mean({logs[0], logs[1]});
}

double Stopping::log_likelihood(double rate, double depth) const
{
    Values leaks;
    for (std::size_t k = 0; k < durations_.size(); ++k)
        leaks.push_back(stretch_leak(k, rate, depth));
    return log_likelihood(leaks);
}

Stopping::Fit Stopping::at_depth(double depth) const
{
    // Coarse over all rates, then fine between the neighbours of the best.
    constexpr int coarse = 20, fine = 12;
    double const least = table_.least_leak.si(), step = std::pow(table_.most_leak.si() / least, 1.0 / coarse);
    std::vector<std::pair<double, double>> all;
    for (int i = 0; i <= coarse; ++i)
    {
        double const rate = least * std::pow(step, i);
        all.emplace_back(rate, log_likelihood(rate, depth));
    }
    auto const by_log = [](auto const& a, auto const& b) { return a.second < b.second; };
    double const middle = std::max_element(all.begin(), all.end(), by_log)->first;
    for (int i = 1 - fine; i < fine; ++i)
    {
        double const rate = middle * std::pow(step, static_cast<double>(i) / fine);
        if (i != 0 && rate > least && rate < table_.most_leak.si())
            all.emplace_back(rate, log_likelihood(rate, depth));
    }
    std::sort(all.begin(), all.end());
    std::vector<double> rates;
    for (auto const& place : all)
        rates.push_back(place.first);
    std::size_t next = 0;
    double const log = log_mean_over(rates, [&](double) { return all[next++].second; });
    return {log, std::max_element(all.begin(), all.end(), by_log)->first};
}

double Stopping::never() const
{
    auto const seen = summed(record_, durations_, none_);
    std::vector<double> logs;
    for (std::size_t f = 0; f < whiten_.size(); ++f)
    {
        auto const column = whiten_[f](seen);
        double a = 0, b = 0, c = 0;
        for (std::size_t i = 0; i < column.size(); ++i)
        {
            a += column[i] * column[i];
            b += column[i] * rest_[f][i];
            c += rest_[f][i] * rest_[f][i];
        }
        logs.push_back(whiten_[f].log_peak() - (c - b * b / a) / 2 +
                       log_mean_normal(table_.least_leak.si(), table_.most_leak.si(), b / a, 1 / std::sqrt(a)));
    }
    return numerics::log_mean(logs);
}

double Stopping::at_fitting(units::Measured<units::Length> const& depth) const
{
    // Five places that share a normal density's mean, variance and fourth moment.
    constexpr std::array places{-2.0, -1.0, 0.0, 1.0, 2.0};
    constexpr std::array weights{0.0625, 0.25, 0.375, 0.25, 0.0625};
    std::vector<double> logs;
    for (std::size_t i = 0; i < places.size(); ++i)
        logs.push_back(std::log(weights.at(i) * static_cast<double>(places.size())) +
                       at_depth(units::in_si(depth.value) + places.at(i) * units::in_si(depth.doubt)).log);
    return numerics::log_mean(logs);
}

struct DepthFit
{
    double depth, log, rate;
};

/// Fits over all depths: even, and finer about the lowest mark and about the best.
std::vector<DepthFit> over_depths(Stopping const& stopping)
{
    constexpr int even = 24, to_a_side = 8;
    std::vector<DepthFit> out;
    auto const fit = [&](double depth)
    {
        if (depth <= 0 || depth > stopping.deepest())
            return;
        auto const f = stopping.at_depth(depth);
        out.push_back({depth, f.log, f.rate});
    };
    auto const best = [&] {
        return std::max_element(out.begin(), out.end(), [](auto const& a, auto const& b) { return a.log < b.log; })
            ->depth;
    };
    double const low = stopping.lowest_mark(), step = stopping.deepest() / even;
    for (int i = 1; i <= even; ++i)
        fit(step * i);
    for (int i = -to_a_side; i <= to_a_side; ++i)
        fit(low * (1 + static_cast<double>(i) / to_a_side));
    double width = std::min(step, std::max(0.1 * low, 0.005));
    for (int turn = 0; turn < 2; ++turn, width /= 4)
    {
        double const middle = best();
        for (int i = 1; i <= to_a_side; ++i)
            for (double const way : {-1.0, 1.0})
                fit(middle + way * width * i / to_a_side);
    }
    std::sort(out.begin(), out.end(), [](auto const& a, auto const& b) { return a.depth < b.depth; });
    return out;
}

/// Fills in where it stops, from ∫ over depths by the trapezoid rule.
double integrate(std::vector<DepthFit> const& fits, double deepest, Settling& out)
{
    double greatest = fits.front().log;
    for (auto const& f : fits)
        greatest = std::max(greatest, f.log);
    std::vector<double> below{0};
    double rates = 0;
    for (std::size_t i = 1; i < fits.size(); ++i)
    {
        auto const &a = fits[i - 1], &b = fits[i];
        double const weight = (b.depth - a.depth) * (std::exp(a.log - greatest) + std::exp(b.log - greatest)) / 2;
        below.push_back(below.back() + weight);
        rates += weight * (a.rate + b.rate) / 2;
    }
    auto const quantile = [&](double share)
    {
        double const wanted = share * below.back();
        std::size_t i = 1;
        while (i + 1 < below.size() && below[i] < wanted)
            ++i;
        double const cell = below[i] - below[i - 1];
        double const part = cell > 0 ? (wanted - below[i - 1]) / cell : 0;
        return units::of_si<units::Length>(fits[i - 1].depth + part * (fits[i].depth - fits[i - 1].depth));
    };
    constexpr double tail = 0.025;
    out.low = quantile(tail);
    out.depth = quantile(0.5);
    out.high = quantile(1 - tail);
    out.leak = units::of_si<units::Velocity>(rates / below.back());
    return greatest + std::log(below.back() / deepest);
}

} // namespace

Settling level_settling(LevelRecord const& record, std::vector<Fitting> const& fittings, BalanceFacts const& facts)
{
    Stopping const stopping(record, facts);
    Settling out;
    double const never = stopping.never();
    out.log_stops = integrate(over_depths(stopping), stopping.deepest(), out) - never;
    for (auto const& fitting : fittings)
        out.fittings.push_back({fitting.name, stopping.at_fitting(fitting.depth) - never, {}});
    out.elsewhere = {"elsewhere", out.log_stops, {}};
    out.never = {"never", 0.0, {}};
    std::vector<FittingOdds*> all{&out.elsewhere, &out.never};
    for (auto& fitting : out.fittings)
        all.push_back(&fitting);
    std::vector<double> logs;
    for (auto const* one : all)
        logs.push_back(one->log_likelihood);
    double const sum = numerics::log_mean(logs) + std::log(static_cast<double>(logs.size()));
    for (auto* one : all)
        one->chance = units::Fraction::from_value(std::exp(one->log_likelihood - sum));
    return out;
}

} // namespace padwalk::level
