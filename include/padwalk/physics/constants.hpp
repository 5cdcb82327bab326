#pragma once
/// Constants of nature and of convention, with their sources. Defined ones are written as defined, derived ones
/// derived.

#include "padwalk/units/definitions.hpp"
#include "padwalk/units/quantity.hpp"

namespace padwalk::physics
{

/// Standard acceleration of free fall, by definition [nist-sp-811].
inline constexpr units::Si<1, 0, -2> standard_gravity =
    units::of_si<units::Si<1, 0, -2>>(units::exact::standard_gravity);

/// Standard atmosphere, by definition [nist-sp-811].
inline constexpr units::AbsolutePressure standard_pressure =
    units::of_si<units::AbsolutePressure>(units::exact::atmosphere);

inline constexpr double avogadro = 6.02214076e23;                  ///< 1/mol, exact [si-2019]
inline constexpr double boltzmann = 1.380649e-23;                  ///< J/K, exact [si-2019]
inline constexpr double molar_gas_constant = avogadro * boltzmann; ///< J/(mol K), exact

inline constexpr double dry_air_molar_mass = 28.96546e-3; ///< kg/mol, 400 ppm CO2 [cipm-2007]
inline constexpr double water_molar_mass = 18.01528e-3;   ///< kg/mol [cipm-2007]

/// Specific gas constant of dry air, 287.05 J/(kg K).
inline constexpr units::SpecificHeat dry_air_gas_constant =
    units::of_si<units::SpecificHeat>(molar_gas_constant / dry_air_molar_mass);

/// Specific gas constant of water vapour as an ideal gas, 461.52 J/(kg K).
inline constexpr units::SpecificHeat water_vapour_gas_constant =
    units::of_si<units::SpecificHeat>(molar_gas_constant / water_molar_mass);

} // namespace padwalk::physics
