#include "catch_compat.hpp"

#include "../../src/physics/if97.hpp"
#include "../../src/physics/transport.hpp"
#include "csv.hpp"
#include "padwalk/physics/range.hpp"
#include "padwalk/physics/water.hpp"

#include <cmath>
#include <functional>
#include <limits>
#include <map>
#include <string>

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

units::Temperature fahrenheit(double value)
{
    return of_si<units::Temperature>((value + units::exact::fahrenheit_zero) * units::exact::fahrenheit_degree);
}

units::AsItself gram_per_litre(double value)
{
    return of_si<units::AsItself>(value);
}

/// The number after 'name=' in "T=300 K; P=3 MPa".
double given(std::string const& at, std::string const& name)
{
    auto const start = at.find(name + "=") + name.size() + 1;
    return tests::csv_number(at.substr(start, at.find(' ', start) - start));
}

double of_state(if97::State const& state, std::string const& quantity)
{
    if (quantity == "v")
        return state.specific_volume;
    double const si = quantity == "h"   ? state.enthalpy
                      : quantity == "u" ? state.internal_energy
                      : quantity == "s" ? state.entropy
                                        : state.specific_heat;
    return si / 1e3;
}

} // namespace

TEST_CASE("water agrees with another program of the same formulations within 1e-6", "[physics][iapws-if97]")
{
    for (auto const& row : reference_csv("physics/water_iapws.csv"))
    {
        INFO(row.place());
        auto const water = celsius(row.number("temp_C"));
        CHECK_THAT(in_si(density(water)), WithinRel(row.number("density_kgm3"), 1e-6));
        CHECK_THAT(in_si(specific_heat(water)), WithinRel(row.number("cp_JkgK"), 1e-6));
        CHECK_THAT(in_si(viscosity(water)), WithinRel(row.number("mu_Pas"), 1e-6));
        CHECK_THAT(in_si(kinematic_viscosity(water)), WithinRel(row.number("nu_m2s"), 1e-6));
        CHECK_THAT(in_si(conductivity(water)), WithinRel(row.number("k_WmK"), 1e-6));
        CHECK_THAT(in_si(vapour_pressure(water)), WithinRel(row.number("psat_kPa") * 1e3, 1e-6));
    }
}

TEST_CASE("water agrees with the scientific formulation as its header claims", "[physics][iapws-95]")
{
    for (auto const& row : reference_csv("physics/water_iapws.csv"))
    {
        INFO(row.place());
        auto const water = celsius(row.number("temp_C"));
        CHECK_THAT(in_si(density(water)), WithinRel(row.number("density95_kgm3"), 2e-5));
        CHECK_THAT(in_si(specific_heat(water)), WithinRel(row.number("cp95_JkgK"), 6e-4));
        CHECK_THAT(in_si(viscosity(water)), WithinRel(row.number("mu95_Pas"), 3e-5));
        CHECK_THAT(in_si(conductivity(water)), WithinRel(row.number("k95_WmK"), 3e-5));
        if (row.number("temp_C") > 0) // the row of 0 °C has the vapour pressure of 0.01 °C
            CHECK_THAT(in_si(vapour_pressure(water)), WithinRel(row.number("psat95_kPa") * 1e3, 1e-4));
    }
}

TEST_CASE("the kernels give the check values of the releases", "[physics][iapws-if97][iapws-2008-viscosity]")
{
    // 8 or 9 printed digits. Sound velocity and the inverse saturation equation are not in the kernels.
    std::map<std::string, int> checked;
    for (auto const& row : reference_csv("physics/water_iapws_checks.csv"))
    {
        INFO(row.place());
        std::string const& table = row.text("table");
        std::string const& quantity = row.text("quantity");
        std::string const& at = row.text("at");
        double value = 0;
        if (quantity == "w" || quantity == "Tsat")
            continue;
        if (table == "IF97 Table 5 (region 1)")
            value = of_state(if97::liquid(given(at, "T"), given(at, "P") * 1e6), quantity);
        else if (table == "IF97 Table 15 (region 2)")
            value = of_state(if97::vapour(given(at, "T"), given(at, "P") * 1e6), quantity);
        else if (table == "IF97 Table 35")
            value = if97::saturation_pressure(given(at, "T")) / 1e6;
        else if (table == "Viscosity 2008 Table 4")
            value = transport::viscosity(given(at, "T"), given(at, "rho"));
        else if (table == "Conductivity 2011 Table 4")
            value = transport::conductivity(given(at, "T"), given(at, "rho"));
        else
            FAIL("a table of no kernel: " << table);
        CHECK_THAT(value, WithinRel(row.number("published"), quantity == "mu (mu2=1)" ? 5e-8 : 5e-9));
        ++checked[table];
    }
    CHECK(checked == std::map<std::string, int>{{"IF97 Table 5 (region 1)", 15},
                                                {"IF97 Table 15 (region 2)", 15},
                                                {"IF97 Table 35", 3},
                                                {"Viscosity 2008 Table 4", 8},
                                                {"Conductivity 2011 Table 4", 4}});
}

TEST_CASE("latent heat", "[physics][iapws-if97]")
{
    for (auto const& row : reference_csv("physics/latent_heat.csv"))
        CHECK_THAT(in_si(latent_heat(celsius(row.number("temp_C")))),
                   WithinRel(row.number("latent_heat_kJkg") * 1e3, 1e-6));
    // Computed beforehand with IF97 for pool and spa water, in both units, to the digits kept.
    auto const btu_per_pound = units::exact::btu / units::exact::pound;
    CHECK_THAT(in_si(latent_heat(fahrenheit(82))) / 1e3, WithinAbs(2435.1, 0.05));
    CHECK_THAT(in_si(latent_heat(fahrenheit(82))) / btu_per_pound, WithinAbs(1046.9, 0.05));
    CHECK_THAT(in_si(latent_heat(fahrenheit(104))) / 1e3, WithinAbs(2406.0, 0.05));
    CHECK_THAT(in_si(latent_heat(fahrenheit(104))) / btu_per_pound, WithinAbs(1034.4, 0.05));
    // Clausius and Clapeyron: h = T (v'' - v') dp/dT, for which the formulation is consistent to about 1e-4.
    for (double t = 5; t <= 95; t += 10)
    {
        INFO(t << " °C");
        double const kelvin = in_si(celsius(t));
        double const pascal = if97::saturation_pressure(kelvin);
        double const steepness =
            (if97::saturation_pressure(kelvin + 0.01) - if97::saturation_pressure(kelvin - 0.01)) / 0.02;
        double const grown =
            if97::vapour(kelvin, pascal).specific_volume - if97::liquid(kelvin, pascal).specific_volume;
        CHECK_THAT(in_si(latent_heat(celsius(t))), WithinRel(kelvin * grown * steepness, 2e-4));
    }
}

TEST_CASE("dissolved sea salt raises the density within 10 % of its true rise", "[physics][iapws-2008-seawater]")
{
    double pure = 0;
    for (auto const& row : reference_csv("physics/seawater.csv"))
    {
        INFO(row.place());
        double const salinity = row.number("salinity");
        double const expected = row.number("density_kgm3");
        if (salinity == 0)
        {
            pure = expected;
            continue;
        }
        auto const water = celsius(row.number("temp_C"));
        double const rise = in_si(salty_density(water, gram_per_litre(salinity * expected))) - in_si(density(water));
        CHECK_THAT(rise, WithinRel(expected - pure, 0.1));
    }
    // Table salt, 1 % by mass at 20 °C: 1005.3 kg/m3, from memory of a handbook table.
    double const salted = in_si(salty_density(celsius(20), gram_per_litre(10.053))) - in_si(density(celsius(20)));
    CHECK_THAT(salted, WithinRel(1005.3 - 998.2, 0.1));
    CHECK(in_si(salty_density(celsius(20), gram_per_litre(0))) == in_si(density(celsius(20))));
}

TEST_CASE("what warming does to water", "[physics][water]")
{
    for (int t = 0; t < 100; ++t)
    {
        INFO(t << " °C");
        auto const cool = celsius(t);
        auto const warm = celsius(t + 1);
        CHECK(viscosity(warm) < viscosity(cool));
        CHECK(kinematic_viscosity(warm) < kinematic_viscosity(cool));
        CHECK(vapour_pressure(warm) > vapour_pressure(cool));
        CHECK(latent_heat(warm) < latent_heat(cool));
        CHECK(conductivity(warm) > conductivity(cool));
        CHECK((density(warm) < density(cool)) == (t >= 4));             // densest at 4 °C
        CHECK((specific_heat(warm) < specific_heat(cool)) == (t < 41)); // IF97's least is near 41 °C
    }
}

TEST_CASE("pressure hardly matters to water, and in the right direction", "[physics][water]")
{
    auto const ten_bar = of_si<units::AbsolutePressure>(1e6);
    // Compressibility 4.5e-10/Pa at 20 °C, from memory of handbooks.
    CHECK_THAT(in_si(density(celsius(20), ten_bar)) / in_si(density(celsius(20))) - 1,
               WithinRel(4.5e-10 * (1e6 - 101325), 0.05));
    CHECK(specific_heat(celsius(20), ten_bar) < specific_heat(celsius(20)));
    CHECK(conductivity(celsius(20), ten_bar) > conductivity(celsius(20)));
    CHECK(viscosity(celsius(20), ten_bar) < viscosity(celsius(20))); // odd, and true of water below 30 °C
}

TEST_CASE("water outside its range is refused by name", "[physics][range]")
{
    CHECK_THROWS_MATCHES(density(celsius(112)), OutOfRange,
                         Message("water temperature 112 °C is outside 0 to 100 °C of [iapws-if97]"));
    CHECK_THROWS_MATCHES(vapour_pressure(celsius(-0.5)), OutOfRange,
                         Message("water temperature -0.5 °C is outside 0 to 100 °C of [iapws-if97]"));
    CHECK_THROWS_MATCHES(viscosity(celsius(20), of_si<units::AbsolutePressure>(500)), OutOfRange,
                         Message("water pressure 0.5 kPa is outside 1 to 100000 kPa of [iapws-if97]"));
    CHECK_THROWS_MATCHES(salty_density(celsius(20), gram_per_litre(41)), OutOfRange,
                         Message("dissolved solids 41 g/L is outside 0 to 40 g/L"));
    CHECK_THROWS_MATCHES(latent_heat(celsius(std::numeric_limits<double>::quiet_NaN())), OutOfRange,
                         Message("water temperature nan °C is outside 0 to 100 °C of [iapws-if97]"));
    CHECK_THROWS_AS(specific_heat(celsius(-1)), std::domain_error);
    CHECK_THROWS_AS(conductivity(celsius(101)), OutOfRange);
    CHECK_THROWS_AS(kinematic_viscosity(celsius(101)), OutOfRange);
}

TEST_CASE("a range includes its limits after any conversion, and says what lies just beyond", "[physics][range]")
{
    CHECK_NOTHROW(density(fahrenheit(32)));
    CHECK_NOTHROW(density(fahrenheit(212)));
    CHECK_NOTHROW(require_within(Range{0, 40, "°C", "x"}, fahrenheit(104), "water temperature"));
    CHECK_THROWS_MATCHES(require_within(Range{0, 100, "°C", "key"}, 100.0000012, "t"), OutOfRange,
                         Message("t 100.000001 °C is outside 0 to 100 °C of [key]"));
    CHECK_THROWS_MATCHES(require_within(Range{0, 100, "%", ""}, units::Fraction::from_value(1.2), "relative humidity"),
                         OutOfRange, Message("relative humidity 120 % is outside 0 to 100 %"));
    CHECK_THROWS_MATCHES(require_within(Range{1, 2, "", "key"}, 3, "ratio"), OutOfRange,
                         Message("ratio 3 is outside 1 to 2 of [key]"));
    try
    {
        require_within(Range{0, 100, "°C", "key"}, 112, "t");
        FAIL("112 passed for 0 to 100");
    }
    catch (OutOfRange const& e)
    {
        CHECK(e.name == "t");
        CHECK(e.value == "112");
        CHECK(e.low == "0");
        CHECK(e.high == "100");
        CHECK(e.unit == "°C");
        CHECK(e.source == "key");
    }
}
