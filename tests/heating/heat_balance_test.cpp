#include "padwalk/heating/heat_balance.hpp"

#include "padwalk/figures/figure.hpp"
#include "padwalk/heating/models.hpp"
#include "padwalk/reference/yaml.hpp"

#include "catch_compat.hpp"
#include "data_folder.hpp"

#include <cmath>

using namespace padwalk;
using namespace padwalk::heating;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace
{

constexpr double kbtu_per_hour = 1055.05585262e3 / 3600, gpm = 231 * 0.0254 * 0.0254 * 0.0254 / 60,
                 fahrenheit_degree = 1 / 1.8;

FiredHeaterTable const& table()
{
    static FiredHeaterTable const t = fired_heater_table(tests::data_from_folder());
    return t;
}

template <class Q> Q si(double value)
{
    return units::of_si<Q>(value);
}

template <class Q> units::Measured<Q> measured(Q value, double doubt)
{
    return {value, si<units::Difference<Q>>(doubt), {}};
}

FiredHeater sound()
{
    FiredHeater h;
    h.draft = Draft::natural;
    h.plate_input = si<units::Power>(300 * kbtu_per_hour);
    h.plate_efficiency = si<units::Fraction>(0.82);
    h.air = table().plate.air;
    h.inlet = table().plate.inlet;
    h.flow = plate_flow(h, table());
    return h;
}

FiredHeater sick(HeaterFaultKind kind, double severity = 1)
{
    return with_heater_fault(sound(), kind, si<units::Fraction>(severity), table());
}

/// Everything that can be read on a heater; the flow is what someone takes it for.
BalanceReadings all_of(FiredHeater const& h, units::VolumeFlow flow)
{
    auto const s = fire(h, table());
    BalanceReadings r;
    r.nameplate_input = measured(h.plate_input, 0.04 * units::in_si(h.plate_input));
    r.clocked_input = measured(s.clocked, 0.03 * units::in_si(s.clocked));
    r.nameplate_efficiency = measured(h.plate_efficiency, 0.02);
    r.jacket = measured(si<units::Fraction>(table().jacket.value.value()), 0.01);
    r.rise = measured(s.rise_shown, 0.3 * fahrenheit_degree);
    r.flow = measured(flow, 0.05 * units::in_si(flow));
    r.inlet = h.inlet;
    r.flue = measured(s.flue, 5 * fahrenheit_degree);
    r.air = h.air;
    r.oxygen = measured(s.oxygen, 0.003);
    r.carbon_dioxide = measured(s.carbon_dioxide, 0.002);
    return r;
}

BalanceReadings all_of(FiredHeater const& h)
{
    return all_of(h, h.flow);
}

HeatBalance balance(BalanceReadings const& r)
{
    return heat_balance(r, table());
}

std::string words(BalanceReadings const& r)
{
    return balance_in_words(balance(r), r, table());
}

figures::Figure written(std::string const& yaml)
{
    static std::vector<figures::Model> const all = heating::models(tests::data_from_folder());
    for (auto const& model : all)
        if (model.name == "heat_balance")
            return figures::run_written(model, reference::read_yaml(yaml));
    throw std::logic_error("no heat_balance");
}

double value(figures::Figure const& figure, std::string const& output, double unit)
{
    return figure.output(output).value.value() / unit;
}

} // namespace

TEST_CASE("all that is read on a sound heater closes, by oxygen and by carbon dioxide", "[heating]")
{
    auto r = all_of(sound());
    for (int by = 0; by < 2; ++by)
    {
        auto const b = balance(r);
        CHECK_THAT(units::in_si(*b.unexplained), WithinAbs(0, 1e-6 * units::in_si(*b.input)));
        CHECK_THAT(b.efficiency_by_water->value(), WithinAbs(0.82, 1e-6));
        CHECK_THAT(b.efficiency_by_stack->value(), WithinAbs(0.82, 1e-6));
        CHECK(b.side == BalanceSide::nothing);
        r.oxygen.reset();
    }
    CHECK(words(r) ==
          "the balance closes within 0 units of doubt: the readings agree with each other and with the plate");
}

TEST_CASE("a fault's readings name its side where enough was read", "[heating]")
{
    using K = HeaterFaultKind;
    CHECK(balance(all_of(sick(K::gas_pressure_low))).side == BalanceSide::gas);
    CHECK(balance(all_of(sick(K::orifice_small))).side == BalanceSide::gas);
    CHECK(balance(all_of(sick(K::orifice_large))).side == BalanceSide::gas);
    CHECK(balance(all_of(sick(K::scaled_exchanger))).side == BalanceSide::exchanger);
    CHECK(balance(all_of(sick(K::sooted_exchanger, 0.6))).side == BalanceSide::exchanger);
    CHECK(balance(all_of(sick(K::vent_blocked))).side == BalanceSide::air);
    CHECK(balance(all_of(sick(K::thermometer_low))).side == BalanceSide::flow_or_thermometers);
    // Less flows than it was taken for: the water seems to have more heat than there is.
    auto const slow = sick(K::flow_low, 0.3);
    CHECK(balance(all_of(slow, sound().flow)).side == BalanceSide::flow_or_thermometers);
    CHECK(balance(all_of(sick(K::flow_low), sound().flow)).side == BalanceSide::reading);
    // With the flow read right nothing is wrong with the heat.
    CHECK(balance(all_of(slow)).side == BalanceSide::nothing);
}

TEST_CASE("where the gas was not clocked or the flue not read, the balance can't tell which side", "[heating]")
{
    auto r = all_of(sick(HeaterFaultKind::gas_pressure_low));
    r.clocked_input.reset();
    CHECK(balance(r).side == BalanceSide::cannot_tell);
    r.flue.reset();
    CHECK(balance(r).side == BalanceSide::cannot_tell);
    CHECK(
        words(r) ==
        "less heat in the water than plate and input give (9.9 units of doubt): gas, exchanger, flow or thermometers, "
        "can't tell which; the gas meter clocked, flue temperature and oxygen by a technician would tell more");
    BalanceReadings nothing;
    nothing.nameplate_efficiency = r.nameplate_efficiency;
    nothing.jacket = r.jacket;
    CHECK(balance(nothing).side == BalanceSide::cannot_tell);
    CHECK(words(nothing) ==
          "can't tell which side is wrong; the gas meter clocked, the flow, the rise, flue temperature "
          "and oxygen by a technician would tell more");
    nothing.nameplate_input = r.nameplate_input;
    auto const b = balance(nothing);
    CHECK(b.side == BalanceSide::cannot_tell);
    CHECK_FALSE(b.unexplained);
}

TEST_CASE("readings that can't be are called wrong readings", "[heating]")
{
    auto r = all_of(sound());
    r.flow = measured(r.flow->value * 1.5, 0.05 * units::in_si(r.flow->value));
    CHECK(balance(r).side == BalanceSide::reading);
    CHECK(words(r).find("which can't be: flow, rise or input is read wrong") != std::string::npos);
    auto clock = all_of(sound());
    clock.clocked_input->value = clock.clocked_input->value * 1.4; // a water heater came on
    CHECK(balance(clock).side == BalanceSide::reading);
    CHECK(words(clock).find("with the plate's input the balance would close") != std::string::npos);
}

TEST_CASE("short of air the words say to leave the heater off", "[heating]")
{
    CHECK(words(all_of(sick(HeaterFaultKind::vent_blocked))).find("leave the heater off") != std::string::npos);
}

TEST_CASE("the doubt of what is unexplained is that of the catalogue's carried doubt", "[heating]")
{
    std::string const plain = "nameplate_input: 300 kBtu/h, clocked_input: 290 kBtu/h, rise: 9 degF, flow: 50 gpm, "
                              "flue_temperature: 350 degF, oxygen: 6 %, jacket_doubt: 0 %";
    auto const own = written("{" + plain +
                             ", clocked_doubt: 3 %, rise_doubt: 0.3 degF, flow_doubt: 5 %, flue_doubt: 5 degF, "
                             "oxygen_doubt: 0.3 %}");
    auto const carried =
        written("{nameplate_input: 300 kBtu/h, clocked_input: 290 ± 17.4 kBtu/h, rise: 9 ± 0.6 degF, flow: 50 ± 5 gpm, "
                "flue_temperature: 350 ± 10 degF, oxygen: 6 ± 0.6 %, jacket_doubt: 0 %}");
    auto const& out = carried.output("unexplained");
    CHECK_THAT(value(own, "doubt", 1), WithinRel((out.high - out.low) / (2 * 1.96), 0.06)); // 255 points
    CHECK_THAT(value(own, "apart", 1), WithinRel(value(own, "unexplained", 1) / value(own, "doubt", 1), 1e-12));
}

TEST_CASE("efficiency by water: 65,456 of 81,820 Btu/h are 80 % (a training page, read), and 60 gpm, 11 F, 371 kBtu/h "
          "are 0.88 "
          "(equipment facts, computed)",
          "[heating]")
{
    BalanceReadings r;
    r.nameplate_efficiency = measured(si<units::Fraction>(0.8), 0.02);
    r.jacket = measured(si<units::Fraction>(0.02), 0.01);
    r.inlet = si<units::Temperature>(313.15);
    r.clocked_input = measured(si<units::Power>(81.82 * kbtu_per_hour), 1000);
    // 65,456 Btu/h over 495.9 Btu/h for each gpm and degF at 40 degC: 13.2 F at 10 gpm.
    r.flow = measured(si<units::VolumeFlow>(10 * gpm), 0.05 * 10 * gpm);
    r.rise = measured(si<units::TemperatureDifference>(65456 / 4959.0 * fahrenheit_degree), 0.2);
    CHECK_THAT(balance(r).efficiency_by_water->value(), WithinAbs(0.80, 0.001));
    r.clocked_input = measured(si<units::Power>(371 * kbtu_per_hour), 3000);
    r.flow = measured(si<units::VolumeFlow>(60 * gpm), 3 * gpm);
    r.rise = measured(si<units::TemperatureDifference>(11 * fahrenheit_degree), 0.2);
    CHECK_THAT(balance(r).efficiency_by_water->value(), WithinAbs(0.88, 0.005));
}

TEST_CASE("heat_balance as a figure: each part is there where it follows from the readings", "[heating]")
{
    auto const full = written("{clocked_input: 300 kBtu/h, rise: 9.5 degF, flow: 50 gpm, flue_temperature: 350 degF, "
                              "oxygen: 6 %}");
    double const sum =
        value(full, "water", 1) + value(full, "stack", 1) + value(full, "jacket", 1) + value(full, "unexplained", 1);
    CHECK_THAT(sum, WithinRel(value(full, "input", 1), 1e-12));
    CHECK(full.output("side").words == "nothing");
    auto const stack = written("{flue_temperature: 350 degF, oxygen: 6 %}");
    CHECK_FALSE(stack.output("input").value);
    CHECK_FALSE(stack.output("stack").value);
    CHECK(stack.output("efficiency_by_stack").value);
    auto const swapped = written("{flue_temperature: 65 degF, oxygen: 6 %, air_temperature: 80 degF}");
    CHECK_FALSE(swapped.computed());
    CHECK(swapped.why_not.find("colder than the air") != std::string::npos);
    auto const only_plate = written("{nameplate_input: 300 kBtu/h}");
    CHECK(only_plate.output("side").words == "can't tell");
}
