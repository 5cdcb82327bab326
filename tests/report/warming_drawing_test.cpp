// The drawing of a heat-up, read back from the page that it stands in, and its section and JSON.
#include "assessed.hpp"
#include "catch_compat.hpp"
#include "padwalk/report/html.hpp"
#include "padwalk/report/json.hpp"
#include "padwalk/report/text.hpp"
#include "report/drawing_checks.hpp"
#include "report/layout.hpp"

#include <nlohmann/json.hpp>

#include <limits>

using namespace padwalk;
using Json = nlohmann::ordered_json;
using Elements = std::vector<tests::Element>;

namespace
{

assess::Assessment of(std::string const& air, std::string const& water, std::string const& heater)
{
    return tests::assessed(air + "waters:\n  water: {" + water +
                           "}\nloops:\n  l: {serves: [water]}\nheaters:\n  h: " + "{loop: l, " + heater + "}\n");
}

std::string const mild = "electricity_price: 0.2\ngas_price: 1.6\nair_temperature: 62 degF\nhumidity: 50 %\n";
std::string const rough = "electricity_price: 0.2\nair_temperature: 40 degF\nhumidity: 40 %\nwind: 8 mph\n";
std::string const spa = "kind: spa, volume: 380 gal, area: 38 ft2, temperature: ";
std::string const pool = "kind: pool, volume: 20000 gal, area: 500 ft2, covered: no, temperature: ";
std::string const element = "energy: electric_element, input: 5.5 kW";

std::vector<assess::Assessment> const& many()
{
    static std::vector<assess::Assessment> const list{
        of(mild, spa + "80 degF, covered: yes", element),
        of(rough, spa + "71 degF, covered: no", element),                     // stops short
        of(rough, spa + "100 degF, covered: no", element),                    // cools
        of("", spa + "60 degF", element),                                     // no losses
        of(mild, pool + "60 degF", "energy: natural_gas, input: 300 kBtu/h"), // a day
        of(mild, pool + "60 degF, wanted_temperature: 84 degF", "energy: heat_pump, input: 6 kW, cop: 5"), // many days
        of(mild, spa + "100 degF, covered: yes", element), // nearly there
        of(mild, spa + "40 degF, covered: yes", "energy: natural_gas, input: 3000 kBtu/h")};
    return list;
}

std::vector<std::string> drawn(assess::Assessment const& a, units::System system = units::System::us)
{
    std::vector<std::string> out;
    for (auto const& svg : tests::drawings_of(report::as_html(a, system, tests::layout())))
        if (svg.find("Heat-up of") != std::string::npos)
            out.push_back(svg);
    return out;
}

Elements read(std::string const& svg)
{
    return tests::XmlReader(svg).elements();
}

std::string words(Elements const& elements)
{
    std::string out;
    for (auto const& e : elements)
        if (e.name == "text")
            out += e.text + " ";
    for (std::size_t at = out.find("\u00a0"); at != std::string::npos; at = out.find("\u00a0", at))
        out.replace(at, 2, " ");
    return out;
}

std::string section(assess::Assessment const& a)
{
    std::string text = report::as_text(a, {});
    for (auto& c : text)
        c = c == '\n' ? ' ' : c;
    for (std::size_t at = text.find("  "); at != std::string::npos; at = text.find("  ", at))
        text.erase(at, 1);
    std::size_t const start = text.find("Warming the water ");
    return start == std::string::npos ? "" : text.substr(start, text.find(" Figures ", start) - start);
}

} // namespace

TEST_CASE("every drawing of a heat-up is well-formed, named, in bounds and large enough to read", "[report][warming]")
{
    for (std::size_t n = 0; n < many().size(); ++n)
        for (auto const system : {units::System::us, units::System::si})
        {
            INFO("case " << n);
            auto const svgs = drawn(many()[n], system);
            REQUIRE(svgs.size() == 1);
            auto const elements = read(svgs[0]);
            tests::check_readable(elements);
            for (auto const& e : elements)
            {
                if (e.name == "polyline" || e.name == "polygon")
                    for (auto const& [x, y] : tests::points_of(e))
                    {
                        CHECK(x >= 40);
                        CHECK(x <= 346);
                        CHECK(y >= 34);
                        CHECK(y <= 282);
                    }
            }
        }
}

TEST_CASE("the run stands where its numbers say, in the reader's units", "[report][warming]")
{
    for (auto const system : {units::System::us, units::System::si})
    {
        bool const us = system == units::System::us;
        auto const& a = many()[0];
        auto const elements = read(drawn(a, system).at(0));
        std::vector<tests::Element> across, up;
        double end_x = 0, end_y = 0, start_y = 0;
        for (auto const& e : elements)
        {
            bool const tick =
                e.name == "text" && e.number("font-size") == 12 && e.text.find_first_of("0123456789") == 0;
            if (tick && e.attributes.at("text-anchor") == "middle")
                across.push_back(e);
            else if (tick)
                up.push_back(e);
            if (e.name == "circle" && e.is("solid"))
                end_x = e.number("cx"), end_y = e.number("cy");
            if (e.name == "circle" && e.is("part"))
                start_y = e.number("cy");
        }
        REQUIRE(across.size() >= 3);
        REQUIRE(up.size() >= 3);
        double const hour = (across.back().number("x") - across.front().number("x")) / std::stod(across.back().text);
        double const degree =
            (up.back().number("y") - up.front().number("y")) / (std::stod(up.back().text) - std::stod(up.front().text));
        double const hours = *a.warmings[0].as_found.time->value / 3600;
        CHECK_THAT(end_x, Catch::Matchers::WithinAbs(across.front().number("x") + hour * hours, 0.2));
        auto const at = [&](double t)
        { return up.front().number("y") - 4 + degree * (t - std::stod(up.front().text)); };
        CHECK_THAT(end_y, Catch::Matchers::WithinAbs(at(us ? 104 : 40), 0.3));
        CHECK_THAT(start_y, Catch::Matchers::WithinAbs(at(us ? 80 : 80 / 1.8 - 32 / 1.8), 0.3));
        auto const all = words(elements);
        for (auto const* part : {us ? "wanted 104 °F" : "wanted 40 °C", us ? "now 80 °F" : "now 27 °C", "likely after ",
                                 us ? "water, °F" : "water, °C", "hours of heating", "fast", "slow"})
        {
            INFO(part << " in " << all);
            CHECK(all.find(part) != std::string::npos);
        }
    }
}

TEST_CASE("the likely run lies in the band, and where it stops short a line says so", "[report][warming]")
{
    auto const svg = drawn(many()[1]).at(0);
    auto const elements = read(svg);
    CHECK(words(elements).find("stops at about ") != std::string::npos);
    CHECK(words(elements).find("likely after") == std::string::npos);
    std::size_t alert = 0, band = 0;
    double top = 1e9, bottom = 0, line = 0;
    for (auto const& e : elements)
    {
        alert += e.name == "polyline" && e.is("alert") && e.is("broken") ? 1U : 0U;
        if (e.name == "polygon" && e.is("band"))
        {
            ++band;
            for (auto const& [x, y] : tests::points_of(e))
                top = std::min(top, y), bottom = std::max(bottom, y);
        }
        if (e.name == "polyline" && e.is("line"))
            line = tests::points_of(e).back().second;
    }
    CHECK(alert == 1);
    REQUIRE(band == 1);
    CHECK(line > top);
    CHECK(line < bottom);
    CHECK(words(read(drawn(many()[0]).at(0))).find("stops at") == std::string::npos);
}

TEST_CASE("where hours would be too many the axis is in days", "[report][warming]")
{
    CHECK(words(read(drawn(many()[5]).at(0))).find("days of heating") != std::string::npos);
    CHECK(words(read(drawn(many()[4]).at(0))).find("hours of heating") != std::string::npos);
}

TEST_CASE("the section tells time, energy, cost, month and cover, and what it took", "[report][warming]")
{
    auto const covered = section(many()[0]);
    INFO(covered);
    for (auto const* part : {"Water, by h: from 80 °F to 104 °F: ", "Energy: ", "losses included",
                             "Cost: ", "Loss when warm: ", "A month of it: ", "Uncovered: ", "with jets running",
                             "Likely: 80 °F now", "The cover is on all the while", "hottest water for a spa"})
    {
        INFO(part);
        CHECK(covered.find(part) != std::string::npos);
    }
    auto const stops = section(many()[1]);
    CHECK(stops.find("to 104 °F: never; it stops at about ") != std::string::npos);
    CHECK(stops.find("Under a cover: ") != std::string::npos);
    CHECK(stops.find("Cost: ") == std::string::npos);
    auto const shortest = section(many()[3]);
    CHECK(shortest.find(": at least ") != std::string::npos);
    CHECK(shortest.find("losses left out") != std::string::npos);
    CHECK(shortest.find("A month") == std::string::npos);
    CHECK(section(tests::assessed("by: owner\n")).empty());
}

TEST_CASE("warmings stand in JSON with intervals, curves and basis", "[report][warming]")
{
    auto const j = Json::parse(report::as_json(many()[0], units::System::si));
    REQUIRE(j["warmings"].size() == 1);
    auto const& w = j["warmings"][0];
    CHECK(j["items"][w["water"].get<std::size_t>()]["kind"] == "water");
    CHECK(j["items"][w["heater"].get<std::size_t>()]["kind"] == "heater");
    CHECK(w["as_found"]["time"]["unit"] == "h");
    CHECK(w["as_found"]["time"]["low"].get<double>() < w["as_found"]["time"]["value"].get<double>());
    CHECK(w["as_found"]["cost"]["value"].get<double>() > 0);
    CHECK(w["other_cover"]["loss"]["value"].get<double>() > w["as_found"]["loss"]["value"].get<double>());
    REQUIRE(w["likely"].size() >= 5);
    CHECK(w["likely"].front()["time"]["value"] == 0);
    CHECK_THAT(w["likely"].back()["time"]["value"].get<double>(),
               Catch::Matchers::WithinRel(w["as_found"]["time"]["value"].get<double>(), 1e-6));
    CHECK_FALSE(w["basis"].empty());
    CHECK(w["without_losses"] == false);
    auto const stops = Json::parse(report::as_json(many()[1], units::System::si));
    CHECK(stops["warmings"][0]["stops_at"]["value"].get<double>() < 40);
    CHECK(Json::parse(report::as_json(tests::assessed("by: owner\n"), units::System::us))["warmings"].empty());
}

TEST_CASE("numbers that are none and names that are hostile do a heat-up's drawing no harm", "[report][warming]")
{
    double const none = std::numeric_limits<double>::quiet_NaN(), endless = std::numeric_limits<double>::infinity();
    for (auto const bad : {none, endless})
    {
        auto a = many()[0];
        auto& w = a.warmings.at(0);
        w.fast.at(3).time = units::of_si<units::Duration>(bad);
        w.slow.back().water = units::of_si<units::Temperature>(bad);
        a.items[w.water].name = "</svg><script>alert(1)</script> & \x1b[31m 水";
        auto const svgs = tests::drawings_of(report::as_html(a, units::System::us, tests::layout()));
        for (auto const& svg : svgs)
        {
            CHECK_NOTHROW(read(svg));
            for (auto const* part : {"nan", "=\"inf", "<script"})
                CHECK(svg.find(part) == std::string::npos);
        }
        CHECK_FALSE(svgs.empty());
        w.likely.at(2).time = units::of_si<units::Duration>(bad);
        CHECK_NOTHROW(report::as_html(a, units::System::us, tests::layout())); // without a run there is no drawing
    }
    auto a = many()[0];
    a.warmings[0].likely.clear();
    CHECK(drawn(a).empty());
    a.warmings[0].water = a.warmings[0].heater = 999;
    CHECK_NOTHROW(report::as_text(a, {}));
}
