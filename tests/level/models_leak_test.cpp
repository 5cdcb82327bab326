#include "catch_compat.hpp"

#include "run_model.hpp"

#include "padwalk/units/definitions.hpp"

#include <cmath>

using namespace padwalk;
using namespace padwalk::level_tests;
using namespace padwalk::units::exact;

namespace
{

using Written = std::vector<std::pair<std::string, std::string>>;

double in_a_day(figures::Figure const& f, char const* name)
{
    return *f.output(name).value / (inch / day);
}

} // namespace

TEST_CASE(
    "model level_leak: the arithmetic of the bucket test and of what came in, 62 gallons for a quarter inch on 400 "
    "square feet (leak_facts)")
{
    auto const f = figure("level_leak", {{"drop", "0.5 in"},
                                         {"elapsed", "24 h"},
                                         {"bucket_drop", "0.25 in"},
                                         {"area", "400 ft2"},
                                         {"filled", "0 gal"}});
    REQUIRE(f.computed());
    CHECK(std::abs(*f.output("leak_rate").value / (us_gallon / day) - 62.3) <= 0.05);
    CHECK(std::abs(in_a_day(f, "leak_drop_rate") - 0.25) <= 1e-9);
    // four marks, and a bucket like the pool to 10 %: s² = 4/32² + 0.025²
    double const s = std::sqrt(4.0 / (32 * 32) + 0.025 * 0.025);
    CHECK(std::abs(in_a_day(f, "least_leak_shown") - 2 * 1.6448536 * s) <= 1e-6);
    CHECK(in_a_day(f, "low") > 0.1);
    CHECK(in_a_day(f, "high") < 0.4);
    auto const filled = figure("level_leak", {{"drop", "0 in"},
                                              {"elapsed", "2 days"},
                                              {"evaporation", "0.25 in/day"},
                                              {"area", "400 ft2"},
                                              {"filled", "498.7 gal"},
                                              {"rain", "0.5 in"}});
    CHECK(std::abs(in_a_day(filled, "leak_drop_rate") - 1.0) <= 1e-3); // (0.5 + 2)/2 - 0.25
}

TEST_CASE("model level_leak: words go by the chance, and watching longer helps only as far as evaporation is known")
{
    auto const of = [](char const* drop, Written more)
    {
        more.emplace_back("drop", drop);
        more.emplace_back("elapsed", "24 h");
        more.emplace_back("evaporation", "0.25 in/day");
        return figure("level_leak", more);
    };
    auto const sound = of("0.25 in", {});
    CHECK(sound.output("in_words").words == "these marks can't decide: a leak smaller than the least they could have "
                                            "shown can hide in them");
    CHECK(!sound.output("watch_for").value); // 58 % of a quarter inch hides an eighth for ever
    CHECK(!sound.output("leak_rate").value);
    auto const known = of("0.25 in", {{"evaporation_doubt", "10 %"}});
    // T = sqrt 2 u/sqrt((0.125/3.29)² - 0.0125²) days
    double const t = std::sqrt(2.0) / 32 / std::sqrt(std::pow(0.125 / (2 * 1.6448536), 2) - 0.0125 * 0.0125);
    CHECK(std::abs(*known.output("watch_for").value / day - t) <= 1e-5);
    CHECK(of("1.5 in", {}).output("in_words").words ==
          "water leaves by more than evaporation, as surely as these marks and this evaporation are known");
    CHECK(in_a_day(of("0.1 in", {}), "low") == 0);
    CHECK(*of("0.1 in", {}).output("chance_of_none").value > *of("0.4 in", {}).output("chance_of_none").value);
    CHECK(figure("level_leak", {{"drop", "0 in"}, {"elapsed", "24 h"}, {"filled", "10 gal"}}).why_not ==
          "needs area: water that came in counts by volume");
}

TEST_CASE("model fill_valve_rest: the orifice table's flow, and the level that it holds")
{
    Written in = {{"supply_pressure", "60 psi"}, {"bore", "1/8 in"}, {"area", "400 ft2"}, {"loss", "0.25 in/day"}};
    auto const f = figure("fill_valve_rest", in);
    REQUIRE(f.computed());
    CHECK(std::abs(*f.output("flow").value / (us_gallon / day) / 3226 - 1) <= 2e-3); // leak_orifice_gpd.csv, 1/8 in
    double const q = *f.output("flow").value / (400 * square_foot) / (inch / day);
    CHECK(std::abs(*f.output("rests_below").value / inch - 0.25 / q) <= 1e-9);
    CHECK(std::abs(*f.output("day_volume").value / us_gallon - 62.3) <= 0.05);
    REQUIRE(f.output("time_to_make_up").value);
    CHECK(*f.output("time_to_make_up").value < 2 * hour);
    in.back().second = "30 in/day";
    auto const short_of = figure("fill_valve_rest", in);
    CHECK(!short_of.output("time_to_make_up").value);
    CHECK(std::abs(in_a_day(short_of, "falls") - (30 - q)) <= 1e-6);
    CHECK(short_of.output("in_words").words ==
          "it does not keep up with the loss: the level falls although the valve runs all day");
    in.back().second = "0.25 in/day";
    in.emplace_back("line_flow", "1 gpm");
    CHECK(*figure("fill_valve_rest", in).output("flow").value / (us_gallon / minute) < 1);
    in.emplace_back("kind", "level_sensor");
    CHECK(std::abs(*figure("fill_valve_rest", in).output("rests_below").value / inch - 0.25) <= 1e-9);
}

TEST_CASE("model water_hammer: copper line, stopped at once and slowly")
{
    Written in = {
        {"flow", "4 gpm"}, {"bore", "0.545 in"}, {"thickness", "0.04 in"}, {"wall", "copper"}, {"length", "60 ft"}};
    auto const f = figure("water_hammer", in);
    REQUIRE(f.computed());
    double const section = 3.14159265358979 / 4 * std::pow(0.545 * inch, 2), v = 4 * us_gallon / minute / section;
    double const wave = std::sqrt(2.19e9 / 999.1) / std::sqrt(1 + 2.19 / 117 * 0.545 / 0.04);
    CHECK(std::abs(*f.output("wave").value / wave - 1) <= 1e-4);
    CHECK(std::abs(*f.output("rise").value / (999.1 * wave * v) - 1) <= 1e-4);
    in.emplace_back("closing", "0.3 s");
    double const back = 2 * 60 * foot / wave;
    CHECK(std::abs(*figure("water_hammer", in).output("rise").value / (999.1 * wave * v * back / 0.3) - 1) <= 1e-4);
}
