#include "padwalk/heating/heat_loss.hpp"

#include "catch_compat.hpp"
#include "heating_figure.hpp"

#include <algorithm>
#include <cmath>

using namespace padwalk;
using namespace padwalk::heating_tests;
using namespace padwalk::units::exact;
using heating::HeatLoss;
using heating::Surroundings;
using heating::WaterBody;

namespace
{

heating::LossFacts const& facts()
{
    static heating::LossFacts const all = heating::loss_facts(data());
    return all;
}

Surroundings air(double celsius_degrees, double humidity, double wind)
{
    Surroundings out;
    out.air_temperature = celsius(celsius_degrees);
    out.humidity = units::Fraction::from_value(humidity);
    out.wind = units::of_si<units::Velocity>(wind);
    out.sky_share = units::Fraction::from_value(1.0);
    return out;
}

WaterBody open_water(double square_metres)
{
    WaterBody out;
    out.area = units::of_si<units::Area>(square_metres);
    return out;
}

double total(HeatLoss const& loss)
{
    return units::in_si(loss.total());
}

/// The open spa of 4 m2 at 40 degC, air 15 degC and 60 %, 1 m/s, sky at 5 degC.
HeatLoss worked_spa()
{
    Surroundings around = air(15, 0.6, 1);
    around.sky_measured = celsius(5);
    WaterBody body = open_water(4);
    body.activity = heating::Activity::equation;
    return heating::heat_loss(celsius(40), body, around, facts());
}

} // namespace

TEST_CASE("spa heat loss: 1063, 196 and 276 W/m2 of an open spa (heat facts, computed from the SI form)", "[heating]")
{
    HeatLoss const loss = worked_spa();
    // The SI form's 0.089 and 0.0782 are rounded up by 0.6 and 0.4 % from the printed 95 and 0.425; 0.8 % as in the
    // level room's test of the same form, and half of the last digit.
    CHECK(std::abs(units::in_si(loss.evaporation) / 4 - 1063) <= 0.5 + 0.008 * 1063);
    CHECK(std::abs(units::in_si(loss.convection) / 4 - 276) <= 0.5 + 0.008 * 276);
    CHECK(std::abs(units::in_si(loss.radiation) / 4 - 196) <= 0.5);
    // 5.4 kW with 82 % of the evaporation, 6.1 kW raw.
    CHECK(std::abs(total(loss) - 6.1e3) <= 0.05e3 + 0.008 * 6.1e3);
    CHECK(std::abs(total(loss) - 0.18 * units::in_si(loss.evaporation) - 5.4e3) <= 0.05e3 + 0.008 * 5.4e3);
    // 38 mm a day raw
    double const millimetres = units::in_si(loss.water) / 4 / 992.2 * day * 1000;
    CHECK(std::abs(millimetres - 38) <= 0.5 + 0.008 * 38);
}

TEST_CASE(
    "spa heat loss: shares of 56 % evaporation, 26 % radiation, 18 % convection overnight (Smith, Löf and Jones 1994, "
    "abstract read) lie among those of ordinary nights",
    "[heating]")
{
    // The abstract says overnight, unoccupied, heated, outdoors; no weather stands there. Nights assumed here: water 29
    // degC, air 10 to 20 degC, 50 to 80 %, 0.3 to 1 m/s, clear, at the height of the plains near mountains (1500 m).
    double most[3] = {0, 0, 0}, least[3] = {1, 1, 1};
    double nearest = 1;
    for (double const degrees : {10.0, 15.0, 20.0})
        for (double const humidity : {0.5, 0.65, 0.8})
            for (double const wind : {0.3, 0.6, 1.0})
            {
                Surroundings around = air(degrees, humidity, wind);
                around.altitude = units::of_si<units::Length>(1500);
                HeatLoss const loss = heating::heat_loss(celsius(29), open_water(100), around, facts());
                double const share[3] = {units::in_si(loss.evaporation) / total(loss),
                                         units::in_si(loss.radiation) / total(loss),
                                         units::in_si(loss.convection) / total(loss)};
                for (int i = 0; i < 3; ++i)
                    most[i] = std::max(most[i], share[i]), least[i] = std::min(least[i], share[i]);
                nearest = std::min(nearest, std::max({std::abs(share[0] - 0.56), std::abs(share[1] - 0.26),
                                                      std::abs(share[2] - 0.18)}));
            }
    double const measured[3] = {0.56, 0.26, 0.18};
    for (int i = 0; i < 3; ++i)
    {
        INFO("part " << i << ": " << least[i] << " to " << most[i]);
        CHECK((least[i] < measured[i] && measured[i] < most[i]));
    }
    CHECK(nearest <= 0.02); // one of them all three at once, nearer than the nights can be told apart
}

TEST_CASE("spa heat loss: a cover leaves 5 % of the evaporation (Cal Poly, news item read) and no convection",
          "[heating]")
{
    Surroundings const around = air(15, 0.6, 1);
    WaterBody body = open_water(4);
    HeatLoss const open = heating::heat_loss(celsius(40), body, around, facts());
    body.covered = units::Fraction::from_value(1.0);
    body.cover_r = units::Number::from_value(12);
    HeatLoss const covered = heating::heat_loss(celsius(40), body, around, facts());
    CHECK(std::abs(covered.evaporation / open.evaporation - 0.05) <= 1e-12);
    CHECK(units::in_si(covered.convection) == 0.0);
    CHECK(units::in_si(covered.radiation) == 0.0);
    // R-12 is 2.113 m2 K/W, and 0.04 of air: 4 m2 · 25 K / 2.153
    CHECK(std::abs(units::in_si(covered.cover) - 46.44) <= 0.01);
    body.covered = units::Fraction::from_value(0.5);
    HeatLoss const half = heating::heat_loss(celsius(40), body, around, facts());
    CHECK(std::abs(total(half) / ((total(open) + total(covered)) / 2) - 1) <= 1e-12);
}

TEST_CASE(
    "spa heat loss: the sky of Clark and Allen lies below the air, clouds and damp warm it, no sky is warmer than the "
    "air",
    "[heating]")
{
    auto const sky = [](double degrees, double humidity, double cloud)
    {
        return in_celsius(heating::sky_temperature(celsius(degrees), units::Fraction::from_value(humidity),
                                                   units::Fraction::from_value(cloud), facts().table));
    };
    // by hand: 20 degC, dew point 9.27 degC, emissivity 0.787 + 0.764 ln(282.42/273) = 0.8129
    CHECK(std::abs(sky(20, 0.5, 0) - (293.15 * std::pow(0.8129, 0.25) - 273.15)) <= 0.05);
    CHECK(sky(20, 0.5, 1) > sky(20, 0.5, 0.5));
    CHECK(sky(20, 0.5, 0.5) > sky(20, 0.5, 0));
    CHECK(sky(20, 0.9, 0) > sky(20, 0.3, 0));
    for (double const degrees : {-10.0, 0.0, 20.0, 40.0})
        for (double const humidity : {0.1, 0.5, 1.0})
            for (double const cloud : {0.0, 0.5, 1.0})
                CHECK(sky(degrees, humidity, cloud) <= degrees + 1e-9);
}

TEST_CASE("spa heat loss: thin air takes more vapour and less warmth, and Bowen's ratio falls with the pressure",
          "[heating]")
{
    Surroundings low = air(15, 0.6, 1), high = low;
    high.altitude = units::of_si<units::Length>(3000);
    HeatLoss const sea = heating::heat_loss(celsius(40), open_water(4), low, facts());
    HeatLoss const mountain = heating::heat_loss(celsius(40), open_water(4), high, facts());
    double const pressure = 70.108 / 101.325; // standard atmosphere at 3000 m
    CHECK(std::abs(mountain.evaporation / sea.evaporation - std::pow(pressure, -0.25)) <= 1e-4);
    CHECK(std::abs(mountain.convection / mountain.evaporation / (sea.convection / sea.evaporation) - pressure) <= 1e-4);
}

TEST_CASE("spa heat loss: parts add up, and each grows with what drives it, over many waters", "[heating]")
{
    int cases = 0;
    for (double const water : {5.0, 20.0, 30.0, 40.0})
        for (double const degrees : {-15.0, 0.0, 18.0, 30.0})
            for (double const humidity : {0.15, 0.5, 0.9})
                for (double const wind : {0.0, 2.0})
                {
                    Surroundings const around = air(degrees, humidity, wind);
                    WaterBody body = open_water(30);
                    body.falling_area = units::of_si<units::Area>(3);
                    body.shell_area = units::of_si<units::Area>(80);
                    body.behind_shell = celsius(12);
                    HeatLoss const a = heating::heat_loss(celsius(water), body, around, facts());
                    double const sum = units::in_si(a.evaporation + a.falling_water + a.convection + a.radiation +
                                                    a.cover + a.shell - a.sun);
                    CHECK(std::abs(sum - total(a)) <= 1e-9 * std::abs(total(a)));
                    CHECK(total(heating::heat_loss(celsius(water + 1), body, around, facts())) > total(a));
                    CHECK(total(heating::heat_loss(celsius(water), body, air(degrees + 1, humidity, wind), facts())) <
                          total(a));
                    Surroundings sunny = around;
                    sunny.sun = units::of_si<units::HeatFlux>(500);
                    CHECK(std::abs(total(a) - total(heating::heat_loss(celsius(water), body, sunny, facts())) -
                                   0.8 * 500 * 30) <= 1e-6);
                    ++cases;
                }
    CHECK(cases == 96);
}

TEST_CASE("spa_heat_loss: total, day, fall and water are one loss, DOE fact sheet read: 8500 Btu and over for a gallon",
          "[heating]")
{
    auto const f =
        figure("spa_heat_loss", "{water_temperature: 104 degF, area: 4 m2, air_temperature: 15 degC, humidity: "
                                "60 %, wind: 1 m/s, volume: 1500 L, falling_area: 1 m2}");
    REQUIRE(f.computed());
    CHECK(std::abs(value(f, "per_day") / (value(f, "total") * day) - 1) <= 1e-12);
    CHECK(std::abs(value(f, "fall_in_an_hour") * 1.5 * 992.2 * 4179 / (value(f, "total") * hour) - 1) <= 1e-3);
    double const vapour = value(f, "evaporation_share") * (value(f, "total") + value(f, "sun_gain"));
    CHECK(vapour / value(f, "water_lost") * us_gallon / btu > 8500);
    CHECK(vapour / value(f, "water_lost") * us_gallon / btu < 8800);
    CHECK(f.output("in_words").words ==
          "most goes with the water that evaporates; a cover stops nearly all of that, and shelter from wind a part");
    // the form's own doubt is carried: 95 % interval of at least the sixth part that evaporation's 30 % makes
    CHECK(f.output("total").high > 1.15 * value(f, "total"));
}

TEST_CASE("spa_heat_loss: damp warm air warms cold water and is called rough, a cover is named, nonsense is refused",
          "[heating]")
{
    auto const damp = figure("spa_heat_loss", "{water_temperature: 60 degF, area: 400 ft2, air_temperature: 85 degF, "
                                              "humidity: 80 %}");
    CHECK(value(damp, "total") < 0);
    CHECK(value(damp, "water_lost") < 0);
    CHECK(damp.output("in_words").words.find("condenses") != std::string::npos);
    CHECK(damp.output("in_words").words.find("Floor and walls are left out") != std::string::npos);
    auto const covered =
        figure("spa_heat_loss", "{water_temperature: 100 degF, area: 50 ft2, air_temperature: 50 degF, "
                                "humidity: 60 %, covered: 100 %, cover_r: 12, volume: 400 gal}");
    CHECK(covered.output("in_words").words.find("the cover stops most") == 0);
    for (auto const* wrong :
         {"{water_temperature: 104 degF, area: 4 m2, air_temperature: 15 degC}",
          "{water_temperature: 104 degF, area: 4 m2, air_temperature: 15 degC, humidity: 160 %}",
          "{water_temperature: 250 degF, area: 4 m2, air_temperature: 15 degC, humidity: 60 %}",
          "{water_temperature: 104 degF, area: -4 m2, air_temperature: 15 degC, humidity: 60 %}",
          "{water_temperature: 104 degF, area: 4 m2, air_temperature: 15 degC, humidity: 60 %, shell: glass}"})
        CHECK_THROWS_AS(figure("spa_heat_loss", wrong), fields::InputProblems);
}
