#include "catch_compat.hpp"
#include "padwalk/circulation/head.hpp"
#include "padwalk/circulation/pipe.hpp"
#include "padwalk/circulation/pump.hpp"
#include "padwalk/physics/range.hpp"
#include "written.hpp"

using namespace padwalk;
using namespace padwalk::circulation;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using tests::in;
using tests::q;

TEST_CASE("feet of water per psi and per inHg: from the density table of the Hydraulic Institute's data tool, read",
          "[circulation]")
{
    // Half the table's last digit, and its densities are 0.005 % less than those of IAPWS at one atmosphere.
    struct Row
    {
        char const *water, *pressure;
        double feet;
    };
    for (auto const& row :
         {Row{"0 degC", "1 psi", 2.3071}, Row{"20 degC", "1 psi", 2.3109}, Row{"40 degC", "1 psi", 2.3249},
          Row{"50 degC", "1 psi", 2.3347}, Row{"20 degC", "1 inHg", 1.1350}, Row{"40 degC", "1 inHg", 1.1419}})
    {
        INFO(row.pressure << " at " << row.water);
        CHECK_THAT(in(head_of_pressure(q<units::Pressure>(row.pressure), q<units::Temperature>(row.water)), "ft"),
                   WithinAbs(row.feet, 5e-5 + 6e-5 * row.feet));
    }
}

TEST_CASE("total head of 18 psi and 6 inHg of vacuum: 48.4 ft at 20 °C, 48.7 ft at 40 °C, computed from the same table",
          "[circulation]")
{
    GaugePoint const suction{q<units::GaugePressure>("-6 inHg"), {}, {}};
    GaugePoint const discharge{q<units::GaugePressure>("18 psi"), {}, {}};
    auto const cold = total_dynamic_head(suction, discharge, std::nullopt, q<units::Temperature>("20 degC"));
    CHECK_THAT(in(cold.total, "ft"), WithinAbs(48.4, 0.05)); // as printed, to a tenth
    CHECK(!cold.velocity_part);
    CHECK_THAT(in(total_dynamic_head(suction, discharge, std::nullopt, q<units::Temperature>("40 degC")).total, "ft"),
               WithinAbs(48.7, 0.05));
}

TEST_CASE("velocity heads at 60 gpm in 1.601 and 2.058 in: 1.42 and 0.52 ft, -0.9 ft together, computed by hand",
          "[circulation]")
{
    auto const flow = q<units::VolumeFlow>("60 gpm");
    auto const small = q<units::Length>("1.601 in");
    auto const large = q<units::Length>("2.058 in");
    CHECK_THAT(in(velocity_head(pipe_velocity(flow, small)), "ft"), WithinAbs(1.42, 0.005));
    CHECK_THAT(in(velocity_head(pipe_velocity(flow, large)), "ft"), WithinAbs(0.52, 0.005));
    auto const head =
        total_dynamic_head({q<units::GaugePressure>("-6 inHg"), {}, small},
                           {q<units::GaugePressure>("18 psi"), {}, large}, flow, q<units::Temperature>("20 degC"));
    REQUIRE(head.velocity_part);
    CHECK_THAT(in(*head.velocity_part, "ft"), WithinAbs(-0.9, 0.05));
}

TEST_CASE("total head: gauge heights count foot for foot, exchanging the gauges changes its sign", "[circulation]")
{
    auto const water = q<units::Temperature>("80 degF");
    GaugePoint const low{q<units::GaugePressure>("-6 inHg"), q<units::Length>("1 ft"), {}};
    GaugePoint const high{q<units::GaugePressure>("18 psi"), q<units::Length>("4 ft"), {}};
    GaugePoint level = high;
    level.height = low.height;
    auto const with = total_dynamic_head(low, high, std::nullopt, water).total;
    CHECK_THAT(in(with - total_dynamic_head(low, level, std::nullopt, water).total, "ft"), WithinRel(3.0, 1e-12));
    CHECK_THAT((with + total_dynamic_head(high, low, std::nullopt, water).total).value(), WithinAbs(0.0, 1e-12));
}

TEST_CASE("head of pressure and pressure of head undo each other from 1 to 99 °C", "[circulation]")
{
    for (double celsius = 1; celsius < 100; celsius += 7)
    {
        auto const water = units::of_si<units::Temperature>(celsius + 273.15);
        auto const pressure = q<units::Pressure>("23.4 psi");
        CHECK_THAT(in(pressure_of_head(head_of_pressure(pressure, water), water), "psi"), WithinRel(23.4, 1e-13));
    }
}

TEST_CASE("head of pressure refuses water that is no liquid", "[circulation]")
{
    CHECK_THROWS_AS(head_of_pressure(q<units::Pressure>("1 psi"), q<units::Temperature>("110 degC")),
                    physics::OutOfRange);
}
