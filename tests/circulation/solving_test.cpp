// That the quick ways to a root find it: Colebrook's, the pump's slope, and a loop's point in every kind of flow.
#include "catch_compat.hpp"
#include "padwalk/circulation/loop.hpp"
#include "written.hpp"

#include <cmath>

using namespace padwalk;
using namespace padwalk::circulation;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using tests::number;

namespace
{

fields::CurvePoint point(double m3s, double m)
{
    return {units::of_si<units::VolumeFlow>(m3s), units::of_si<units::Head>(m)};
}

/// 1/f by halving the interval of the equation as it is written.
double by_halves(double reynolds, double roughness_share)
{
    double low = 1, high = 30;
    for (int i = 0; i < 100; ++i)
    {
        double const x = (low + high) / 2;
        (x + 2 * std::log10(roughness_share / 3.7 + 2.51 / reynolds * x) > 0 ? high : low) = x;
    }
    return low * low;
}

} // namespace

TEST_CASE("Colebrook's root by halving intervals, over its whole range: to 1e-13", "[circulation]")
{
    for (double re = 2000; re <= 1e8; re *= 1.3)
        for (double const roughness : {0.0, 1e-7, 3e-5, 1e-4, 1e-3, 0.01, 0.05})
        {
            INFO("Re " << re << ", e/d " << roughness);
            CHECK_THAT(friction_factor_colebrook(number(re), number(roughness)).value() * by_halves(re, roughness),
                       WithinAbs(1, 1e-13));
        }
}

TEST_CASE("a pump's slope is the difference of its heads, at any speed, by both kinds of curve", "[circulation]")
{
    for (double const speed : {0.4, 1.0, 1.15})
        for (auto const& points : {std::vector{point(0, 20), point(0.0045, 15.5), point(0.0083, 3.7)},
                                   std::vector{point(0, 20), point(0.002, 19), point(0.0045, 15.5), point(0.0083, 3.7)},
                                   std::vector{point(0.001, 19), point(0.0045, 15.5), point(0.0083, 3.7)}})
        {
            PumpCurve const pump(points, units::of_si<units::Fraction>(speed));
            double const low = units::in_si(pump.least_flow()), high = units::in_si(pump.greatest_flow());
            for (int i = 1; i < 20; ++i)
            {
                double const at = low + i * (high - low) / 20, aside = 1e-6 * high;
                auto const head = [&](double q) { return pump.head_at(units::of_si<units::VolumeFlow>(q)).value(); };
                auto const both = pump.head_and_slope_at(units::of_si<units::VolumeFlow>(at));
                CHECK(both.head.value() == head(at));
                CHECK_THAT(both.slope, WithinRel((head(at + aside) - head(at - aside)) / (2 * aside), 1e-4));
            }
        }
}

TEST_CASE("what the pump makes the loop takes, laminar, between and turbulent, told as the losses at that flow",
          "[circulation]")
{
    auto const bore = units::of_si<units::Length>(0.03);
    Pipe const pipe{bore, units::of_si<units::Length>(30), number(10), units::of_si<units::Length>(1.5e-6),
                    number(150)};
    auto const viscosity = units::of_si<units::KinematicViscosity>(9e-7);
    int laminar = 0, between = 0, turbulent = 0;
    Loop const loop{pipe, pipe, number(5000), number(16), FrictionFormula::darcy_weisbach};
    for (double q = 1e-5; q < 1e-2; q *= 1.2)
    {
        // A pump that meets the loop near two thirds of its last flow.
        auto const there = pipe_loss(pipe, units::of_si<units::VolumeFlow>(0.7 * q), loop.formula, viscosity);
        double const head = (2 * there.total() + minor_head(number(5016), there.velocity)).value();
        PumpCurve const pump({point(0, 1.3 * head), point(0.6 * q, 1.1 * head), point(q, 0.5 * head)});
        OperatingPoint const at = operating_point(loop, pump, viscosity);
        double const re = at.losses.suction.reynolds.value();
        ++(re < 2000 ? laminar : re < 4000 ? between : turbulent);
        INFO("Re " << re);
        CHECK_THAT(at.losses.total().value(), WithinRel(at.pump_head.value(), 1e-9));
        auto const law = pipe_loss(pipe, at.flow, loop.formula, viscosity);
        CHECK_THAT(at.losses.suction.friction.value(), WithinRel(law.friction.value(), 1e-12));
        CHECK_THAT(at.losses.suction.minor.value(), WithinRel(law.minor.value(), 1e-12));
        CHECK_THAT(at.losses.filter.value(), WithinRel(minor_head(number(5000), law.velocity).value(), 1e-12));
        CHECK_THAT(at.losses.discharge.friction.value(), WithinRel(law.friction.value(), 1e-12));
        CHECK_THAT(at.losses.suction.friction_factor.value().value(),
                   WithinRel(law.friction_factor.value().value(), 1e-12));
    }
    CHECK(laminar > 3);
    CHECK(between > 1);
    CHECK(turbulent > 3);
}
