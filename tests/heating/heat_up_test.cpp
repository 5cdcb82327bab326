#include "padwalk/heating/heat_up.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/heating/heat_loss.hpp"

#include "catch_compat.hpp"
#include "csv.hpp"
#include "heating_figure.hpp"

#include <algorithm>
#include <cmath>

using namespace padwalk;
using namespace padwalk::heating_tests;
using namespace padwalk::units::exact;
using heating::Warming;

namespace
{

heating::LossFacts const& facts()
{
    static heating::LossFacts const all = heating::loss_facts(data());
    return all;
}

template <class E> E word(std::string const& text)
{
    auto const words = fields::words_of<E>::words();
    auto const found = std::find(words.begin(), words.end(), text);
    REQUIRE(found != words.end());
    return static_cast<E>(found - words.begin());
}

heating::WaterBody body_of(tests::CsvRow const& row)
{
    heating::WaterBody out;
    out.area = units::of_si<units::Area>(row.number("area_m2"));
    out.falling_area = units::of_si<units::Area>(row.number("falling_area_m2"));
    out.activity = word<heating::Activity>(row.text("activity"));
    out.form = word<heating::EvaporationForm>(row.text("form"));
    out.covered = units::Fraction::from_value(row.number("covered"));
    out.cover_r = units::Number::from_value(row.number("cover_r"));
    out.shell = word<heating::Shell>(row.text("shell"));
    out.shell_area = units::of_si<units::Area>(row.number("shell_area_m2"));
    out.behind_shell = celsius(row.number("behind_shell_degC"));
    return out;
}

heating::Surroundings surroundings_of(tests::CsvRow const& row)
{
    heating::Surroundings out;
    out.air_temperature = celsius(row.number("air_degC"));
    out.humidity = units::Fraction::from_value(row.number("humidity"));
    out.wind = units::of_si<units::Velocity>(row.number("wind_m_s"));
    out.altitude = units::of_si<units::Length>(row.number("altitude_m"));
    out.sky_share = units::Fraction::from_value(row.number("sky_share"));
    out.cloud = units::Fraction::from_value(row.number("cloud"));
    out.sun = units::of_si<units::HeatFlux>(row.number("sun_W_m2"));
    return out;
}

Warming warming(double litres, double from, double to, double watt, double efficiency = 1.0)
{
    return {units::of_si<units::Volume>(litres * litre), celsius(from), celsius(to), units::of_si<units::Power>(watt),
            units::Fraction::from_value(efficiency)};
}

Warming warming_of(tests::CsvRow const& row)
{
    return warming(row.number("volume_L"), row.number("from_degC"), row.number("to_degC"),
                   1000 * row.number("input_kW"), row.number("efficiency"));
}

/// A loss linear in the temperature, which has a closed form.
heating::LossAt linear(double watt_per_kelvin, double air)
{
    return [=](units::Temperature t)
    { return units::of_si<units::Power>(watt_per_kelvin * (units::in_si(t) - celsius_zero - air)); };
}

double balance_error(Warming const& w, heating::WarmingRun const& run)
{
    double const given = units::in_si(run.energy_used) * w.efficiency.value();
    return (units::in_si(run.heat_needed) + units::in_si(run.heat_lost) - given) / given;
}

} // namespace

TEST_CASE("heat-up with losses: 12 waters by fixed steps in time in another program, heat_up_with_losses.csv",
          "[heating]")
{
    // Both have errors below 1e-7; the two programs of IAPWS-IF97 agree within 1e-6.
    constexpr double near = 3e-6;
    int reached = 0, stopped = 0;
    for (auto const& row : tests::reference_csv("heating/heat_up_with_losses.csv"))
    {
        INFO(row.place());
        auto const body = body_of(row);
        auto const around = surroundings_of(row);
        auto const run = heating::warming_run(warming_of(row), [&](units::Temperature water)
                                              { return heating::heat_loss(water, body, around, facts()).total(); });
        REQUIRE(run.stops_at.has_value() == row.text("time_h").empty());
        if (run.stops_at)
        {
            CHECK(std::abs(in_celsius(*run.stops_at) - row.number("stops_at_degC")) <= 1e-5);
            ++stopped;
            continue;
        }
        ++reached;
        CHECK(std::abs(units::in_si(run.time) / hour / row.number("time_h") - 1) <= near);
        CHECK(std::abs(units::in_si(run.quarter_times[0]) / hour / row.number("quarter_h") - 1) <= near);
        CHECK(std::abs(units::in_si(run.quarter_times[1]) / hour / row.number("half_h") - 1) <= near);
        CHECK(std::abs(units::in_si(run.quarter_times[2]) / hour / row.number("three_quarter_h") - 1) <= near);
        CHECK(std::abs(units::in_si(run.heat_lost) / kilowatt_hour / row.number("lost_kWh") - 1) <= 10 * near);
        CHECK(std::abs(balance_error(warming_of(row), run)) <= 1e-9);
    }
    CHECK(reached == 10);
    CHECK(stopped == 2);
}

TEST_CASE("heat-up: a loss linear in the temperature has a closed form, met to 1e-9 up to a hair below where it stops",
          "[heating]")
{
    // C/k ln((P - k (from - air))/(P - k (to - air))); air 10 degC, 200 W/K
    for (double const watt : {6000.5, 6010.0, 6500.0, 8000.0, 40000.0})
    {
        INFO(watt << " W; 6000 W would stop at 40 degC");
        auto const w = warming(1500, 20, 40, watt);
        auto const run = heating::warming_run(w, linear(200, 10));
        double const capacity = units::in_si(run.heat_needed) / 20;
        double const closed = capacity / 200 * std::log((watt - 2000) / (watt - 6000));
        CHECK(std::abs(units::in_si(run.time) / closed - 1) <= 1e-9);
        CHECK(std::abs(balance_error(w, run)) <= 1e-9);
    }
    auto const stops = heating::warming_run(warming(1500, 20, 40, 5000), linear(200, 10));
    CHECK(std::abs(in_celsius(stops.stops_at.value()) - 35) <= 1e-9);
    auto const cools = heating::warming_run(warming(1500, 20, 40, 1000), linear(200, 10));
    CHECK(std::abs(in_celsius(cools.stops_at.value()) - 15) <= 1e-9);
}

TEST_CASE("heat-up: energy in is stored and lost to 1e-9, and more heat is quicker, over many waters", "[heating]")
{
    int cases = 0;
    for (double const litres : {800.0, 60000.0})
        for (double const from : {8.0, 20.0, 30.0})
            for (double const rise : {1.0, 8.0})
                for (double const air : {-5.0, 15.0, 28.0})
                    for (double const kilowatts : {12.0, 60.0, 117.0})
                    {
                        heating::WaterBody body;
                        body.area = units::of_si<units::Area>(litres > 10000 ? 40 : 3);
                        heating::Surroundings around;
                        around.air_temperature = celsius(air);
                        around.humidity = units::Fraction::from_value(0.6);
                        around.wind = units::of_si<units::Velocity>(0.7);
                        around.sky_share = units::Fraction::from_value(0.8);
                        auto const loss = [&](units::Temperature t)
                        { return heating::heat_loss(t, body, around, facts()).total(); };
                        auto const w = warming(litres, from, from + rise, 1000 * kilowatts, 0.82);
                        auto const run = heating::warming_run(w, loss);
                        if (run.stops_at)
                            continue;
                        CHECK(std::abs(balance_error(w, run)) <= 1e-9);
                        CHECK(run.quarter_times[0] < run.quarter_times[1]);
                        CHECK(run.quarter_times[1] < run.quarter_times[2]);
                        CHECK(run.quarter_times[2] < run.time);
                        auto const quicker =
                            heating::warming_run(warming(litres, from, from + rise, 1010 * kilowatts, 0.82), loss);
                        CHECK(quicker.time < run.time);
                        ++cases;
                    }
    CHECK(cases > 80);
}

TEST_CASE("heat-up curve: rises by equal steps, ends as the run does, and ends below where it stops", "[heating]")
{
    auto const w = warming(1500, 20, 40, 8000);
    auto const curve = heating::heat_up_curve(w, linear(200, 10), 21);
    REQUIRE(curve.size() == 21);
    auto const run = heating::warming_run(w, linear(200, 10));
    CHECK(std::abs(units::in_si(curve.back().time) / units::in_si(run.time) - 1) <= 1e-9);
    CHECK(std::abs(units::in_si(curve[10].time) / units::in_si(run.quarter_times[1]) - 1) <= 1e-9);
    CHECK(std::abs(in_celsius(curve[5].water) - 25) <= 1e-9);
    for (std::size_t i = 1; i < curve.size(); ++i)
        CHECK(curve[i].time > curve[i - 1].time);
    auto const short_of = heating::heat_up_curve(warming(1500, 20, 40, 5000), linear(200, 10), 5);
    CHECK(std::abs(in_celsius(short_of.back().water) - (20 + 0.99 * 15)) <= 1e-9);
    double const capacity = units::in_si(run.heat_needed) / 20;
    CHECK(std::abs(units::in_si(short_of.back().time) / (capacity / 200 * std::log(100.0)) - 1) <= 1e-9);
    auto const falls = heating::heat_up_curve(warming(1500, 20, 40, 1000), linear(200, 10), 4);
    CHECK(falls.back().water < falls.front().water);
    CHECK(falls.back().time > falls.front().time);
    CHECK_THROWS_AS(heating::heat_up_curve(w, linear(200, 10), 1), std::invalid_argument);
    CHECK_THROWS_AS(heating::warming_run(warming(1500, 30, 20, 8000), linear(200, 10)), figures::NotComputed);
    CHECK_THROWS_AS(heating::warming_run(warming(1500, 20, 30, 800), linear(200, -20)), figures::NotComputed);
}

TEST_CASE("heat_up: 1500 L by 20 K are 34.6 kWh, 6.3 h with 5.5 kW, and without losses both ways agree (heat facts, "
          "computed)",
          "[heating]")
{
    std::string const common = "volume: 1500 L, from: 20 degC, to: 40 degC, input: 5.5 kW, efficiency: 100 %";
    auto const plain = figure("heat_up", "{" + common + "}");
    // Their water is that of 40 degC all the way, 0.35 % lighter than that of the mean, 30 degC.
    CHECK(std::abs(value(plain, "heat_needed", kilowatt_hour) - 34.6) <= 0.05 + 0.0035 * 34.6);
    CHECK(std::abs(value(plain, "time", hour) - 6.3) <= 0.05);
    CHECK(plain.output("in_words").words.empty());
    CHECK_FALSE(plain.output("stops_at").value.has_value());
    auto const run = heating::warming_run(warming(1500, 20, 40, 5500), linear(0, 0));
    CHECK(std::abs(units::in_si(run.time) / value(plain, "time") - 1) <= 1e-9);
    CHECK(units::in_si(run.heat_lost) == 0.0);
}

TEST_CASE(
    "heat_up: an open spa that 5.5 kW cannot bring to 104 F and 11 kW can (heat facts, computed), and what it costs",
    "[heating]")
{
    std::string const spa =
        "volume: 1500 L, from: 30 degC, to: 40 degC, efficiency: 100 %, area: 4 m2, air_temperature: 15 "
        "degC, humidity: 60 %, wind: 1 m/s, sky_share: 100 %, sky_temperature: 5 degC, activity: "
        "equation";
    auto const weak = figure("heat_up", "{" + spa + ", input: 5.5 kW, price: 0.2, price_per: kWh}");
    REQUIRE(weak.computed());
    CHECK_FALSE(weak.output("time").value.has_value());
    CHECK_FALSE(weak.output("cost").value.has_value());
    CHECK(value(weak, "stops_at") < 313.15);
    CHECK(weak.output("in_words").words.find("never gets there: it stops at ") == 0);
    // and there the other figure says that it loses what it is given
    auto const there =
        figure("spa_heat_loss", "{volume: 1500 L, area: 4 m2, air_temperature: 15 degC, humidity: 60 %, wind: 1 "
                                "m/s, sky_share: 100 %, sky_temperature: 5 degC, activity: equation, "
                                "water_temperature: " +
                                    std::to_string(value(weak, "stops_at")) + " K}");
    CHECK(std::abs(value(there, "total") - 5500) <= 0.01);
    auto const strong = figure("heat_up", "{" + spa + ", input: 11 kW, price: 0.2, price_per: kWh}");
    CHECK(std::abs(value(strong, "cost") - 0.2 * value(strong, "energy_used", kilowatt_hour)) <= 1e-9);
    CHECK(std::abs((value(strong, "heat_needed") + value(strong, "heat_lost")) / value(strong, "energy_used") - 1) <=
          1e-9);
    auto const gas = figure("heat_up", "{" + spa + ", input: 11 kW, price: 2, price_per: therm}");
    CHECK(std::abs(value(gas, "cost") - 2 * value(strong, "energy_used", us_therm)) <= 1e-9);
    auto const propane = figure("heat_up", "{" + spa + ", input: 11 kW, price: 3, price_per: propane_gallon}");
    CHECK(std::abs(value(propane, "cost") - 3 * value(strong, "energy_used", 91500 * btu)) <= 1e-6);
    auto const no_unit = figure("heat_up", "{" + spa + ", input: 11 kW, price: 3}");
    CHECK(no_unit.why_not == "a cost needs both price and price_per");
    auto const no_air = figure("heat_up", "{volume: 1500 L, from: 30 degC, to: 40 degC, efficiency: 100 %, area: 4 m2, "
                                          "input: 11 kW}");
    CHECK(no_air.why_not == "to work out losses give area, air_temperature and humidity");
    auto const cover_alone =
        figure("heat_up", "{volume: 1500 L, from: 30 degC, to: 40 degC, efficiency: 100 %, covered: 100 "
                          "%, input: 11 kW}");
    CHECK(cover_alone.why_not == no_air.why_not);
}

TEST_CASE("heat_up: a heater that is barely enough is called so", "[heating]")
{
    std::string const spa =
        "volume: 1500 L, from: 30 degC, to: 40 degC, efficiency: 100 %, area: 4 m2, air_temperature: 15 "
        "degC, humidity: 60 %, wind: 1 m/s";
    auto const barely = figure("heat_up", "{" + spa + ", input: 5.5 kW}");
    REQUIRE(barely.output("time").value.has_value());
    CHECK(barely.output("in_words").words.find("barely enough") == 0);
    auto const plenty = figure("heat_up", "{" + spa + ", input: 20 kW}");
    CHECK(plenty.output("in_words").words.find("losses grow") == 0);
}

TEST_CASE("heat_up takes what was not said as spa_heat_loss says that it does", "[heating]")
{
    std::string const air = "area: 4 m2, air_temperature: 15 degC, humidity: 60 %";
    std::string const heater = ", volume: 1500 L, from: 20 degC, to: 30 degC, input: 11 kW, efficiency: 100 %}";
    auto const silent = figure("heat_up", "{" + air + heater);
    auto const loss = figure("spa_heat_loss", "{water_temperature: 25 degC, volume: 1500 L, " + air + "}");
    std::string said;
    for (auto const& used : loss.inputs)
        if (used.assumed)
        {
            std::string const text = used.shape->otherwise;
            said += ", " + used.shape->name + ": " + text.substr(0, text.find(" ±"));
        }
    INFO(said);
    auto const spoken = figure("heat_up", "{" + air + said + heater);
    REQUIRE(spoken.computed());
    CHECK(std::abs(value(spoken, "time") / value(silent, "time") - 1) <= 1e-12);
    CHECK(said.find("wind") != std::string::npos);
    CHECK(said.find("cover_r") != std::string::npos);
}
