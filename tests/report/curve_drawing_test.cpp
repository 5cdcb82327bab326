// The drawing of the pump's curve and of what a sound loop takes.

#include "catch_compat.hpp"

#include "report/drawn.hpp"

using namespace padwalk;
using tests::all_words;
using tests::count_kind;
using tests::drawn;
using tests::read;

TEST_CASE("the curves stand where their numbers say, in the user's units", "[report][drawing]")
{
    for (auto const system : {units::System::us, units::System::si})
    {
        auto const svg = drawn({tests::full_loop()}, system).at(1);
        auto const words = all_words(svg);
        bool const us = system == units::System::us;
        INFO(words);
        CHECK(words.find(us ? "head, ft" : "head, m ") != std::string::npos);
        CHECK(words.find(us ? "flow, US gpm" : "flow, m³/h") != std::string::npos);
        CHECK(words.find(us ? "42 ± 5 US gpm, 79 ± 4 ft" : "9.5 ± 1.1 m³/h, 24.1 ± 1.2 m") != std::string::npos);
        CHECK((words.find("gpm") != std::string::npos) == us);
        // Ticks are evenly spaced round numbers; by them the ring stands at the sound loop's flow.
        std::vector<tests::Element> ticks;
        double ring = 0;
        for (auto const& element : read(svg))
        {
            if (element.name == "text" && element.attributes.count("text-anchor") == 1 &&
                element.attributes.at("text-anchor") == "middle")
                ticks.push_back(element);
            if (element.name == "circle")
                ring = element.number("cx");
        }
        REQUIRE(ticks.size() >= 4);
        double const zero = ticks.front().number("x");
        double const unit = (ticks.back().number("x") - zero) / std::stod(ticks.back().text);
        CHECK(ticks.front().text == "0");
        for (auto const& tick : ticks)
            CHECK_THAT(tick.number("x"), Catch::Matchers::WithinAbs(zero + unit * std::stod(tick.text), 0.1));
        double const flow = us ? 58 : 58 * tests::gpm * 3600;
        CHECK_THAT(ring, Catch::Matchers::WithinAbs(zero + unit * flow, 0.1)); // a coordinate has one decimal
    }
}

TEST_CASE("a usual pump's curve is dashed and says so", "[report][drawing]")
{
    auto loop = tests::full_loop();
    auto const usual = drawn({loop}).at(1);
    CHECK(count_kind(read(usual), "polyline", "assumed") == 1);
    CHECK(all_words(usual).find("usual pump of this power, not its own curve") != std::string::npos);
    loop.pump_is_usual = false;
    auto const own = drawn({loop}).at(1);
    CHECK(count_kind(read(own), "polyline", "assumed") == 0);
    CHECK(all_words(own).find("the pump's curve") != std::string::npos);
    CHECK(all_words(own).find("usual pump") == std::string::npos);
}

TEST_CASE("the measured point is an ellipse of two standard uncertainties, or a band where one is known",
          "[report][drawing]")
{
    auto loop = tests::full_loop();
    auto alerts = [&](std::string const& name)
    {
        std::vector<tests::Element> out;
        for (auto const& element : read(drawn({loop}).at(1)))
            if (element.name == name && element.is("box") && element.is("alert"))
                out.push_back(element);
        return out;
    };
    REQUIRE(alerts("polygon").size() == 1);
    double left = 1e9, right = 0;
    for (auto const& [x, y] : tests::points_of(alerts("polygon").front()))
    {
        left = std::min(left, x);
        right = std::max(right, x);
    }
    double const per_gpm = 298.0 / 100; // the axis ends at 100 gpm
    CHECK_THAT(right - left, Catch::Matchers::WithinAbs(4 * 2.4 * per_gpm, 0.2));

    loop.measured = assess::LoopDuty{tests::flow_of(42, 2.4), {}};
    REQUIRE(alerts("rect").size() == 1);
    CHECK(alerts("polygon").empty());
    CHECK_THAT(alerts("rect").front().number("width"), Catch::Matchers::WithinAbs(4 * 2.4 * per_gpm, 0.2));
    double const high = alerts("rect").front().number("height");
    loop.measured = assess::LoopDuty{{}, tests::head_of(79, 2)};
    REQUIRE(alerts("rect").size() == 1);
    CHECK_THAT(alerts("rect").front().number("width"), Catch::Matchers::WithinAbs(298, 0.2));
    CHECK(alerts("rect").front().number("height") < high / 4);
    CHECK_THAT(alerts("rect").front().number("height"), Catch::Matchers::WithinAbs(8 * high / 120, 0.2));
    loop.measured.reset();
    CHECK(alerts("rect").empty());
}

TEST_CASE("curves that leave the paper are cut at its edge", "[report][drawing]")
{
    auto loop = tests::full_loop();
    loop.sound_system = tests::square_law(20, 70, 200); // far above the pump
    for (auto const& element : read(drawn({loop}).at(1)))
        if (element.name == "polyline" || element.name == "polygon")
            for (auto const& [x, y] : tests::points_of(element))
            {
                CHECK(x >= 46);
                CHECK(x <= 344);
                CHECK(y >= 34);
                CHECK(y <= 282);
            }
}

TEST_CASE("without curves and points there is no such drawing", "[report][drawing]")
{
    auto loop = tests::full_loop();
    loop.pump_curve.clear();
    loop.sound_system.clear();
    loop.sound.reset();
    loop.measured = assess::LoopDuty{};
    CHECK(drawn({loop}).size() == 1);
    loop.measured = assess::LoopDuty{tests::flow_of(42, 2), tests::head_of(70, 2)};
    CHECK(drawn({loop}).size() == 2);
    loop.parts.clear();
    CHECK(drawn({loop}).size() == 1);
}
