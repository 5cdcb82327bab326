// The drawing of a level that was watched, read back from its page; its card, its terminal text and its JSON.
#include "assessed.hpp"
#include "padwalk/report/html.hpp"
#include "padwalk/report/json.hpp"
#include "padwalk/report/text.hpp"
#include "report/drawing_checks.hpp"
#include "report/layout.hpp"

#include <nlohmann/json.hpp>

#include <cmath>

using namespace padwalk;
using Json = nlohmann::ordered_json;

namespace
{

using Elements = std::vector<tests::Element>;

assess::Assessment watched(std::string const& history, std::string const& more = "")
{
    return tests::assessed("air_temperature: 75 degF\nhumidity: 50 %\nwind: 2 mph\nwaters:\n  pool: {kind: pool, area: "
                           "400 ft2, temperature: 80 degF, level_history: [" +
                           history + "]" + more + "}\n");
}

std::string mark(std::string const& at, std::string const& drop, std::string const& more = "")
{
    return "{at: 2026-06-" + at + ", drop: " + drop + " in, fill: off" + (more.empty() ? "" : ", " + more) + "}";
}

std::vector<assess::Assessment> const& many()
{
    static std::vector<assess::Assessment> const list{
        watched(mark("01 08:00", "0") + ", " + mark("02 08:00", "0.25")),
        watched(mark("01 08:00", "0") + ", " + mark("01 14:00", "0.1", "pump: on") + ", " +
                mark("01 20:00", "2.4", "pump: off")),
        watched(mark("01 08:00", "0") + ", " + mark("04 08:00", "3.75", "pump: on") + ", " +
                mark("09 08:00", "5", "pump: off, filled: 300 gal ± 20 gal")),
        watched(mark("01", "0") + ", " + mark("20", "40")),
        watched(mark("01 08:00", "0") + ", " + mark("02 08:00", "-2", "rain: 2.2 in ± 0.2 in") + ", " +
                mark("03 08:00", "-1.6")),
        watched(mark("01 08:00", "0") + ", " + mark("02 08:00", "2", "pump: on"),
                ", bucket_test: {pool_drop: 0.4 in, bucket_drop: 0.2 in, elapsed: 24 h, pump: off, fill: off}")};
    return list;
}

Elements drawn(assess::Assessment const& a, units::System system = units::System::us)
{
    auto const svgs = tests::drawings_of(report::as_html(a, system, tests::layout()));
    REQUIRE(svgs.size() == 1);
    return tests::XmlReader(svgs[0]).elements();
}

} // namespace

TEST_CASE("every drawing of a level is well-formed, named, in bounds, and its texts are apart", "[report][level]")
{
    for (std::size_t n = 0; n < many().size(); ++n)
        for (auto const system : {units::System::us, units::System::si})
        {
            INFO("case " << n);
            auto const elements = drawn(many()[n], system);
            tests::check_readable(elements);
            CHECK(elements[1].text == "The level over time");
            for (auto const& e : elements)
                if (e.name == "polyline" || e.name == "polygon")
                    for (auto const& [x, y] : tests::points_of(e))
                    {
                        CHECK(x >= 46);
                        CHECK(x <= 346.1);
                        CHECK(y >= 34);
                        CHECK(y <= 276);
                    }
        }
}

TEST_CASE("each mark of a level has its dot, and the drawing falls as the level does", "[report][level]")
{
    auto const elements = drawn(many()[2]);
    std::vector<double> heights;
    for (auto const& e : elements)
        if (e.name == "circle")
            heights.push_back(e.number("cy"));
    REQUIRE(heights.size() == 3);
    CHECK(heights[0] < heights[1]);
    CHECK(heights[1] < heights[2]);
    CHECK(std::abs((heights[1] - heights[0]) / (heights[2] - heights[0]) - 3.75 / 5) < 0.01);
}

TEST_CASE("a bucket test beside a history moves nothing that was not watched", "[report][level]")
{
    auto const& level = many()[5].levels.at(0);
    REQUIRE(level.record.marks.size() == 4);
    double const before = units::in_si(level.balance.foretold[1].fall.value);
    double const after = units::in_si(level.balance.foretold[2].fall.value);
    // The hour between them evaporates and no more.
    CHECK(after >= before);
    CHECK(after - before < 0.002);
}

TEST_CASE("a level stands in the terminal and in JSON too", "[report][level]")
{
    auto const& a = many()[1];
    auto const text = report::as_text(a, {units::System::us});
    CHECK(text.find("The level") != std::string::npos);
    CHECK(text.find("To watch longer") != std::string::npos);
    auto const json = Json::parse(report::as_json(a, units::System::si));
    auto const& level = json.at("levels").at(0);
    CHECK(level.at("marks").size() == 3);
    CHECK(level.at("leak").at("median").at("unit") == "mm/day");
    CHECK(level.at("log_odds_of_leak").get<double>() > 0);
}
