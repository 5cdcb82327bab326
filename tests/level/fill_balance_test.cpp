#include "catch_compat.hpp"

#include "run_model.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/level/fill_balance.hpp"
#include "padwalk/units/definitions.hpp"

#include <cmath>

using namespace padwalk;
using namespace padwalk::level_tests;
using namespace padwalk::units::exact;
using namespace padwalk::level;

namespace
{

constexpr double inch_a_day = inch / day;
constexpr double pool = 400 * square_foot;

template <class Q> units::Measured<Q> measured(double value, double doubt)
{
    return {units::of_si<Q>(value), units::of_si<units::Difference<Q>>(doubt), "made"};
}

BalanceTable const& table()
{
    static BalanceTable const t = balance_facts(data()).table;
    return t;
}

/// Nothing came in; the level fell so much over a time; evaporation foretold 0.25 ± 0.07 in/day.
FillWatch dead(double days, double fall_in)
{
    FillWatch w;
    w.elapsed = units::of_si<units::Duration>(days * day);
    w.fall = measured<units::Length>(fall_in * inch, std::sqrt(2.0) / 32 * inch);
    w.evaporation = measured<units::Velocity>(0.25 * inch_a_day, 0.07 * inch_a_day);
    w.area = units::of_si<units::Area>(pool);
    return w;
}

double log_ratio(FillSays const& says, double leak_in_a_day)
{
    return log_ratio_of(units::of_si<units::Velocity>(leak_in_a_day * inch_a_day), says.leak);
}

} // namespace

TEST_CASE("dead valve: a level that falls by evaporation alone argues against a leak of any size (common practice, no "
          "source), the more the larger the leak")
{
    auto const says = fill_says(dead(4, 1.0), table());
    double const s = std::hypot(std::sqrt(2.0) / 32 / 4, 0.07);
    CHECK(std::abs(units::in_si(says.leak.value)) / inch_a_day <= 1e-9);
    CHECK(std::abs(units::in_si(says.leak.doubt) / inch_a_day - s) <= 1e-9);
    double last = 0;
    for (double const leak : {0.02, 0.1, 0.25, 0.5, 2.0})
    {
        CHECK(std::abs(log_ratio(says, leak) + leak * leak / (2 * s * s)) <= 1e-6);
        CHECK(log_ratio(says, leak) < last);
        last = log_ratio(says, leak);
    }
    CHECK(says.odds.log_ratio < -0.5); // over all sizes, those too small to see included
    CHECK(says.odds.none.value() > 0.6);
    CHECK(units::in_si(says.rate.low) == 0);
}

TEST_CASE("dead valve: a level that holds where water evaporates says more, and after an hour nothing yet")
{
    // It holds to a sixteenth over two days: less than evaporates, so a leak is out of the question.
    CHECK(fill_says(dead(2, 0.0625), table()).odds.none > fill_says(dead(2, 0.5), table()).odds.none);
    auto const hour_long = fill_says(dead(1.0 / 24, 0.0), table());
    CHECK(std::abs(hour_long.odds.log_ratio) < 1.6);
    CHECK(units::in_si(hour_long.least_shown) / inch_a_day > 3);
    CHECK(std::abs(log_ratio(hour_long, 0.25)) < 0.2);
}

TEST_CASE("valve that runs all day: it hides a leak as large as it can deliver, and its run bounds the leak")
{
    // 3 gpm is 4320 gal/day, 17 in/day on 400 ft2 (arithmetic of leak_facts.csv); a third of the day is 5.8 in.
    auto const flow = measured<units::VolumeFlow>(3 * us_gallon / minute, 0.15 * us_gallon / minute);
    FillWatch w = dead(1, 0);
    w.delivered = flow_over(flow, measured<units::Duration>(8 * hour, 0.25 * hour));
    CHECK(std::abs(units::in_si(w.delivered->value) / us_gallon - 1440) <= 1e-6);
    CHECK(std::abs(w.delivered->doubt / w.delivered->value - std::hypot(0.05, 0.25 / 8)) <= 1e-9);
    auto const says = fill_says(w, table());
    double const deep = 1440 * us_gallon / pool / inch;
    CHECK(std::abs(units::in_si(says.leak.value) / inch_a_day - (deep - 0.25)) <= 1e-9);
    CHECK(units::in_si(says.rate.low) / inch_a_day > 4);
    CHECK(says.odds.none.value() < 1e-6);
    // The same level, and nobody knows how long it ran: nothing against a leak, nothing for it.
    w.delivered->doubt = w.delivered->value;
    CHECK(fill_says(w, table()).odds.none.value() > 0.05);
}

TEST_CASE("meter with all else off: what it shows bounds the leak")
{
    FillWatch w = dead(1, 0);
    w.delivered = measured<units::Volume>(65 * us_gallon, 2 * us_gallon); // 0.26 in: evaporation
    auto const says = fill_says(w, table());
    CHECK(units::in_si(says.rate.high) / inch_a_day < 0.25);
    CHECK(says.odds.none.value() > 0.5);
    w.delivered = measured<units::Volume>(300 * us_gallon, 2 * us_gallon); // 1.2 in
    auto const leaks = fill_says(w, table());
    CHECK(units::in_si(leaks.rate.low) / inch_a_day > 0.7);
    CHECK(leaks.odds.none.value() < 0.01);
}

TEST_CASE("fill balance: refusals")
{
    FillWatch w = dead(1, 0);
    w.elapsed = {};
    CHECK_THROWS_AS(fill_says(w, table()), figures::NotComputed);
    w = dead(1, 0);
    w.area = std::nullopt;
    CHECK_NOTHROW(fill_says(w, table()));
    w.delivered = measured<units::Volume>(0.1, 0.01);
    CHECK_THROWS_AS(fill_says(w, table()), figures::NotComputed);
    w = dead(1, 0);
    w.fall.doubt = {};
    w.evaporation.doubt = {};
    CHECK_THROWS_AS(fill_says(w, table()), figures::NotComputed);
}
