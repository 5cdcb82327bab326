// Flow limits, short runs, and dew against a leak, on a visit.
#include "assessed.hpp"
#include "catch_compat.hpp"

#include <algorithm>

using namespace padwalk;
using tests::assessed;

namespace
{

std::optional<double> computed(assess::Assessment const& a, std::string const& id)
{
    for (auto const& finding : a.findings)
        if (finding.id == id && finding.computed)
            return finding.probability;
    return std::nullopt;
}

double likely(assess::Assessment const& a, std::string const& id)
{
    for (auto const& cause : a.causes)
        if (cause.id == id)
            return cause.probability;
    return 0;
}

bool not_tested(assess::Assessment const& a, std::string const& what)
{
    return std::any_of(a.not_tested.begin(), a.not_tested.end(),
                       [&](auto const& n) { return n.what.find(what) != std::string::npos; });
}

assess::Assessment of(std::string const& heater, std::string const& loop = "flow: 40 gpm ± 4 gpm",
                      std::string const& water = "volume: 900 gal, temperature: 92 degF")
{
    return assessed("air_temperature: 70 degF\nhumidity: 50 %\nwaters:\n  spa: {kind: spa, " + water +
                    "}\nloops:\n  main: {serves: [spa], " + loop + "}\nheaters:\n  h: {loop: main, " + heater + "}\n");
}

std::string const gas = "energy: natural_gas, input: 400 kBtu/h, efficiency: 82 %";

} // namespace

TEST_CASE("heater limits: flow is held against what the maker allows, both ways", "[assess]")
{
    auto const low = of(gas + ", least_flow: 60 gpm, most_flow: 125 gpm");
    CHECK(computed(low, "heater_flow_below_least").value() > 0.9);
    CHECK(computed(low, "heater_flow_above_most").value() < 0.1);
    CHECK(likely(low, "heater_flow_low") > 0.3);
    auto const high = of(gas + ", least_flow: 10 gpm, most_flow: 25 gpm");
    CHECK(computed(high, "heater_flow_below_least").value() < 0.1);
    CHECK(computed(high, "heater_flow_above_most").value() > 0.9);
    CHECK(likely(high, "heater_flow_too_great") > 0.3);
    auto const just = of(gas + ", least_flow: 40 gpm");
    CHECK(computed(just, "heater_flow_below_least").value() == Approx(0.5).margin(0.05));
}

TEST_CASE("heater limits: a flow of which a part passes beside the heater is held against nothing", "[assess]")
{
    auto const a = of(gas + ", least_flow: 60 gpm, bypass: part_open");
    CHECK_FALSE(computed(a, "heater_flow_below_least"));
    CHECK(not_tested(a, "maker allows"));
    CHECK_FALSE(computed(of(gas + ", least_flow: 60 gpm, bypass: shut"), "heater_flow_below_least") == std::nullopt);
    CHECK(not_tested(of(gas + ", least_flow: 60 gpm", "suction_gauge: -5 inHg"), "maker allows"));
}

TEST_CASE("heater limits: the same short run is a thermostat's in a warm spa and a fault in a cold pool", "[assess]")
{
    // 900 gal by 1 degF at 328 kBtu/h takes 82 s.
    auto const spa = of(gas + ", runs_for: 4 min");
    REQUIRE(computed(spa, "heater_cuts_out"));
    CHECK(*computed(spa, "heater_cuts_out") < 0.1);
    auto const pool = of(gas + ", runs_for: 4 min", "flow: 40 gpm ± 4 gpm", "volume: 20000 gal, temperature: 72 degF");
    CHECK(*computed(pool, "heater_cuts_out") > 0.8);
    CHECK(likely(pool, "heater_flow_low") > likely(spa, "heater_flow_low"));
}

TEST_CASE("heater limits: a stop far below the set temperature is no thermostat's", "[assess]")
{
    auto const cold = of(gas + ", runs_for: 4 min, set_temperature: 102 degF");
    CHECK(*computed(cold, "heater_cuts_out") > 0.9);
    auto const warm = of(gas + ", runs_for: 4 min, set_temperature: 92 degF");
    CHECK(*computed(warm, "heater_cuts_out") < 0.2);
    CHECK(not_tested(assessed("heaters:\n  h: {" + gas + ", runs_for: 2 min}\n"), "stopped too soon"));
}

TEST_CASE("heater limits: cold water makes dew, warm water does not, and a stream is neither", "[assess]")
{
    std::string const drips = ", noticed: [drips only when firing]";
    auto const cold = of(gas + ", inlet_temperature: 62 degF, outlet_temperature: 78 degF" + drips);
    auto const warm = of(gas + ", inlet_temperature: 122 degF, outlet_temperature: 138 degF" + drips);
    CHECK(*computed(cold, "heater_tubes_sweat") > 0.9);
    CHECK(*computed(warm, "heater_tubes_sweat") < 0.25);
    CHECK(likely(cold, "heater_condensing") > likely(warm, "heater_condensing") + 0.1);
    auto const little = of(gas + ", inlet_temperature: 62 degF, drip: 8 gal/day ± 2 gal/day");
    auto const stream = of(gas + ", inlet_temperature: 62 degF, drip: 600 gal/day ± 60 gal/day");
    CHECK(*computed(little, "heater_drips_beyond_dew") < 0.1);
    CHECK(*computed(stream, "heater_drips_beyond_dew") > 0.9);
    CHECK(likely(stream, "heater_header_leak") > 0.3);
    CHECK(likely(little, "heater_header_leak") < 0.1);
}
