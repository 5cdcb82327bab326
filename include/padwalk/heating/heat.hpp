#pragma once
/// Heat put into water: what a heater's rise, flow and input say about each other.
///
/// Density and specific heat are those of the water coming in (heat_up: of the mean temperature), so that every
/// function here is the exact inverse of its partners. Over a rise of 20 K the specific heat of water changes by 0.1 %.

#include "padwalk/units/quantity.hpp"

namespace padwalk::heating
{

/// Heat needed to warm a flow by one degree, W/K.
using HeatCapacityFlow = units::Si<2, 1, -3, -1>;

/// Heat that warms the flow by one degree: ρ(T) cp(T) q, W/K.
///
/// Valid:    water 0 to 100 °C; throws OutOfRange outside
/// Accuracy: that of the water properties, better than 0.1 %; dissolved salts are left out (about 1 % at 10,000 ppm)
/// Source:   [iapws-if97]
[[nodiscard]] HeatCapacityFlow heat_capacity_flow(units::VolumeFlow flow, units::Temperature water);

/// How much warmer the water leaves the heater: rise = input · efficiency / (ρ cp q).
///
/// The trade's form is rise(°F) = Btu/h · efficiency / (500 gpm); 500 is 499.5 at 20 °C and 495.9 at 40 °C.
/// Valid:    steady firing, all of the flow through the heater
/// Throws:   figures::NotComputed without flow, OutOfRange where the inlet is no liquid water
[[nodiscard]] units::TemperatureDifference heater_rise(units::Power input, units::Fraction efficiency,
                                                       units::VolumeFlow flow, units::Temperature inlet);

/// Heat that the flow carries away: ρ cp q · rise. Negative where the water leaves colder.
///
/// Throws:   OutOfRange where the inlet is no liquid water
[[nodiscard]] units::Power useful_heat(units::TemperatureDifference rise, units::VolumeFlow flow,
                                       units::Temperature inlet);

/// Share of the input that reached the water: useful / input.
///
/// Throws:   figures::NotComputed without input
[[nodiscard]] units::Fraction heater_efficiency(units::Power useful, units::Power input);

/// The heater as a flow meter, the inverse of heater_rise: flow = input · efficiency / (ρ cp · rise).
///
/// Throws:   figures::NotComputed for a rise that isn't above zero, OutOfRange as above
[[nodiscard]] units::VolumeFlow flow_from_rise(units::Power input, units::Fraction efficiency,
                                               units::TemperatureDifference rise, units::Temperature inlet);

/// What it takes to warm a body of water.
struct HeatUp
{
    units::Energy heat_needed{}; ///< stored in the water at the end, losses not counted
    units::Duration time{};
    units::Energy energy_used{}; ///< input · time: fuel or electricity, losses included
};

/// Time and energy to warm a volume from one temperature to another.
///
///     heat = V ρ cp (to - from),   time = heat / (input · efficiency - loss)
///
/// Valid:    well-mixed water; ρ and cp at the mean temperature; the loss is constant, one for the mean temperature
/// Throws:   figures::NotComputed where the water is warm enough already or the loss eats the heat; OutOfRange
[[nodiscard]] HeatUp heat_up(units::Volume volume, units::Temperature from, units::Temperature to, units::Power input,
                             units::Fraction efficiency, units::Power loss);

/// How much warmer a body of water is after electric heating: power · elapsed / (V ρ cp).
///
/// Valid:    all of the power reaches the water, nothing is lost: an upper limit
/// Throws:   OutOfRange where the water is no liquid
[[nodiscard]] units::TemperatureDifference electric_rise(units::Volume volume, units::Power power,
                                                         units::Duration elapsed, units::Temperature water);

} // namespace padwalk::heating
