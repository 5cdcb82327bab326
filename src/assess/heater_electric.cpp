// A heater that runs on electricity: its voltage against the plate's, the power and current of its element.
#include "heater_bench.hpp"

#include "padwalk/heating/heat_pump.hpp"

#include <numbers>

namespace padwalk::assess
{
namespace
{

using units::Measured;

bool is_element(HeaterBench const& b)
{
    return b.v.energy == visit::EnergyKind::electric_element;
}

std::string volts_against_plate(HeaterBench const& b)
{
    return b.w.show(*b.v.supply_voltage) + " at the heater, " + b.w.show(*b.v.nameplate_voltage) + " on its plate";
}

/// None, too much, or not the plate's: one reading says one of the three.
void weigh_voltage(HeaterBench& b, Measured<units::Fraction> const& share)
{
    auto const limit = [&](std::string const& name) { return b.w.rules.limit<units::Fraction>(name); };
    double const none = 1 - probability_above(share, limit("heater_no_voltage_share"));
    double const high = probability_above(share, limit("heater_voltage_high_share"));
    double const low = 1 - probability_above(share, limit("heater_voltage_low_share"));
    std::string const from = volts_against_plate(b) + "; speaks ";
    b.w.computed(b.heater, "heater_no_voltage", none, from + "below " + b.w.rules.cited("heater_no_voltage_share"));
    b.w.computed(b.heater, "heater_voltage_high", high, from + "above " + b.w.rules.cited("heater_voltage_high_share"));
    b.w.computed(b.heater, "heater_voltage_wrong", none > 0.5 ? 0.0 : low,
                 from + "below " + b.w.rules.cited("heater_voltage_low_share"));
}

/// Of an element, the power that it takes on the voltage it has: a resistance, so by the square.
void power_at_voltage(HeaterBench& b, Measured<units::Fraction> const& share)
{
    if (!is_element(b) || !b.v.input)
        return;
    auto const power =
        heating::element_power(b.v.input->value, b.v.nameplate_voltage->value, b.v.supply_voltage->value);
    double const of_share = units::in_si(share.value), plate = units::in_si(b.v.input->value);
    double const doubt = std::hypot(units::in_si(b.v.input->doubt) * of_share * of_share,
                                    plate * 2 * of_share * units::in_si(share.doubt));
    b.input = Measured<units::Power>{power, units::of_si<units::Power>(doubt), "on the voltage measured"};
    b.at_voltage = true;
}

void voltage(HeaterBench& b)
{
    if (!b.v.supply_voltage || !b.v.nameplate_voltage)
        return;
    auto const share = ratio(*b.v.supply_voltage, *b.v.nameplate_voltage);
    weigh_voltage(b, share);
    if (units::in_si(share.value) > 0)
        power_at_voltage(b, share);
}

/// How fast it can warm its water at the most.
void warming(HeaterBench& b)
{
    for (std::size_t const i : b.w.property.at(b.heater).waters)
    {
        figures::Inputs in;
        in.add("volume", b.w.volume_of(i))
            .add("power", b.v.input)
            .add("rated_voltage", b.v.nameplate_voltage)
            .add("supply_voltage", b.v.supply_voltage)
            .add("water_temperature", b.w.property.at(i).water->temperature);
        b.w.figure(b.heater, "electric_rise", in,
                   "warming of " + b.w.name(i) + " by " + b.w.name(b.heater) + " in an hour, if no heat is lost");
    }
}

/// Power over voltage, by wire. Where no voltage was measured it is the plate's, give or take what supplies differ by.
visit::Taken<units::Current> expected_current(HeaterBench const& b)
{
    constexpr double supply_doubt = 0.03; // judgement: supplies keep within 6 % of their name, as in give_heat
    auto const& volts = b.v.supply_voltage ? b.v.supply_voltage : b.v.nameplate_voltage;
    if (!b.input || !volts || !(units::in_si(volts->value) > 0))
        return std::nullopt;
    double const phases = b.v.three_phase.value_or(false) ? std::numbers::sqrt3 : 1.0;
    double const value = units::in_si(b.input->value) / (phases * units::in_si(volts->value));
    double const relative = std::hypot(units::in_si(b.v.input->doubt) / units::in_si(b.v.input->value),
                                       units::in_si(volts->doubt) / units::in_si(volts->value),
                                       b.v.supply_voltage && b.v.nameplate_voltage ? 0.0 : supply_doubt);
    return Measured<units::Current>{units::of_si<units::Current>(value), units::of_si<units::Current>(value * relative),
                                    "power over voltage"};
}

/// One wire of a sound heater on three phases carries 1/√3 of what it would on one: not to be taken for half of it
/// being dead where nobody said which it is.
bool may_be_three_phases(HeaterBench const& b, Measured<units::Fraction> const& share)
{
    double const apart = units::in_si(share.value) - 1 / std::numbers::sqrt3;
    return !b.v.three_phase && std::abs(apart) < units::coverage * units::in_si(share.doubt);
}

void weigh_current(HeaterBench& b, Measured<units::Fraction> const& share, std::string const& from)
{
    auto const limit = [&](std::string const& name) { return b.w.rules.limit<units::Fraction>(name); };
    double none = 1 - probability_above(share, limit("element_current_none_share"));
    double less = 1 - probability_above(share, limit("element_current_low_share")) - none;
    if (may_be_three_phases(b, share))
    {
        none = std::min(none, 0.5), less = std::min(less, 0.5);
        b.w.out.questions.push_back({b.heater,
                                     "current: " + b.w.show(*b.v.current),
                                     "fits a sound heater on three phases as well as one on one phase with a dead "
                                     "element; write 'three_phase: yes' or 'no' from its plate",
                                     {}});
    }
    b.w.computed(b.heater, "heater_no_current", none,
                 from + "; speaks below " + b.w.rules.cited("element_current_none_share"), "current");
    b.w.computed(b.heater, "heater_current_third_low", less,
                 from + "; speaks between that and " + b.w.rules.cited("element_current_low_share"));
    b.w.computed(b.heater, "heater_current_high", probability_above(share, limit("element_current_high_share")),
                 from + "; speaks above " + b.w.rules.cited("element_current_high_share"));
}

void current(HeaterBench& b)
{
    if (!b.v.current)
        return;
    auto const expected = expected_current(b);
    if (!expected || !(units::in_si(expected->value) > 0))
    {
        b.w.out.not_tested.push_back({b.heater, "current of the element against its power",
                                      "it takes its input and a voltage, of the plate or measured, to say which "
                                      "current is right"});
        return;
    }
    weigh_current(b, ratio(*b.v.current, *expected),
                  b.w.show(*b.v.current) + " where its power over its voltage is " + b.w.show(*expected));
}

} // namespace

void assess_electric(HeaterBench& b)
{
    voltage(b);
    if (is_element(b))
    {
        warming(b);
        current(b);
    }
    if (b.v.energy == visit::EnergyKind::heat_pump)
        assess_heat_pump(b);
}

} // namespace padwalk::assess
