// The level weighed on a visit: marks, bucket, pump on and off, where it stops, what a fill valve says.
#include "assessed.hpp"
#include "catch_compat.hpp"

#include <algorithm>
#include <cmath>

using namespace padwalk;
using tests::assessed;

namespace
{

double probability(assess::Assessment const& a, std::string const& id)
{
    for (auto const& f : a.findings)
        if (f.id == id && f.computed)
            return f.probability;
    return -1;
}

double likely(assess::Assessment const& a, std::string const& id)
{
    for (auto const& cause : a.causes)
        if (cause.id == id)
            return cause.probability;
    return 0;
}

std::string const weather = "air_temperature: 75 degF\nhumidity: 50 %\nwind: 2 mph\n";

assess::Assessment pool(std::string const& fields, std::string const& more = "")
{
    return assessed(weather + "waters:\n  pool: {kind: pool, area: 400 ft2, temperature: 80 degF, " + fields + "}\n" +
                    more);
}

std::string marks(std::vector<std::string> const& drops, std::vector<std::string> const& says = {})
{
    std::string out = "level_history: [";
    for (std::size_t i = 0; i < drops.size(); ++i)
        out += std::string(i > 0 ? ", " : "") + "{at: 2026-06-" + (i < 9 ? "0" : "") + std::to_string(i + 1) +
               " 08:00, drop: " + drops[i] + " in, fill: off" +
               (i < says.size() && !says[i].empty() ? ", " + says[i] : "") + "}";
    return out + "]";
}

double per_day(units::Velocity v)
{
    return units::in_si(v) * 86400 / 0.0254;
}

} // namespace

TEST_CASE("level: what evaporation explains argues against a leak, and how small a leak could hide is said", "[assess]")
{
    auto const a = pool(marks({"0", "0.25", "0.5", "0.7"}));
    REQUIRE(a.levels.size() == 1);
    auto const& level = a.levels[0];
    CHECK(probability(a, "loss_above_evaporation") < 0.5);
    CHECK(probability(a, "level_holds") > 0.5);
    CHECK(per_day(level.balance.leak.low) == 0);
    CHECK(per_day(level.balance.least_shown) > 0.1);
    CHECK(level.balance.foretold.size() == 4);
    CHECK(level.words.find("without a leak") != std::string::npos);
}

TEST_CASE("level: a fall far beyond evaporation is a leak whose interval holds it", "[assess]")
{
    auto const a = pool(marks({"0", "1.25", "2.5", "3.75"}));
    CHECK(probability(a, "loss_above_evaporation") > 0.95);
    auto const& leak = a.levels.at(0).balance.leak;
    double const beyond = 1.25 - per_day(units::of_si<units::Velocity>(
                                     units::in_si(a.levels[0].balance.foretold.back().fall.value) / (3 * 86400)));
    CHECK(per_day(leak.low) < beyond);
    CHECK(per_day(leak.high) > beyond);
    CHECK(per_day(leak.low) > 0.5);
}

TEST_CASE("level: the same fall is a leak beside a bucket that fell little, and none beside one that fell as far",
          "[assess]")
{
    auto const by = [](std::string const& bucket)
    {
        return pool(marks({"0", "0.3", "0.6"}, {"bucket: 0 in", "bucket: " + bucket + " in",
                                                "bucket: " + std::to_string(2 * std::stod(bucket)) + " in"}));
    };
    auto const leaks = by("0.05"), dries = by("0.3");
    CHECK(probability(leaks, "loss_above_evaporation") > 0.6);
    CHECK(probability(dries, "loss_above_evaporation") < 0.3);
    CHECK(units::in_si(dries.levels.at(0).balance.least_shown) <
          units::in_si(pool(marks({"0", "0.3", "0.6"})).levels.at(0).balance.least_shown));
}

TEST_CASE("level: rain, water let out and water let in are counted", "[assess]")
{
    auto const plain = pool(marks({"0", "0.2"}));
    auto const rained = pool(marks({"0", "0.2"}, {"", "rain: 1.5 in ± 0.2 in"}));
    CHECK(probability(rained, "loss_above_evaporation") > probability(plain, "loss_above_evaporation") + 0.3);
    // 400 ft2 and an inch are 249 gal.
    auto const washed = pool(marks({"0", "1.4"}, {"", "backwash: 290 gal ± 20 gal"}));
    CHECK(probability(washed, "loss_above_evaporation") < 0.5);
    auto const filled = pool("level_history: [{at: 2026-06-01 08:00, drop: 0 in}, {at: 2026-06-02 08:00, drop: 0.1 in, "
                             "fill: on, filled: 300 gal ± 20 gal}]");
    CHECK(probability(filled, "loss_above_evaporation") > 0.8);
}

TEST_CASE("level: water that came in unseen is a question, and no proof of a tight shell", "[assess]")
{
    auto const a = pool(marks({"0", "-1.5", "-3"}));
    CHECK(std::any_of(a.questions.begin(), a.questions.end(),
                      [](auto const& q) { return q.why.find("bring water") != std::string::npos; }));
}

TEST_CASE("level: more with the pump on speaks for the pressure side, more with it off for the suction side",
          "[assess]")
{
    auto const on =
        pool(marks({"0", "0.3", "1.9", "2.2", "3.8"}, {"", "pump: off", "pump: on", "pump: off", "pump: on"}));
    CHECK(probability(on, "water_loss_more_on") > 0.9);
    CHECK(probability(on, "water_loss_more_off") < 0.1);
    auto const off =
        pool(marks({"0", "1.6", "1.9", "3.5", "3.8"}, {"", "pump: off", "pump: on", "pump: off", "pump: on"}));
    CHECK(probability(off, "water_loss_more_off") > 0.9);
    CHECK(likely(off, "water_leak_suction_pipe") > likely(on, "water_leak_suction_pipe"));
}

TEST_CASE("level: where it stops falling it points to the fitting there", "[assess]")
{
    std::string const fittings =
        ", fittings: [{kind: skimmer, depth: 1 in}, {kind: light, depth: 3 in}, {kind: return, "
        "depth: 9 in}]";
    auto const a = pool(marks({"0", "1.4", "2.4", "3", "3.25", "3.5", "3.75"}) + fittings);
    REQUIRE(a.levels.at(0).settling);
    auto const& f = a.levels[0].settling->fittings;
    CHECK(f[1].chance.value() > f[0].chance.value());
    CHECK(f[1].chance.value() > f[2].chance.value());
    CHECK(probability(a, "water_level_stops_light") > 0.5);
    CHECK(probability(a, "water_level_stops_skimmer") < 0.5);
    auto const without = pool(marks({"0", "1.4", "2.4", "3", "3.25", "3.5", "3.75"}));
    CHECK(likely(a, "water_leak_light_niche") > likely(without, "water_leak_light_niche"));
}

TEST_CASE("level: a fill valve that does not run while the level holds argues against a leak [common practice, no "
          "source]",
          "[assess]")
{
    std::string const valve = "fill_valves:\n  valve: {fills: pool, watched: {elapsed: 72 h, delivered: ";
    auto const dead = pool("notes: none", valve + "0 gal ± 1 gal, level_fell: 0.5 in}}\n");
    REQUIRE(probability(dead, "level_holds") >= 0);
    CHECK(probability(dead, "level_holds") > 0.5);
    // The same level held by a valve that runs all day hides one: 2200 gal over 400 ft2 are nearly 9 in.
    auto const runs = pool("notes: none", valve + "2200 gal ± 100 gal, level_fell: 0.5 in}}\n");
    CHECK(probability(runs, "loss_above_evaporation") > 0.95);
}

TEST_CASE("level: water that the marks were weighed with does not count again by the valve", "[assess]")
{
    auto const a = pool(marks({"0", "0.25", "0.5"}),
                        "fill_valves:\n  valve: {fills: pool, watched: {elapsed: 48 h, delivered: 900 gal, level_fell: "
                        "0.5 in}}\n");
    CHECK(probability(a, "loss_above_evaporation") < 0.5);
    CHECK(std::any_of(a.not_tested.begin(), a.not_tested.end(),
                      [](auto const& n) { return n.because.find("again") != std::string::npos; }));
}
