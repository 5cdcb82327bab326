#include "catch_compat.hpp"

#include "run_model.hpp"

#include "padwalk/level/leak_rate.hpp"
#include "padwalk/numerics/quasi_random.hpp"
#include "padwalk/units/definitions.hpp"

#include <cmath>

using namespace padwalk;
using namespace padwalk::level_tests;
using namespace padwalk::units::exact;
using level::RateLikelihood;

namespace
{

level::BalanceTable const& table()
{
    static level::BalanceTable const t = level::balance_facts(data()).table;
    return t;
}

level::LeakRate rate(double mean, double spread)
{
    return level::leak_rate({{0.0, mean, spread, std::nullopt}});
}

double number(units::Velocity v)
{
    return units::in_si(v);
}

units::Measured<units::Velocity> measured(double inches_a_day, double spread)
{
    return {units::of_si<units::Velocity>(inches_a_day * inch / day),
            units::of_si<units::Velocity>(spread * inch / day), "made"};
}

} // namespace

TEST_CASE("leak rate: half a normal density, by its closed form")
{
    auto const r = rate(0, 1);
    CHECK(number(r.low) == 0);
    CHECK(std::abs(number(r.high) - 1.959964) <= 2e-3);
    CHECK(std::abs(number(r.median) - 0.674490) <= 1e-3);
    CHECK(std::abs(number(r.mean) - std::sqrt(2 / 3.14159265358979)) <= 1e-3);
    CHECK(number(r.estimate.value) == 0);
    CHECK(std::abs(number(r.estimate.doubt) - 1) <= 1e-12);
}

TEST_CASE("leak rate: far above zero the bound doesn't show, far below it all lies near zero")
{
    auto const far = rate(20, 1);
    CHECK(std::abs(number(far.low) - (20 - 1.959964)) <= 0.03); // a step of the grid; the density is flat there
    CHECK(std::abs(number(far.high) - (20 + 1.959964)) <= 0.03);
    CHECK(std::abs(number(far.mean) - 20) <= 1e-6);
    // Far below zero the density falls as exp(-m q/s²): 95 % lie below ln 20 s²/m, a little less by its curvature.
    auto const below = rate(-5, 1);
    CHECK(number(below.low) == 0);
    CHECK(number(below.high) < std::log(20.0) / 5);
    CHECK(number(below.high) > 0.9 * std::log(20.0) / 5);
    CHECK(std::abs(number(below.estimate.value) + 5) <= 1e-12);
}

TEST_CASE("leak rate: at one true rate the interval holds it as often as its known bound says, (1 - a)/(1 + a)")
{
    constexpr double step = 0.02, least = -5.5, most = 11;
    struct Interval
    {
        double estimate, low, high;
    };
    std::vector<Interval> all;
    for (double m = least; m < most; m += step)
    {
        auto const r = rate(m, 1);
        all.push_back({m, number(r.low), number(r.high)});
    }
    auto const held = [&](double truth)
    {
        double sum = 0;
        for (auto const& i : all)
            if (truth >= i.low && truth <= i.high)
                sum += step * std::exp(-(i.estimate - truth) * (i.estimate - truth) / 2) / std::sqrt(2 * 3.14159265359);
        return sum;
    };
    double lowest = 1, from_zero = 0;
    for (int i = 0; i <= 50; ++i)
    {
        lowest = std::min(lowest, held(0.1 * i));
        from_zero += held(0.1 * i) / 51;
    }
    CHECK(lowest >= 0.95 / 1.05 - 0.01); // the sums' own step is worth 0.4 % of a truth's share
    CHECK(lowest <= 0.94);
    // By the closed form of the shortest interval, summed in steps of 0.005 by another program.
    CHECK(std::abs(held(0) - 0.9523) <= 0.01);
    CHECK(std::abs(held(1) - 0.9735) <= 0.01);
    CHECK(std::abs(held(3.25) - 0.9276) <= 0.01);
    CHECK(std::abs(held(5) - 0.9494) <= 0.01);
    CHECK(std::abs(from_zero - 0.95) <= 0.01);
}

TEST_CASE("leak rate: a rate beside another that can't be below zero, against a sum over both")
{
    // Two rates, 0.4 ± 1 and -0.3 ± 0.5, correlated -0.6, both above zero: brute force over a grid.
    double const m1 = 0.4, m2 = -0.3, s1 = 1, s2 = 0.5, correlation = -0.6;
    double const rest = 1 - correlation * correlation;
    double sum = 0, first = 0;
    for (double a = 0.005; a < 8; a += 0.01)
        for (double b = 0.0025; b < 4; b += 0.005)
        {
            double const x = (a - m1) / s1, y = (b - m2) / s2;
            double const density = std::exp(-(x * x - 2 * correlation * x * y + y * y) / (2 * rest));
            sum += density;
            first += a * density;
        }
    double const alone = s2 * std::sqrt(rest), slope = correlation * s2 / s1;
    auto const r = level::leak_rate({{0.0, m1, s1, RateLikelihood::Cut{slope / alone, m2 / alone}}});
    CHECK(std::abs(number(r.mean) - first / sum) <= 1e-3);
}

TEST_CASE("leak rate: two likelihoods count by their areas")
{
    auto const r = level::leak_estimate({{std::log(3.0), 1.0, 0.1, std::nullopt}, {0.0, 2.0, 0.1, std::nullopt}});
    CHECK(std::abs(number(r.value) - 1.25) <= 1e-12);
    CHECK(std::abs(number(r.doubt) - std::sqrt(0.01 + 3.0 / 16)) <= 1e-12);
    CHECK_THROWS_AS(level::leak_rate({}), std::invalid_argument);
}

TEST_CASE("leak odds: the mean over rates against a sum with a million steps")
{
    for (double const mean : {-0.1, 0.0, 0.05, 0.3, 2.0})
        for (double const spread : {0.003, 0.05, 0.4})
        {
            INFO(mean << " ± " << spread << " in/day");
            double const low = 0.02, high = 5;
            constexpr int steps = 1000000;
            auto const exponent = [&](double q) { return (q * mean - q * q / 2) / (spread * spread); };
            double const greatest = exponent(std::max(low, mean));
            double sum = 0;
            for (int i = 0; i < steps; ++i)
                sum += std::exp(exponent(low * std::pow(high / low, (i + 0.5) / steps)) - greatest) / steps;
            auto const odds = level::leak_odds(measured(mean, spread), table());
            double const expected = std::log(sum) + greatest;
            CHECK(std::abs(odds.log_ratio - expected) <= 5e-3);
            CHECK(std::abs(odds.none.value() - 1 / (1 + std::exp(odds.log_ratio))) <= 1e-12);
        }
}

TEST_CASE("leak odds: a level that holds argues the more against a leak the larger that leak would be")
{
    auto const held = measured(0, 0.05);
    double last = 0;
    for (double const leak : {0.05, 0.1, 0.25, 1.0})
    {
        double const log = level::log_ratio_of(units::of_si<units::Velocity>(leak * inch / day), held);
        CHECK(std::abs(log + leak * leak / (2 * 0.0025)) <= 1e-9);
        CHECK(log < last);
        last = log;
    }
    CHECK(level::leak_odds(held, table()).log_ratio < 0);
}

TEST_CASE("least leak shown: Currie's 3.29 standard deviations")
{
    CHECK(std::abs(number(level::least_leak_shown(units::of_si<units::Velocity>(1))) - 3.29) <= 0.005);
}
