#include "padwalk/heating/fired_heater.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/heating/heat.hpp"

#include "catch_compat.hpp"
#include "data_folder.hpp"

#include <algorithm>
#include <cmath>
#include <random>
#include <set>

using namespace padwalk;
using namespace padwalk::heating;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace
{

constexpr double kbtu_per_hour = 1055.05585262e3 / 3600;

FiredHeaterTable const& table()
{
    static FiredHeaterTable const t = fired_heater_table(tests::data_from_folder());
    return t;
}

units::Fraction share(double value)
{
    return units::Fraction::from_value(value);
}

FiredHeater on_plate(physics::Fuel fuel = physics::Fuel::natural_gas, Draft draft = Draft::fan,
                     double efficiency = 0.82, double kbtu = 300)
{
    FiredHeater h;
    h.fuel = fuel;
    h.draft = draft;
    h.plate_input = units::of_si<units::Power>(kbtu * kbtu_per_hour);
    h.plate_efficiency = share(efficiency);
    h.air = table().plate.air;
    h.inlet = table().plate.inlet;
    h.flow = plate_flow(h, table());
    return h;
}

HeaterState sick(HeaterFaultKind kind, double severity, Draft draft = Draft::fan)
{
    return fire(with_heater_fault(on_plate(physics::Fuel::natural_gas, draft), kind, share(severity), table()),
                table());
}

double si(auto const& quantity)
{
    return units::in_si(quantity);
}

} // namespace

TEST_CASE("a sound heater gives its plate's efficiency and rise on its plate's water and air", "[heating]")
{
    for (auto const fuel : {physics::Fuel::natural_gas, physics::Fuel::propane})
        for (auto const draft : {Draft::natural, Draft::fan})
            for (double const efficiency : {0.7, 0.78, 0.82, 0.85})
                for (double const kbtu : {75.0, 400.0})
                {
                    auto const s = fire(on_plate(fuel, draft, efficiency, kbtu), table());
                    CHECK_THAT(s.efficiency.value(), WithinAbs(efficiency, 1e-9));
                    CHECK_THAT(s.efficiency_by_stack.value(), WithinAbs(efficiency, 1e-9));
                    CHECK_THAT(si(s.rise), WithinAbs(si(table().plate.rise), 1e-8));
                    CHECK_THAT(si(s.input), WithinRel(kbtu * kbtu_per_hour, 1e-12));
                    CHECK_THAT(s.excess_air.value(), WithinAbs(table().excess_air(draft), 1e-9));
                }
}

TEST_CASE("heat in is heat out to 1e-9 in 1000 random states of random heaters", "[heating]")
{
    std::mt19937 engine(11);
    std::uniform_real_distribution<double> unit(0, 1);
    auto const between = [&](double a, double b) { return a + (b - a) * unit(engine); };
    int fired = 0, short_of_air = 0;
    while (fired < 1000)
    {
        auto h = on_plate(unit(engine) < 0.5 ? physics::Fuel::natural_gas : physics::Fuel::propane,
                          unit(engine) < 0.5 ? Draft::natural : Draft::fan, between(0.7, 0.85), between(75, 450));
        h.rated_excess = share(between(0.1, 0.8));
        h.jacket = share(between(0, 0.05));
        h.gas_pressure = units::Number::from_value(between(0.4, 1.5));
        h.orifice = units::Number::from_value(between(0.7, 1.3));
        h.gas_heat = units::Number::from_value(between(0.9, 1.1));
        h.altitude = units::of_si<units::Length>(between(0, 2500));
        h.air = units::of_si<units::Temperature>(between(265, 315));
        h.inlet = units::of_si<units::Temperature>(between(283, 313));
        h.flow = h.flow * between(0.4, 2.5);
        h.bypass = share(between(0, 0.7));
        h.scale = units::Number::from_value(between(0, 0.4));
        h.soot = units::Number::from_value(between(0, 1));
        h.soot_air = units::Number::from_value(between(0.7, 1));
        h.air_way = units::Number::from_value(between(0.6, 1));
        h.recirculated = share(between(0, 0.25));
        try
        {
            auto const s = fire(h, table());
            ++fired;
            short_of_air += s.excess_air.value() < 0;
            double const water = si(heat_capacity_flow(h.flow, h.inlet)) * si(s.rise);
            double const out = water + si(s.jacket) + si(s.stack_sensible) + si(s.stack_latent) + si(s.unburnt);
            CHECK_THAT(out / si(s.input), WithinAbs(1, 1e-9));
            CHECK_THAT(water, WithinRel(s.efficiency.value() * si(s.input), 1e-9));
            // The second law: the gas ends warmer than the water, the wall between both.
            CHECK(s.flue > h.inlet);
            CHECK(s.hot_wall >= s.tubes_outlet);
            CHECK(s.tubes_outlet >= s.outlet);
        }
        catch (figures::NotComputed const&)
        {
            // This one would boil, or has no air to burn with.
        }
    }
    CHECK(short_of_air > 50);
}

TEST_CASE(
    "an analyser's efficiency by Siegert (constants from memory) agrees with the heater's own within 0.3 of a point",
    "[heating]")
{
    for (double const efficiency : {0.76, 0.80, 0.84})
    {
        auto const h = on_plate(physics::Fuel::natural_gas, Draft::natural, efficiency);
        auto const s = fire(h, table());
        auto const net_loss = physics::stack_loss_siegert(s.flue - h.air, s.oxygen, units::Number::from_value(0.66),
                                                          units::Number::from_value(0.009));
        double const gross = physics::net_to_gross(h.fuel).value() * (1 - net_loss.value());
        CHECK_THAT(gross - table().jacket.value.value(), WithinAbs(s.efficiency.value(), 0.003));
    }
}

TEST_CASE("the rise is that of heater_rise for the same input, efficiency and flow", "[heating]")
{
    auto h = on_plate();
    h.flow = h.flow * 0.7;
    auto const s = fire(h, table());
    CHECK_THAT(si(s.rise), WithinRel(si(heater_rise(s.input, s.efficiency, h.flow, h.inlet)), 1e-9));
    CHECK_THAT(si(s.outlet), WithinRel(si(h.inlet) + si(s.rise), 1e-12));
}

TEST_CASE("input goes with the orifice's area, the root of the gas pressure and of the air's, and the gas's heat",
          "[heating]")
{
    auto const input = [](auto change)
    {
        auto h = on_plate();
        change(h);
        return si(fire(h, table()).input) / si(h.plate_input);
    };
    auto const number = [](double v) { return units::Number::from_value(v); };
    CHECK_THAT(input([&](auto& h) { h.gas_pressure = number(0.49); }), WithinAbs(0.7, 1e-12));
    CHECK_THAT(input([&](auto& h) { h.orifice = number(0.9); }), WithinAbs(0.9, 1e-12));
    CHECK_THAT(input([&](auto& h) { h.gas_heat = number(0.95); }), WithinAbs(0.95, 1e-12));
    // 5000 ft: 0.832 of the air's pressure (standard atmosphere), and what the rule of 4 % leaves of the input.
    auto high = on_plate();
    high.altitude = units::of_si<units::Length>(1524);
    CHECK_THAT(si(fire(high, table()).input) / si(high.plate_input), WithinAbs(std::sqrt(0.832), 2e-4));
    auto const set = fire(set_for_altitude(high, share(0.8)), table());
    CHECK_THAT(si(set.input) / si(high.plate_input), WithinAbs(0.8, 1e-12));
    CHECK(set.excess_air > fire(high, table()).excess_air); // unset it burns richer
    // The clock knows nothing of the gas's heat.
    auto thin = on_plate();
    thin.gas_heat = number(0.9);
    CHECK_THAT(si(fire(thin, table()).clocked), WithinRel(si(thin.plate_input), 1e-12));
}

TEST_CASE("a fan moves the same volume: its air goes with the air's pressure and against its temperature", "[heating]")
{
    auto high = on_plate();
    high.altitude = units::of_si<units::Length>(1524);
    double const plate = 1 + table().excess_air(Draft::fan);
    CHECK_THAT(1 + fire(high, table()).excess_air.value(), WithinRel(plate * std::sqrt(0.832), 2e-4));
    auto hot = on_plate();
    hot.air = units::of_si<units::Temperature>(si(table().plate.air) * 1.05);
    CHECK_THAT(1 + fire(hot, table()).excess_air.value(), WithinRel(plate / 1.05, 1e-9));
    auto weak = on_plate();
    weak.orifice = units::Number::from_value(0.8);
    CHECK_THAT(1 + fire(weak, table()).excess_air.value(), WithinRel(plate / 0.8, 1e-9));
    auto back = on_plate();
    back.recirculated = share(0.1);
    CHECK_THAT(1 + fire(back, table()).excess_air.value(), WithinRel(plate * 0.9, 1e-9));
}

TEST_CASE("heat taken from the gas by hand: the effectiveness of UA over C, with scale, and with less gas", "[heating]")
{
    auto const plate = on_plate();
    double const jacket = table().jacket.value.value(), film = table().water_share.value.value();
    auto const gas = physics::flue_gas(plate.fuel, share(table().excess_air(Draft::fan)));
    auto const water = plate.inlet + table().plate.rise / (2 * (1 - table().bypass.value.value()));
    double const most =
        physics::net_to_gross(plate.fuel).value() - physics::heat_carried(plate.fuel, gas, plate.air, water).value();
    double const units_on_plate = -std::log(1 - (0.82 + jacket) / most);
    auto const efficiency = [&](double resistance, double capacity)
    { return most * (1 - std::exp(-units_on_plate / resistance / capacity)) - jacket; };
    double const cooler_water = 5e-4; // less heat warms the water less: a few K of some 2000
    auto scaled = plate;
    scaled.scale = units::Number::from_value(0.3);
    CHECK_THAT(fire(scaled, table()).efficiency.value(), WithinAbs(efficiency(1.3, 1), cooler_water));
    auto weak = plate; // seven tenths of gas and of air
    weak.orifice = units::Number::from_value(0.7);
    weak.air_way = units::Number::from_value(0.7);
    double const resistance = film + (1 - film) * std::pow(0.7, -table().gas_exponent.value.value());
    CHECK_THAT(fire(weak, table()).efficiency.value(), WithinAbs(efficiency(resistance, 0.7), 3 * cooler_water));
}

TEST_CASE("faults push readings the way the trade knows", "[heating]")
{
    using K = HeaterFaultKind;
    for (auto const draft : {Draft::fan, Draft::natural})
    {
        auto const sound = fire(on_plate(physics::Fuel::natural_gas, draft), table());
        auto const scaled = sick(K::scaled_exchanger, 1, draft), sooted = sick(K::sooted_exchanger, 0.5, draft),
                   weak = sick(K::gas_pressure_low, 1, draft), large = sick(K::orifice_large, 1, draft),
                   slow = sick(K::flow_low, 1, draft), open = sick(K::bypass_stuck_open, 1, draft),
                   shut = sick(K::bypass_stuck_shut, 1, draft), blocked = sick(K::vent_blocked, 0.7, draft),
                   back = sick(K::recirculation, 1, draft), off = sick(K::thermometer_high, 1, draft);
        for (auto const& s : {scaled, sooted})
        {
            CHECK(s.flue > sound.flue);
            CHECK(s.rise < sound.rise);
            CHECK_THAT(si(s.clocked), WithinRel(si(sound.clocked), 1e-12));
        }
        CHECK(scaled.hot_wall > sooted.hot_wall); // scale keeps the water from the metal, soot the fire
        CHECK(scaled.hot_wall > sound.hot_wall);
        CHECK(sooted.excess_air < sound.excess_air);
        CHECK(weak.clocked < sound.clocked);
        CHECK(weak.oxygen > sound.oxygen);
        CHECK(weak.flue < sound.flue);
        CHECK(large.clocked > sound.clocked);
        CHECK(large.monoxide_air_free > sound.monoxide_air_free);
        CHECK(slow.rise > sound.rise);
        CHECK(slow.efficiency < sound.efficiency);
        CHECK(open.tubes_outlet > sound.tubes_outlet);
        CHECK(open.hot_wall > sound.hot_wall);
        CHECK(shut.hot_wall < sound.hot_wall); // where it may sweat
        CHECK(blocked.oxygen < sound.oxygen);
        CHECK(blocked.monoxide_air_free > sound.monoxide_air_free * 10);
        CHECK(back.oxygen < sound.oxygen);
        CHECK(back.monoxide_air_free > sound.monoxide_air_free * 10);
        CHECK_THAT(si(off.rise), WithinAbs(si(sound.rise), 1e-9));
        CHECK(off.rise_shown > sound.rise_shown);
        // Good practice and the limit listed for vented heaters, air free (ANSI Z21 as listed in the trade press).
        CHECK(sound.monoxide_air_free.value() < 100e-6);
        CHECK(back.monoxide_air_free.value() > 400e-6);
    }
}

TEST_CASE("every fault does nothing at severity 0 and has one row of the table", "[heating]")
{
    std::set<HeaterFaultKind> seen;
    auto const sound = fire(on_plate(), table());
    for (auto const& row : table().faults)
    {
        INFO(row.name);
        CHECK(seen.insert(row.fault).second);
        auto const s = fire(with_heater_fault(on_plate(), row.fault, share(0), table()), table());
        CHECK(si(s.rise_shown) == si(sound.rise_shown));
        CHECK(si(s.flue) == si(sound.flue));
        CHECK(s.monoxide == sound.monoxide);
        CHECK(row.mildest.value() > 0);
        CHECK(row.mildest.value() < 1);
        CHECK_THROWS_AS(with_heater_fault(on_plate(), row.fault, share(1.01), table()), figures::NotComputed);
    }
    CHECK(seen.size() == fields::words_of<HeaterFaultKind>::words().size());
}

TEST_CASE("a heater that can't be is refused", "[heating]")
{
    auto no_flow = on_plate();
    no_flow.flow = {};
    CHECK_THROWS_AS(fire(no_flow, table()), figures::NotComputed);
    auto no_plate = on_plate();
    no_plate.plate_input = {};
    CHECK_THROWS_AS(fire(no_plate, table()), figures::NotComputed);
    auto condensing = on_plate();
    condensing.plate_efficiency = share(0.93);
    CHECK_THROWS_AS(fire(condensing, table()), figures::NotComputed);
    auto no_air = on_plate();
    no_air.air_way = units::Number::from_value(0.3);
    CHECK_THROWS_AS(fire(no_air, table()), figures::NotComputed);
    auto no_gas = on_plate();
    no_gas.gas_pressure = units::Number::from_value(0);
    CHECK_THROWS_AS(fire(no_gas, table()), figures::NotComputed);
    auto boiling = on_plate();
    for (double const left : {0.1, 0.01, 1e-4, 1e-9})
    {
        boiling.flow = plate_flow(boiling, table()) * left;
        CHECK_THROWS_AS(fire(boiling, table()), figures::NotComputed);
    }
}
