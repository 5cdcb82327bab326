#pragma once
#include "workbench.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::assess
{

/// One heater, its vent, and what of it is known so far.
struct HeaterBench
{
    Workbench& w;
    std::size_t heater;
    std::optional<std::size_t> vent;
    visit::Heater const& v;
    visit::Taken<units::VolumeFlow> flow;
    visit::Taken<units::Power> input; ///< clocked where it was, else nameplate
    visit::Taken<units::TemperatureDifference> rise;
    visit::Taken<units::Fraction> efficiency; ///< heat into the water per energy taken in; a heat pump's is above 1
    visit::Taken<units::Power> plate;         ///< its input as it should be where it stands
    bool clocked = false;                     ///< the input was, by the gas meter
    visit::Taken<units::Fraction> found_efficiency = std::nullopt; ///< of the water, by flow and rise
    bool rise_can_be = true;                                       ///< nothing shows that it was read wrong
    bool at_voltage = false; ///< the input is an element's on the voltage that was measured
    visit::Taken<units::TemperatureDifference> rise_in_this_air = std::nullopt; ///< of a sound heat pump
};

/// a / b with its doubt; b must not be zero, a may be.
template <class Q>
[[nodiscard]] units::Measured<units::Fraction> ratio(units::Measured<Q> const& a, units::Measured<Q> const& b)
{
    double const over = units::in_si(b.value);
    double const value = units::in_si(a.value) / over;
    double const doubt = std::hypot(units::in_si(a.doubt) / over, value * units::in_si(b.doubt) / over);
    return {units::of_si<units::Fraction>(value), units::of_si<units::Fraction>(doubt), "ratio"};
}

/// One of two values holds and it is not known which: their middle, with half their distance as doubt of its own.
template <class Q> [[nodiscard]] units::Measured<Q> between(units::Measured<Q> const& a, units::Measured<Q> const& b)
{
    double const half = (units::in_si(b.value) - units::in_si(a.value)) / 2;
    double const doubt = std::hypot(half, std::max(units::in_si(a.doubt), units::in_si(b.doubt)));
    return {units::of_si<Q>(units::in_si(a.value) + half), units::of_si<units::Difference<Q>>(doubt), "either of two"};
}

/// Burns gas, or may: nothing was said.
[[nodiscard]] bool burns_gas(visit::Heater const& heater);

/// A valve leads some of the loop's water past it, nobody knows how much.
[[nodiscard]] inline bool part_passes_beside(visit::Heater const& heater)
{
    return heater.bypass && *heater.bypass != visit::ValvePosition::shut;
}

/// What it takes in: by the meter, else by the nameplate; and whether the one fits the other.
void assess_gas_input(HeaterBench& bench);

/// What runs on electricity: the voltage against the plate's, an element's power and current, a heat pump in its air.
/// Puts what it then takes in, and what comes of it as heat, in place of the nameplate's.
void assess_electric(HeaterBench& bench);

/// The part of it that is a heat pump's.
void assess_heat_pump(HeaterBench& bench);

/// Carbon monoxide where people are.
void assess_carbon_monoxide(HeaterBench& bench);

/// Air of the room, distances of the vent's end, run, pit, draft.
void assess_vent(HeaterBench& bench);

/// Flow against what its maker allows, and a run that ends too soon; after the loops.
void assess_heater_limits(HeaterBench const& bench);

/// The pull of the stack, and what the flow takes of it.
void assess_draft(HeaterBench& bench);

/// Kind of pipe, run, end and pit against their rules; what the drawing needs.
void assess_run(HeaterBench& bench);

/// Each water of its loops from what it is to what is wanted: losses, time, energy, cost, curve.
void assess_warming(HeaterBench& bench);

} // namespace padwalk::assess
