// The drawing of the saturation index along the water's way.
#include "../../src/report/saturation_drawing.hpp"

#include "report/water_drawn.hpp"

#include <limits>

using namespace padwalk;
using tests::all_words;
using tests::count_kind;
using tests::of_kind;
using tests::read;
using tests::scenario_waters;
using units::Number;

namespace
{

std::string svg_of(assess::SaturationWay const& way, units::System system = units::System::us)
{
    return report::saturation_drawing(way, system, "s").svg;
}

assess::SaturationPlace place(std::string name, double index, double low, double high)
{
    return {std::move(name), units::Temperature::from_value(300), Number::from_value(index), Number::from_value(low),
            Number::from_value(high)};
}

assess::SaturationWay way(std::vector<assess::SaturationPlace> places)
{
    return {std::move(places), Number::from_value(-0.3), Number::from_value(0.5), "someone", "someone"};
}

void check_in_bounds(std::string const& svg)
{
    auto const elements = read(svg);
    tests::check_readable(elements);
    for (auto const& e : elements)
    {
        if (e.name == "circle")
        {
            CHECK(e.number("cx") >= 12);
            CHECK(e.number("cx") <= 348);
        }
        if (e.name == "line")
            for (auto const* x : {"x1", "x2"})
            {
                CHECK(e.number(x) >= 11.9);
                CHECK(e.number(x) <= 348.1);
            }
    }
}

} // namespace

TEST_CASE("the saturation of each scenario's water is drawn well-formed, named, in bounds and large enough to read",
          "[report][water][drawing]")
{
    for (auto const& report : scenario_waters())
        for (auto const& sheet : report.waters)
            for (auto const system : {units::System::us, units::System::si})
                if (sheet.saturation)
                    check_in_bounds(svg_of(*sheet.saturation, system));
}

TEST_CASE("pool, heater outlet, hot wall and spa stand in the order of the flow, each dot where its figure says",
          "[report][water][drawing]")
{
    auto const& report = scenario_waters()[0];
    REQUIRE(report.waters.size() == 2);
    REQUIRE(report.waters[0].saturation);
    auto const svg = svg_of(*report.waters[0].saturation);
    auto const elements = read(svg);
    std::vector<double> indices;
    for (auto const& f : report.assessment.figures)
    {
        if (f.figure.model->name == "saturation")
            indices.insert(indices.begin(), *f.figure.output("saturation_calcite").value);
        if (f.figure.model->name != "heated_water")
            continue;
        indices.push_back(*f.figure.output("saturation_calcite").value);
        if (report.assessment.items[f.item].kind == "heater")
            indices.push_back(*f.figure.output("wall_calcite").value);
    }
    auto const scale = tests::scale_of(elements, "x", "middle");
    auto const dots = of_kind(elements, "circle", "solid");
    REQUIRE(dots.size() == 4);
    REQUIRE(indices.size() == 4);
    for (std::size_t i = 0; i < 4; ++i)
    {
        CHECK_THAT(dots[i].number("cx"), Catch::Matchers::WithinAbs(scale.of(indices[i]), 0.2));
        if (i > 0)
            CHECK(dots[i].number("cy") > dots[i - 1].number("cy"));
    }
    auto const words = all_words(svg);
    INFO(words);
    std::size_t at = 0;
    for (auto const* part : {"balanced", "corrosive", "scaling",
                             "Pool, as tested 80 °F: ", "Gas heater, outlet 87 °F: ", "Gas heater, at its hot wall 9",
                             "Spa, if the same water 100 °F: ", "saturation index"})
    {
        INFO(part);
        std::size_t const found = words.find(part, at);
        CHECK(found != std::string::npos);
        at = found == std::string::npos ? at : found;
    }
}

TEST_CASE("a place whose interval lies beside the band is marked and named, one that reaches into it is not",
          "[report][water][drawing]")
{
    auto const svg = svg_of(way({place("a", 0, -0.2, 0.2), place("b", 0.6, 0.4, 0.8), place("c", 1, 0.6, 1.4),
                                 place("d", -1, -1.2, -0.4), place("e", 0.1, -2, 2)}));
    auto const dots = of_kind(read(svg), "circle", "solid");
    REQUIRE(dots.size() == 5);
    std::vector<bool> marked;
    for (auto const& dot : dots)
        marked.push_back(dot.is("alert"));
    CHECK(marked == std::vector<bool>{false, false, true, true, false});
    auto const words = all_words(svg);
    std::size_t at = 40; // behind the words of the scale
    for (auto const* part : {" balanced ", "may be balanced or scaling", " scaling ", " corrosive ",
                             "may be corrosive, balanced or scaling"})
    {
        INFO(part << " in " << words);
        at = words.find(part, at);
        REQUIRE(at != std::string::npos);
    }
}

TEST_CASE("the band of the limits that lead is the one that is shaded, and whose it is stands below",
          "[report][water][drawing]")
{
    std::string const test = "kit: laboratory, ph: 7.5, free_chlorine: 4 ppm, alkalinity: 95 ppm, calcium: 300 ppm, "
                             "cyanurate: 40 ppm";
    auto const usual = tests::water_report(tests::pool_tested(test));
    auto const chosen = tests::water_report(tests::pool_tested(test, "    limits: new_york\n"));
    for (auto const* report : {&usual, &chosen})
    {
        auto const& saturation = *report->waters.at(0).saturation;
        auto const drawing = report::saturation_drawing(saturation, units::System::us, "s");
        auto const elements = read(drawing.svg);
        auto const scale = tests::scale_of(elements, "x", "middle");
        auto const band = of_kind(elements, "rect", "allowed");
        REQUIRE(band.size() == 1);
        double const low = report == &chosen ? -0.5 : -0.3;
        CHECK_THAT(band[0].number("x"), Catch::Matchers::WithinAbs(scale.of(low), 0.2));
        CHECK_THAT(band[0].number("x") + band[0].number("width"), Catch::Matchers::WithinAbs(scale.of(0.5), 0.2));
        INFO(drawing.caption);
        CHECK((drawing.caption.find("New York [ny-10-nycrr-6-1-30]") != std::string::npos) == (report == &chosen));
    }
}

TEST_CASE("one place, no doubt, huge doubt, many places: a saturation's drawing stays readable",
          "[report][water][drawing]")
{
    std::string const long_name = "gas heater of the loop that the pool and the spa share, at its hot wall";
    std::vector<assess::SaturationPlace> many;
    for (int i = 0; i < 9; ++i)
        many.push_back(place(long_name, 0.1 * i, -0.1 * i, 0.3 * i));
    for (auto const& list : {std::vector{place("pool", 0, 0, 0)}, std::vector{place("pool", -12, -80, 40)},
                             std::vector{place("pool", 0.4, 0.4, 0.4), place(long_name, 3, 3, 3)}, many})
        check_in_bounds(svg_of(way(list)));
}

TEST_CASE("numbers that are none and names that are hostile do a saturation's drawing no harm",
          "[report][water][drawing]")
{
    double const none = std::numeric_limits<double>::quiet_NaN(), endless = std::numeric_limits<double>::infinity();
    CHECK(svg_of(way({})).empty());
    CHECK(svg_of(way({place("a", none, 0, 0)})).empty());
    auto const svg = svg_of(way({place(tests::nasty, 0, -1, 1), place("b", 0, -endless, 1)}));
    tests::check_harmless(svg);
    CHECK(count_kind(read(svg), "circle", "solid") == 1);
    CHECK(all_words(svg).find("<script>") != std::string::npos);
    auto upside_down = way({place("a", 0, -1, 1)});
    std::swap(upside_down.low, upside_down.high);
    CHECK(svg_of(upside_down).empty());
}
