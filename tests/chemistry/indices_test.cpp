#include "catch_compat.hpp"

#include "run_model.hpp"

#include "padwalk/chemistry/indices.hpp"

#include <cmath>

using namespace padwalk;
using namespace padwalk::chemistry_tests;

namespace
{

units::Number number(double value)
{
    return units::Number::from_value(value);
}

std::string copper(double ph, double free, double cyanurate, double alkalinity, double salt)
{
    return chemistry::copper_risk_in_words(units::of_si<units::Ph>(ph), units::of_si<units::AsChlorine>(free * 1e-3),
                                           units::of_si<units::AsCyanuricAcid>(cyanurate * 1e-3),
                                           units::of_si<units::AsCalciumCarbonate>(alkalinity * 1e-3),
                                           units::of_si<units::AsSodiumChloride>(salt * 1e-3));
}

bool says(std::string const& text, std::string const& part)
{
    return text.find(part) != std::string::npos;
}

} // namespace

TEST_CASE("Ryznar: UFC 3-240-13FN appendix B, pH 8.2, index +1.43, pHs 6.77, prints 5.34")
{
    CHECK(std::abs(chemistry::ryznar(units::of_si<units::Ph>(8.2), number(1.43)).value() - 5.34) < 1e-9);
}

TEST_CASE("Ryznar: of a state it is pH less twice the saturation of calcite, and pH itself where that is zero")
{
    chemistry::Equilibria const equilibria(data());
    chemistry::WaterReadings r;
    r.temperature = units::of_si<units::Temperature>(300);
    r.ph = units::of_si<units::Ph>(7.6);
    r.alkalinity = units::of_si<units::AsCalciumCarbonate>(0.1);
    r.calcium = units::of_si<units::AsCalciumCarbonate>(0.3);
    auto const water = equilibria.at_ph(chemistry::composition_of(r), r.ph);
    CHECK(std::abs(chemistry::ryznar(water).value() - (7.6 - 2 * water.saturation(chemistry::Mineral::calcite))) <
          1e-9);
    auto const balanced = equilibria.at_calcite(water.composition());
    CHECK(std::abs(chemistry::ryznar(balanced).value() - balanced.ph().value()) < 1e-6);
    r.calcium = {};
    CHECK_THROWS_AS(chemistry::ryznar(equilibria.at_ph(chemistry::composition_of(r), r.ph)), figures::NotComputed);
}

TEST_CASE("indices in words: each side of each limit")
{
    CHECK(chemistry::ryznar_in_words(number(5.34)) == "scaling: below 6");
    CHECK(says(chemistry::ryznar_in_words(number(6.5)), "about neutral"));
    CHECK(says(chemistry::ryznar_in_words(number(7.5)), "no scale"));

    CHECK(says(copper(6.8, 3, 40, 90, 500), "copper is at risk from pH below 7.0, the worst of all;"));
    CHECK(says(copper(7.1, 3, 40, 50, 3200),
               "copper is at risk from pH below 7.2, little alkalinity, so that pH falls easily and much salt"));
    CHECK(says(copper(7.5, 6, 0, 90, 500), "may be at risk from much working chlorine"));
    CHECK(says(copper(7.5, 6, 60, 90, 500), "name no cause"));
    CHECK(says(copper(7.5, 3, 40, 90, 500), "has not been found measured"));

    CHECK(says(chemistry::plaster_risk_in_words(number(-0.9), number(-0.4)), "are being dissolved"));
    CHECK(says(chemistry::plaster_risk_in_words(number(-0.5), number(0.1)), "may be dissolving"));
    CHECK(says(chemistry::plaster_risk_in_words(number(-0.2), number(0.3)), "nothing in six months"));
    CHECK(says(chemistry::plaster_risk_in_words(number(0.3), number(0.7)), "scale may form"));
    CHECK(says(chemistry::plaster_risk_in_words(number(0.6), number(0.9)), "scale forms instead"));
    CHECK(says(chemistry::plaster_risk_in_words(number(-0.5), number(0.7)), "too coarse"));
    CHECK_THROWS_AS(chemistry::plaster_risk_in_words(number(1), number(0)), std::invalid_argument);
}
