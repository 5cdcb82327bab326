#include "padwalk/heating/fuel_price.hpp"

#include "catch_compat.hpp"
#include "heating_figure.hpp"

#include <cmath>

using namespace padwalk;
using namespace padwalk::heating_tests;
using namespace padwalk::units::exact;

TEST_CASE("heating_cost: 1 kW for a month by hand, fuel beside fuel", "[heating]")
{
    // 730.5 h: 730.5 kWh of heat. Gas at 82 %: 890.85 kWh = 30.404 US therms, or 33.22 gal of 91,500 Btu.
    auto const f = figure("heating_cost", "{loss: 1 kW, gas_efficiency: 82 %, heat_pump_cop: 5, gas_price: 1.6, "
                                          "propane_price: 3, electricity_price: 0.2}");
    CHECK(std::abs(value(f, "heat_month", kilowatt_hour) - 730.5) <= 1e-9);
    CHECK(std::abs(value(f, "gas_month", us_therm) - 30.404) <= 0.001);
    CHECK(std::abs(value(f, "gas_cost") - 48.65) <= 0.005);
    CHECK(std::abs(value(f, "propane_month", us_gallon) - 33.22) <= 0.005);
    CHECK(std::abs(value(f, "propane_cost") - 99.66) <= 0.02);
    CHECK(std::abs(value(f, "element_cost") - 146.1) <= 1e-9);
    CHECK(std::abs(value(f, "heat_pump_cost") - 29.22) <= 1e-9);
    CHECK(f.output("in_words").words.find("at these prices a heat pump costs least to run") == 0);
}

TEST_CASE("heating_cost: a price for each MJ is the same money, what has no price has no cost", "[heating]")
{
    auto const therm = figure("heating_cost", "{loss: 1 kW, gas_price: 105.4804}");
    auto const megajoule = figure("heating_cost", "{loss: 1 kW, gas_price: 1, gas_price_per: MJ}");
    CHECK(std::abs(value(therm, "gas_cost") / value(megajoule, "gas_cost") - 1) <= 1e-9);
    CHECK_FALSE(therm.output("propane_cost").value.has_value());
    CHECK(therm.output("in_words").words.find("at these prices natural gas costs least") == 0);
    auto const free = figure("heating_cost", "{loss: 1 kW}");
    CHECK(free.output("in_words").words == "energy only: a cost needs a price");
    CHECK_FALSE(free.output("gas_cost").value.has_value());
    CHECK(std::abs(value(free, "element_month", kilowatt_hour) - 730.5) <= 1e-9);
    CHECK_THROWS_AS(figure("heating_cost", "{loss: 1 kW, electricity_price: -1}"), fields::InputProblems);
}

TEST_CASE("heating_cost: useful heat of every fuel is the same, over many losses and efficiencies", "[heating]")
{
    for (double const watt : {50.0, 900.0, 20000.0})
        for (double const efficiency : {0.6, 0.82, 0.95, 5.0})
        {
            auto const used =
                heating::month_of(units::of_si<units::Power>(watt), units::Fraction::from_value(efficiency));
            CHECK(std::abs(units::in_si(used) * efficiency / (watt * 365.25 * day / 12) - 1) <= 1e-9);
        }
}
