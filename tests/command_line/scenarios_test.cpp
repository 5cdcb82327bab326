// Every scenario against its kept output; then laws that hold over all of them.

#include "assessed.hpp"
#include "catch_compat.hpp"
#include "data_folder.hpp"
#include "run_program.hpp"

#include <nlohmann/json.hpp>

#include <cmath>
#include <filesystem>

using namespace padwalk;
using tests::assessed;
using tests::engine;
using tests::run_program;
using tests::text_of_file;

namespace
{

std::vector<std::string> scenarios()
{
    std::vector<std::string> out;
    for (auto const& entry : std::filesystem::directory_iterator(std::string(PADWALK_SOURCE_FOLDER) + "/scenarios"))
        if (entry.is_directory())
            out.push_back(entry.path().string());
    std::sort(out.begin(), out.end());
    return out;
}

} // namespace

TEST_CASE("scenarios: at least seven, each with visit, kept text, JSON and exit status")
{
    auto const folders = scenarios();
    CHECK(folders.size() >= 7);
    for (auto const& folder : folders)
        for (auto const* name : {"visit.yaml", "expected.txt", "expected.json", "expected.status"})
        {
            INFO(folder << "/" << name);
            CHECK(std::filesystem::exists(folder + "/" + name));
        }
}

TEST_CASE("scenarios: kept text, JSON and exit status, byte for byte")
{
    for (auto const& folder : scenarios())
    {
        INFO(folder);
        std::map<std::string, std::string> const files{{"visit.yaml", text_of_file(folder + "/visit.yaml")}};
        auto const text = run_program({"assess", "visit.yaml"}, files);
        auto const json = run_program({"assess", "visit.yaml", "--json"}, files);
        CHECK(text.out == text_of_file(folder + "/expected.txt"));
        CHECK(json.out == text_of_file(folder + "/expected.json"));
        CHECK(std::to_string(text.status) + "\n" == text_of_file(folder + "/expected.status"));
        CHECK(text.status == json.status);
        CHECK(text.err.empty());
    }
}

TEST_CASE("scenarios: kept page of the client and papers for the trades, byte for byte")
{
    std::map<std::string, std::vector<std::string>> const kept{
        {"expected.client.txt", {"client", "visit.yaml"}},
        {"expected.refer.txt", {"refer", "visit.yaml"}},
        {"expected.refer.es.txt", {"refer", "visit.yaml", "--language", "es"}}};
    for (auto const& folder : scenarios())
        for (auto const& [file, arguments] : kept)
        {
            INFO(folder << "/" << file);
            auto const ran = run_program(arguments, {{"visit.yaml", text_of_file(folder + "/visit.yaml")}});
            REQUIRE(std::filesystem::exists(folder + "/" + file));
            CHECK(ran.out == text_of_file(folder + "/" + file));
            CHECK(std::to_string(ran.status) + "\n" == text_of_file(folder + "/expected.status"));
        }
}

TEST_CASE("scenarios: kept owner's sheets, byte for byte")
{
    std::size_t kept = 0;
    for (auto const& folder : scenarios())
    {
        if (!std::filesystem::exists(folder + "/expected.water.txt"))
            continue;
        INFO(folder);
        ++kept;
        std::map<std::string, std::string> const files{{"visit.yaml", text_of_file(folder + "/visit.yaml")}};
        auto const text = run_program({"water", "visit.yaml"}, files);
        CHECK(text.out == text_of_file(folder + "/expected.water.txt"));
        CHECK(std::to_string(text.status) + "\n" == text_of_file(folder + "/expected.water.status"));
        CHECK(text.err.empty());
    }
    CHECK(kept >= 2);
}

TEST_CASE("scenarios: what each must say, whatever its wording")
{
    auto of = [](std::string const& name)
    { return assessed(text_of_file(std::string(PADWALK_SOURCE_FOLDER) + "/scenarios/" + name + "/visit.yaml")); };
    auto names = [](assess::Assessment const& a, std::string const& id, double least)
    {
        REQUIRE(engine().knowledge().cause(id) != nullptr); // a name that is not there would never be found
        for (auto const& cause : a.causes)
            if (cause.id == id)
                return cause.probability >= least;
        return false;
    };
    auto const pump = of("spa-pump-that-grinds");
    CHECK(pump.outcome == assess::Outcome::refer);
    CHECK(names(pump, "pump_bearings_worn", 0.5));
    CHECK(pump.referrals.front().trade == "pool_service");

    // common practice, no source: a fill valve that does not run while the level holds argues against a leak of any
    // size
    auto const fill = of("fill-valve-gives-nothing");
    CHECK(fill.outcome == assess::Outcome::refer);
    for (auto const& cause : fill.causes)
        CHECK(cause.id.find("leak") == std::string::npos);

    auto const heater = of("heater-small-rise-bad-vent");
    CHECK(heater.outcome == assess::Outcome::unsafe);
    CHECK_FALSE(heater.alarms.empty());
    CHECK(heater.referrals.front().trade == "combustion_technician");
    CHECK(heater.referrals.front().urgency == assess::Urgency::stop_use);

    // The same rise in warm air is a fault: tests/assess/heater_electric_test.cpp.
    auto const cold = of("heat-pump-in-cold-air");
    CHECK(cold.outcome != assess::Outcome::unsafe);
    CHECK(names(cold, "heater_hp_air_cold", 0.5));
    CHECK(names(cold, "heater_hp_condensate", 0.5));
    CHECK_FALSE(names(cold, "heater_hp_charge_low", 0.1));
    CHECK(cold.referrals.empty());
    CHECK(cold.questions.empty());

    auto const shed = of("heater-in-a-shed");
    CHECK(shed.outcome == assess::Outcome::unsafe);
    REQUIRE_FALSE(shed.alarms.empty());
    CHECK(shed.findings[shed.alarms.front().finding].id == "ambient_co_high"); // before all else
    CHECK(shed.referrals.front().trade == "combustion_technician");
    CHECK(shed.referrals.front().urgency == assess::Urgency::stop_use);
    CHECK(names(shed, "heater_fume_attack", 0.3));
    CHECK(names(shed, "vent_air_short", 0.3));
    CHECK(shed.questions.empty());

    auto const water = of("cloudy-water-high-cyanurate");
    CHECK(names(water, "water_cyanurate_high", 0.5));

    // common practice, no source: a straight line on plaster is not proof of a crack
    auto const line = of("line-out-of-reach");
    CHECK_FALSE(line.undecided.empty());
    CHECK_FALSE(names(line, "shell_crack_structural", 0.3));
    CHECK(line.outcome == assess::Outcome::refer);

    auto const well = of("all-well");
    CHECK(well.outcome == assess::Outcome::nothing_found);
    CHECK(well.alarms.empty());
    CHECK(well.referrals.empty());
    CHECK(well.questions.empty());

    // An open spa in the wind loses more than its element gives: nobody need come, a cover is asked for, and no cost is
    // made up for what can't be held.
    auto const windy = of("electric-spa-in-the-wind");
    CHECK(names(windy, "heater_heat_lost", 0.5));
    CHECK(windy.alarms.empty());
    REQUIRE(windy.warmings.size() == 1);
    CHECK(windy.warmings[0].stops_at);
    CHECK_FALSE(windy.warmings[0].as_found.month_cost);
    CHECK(windy.warmings[0].other_cover->month_cost);

    auto const hasty = of("hasty-half-untested");
    CHECK(hasty.not_tested.size() >= 6);
    for (auto const& verdict : hasty.verdicts)
        if (hasty.items[verdict.item].kind == "heater")
            CHECK(verdict.condition != assess::Condition::works);
}

TEST_CASE("scenarios: laws over all of them")
{
    for (auto const& folder : scenarios())
    {
        INFO(folder);
        auto const a = assessed(text_of_file(folder + "/visit.yaml"));
        for (auto const& cause : a.causes)
        {
            INFO(cause.id);
            CHECK(cause.probability >= 0);
            CHECK(cause.probability <= 1);
            CHECK((cause.trade == "none" || engine().knowledge().trade(cause.trade) != nullptr));
            if (cause.hurts_people)
                CHECK_FALSE(cause.cautions.empty());
        }
        for (std::size_t i = 1; i < a.alarms.size(); ++i) // unsafe beats everything else in order
            CHECK(a.alarms[i - 1].urgency >= a.alarms[i].urgency);
        for (std::size_t i = 1; i < a.referrals.size(); ++i)
            CHECK(a.referrals[i - 1].urgency >= a.referrals[i].urgency);
        for (auto const& figure : a.figures)
            for (auto const& out : figure.figure.outputs)
                if (out.value)
                {
                    INFO(figure.label << ", " << out.shape->name);
                    CHECK(std::isfinite(*out.value));
                    CHECK(out.low <= out.high);
                }
        bool const may_hurt =
            std::any_of(a.causes.begin(), a.causes.end(),
                        [](auto const& c) { return c.hurts_people && c.urgency == assess::Urgency::stop_use; });
        if (may_hurt)
            CHECK(a.outcome == assess::Outcome::unsafe);
        bool const dangerous = std::any_of(a.alarms.begin(), a.alarms.end(),
                                           [](auto const& x) { return x.urgency == assess::Urgency::stop_use; });
        if (dangerous)
            CHECK(a.outcome == assess::Outcome::unsafe);
        for (auto const& check : a.next) // nothing is proposed that this person may not do
        {
            auto const who =
                fields::words_of<visit::By>::words()[static_cast<std::size_t>(a.by.value_or(visit::By::inspector))];
            auto const& entry = std::find_if(engine().knowledge().checks.begin(), engine().knowledge().checks.end(),
                                             [&](auto const& c) { return c.first == check.id; })
                                    ->second;
            bool const may = std::any_of(
                entry.who.begin(), entry.who.end(),
                [&](auto w) { return fields::words_of<diagnosis::Who>::words()[static_cast<std::size_t>(w)] == who; });
            CHECK(may);
        }
    }
}

TEST_CASE("scenarios: the order of notes changes nothing in the causes")
{
    auto const one = assessed("loops:\n  a loop:\n    pump:\n      noticed:\n        - grinding noise\n        - water "
                              "drips between pump and motor\n        - not_seen: screeching\n");
    auto const two = assessed("loops:\n  a loop:\n    pump:\n      noticed:\n        - not_seen: screeching\n        - "
                              "water drips between pump and motor\n        - grinding noise\n");
    REQUIRE(one.causes.size() == two.causes.size());
    for (std::size_t i = 0; i < one.causes.size(); ++i)
    {
        CHECK(one.causes[i].id == two.causes[i].id);
        CHECK(one.causes[i].probability == two.causes[i].probability);
    }
}

TEST_CASE("built-in data is the data folder")
{
    auto const built = reference::Data::built_in();
    auto const folder = tests::data_from_folder();
    CHECK(built.files() == folder.files());
    for (auto const& path : folder.files())
        CHECK(reference::pack(built.file(path)) == reference::pack(folder.file(path)));
}

TEST_CASE("README: the worked visit gives the output that stands there")
{
    std::string const readme = text_of_file(std::string(PADWALK_SOURCE_FOLDER) + "/README.md");
    auto block = [&](std::string const& opening, std::size_t from)
    {
        std::size_t const start = readme.find(opening, from);
        REQUIRE(start != std::string::npos);
        std::size_t const first = start + opening.size();
        return std::pair{readme.substr(first, readme.find("```", first) - first), first};
    };
    auto const [visit, at] = block("```yaml\n", 0);
    auto const [output, end] = block("answers:\n\n```\n", at);
    auto const ran = run_program({"assess", "visit.yaml"}, {{"visit.yaml", visit}});
    CHECK(ran.out.substr(0, output.size()) == output);
    CHECK(output.size() > 500);
    CHECK(end > at);
}
