// A fill valve's readings on a visit: against a sound valve and every fault of one, and how it is reached.
#include "assessed.hpp"
#include "catch_compat.hpp"

#include <algorithm>
#include <cmath>

using namespace padwalk;
using tests::assessed;

namespace
{

assess::Assessment valve(std::string const& fields, std::string const& of_pool = "area: 400 ft2, ")
{
    return assessed("by: technician\nair_temperature: 86 degF\nhumidity: 35 %\nwind: 4 mph\nwaters:\n  pool: {kind: "
                    "pool, " +
                    of_pool +
                    "temperature: 84 degF}\nfill_valves:\n  float: {fills: pool, kind: float_valve, supply_pressure: "
                    "55 psi, seat: 0.2 in, " +
                    fields + "}\n");
}

double likely(assess::Assessment const& a, std::string const& id)
{
    for (auto const& cause : a.causes)
        if (cause.id == id)
            return cause.probability;
    return 0;
}

/// Chance that at least one of the pool's leaks is there.
double leak(assess::Assessment const& a)
{
    double none = 1;
    for (auto const& cause : a.causes)
        if (cause.id.starts_with("water_leak"))
            none *= 1 - cause.probability;
    return 1 - none;
}

assess::FindingEntryOf const* departs(assess::Assessment const& a)
{
    for (auto const& f : a.findings)
        if (f.id == "fill_readings_depart")
            return &f;
    return nullptr;
}

} // namespace

TEST_CASE("fill readings: a day's volume that evaporation explains speaks for a sound valve and a tight pool",
          "[assess]")
{
    // 400 ft2 losing a third of an inch a day is some 83 gal.
    auto const a = valve("day_volume: 85 gal, below_wanted: 0.25 in, flow_when_shut: 0 gpm");
    REQUIRE(departs(a));
    CHECK(departs(a)->state != assess::FindingState::seen);
    CHECK(leak(a) < 0.05);
    REQUIRE(a.fills.size() == 1);
    CHECK(a.fills[0].readings.size() == 3);
    for (auto const& r : a.fills[0].readings)
        CHECK(std::abs(r.off) < 2);
    CHECK(a.fills[0].words.find("A sound valve would run") == 0);
}

TEST_CASE("fill readings: a valve that delivers several times what evaporates, level kept, hides a leak", "[assess]")
{
    auto const a = valve("day_volume: 620 gal, below_wanted: 0.5 in, flow_when_shut: 0 gpm");
    REQUIRE(departs(a));
    CHECK(departs(a)->state == assess::FindingState::seen);
    CHECK(leak(a) > 0.3);
    CHECK(leak(a) > 5 * leak(valve("day_volume: 85 gal, below_wanted: 0.5 in, flow_when_shut: 0 gpm")));
}

TEST_CASE("fill readings: the same volume over the brim is a valve that does not shut", "[assess]")
{
    auto const a = valve("day_volume: 2500 gal, below_wanted: -2 in, flow_when_shut: 1.8 gpm");
    double const stuck = std::max(likely(a, "fill_valve_float_waterlogged"), likely(a, "fill_valve_float_stuck"));
    CHECK(stuck > 0.3);
    CHECK(stuck > leak(a));
    auto const drip = valve("below_wanted: -0.5 in, flow_when_shut: 0.15 gpm");
    CHECK(likely(drip, "fill_valve_seat_worn") > likely(drip, "fill_valve_float_waterlogged"));
}

TEST_CASE("fill readings: low level with good flow is a float set low, without flow a dead valve", "[assess]")
{
    auto const low = valve("below_wanted: 4 in, flow: 5 gpm, flow_when_shut: 0 gpm");
    auto const dead = valve("below_wanted: 4 in, flow: 0 gpm");
    CHECK(likely(low, "fill_valve_float_set_low") > 0.3);
    CHECK(likely(low, "fill_valve_float_set_low") > likely(low, "fill_valve_supply_off"));
    CHECK(likely(dead, "fill_valve_supply_off") > likely(dead, "fill_valve_float_set_low"));
}

TEST_CASE("fill readings: volume that was weighed with the level does not count again, without a surface it is said",
          "[assess]")
{
    auto const counted =
        valve("day_volume: 620 gal, below_wanted: 0.5 in, watched: {elapsed: 24 h, delivered: 620 gal, "
              "level_fell: 0 in}");
    REQUIRE(counted.fills.size() == 1);
    CHECK(counted.fills[0].readings.size() == 1);
    auto const no_area = valve("day_volume: 620 gal", "");
    CHECK(no_area.fills.empty());
    CHECK(std::any_of(no_area.not_tested.begin(), no_area.not_tested.end(),
                      [](auto const& n) { return n.because.find("surface") != std::string::npos; }));
    auto const without_doubt = valve("flow_when_shut: 0 gpm ± 0 gpm, below_wanted: 0 in ± 0 in");
    CHECK(!without_doubt.verdicts.empty()); // no reading ends the program
}

TEST_CASE("fill readings: how it is reached goes to the trade [common practice, no source]", "[assess]")
{
    auto const reach = [](std::string const& access)
    {
        auto const a = valve("flow: 0 gpm, " + access);
        return a.fills.size() == 1 ? a.fills[0].reach : std::string();
    };
    CHECK(reach("access: cast_in, deck: apart").find("without touching the shell") != std::string::npos);
    CHECK(reach("access: cast_in, deck: one_piece").find("structural engineer") != std::string::npos);
    CHECK(reach("access: cast_in").find("joint along the coping") != std::string::npos);
    CHECK(reach("access: open_box").find("nothing need be cut") != std::string::npos);
    CHECK(reach("access: buried").find("locates gas, power and water lines") != std::string::npos);
    CHECK(reach("access: hidden").find("nothing is cut to look for it") != std::string::npos);
    CHECK(reach("deck: apart").empty());
}

TEST_CASE(
    "fill readings: what it should give is worked out of seat and pressure, or bounded by the outlet [orifice law]",
    "[assess]")
{
    auto const given = [](std::string const& fields) -> std::optional<double>
    {
        auto const a =
            assessed("waters:\n  pool: {kind: pool}\nfill_valves:\n  float: {fills: pool, " + fields + "}\n");
        for (auto const& entry : a.figures)
            if (entry.figure.model->name == "fill_valve_flow")
                if (auto const flow = entry.figure.get<units::VolumeFlow>("flow"))
                    return units::in_si(flow->value);
        return std::nullopt;
    };
    // Q = C A sqrt(2 p/density): 0.62, 0.2 in, 55 psi give 3.4e-4 m3/s
    double const metres = 0.2 * 0.0254, pascal = 55 * 6894.757;
    double const by_hand = 0.62 * 3.14159265 / 4 * metres * metres * std::sqrt(2 * pascal / 999.1);
    auto const seat = given("supply_pressure: 55 psi, seat: 0.2 in, flow: 3 gpm");
    REQUIRE(seat);
    CHECK(std::abs(*seat / by_hand - 1) < 2e-3); // density of the supply
    auto const outlet = given("supply_pressure: 55 psi, bore: 0.4 in, flow: 3 gpm");
    REQUIRE(outlet);
    CHECK(std::abs(*outlet / by_hand - 4) < 8e-3);
    // A supply that is shut gives no number to divide by.
    CHECK_FALSE(assessed("waters:\n  pool: {kind: pool, area: 400 ft2}\nfill_valves:\n  float: {fills: pool, "
                         "supply_pressure: 0 psi, seat: 0.2 in, below_wanted: 1 in}\n")
                    .fills.empty());
}
