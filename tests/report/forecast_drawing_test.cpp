// The drawing of what the readings of a water do by themselves.
#include "../../src/report/forecast_drawing.hpp"

#include "report/layout.hpp"
#include "report/water_drawn.hpp"

#include <cmath>
#include <limits>

using namespace padwalk;
using chemistry::Followed;
using tests::all_words;
using tests::count_kind;
using tests::of_kind;
using tests::read;
using tests::scenario_waters;

namespace
{

std::string svg_of(assess::WaterSheet const& sheet, units::System system = units::System::us)
{
    return report::forecast_drawing(sheet, system, "f").svg;
}

assess::WaterSheet const& cloudy()
{
    return scenario_waters()[1].waters.at(0);
}

assess::WaterSheet pool(double days)
{
    auto const report = tests::water_report(
        tests::pool_tested("kit: laboratory, ph: 7.5, free_chlorine: 4 ppm, alkalinity: 95 ppm, calcium: 300 ppm, "
                           "cyanurate: 40 ppm, salt: 700 ppm"),
        units::System::us, days);
    return report.waters.at(0);
}

// The panels of a drawing, one below the other: where each has its lower edge.
std::vector<double> feet(std::vector<tests::Element> const& elements)
{
    std::vector<double> out;
    for (auto const& e : elements)
        if (e.name == "line" && e.is("edge") && e.number("x1") == 46 && e.number("x2") == 350)
            out.push_back(e.number("y1"));
    return out;
}

void check_in_bounds(std::string const& svg)
{
    auto const elements = read(svg);
    tests::check_readable(elements);
    auto const ends = feet(elements);
    for (auto const* kind : {"line", "doubt"})
    {
        auto const found = of_kind(elements, std::string(kind) == "line" ? "polyline" : "polygon", kind);
        REQUIRE(found.size() == ends.size());
        for (std::size_t i = 0; i < found.size(); ++i)
            for (auto const& [x, y] : tests::points_of(found[i]))
            {
                CHECK(x >= 46);
                CHECK(x <= 350);
                CHECK(y <= ends[i] + 0.1);
                CHECK(y >= ends[i] - 74.1);
            }
    }
}

} // namespace

TEST_CASE("the forecast of each scenario's water is drawn well-formed, named, in bounds and large enough to read",
          "[report][water][drawing]")
{
    std::size_t drawn = 0;
    for (auto const& report : scenario_waters())
        for (auto const& sheet : report.waters)
            for (auto const system : {units::System::us, units::System::si})
                if (auto const svg = svg_of(sheet, system); !svg.empty())
                {
                    check_in_bounds(svg);
                    ++drawn;
                }
    CHECK(drawn == 6);
}

TEST_CASE("there is a panel for each reading that leaves its band, and its line is the forecast's own",
          "[report][water][drawing]")
{
    auto const elements = read(svg_of(cloudy()));
    auto const words = all_words(svg_of(cloudy()));
    INFO(words);
    auto const& forecast = *cloudy().forecast;
    auto const lines = of_kind(elements, "polyline", "line");
    REQUIRE_FALSE(lines.empty());
    for (auto const& exit : forecast.exits)
        if (exit.early)
        {
            auto const text = "Out of band: " + chemistry::exit_in_words(exit, cloudy().ahead);
            INFO(text);
            CHECK(words.find(text.substr(0, 30)) != std::string::npos);
        }
    // The first panel is pH: read back by the ticks of its own axis.
    double const foot = feet(elements).front();
    std::vector<tests::Element> first;
    for (auto const& e : elements)
        if (e.name == "text" && e.number("y") < foot + 10)
            first.push_back(e);
    auto const scale = tests::scale_of(first, "y", "end", -4);
    auto const points = tests::points_of(lines.front());
    REQUIRE(points.size() == forecast.days.size());
    for (std::size_t i = 0; i < points.size(); ++i)
    {
        CHECK_THAT(points[i].second, Catch::Matchers::WithinAbs(scale.of(forecast.days[i].ph.median.value()), 0.3));
        double const day = units::in_si(forecast.days[i].at) / units::exact::day;
        CHECK_THAT(points[i].first, Catch::Matchers::WithinAbs(46 + 304 * day / 30, 0.2));
    }
}

TEST_CASE("the day on which a band is likely left is marked in each panel that has one, and in no other",
          "[report][water][drawing]")
{
    for (auto const& report : scenario_waters())
        for (auto const& sheet : report.waters)
        {
            auto const svg = svg_of(sheet);
            if (svg.empty())
                continue;
            std::size_t likely = 0;
            auto const words = all_words(svg);
            INFO(words);
            for (auto const& exit : sheet.forecast->exits)
                if (exit.likely)
                {
                    ++likely;
                    long const day = std::lround(units::in_si(*exit.likely) / units::exact::day);
                    CHECK(words.find("out from day " + std::to_string(day)) != std::string::npos);
                }
            CHECK(count_kind(read(svg), "polyline", "alert") == likely);
            CHECK(count_kind(read(svg), "text", "alert") == likely);
        }
}

TEST_CASE("a reading that neither moves nor leaves its band has no panel", "[report][water][drawing]")
{
    auto sheet = pool(30);
    for (auto& day : sheet.forecast->days)
    {
        day.ph = sheet.forecast->days.front().ph;
        day.salt = sheet.forecast->days.front().salt;
    }
    for (auto& exit : sheet.forecast->exits)
        exit.early = exit.likely = exit.late = std::nullopt;
    auto const words = all_words(svg_of(sheet));
    INFO(words);
    CHECK(words.find("pH") == std::string::npos);
    CHECK(words.find("Salt") == std::string::npos);
    CHECK(words.find("Free chlorine, ppm") != std::string::npos);
}

TEST_CASE("units are the reader's, and days count from the end of a plan or from now", "[report][water][drawing]")
{
    CHECK(all_words(svg_of(cloudy(), units::System::si)).find("Calcium hardness, mg/L") != std::string::npos);
    CHECK(all_words(svg_of(cloudy())).find("days after the last step") != std::string::npos);
    auto sheet = cloudy();
    sheet.plan.reset();
    CHECK(all_words(svg_of(sheet)).find("days from now") != std::string::npos);
}

TEST_CASE("one day, many days, no doubt, no band, huge values: a forecast's drawing stays readable",
          "[report][water][drawing]")
{
    check_in_bounds(svg_of(pool(1)));
    check_in_bounds(svg_of(pool(400)));
    auto sheet = pool(30);
    for (auto& day : sheet.forecast->days)
        day.ph.low = day.ph.high = day.ph.median;
    sheet.bands.clear();
    check_in_bounds(svg_of(sheet));
    for (auto& day : sheet.forecast->days)
        day.calcium.high = day.calcium.median = day.calcium.high * 1e2;
    check_in_bounds(svg_of(sheet));
}

TEST_CASE("without a forecast, or with numbers that are none, a forecast's drawing does no harm",
          "[report][water][drawing]")
{
    auto sheet = pool(10);
    auto days = sheet.forecast->days;
    sheet.forecast->days.resize(1);
    CHECK(svg_of(sheet).empty());
    sheet.forecast->days.clear();
    CHECK(svg_of(sheet).empty());
    sheet.forecast->days = days;
    double const none = std::numeric_limits<double>::quiet_NaN(), endless = std::numeric_limits<double>::infinity();
    for (auto const bad : {none, endless})
    {
        auto worse = sheet;
        worse.forecast->days.at(2).ph.median = units::Ph::from_value(bad);
        worse.forecast->days.back().calcium.high = units::of_si<units::AsCalciumCarbonate>(bad);
        worse.bands.at(0).low->value = bad;
        for (auto& exit : worse.forecast->exits)
            exit.likely = units::Duration::from_value(bad);
        tests::check_harmless(svg_of(worse));
    }
    sheet.forecast.reset();
    CHECK(svg_of(sheet).empty());
}

TEST_CASE("the owner's page shows the pictures of its water, and the terminal says nothing twice",
          "[report][water][drawing]")
{
    auto const& report = scenario_waters()[1];
    auto const html = report::as_html(report, units::System::us, tests::layout());
    std::vector<std::string> titles;
    for (auto const& svg : tests::drawings_of(html))
        titles.push_back(read(svg).at(1).text);
    CHECK(titles == std::vector<std::string>{"Chlorine and stabilizer", "The saturation index along the water's way",
                                             "The water in the days to come"});
    CHECK(html.find("<svg", html.find("id=\"forecast-")) < html.find("<table", html.find("id=\"forecast-")));
    auto const text = report::as_text(report, {});
    CHECK(text.find("kills as fast") == std::string::npos);
    CHECK(text.find("out from day") == std::string::npos);
}
