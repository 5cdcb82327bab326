// A bad suction outlet closes the water before anything else is said: in text, in HTML and in JSON.
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
    std::string name, loop, drain, finding; ///< of drain: the fields of 'main'
};

std::vector<Case> const& bad()
{
    static std::vector<Case> const cases{
        {"missing", "", "noticed: [cover missing]", "cover missing"},
        {"broken", "", "noticed: [cover broken]", "cover cracked, broken or brittle"},
        {"loose", "", "noticed: [cover loose]", "cover loose, lifted or out of place"},
        {"expired", "", "expires: 2025-12-31", "cover past its stamped date"},
        {"unlisted by field", "", "listed: no", "cover carries no marks of a standard, life or flow"},
        {"unlisted by words", "", "noticed: [cover is not listed]",
         "cover carries no marks of a standard, life or flow"},
        {"flat grate", "", "noticed: [old flat grate]", "flat old-pattern grate"},
        {"overloaded", "    flow: 80 gpm\n", "rating: 50 gpm", "largest flow above the rating of the cover"},
        {"single unprotected by field", "    suction_outlets: 1\n", "release_device: no",
         "the only suction outlet, with nothing to break its suction"},
        {"single unprotected by words", "", "noticed: ['only one main drain, no svrs']",
         "the only suction outlet, with nothing to break its suction"},
        {"single by words, the rest not known", "", "noticed: [only one main drain]",
         "the only suction outlet as far as known, and nothing seen that would break its suction"}};
    return cases;
}

std::vector<Case> const& sound()
{
    static std::vector<Case> const cases{
        {"listed, in date, of two", "    suction_outlets: 2\n", "listed: yes, expires: 2031-06-30", ""},
        {"rating enough", "    suction_outlets: 2\n    flow: 60 gpm\n", "rating: 120 gpm", ""},
        {"not broken, not loose", "    suction_outlets: 2\n",
         "noticed: [cover not broken, cover not loose, cover not missing]", ""},
        {"looked for", "    suction_outlets: 2\n", "noticed: [{not_seen: cover broken}, {not_seen: flat grate}]", ""},
        {"single with a device", "    suction_outlets: 1\n", "release_device: yes, listed: yes", ""},
        {"single, unblockable", "    suction_outlets: 1\n", "unblockable: yes", ""}};
    return cases;
}

// Nothing wrong but what the case adds.
std::string healthy(Case const& c)
{
    return "by: inspector\non: 2026-05-14\nproperty: house by the lake\n"
           "waters:\n  lagoon: {kind: pool, tests: [{ph: 7.5, free_chlorine: 3 ppm, alkalinity: 90 ppm}]}\n"
           "  tub: {kind: spa}\n"
           "loops:\n  lagoon loop:\n    serves: [lagoon]\n" +
           c.loop +
           "    pump: {runs: yes, noticed: [{not_seen: grinding noise}]}\n"
           "    filter: {media: sand, gauge: 14 psi, clean_gauge: 12 psi}\n"
           "    drains: {main: {" +
           c.drain + "}}\n";
}

// The same in a visit that is full of other trouble.
std::string troubled(Case const& c)
{
    return "by: inspector\non: 2026-05-14\nproperty: house by the lake\nnotes: many things\n"
           "waters:\n  lagoon: {kind: pool, noticed: [green water], deck: {noticed: [deck lifted]},\n"
           "    shell: {noticed: [rust spots]}, tests: [{ph: 8.3, free_chlorine: 0.2 ppm, alkalinity: 240 "
           "ppm}]}\n"
           "  tub: {kind: spa}\n"
           "loops:\n  lagoon loop:\n    serves: [lagoon]\n" +
           c.loop +
           "    noticed: [bubbles at the returns, drip at the pad]\n    suction_gauge: -16 inHg\n"
           "    pump: {runs: yes, noticed: [grinding noise, drip at the seal]}\n"
           "    filter: {media: sand, gauge: 27 psi, clean_gauge: 12 psi, noticed: [gauge stuck]}\n"
           "    drains: {main: {" +
           c.drain +
           "}}\n"
           "heaters:\n  heater: {energy: natural_gas, loop: lagoon loop, noticed: [no heat, rust at the burner]}\n"
           "fill_valves:\n  fill: {fills: lagoon, noticed: [fill runs on]}\nnoticed: [blue elephants]\n";
}

// White space of a text as single blanks: lines are broken to the width of the terminal.
std::string in_one_line(std::string const& text)
{
    std::istringstream words(text);
    std::string out;
    for (std::string word; words >> word;)
        out += (out.empty() ? "" : " ") + word;
    return out;
}

std::size_t place(std::string const& text, std::string const& part)
{
    return text.find(part);
}

std::string capitalised(std::string text)
{
    text.front() =
        text.front() >= 'a' && text.front() <= 'z' ? static_cast<char>(text.front() - 'a' + 'A') : text.front();
    return text;
}

void closes_first_in_text(assess::Assessment const& a, Case const& c)
{
    std::string const text = in_one_line(report::as_text(a, {}));
    std::size_t const danger = place(text, "Danger: act on this first");
    REQUIRE(danger != std::string::npos);
    CHECK(danger < place(text, "In short"));
    CHECK(place(text, "In short") != std::string::npos);
    std::string const head = text.substr(danger, place(text, "In short") - danger);
    CHECK(place(head, capitalised(c.finding)) != std::string::npos);
    CHECK(place(head, "Get everyone out of the water now and switch the pump off") != std::string::npos);
    CHECK(place(head, "Closed until then: lagoon") != std::string::npos);
    CHECK(place(head, "pool and spa contractor") != std::string::npos);
    CHECK(place(head, "A suction outlet can hold a person under water.") != std::string::npos);
    CHECK(place(head, "Basis: ") != std::string::npos);
    // Nothing but the name of the place, and who walked when, stands above it.
    CHECK(text.substr(0, danger) == "House by the lake Walked 2026-05-14 by an inspector. ");
}

void closes_first_in_html(assess::Assessment const& a, Case const& c)
{
    std::string const html = report::as_html(a, units::System::us, tests::layout());
    std::size_t const first = place(html, "<section");
    REQUIRE(first != std::string::npos);
    CHECK(html.compare(first, 24, "<section class=\"danger\" ") == 0);
    std::size_t const answer = place(html, "id=\"answer\"");
    REQUIRE(answer != std::string::npos);
    std::string const head = html.substr(first, answer - first);
    CHECK(place(head, capitalised(c.finding)) != std::string::npos);
    CHECK(place(head, "Get everyone out of the water now") != std::string::npos);
    CHECK(place(head, "<dd>lagoon</dd>") != std::string::npos);
    CHECK(place(head, "contractor") != std::string::npos);
}

void closes_first_in_json(assess::Assessment const& a, Case const& c)
{
    auto const j = Json::parse(report::as_json(a, units::System::us));
    CHECK(j["outcome"] == "unsafe");
    std::vector<std::string> keys;
    for (auto const& [key, value] : j.items())
        keys.push_back(key);
    REQUIRE(keys.size() > 3);
    CHECK(keys[0] == "outcome");
    CHECK(keys[1] == "alarms");
    CHECK(keys[2] == "summary");
    REQUIRE_FALSE(j["alarms"].empty());
    CHECK(j["alarms"][0]["urgency"] == "stop_use");
    auto const one = std::find_if(j["alarms"].begin(), j["alarms"].end(),
                                  [&](Json const& alarm) { return alarm["what"] == c.finding; });
    REQUIRE(one != j["alarms"].end());
    CHECK((*one)["closes"] == Json::array({"lagoon"}));
    CHECK((*one)["trade"] == "pool_service");
    CHECK((*one)["cautions"] == Json::array({"suction_entrapment"}));
    CHECK(j["cautions"].contains("suction_entrapment"));
    CHECK(std::any_of(j["referrals"].begin(), j["referrals"].end(),
                      [](Json const& r) { return r["trade"] == "pool_service" && r["urgency"] == "stop_use"; }));
    for (auto const& verdict : j["verdicts"])
    {
        std::string const item = j["items"][verdict["item"].get<std::size_t>()]["name"];
        if (item == "lagoon")
            CHECK(verdict["condition"] == "unsafe");
        if (item == "tub")
            CHECK(verdict["condition"] != "unsafe");
    }
}

} // namespace

TEST_CASE("a bad suction outlet closes its water before anything else in all three outputs", "[report][danger]")
{
    for (auto const& c : bad())
        for (bool const full : {false, true})
        {
            INFO(c.name << (full ? ", among other trouble" : ", all else well"));
            auto const a = tests::assessed(full ? troubled(c) : healthy(c));
            CHECK(a.outcome == assess::Outcome::unsafe);
            closes_first_in_text(a, c);
            closes_first_in_html(a, c);
            closes_first_in_json(a, c);
        }
}

TEST_CASE("a sound suction outlet raises no alarm of suction, whatever else is wrong", "[report][danger]")
{
    for (auto const& c : sound())
        for (bool const full : {false, true})
        {
            INFO(c.name << (full ? ", among other trouble" : ", all else well"));
            auto const j =
                Json::parse(report::as_json(tests::assessed(full ? troubled(c) : healthy(c)), units::System::us));
            for (auto const& alarm : j["alarms"])
                CHECK(alarm["closes"].empty());
            if (!full)
            {
                CHECK(j["alarms"].empty());
                CHECK(j["outcome"] != "unsafe");
                CHECK(place(report::as_text(tests::assessed(healthy(c)), {}), "Danger") == std::string::npos);
            }
        }
}

TEST_CASE("among several dangers gas and shock are said before suction, suction before the rest", "[report][danger]")
{
    auto const a = tests::assessed("waters: {lagoon: {kind: spa, temperature: 112 degF}}\n"
                                   "loops:\n  l:\n    serves: [lagoon]\n"
                                   "    filter: {noticed: [clamp loose]}\n"
                                   "    drains: {main: {noticed: [cover missing]}}\n"
                                   "heaters: {h: {energy: natural_gas, noticed: [smell of gas]}}\n"
                                   "electrical: {noticed: [got zapped by the ladder]}\n");
    std::vector<std::string> first;
    for (auto const& alarm : a.alarms)
        if (alarm.urgency == assess::Urgency::stop_use)
            first.push_back(a.findings[alarm.finding].id);
    std::vector<std::string> wanted{"heater_gas_smell", "electrical_tingling", "drain_cover_gone",
                                    "filter_clamp_loose"};
    REQUIRE(first.size() >= wanted.size());
    first.resize(wanted.size());
    CHECK(first == wanted);
    std::string const text = report::as_text(a, {});
    CHECK(place(text, "smell of gas") < place(text, "Cover missing"));
}
