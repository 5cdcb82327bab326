// What a technician found beside what the report said of it, and licence classes, as text, HTML and JSON.
#include "assessed.hpp"
#include "catch_compat.hpp"
#include "padwalk/report/html.hpp"
#include "padwalk/report/json.hpp"
#include "padwalk/report/text.hpp"
#include "report/layout.hpp"

#include <nlohmann/json.hpp>

using namespace padwalk;
using Json = nlohmann::ordered_json;

namespace
{

std::string one_line(std::string text)
{
    std::string out;
    for (char const c : text)
        if (!(c == ' ' || c == '\n') || (!out.empty() && out.back() != ' '))
            out += c == '\n' ? ' ' : c;
    return out;
}

std::string told(assess::Assessment const& a)
{
    return one_line(report::as_text(a));
}

bool has(std::string const& text, std::string const& what)
{
    return text.find(what) != std::string::npos;
}

assess::Assessment pump(std::string const& found)
{
    return tests::assessed("loops:\n  l:\n    pump: {noticed: [grinding noise], found: [" + found + "]}\n");
}

} // namespace

TEST_CASE("found: a section of its own says what was confirmed, ruled out, unknown, and what was said of it")
{
    auto const a = pump("worn bearings, {was_not: shaft seal leaking}, mouse nest in the timer");
    auto const text = told(a);
    CHECK(has(text, "What was found on site"));
    CHECK(has(text, "Motor bearings worn (pump of l)"));
    CHECK(has(text, "confirmed"));
    CHECK(has(text, "named as the likeliest"));
    CHECK(has(text, "ruled out"));
    CHECK(has(text, "not in the knowledge"));
    CHECK(has(text, "mouse nest in the timer"));
    CHECK(has(text, "What was found changes no chance in this report"));
    CHECK(has(report::as_html(a, units::System::us, tests::layout()), "What was found on site"));
}

TEST_CASE("found: without an entry nothing is said of it, and no class without a state")
{
    auto const a = pump("");
    CHECK_FALSE(has(told(a), "found on site"));
    CHECK_FALSE(has(told(a), "In California"));
    auto const json = Json::parse(report::as_json(a, units::System::us));
    CHECK(json["found"].empty());
    CHECK(json["referrals"][0]["licences"]["classes"].empty());
}

TEST_CASE("found: as JSON, with the chance, the rank and how it was understood")
{
    auto const json =
        Json::parse(report::as_json(pump("worn bearings, {was_not: impeller clogged}, capacitor"), units::System::us));
    REQUIRE(json["found"].size() == 3);
    auto const& first = json["found"][0];
    CHECK(json["items"][first["item"].get<std::size_t>()]["name"] == "pump of l");
    CHECK(first["cause"] == "pump_bearings_worn");
    CHECK(first["words"] == "worn bearings");
    CHECK(first["was"] == true);
    CHECK(first["meaning"] == "cause");
    CHECK(first["rank"] == 1);
    CHECK(first["probability"] == json["causes"][0]["probability"]);
    CHECK(json["found"][1]["was"] == false);
    CHECK(json["found"][2]["meaning"] == "unclear");
    CHECK(json["found"][2]["may_mean"].size() >= 2);
    CHECK(json["found"][2]["probability"].is_null());
    CHECK(json["questions"].size() == 1);
}

TEST_CASE("found: a danger that was there is said first, with its cautions")
{
    auto const a =
        tests::assessed("heaters:\n  h: {energy: natural_gas, found: [{was: hole in the heat exchanger}]}\n");
    auto const text = told(a);
    CHECK(has(text, "Not safe to use as it stands: found on site, unless it was put right since: hole in the heat "
                    "exchanger (h)"));
    CHECK(has(text, "Unless it was put right since"));
    CHECK(text.find("Danger: act on this first") < text.find("In short"));
    CHECK(has(text, "h: not safe to use; found on site: hole in the heat exchanger"));
    REQUIRE_FALSE(a.found.at(0).cautions.empty());
    for (auto const& caution : a.cautions)
        CHECK(has(text, one_line(caution.second).substr(0, 40)));
}

TEST_CASE("found: words are shown as written and escaped")
{
    auto const a = pump("\"<b>mouse</b> nest & straw\"");
    auto const page = report::as_html(a, units::System::us, tests::layout());
    CHECK(has(page, "&lt;b&gt;mouse&lt;/b&gt; nest &amp; straw"));
    CHECK_FALSE(has(page, "<b>mouse"));
}

TEST_CASE("licences: each trade to call says its class in that state, and which is not confirmed")
{
    auto const a = tests::assessed("licences: california\nloops:\n  l:\n    pump: {noticed: [grinding noise]}\n");
    auto const text = told(a);
    CHECK(has(text, "In California: C-53 Swimming Pool, or C-61/D-35 Pool and Spa Maintenance (from memory, not "
                    "confirmed)"));
    CHECK(has(text, "Local rules decide"));
    auto const json = Json::parse(report::as_json(a, units::System::us));
    auto const& classes = json["referrals"][0]["licences"]["classes"];
    CHECK(classes[0]["name"] == "C-53 Swimming Pool");
    CHECK(classes[0]["seen"] == "");
    CHECK(classes[1]["seen"] == "from memory, not confirmed");
}
