// Whether a level that was watched still falls.
#include "assessed.hpp"
#include "catch_compat.hpp"

#include <cmath>

using namespace padwalk;
using assess::LevelTrend;

namespace
{

/// A mark each day; `says` stands in each.
std::string marks(std::vector<double> const& drops, std::vector<std::string> const& says = {})
{
    std::string out = "level_history: [";
    for (std::size_t i = 0; i < drops.size(); ++i)
        out += std::string(i > 0 ? ", " : "") + "{at: 2026-06-" + std::to_string(i + 10) +
               " 08:00, drop: " + std::to_string(drops[i]) + " in, " +
               (i < says.size() ? says[i] : std::string("pump: off, fill: off")) + "}";
    return out + "]";
}

std::optional<assess::LevelCourse> course(std::string const& fields)
{
    auto const a =
        tests::assessed("air_temperature: 75 degF\nhumidity: 50 %\nwind: 2 mph\nwaters:\n  pool: {kind: pool, area: "
                        "400 ft2, temperature: 80 degF, " +
                        fields + "}\n");
    REQUIRE(a.levels.size() == 1);
    return a.levels[0].course;
}

/// Marks of a hole at `depth` that loses `rate` a day at first, by the orifice law, and a quarter inch of evaporation.
std::vector<double> falls(double rate, double depth, int days)
{
    constexpr int steps = 1000;
    std::vector<double> out{0};
    for (double fall = 0; days > 0; --days)
    {
        for (int i = 0; i < steps; ++i)
            fall += (rate * std::sqrt(std::max(0.0, 1 - fall / depth)) + 0.25) / steps;
        out.push_back(fall);
    }
    return out;
}

} // namespace

TEST_CASE("level: it falls while the hole is under water, and has stopped once it is not [orifice law]", "[assess]")
{
    std::string const light = ", fittings: [{kind: light, depth: 30 in}]"; // with one the settling is weighed
    CHECK(course(marks(falls(2, 4, 2)) + light)->trend == LevelTrend::falling);
    CHECK(course(marks(falls(2, 40, 6)) + light)->trend == LevelTrend::falling);
    auto const c = *course(marks(falls(2, 4, 6)) + light);
    CHECK(c.trend == LevelTrend::stopped);
    CHECK(std::abs(units::in_si(c.time) - 86400) < 1);
    CHECK(std::abs(units::in_si(c.fall.value) - 0.25 * 0.0254) < 1e-4);
    CHECK(std::abs(units::in_si(c.without_leak.value) - 0.25 * 0.0254) < 0.1 * 0.0254);
}

TEST_CASE("level: the last day alone says of a stop no more than it could have shown", "[assess]")
{
    // Without a fitting no settling is weighed, and a last day between the two leaves it open.
    CHECK(course(marks({0, 0.6, 1.2, 1.55}))->trend == LevelTrend::unclear);
    CHECK(course(marks({0, 2, 4, 4.25}))->trend == LevelTrend::stopped);
}

TEST_CASE("level: what evaporation explains has nothing that could stop", "[assess]")
{
    CHECK(course(marks({0, 0.25, 0.5, 0.75}))->trend == LevelTrend::no_loss);
    CHECK(course(marks({0, 0.25}))->trend == LevelTrend::no_loss);
}

TEST_CASE("level: a fall that ends as the pump stops is not taken for one that ends at a depth", "[assess]")
{
    std::string const on = "pump: on, fill: off", off = "pump: off, fill: off";
    CHECK(course(marks({0, 2, 4, 4.25}, {off, on, on, off}))->trend == LevelTrend::unclear);
    CHECK(course(marks({0, 2, 4, 4.25}, {on, on, on, on}))->trend == LevelTrend::stopped);
}

TEST_CASE("level: a last stretch too short to show what was lost before says nothing of a stop", "[assess]")
{
    auto const c = course("level_history: [{at: 2026-06-10 08:00, drop: 0 in, fill: off}, {at: 2026-06-12 08:00, drop: "
                          "2 in, fill: off}, {at: 2026-06-12 10:00, drop: 2 in, fill: off}]");
    CHECK(c->trend == LevelTrend::unclear);
}

TEST_CASE("level: unmeasured water in the last stretch leaves its course unknown", "[assess]")
{
    std::string const shut = "fill: off";
    CHECK_FALSE(course(marks({0, 1.5, 3, 3}, {shut, shut, shut, "fill: on"})));
    CHECK(course(marks({0, 1.5, 1.5, 3}, {shut, shut, "fill: on", shut}))->trend == LevelTrend::falling);
}

TEST_CASE("level: a level that rises by itself has no course that could be told", "[assess]")
{
    CHECK(course(marks({0, -1.5, -3}))->trend == LevelTrend::unclear);
}

TEST_CASE("level: a bucket test beside the marks is no part of their course", "[assess]")
{
    std::string const test = ", bucket_test: {pool_drop: 0.2 in, bucket_drop: 0.2 in, elapsed: 24 h, fill: off}";
    auto const c = course(marks({0, 1.5, 3}) + test);
    CHECK(c->trend == LevelTrend::falling);
    CHECK(std::abs(units::in_si(c->fall.value) - 1.5 * 0.0254) < 1e-6);
}

TEST_CASE("level: a bucket that was there from the first mark on counts in the last stretch", "[assess]")
{
    // Half an inch a day is a leak beside a dry bucket and none beside one that falls as far.
    auto const by = [&](double bucket)
    {
        std::vector<std::string> says;
        for (int i = 0; i < 4; ++i)
            says.push_back("fill: off, bucket: " + std::to_string(bucket * i) + " in");
        return course(marks({0, 0.5, 1, 1.5}, says))->trend;
    };
    CHECK(by(0.05) == LevelTrend::falling);
    CHECK(by(0.5) == LevelTrend::no_loss);
}
