// What a gas heater takes in, by its meter and a watch, against its nameplate where it stands.
#include "heater_bench.hpp"

#include "padwalk/heating/gas.hpp"

#include <algorithm>

namespace padwalk::assess
{
namespace
{

using units::Measured;

/// The usual heating value of the fuel that was named, the range of published figures as its 95 % interval; none where
/// the fuel was not named.
visit::Taken<units::HeatingValue> usual_heating_value(HeaterBench& b, heating::GasFacts const& facts)
{
    if (!b.v.energy)
        return std::nullopt;
    auto const fuel = fields::words_of<visit::EnergyKind>::words()[static_cast<std::size_t>(*b.v.energy)];
    auto const row =
        std::find_if(facts.gases.begin(), facts.gases.end(), [&](auto const& gas) { return gas.first == fuel; });
    if (row == facts.gases.end())
        return std::nullopt;
    auto const& gas = row->second;
    double const reach =
        std::max(units::in_si(gas.high) - units::in_si(gas.usual), units::in_si(gas.usual) - units::in_si(gas.low));
    Measured<units::HeatingValue> const value{gas.usual, units::of_si<units::HeatingValue>(reach / units::coverage),
                                              "usual of " + fuel};
    b.w.out.assumptions.push_back(
        {"heating value of the gas of " + b.w.name(b.heater) + " is " + b.w.show(value) + " [" + gas.source.key + "]",
         "the utility's figure was not recorded; " + gas.note});
    return value;
}

/// The clocked input: one, or two where it isn't known whether the meter allows for pressure and altitude.
std::vector<Measured<units::Power>> clock(HeaterBench& b, visit::Taken<units::HeatingValue> const& heating_value)
{
    auto const& meter = *b.v.meter;
    std::vector<std::string> ways{""};
    if (meter.compensated)
        ways = {*meter.compensated ? "yes" : "no"};
    else if (meter.pressure || b.w.visit.altitude)
        ways = {"yes", "no"};
    std::vector<Measured<units::Power>> out;
    for (auto const& way : ways)
    {
        figures::Inputs in;
        in.add("dial", meter.dial).add("elapsed", meter.elapsed).add("heating_value", heating_value);
        in.add("meter_pressure", meter.pressure).add("altitude", b.w.visit.altitude);
        if (!way.empty())
            in.add_words("compensated", way);
        std::string label = "gas input of " + b.w.name(b.heater) + " by the meter";
        if (ways.size() > 1)
            label += way == "yes" ? ", if it allows for pressure and altitude" : ", if it does not";
        if (auto const input = b.w.figure(b.heater, "gas_input", in, label).get<units::Power>("input"))
            out.push_back(*input);
    }
    if (out.size() > 1)
        b.w.out.assumptions.push_back(
            {"the gas meter of " + b.w.name(b.heater) +
                 " may or may not allow for pressure and altitude: both were computed, and the doubt spans them",
             "'compensated' was not said"});
    return out;
}

/// The nameplate's input, less what thin air takes from it by either reading of the rule.
Measured<units::Power> plate_here(HeaterBench& b, heating::GasFacts const& facts)
{
    auto const& altitude = b.w.visit.altitude;
    if (!b.v.energy || !altitude || !(altitude->value > facts.derate.from))
        return *b.v.input;
    figures::Inputs in;
    in.add("nameplate", b.v.input).add("altitude", altitude);
    auto const figure = b.w.figure(b.heater, "altitude_derate", in,
                                   "input that " + b.w.name(b.heater) + " should have at this altitude");
    auto const from_sea = figure.get<units::Power>("input_from_sea_level");
    auto const from_start = figure.get<units::Power>("input_from_2000_ft");
    if (!from_sea || !from_start)
        return *b.v.input;
    b.w.meaning("which reading of the rule holds is left open: the range between them counts as doubt");
    b.w.out.assumptions.push_back({"the nameplate input of " + b.w.name(b.heater) + " is meant for low ground",
                                   "nothing about altitude was noted from the plate"});
    return between(*from_sea, *from_start);
}

/// Where either way of counting may hold: the mean; but at most even where they don't agree.
double either_way(std::vector<double> const& ways)
{
    double sum = 0;
    for (double const p : ways)
        sum += p;
    double const mean = sum / static_cast<double>(ways.size());
    bool const agree = std::all_of(ways.begin(), ways.end(), [](double p) { return p > 0.5; });
    return agree ? mean : std::min(mean, 0.5);
}

void compare(HeaterBench& b, std::vector<Measured<units::Power>> const& clocked, Measured<units::Power> const& plate)
{
    auto const least = b.w.rules.limit<units::Fraction>("input_low_share");
    auto const most = b.w.rules.limit<units::Fraction>("input_high_share");
    std::vector<double> low, high;
    std::string from = "clocked ";
    for (auto const& input : clocked)
    {
        auto const share = ratio(input, plate);
        low.push_back(1 - probability_above(share, least));
        high.push_back(probability_above(share, most));
        from += (low.size() > 1 ? " or " : "") + b.w.show(input);
    }
    from += ", nameplate " + b.w.show(*b.v.input);
    if (units::in_si(plate.value) < units::in_si(b.v.input->value))
        from += ", at this altitude " + b.w.show(plate);
    b.w.computed(b.heater, "heater_input_low", either_way(low),
                 from + "; speaks below " + b.w.rules.cited("input_low_share"));
    b.w.computed(b.heater, "heater_input_high", either_way(high),
                 from + "; speaks above " + b.w.rules.cited("input_high_share"));
}

/// So far from the plate that the watch or the dial is likelier wrong than the gas: asked, and nothing built on it.
bool clocking_in_doubt(HeaterBench& b, std::vector<Measured<units::Power>> const& clocked)
{
    double const plate = units::in_si(b.plate->value);
    double const least = units::in_si(b.w.rules.limit<units::Fraction>("clocked_least").value) * plate;
    double const most = units::in_si(b.w.rules.limit<units::Fraction>("clocked_most").value) * plate;
    bool const can_be = std::any_of(clocked.begin(), clocked.end(),
                                    [&](auto const& input)
                                    { return units::in_si(input.value) > least && units::in_si(input.value) < most; });
    if (can_be)
        return false;
    b.w.out.questions.push_back(
        {b.heater,
         "clocked input: " + b.w.show(clocked.front()) + " where the plate says " + b.w.show(*b.v.input),
         "is too far off to be the gas alone: seconds for minutes, another dial, or another "
         "appliance burning meanwhile? Nothing was concluded from it; with every other "
         "appliance off, clock it again",
         {}});
    return true;
}

} // namespace

bool burns_gas(visit::Heater const& h)
{
    return !h.energy || *h.energy == visit::EnergyKind::natural_gas || *h.energy == visit::EnergyKind::propane;
}

void assess_gas_input(HeaterBench& b)
{
    b.input = b.v.input;
    if (!burns_gas(b.v))
    {
        if (b.v.meter)
            b.w.out.not_tested.push_back({b.heater, "clocked gas input", "it was said not to burn gas"});
        return;
    }
    auto const facts = heating::gas_facts(b.w.engine.data());
    if (b.v.input)
        b.input = plate_here(b, facts);
    b.plate = b.input;
    if (!b.v.meter)
        return;
    bool const clockable = b.v.meter->dial && b.v.meter->elapsed;
    auto heating_value = b.v.meter->heating_value;
    if (!heating_value && clockable)
        heating_value = usual_heating_value(b, facts);
    auto const clocked = clock(b, heating_value);
    if (clocked.empty())
        return;
    if (!heating_value)
    {
        b.w.out.not_tested.push_back({b.heater, "clocked gas input against the nameplate",
                                      "which gas it burns was not said, and a volume of propane holds more than twice "
                                      "the heat of natural gas; the figure takes natural gas"});
        return;
    }
    if (b.plate && clocking_in_doubt(b, clocked))
        return;
    b.clocked = true;
    b.input = clocked.size() > 1 ? between(clocked.front(), clocked.back()) : clocked.front();
    if (b.plate)
        compare(b, clocked, *b.plate);
}

} // namespace padwalk::assess
