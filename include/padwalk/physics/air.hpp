#pragma once
/// The atmosphere and the moisture in it.
///
/// Air is taken as a mixture of two ideal gases; relative humidity is the vapour pressure divided by that over liquid
/// water at the air's temperature, below freezing too (the weather service's definition, not that over ice). Left out:
/// the compressibility of air and the 0.4 to 0.5 % by which air raises the vapour pressure of water. All throw
/// OutOfRange.

#include "padwalk/physics/constants.hpp"
#include "padwalk/units/quantity.hpp"

namespace padwalk::physics
{

/// Mean pressure of the air at a height above the sea, Pa.
///
///     p = 101325 Pa (1 - L h/T0)^(g0/(Ra L)),   L = 6.5 K/km,  T0 = 288.15 K,  Ra = 287.05287 J/(kg K)
///
/// Valid:    -500 to 11 000 m. h is geopotential: 5 m less than the map's height at 6 km, nothing that matters lower.
/// Accuracy: 2 Pa of printed tables; weather moves the true pressure by ±3 %.
/// Source:   [icao-7488], [iso-2533]
[[nodiscard]] units::AbsolutePressure pressure_at_altitude(units::Length altitude);

/// Vapour pressure over liquid water from -40 to 60 °C, supercooled below 0 °C, Pa.
///
/// Accuracy: above 0 °C that of vapour_pressure; below 1e-4 of values printed with the formula, from memory
/// Source:   [iapws-if97] from 0 °C, [murphy-koop-2005] below
[[nodiscard]] units::AbsolutePressure saturation_pressure_in_air(units::Temperature air);

/// Partial pressure of the water vapour in air, Pa: relative humidity times saturation_pressure_in_air.
///
/// Valid: air -40 to 60 °C, humidity 0 to 100 %
[[nodiscard]] units::AbsolutePressure vapour_pressure_in_air(units::Temperature air, units::Fraction relative_humidity);

/// Density of moist air, kg/m3.
///
///     ρ = (p - e)/(Rd T) + e/(Rv T)
///
/// Valid:    air -40 to 60 °C, humidity 0 to 100 %, pressure 20 to 120 kPa and above the vapour's own
/// Accuracy: 0.07 % of real moist air up to 50 °C, 0.15 % at 60 °C and 100 %
/// Source:   ideal gases, molar masses of [cipm-2007]; compared with [iapws-g8-10]
[[nodiscard]] units::Density moist_air_density(units::Temperature air, units::Fraction relative_humidity,
                                               units::AbsolutePressure pressure = standard_pressure);

/// Mass of water vapour per mass of dry air: W = (Mw/Md) e/(p - e).
///
/// Valid: as moist_air_density
[[nodiscard]] units::Number humidity_ratio(units::Temperature air, units::Fraction relative_humidity,
                                           units::AbsolutePressure pressure = standard_pressure);

/// Temperature to which air with this much vapour must cool before dew forms.
///
/// Valid:    vapour pressures from that at -40 °C to that at 60 °C (18.9 Pa to 19.9 kPa); below 0 °C it is the
///           point of dew, not of frost, which lies up to 4 K higher
/// Accuracy: the inverse of saturation_pressure_in_air to 1e-6 K
[[nodiscard]] units::Temperature dew_point(units::AbsolutePressure vapour);
[[nodiscard]] units::Temperature dew_point(units::Temperature air, units::Fraction relative_humidity);

/// Temperature of a wetted thermometer in a stream of air, at or above 0 °C.
///
///     W = ((h0 - 2.326 t*) Ws(t*) - 1.006 (t - t*))/(h0 + 1.86 t - 4.186 t*),   h0 = 2501,  t, t* in °C
///
/// Valid:    air 0 to 60 °C, pressure 20 to 120 kPa; OutOfRange if the bulb would freeze
/// Accuracy: 0.01 K of another program of the same equation
/// Source:   [ashrae-hof-psychrometrics]
[[nodiscard]] units::Temperature wet_bulb(units::Temperature air, units::Fraction relative_humidity,
                                          units::AbsolutePressure pressure = standard_pressure);

} // namespace padwalk::physics
