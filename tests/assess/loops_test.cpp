#include "assessed.hpp"
#include "catch_compat.hpp"

#include <algorithm>
#include <cmath>

using namespace padwalk;
using tests::assessed;
using tests::engine;

namespace
{

std::string const warm = "waters: {pool: {temperature: 80 degF}}\n"; // the suction margin needs it

// A visit of one loop whose fields are these lines.
assess::Assessment loop(std::string const& fields)
{
    return assessed("loops:\n  l:\n" + fields);
}

assess::FindingEntryOf const* finding(assess::Assessment const& a, std::string const& id)
{
    for (auto const& f : a.findings)
        if (f.id == id)
            return &f;
    return nullptr;
}

assess::FigureEntry const* figure(assess::Assessment const& a, std::string const& model, std::string const& label = {})
{
    for (auto const& f : a.figures)
        if (f.figure.model->name == model && f.figure.computed() && f.label.find(label) != std::string::npos)
            return &f;
    return nullptr;
}

double value(assess::FigureEntry const& f, std::string const& output)
{
    return f.figure.output(output).value.value();
}

double probability(assess::Assessment const& a, std::string const& cause)
{
    double most = 0;
    for (auto const& c : a.causes)
        most = c.id == cause ? std::max(most, c.probability) : most;
    return most;
}

bool untested(assess::Assessment const& a, std::string const& item, std::string const& because)
{
    return std::any_of(a.not_tested.begin(), a.not_tested.end(),
                       [&](auto const& n)
                       { return a.items[n.item].name == item && n.because.find(because) != std::string::npos; });
}

assess::Question const* question(assess::Assessment const& a, std::string const& why)
{
    for (auto const& q : a.questions)
        if (q.why.find(why) != std::string::npos)
            return &q;
    return nullptr;
}

bool one_of(std::vector<std::string> const& all, std::string const& one)
{
    return std::find(all.begin(), all.end(), one) != all.end();
}

std::string const readings = "    flow: 20 gpm\n    suction_gauge: -14 inHg\n    suction: {bore: 1 in}\n"
                             "    filter: {media: sand, area: 2 ft2, gauge: 0 psi, clean_gauge: 14 psi}\n"
                             "    drains: {main: {rating: 10 gpm}}\n";
std::string const motor = "motor: {nameplate_voltage: 230 V, voltage: 0 V, nameplate_current: 8 A, current: 0 A}";

// Three points of a curve, as a maker prints them.
std::string const curve = "curve: [0 gpm:80 ft, 60 gpm:55 ft, 90 gpm:30 ft]";

} // namespace

TEST_CASE("loops: readings taken with the pump off are no evidence of how it runs")
{
    auto const off = loop(readings + "    pump: {runs: no, " + motor + "}\n");
    for (auto const& f : off.findings) // only what should have fallen to zero says something: of itself
        CHECK((f.id == "filter_gauge_stuck" || f.id == "loop_flow_meter_stuck"));
    CHECK(off.figures.empty());
    CHECK(untested(off, "l", "the pump was off"));
    auto const on = loop(readings + "    pump: {runs: yes, " + motor + "}\n");
    for (char const* id : {"filter_pressure_low", "suction_vacuum_high", "motor_voltage_low", "motor_current_low",
                           "pipe_velocity_high", "drain_flow_over_rating"})
    {
        INFO(id);
        CHECK(finding(on, id) != nullptr);
    }
    CHECK_FALSE(untested(on, "l", "the pump was off"));
    CHECK_FALSE(untested(loop("    pump: {runs: no}\n"), "l", "the pump was off")); // nothing was left out
}

TEST_CASE("loops: a variable speed that was not recorded takes their meaning from gauges and current")
{
    std::string const taken = "    suction_gauge: -1 inHg\n    filter: {gauge: 6 psi, clean_gauge: 14 psi}\n";
    std::string const amps = "motor: {nameplate_current: 8 A, current: 2 A}";
    auto const without = loop(taken + "    pump: {variable_speed: yes, " + amps + "}\n");
    CHECK(without.findings.empty());
    CHECK(untested(without, "filter of l", "speed was not recorded"));
    CHECK(untested(without, "l", "speed was not recorded"));
    CHECK(untested(without, "pump of l", "speed was not recorded"));
    std::string const runs = "    pump: {variable_speed: yes, speed: 3450 rpm, " + amps + "}\n";
    auto const with = loop(taken + runs);
    CHECK(finding(with, "filter_pressure_low") == nullptr); // the clean reading may be of any speed
    CHECK(untested(with, "filter of l", "'clean_speed'"));
    CHECK(finding(with, "suction_vacuum_low") != nullptr);
    CHECK(
        finding(
            loop(
                "    suction_gauge: -1 inHg\n    filter: {gauge: 6 psi, clean_gauge: 14 psi, clean_speed: 3450 rpm}\n" +
                runs),
            "filter_pressure_low") != nullptr);
    auto const one_speed = loop(taken + "    pump: {variable_speed: no, " + amps + "}\n");
    CHECK(finding(one_speed, "motor_current_low") != nullptr);
}

TEST_CASE("loops: too deep a vacuum and too much current are so at any speed")
{
    auto const a = loop("    suction_gauge: -20 inHg\n    pump: {variable_speed: yes, motor: {nameplate_current: 8 A, "
                        "current: 12 A}}\n");
    REQUIRE(finding(a, "suction_vacuum_high") != nullptr);
    CHECK(finding(a, "suction_vacuum_high")->state == assess::FindingState::seen);
    REQUIRE(finding(a, "motor_current_high") != nullptr);
    CHECK(finding(a, "motor_current_high")->state == assess::FindingState::seen);
}

TEST_CASE("loops: clean reading and gauge at different speeds are not compared")
{
    auto at = [](std::string const& clean_speed)
    {
        return loop("    pump: {variable_speed: yes, speed: 2400 rpm}\n    filter: {gauge: 8 psi, clean_gauge: 16 psi, "
                    "clean_speed: " +
                    clean_speed + "}\n");
    };
    CHECK(finding(at("3450 rpm"), "filter_pressure_low") == nullptr);
    CHECK(finding(at("3450 rpm"), "filter_pressure_high") == nullptr);
    CHECK(untested(at("3450 rpm"), "filter of l", "the clean reading at 3450"));
    CHECK(finding(at("2400 rpm"), "filter_pressure_low") != nullptr);
}

TEST_CASE("loops: a curve is read only where its speed is that of the pump or both are known")
{
    auto with = [](std::string const& speeds)
    {
        return loop("    suction_gauge: -6 inHg\n    flow: 20 gpm\n    filter: {gauge: 16 psi}\n    pump: {" + curve +
                    speeds + "}\n");
    };
    CHECK(figure(with(""), "pump_flow") != nullptr);
    CHECK(figure(with(", variable_speed: yes"), "pump_flow") == nullptr);
    CHECK(untested(with(", variable_speed: yes"), "pump of l", "speed was not recorded"));
    auto const half_known = with(", variable_speed: yes, speed: 3450 rpm");
    CHECK(figure(half_known, "pump_flow") == nullptr);
    CHECK(finding(half_known, "pump_below_curve") == nullptr);
    CHECK(untested(half_known, "pump of l", "curve_speed"));
    CHECK(figure(with(", variable_speed: yes, speed: 3450 rpm, curve_speed: 3450 rpm"), "pump_flow") != nullptr);
    CHECK(figure(with(", variable_speed: no, speed: 3450 rpm"), "pump_flow") != nullptr);
}

TEST_CASE("loops: vacuum written without its minus is asked about and counts for nothing")
{
    auto const a = loop("    suction_gauge: 6 inHg\n    filter: {gauge: 16 psi, clean_gauge: 15 psi}\n");
    auto const* asked = question(a, "vacuum is written with a minus; say -6 inHg, or equipment: below_water");
    REQUIRE(asked != nullptr);
    CHECK(asked->note == "suction gauge 6 inHg");
    CHECK(finding(a, "suction_vacuum_high") == nullptr);
    CHECK(finding(a, "suction_vacuum_low") == nullptr);
    CHECK(finding(a, "pump_suction_margin_small") == nullptr);
    CHECK(figure(a, "total_dynamic_head") == nullptr);
    CHECK(loop("    suction_gauge: 6 inHg\n    equipment: below_water\n").questions.empty());
    std::string const wet = warm + "loops:\n  l: {suction_gauge: 6 inHg";
    CHECK(figure(assessed(wet + "}\n"), "suction_margin") == nullptr);
    CHECK(figure(assessed(wet + ", equipment: below_water}\n"), "suction_margin") != nullptr);
    CHECK(loop("    suction_gauge: 0 inHg\n").questions.empty());
    CHECK(loop("    suction_gauge: -6 inHg\n").questions.empty());
    auto const high = loop("    suction_gauge: 20 psi\n");
    CHECK(question(high, "equipment: below_water") != nullptr);
    CHECK(question(high, "with a minus") == nullptr);
}

TEST_CASE("loops: a gauge far below its clean reading may stand in the other's place")
{
    auto const a = loop("    filter: {gauge: 12 psi, clean_gauge: 22 psi}\n");
    CHECK(question(a, "were gauge and clean_gauge swapped?") != nullptr);
    REQUIRE(finding(a, "filter_pressure_low") != nullptr);
    CHECK(finding(a, "filter_pressure_low")->state == assess::FindingState::seen);
    CHECK(loop("    filter: {gauge: 12 psi, clean_gauge: 17 psi}\n").questions.empty());
    CHECK(loop("    filter: {gauge: 22 psi, clean_gauge: 12 psi}\n").questions.empty());
    CHECK(loop("    filter: {gauge: 1 psi, clean_gauge: 15 psi}\n").questions.empty()); // nobody's clean reading
}

TEST_CASE("loops: without a clean reading the gauge speaks only where it is far off, and that is said")
{
    auto const between = loop("    filter: {gauge: 26 psi}\n");
    CHECK(finding(between, "filter_pressure_high") == nullptr);
    CHECK(untested(between, "filter of l", "clean reading not known"));
    auto const far = loop("    filter: {gauge: 45 psi}\n");
    REQUIRE(finding(far, "filter_pressure_high") != nullptr);
    CHECK(finding(far, "filter_pressure_high")->from.find("clean reading not known") != std::string::npos);
    CHECK(finding(loop("    filter: {gauge: 4 psi}\n"), "filter_pressure_low") == nullptr);
    CHECK(finding(loop("    filter: {gauge: 0 psi}\n"), "filter_pressure_low") != nullptr);
    auto const slowed = loop("    pump: {variable_speed: yes, speed: 1200 rpm}\n    filter: {gauge: 1 psi}\n");
    CHECK(finding(slowed, "filter_pressure_low") == nullptr);
}

TEST_CASE("loops: a slow turnover says whose it is")
{
    auto const a = assessed("waters:\n  pool: {volume: 30000 gal}\n  spa: {volume: 400 gal}\nloops:\n  l: {serves: "
                            "[pool, spa], flow: 10 gpm}\n");
    REQUIRE(finding(a, "turnover_slow") != nullptr);
    CHECK(finding(a, "turnover_slow")->from.find("turnover of pool ") == 0);
}

TEST_CASE("loops: deep vacuum and small suction margin are one reading")
{
    std::string const vacuum = warm + "loops:\n  l: {suction_gauge: -22 inHg, noticed: [weak returns]";
    auto const both = assessed(vacuum + "}\n");
    // A pump whose speed is not known shows the vacuum alone.
    auto const alone = assessed(vacuum + ", pump: {variable_speed: yes}}\n");
    REQUIRE(finding(both, "suction_vacuum_high") != nullptr);
    REQUIRE(finding(both, "pump_suction_margin_small") != nullptr);
    REQUIRE(finding(alone, "suction_vacuum_high") != nullptr);
    REQUIRE(finding(alone, "pump_suction_margin_small") == nullptr);
    // Counted once: the second finding may take a little of the weight, never add to it (2 % for the changed prior of
    // a variable-speed pump's causes, judgement).
    for (auto const* cause : {"loop_suction_valve_part_shut", "loop_strainer_clogged"})
    {
        INFO(cause << " " << probability(both, cause) << " " << probability(alone, cause));
        CHECK(probability(alone, cause) > 0);
        CHECK(probability(both, cause) < probability(alone, cause) + 0.02);
    }
    CHECK(probability(both, "loop_strainer_clogged") > 0.2); // twice what it was before the gauge
}

TEST_CASE("loops: a dated cover at a visit without a date could not be judged")
{
    std::string const cover = "loops:\n  l: {drains: {main: {expires: 2020-06-30}}}\n";
    auto const a = assessed(cover);
    CHECK(finding(a, "drain_cover_expired") == nullptr);
    CHECK(question(a, "the visit has no date") != nullptr);
    CHECK(a.outcome == assess::Outcome::refer);
    auto const dated = assessed("on: 2024-05-01\n" + cover);
    CHECK(finding(dated, "drain_cover_expired") != nullptr);
    CHECK(question(dated, "the visit has no date") == nullptr);
}

TEST_CASE("loops: a current clearly above the greatest allowed is said up front, with its cautions")
{
    auto at = [](std::string const& amps)
    { return loop("    pump: {motor: {nameplate_current: 8 A, service_factor: 1.15, current: " + amps + "}}\n"); };
    auto const a = at("12 A");
    REQUIRE(a.alarms.size() == 1);
    CHECK(a.findings[a.alarms[0].finding].id == "motor_current_high");
    CHECK(a.alarms[0].urgency == assess::Urgency::soon);
    CHECK(one_of(a.alarms[0].cautions, "electric_shock"));
    CHECK(one_of(a.alarms[0].cautions, "rotating_machinery"));
    CHECK(at("8 A").alarms.empty());
}

TEST_CASE("loops: valves found shut or part open speak for what their names say")
{
    auto position = [](std::string const& name, std::string const& how)
    { return loop("    valves: {" + name + ": " + how + "}\n"); };
    for (char const* name : {"suction", "skimmer valve", "main_drain"})
    {
        INFO(name);
        auto const a = position(name, "part_open");
        REQUIRE(finding(a, "loop_suction_handle_part_shut") != nullptr);
        CHECK(finding(a, "loop_suction_handle_part_shut")->from ==
              "valve '" + std::string(name) + "' recorded as part open");
        CHECK(a.findings.size() == 1);
    }
    CHECK(finding(position("pool returns", "shut"), "loop_return_handle_part_shut") != nullptr);
    CHECK(position("suction", "open").findings.empty());
    CHECK(position("bypass", "shut").findings.empty());
    CHECK(position("heater drain", "shut").findings.empty()); // shut by right
}

TEST_CASE("loops: what pipes and fittings take, by the table's coefficients")
{
    std::string const pipe = "bore: 2.058 in, length: 40 ft";
    auto const a = loop("    flow: 60 gpm\n    suction: {" + pipe +
                        ", fittings: {elbow 90: 4, exit: 1}}\n    return: {" + pipe + ", minor_loss: 3.256}\n");
    auto const* suction = figure(a, "pipe_friction", "suction");
    auto const* back = figure(a, "pipe_friction", "return");
    REQUIRE(suction != nullptr);
    REQUIRE(back != nullptr);
    // 4 elbows of 30 x 0.0188 and an exit of 1 are 3.256: the table's 2 in, which 2.058 in is nearest to.
    CHECK(std::abs(value(*suction, "head_loss") - value(*back, "head_loss")) < 1e-9);
    // v = 5.787 ft/s, v2/2g = 0.5204 ft, so the fittings alone are 1.694 ft; f = 0.0185 of smooth pipe makes the
    // run 2.25 ft.
    CHECK(std::abs(value(*back, "head_loss") / 0.3048 - 3.94) < 0.1);
    auto const unknown = loop("    flow: 60 gpm\n    suction: {" + pipe + ", fittings: {gnome: 2}}\n");
    CHECK(figure(unknown, "pipe_friction") == nullptr);
    REQUIRE(question(unknown, "known are") != nullptr);
    CHECK(question(unknown, "known are")->why.find("elbow_90") != std::string::npos);
    CHECK(figure(loop("    flow: 60 gpm\n    suction: {" + pipe + "}\n"), "pipe_friction") == nullptr);
}

TEST_CASE("loops: the power that the water gains against the plate")
{
    std::string const known = "    flow: 50 gpm\n    suction_gauge: -6 inHg\n    filter: {gauge: 18 psi}\n";
    auto const a = loop(known + "    pump: {rated_power: 1.5 hp}\n");
    auto const* power = figure(a, "water_power");
    REQUIRE(power != nullptr);
    // 20.95 psi over 50 gpm: 144450 Pa x 3.1545e-3 m3/s = 456 W, 41 % of 1119 W
    CHECK(std::abs(value(*power, "hydraulic_power") - 456) < 5);
    CHECK(power->meaning.find("41 ± 6 % of the 1.5") == 0);
    CHECK(figure(loop(known), "water_power") == nullptr);
}

TEST_CASE("property: a spa by its name is a whole word")
{
    auto kind = [](std::string const& name) { return assessed("waters:\n  " + name + ":\n").assumptions.front().what; };
    for (std::string const name : {"spa", "Hot Tub", "the_spa", "whirlpool", "spas"})
        CHECK(kind(name) == name + " is a spa");
    for (std::string const name : {"space", "Spanish pool", "pool", "tubular"})
        CHECK(kind(name) == name + " is a pool");
}

TEST_CASE("property: a vent is as old as its heater")
{
    // A rusted joint is raised by age; of an old heater it is likelier than of one of unknown age.
    auto prior = [](std::string const& age)
    {
        auto const a =
            assessed("heaters:\n  h: {energy: natural_gas, " + age + "vent: {noticed: [vent pipe rusted through]}}\n");
        double sum = 0;
        for (auto const& c : a.causes)
            if (a.items[c.item].kind == "vent")
                sum += c.prior;
        return sum;
    };
    CHECK(prior("age: 20 years, ") > prior(""));
}

TEST_CASE("property: notes and photos of the whole visit are those of the property")
{
    auto const a = assessed("notes: gate is locked\nphotos: [{file: pad.jpg, caption: the pad}]\nwaters: {pool: }\n");
    CHECK(a.items.at(0).notes == "gate is locked");
    REQUIRE(a.items.at(0).photos.size() == 1);
    CHECK(a.items.at(0).photos[0].file == "pad.jpg");
}

TEST_CASE("checks at the pad carry the cautions of what stands there")
{
    auto const& checks = engine().knowledge().checks;
    auto cautions = [&](std::string const& id)
    {
        for (auto const& [name, check] : checks)
            if (name == id)
                return check.cautions;
        FAIL("no check " << id);
        return std::vector<std::string>();
    };
    for (char const* id : {"pump_look_at_lid", "loop_look_at_baskets", "pump_gauges_and_flow"})
    {
        INFO(id);
        CHECK(one_of(cautions(id), "rotating_machinery"));
        CHECK(one_of(cautions(id), "pressurised_filter"));
        CHECK_FALSE(one_of(cautions(id), "hot_water"));
    }
}

TEST_CASE("loops: a drain cover past its date, unmarked, flat or gone closes the water before all else")
{
    for (std::string const words : {"cover past its stamped date", "unmarked cover", "flat grate", "cover missing"})
    {
        auto const a = assessed("waters:\n  pool: {kind: pool}\nloops:\n  loop: {serves: [pool], drains: {main drain: "
                                "{noticed: [" +
                                words + "]}}}\n");
        INFO(words);
        CHECK(a.outcome == assess::Outcome::unsafe);
        REQUIRE_FALSE(a.alarms.empty());
        CHECK(a.alarms.front().urgency == assess::Urgency::stop_use);
    }
}
