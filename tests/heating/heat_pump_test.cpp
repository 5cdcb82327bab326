#include "padwalk/heating/heat_pump.hpp"

#include "padwalk/figures/model.hpp"

#include "catch_compat.hpp"
#include "heating_figure.hpp"

#include <cmath>

using namespace padwalk;
using namespace padwalk::heating_tests;
using namespace padwalk::units::exact;

namespace
{

heating::HeatPumpFacts const& facts()
{
    static heating::HeatPumpFacts const all = heating::heat_pump_facts(data());
    return all;
}

units::Temperature fahrenheit(double degrees)
{
    return units::of_si<units::Temperature>((degrees + fahrenheit_zero) * fahrenheit_degree);
}

heating::HeatPumpRun run(double air, double humidity, double water, double rated_cop = 5)
{
    return heating::heat_pump({fahrenheit(air), units::Fraction::from_value(humidity), fahrenheit(water)},
                              {units::of_si<units::Power>(30e3), units::Number::from_value(rated_cop)}, facts());
}

} // namespace

TEST_CASE("heat pump: at 80 F air and 80 F water it gives what it is rated for (DOE, rating point read)", "[heating]")
{
    auto const rated = run(80, 0.8, 80);
    CHECK(std::abs(units::in_si(rated.capacity) - 30e3) <= 1e-6);
    CHECK(std::abs(rated.cop.value() - 5) <= 1e-12);
    CHECK_FALSE(rated.frosts);
}

TEST_CASE("heat pump: over the air it is made for the COP keeps within the 3.0 to 7.0 that DOE prints (read)",
          "[heating]")
{
    // A unit in the middle of the range, from the 50 °F that it works well above to a hot day, water of the rating
    // point.
    for (double const air : {50.0, 60.0, 70.0, 80.0, 95.0})
        for (double const humidity : {0.5, 0.65, 0.8})
        {
            INFO(air << " F, " << humidity);
            CHECK(run(air, humidity, 80).cop.value() >= 3.0);
            CHECK(run(air, humidity, 80).cop.value() <= 7.0);
        }
}

TEST_CASE(
    "heat pump: warmer and damper air gives more heat and a better COP, warmer water less, and heat is input times "
    "COP to 1e-9",
    "[heating]")
{
    int cases = 0;
    for (double air = 48; air <= 100; air += 4)
        for (double const humidity : {0.4, 0.7, 0.9})
            for (double const water : {65.0, 80.0, 102.0})
            {
                auto const r = run(air, humidity, water), warmer = run(air + 2, humidity, water),
                           damper = run(air, humidity + 0.05, water), hotter = run(air, humidity, water + 2);
                CHECK((warmer.capacity > r.capacity && warmer.cop > r.cop));
                CHECK((damper.capacity > r.capacity && damper.cop > r.cop));
                CHECK((hotter.capacity < r.capacity && hotter.cop < r.cop));
                CHECK(std::abs(units::in_si(r.input) * r.cop.value() / units::in_si(r.capacity) - 1) <= 1e-9);
                ++cases;
            }
    CHECK(cases == 126);
    CHECK_FALSE(run(80, 0.8, 80).frosts);
    CHECK(run(48, 0.7, 80).frosts);
}

TEST_CASE("heat_pump: stops in cold air, frosts in cool, says so, and gives a rise of a few degrees", "[heating]")
{
    auto const mild =
        figure("heat_pump", "{rated_capacity: 100 kBtu/h, rated_cop: 5, air_temperature: 80 degF, humidity: 80 "
                            "%, water_temperature: 80 degF, flow: 40 gpm}");
    CHECK(std::abs(value(mild, "capacity", 1000 * btu / hour) - 100) <= 1e-6);
    CHECK(std::abs(value(mild, "rise", fahrenheit_degree) - 5.0) <= 0.05); // 100,000/(500 · 40)
    CHECK(std::abs(value(mild, "input_power") * value(mild, "cop") / value(mild, "capacity") - 1) <= 1e-9);
    CHECK(mild.output("in_words").words.find("within what it is made for") == 0);
    auto const cold = figure("heat_pump", "{rated_capacity: 100 kBtu/h, air_temperature: 40 degF, flow: 40 gpm}");
    CHECK(value(cold, "capacity") == 0.0);
    CHECK_FALSE(cold.output("cop").value.has_value());
    CHECK_FALSE(cold.output("rise").value.has_value());
    CHECK(cold.output("in_words").words == "air this cold stops it by itself: no heat is no fault then");
    auto const cool = figure("heat_pump", "{rated_capacity: 100 kBtu/h, air_temperature: 47 degF, humidity: 60 %}");
    CHECK(cool.output("in_words").words.find("its coil is below freezing") == 0);
    // air of the usual humidity carries the doubt of its humidity, of the rated COP and of the form
    CHECK(cool.output("cop").high > 1.2 * value(cool, "cop"));
    CHECK_THROWS_AS(figure("heat_pump", "{rated_capacity: 100 kBtu/h, air_temperature: 47 degF, rated_cop: 25}"),
                    fields::InputProblems);
}

TEST_CASE("electric_rise: power goes with the square of the voltage (Ohm's law)", "[heating]")
{
    auto const power = [](double supply)
    {
        return units::in_si(heating::element_power(units::of_si<units::Power>(11e3), units::of_si<units::Voltage>(240),
                                                   units::of_si<units::Voltage>(supply)));
    };
    CHECK(std::abs(power(120) - 2750) <= 1e-9);
    CHECK(std::abs(power(208) - 8262.2) <= 0.05);
    CHECK(power(240) == 11e3);
    CHECK_THROWS_AS(
        heating::element_power(units::of_si<units::Power>(11e3), units::Voltage(), units::of_si<units::Voltage>(240)),
        figures::NotComputed);
}

TEST_CASE("electric_rise: 0.868 K/h for each kW in 1000 L (heat facts, computed), a quarter of it on half the voltage",
          "[heating]")
{
    std::string const spa = "volume: 1000 L, water_temperature: 40 degC, power: 5.5 kW";
    auto const plain = figure("electric_rise", "{" + spa + "}");
    CHECK(std::abs(value(plain, "rise") / 5.5 - 0.868) <= 0.0005);
    CHECK_FALSE(plain.output("current").value.has_value());
    auto const low = figure("electric_rise", "{" + spa + ", rated_voltage: 240 V, supply_voltage: 120 V}");
    CHECK(std::abs(value(low, "rise") / value(plain, "rise") - 0.25) <= 1e-12);
    CHECK(std::abs(value(low, "power_now") - 1375) <= 1e-9);
    CHECK(std::abs(value(low, "current") - 1375.0 / 120) <= 1e-9);
    CHECK(std::abs(value(low, "power_share") - 0.25) <= 1e-12);
    CHECK(low.output("in_words").words.find("slow heating is then no fault") != std::string::npos);
    auto const right = figure("electric_rise", "{" + spa + ", rated_voltage: 240 V}");
    CHECK(std::abs(value(right, "current") - 5500.0 / 240) <= 1e-9);
    auto const high = figure("electric_rise", "{" + spa + ", rated_voltage: 208 V, supply_voltage: 240 V}");
    CHECK(high.output("in_words").words.find("do not run it until an electrician has looked") != std::string::npos);
}
