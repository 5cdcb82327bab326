// Gas that is smelled and carbon monoxide stand before everything else: in text, in HTML and in JSON.
#include "assessed.hpp"
#include "catch_compat.hpp"
#include "padwalk/report/html.hpp"
#include "padwalk/report/json.hpp"
#include "padwalk/report/text.hpp"
#include "report/layout.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <sstream>

using namespace padwalk;
using Json = nlohmann::ordered_json;

namespace
{

struct Case
{
    std::string name, heater, finding;
    std::vector<std::string> say;
};

std::vector<Case> const& dangers()
{
    static std::vector<std::string> const leave_for_gas{
        "Leave now with everyone", "touch no switch, flame or phone there", "from a safe distance", "Nobody goes back"};
    static std::vector<Case> const cases{
        {"smell of gas", "noticed: [smell of gas]", "heater_gas_smell", leave_for_gas},
        {"hiss of gas", "noticed: [gas hissing at the valve]", "heater_gas_smell", leave_for_gas},
        {"rotten eggs", "noticed: [faint smell of rotten eggs]", "heater_gas_smell", leave_for_gas},
        {"alarm",
         "noticed: [co alarm went off]",
         "heater_co_alarm",
         {"Everyone out to fresh air at once", "call emergency services", "Nobody goes back in"}},
        {"headache",
         "noticed: [tenant got dizzy]",
         "heater_co_symptoms",
         {"Everyone out to fresh air at once", "call emergency services", "Nobody goes back in"}},
        {"12 ppm",
         "carbon_monoxide_in_air: 12 ppm",
         "ambient_co_high",
         {"Everyone out to fresh air", "gas shut only at a valve outdoors", "Nobody goes back in"}},
        {"45 ppm",
         "carbon_monoxide_in_air: 45 ppm",
         "ambient_co_high",
         {"Everyone out to fresh air now, and call emergency services from outside", "Nobody goes back in"}},
        {"80 ppm in the pit alone",
         "carbon_monoxide_at: {pad: 1 ppm, pit: 80 ppm}",
         "ambient_co_high",
         {"Everyone out now and call emergency services from outside", "Nobody goes back in"}},
        {"300 ppm",
         "carbon_monoxide_in_air: 300 ppm",
         "ambient_co_high",
         {"Out now, and call emergency services from outside", "Only rescuers with their own air go in"}}};
    return cases;
}

std::string visit_of(Case const& c, bool full)
{
    std::string out = "by: inspector\non: 2026-05-14\nproperty: house by the lake\n"
                      "waters:\n  lagoon: {kind: pool, tests: [{ph: 7.5, free_chlorine: 3 ppm, alkalinity: 90 ppm}]}\n"
                      "loops:\n  lagoon loop: {serves: [lagoon], pump: {runs: yes}";
    if (full)
        out += ", drains: {main: {noticed: [cover missing]}}, filter: {noticed: [clamp loose]}";
    out += "}\nheaters:\n  heater: {energy: natural_gas, loop: lagoon loop, " + c.heater;
    if (full)
        out += ", vent: {kind: draft_hood, height: 3 ft, run: 12 ft, capped: no, buried: yes}";
    return out + "}\n" + (full ? "electrical: {noticed: [panel is rusted]}\n" : "");
}

std::string in_one_line(std::string const& text)
{
    std::istringstream words(text);
    std::string out;
    for (std::string word; words >> word;)
        out += (out.empty() ? "" : " ") + word;
    return out;
}

/// What tells somebody to do what can kill, wherever it is said at once.
void asks_nobody_in(std::string const& head)
{
    for (auto const* bad : {"go in and", "go inside", "step in and", "climb in and", "relight it", "reset it",
                            "open the window", "switch on", "turn on the fan"})
    {
        INFO(bad << " in " << head);
        CHECK(head.find(bad) == std::string::npos);
    }
}

} // namespace

TEST_CASE("gas and carbon monoxide stand first in the text and say what to do at once", "[report][danger]")
{
    for (auto const& c : dangers())
        for (bool const full : {false, true})
        {
            INFO(c.name << (full ? ", among other trouble" : ", all else well"));
            auto const a = tests::assessed(visit_of(c, full));
            CHECK(a.outcome == assess::Outcome::unsafe);
            REQUIRE_FALSE(a.alarms.empty());
            CHECK(a.findings[a.alarms[0].finding].id == c.finding);
            std::string const text = in_one_line(report::as_text(a, {}));
            std::size_t const danger = text.find("Danger: act on this first"), answer = text.find("In short");
            REQUIRE(danger != std::string::npos);
            REQUIRE(answer != std::string::npos);
            CHECK(text.substr(0, danger) == "House by the lake Walked 2026-05-14 by an inspector. ");
            std::string const head = text.substr(danger, answer - danger);
            std::size_t at = 0;
            for (auto const& part : c.say)
            {
                INFO(part << " in " << head);
                at = head.find(part, at);
                REQUIRE(at != std::string::npos);
            }
            asks_nobody_in(head);
            if (full) // drowning and shock come after
                CHECK(head.find(c.say.front()) < head.find("Get everyone out of the water"));
        }
}

TEST_CASE("gas and carbon monoxide stand first in the page", "[report][danger]")
{
    for (auto const& c : dangers())
    {
        INFO(c.name);
        std::string const html =
            report::as_html(tests::assessed(visit_of(c, true)), units::System::us, tests::layout());
        std::size_t const first = html.find("<section"), answer = html.find("id=\"answer\"");
        REQUIRE(first != std::string::npos);
        REQUIRE(answer != std::string::npos);
        CHECK(html.compare(first, 24, "<section class=\"danger\" ") == 0);
        std::string const head = html.substr(first, answer - first);
        for (auto const& part : c.say)
            CHECK(head.find(part) != std::string::npos);
        CHECK(head.find(c.say.front()) < head.find("Get everyone out of the water"));
    }
}

TEST_CASE("gas and carbon monoxide stand first in JSON, with the level's own words", "[report][danger]")
{
    for (auto const& c : dangers())
    {
        INFO(c.name);
        auto const j = Json::parse(report::as_json(tests::assessed(visit_of(c, true)), units::System::us));
        CHECK(j["outcome"] == "unsafe");
        CHECK(j.items().begin().key() == "outcome");
        REQUIRE_FALSE(j["alarms"].empty());
        auto const& alarm = j["alarms"][0];
        CHECK(alarm["urgency"] == "stop_use");
        std::string const caution = c.finding == "heater_gas_smell" ? "gas_smell" : "carbon_monoxide";
        CHECK(alarm["cautions"][0] == caution);
        CHECK(j["cautions"].contains(caution));
        std::string const all = alarm.dump();
        for (auto const& part : c.say)
            CHECK(all.find(part) != std::string::npos);
    }
}

TEST_CASE("where somebody must leave, no check is proposed at the heater", "[report][danger]")
{
    for (auto const& c : dangers())
    {
        INFO(c.name);
        CHECK(tests::assessed(visit_of(c, false)).next.empty());
    }
}
