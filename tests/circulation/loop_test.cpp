#include "catch_compat.hpp"
#include "csv.hpp"
#include "padwalk/circulation/loop.hpp"
#include "padwalk/figures/model.hpp"
#include "padwalk/physics/water.hpp"
#include "written.hpp"

#include <cmath>

using namespace padwalk;
using namespace padwalk::circulation;
using Catch::Matchers::Message;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using tests::in;
using tests::number;
using tests::q;

namespace
{

units::Length metre(double value)
{
    return units::of_si<units::Length>(value);
}

fields::CurvePoint point(double m3s, double m)
{
    return {units::of_si<units::VolumeFlow>(m3s), units::of_si<units::Head>(m)};
}

struct Case
{
    Loop loop;
    PumpCurve pump;
    units::Temperature water;
};

Case read_case(tests::CsvRow const& row)
{
    bool const hazen = row.text("formula") == "HW";
    units::Number const c = hazen ? row.number("hw_C") * number(1) : number(0);
    auto const roughness = metre(hazen ? 0 : row.number("roughness_m")); // the column is empty for HW
    Loop const loop{{metre(row.number("d_suction_m")), metre(row.number("L_suction_m")),
                     number(row.number("K_suction")), roughness, c},
                    {metre(row.number("d_discharge_m")), metre(row.number("L_discharge_m")),
                     number(row.number("K_discharge")), roughness, c},
                    number(row.number("K_filter")),
                    number(row.number("K_heater")),
                    hazen ? FrictionFormula::hazen_williams : FrictionFormula::darcy_weisbach};
    PumpCurve const pump({point(0, row.number("pump_h0_m")), point(row.number("pump_q1_m3s"), row.number("pump_h1_m")),
                          point(row.number("pump_q2_m3s"), row.number("pump_h2_m"))},
                         units::of_si<units::Fraction>(row.number("speed")));
    return {loop, pump, units::of_si<units::Temperature>(row.number("temp_C") + 273.15)};
}

/// A loop of which only the return's loss coefficient takes head: h = K v2/2g.
Loop plain_loop(double k)
{
    auto const bore = q<units::Length>("2.058 in");
    Pipe const nothing{bore, metre(0), number(0), metre(0), number(150)};
    Pipe const all{bore, metre(0), number(k), metre(0), number(150)};
    return {nothing, all, number(0), number(0), FrictionFormula::darcy_weisbach};
}

} // namespace

TEST_CASE("operating points of 40 loops: an independent solution in SI within 0.01 %, EPANET 2.3.5 within 0.2 %",
          "[circulation]")
{
    // si_ columns: the same equations, solved elsewhere. EPANET: explicit friction factor and its own rounded
    // constants, which its table's header finds to differ from the si_ columns by up to 0.16 % in flow.
    auto const rows = tests::reference_csv("circulation/loop.csv");
    REQUIRE(rows.size() == 40);
    for (auto const& row : rows)
    {
        INFO(row.place() << " " << row.text("id"));
        Case const c = read_case(row);
        auto const at = operating_point(c.loop, c.pump, c.water);
        CHECK_THAT(units::in_si(at.flow), WithinRel(row.number("si_flow_m3s"), 1e-4));
        CHECK_THAT(at.pump_head.value(), WithinRel(row.number("si_pump_head_m"), 1e-4));
        CHECK_THAT(units::in_si(at.flow), WithinRel(row.number("flow_m3s"), 2e-3));
        CHECK_THAT(at.pump_head.value(), WithinRel(row.number("pump_head_m"), 2e-3));
        CHECK_THAT(units::in_si(physics::kinematic_viscosity(c.water)), WithinRel(row.number("nu_m2s"), 1e-5));
    }
}

TEST_CASE("where EPANET's 40 loops lose their head", "[circulation]")
{
    // Fittings, filter and heater go with flow squared: 2 x 0.16 %. Friction as well differs by 0.63 % for turbulent
    // flow (header of the table); T08's suction runs between laminar and turbulent, where the bridges differ by 6.3 %.
    for (auto const& row : tests::reference_csv("circulation/loop.csv"))
    {
        INFO(row.place() << " " << row.text("id"));
        Case const c = read_case(row);
        auto const losses = operating_point(c.loop, c.pump, c.water).losses;
        double const friction = row.text("id") == "T08" ? 0.065 : 0.0095;
        CHECK_THAT(losses.suction.friction.value(), WithinRel(row.number("hf_suction_m"), friction));
        CHECK_THAT(losses.discharge.friction.value(),
                   WithinRel(row.number("hf_discharge_m"), row.text("id") == "T08" ? 0.015 : friction));
        CHECK_THAT(losses.suction.minor.value(), WithinRel(row.number("hm_suction_m"), 0.0035));
        CHECK_THAT(losses.discharge.minor.value(), WithinRel(row.number("hm_discharge_m"), 0.0035));
        CHECK_THAT(losses.filter.value(), WithinRel(row.number("h_filter_m"), 0.0035));
        CHECK_THAT(losses.heater.value(),
                   WithinAbs(row.number("h_heater_m"), 0.0035 * row.number("h_heater_m") + 1e-12));
    }
}

TEST_CASE("made-up pump H = 80 (1 - (Q/110)2) on a loop of 0.0082 Q2: 73.5 gpm, 44.3 ft, computed by hand",
          "[circulation]")
{
    auto const gpm = units::in_si(q<units::VolumeFlow>("1 gpm"));
    double const velocity = units::in_si(pipe_velocity(q<units::VolumeFlow>("1 gpm"), q<units::Length>("2.058 in")));
    double const k = 0.0082 * 0.3048 * 2 * 9.80665 / (velocity * velocity);
    PumpCurve const pump({point(0, 80 * 0.3048), point(60 * gpm, 80 * 0.3048 * (1 - 3600.0 / 12100)),
                          point(100 * gpm, 80 * 0.3048 * (1 - 10000.0 / 12100))});
    auto const at = operating_point(plain_loop(k), pump, q<units::Temperature>("80 degF"));
    CHECK_THAT(in(at.flow, "gpm"), WithinAbs(std::sqrt(80 / (0.0082 + 80.0 / 12100)), 1e-6));
    CHECK_THAT(in(at.flow, "gpm"), WithinAbs(73.5, 0.05));
    CHECK_THAT(in(at.pump_head, "ft"), WithinAbs(44.3, 0.05));
}

TEST_CASE("what the pump makes the loop takes, and a dirtier filter means less flow and more head", "[circulation]")
{
    Case c = read_case(tests::reference_csv("circulation/loop.csv").at(3));
    auto last = operating_point(c.loop, c.pump, c.water);
    for (double k = 50; k < 2000; k *= 2)
    {
        c.loop.filter_loss = number(k);
        auto const at = operating_point(c.loop, c.pump, c.water);
        CHECK_THAT(at.losses.total().value(), WithinRel(at.pump_head.value(), 1e-9));
        CHECK(at.flow < last.flow);
        CHECK(at.pump_head > last.pump_head);
        last = at;
    }
}

TEST_CASE("an operating point off the pump's curve is not guessed at", "[circulation]")
{
    PumpCurve const pump({point(0.001, 20), point(0.002, 15), point(0.003, 8)});
    auto const water = q<units::Temperature>("80 degF");
    CHECK_THROWS_MATCHES(operating_point(plain_loop(1), pump, water), figures::NotComputed,
                         Message("at the last point of the pump curve, 47.55 US gpm, the pump still makes more head "
                                 "than the loop takes; give a point "
                                 "at a higher flow, or check that no loss was left out"));
    CHECK_THROWS_MATCHES(operating_point(plain_loop(1e5), pump, water), figures::NotComputed,
                         Message("already at the first point of the pump curve, 15.85 US gpm, the loop takes more head "
                                 "than the pump makes; give a "
                                 "point at a lower flow"));
}
