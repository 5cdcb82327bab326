#include "catch_compat.hpp"
#include "heating_figure.hpp"
#include "padwalk/figures/model.hpp"
#include "padwalk/heating/cycle.hpp"
#include "padwalk/heating/heat.hpp"

using namespace padwalk;
using namespace padwalk::heating;
using Catch::Matchers::WithinRel;

namespace
{

template <class Q> Q si(double value)
{
    return units::of_si<Q>(value);
}

} // namespace

TEST_CASE("a cycle's run is the heat-up through the band, and run and rest balance", "[heating]")
{
    auto const volume = si<units::Volume>(3.5);
    auto const band = si<units::TemperatureDifference>(0.6);
    auto const heat = si<units::Power>(96e3), loss = si<units::Power>(4e3);
    auto const water = si<units::Temperature>(311);
    auto const c = heater_cycle(volume, band, heat, loss, water);
    auto const up = heat_up(volume, si<units::Temperature>(310.7), si<units::Temperature>(311.3), heat,
                            si<units::Fraction>(1), loss);
    CHECK_THAT(units::in_si(c.runs), WithinRel(units::in_si(up.time), 1e-6));
    REQUIRE(c.rests);
    // Over a whole cycle what is given is lost.
    double const given = units::in_si(heat) * units::in_si(c.runs);
    double const lost = units::in_si(loss) * (units::in_si(c.runs) + units::in_si(*c.rests));
    CHECK_THAT(given, WithinRel(lost, 1e-9));
}

TEST_CASE("a cycle without loss never starts again, and one that loses all never rests", "[heating]")
{
    auto const at = [](double heat, double loss)
    {
        return heater_cycle(si<units::Volume>(1), si<units::TemperatureDifference>(0.5), si<units::Power>(heat),
                            si<units::Power>(loss), si<units::Temperature>(300));
    };
    CHECK_FALSE(at(1e4, 0).rests);
    CHECK_THROWS_AS(at(1e3, 1e3), figures::NotComputed);
    CHECK_THROWS_AS(at(1e3, 2e3), figures::NotComputed);
}
