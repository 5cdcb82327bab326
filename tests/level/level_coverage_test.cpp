#include "catch_compat.hpp"

#include "histories_made.hpp"
#include "run_model.hpp"

#include <cmath>
#include <cstdio>

using namespace padwalk;
using namespace padwalk::level_tests;

namespace
{

level::BalanceFacts const& facts()
{
    static level::BalanceFacts const f = level::balance_facts(data());
    return f;
}

/// Within what so many draws of 95 % give 999 times in 1000.
void check_coverage(char const* what, int held, int of)
{
    std::printf("%-46s held %d of %d: %.1f %%\n", what, held, of, 100.0 * held / of);
    CHECK(std::abs(held - 0.95 * of) <= 3.29 * std::sqrt(0.95 * 0.05 * of));
}

} // namespace

TEST_CASE("level balance: over a thousand made-up histories the interval holds the true leak at its stated rate")
{
    constexpr int many = 1000;
    auto const with_bucket = tests::coverage(many, {2, true, false, false}, 1.5, 11, facts());
    check_coverage("2 days, bucket", with_bucket.held, many);
    auto const states = tests::coverage(many, {2, true, true, false}, 1.5, 12, facts());
    check_coverage("2 days, bucket, pump on and off: off", states.held, many);
    check_coverage("2 days, bucket, pump on and off: on", states.held_on, many);
    CHECK(with_bucket.chi_squared > 0.8); // the doubt stated is the doubt there is
    CHECK(with_bucket.chi_squared < 1.3);
    auto const by_weather = tests::coverage(many, {2, false, false, false}, 1.5, 13, facts());
    check_coverage("2 days", by_weather.held, many);
    CHECK(with_bucket.mean_width < 0.6 * by_weather.mean_width);
}

TEST_CASE("level balance: the interval holds the true leak for every length of record, and at no leak")
{
    constexpr int many = 300;
    for (double const days : {0.5, 1.0, 4.0, 7.0})
        for (bool const bucket : {false, true})
        {
            std::string const what = std::to_string(days).substr(0, 3) + " days" + (bucket ? ", bucket" : "");
            check_coverage(what.c_str(), tests::coverage(many, {days, bucket, false, false}, 1.5, 14, facts()).held,
                           many);
        }
    // At no leak 1/1.05, if the doubts are right.
    auto const none = tests::coverage_at(many, {2, true, false, false}, 0, 15, facts());
    std::printf("%-46s held %d of %d\n", "2 days, bucket, no leak", none.held, many);
    CHECK(none.held >= many / 1.05 - 3.29 * std::sqrt(0.95 * 0.05 * many));
    // Laws other than the balance's cost a little of it.
    auto const other = tests::coverage(many, {2, true, false, true}, 1.5, 16, facts());
    std::printf("%-46s held %d of %d\n", "2 days, bucket, other laws", other.held, many);
    CHECK(other.held >= 0.87 * many);
}

TEST_CASE("level balance: false alarms are rare at every length, misses fall with time and with a bucket")
{
    constexpr int many = 150;
    double last_least = 100;
    for (bool const bucket : {false, true})
        for (double const days : {0.5, 1.0, 2.0, 4.0, 7.0})
        {
            auto const a = tests::alarms(many, {days, bucket, false, false}, 0.25, 17, facts());
            std::printf(
                "%.1f days%-8s false %d, %d of %d; missed at 0.25 in/day %d, %d; least shown %.2f in/day, missed "
                "%d\n",
                days, bucket ? ", bucket" : "", a.false_by_odds, a.false_by_estimate, many, a.missed_by_odds,
                a.missed_by_estimate, a.median_least, a.least_missed);
            CHECK(a.false_by_odds <= 0.05 * many);
            CHECK(a.false_by_estimate <= 0.05 * many + 3.29 * std::sqrt(0.05 * 0.95 * many));
            CHECK(a.least_missed <= 0.05 * many + 3.29 * std::sqrt(0.05 * 0.95 * many));
            if (days > 0.6)
                CHECK(a.median_least < last_least);
            last_least = a.median_least;
            if (bucket && days >= 2)
                CHECK(a.missed_by_estimate <= 0.05 * many);
        }
}
