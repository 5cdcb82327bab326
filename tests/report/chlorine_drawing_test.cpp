// The drawing of free chlorine beside cyanurate.
#include "../../src/report/chlorine_drawing.hpp"

#include "report/layout.hpp"
#include "report/water_drawn.hpp"

#include <limits>

using namespace padwalk;
using assess::ChlorineStanding;
using Catch::Matchers::WithinAbs;
using tests::all_words;
using tests::count_kind;
using tests::of_kind;
using tests::read;
using tests::scenario_waters;

namespace
{

std::string svg_of(ChlorineStanding const& c, units::System system = units::System::us)
{
    return report::chlorine_drawing(c, system, "c").svg;
}

ChlorineStanding const& cloudy()
{
    return *scenario_waters()[1].waters.at(0).chlorine;
}

ChlorineStanding const& well()
{
    return *scenario_waters()[0].waters.at(0).chlorine;
}

template <class Q> units::Measured<Q> measured(double ppm, double doubt)
{
    return {units::of_si<Q>(ppm * 1e-3), units::of_si<Q>(doubt * 1e-3), "made"};
}

ChlorineStanding with(double free, double free_doubt, double held, double held_doubt)
{
    ChlorineStanding out = well();
    out.free_chlorine = measured<units::AsChlorine>(free, free_doubt);
    out.cyanurate = measured<units::AsCyanuricAcid>(held, held_doubt);
    return out;
}

ChlorineStanding without_cyanurate()
{
    auto const report =
        tests::water_report(tests::pool_tested("kit: photometer, ph: 7.5, free_chlorine: 0.4 ppm, alkalinity: 95 ppm, "
                                               "calcium: 300 ppm"));
    return report.waters.at(0).chlorine.value();
}

void check_in_bounds(std::string const& svg)
{
    auto const elements = read(svg);
    tests::check_readable(elements);
    for (auto const& e : elements)
        if (e.name == "polyline" || e.name == "polygon")
            for (auto const& [x, y] : tests::points_of(e))
            {
                CHECK(x >= 40);
                CHECK(x <= 304);
                CHECK(y >= 34);
                CHECK(y <= 304 + 6); // the arrow of a mark on the lower edge
            }
        else if (e.name == "circle")
        {
            CHECK(e.number("cx") >= 40);
            CHECK(e.number("cx") <= 304);
            CHECK(e.number("cy") >= 34);
            CHECK(e.number("cy") <= 304);
        }
}

} // namespace

TEST_CASE("the chlorine of each scenario's water is drawn well-formed, named, in bounds and large enough to read",
          "[report][water][drawing]")
{
    for (auto const& report : scenario_waters())
        for (auto const& sheet : report.waters)
            for (auto const system : {units::System::us, units::System::si})
                if (sheet.chlorine)
                    check_in_bounds(svg_of(*sheet.chlorine, system));
}

TEST_CASE("the water stands where its readings say, above the band's foot and left of the corner",
          "[report][water][drawing]")
{
    for (auto const system : {units::System::us, units::System::si})
    {
        auto const svg = svg_of(well(), system);
        auto const elements = read(svg);
        auto const across = tests::scale_of(elements, "x", "middle");
        auto const up = tests::scale_of(elements, "y", "end", -4);
        auto const dot = of_kind(elements, "circle", "solid");
        REQUIRE(dot.size() == 1);
        CHECK_THAT(dot[0].number("cx"), WithinAbs(across.of(35), 0.2));
        CHECK_THAT(dot[0].number("cy"), WithinAbs(up.of(3.5), 0.2));
        auto const band = of_kind(elements, "rect", "band");
        REQUIRE(band.size() == 1);
        CHECK_THAT(band[0].number("y"), WithinAbs(up.of(10), 0.2));
        CHECK_THAT(band[0].number("y") + band[0].number("height"), WithinAbs(up.of(2), 0.2));
        auto const words = all_words(svg);
        INFO(words);
        bool const us = system == units::System::us;
        for (auto const* part : {us ? "free chlorine, ppm" : "free chlorine, mg/L", "stabilizer (cyanurate), ",
                                 "here: 3.5 ± ", us ? "2 to 10 ppm" : "2 to 10 mg/L", "too little", "like 0.1"})
        {
            INFO(part);
            CHECK(words.find(part) != std::string::npos);
        }
        CHECK(count_kind(elements, "text", "alert") == 2); // 'too little' of the corner, and nothing else
    }
}

TEST_CASE("the corner ends at the published ratio, 45 parts of cyanurate to one of free chlorine [cmahc-2023]",
          "[report][water][drawing]")
{
    auto const drawing = report::chlorine_drawing(well(), units::System::us, "c");
    auto const elements = read(drawing.svg);
    auto const across = tests::scale_of(elements, "x", "middle");
    auto const up = tests::scale_of(elements, "y", "end", -4);
    auto const corner = of_kind(elements, "polygon", "alert");
    REQUIRE(corner.size() == 1);
    auto const points = tests::points_of(corner[0]);
    CHECK_THAT(points[0].first, WithinAbs(across.of(0), 0.2));
    CHECK_THAT(points[0].second, WithinAbs(up.of(0), 0.2));
    CHECK_THAT(points[1].second, WithinAbs(up.of((points[1].first - across.at0) / across.per_unit / 45), 0.2));
    for (auto const* part : {"45 parts", "Model Aquatic Health Code, 4th edition [cmahc-2023]",
                             "California [california-22-ccr-65529]", "kills as fast as the ppm"})
    {
        INFO(part << " in " << drawing.caption);
        CHECK(drawing.caption.find(part) != std::string::npos);
    }
}

TEST_CASE("a reading beyond its scale runs on to the edge and says so", "[report][water][drawing]")
{
    CHECK(cloudy().cyanurate_is == assess::ScaleEnd::at_least);
    auto const svg = svg_of(cloudy());
    auto const words = all_words(svg);
    INFO(words);
    CHECK(words.find("stabilizer at least 190 ppm") != std::string::npos);
    CHECK(count_kind(read(svg), "text", "alert") > 2);
    double furthest = 0;
    for (auto const& e : of_kind(read(svg), "polyline", "edge"))
        for (auto const& [x, y] : tests::points_of(e))
            furthest = std::max(furthest, x);
    CHECK_THAT(furthest, WithinAbs(304, 0.2));
    auto low = cloudy();
    low.cyanurate = measured<units::AsCyanuricAcid>(10, 5);
    low.cyanurate_is = assess::ScaleEnd::at_most;
    CHECK(all_words(svg_of(low)).find("stabilizer at most 10 ppm") != std::string::npos);
    check_in_bounds(svg_of(low));
}

TEST_CASE("where cyanurate is not known there is free chlorine alone, and that it is not known",
          "[report][water][drawing]")
{
    auto const c = without_cyanurate();
    CHECK_FALSE(c.cyanurate);
    CHECK(c.equal_work.empty());
    auto const svg = svg_of(c);
    check_in_bounds(svg);
    auto const words = all_words(svg);
    INFO(words);
    for (auto const* part : {"here: 0.4", "2 to 10 ppm", "is not known"})
        CHECK(words.find(part) != std::string::npos);
    CHECK(words.find("too little") == std::string::npos);
    CHECK(count_kind(read(svg), "polygon", "alert") == 0);
    CHECK(count_kind(read(svg), "text", "alert") > 0);
}

TEST_CASE("what is drawn and what stands for those who can't see it agree on chlorine", "[report][water][drawing]")
{
    auto desc = [](ChlorineStanding const& c) { return read(svg_of(c)).at(2).text; };
    CHECK(desc(well()).find("this is within") != std::string::npos);
    CHECK(desc(cloudy()).find("this is too little") != std::string::npos);
    CHECK(desc(cloudy()).find("For this much stabilizer there is too little chlorine") != std::string::npos);
    CHECK(desc(with(12, 1, 40, 5)).find("this is too much") != std::string::npos);
}

TEST_CASE("no doubt, none at all, huge and lawless waters: a chlorine's drawing stays readable",
          "[report][water][drawing]")
{
    auto lawless = with(3, 0.2, 30, 5);
    lawless.least = lawless.most = std::nullopt;
    lawless.most_cyanurate = std::nullopt;
    auto no_most = with(3, 0.2, 30, 5);
    no_most.most = std::nullopt;
    for (auto const& c : {with(3, 0, 30, 0), with(0, 0, 0, 0), with(0, 0.1, 0, 5), with(400, 100, 3000, 900),
                          with(0.1, 0.1, 3000, 10), with(60, 1, 20, 2), lawless, no_most})
        for (auto const system : {units::System::us, units::System::si})
            check_in_bounds(svg_of(c, system));
}

TEST_CASE("numbers that are none give no drawing of chlorine, and hostile words do it no harm",
          "[report][water][drawing]")
{
    double const none = std::numeric_limits<double>::quiet_NaN(), endless = std::numeric_limits<double>::infinity();
    for (double const bad : {none, endless})
    {
        CHECK(svg_of(with(bad, 0, 30, 5)).empty());
        CHECK(svg_of(with(3, bad, 30, 5)).empty());
        CHECK(svg_of(with(3, 0.2, bad, 5)).empty());
    }
    auto c = with(3, 0.2, 30, 5);
    c.equal_work.at(0).line.at(1).free_chlorine = units::of_si<units::AsChlorine>(none);
    c.least_of = tests::nasty;
    tests::check_harmless(svg_of(c));
    auto report = scenario_waters()[0];
    report.waters[0].chlorine = c;
    auto const html = report::as_html(report, units::System::us, tests::layout());
    CHECK(html.find("<script") == std::string::npos);
}
