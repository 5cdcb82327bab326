#pragma once
/// Heat and water that open water gives to the air. The law only: its coefficients are facts and come from data.
///
/// Published forms of a pool's evaporation are one law with different coefficients,
///
///     heat = factor · (still + wind·v) · (pw(water) - humidity·ps(air)),
///
/// pw and ps vapour pressures, v the wind at the water.

#include "padwalk/units/quantity.hpp"

namespace padwalk::physics
{

/// Coefficients of the law, W/(m2 Pa) and W/(m2 Pa) per m/s.
struct EvaporationCoefficients
{
    double still_W_per_m2_Pa = 0.0;
    double wind_W_s_per_m3_Pa = 0.0;
};

/// Coefficients as the ASHRAE forms print them: Btu/(h ft2 inHg), and the same per ft/min of wind.
[[nodiscard]] EvaporationCoefficients coefficients_in_btu(units::Number still, units::Number wind);

/// Coefficients as Smith, Löf and Jones print them: kJ/(h m2 mmHg), and the same per m/s of wind.
[[nodiscard]] EvaporationCoefficients coefficients_in_kilojoule(units::Number still, units::Number wind);

/// What the law asks of water and air.
struct OpenWater
{
    units::Temperature water_temperature{};
    units::Temperature air_temperature{};
    units::Fraction humidity{};
    units::Velocity wind{}; ///< at the water's surface
};

/// Vapour pressure at the water less that in the air. Below zero vapour condenses on the water.
///
/// Valid:    water 0 to 100 °C, air -40 to 60 °C, humidity 0 to 100 %; throws OutOfRange
/// Source:   [iapws-if97]
[[nodiscard]] units::Pressure vapour_drive(OpenWater const& open);

/// Heat that each square metre gives for each pascal of drive, W/(m2 Pa): (still + wind·v).
using EvaporationTransfer = units::Si<-1, 0, -1>;
[[nodiscard]] EvaporationTransfer evaporation_transfer(units::Velocity wind,
                                                       EvaporationCoefficients const& coefficients);

/// Heat that evaporation takes from each square metre, by the law above; below zero where vapour condenses.
///
/// Valid:    as vapour_drive; what the coefficients' source measured (no form was made with vapour condensing)
/// Throws:   OutOfRange
[[nodiscard]] units::HeatFlux evaporation_heat(OpenWater const& open, EvaporationCoefficients const& coefficients,
                                               double factor);

/// Water leaving each square metre: evaporation_heat / latent heat of the water's temperature.
///
/// Source:   [iapws-if97] for the latent heat
/// Throws:   OutOfRange
[[nodiscard]] units::MassFlux evaporation_flux(OpenWater const& open, EvaporationCoefficients const& coefficients,
                                               double factor);

} // namespace padwalk::physics
