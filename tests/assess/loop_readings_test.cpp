#include "assessed.hpp"
#include "catch_compat.hpp"

#include <algorithm>

using namespace padwalk;
using tests::assessed;

namespace
{

// A pool's loop of which most is known; the readings are added.
std::string loop(std::string const& readings, std::string const& more = {})
{
    return "waters: {pool: {kind: pool, temperature: 80 degF}}\n"
           "loops:\n"
           "  pool loop:\n"
           "    pump_height: 1 ft\n"
           "    skimmers: 1\n"
           "    suction: {bore: 2.058 in, length: 40 ft, fittings: {elbow_90: 5}}\n"
           "    return: {bore: 2.058 in, length: 60 ft, fittings: {elbow_90: 8}}\n"
           "    return_inlets: {count: 3, opening: 0.75 in}\n" +
           readings + more;
}

// Readings near those of the sound loop.
std::string const sound = "    suction_gauge: -9 inHg\n"
                          "    flow: 78 gpm\n"
                          "    pump: {curve: [0 gpm at 65 ft, 72 gpm at 51 ft, 131 gpm at 12 ft]}\n"
                          "    filter: {media: sand, area: 4.9 ft2, clean_gauge: 15 psi, gauge: 16 psi}\n";

assess::FindingEntryOf const* finding(assess::Assessment const& a, std::string const& id)
{
    for (auto const& f : a.findings)
        if (f.id == id)
            return &f;
    return nullptr;
}

double probability(assess::Assessment const& a, std::string const& cause)
{
    double most = 0;
    for (auto const& c : a.causes)
        most = c.id == cause ? std::max(most, c.probability) : most;
    return most;
}

assess::ReadingAgainstSound const& reading(assess::Assessment const& a, std::string const& label)
{
    REQUIRE(a.loops.size() == 1);
    for (auto const& r : a.loops[0].readings)
        if (r.label == label)
            return r;
    FAIL("no reading " << label);
    throw std::logic_error("unreachable");
}

std::string with(std::string text, std::string const& from, std::string const& to)
{
    auto const at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

} // namespace

TEST_CASE("loop readings: each is set beside what the sound loop shows, in units of doubt", "[assess]")
{
    auto const a = assessed(loop(sound));
    for (auto const* label : {"suction gauge", "filter gauge", "filter gauge when clean", "flow meter"})
    {
        auto const& r = reading(a, label);
        INFO(label << " " << r.reading.value << " expected " << r.expected.value << " off " << r.off);
        CHECK(std::abs(r.off) < 1.5);
        CHECK(r.expected.doubt > 0);
        CHECK_FALSE(r.odd);
    }
    auto const* depart = finding(a, "loop_readings_depart");
    REQUIRE(depart);
    CHECK(depart->state != assess::FindingState::seen);
    auto const& entry = a.loops[0];
    REQUIRE(entry.sound);
    CHECK(entry.pump_curve.size() > 10);
    CHECK(entry.sound_system.size() > 10);
    CHECK(entry.parts.front().place == assess::LoopPlace::suction);
    CHECK(entry.parts.back().place == assess::LoopPlace::returns);
    CHECK_FALSE(entry.pump_is_usual);
}

TEST_CASE("loop readings: both gauges together tell where the fault sits", "[assess]")
{
    struct Case
    {
        char const *suction, *filter, *flow;
        std::vector<std::string> likely, not_likely;
    };
    for (auto const& c : {
             Case{"-17 inHg",
                  "10 psi",
                  "62 gpm",
                  {"loop_strainer_clogged", "loop_skimmer_basket_clogged", "loop_suction_valve_part_shut"},
                  {"filter_dirty", "pump_impeller_clogged", "loop_return_valve_part_shut"}},
             Case{"-6 inHg",
                  "24 psi",
                  "60 gpm",
                  {"filter_dirty", "loop_return_valve_part_shut"},
                  {"loop_strainer_clogged", "pump_impeller_clogged", "loop_suction_air_leak"}},
             Case{"-5.5 inHg",
                  "8 psi",
                  "58 gpm",
                  {"pump_impeller_clogged", "loop_suction_air_leak", "pump_speed_too_low"},
                  {"loop_strainer_clogged", "filter_dirty", "loop_return_valve_part_shut"}},
         })
    {
        auto readings =
            with(with(with(sound, "-9 inHg", c.suction), ", gauge: 16 psi", std::string(", gauge: ") + c.filter),
                 "78 gpm", c.flow);
        auto const a = assessed(loop(readings));
        INFO(c.suction << " " << c.filter << " " << c.flow);
        REQUIRE(finding(a, "loop_readings_depart"));
        CHECK(finding(a, "loop_readings_depart")->state == assess::FindingState::seen);
        double likely = 0, unlikely = 0;
        for (auto const& id : c.likely)
            likely = std::max(likely, probability(a, id));
        for (auto const& id : c.not_likely)
            unlikely = std::max(unlikely, probability(a, id));
        INFO("likely " << likely << " others " << unlikely);
        CHECK(likely > 0.2);
        CHECK(unlikely < 0.1);
        REQUIRE_FALSE(a.loops[0].faults.empty());
    }
}

TEST_CASE("loop readings: findings of the same readings don't count again", "[assess]")
{
    auto const a = assessed(loop(with(sound, ", gauge: 16 psi", ", gauge: 28 psi")));
    auto const* high = finding(a, "filter_pressure_high");
    REQUIRE(high);
    CHECK(high->state == assess::FindingState::seen);
    for (auto const& cause : a.causes)
        for (auto const& weight : cause.speaks_for)
            CHECK(a.findings[weight.finding].id != "filter_pressure_high");
}

TEST_CASE("loop readings: a gauge that alone does not fit is the odd one out and its own gauge is doubted", "[assess]")
{
    auto const a = assessed(loop(with(sound, ", gauge: 16 psi", ", gauge: 3 psi")));
    CHECK(reading(a, "filter gauge").odd);
    CHECK_FALSE(reading(a, "suction gauge").odd);
    CHECK(probability(a, "filter_gauge_faulty") > 0.3);
    CHECK(probability(a, "pump_impeller_clogged") < 0.1);
}

TEST_CASE("loop readings: noises and gauges combine", "[assess]")
{
    auto const starved = with(with(sound, "-9 inHg", "-17 inHg"), ", gauge: 16 psi", ", gauge: 9 psi");
    std::string const pump = "pump: {", gravel = "pump: {noticed: [rattles like gravel], ";
    auto const quiet = assessed(loop(starved)), noisy = assessed(loop(with(starved, pump, gravel)));
    // A starved pump sounds like gravel; a skimmer basket, with the drains still open, seldom starves it so.
    double const before = probability(quiet, "loop_strainer_clogged");
    CHECK(probability(noisy, "loop_strainer_clogged") > before);
    CHECK(probability(noisy, "loop_skimmer_basket_clogged") < probability(quiet, "loop_skimmer_basket_clogged"));
    // A grinding motor explains no gauge, and is named beside what they say.
    auto const grinds = assessed(loop(with(starved, pump, "pump: {noticed: [grinding noise from the motor], ")));
    CHECK(probability(grinds, "pump_bearings_worn") > 0.5);
    CHECK(probability(grinds, "loop_strainer_clogged") > 0.5 * before);
}

TEST_CASE("loop readings: without the speed of a pump that has several nothing is held against the loop", "[assess]")
{
    auto const a = assessed(loop(with(sound, "pump: {", "pump: {variable_speed: yes, ")));
    for (auto const& entry : a.loops)
        CHECK(entry.readings.empty());
    CHECK(std::any_of(a.not_tested.begin(), a.not_tested.end(),
                      [](auto const& n) { return n.what == "readings against a sound loop"; }));
}

TEST_CASE("loop readings: a pump that is off shows nothing of its loop", "[assess]")
{
    auto const a = assessed(loop(with(sound, "pump: {", "pump: {runs: no, ")));
    CHECK(a.loops.empty());
}

TEST_CASE("loop readings: a rise against clocked input measures the flow", "[assess]")
{
    std::string const heater =
        "heaters: {heater: {loop: pool loop, energy: natural_gas, input: 250 kBtu/h, efficiency: 82 %, "
        "inlet_temperature: 80 degF, outlet_temperature: 85.3 degF, "
        "meter: {dial: 2 ft3, elapsed: 29.7 s, heating_value: 1030 Btu/ft3}}}\n";
    auto const a = assessed(loop(sound, heater));
    auto const& rise = reading(a, "rise in the heater");
    CHECK(std::abs(rise.off) < 1.5);
    // Without a clock the plate's input may not be what burns: the rise then measures the heater, not the flow.
    auto const plate =
        assessed(loop(sound, with(heater, ", meter: {dial: 2 ft3, elapsed: 29.7 s, heating_value: 1030 Btu/ft3}", "")));
    for (auto const& r : plate.loops.at(0).readings)
        CHECK(r.label != "rise in the heater");
}

TEST_CASE("loop readings: a loop of which nothing is known still says what is usual, and how little that is",
          "[assess]")
{
    auto const a = assessed("loops: {l: {filter: {gauge: 22 psi}}}\n");
    REQUIRE(a.loops.size() == 1);
    auto const& r = reading(a, "filter gauge");
    CHECK(std::abs(r.off) < 2);
    CHECK(r.expected.doubt > 0.25 * r.expected.value);
    CHECK(a.loops[0].pump_is_usual);
    CHECK(a.loops[0].basis.size() >= 4);
    // One gauge of an unknown loop proves little.
    for (auto const& cause : a.causes)
        CHECK(cause.probability < 0.6);
}

TEST_CASE("loop readings: a heater and a roof stand in the loop, a bypass that was noted beside it", "[assess]")
{
    auto const a =
        assessed(loop("    roof_height: 14 ft\n" + sound,
                      "heaters: {heater: {loop: pool loop, energy: electric_element, bypass: part_open}}\n"));
    REQUIRE(a.loops.size() == 1);
    std::vector<assess::LoopPlace> places;
    for (auto const& part : a.loops[0].parts)
        places.push_back(part.place);
    using P = assess::LoopPlace;
    CHECK(places ==
          std::vector<P>{P::suction, P::strainer, P::pump, P::filter, P::roof, P::heater, P::bypass, P::returns});
}

TEST_CASE("loop readings: the flow comes from every way there is, and the odd one is named and left out", "[assess]")
{
    auto const a = assessed(loop(sound));
    REQUIRE(a.loops.size() == 1);
    std::vector<std::string> ways;
    for (auto const& way : a.loops[0].flows)
        ways.push_back(way.way);
    CHECK(ways == std::vector<std::string>{"flow meter", "head on the pump's curve", "pressure before the returns"});
    REQUIRE(a.loops[0].flow);
    double const gpm = 6.30902e-5;
    CHECK(std::abs(units::in_si(a.loops[0].flow->value) / gpm - 78) < 6);
    // The joint flow is surer than any one way.
    for (auto const& way : a.loops[0].flows)
        CHECK(a.loops[0].flow->doubt < way.flow.doubt);
    // A meter that sticks: the other ways agree, and the turnover goes by them.
    auto const stuck = assessed(loop(with(sound, "flow: 78 gpm", "flow: 30 gpm")));
    REQUIRE(stuck.loops.size() == 1);
    CHECK(stuck.loops[0].flows.front().odd);
    CHECK(units::in_si(stuck.loops[0].flow->value) / gpm > 65);
    CHECK(stuck.loops[0].flow_words.find("without it") != std::string::npos);
    CHECK(probability(stuck, "loop_flow_meter_faulty") > 0.5);
}

TEST_CASE("loop readings: without a flow meter the flow is known by the pump's curve, a usual one if need be",
          "[assess]")
{
    auto const own = assessed(loop(with(sound, "    flow: 78 gpm\n", "")));
    auto const usual =
        assessed(loop(with(with(sound, "    flow: 78 gpm\n", ""),
                           "curve: [0 gpm at 65 ft, 72 gpm at 51 ft, 131 gpm at 12 ft]", "rated_power: 1.5 hp")));
    REQUIRE(own.loops.size() == 1);
    REQUIRE(usual.loops.size() == 1);
    REQUIRE(own.loops[0].flow);
    REQUIRE(usual.loops[0].flow);
    CHECK(usual.loops[0].pump_is_usual);
    CHECK(usual.loops[0].flows.front().flow.doubt > 2.0 * own.loops[0].flows.front().flow.doubt);
    CHECK(usual.loops[0].flow->doubt > own.loops[0].flow->doubt);
}

TEST_CASE("loop readings: the motor's power is one more gauge, and one more way to the flow", "[assess]")
{
    auto const a = assessed(loop(with(sound, "pump: {", "pump: {motor: {power: 1.55 kW}, ")));
    REQUIRE(a.loops.size() == 1);
    CHECK(std::any_of(a.loops[0].flows.begin(), a.loops[0].flows.end(),
                      [](auto const& way) { return way.way == "power of the motor"; }));
    auto const& power = reading(a, "power of the motor");
    CHECK(std::abs(power.off) < 2);
    CHECK(power.expected.doubt > 0.1 * power.expected.value); // what pump and motor waste is not known well
}

TEST_CASE("loop readings: readings that a sound loop gives often enough call nobody", "[assess]")
{
    auto const a =
        assessed("waters: {pool: {}}\nloops: {l: {serves: [pool], suction_gauge: -5 inHg, flow: 55 gpm, pump: "
                 "{runs: yes, rated_power: 1.5 hp}, filter: {gauge: 14 psi}}}\n");
    CHECK(a.outcome == assess::Outcome::nothing_found);
    CHECK(a.referrals.empty());
}

TEST_CASE("loop readings: a head beyond what the pump can make is no sound loop's", "[assess]")
{
    auto const a =
        assessed("waters: {pool: {}}\nloops: {l: {serves: [pool], suction_gauge: -20 inHg, pump: {runs: yes, curve: "
                 "[0 gpm:70 ft, 40 gpm:60 ft, 80 gpm:35 ft]}, filter: {gauge: 40 psi, clean_gauge: 15 psi}}}\n");
    REQUIRE(finding(a, "loop_readings_depart"));
    CHECK(finding(a, "loop_readings_depart")->state == assess::FindingState::seen);
    CHECK(a.outcome != assess::Outcome::nothing_found);
    CHECK(probability(a, "filter_gauge_faulty") > 0.2);
}

TEST_CASE("loop readings: gauges and flow that no account fits are asked for again", "[assess]")
{
    auto const a = assessed(loop(
        with(with(with(sound, "-9 inHg", "-22 inHg"), ", gauge: 16 psi", ", gauge: 44 psi"), "78 gpm", "140 gpm")));
    CHECK(std::any_of(a.questions.begin(), a.questions.end(),
                      [](auto const& q) { return q.why.find("can't all be so") != std::string::npos; }));
    CHECK(a.outcome != assess::Outcome::nothing_found);
}

TEST_CASE("loop readings: beyond its last point a pump's curve is carried on, and the covers bear that flow",
          "[assess]")
{
    auto const at = [](std::string const& gauge)
    {
        return assessed(
            "on: 2026-01-10\nwaters: {spa: {}}\nloops: {l: {serves: [spa], suction_gauge: -5 inHg, suction_outlets: 2, "
            "pump: {runs: yes, curve: [0 gpm:70 ft, 40 gpm:60 ft, 80 gpm:35 ft]}, filter: {gauge: " +
            gauge +
            "}, drains: {a: {rating: 40 gpm, expires: 2030-01-01}, b: {rating: 40 gpm, expires: 2030-01-01}}}}\n");
    };
    for (auto const* gauge : {"17 psi", "12 psi", "8 psi"}) // less head, more flow
        CHECK(at(gauge).outcome == assess::Outcome::unsafe);
}

TEST_CASE("loop readings: a cover bears what the pump moves at full speed, measured slowly or not at all", "[assess]")
{
    auto const with_pump = [](std::string const& pump)
    {
        return assessed(
            "on: 2026-01-10\nwaters: {spa: {}}\nloops: {l: {serves: [spa], suction_outlets: 2, " + pump +
            ", drains: {a: {rating: 40 gpm, expires: 2030-01-01}, b: {rating: 40 gpm, expires: 2030-01-01}}}}\n");
    };
    CHECK(with_pump("pump: {runs: yes, rated_power: 3 hp}").outcome == assess::Outcome::unsafe);
    CHECK(
        with_pump("flow: 30 gpm, pump: {runs: yes, variable_speed: yes, speed: 1200 rpm, curve_speed: 3450 rpm, curve: "
                  "[0 gpm:90 ft, 60 gpm:70 ft, 110 gpm:30 ft]}")
            .outcome == assess::Outcome::unsafe);
    CHECK(with_pump("flow: 30 gpm, pump: {runs: yes, variable_speed: no}").outcome != assess::Outcome::unsafe);
}

TEST_CASE("loop readings: pressure with the pump off is asked about, and nobody is sent to the lid", "[assess]")
{
    auto const a = assessed(
        "waters: {pool: {}}\nloops: {l: {serves: [pool], flow: 40 gpm, pump: {runs: no}, filter: {gauge: 15 psi}}}\n");
    CHECK(probability(a, "filter_gauge_faulty") > 0.5);
    CHECK(probability(a, "loop_flow_meter_faulty") > 0.5);
    CHECK(std::any_of(a.questions.begin(), a.questions.end(),
                      [](auto const& q) { return q.why.find("Stand clear") != std::string::npos; }));
}

TEST_CASE("loop readings: a gauge above what tanks are made for stops the pump before anything else", "[assess]")
{
    auto const a = assessed("loops: {l: {filter: {gauge: 60 psi}}}\n");
    CHECK(a.outcome == assess::Outcome::unsafe);
    REQUIRE_FALSE(a.alarms.empty());
    CHECK(a.findings[a.alarms[0].finding].id == "filter_over_plate_pressure");
}

TEST_CASE("loop readings: a hum of a pump that runs is not a motor that does not start", "[assess]")
{
    auto const runs = assessed("loops: {l: {pump: {runs: yes, noticed: [humming]}}}\n");
    CHECK(finding(runs, "pump_hums_no_start") == nullptr);
    CHECK(finding(runs, "pump_hum_loud") != nullptr);
    auto const dead = assessed("loops: {l: {pump: {runs: yes, noticed: [hums and does not start]}}}\n");
    CHECK(finding(dead, "pump_hums_no_start") != nullptr);
}

TEST_CASE("loop readings: a note that says what a gauge says does not count beside it", "[assess]")
{
    std::string const dirty = with(sound, ", gauge: 16 psi", ", gauge: 28 psi");
    auto const alone = assessed(loop(dirty));
    auto const noted = assessed(loop(with(dirty, "filter: {", "filter: {noticed: [filter pressure high], ")));
    REQUIRE(std::count_if(noted.findings.begin(), noted.findings.end(),
                          [](auto const& f) { return f.id == "filter_pressure_high"; }) == 2);
    CHECK(probability(noted, "filter_dirty") == probability(alone, "filter_dirty"));
}

TEST_CASE("loop readings: a curve whose speed is not known is no curve to hold gauges against", "[assess]")
{
    auto const a = assessed(loop(with(sound, "pump: {", "pump: {variable_speed: yes, speed: 2400 rpm, ")));
    REQUIRE(a.loops.size() == 1);
    CHECK(a.loops[0].pump_is_usual);
    auto const known =
        assessed(loop(with(sound, "pump: {", "pump: {variable_speed: yes, speed: 2400 rpm, curve_speed: 3450 rpm, ")));
    REQUIRE(known.loops.size() == 1);
    CHECK_FALSE(known.loops[0].pump_is_usual);
}
