#include "catch_compat.hpp"

#include "csv.hpp"
#include "padwalk/physics/air.hpp"
#include "padwalk/physics/range.hpp"
#include "padwalk/physics/water.hpp"

#include <cmath>

using namespace padwalk;
using namespace padwalk::physics;
using Catch::Matchers::Message;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using tests::reference_csv;
using units::in_si;
using units::of_si;

namespace
{

units::Temperature celsius(double value)
{
    return of_si<units::Temperature>(value + units::exact::celsius_zero);
}

double in_celsius(units::Temperature temperature)
{
    return in_si(temperature) - units::exact::celsius_zero;
}

units::Length metre(double value)
{
    return of_si<units::Length>(value);
}

units::AbsolutePressure pascal(double value)
{
    return of_si<units::AbsolutePressure>(value);
}

units::Fraction share(double value)
{
    return of_si<units::Fraction>(value);
}

} // namespace

TEST_CASE("constants are what their definitions give", "[physics][constants]")
{
    // R and the specific constants as printed by CODATA 2018 and the handbooks, from memory.
    CHECK_THAT(molar_gas_constant, WithinRel(8.314462618, 1e-10));
    CHECK_THAT(in_si(dry_air_gas_constant), WithinAbs(287.05, 0.005));
    CHECK_THAT(in_si(water_vapour_gas_constant), WithinAbs(461.52, 0.005));
    CHECK(in_si(standard_gravity) == 9.80665);
    CHECK(in_si(standard_pressure) == 101325.0);
}

TEST_CASE("the standard atmosphere at its printed heights", "[physics][icao-7488]")
{
    CHECK(in_si(pressure_at_altitude(metre(0))) == 101325.0);
    // Rows of the published table, from memory: 898.746, 540.199 and 226.32 hPa; US standard 1976 1074.78 hPa.
    CHECK_THAT(in_si(pressure_at_altitude(metre(-500))), WithinAbs(107478, 2));
    CHECK_THAT(in_si(pressure_at_altitude(metre(1000))), WithinAbs(89874.6, 2));
    CHECK_THAT(in_si(pressure_at_altitude(metre(5000))), WithinAbs(54019.9, 2));
    CHECK_THAT(in_si(pressure_at_altitude(metre(11000))), WithinAbs(22632, 2));
    for (int height = -500; height < 11000; height += 100)
        CHECK(pressure_at_altitude(metre(height)) > pressure_at_altitude(metre(height + 100)));
}

TEST_CASE("air pressure, vapour pressure and density of water give the suction that boils", "[physics][altitude]")
{
    for (auto const& row : reference_csv("physics/altitude.csv"))
    {
        INFO(row.place());
        auto const air = pressure_at_altitude(metre(row.number("altitude_m")));
        CHECK_THAT(in_si(air) / 1e3, WithinAbs(row.number("pressure_kPa"), 0.0051)); // printed to 0.01
        for (int t : {20, 30, 40})
        {
            auto const above = air - vapour_pressure(celsius(t));
            auto const head = above / (density(celsius(t)) * standard_gravity);
            std::string const column = std::to_string(t) + "C";
            // Printed to 0.01, with vapour pressures up to 5 Pa higher than ours: 0.0005 m and 0.0015 inHg.
            CHECK_THAT(in_si(head), WithinAbs(row.number("head_" + column + "_m"), 0.0055));
            CHECK_THAT(in_si(above) / units::exact::inch_mercury,
                       WithinAbs(row.number("vacuum_" + column + "_inHg"), 0.0065));
        }
    }
}

TEST_CASE("moist air agrees with two other programs as its header claims", "[physics][ashrae-hof-psychrometrics]")
{
    for (auto const& row : reference_csv("physics/moist_air.csv"))
    {
        INFO(row.place());
        auto const air = celsius(row.number("temp_C"));
        auto const humidity = share(row.number("relative_humidity"));
        auto const pressure = pascal(row.number("pressure_Pa"));
        // Hyland and Wexler's saturation pressure and IF97's differ by 2e-4.
        CHECK_THAT(in_si(vapour_pressure_in_air(air, humidity)), WithinRel(row.number("vapour_Pa"), 3e-4));
        CHECK_THAT(in_si(humidity_ratio(air, humidity, pressure)), WithinRel(row.number("humidity_ratio"), 4e-4));
        double const tolerance = row.number("temp_C") > 50 ? 1.5e-3 : 7e-4;
        CHECK_THAT(in_si(moist_air_density(air, humidity, pressure)), WithinRel(row.number("density_kgm3"), tolerance));
        if (!row.text("dew_C").empty())
            CHECK_THAT(in_celsius(dew_point(air, humidity)), WithinAbs(row.number("dew_C"), 0.01));
        if (!row.text("wet_bulb_C").empty())
            CHECK_THAT(in_celsius(wet_bulb(air, humidity, pressure)), WithinAbs(row.number("wet_bulb_C"), 0.01));
    }
}

TEST_CASE("vapour pressure over supercooled water", "[physics][murphy-koop-2005]")
{
    // Values printed with the formula, over liquid, from memory: 37.667 Pa at 240 K, 611.213 Pa at 273.15 K.
    CHECK_THAT(in_si(saturation_pressure_in_air(of_si<units::Temperature>(240))), WithinRel(37.667, 1e-4));
    CHECK_THAT(in_si(saturation_pressure_in_air(of_si<units::Temperature>(273.1499999))), WithinRel(611.213, 1e-5));
    // The meteorological tables of Goff and Gratch, from memory: -10, -20 and -40 °C.
    CHECK_THAT(in_si(saturation_pressure_in_air(celsius(-10))), WithinRel(286.27, 3e-3));
    CHECK_THAT(in_si(saturation_pressure_in_air(celsius(-20))), WithinRel(125.40, 3e-3));
    CHECK_THAT(in_si(saturation_pressure_in_air(celsius(-40))), WithinRel(18.91, 3e-3));
    for (int t = -40; t < 60; ++t)
        CHECK(saturation_pressure_in_air(celsius(t + 1)) > saturation_pressure_in_air(celsius(t)));
    // The two formulas meet without a step.
    double const below = in_si(saturation_pressure_in_air(celsius(-1e-7)));
    CHECK_THAT(below, WithinRel(in_si(saturation_pressure_in_air(celsius(0))), 1e-6));
    CHECK(saturation_pressure_in_air(celsius(25)) == vapour_pressure(celsius(25)));
}

TEST_CASE("dew point and wet bulb lie where they must", "[physics][air]")
{
    for (int t = -40; t <= 60; t += 5)
        CHECK_THAT(in_celsius(dew_point(saturation_pressure_in_air(celsius(t)))), WithinAbs(t, 1e-6));
    for (int t = 5; t <= 60; t += 5)
        for (double humidity : {0.3, 0.6, 0.95})
        {
            INFO(t << " °C, " << humidity);
            auto const dew = dew_point(celsius(t), share(humidity));
            CHECK(dew < celsius(t));
            CHECK_THAT(in_si(saturation_pressure_in_air(dew)),
                       WithinRel(in_si(vapour_pressure_in_air(celsius(t), share(humidity))), 1e-9));
            if (t < 10)
                continue;
            auto const bulb = wet_bulb(celsius(t), share(humidity));
            CHECK((dew < bulb && bulb < celsius(t)));
        }
    CHECK_THAT(in_celsius(wet_bulb(celsius(30), share(1))), WithinAbs(30, 1e-9));
}

TEST_CASE("moist air is lighter than dry air and dry air has no vapour", "[physics][air]")
{
    CHECK(moist_air_density(celsius(30), share(0.9)) < moist_air_density(celsius(30), share(0.1)));
    CHECK(humidity_ratio(celsius(30), share(0)).value() == 0.0);
    // 1.2041 kg/m3: dry air of 20 °C as an ideal gas, printed in many places.
    CHECK_THAT(in_si(moist_air_density(celsius(20), share(0))), WithinAbs(1.2041, 5e-5));
}

TEST_CASE("air outside its range is refused by name", "[physics][range]")
{
    CHECK_THROWS_MATCHES(pressure_at_altitude(metre(12000)), OutOfRange,
                         Message("altitude 12000 m is outside -500 to 11000 m of [icao-7488]"));
    CHECK_THROWS_MATCHES(vapour_pressure_in_air(celsius(61), share(0.5)), OutOfRange,
                         Message("air temperature 61 °C is outside -40 to 60 °C"));
    CHECK_THROWS_MATCHES(vapour_pressure_in_air(celsius(20), share(1.05)), OutOfRange,
                         Message("relative humidity 105 % is outside 0 to 100 %"));
    CHECK_THROWS_MATCHES(moist_air_density(celsius(20), share(0.5), pascal(5000)), OutOfRange,
                         Message("air pressure 5 kPa is outside 20 to 120 kPa"));
    CHECK_THROWS_MATCHES(dew_point(celsius(20), share(0)), OutOfRange,
                         Message("vapour pressure 0 Pa is outside 18.9121 to 19945.8 Pa"));
    CHECK_THROWS_MATCHES(wet_bulb(celsius(-3), share(0.5)), OutOfRange,
                         Message("air temperature -3 °C is outside 0 to 60 °C of [ashrae-hof-psychrometrics]"));
    CHECK_THROWS_MATCHES(wet_bulb(celsius(3), share(0.2)), OutOfRange,
                         Message("wet bulb below 0 °C is outside 0 to 3 °C of [ashrae-hof-psychrometrics]"));
    CHECK_THROWS_MATCHES(humidity_ratio(celsius(20), share(-0.1)), OutOfRange,
                         Message("relative humidity -10 % is outside 0 to 100 %"));
}
