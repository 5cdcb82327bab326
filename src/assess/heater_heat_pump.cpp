// A heat pump in the air it stands in: what it should give there, whether that air stops it, what the air lost.
#include "heater_bench.hpp"

#include "padwalk/heating/heat_pump.hpp"
#include "padwalk/physics/air.hpp"
#include "padwalk/physics/range.hpp"
#include "padwalk/units/definitions.hpp"

namespace padwalk::assess
{
namespace
{

using units::Measured;

/// Warmer on leaving, and by more than the thermometers' doubt: it runs and heats.
bool heats(HeaterBench const& b)
{
    return b.rise && units::in_si(b.rise->value) > units::coverage * units::in_si(b.rise->doubt);
}

/// Air that its coil draws: read there, else the air of the day.
visit::Taken<units::Temperature> const& air_drawn(HeaterBench const& b)
{
    return b.v.air_in_temperature ? b.v.air_in_temperature : b.w.visit.air_temperature;
}

visit::Taken<units::Temperature> water_of(HeaterBench const& b)
{
    if (b.v.inlet_temperature)
        return b.v.inlet_temperature;
    for (std::size_t const i : b.w.property.at(b.heater).waters)
        if (auto const& temperature = b.w.property.at(i).water->temperature)
            return temperature;
    return std::nullopt;
}

visit::Taken<units::Number> rated_cop(HeaterBench const& b)
{
    if (b.v.cop || !b.v.output || !b.v.input)
        return b.v.cop;
    auto const share = ratio(*b.v.output, *b.v.input);
    return Measured<units::Number>{units::of_si<units::Number>(units::in_si(share.value)),
                                   units::of_si<units::Number>(units::in_si(share.doubt)), "output over input"};
}

/// Heat into the water by its plate.
visit::Taken<units::Power> rated_capacity(HeaterBench const& b)
{
    if (b.v.output || !b.v.input || !b.v.cop)
        return b.v.output;
    double const input = units::in_si(b.v.input->value), cop = units::in_si(b.v.cop->value);
    double const doubt = std::hypot(units::in_si(b.v.input->doubt) * cop, input * units::in_si(b.v.cop->doubt));
    return Measured<units::Power>{units::of_si<units::Power>(input * cop), units::of_si<units::Power>(doubt),
                                  "input x COP"};
}

/// Air at which it stops: the plate's, with what its own sensor is off.
visit::Taken<units::Temperature> stops_at(HeaterBench const& b)
{
    if (!b.v.least_air_temperature)
        return std::nullopt;
    auto out = *b.v.least_air_temperature;
    out.doubt = units::of_si<units::TemperatureDifference>(
        std::hypot(units::in_si(out.doubt),
                   units::in_si(b.w.rules.limit<units::TemperatureDifference>("heat_pump_stop_doubt").doubt)));
    return out;
}

/// Coil and dew point of the air it draws, both with the air's doubt; none where the wetted bulb would freeze.
struct Coil
{
    Measured<units::Temperature> coil;
    Measured<units::TemperatureDifference> above_dew; ///< negative: water settles on it
};

std::optional<Coil> coil_in(HeaterBench const& b, Measured<units::Temperature> const& air,
                            Measured<units::Fraction> const& humidity)
{
    auto const facts = heating::heat_pump_facts(b.w.engine.data());
    struct Both
    {
        double coil, above_dew;
    };
    auto const at = [&](double warmer, double damper)
    {
        auto const t = units::of_si<units::Temperature>(units::in_si(air.value) + warmer);
        auto const h = units::of_si<units::Fraction>(std::clamp(units::in_si(humidity.value) + damper, 0.01, 1.0));
        double const coil = units::in_si(physics::wet_bulb(t, h)) - facts.frost_approach.value();
        return Both{coil, coil - units::in_si(physics::dew_point(t, h))};
    };
    double const u = units::in_si(air.doubt), v = units::in_si(humidity.doubt);
    double const approach = facts.frost_approach.doubt ? facts.frost_approach.doubt->value() : 0.0;
    try
    {
        auto const mid = at(0, 0), warm = at(u, 0), damp = at(0, v);
        auto const measured = [&](double Both::*of)
        { return std::hypot(warm.*of - mid.*of, damp.*of - mid.*of, approach); };
        return Coil{{units::of_si<units::Temperature>(mid.coil),
                     units::of_si<units::TemperatureDifference>(measured(&Both::coil)), "wet bulb less approach"},
                    {units::of_si<units::TemperatureDifference>(mid.above_dew),
                     units::of_si<units::TemperatureDifference>(measured(&Both::above_dew)), "coil less dew point"}};
    }
    catch (physics::OutOfRange const&)
    {
        return std::nullopt;
    }
}

/// A chance that water settles on the coil as frost: it is below freezing and below the dew point.
double frost_chance(Coil const& c)
{
    auto const freezing = units::of_si<units::Temperature>(units::exact::celsius_zero);
    return std::min(1 - probability_above(c.coil, Measured<units::Temperature>{freezing, {}, {}}),
                    1 - probability_above(c.above_dew, Measured<units::TemperatureDifference>{}));
}

/// The humidity of the visit, else what the figure takes.
Measured<units::Fraction> humidity_of(HeaterBench const& b)
{
    constexpr double usual = 0.65, doubt = 0.1; // judgement, as in the figure heat_pump: 65 % ± 20 %
    if (b.w.visit.humidity)
        return *b.w.visit.humidity;
    return {units::of_si<units::Fraction>(usual), units::of_si<units::Fraction>(doubt), "usual"};
}

void weigh_cold_air(HeaterBench& b, Measured<units::Temperature> const& air, std::optional<Coil> const& coil)
{
    auto const least = stops_at(b);
    auto const usual = b.w.rules.limit<units::Temperature>("heat_pump_air_cold");
    double const cold = 1 - probability_above(air, least ? *least : usual);
    double const frost = coil ? frost_chance(*coil) : air.value < usual.value ? 1.0 : 0.0;
    std::string from = "air " + b.w.show(air) + "; speaks below " +
                       (least ? b.w.show(*least) + ", at which it stops by its plate or manual"
                              : b.w.rules.cited("heat_pump_air_cold"));
    if (frost > 0.5)
        from += "; its coil is then below freezing and takes frost, as it should in such air";
    b.w.computed(b.heater, "heater_cold_air", std::max(cold, frost), from);
}

/// Air below what stops it: nothing is expected of it then.
void stopped_by_cold(HeaterBench& b, Measured<units::Temperature> const& air)
{
    b.efficiency = std::nullopt;
    if (heats(b) && b.v.least_air_temperature)
        b.w.out.questions.push_back({b.heater,
                                     "air " + b.w.show(air),
                                     "is below the " + b.w.show(*b.v.least_air_temperature) +
                                         " at which it should stop, and yet it heats: one of the two temperatures is "
                                         "not what was written; the rise was not held against what it should be",
                                     {}});
    else
        b.w.out.not_tested.push_back({b.heater, "heat of the heat pump",
                                      "in air of " + b.w.show(air) +
                                          " it stops by itself or nearly so; no heat is no fault there, and it tells "
                                          "nothing of how it works on a warmer day"});
}

/// What it takes in and gives in this air, in place of the plate's. One reading of the air is behind both: all of the
/// doubt is put on the heat.
void take_over(HeaterBench& b, Measured<units::Power> const& capacity, double cop)
{
    double const heat = units::in_si(capacity.value);
    b.input = Measured<units::Power>{units::of_si<units::Power>(heat / cop), {}, "in this air"};
    b.efficiency = Measured<units::Fraction>{units::of_si<units::Fraction>(cop),
                                             units::of_si<units::Fraction>(cop * units::in_si(capacity.doubt) / heat),
                                             "COP in this air"};
}

/// What the figure is given. A machine that was seen to heat is not stopped by this air, whatever its limit.
figures::Inputs inputs_of(HeaterBench& b, Measured<units::Power> const& capacity,
                          Measured<units::Temperature> const& air)
{
    figures::Inputs in;
    in.add("rated_capacity", capacity)
        .add("rated_cop", rated_cop(b))
        .add("air_temperature", air)
        .add("humidity", b.w.visit.humidity)
        .add("water_temperature", water_of(b))
        .add("flow", b.flow);
    if (auto const least = stops_at(b))
        in.add("least_air_temperature", least);
    else if (heats(b))
    {
        in.add("least_air_temperature",
               units::Reading::exact(units::of_si<units::Temperature>(units::exact::celsius_zero)));
        b.w.out.assumptions.push_back({b.w.name(b.heater) + " is not stopped by air of " + b.w.show(air),
                                       "it was seen to heat; at which air it stops was not read"});
    }
    return in;
}

/// The part of its heat in mild air that it gives in this air: all where its plate was not read, none where the air
/// stops it or nothing can be said.
double heat_in_this_air(HeaterBench& b, Measured<units::Temperature> const& air)
{
    auto const capacity = rated_capacity(b);
    if (!capacity || !(units::in_si(capacity->value) > 0))
        return 1.0;
    auto const in = inputs_of(b, *capacity, air);
    auto const figure =
        b.w.figure(b.heater, "heat_pump", in, "heat that " + b.w.name(b.heater) + " should give in this air");
    if (!figure.computed()) // why not stands with it
    {
        b.efficiency = std::nullopt;
        return 0.0;
    }
    auto const now = figure.get<units::Power>("capacity");
    auto const cop = figure.get<units::Number>("cop");
    if (!now || !cop || !(units::in_si(now->value) > 0))
    {
        stopped_by_cold(b, air);
        return 0.0;
    }
    take_over(b, *now, units::in_si(cop->value));
    b.rise_in_this_air = figure.get<units::TemperatureDifference>("rise");
    if (b.rise && b.rise_in_this_air)
        b.w.meaning("in this air a rise of " + b.w.show(*b.rise_in_this_air) +
                    " is right; measured: " + b.w.show(*b.rise));
    return units::in_si(now->value) / units::in_si(capacity->value);
}

/// How much colder the air leaves than it came: less where there is less heat in it to take.
void weigh_air_cooled(HeaterBench& b, Measured<units::Temperature> const& in, double share)
{
    if (!b.v.air_out_temperature || b.v.fires == false || !(share > 0))
        return;
    auto const& out = *b.v.air_out_temperature;
    Measured<units::TemperatureDifference> const fall{
        in.value - out.value,
        units::of_si<units::TemperatureDifference>(std::hypot(units::in_si(in.doubt), units::in_si(out.doubt))),
        "difference"};
    if (units::in_si(fall.value) < -units::coverage * units::in_si(fall.doubt))
    {
        b.w.out.questions.push_back({b.heater,
                                     "air_out_temperature: " + b.w.show(out),
                                     "is warmer than the air it draws (" + b.w.show(in) +
                                         "): the two may be swapped, or it was thawing its coil or cooling the water; "
                                         "nothing was concluded from it",
                                     {}});
        return;
    }
    auto limit = b.w.rules.limit<units::TemperatureDifference>("heat_pump_air_cooled");
    limit.value = limit.value * std::min(1.0, share);
    b.w.computed(b.heater, "heater_air_not_cooled", 1 - probability_above(fall, limit),
                 "air colder by " + b.w.show(fall) + " on leaving; speaks below " +
                     b.w.rules.cited("heat_pump_air_cooled") + (share < 1 ? ", in this air " + b.w.show(limit) : ""));
}

/// Whether clean water drips from its coil in this air at all; only where the humidity was read.
void weigh_wet_coil(HeaterBench& b, Measured<units::Temperature> const& air, std::optional<Coil> const& coil)
{
    if (!coil || !b.w.visit.humidity)
        return;
    auto apart = coil->above_dew;
    double const wet = 1 - probability_above(apart, Measured<units::TemperatureDifference>{});
    bool const below = units::in_si(apart.value) < 0;
    apart.value = below ? -apart.value : apart.value;
    b.w.computed(b.heater, "heater_hp_coil_wet", wet,
                 "its coil is " + b.w.show(apart) + (below ? " below" : " above") + " the dew point of air of " +
                     b.w.show(air) + " and " + b.w.show(*b.w.visit.humidity) + "; water settles on it below");
}

} // namespace

void assess_heat_pump(HeaterBench& b)
{
    auto const& air = air_drawn(b);
    if (!air)
        return;
    auto const coil = coil_in(b, *air, humidity_of(b));
    weigh_cold_air(b, *air, coil);
    weigh_air_cooled(b, *air, heat_in_this_air(b, *air));
    weigh_wet_coil(b, *air, coil);
}

} // namespace padwalk::assess
