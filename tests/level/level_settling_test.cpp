#include "catch_compat.hpp"

#include "histories_made.hpp"
#include "run_model.hpp"

#include "padwalk/level/level_settling.hpp"
#include "padwalk/units/definitions.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

using namespace padwalk;
using namespace padwalk::level_tests;
using namespace padwalk::units::exact;
using namespace padwalk::level;

namespace
{

constexpr double inch_a_day = inch / day;

units::Measured<units::Length> length(double inches, double doubt)
{
    return {units::of_si<units::Length>(inches * inch), units::of_si<units::Length>(doubt * inch), "made"};
}

BalanceFacts const& facts()
{
    static BalanceFacts const f = balance_facts(data());
    return f;
}

/// A level that falls by a hole so deep, in/day at the first mark, and by 0.25 in/day of evaporation: in steps of a
/// minute, apart from the room's own code.
LevelRecord falling(double leak, double depth, int days, tests::Chance& chance, double evaporation = 0.25)
{
    constexpr double u = 1.0 / 32;
    LevelRecord r;
    double fall = 0;
    for (int minute = 0; minute <= days * 1440; ++minute)
    {
        if (minute % 720 == 0)
        {
            LevelMark m;
            m.at = units::of_si<units::Duration>(minute * 60.0);
            m.fall = length(fall + (minute == 0 ? 0 : u * chance.normal()), u);
            r.marks.push_back(m);
            if (minute > 0)
            {
                LevelStretch s;
                s.pump = units::of_si<units::Fraction>(0);
                r.stretches.push_back(s);
            }
        }
        double const flow = fall < depth ? leak * std::sqrt(1 - fall / depth) : 0;
        fall += (flow + evaporation) / 1440;
    }
    return r;
}

std::vector<Fitting> fittings()
{
    return {{"tile line", length(1, 0.25)},
            {"skimmer throat", length(4, 0.5)},
            {"light", length(18, 0.5)},
            {"return", length(14, 0.5)}};
}

FittingOdds const& likeliest(Settling const& s)
{
    auto const best = std::max_element(s.fittings.begin(), s.fittings.end(),
                                       [](auto const& a, auto const& b) { return a.chance < b.chance; });
    auto const& fitting = *best;
    if (s.elsewhere.chance > fitting.chance)
        return s.elsewhere.chance > s.never.chance ? s.elsewhere : s.never;
    return s.never.chance > fitting.chance ? s.never : fitting;
}

} // namespace

TEST_CASE("settling: a level that stopped at the skimmer throat names it, with the depth in its interval")
{
    tests::Chance chance(21);
    auto const s = level_settling(falling(2.0, 4.1, 8, chance), fittings(), facts());
    CHECK(s.log_stops > 5);
    CHECK(likeliest(s).name == "skimmer throat");
    CHECK(likeliest(s).chance.value() > 0.8);
    CHECK(units::in_si(s.low) / inch < 4.1);
    CHECK(units::in_si(s.high) / inch > 4.1);
    CHECK(units::in_si(s.high - s.low) / inch < 1.5);
    CHECK(std::abs(units::in_si(s.leak) / inch_a_day - 2.0) < 0.6);
    double sum = s.elsewhere.chance.value() + s.never.chance.value();
    for (auto const& f : s.fittings)
        sum += f.chance.value();
    CHECK(std::abs(sum - 1) <= 1e-9);
}

TEST_CASE("settling: a level that falls on evenly rules out what it has passed")
{
    tests::Chance chance(22);
    auto const s = level_settling(falling(2.0, 1e6, 4, chance), fittings(), facts());
    CHECK(s.never.chance > s.fittings[1].chance);
    CHECK(s.fittings[0].chance.value() < 1e-3); // it fell past the tile line without a bend
    CHECK(s.fittings[1].chance.value() < 1e-3); // and past the throat
}

TEST_CASE("settling: a fitting above the water explains no leak")
{
    tests::Chance chance(23);
    auto const record = falling(2.0, 4.1, 8, chance);
    auto const s = level_settling(record, {{"coping joint", length(-2, 0.1)}}, facts());
    CHECK(s.fittings.front().chance.value() < 1e-6);
    CHECK(s.fittings.front().log_likelihood < s.elsewhere.log_likelihood - 10);
}

TEST_CASE("settling: over fifty made-up levels the interval holds the depth, and the fitting is named")
{
    tests::Chance chance(24);
    int held = 0, named = 0;
    constexpr int many = 50;
    for (int i = 0; i < many; ++i)
    {
        double const depth = 4 + 0.5 * chance.normal();
        double const evaporation = 0.25 * (1 + 0.4 * chance.normal());
        auto const s =
            level_settling(falling(chance.uniform(1, 3), std::max(2.5, depth), 7, chance, std::max(0.05, evaporation)),
                           fittings(), facts());
        held +=
            units::in_si(s.low) / inch <= std::max(2.5, depth) && units::in_si(s.high) / inch >= std::max(2.5, depth);
        named += likeliest(s).name == "skimmer throat";
    }
    std::printf("settling: depth held %d of %d, fitting named %d\n", held, many, named);
    CHECK(held >= 0.95 * many - 3.29 * std::sqrt(0.95 * 0.05 * many));
    CHECK(named >= 0.8 * many);
}
