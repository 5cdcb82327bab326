// What the readings of a heater say: carbon monoxide, flue, rise, efficiency.
#include "heater_bench.hpp"

#include "padwalk/venting/carbon_monoxide.hpp"

#include <algorithm>

namespace padwalk::assess
{
namespace
{

using units::Measured;

/// The air-free reading against the limits listed for flues.
void flue_carbon_monoxide(HeaterBench& b)
{
    figures::Inputs in;
    in.add("carbon_monoxide", b.v.flue->carbon_monoxide).add("oxygen", b.v.flue->oxygen);
    auto const figure = b.w.figure(b.heater, "carbon_monoxide_air_free", in,
                                   "air-free carbon monoxide in the flue of " + b.w.name(b.heater));
    auto const air_free = figure.get<units::GasFraction>("air_free");
    if (!air_free)
        return;
    auto const limits = venting::carbon_monoxide_limits(b.w.engine.data());
    auto const& good = venting::limit_of(limits, "flue_good_practice");
    double const high = probability_above(*air_free, b.w.rules.limit<units::GasFraction>("co_air_free"));
    double const raised = probability_above(*air_free, Measured<units::GasFraction>{good.limit, {}, "limit"});
    // Both say no of one reading: that is one piece of evidence. Between the limits they say different things.
    std::string const reading = raised < 0.5 ? "flue_co" : "";
    b.w.computed(b.heater, "flue_co_high", high,
                 b.w.show(*air_free) + " air free; speaks above " + b.w.rules.cited("co_air_free"), reading);
    if (high <= 0.5)
        b.w.computed(b.heater, "flue_co_raised", raised,
                     b.w.show(*air_free) + " air free; speaks above " +
                         b.w.show(Measured<units::GasFraction>{good.limit, {}, {}}) + ", " + good.meaning + " [" +
                         good.source.key + "]",
                     reading);
}

void flue(HeaterBench& b)
{
    if (!b.v.flue)
        return;
    flue_carbon_monoxide(b);
    figures::Inputs loss;
    loss.add("flue_temperature", b.v.flue->temperature)
        .add("air_temperature", b.w.visit.air_temperature)
        .add("oxygen", b.v.flue->oxygen);
    if (b.v.energy)
        loss.add_words("fuel", *b.v.energy == visit::EnergyKind::propane ? "propane" : "natural_gas");
    b.w.figure(b.heater, "stack_loss", loss, "heat lost up the vent of " + b.w.name(b.heater));
}

void nameplate_efficiency(HeaterBench& b)
{
    bool const pumps_heat = b.v.energy == visit::EnergyKind::heat_pump;
    if (pumps_heat && b.v.cop)
        b.efficiency =
            Measured<units::Fraction>{units::of_si<units::Fraction>(units::in_si(b.v.cop->value)),
                                      units::of_si<units::Fraction>(units::in_si(b.v.cop->doubt)), b.v.cop->method};
    else if (!pumps_heat)
        b.efficiency = b.v.efficiency;
    if (!b.efficiency && b.v.output && b.v.input)
        b.efficiency = ratio(*b.v.output, *b.v.input);
    if (!b.efficiency && burns_gas(b.v))
    {
        b.efficiency = b.w.rules.limit<units::Fraction>("gas_efficiency");
        if (b.rise)
            b.w.out.assumptions.push_back(
                {"efficiency of " + b.w.name(b.heater) + " is " + b.w.rules.cited("gas_efficiency"),
                 "its nameplate efficiency was not recorded"});
    }
    if (!b.efficiency && b.v.energy == visit::EnergyKind::electric_element)
    {
        double const lost_at_most = 0.01; // judgement: the terminals warm the air, the element itself stands in water
        b.efficiency =
            Measured<units::Fraction>{units::of_si<units::Fraction>(1.0), units::of_si<units::Fraction>(lost_at_most),
                                      "an element gives all its power to the water"};
    }
}

/// Colder on leaving, and by more than the thermometers' doubt.
bool leaves_colder(Measured<units::TemperatureDifference> const& rise)
{
    return units::in_si(rise.value) < -units::coverage * units::in_si(rise.doubt);
}

/// What input and flow should give.
visit::Taken<units::TemperatureDifference> expected_rise(HeaterBench& b)
{
    if (b.rise_in_this_air)
        return b.rise_in_this_air;
    figures::Inputs in;
    in.add("input", b.input)
        .add("efficiency", b.efficiency)
        .add("flow", b.flow)
        .add("inlet_temperature", b.v.inlet_temperature);
    auto const figure = b.w.figure(b.heater, "heater_rise", in, "rise that " + b.w.name(b.heater) + " should give");
    auto const expected = figure.get<units::TemperatureDifference>("rise");
    if (expected)
        b.w.meaning("measured: " + b.w.show(*b.rise) +
                    (leaves_colder(*b.rise) ? ", that is colder than it went in: the thermometers may be swapped, and "
                                              "nothing was concluded from them"
                                            : ""));
    return expected;
}

/// Share of the input found in the water. A heat pump's is no share: most of its heat comes from the air.
visit::Taken<units::Fraction> efficiency_by_rise(HeaterBench& b)
{
    if (b.v.energy == visit::EnergyKind::heat_pump)
        return std::nullopt;
    figures::Inputs in;
    in.add("rise", b.rise).add("flow", b.flow).add("input", b.input).add("inlet_temperature", b.v.inlet_temperature);
    auto const figure =
        b.w.figure(b.heater, "heater_efficiency", in, "efficiency of " + b.w.name(b.heater) + " by its rise");
    auto const efficiency = figure.get<units::Fraction>("efficiency");
    if (efficiency && b.v.energy == visit::EnergyKind::electric_element)
        b.w.verdict("an element gives all of its power to the water; far from 100 % the flow, the thermometers or the "
                    "voltage are not what was taken");
    return efficiency;
}

/// Hardly told from none by the thermometers, though it was to burn.
bool hardly_any(HeaterBench const& b)
{
    return b.v.fires.value_or(false) &&
           std::abs(units::in_si(b.rise->value)) < units::coverage * units::in_si(b.rise->doubt) &&
           b.v.energy != visit::EnergyKind::heat_pump && b.v.energy != visit::EnergyKind::electric_element;
}

/// Water that scalds comes back to where people are.
void scalding(HeaterBench& b)
{
    if (b.v.outlet_temperature)
        b.w.computed(b.heater, "heater_outlet_scalds",
                     probability_above(*b.v.outlet_temperature, b.w.rules.limit<units::Temperature>("outlet_scalds")),
                     "water leaves it at " + b.w.show(*b.v.outlet_temperature) + "; speaks above " +
                         b.w.rules.cited("outlet_scalds"));
}

/// What was read of a heater that did not light speaks of another time.
void read_while_dead(HeaterBench& b)
{
    if (b.v.fires.value_or(true))
        return;
    b.w.noticed(b.heater, "heater_no_heat", true, "recorded as not starting at its normal control");
    if (b.v.flue || b.v.meter || b.v.runs_for)
        b.w.out.questions.push_back({b.heater,
                                     "fires: no, and readings of a burning heater",
                                     "a flue, a clocked meter or a run were read, but it is said not to have lit: did "
                                     "it burn for a while? Write when",
                                     {}});
}

bool above_all(Measured<units::Fraction> const& efficiency)
{
    return units::in_si(efficiency.value) - units::coverage * units::in_si(efficiency.doubt) > 1.0;
}

/// The rise against what input and flow should give, and the efficiency that follows from the same rise.
void weigh_rise(HeaterBench& b, visit::Taken<units::TemperatureDifference> const& expected,
                visit::Taken<units::Fraction> const& efficiency)
{
    if (expected && units::in_si(expected->value) > 0)
    {
        auto const share = ratio(*b.rise, *expected);
        std::string const from = "rise " + b.w.show(*b.rise) + " where input and flow give " + b.w.show(*expected);
        double const low = 1 - probability_above(share, b.w.rules.limit<units::Fraction>("rise_low_share"));
        bool const by_plate = b.v.energy == visit::EnergyKind::heat_pump && !b.rise_in_this_air;
        b.w.computed(b.heater, "heater_rise_low", by_plate ? std::min(low, 0.5) : low,
                     from + (by_plate ? " in mild air; in cold air half of that is no fault, and the air was not told"
                                      : "; speaks below " + b.w.rules.cited("rise_low_share")),
                     "rise");
        b.w.computed(b.heater, "heater_rise_high",
                     probability_above(share, b.w.rules.limit<units::Fraction>("rise_high_share")),
                     from + "; speaks above " + b.w.rules.cited("rise_high_share"));
    }
    if (efficiency && burns_gas(b.v))
        b.w.computed(b.heater, "heater_efficiency_low",
                     1 - probability_above(*efficiency, b.w.rules.limit<units::Fraction>("efficiency_low")),
                     "efficiency " + b.w.show(*efficiency) + "; speaks below " + b.w.rules.cited("efficiency_low"),
                     "rise");
}

/// The heater as a flow meter, where there is no other.
void flow_by_rise(HeaterBench& b)
{
    bool const known =
        std::any_of(b.w.heats.begin(), b.w.heats.end(), [&](HeatOfHeater const& h) { return h.heater == b.heater; });
    if (b.flow || known)
        return;
    figures::Inputs in;
    in.add("input", b.input)
        .add("efficiency", b.efficiency)
        .add("rise", b.rise)
        .add("inlet_temperature", b.v.inlet_temperature);
    b.w.figure(b.heater, "heat_flow_estimate", in,
               "flow through " + b.w.name(b.heater) + " if its input and efficiency are right");
}

void rise(HeaterBench& b)
{
    if (!b.rise)
        return;
    auto const expected = expected_rise(b);
    if (!leaves_colder(*b.rise) && hardly_any(b))
    {
        b.rise_can_be = false;
        b.w.out.questions.push_back({b.heater,
                                     "rise: " + b.w.show(*b.rise),
                                     "is hardly any: did it burn while this was read, and did both thermometers touch "
                                     "its own pipes? Nothing was concluded from it",
                                     {}});
        return;
    }
    if (leaves_colder(*b.rise))
    {
        b.rise_can_be = false;
        b.w.out.questions.push_back({b.heater,
                                     "outlet_temperature: " + b.w.show(*b.v.outlet_temperature),
                                     "is colder than the water going in (" + b.w.show(*b.v.inlet_temperature) +
                                         "): the thermometers may be swapped, or the flow runs the other way; nothing "
                                         "was concluded from the rise",
                                     {}});
        return;
    }
    b.w.computed(b.heater, "heater_rise_high",
                 probability_above(*b.rise, b.w.rules.limit<units::TemperatureDifference>("rise_high")),
                 "rise " + b.w.show(*b.rise) + "; speaks above " + b.w.rules.cited("rise_high"));
    auto const efficiency = efficiency_by_rise(b);
    bool const shut = b.v.bypass == visit::ValvePosition::shut;
    if ((expected || efficiency) && b.flow && !shut)
        b.w.out.assumptions.push_back(
            {"all of the loop's flow goes through the heater (" + b.w.name(b.heater) + ")",
             b.v.bypass ? "how much its bypass leads past is not known" : "no bypass was recorded"});
    if (efficiency && above_all(*efficiency))
    {
        b.rise_can_be = false;
        b.w.meaning("more heat in the water than was taken in, which can't be: nothing was concluded from it");
        b.w.out.questions.push_back({b.heater,
                                     "efficiency by the rise: " + b.w.show(*efficiency),
                                     "is more than can be: the thermometers may be swapped or off, or the flow or the "
                                     "input is not what was written; neither rise nor efficiency was held against "
                                     "what they should be",
                                     {}});
    }
    else
    {
        b.found_efficiency = efficiency;
        weigh_rise(b, expected, efficiency);
    }
    flow_by_rise(b);
}

/// What it gives to the water, for the loop: a rise measures the flow where the input is sure. An element's is.
void give_heat(HeaterBench& b)
{
    constexpr double element_doubt = 0.06; // judgement: the supply's voltage, squared
    bool const element = b.v.energy == visit::EnergyKind::electric_element;
    if (!b.rise || !b.input || !b.efficiency || !(units::in_si(b.rise->value) > 0) || !(b.clocked || element) ||
        part_passes_beside(b.v))
        return;
    double const input = units::in_si(b.input->value), share = units::in_si(b.efficiency->value);
    double const relative = std::hypot(units::in_si(b.input->doubt) / input, units::in_si(b.efficiency->doubt) / share,
                                       element && !b.at_voltage ? element_doubt : 0.0);
    HeatOfHeater given{b.heater,
                       {units::of_si<units::Power>(input * share), units::of_si<units::Power>(input * share * relative),
                        "input x efficiency"},
                       *b.rise,
                       true,
                       std::nullopt};
    figures::Inputs in;
    in.add("input", b.input)
        .add("efficiency", b.efficiency)
        .add("rise", b.rise)
        .add("inlet_temperature", b.v.inlet_temperature);
    given.flow = b.w.figure(b.heater, "heat_flow_estimate", in,
                            "flow through " + b.w.name(b.heater) + " if its input and efficiency are right")
                     .get<units::VolumeFlow>("flow");
    b.w.heats.push_back(std::move(given));
}

/// The loop's flow as measured, else as the pump's curve gave it.
visit::Taken<units::VolumeFlow> flow_of(Workbench const& w, Thing const& heater)
{
    if (part_passes_beside(*heater.heater))
        return std::nullopt;
    if (heater.loop != nullptr && heater.loop->flow)
        return heater.loop->flow;
    for (auto const& entry : w.out.figures)
    {
        if (entry.figure.model->name != "pump_flow")
            continue;
        for (std::size_t const loop : w.property.at(entry.item).loops)
            if (heater.loops.contains(loop))
                return entry.figure.get<units::VolumeFlow>("flow");
    }
    return std::nullopt;
}

} // namespace

std::vector<HeaterBench> assess_heaters(Workbench& w)
{
    std::vector<HeaterBench> heaters;
    for (std::size_t i = 0; i < w.property.things().size(); ++i)
    {
        Thing const& t = w.property.at(i);
        if (t.entry.kind != "heater")
            continue;
        HeaterBench b{w, i, {}, *t.heater, {}, {}, {}, {}, {}};
        if (i + 1 < w.property.things().size() && w.property.at(i + 1).entry.kind == "vent")
            b.vent = i + 1;
        b.flow = flow_of(w, t);
        if (t.heater->inlet_temperature && t.heater->outlet_temperature)
        {
            auto const& in = *t.heater->inlet_temperature;
            auto const& out = *t.heater->outlet_temperature;
            b.rise = Measured<units::TemperatureDifference>{
                out.value - in.value,
                units::of_si<units::TemperatureDifference>(std::hypot(units::in_si(in.doubt), units::in_si(out.doubt))),
                "difference"};
        }
        assess_carbon_monoxide(b);
        read_while_dead(b);
        scalding(b);
        flue(b);
        assess_gas_input(b);
        nameplate_efficiency(b);
        assess_electric(b);
        give_heat(b);
        rise(b);
        assess_vent(b);
        assess_warming(b);
        heaters.push_back(std::move(b));
    }
    return heaters;
}

} // namespace padwalk::assess
