// Where a water stands, as its pictures are given it.
#include "assessed.hpp"
#include "catch_compat.hpp"

#include "padwalk/assess/water_sheet.hpp"
#include "padwalk/chemistry/sanitizer.hpp"

using namespace padwalk;
using Catch::Matchers::WithinRel;
using tests::engine;

namespace
{

assess::WaterReport sheet(std::string const& yaml)
{
    return assess::assess_water(visit::read_visit(yaml, engine().instruments()), engine());
}

std::string pool(std::string const& test, std::string const& water = {})
{
    return "waters:\n  pool:\n    kind: pool\n    volume: 16000 gal\n    area: 450 ft2\n    temperature: 84 degF\n" +
           water + "    tests:\n      - {" + test + "}\n";
}

std::optional<assess::ChlorineStanding> chlorine(std::string const& test, std::string const& water = {})
{
    return sheet(pool(test, water)).waters.at(0).chlorine;
}

constexpr double ppm = 1e-3;
std::string const rest = "kit: photometer, ph: 7.5, alkalinity: 95 ppm, calcium: 300 ppm, salt: 700 ppm, ";

} // namespace

TEST_CASE("all along a line of equal work the chlorine does what the bare chlorine does", "[assess][water]")
{
    auto const c = chlorine(rest + "free_chlorine: 3 ppm, cyanurate: 60 ppm").value();
    REQUIRE(c.equal_work.size() == 3);
    chemistry::ChlorineReadings at;
    at.ph = units::Ph::from_value(7.5);
    at.temperature = units::Temperature::from_value((84 + 459.67) / 1.8);
    at.salt = units::of_si<units::AsSodiumChloride>(700 * ppm);
    for (auto const& work : c.equal_work)
    {
        CHECK(work.line.front().cyanurate.value() == 0);
        CHECK_THAT(units::in_si(work.line.front().free_chlorine), WithinRel(units::in_si(work.bare), 1e-3));
        CHECK(units::in_si(work.line.back().cyanurate) >= 100 * ppm);
        for (std::size_t i = 1; i < work.line.size(); ++i)
            for (double const part : {0.3, 0.6, 1.0}) // between the points too: it is drawn straight
            {
                auto const &a = work.line[i - 1], &b = work.line[i];
                at.cyanurate = a.cyanurate + part * (b.cyanurate - a.cyanurate);
                at.free_chlorine = a.free_chlorine + part * (b.free_chlorine - a.free_chlorine);
                CHECK_THAT(units::in_si(chemistry::equivalent_chlorine(engine().equilibria(), at)),
                           WithinRel(units::in_si(work.bare), 0.01));
            }
    }
}

TEST_CASE("the limits of bathing follow cyanurate as those of the findings do", "[assess][water]")
{
    auto least = [](std::string const& test, std::string const& water = {})
    { return units::in_si(*chlorine(rest + "free_chlorine: 3 ppm" + test, water)->least) / ppm; };
    CHECK_THAT(least(", cyanurate: 60 ppm"), WithinRel(2.0, 1e-9));
    CHECK_THAT(least(", cyanurate: 0 ppm"), WithinRel(1.0, 1e-9));
    CHECK_THAT(least(""), WithinRel(2.0, 1e-9)); // not tested: the stricter
    auto const spa = chlorine(rest + "free_chlorine: 3 ppm", "    limits: new_york\n").value();
    CHECK(spa.least_of.find("New York") != std::string::npos);
    CHECK_FALSE(chlorine(rest + "free_chlorine: 3 ppm")->most_cyanurate);
    CHECK(chlorine(rest + "free_chlorine: 3 ppm, cyanurate: 60 ppm")->most_cyanurate->value() == 45);
}

TEST_CASE("a reading that was not to be trusted, or not taken, has no standing", "[assess][water]")
{
    CHECK_FALSE(chlorine(rest + "cyanurate: 60 ppm"));
    CHECK_FALSE(chlorine(rest + "free_chlorine: 5 ppm, total_chlorine: 1 ppm, cyanurate: 60 ppm"));
    // a colour that may be bleached
    CHECK_FALSE(chlorine(rest + "free_chlorine: 0 ppm, total_chlorine: 15 ppm, cyanurate: 60 ppm"));
    auto const none = chlorine(rest + "free_chlorine: 0 ppm, cyanurate: 60 ppm");
    REQUIRE(none);
    CHECK(units::in_si(none->free_chlorine.value) == 0);
    CHECK(chlorine("kit: photometer, free_chlorine: 3 ppm, cyanurate: 60 ppm")->equal_work.empty()); // no pH
    CHECK_FALSE(sheet(pool(rest)).waters.at(0).chlorine);
    CHECK_FALSE(sheet(pool("kit: photometer, ph: 7.5, free_chlorine: 3 ppm")).waters.at(0).saturation);
}

TEST_CASE("a cyanurate beyond its tube's scale is told as an end, a diluted one as it is", "[assess][water]")
{
    auto is = [](std::string const& test)
    {
        return chlorine("kit: drops, ph: 7.5, alkalinity: 95 ppm, calcium: 300 ppm, free_chlorine: 3 ppm, " + test)
            ->cyanurate_is;
    };
    CHECK(is("cyanurate: 150 ppm") == assess::ScaleEnd::at_least);
    CHECK(is("cyanurate: 10 ppm") == assess::ScaleEnd::at_most);
    CHECK(is("cyanurate: 60 ppm") == assess::ScaleEnd::within);
    CHECK(is("cyanurate: 150 ppm, notes: diluted") == assess::ScaleEnd::within);
}

TEST_CASE("the way of a water is that of its own loop, in the order of the flow", "[assess][water]")
{
    std::string const two = "waters:\n  pool: {kind: pool, volume: 16000 gal, temperature: 80 degF, tests: [{" + rest +
                            "free_chlorine: 3 ppm, cyanurate: 40 ppm}]}\n"
                            "  spa: {kind: spa, volume: 400 gal, temperature: 102 degF}\n"
                            "loops:\n  one: {serves: [pool, spa]}\n  two: {serves: [spa]}\n"
                            "heaters:\n  mine: {loop: one, inlet_temperature: 80 degF, outlet_temperature: 90 degF}\n"
                            "  other: {loop: two, inlet_temperature: 99 degF, outlet_temperature: 104 degF}\n";
    auto const way = sheet(two).waters.at(0).saturation.value();
    std::vector<std::string> names;
    for (auto const& p : way.places)
    {
        names.push_back(p.name);
        CHECK(p.low <= p.index);
        CHECK(p.index <= p.high);
    }
    CHECK(names == std::vector<std::string>{"pool, as tested", "mine, outlet", "mine, at its hot wall",
                                            "spa, if the same water"});
    for (std::size_t i = 1; i < 3; ++i) // lime dissolves less in hotter water, so the index rises with the temperature
    {
        CHECK(way.places[i].temperature > way.places[i - 1].temperature);
        CHECK(way.places[i].index > way.places[i - 1].index);
    }
}
