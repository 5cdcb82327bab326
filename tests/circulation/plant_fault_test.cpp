#include "padwalk/circulation/head.hpp"
#include "plant_made.hpp"

#include <cmath>

using namespace padwalk;
using namespace padwalk::circulation;
using namespace padwalk::tests;
using Catch::Matchers::WithinRel;

namespace
{

/// Changes of total flow, vacuum side and filter gauge from the sound plant, in their signs.
struct Moved
{
    int flow, suction, discharge;
};

int sign(double change)
{
    return std::abs(change) < 0.02 ? 0 : change > 0 ? 1 : -1;
}

Moved moved(PlantFaultKind kind, double severity, std::string const& part = {})
{
    auto const sound = state(house()), sick = state(with_fault(house(), {kind, share(severity), part}));
    return {sign(gpm(sick.total) - gpm(sound.total)),
            sign(psi(sick.gauges.pump_suction) - psi(sound.gauges.pump_suction)),
            sign(psi(sick.gauges.filter_in) - psi(sound.gauges.filter_in))};
}

void check_moved(PlantFaultKind kind, Moved const& expected)
{
    for (double severity : {0.3, 0.6, 0.9})
    {
        INFO("fault " << static_cast<int>(kind) << " severity " << severity);
        Moved const m = moved(kind, severity);
        CHECK(m.flow == expected.flow);
        CHECK(m.suction == expected.suction);
        CHECK(m.discharge == expected.discharge);
    }
}

} // namespace

TEST_CASE("what a fault moves: directions as operator courses teach them, from memory", "[circulation]")
{
    using K = PlantFaultKind; // flow, gauge at the suction (vacuum is below), gauge at the filter
    check_moved(K::clogged_basket, {-1, -1, -1});
    check_moved(K::suction_valve_part_shut, {-1, -1, -1});
    check_moved(K::undersized_pipe, {-1, -1, -1});
    check_moved(K::suction_air, {-1, 1, -1});
    check_moved(K::impeller_clogged, {-1, 1, -1});
    check_moved(K::worn_impeller, {-1, 1, -1});
    check_moved(K::wrong_rotation, {-1, 1, -1});
    check_moved(K::wrong_speed, {-1, 1, -1});
    check_moved(K::dirty_filter, {-1, 1, 1});
    check_moved(K::return_valve_shut, {-1, 1, 1});
    check_moved(K::bypass_stuck_open, {1, -1, -1});
}

TEST_CASE("a filter due for cleaning stands 5 to 10 psi over its clean reading, as US federal advice has it",
          "[circulation]")
{
    auto const rises = cleaning_rises(tests::data_from_folder());
    REQUIRE_FALSE(rises.empty());
    REQUIRE(rises[0].source.key == "epa-watersense");
    double const psi_pa = units::in_si(q<units::Pressure>("1 psi"));
    for (double hp : {1.0, 1.5, 2.0, 3.0})
    {
        Plant p = house();
        p.pumps[0].curve = generic_curve(q<units::Power>("1 hp") * hp, tables().pumps);
        double const clean = psi(state(p).gauges.filter_in);
        double const due = psi(state(with_fault(p, {PlantFaultKind::dirty_filter, share(1), {}})).gauges.filter_in);
        CHECK(due - clean > units::in_si(rises[0].low) / psi_pa);
        CHECK(due - clean < units::in_si(rises[0].high) / psi_pa);
    }
}

TEST_CASE("a fault of no severity changes nothing, and a worse one moves flow further", "[circulation]")
{
    double const sound = gpm(state(house()).total);
    for (int k = 0; k <= static_cast<int>(PlantFaultKind::worn_impeller); ++k)
    {
        auto const kind = static_cast<PlantFaultKind>(k);
        INFO("fault " << k);
        CHECK(gpm(state(with_fault(house(), {kind, share(0), {}})).total) == sound);
        if (kind == PlantFaultKind::wrong_rotation)
            continue; // it has no degrees
        double last = 0;
        for (double severity = 0.2; severity < 1; severity += 0.2)
        {
            double const off = std::abs(gpm(state(with_fault(house(), {kind, share(severity), {}})).total) - sound);
            CHECK(off > last);
            last = off;
        }
    }
}

TEST_CASE("a pump that turns the wrong way gives 55 to 80 % of its flow here, and air makes the gauge swing",
          "[circulation]")
{
    // Head and flow of the curve are both cut to 0.55; on losses between Q and Q2 the flow falls less than the curve.
    auto const sound = state(house()),
               wrong = state(with_fault(house(), {PlantFaultKind::wrong_rotation, share(1), {}}));
    double const left = gpm(wrong.total) / gpm(sound.total);
    CHECK(left > 0.55);
    CHECK(left < 0.80);
    CHECK(state(with_fault(house(), {PlantFaultKind::suction_air, share(0.3), {}})).pulses);
    CHECK_FALSE(sound.pulses);
}

TEST_CASE("opening the heater's bypass: less through the heater, more in all", "[circulation]")
{
    auto const before = state(house()),
               after = state(with_fault(house(), {PlantFaultKind::bypass_stuck_open, share(1), {}}));
    CHECK(after.total > before.total);
    CHECK(after.through_heater < before.through_heater);
    CHECK_THAT(gpm(after.through_heater) + gpm(after.through_bypass), WithinRel(gpm(after.total), 1e-12));
}

TEST_CASE("every return shut: no flow, the gauge shows the pump's head at no flow, and a basket can't be worse",
          "[circulation]")
{
    Plant const shut = with_fault(house(), {PlantFaultKind::return_valve_shut, share(1), {}});
    auto const s = state(shut);
    CHECK(s.total == units::VolumeFlow{});
    double const feet = in(head_of_pressure(q<units::Pressure>("1 psi"), shut.water), "ft");
    CHECK_THAT(psi(s.gauges.pump_discharge), WithinRel((65 - 2) / feet, 1e-9)); // 65 ft of 1.5 hp, 2 ft above the water
    CHECK_THAT(psi(s.gauges.pump_suction), WithinRel(-2 / feet, 1e-9));
    Plant const one = with_fault(house(), {PlantFaultKind::return_valve_shut, share(1), "return 2"});
    CHECK(state(one).returns[1].flow == units::VolumeFlow{});
    CHECK(state(one).returns[0].flow > units::VolumeFlow{});
}

TEST_CASE("a strong pump on a clogged basket high above the water: the model says that the water would boil",
          "[circulation]")
{
    Plant p = house();
    p.pumps[0].curve = generic_curve(q<units::Power>("3 hp"), tables().pumps);
    p.pad_height = q<units::Length>("12 ft");
    p.water = q<units::Temperature>("104 degF");
    p.basket_clogging = share(0.9);
    auto const s = state(p);
    CHECK(s.boils_at_pump);
    CHECK_FALSE(s.suction_available);
}
