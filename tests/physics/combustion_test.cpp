#include "padwalk/physics/combustion.hpp"

#include "padwalk/physics/air.hpp"
#include "padwalk/physics/range.hpp"

#include "catch_compat.hpp"

#include <cmath>
#include <random>

using namespace padwalk;
using namespace padwalk::physics;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace
{

units::Temperature celsius(double value)
{
    return units::of_si<units::Temperature>(value + 273.15);
}
units::Fraction percent(double value)
{
    return units::Fraction::from_value(value / 100);
}
units::Number number(double value)
{
    return units::Number::from_value(value);
}
double in_percent(units::Fraction share)
{
    return 100 * share.value();
}

struct StackRow
{
    Fuel fuel;
    double oxygen, flue, air, enthalpies, siegert; ///< %, degC, degC, % of the net heating value
};
StackRow const stack_rows[] = {
    {Fuel::natural_gas, 4.5, 180, 20, 7.93, 7.84}, {Fuel::natural_gas, 3, 150, 20, 5.99, 5.94},
    {Fuel::natural_gas, 8, 200, 25, 10.57, 10.46}, {Fuel::natural_gas, 10, 250, 15, 16.43, 16.22},
    {Fuel::propane, 4.5, 180, 20, 7.70, 7.39},     {Fuel::propane, 3, 150, 20, 5.80, 5.59},
    {Fuel::propane, 8, 200, 25, 10.34, 9.88},      {Fuel::propane, 10, 250, 15, 16.13, 15.34}};

} // namespace

TEST_CASE("stack loss by enthalpies of methane and propane: eight rows of an own check by another program",
          "[physics][gri-mech-thermo]")
{
    for (auto const& row : stack_rows)
    {
        INFO("O2 " << row.oxygen << " %, " << row.flue << "/" << row.air << " degC");
        auto const excess = excess_air_of_oxygen(row.fuel, percent(row.oxygen));
        auto const loss = stack_loss_by_enthalpy(row.fuel, excess, celsius(row.flue), celsius(row.air));
        // That program took air of 21 % oxygen, which at 10 % in the gas makes 0.2 % of the loss.
        CHECK_THAT(100 * (loss.sensible / net_to_gross(row.fuel)), WithinAbs(row.enthalpies, 0.04));
        CHECK_THAT(loss.latent.value(), WithinAbs(1 - net_to_gross(row.fuel).value(), 1e-12));
    }
}

TEST_CASE("Siegert's loss of natural gas and propane (constants from memory): eight rows printed to 0.01", "[physics]")
{
    for (auto const& row : stack_rows)
    {
        bool const gas = row.fuel == Fuel::natural_gas;
        auto const loss = stack_loss_siegert(celsius(row.flue) - celsius(row.air), percent(row.oxygen),
                                             number(gas ? 0.66 : 0.63), number(gas ? 0.009 : 0.008));
        CHECK_THAT(in_percent(loss), WithinAbs(row.siegert, 0.0051));
        double const low_by = 1 - in_percent(loss) / row.enthalpies;
        CHECK(low_by > (gas ? 0.005 : 0.035)); // 1 %, and 4 to 5 %
        CHECK(low_by < (gas ? 0.015 : 0.050));
    }
}

TEST_CASE(
    "excess air: 0.5, 3, 7 % O2 give 2.317, 15.52, 45.20 % for a 94 % methane gas (open AMO tools unit test, read)",
    "[physics]")
{
    // That gas holds ethane, carbon dioxide and nitrogen besides methane; 0.7 of a point covers them.
    auto const excess = [](double oxygen)
    { return in_percent(excess_air_of_oxygen(Fuel::natural_gas, percent(oxygen))); };
    CHECK_THAT(excess(0.5), WithinAbs(2.317, 0.7));
    CHECK_THAT(excess(3), WithinAbs(15.52, 0.7));
    CHECK_THAT(excess(7), WithinAbs(45.20, 0.7));
    // Own arithmetic, with air of 21 % in place of 20.95 %.
    CHECK_THAT(excess(4.5), WithinAbs(24.4, 0.15));
}

TEST_CASE("carbon dioxide without excess air is 11.7 % of methane's dry gas and 13.7 % of propane's (by hand)",
          "[physics]")
{
    double const nitrogen = 79.05 / 20.95;
    CHECK_THAT(flue_gas(Fuel::natural_gas, percent(0)).carbon_dioxide_dry().value(),
               WithinAbs(1 / (1 + 2 * nitrogen), 1e-12));
    CHECK_THAT(flue_gas(Fuel::propane, percent(0)).carbon_dioxide_dry().value(),
               WithinAbs(3 / (3 + 5 * nitrogen), 1e-12));
    CHECK_THAT(in_percent(flue_gas(Fuel::natural_gas, percent(0)).carbon_dioxide_dry()), WithinAbs(11.7, 0.05));
    CHECK_THAT(air_needed(Fuel::natural_gas).value(), WithinAbs(2 / 0.2095, 1e-12));
}

TEST_CASE("net over gross: about 0.90 of natural gas, 0.92 of propane (from memory), and methane's 1012 Btu/ft3 gross "
          "(open AMO "
          "tools unit test, read)",
          "[physics]")
{
    CHECK_THAT(net_to_gross(Fuel::natural_gas).value(), WithinAbs(0.90, 0.005));
    CHECK_THAT(net_to_gross(Fuel::propane).value(), WithinAbs(0.92, 0.005));
    // One mole at 60 degF and 14.73 psi, an ideal gas: a real one takes up 0.2 % less room.
    double const cubic_metre = molar_gas_constant * 288.706 / (14.73 * 6894.757);
    double const btu_per_cubic_foot = 1055.056 / 0.028316847;
    CHECK_THAT(802.3e3 / net_to_gross(Fuel::natural_gas).value() / cubic_metre / btu_per_cubic_foot,
               WithinRel(1012, 3e-3));
}

TEST_CASE("carbon monoxide air free: 50 ppm at 7 % O2 are 75, 1200 at 6 % are 1683 (trade article, read and computed)",
          "[physics][combustion-analysis-trade-article-1]")
{
    CHECK_THAT(50 * air_free_factor(percent(7)).value(), WithinAbs(75.2, 0.05));
    CHECK_THAT(1200 * air_free_factor(percent(6)).value(), WithinAbs(1683, 0.5));
}

TEST_CASE("oxygen and carbon dioxide of one flue gas tell the same excess air", "[physics]")
{
    for (auto const fuel : {Fuel::natural_gas, Fuel::propane})
        for (double const excess : {0.0, 5.0, 40.0, 150.0, 400.0})
        {
            auto const gas = flue_gas(fuel, percent(excess));
            CHECK_THAT(in_percent(excess_air_of_oxygen(fuel, gas.oxygen_dry())), WithinAbs(excess, 1e-9));
            CHECK_THAT(in_percent(excess_air_of_carbon_dioxide(fuel, gas.carbon_dioxide_dry())),
                       WithinAbs(excess, 1e-9));
        }
}

TEST_CASE("burning keeps atoms, and short of air the unburnt share is what the air lacks", "[physics]")
{
    for (double const excess : {-60.0, -10.0, 0.0, 30.0, 200.0})
    {
        auto const gas = flue_gas(Fuel::propane, percent(excess));
        double const burnt = std::min(1.0, 1 + excess / 100), drawn = 5 * (1 + excess / 100);
        CHECK_THAT(gas.carbon_dioxide.value(), WithinAbs(3 * burnt, 1e-12));
        CHECK_THAT(gas.water.value(), WithinAbs(4 * burnt, 1e-12));
        CHECK_THAT(gas.carbon_dioxide.value() + gas.water.value() / 2 + gas.oxygen.value(), WithinAbs(drawn, 1e-12));
        CHECK_THAT(gas.nitrogen.value(), WithinAbs(drawn * 79.05 / 20.95, 1e-12));
    }
}

TEST_CASE("enthalpies from 298.15 to 1000 K: CO2 33.397, H2O 26.000, O2 22.703, N2 21.463 kJ/mol (JANAF, from memory)",
          "[physics][gri-mech-thermo]")
{
    double const gross = 802.3 / net_to_gross(Fuel::natural_gas).value();
    auto const taken = [&](FlueGas const& gas) {
        return gross *
               heat_carried(Fuel::natural_gas, gas, celsius(25), units::of_si<units::Temperature>(1000)).value();
    };
    CHECK_THAT(taken({number(1), {}, {}, {}}), WithinRel(33.397, 3e-4));
    CHECK_THAT(taken({{}, number(1), {}, {}}), WithinRel(26.000, 3e-4));
    CHECK_THAT(taken({{}, {}, number(1), {}}), WithinRel(22.703, 3e-4));
    CHECK_THAT(taken({{}, {}, {}, number(1)}), WithinRel(21.463, 3e-4));
}

TEST_CASE("methane's flame without excess, loss and dissociation is near 2328 K (textbooks, from memory)", "[physics]")
{
    auto const flame = temperature_with(Fuel::natural_gas, flue_gas(Fuel::natural_gas, percent(0)),
                                        net_to_gross(Fuel::natural_gas), celsius(25));
    CHECK_THAT(units::in_si(flame), WithinAbs(2328, 10)); // theirs has 3.76 nitrogen to each oxygen, not 3.77
}

TEST_CASE("temperature_with gives back the heat that heat_carried counts, at the seam of the fits too", "[physics]")
{
    std::mt19937 engine(3);
    std::uniform_real_distribution<double> kelvin(251, 2400), excess(-50, 300);
    for (int i = 0; i < 300; ++i)
    {
        auto const gas = flue_gas(Fuel::natural_gas, percent(excess(engine)));
        auto const from = units::of_si<units::Temperature>(kelvin(engine));
        auto const to = units::of_si<units::Temperature>(i % 3 == 0 ? 999.9 + 0.01 * (i % 20) : kelvin(engine));
        auto const heat = heat_carried(Fuel::natural_gas, gas, from, to);
        auto const found = temperature_with(Fuel::natural_gas, gas, heat, from);
        CHECK_THAT(units::in_si(found), WithinAbs(units::in_si(to), 1e-7));
        CHECK_THAT(heat_carried(Fuel::natural_gas, gas, from, found).value(), WithinAbs(heat.value(), 1e-12));
    }
}

TEST_CASE("vapour of methane's flue gas: dew near 59 degC without excess, 49 to 54 with (handbooks, from memory)",
          "[physics]")
{
    auto const dew = [](double excess)
    {
        double const share = flue_gas(Fuel::natural_gas, percent(excess)).vapour_share().value();
        return units::in_si(dew_point(units::of_si<units::AbsolutePressure>(share * 101325))) - 273.15;
    };
    CHECK_THAT(dew(0), WithinAbs(59, 1));
    CHECK(dew(30) < 55);
    CHECK(dew(80) > 46); // dry air; damp air gives 1 to 2 degrees more
}

TEST_CASE("combustion refuses what can't be", "[physics]")
{
    CHECK_THROWS_AS(excess_air_of_oxygen(Fuel::natural_gas, percent(19)), OutOfRange);
    CHECK_THROWS_AS(excess_air_of_oxygen(Fuel::natural_gas, percent(-1)), OutOfRange);
    CHECK_THROWS_AS(excess_air_of_carbon_dioxide(Fuel::natural_gas, percent(0)), OutOfRange);
    CHECK_THROWS_AS(flue_gas(Fuel::propane, percent(-101)), OutOfRange);
    auto const gas = flue_gas(Fuel::propane, percent(20));
    CHECK_THROWS_AS(heat_carried(Fuel::propane, gas, celsius(-60), celsius(20)), OutOfRange);
    CHECK_THROWS_AS(temperature_with(Fuel::propane, gas, percent(200), celsius(20)), OutOfRange);
    CHECK_THROWS_AS(temperature_with(Fuel::propane, gas, percent(-20), celsius(20)), OutOfRange);
}
