#pragma once
/// Liquid water from 0 to 100 °C, by the formulations of the International Association for the Properties of Water and
/// Steam. Pure water, except salty_density.
///
/// Every function takes 0 to 100 °C (ITS-90). Those with a pressure take 1 kPa to 100 MPa; below the vapour pressure
/// they give the superheated liquid, close to the saturated one. All throw OutOfRange.
/// 'Accuracy' is the tolerance of the test, relative, at 0 to 100 °C: against another program of the same formulation,
/// and against the scientific formulation [iapws-95] (the transport equations at its density).

#include "padwalk/physics/constants.hpp"
#include "padwalk/units/quantity.hpp"

namespace padwalk::physics
{

/// Density of the liquid, kg/m3: 1/v, v = R T/p · π·∂γ/∂π of region 1.
///
/// Accuracy: 1e-6 of the formulation, 2e-5 of IAPWS-95
/// Source:   [iapws-if97] region 1
[[nodiscard]] units::Density density(units::Temperature water, units::AbsolutePressure pressure = standard_pressure);

/// Specific heat at constant pressure, J/(kg K): -R τ²·∂²γ/∂τ² of region 1.
///
/// Accuracy: 1e-6 of the formulation, 6e-4 of IAPWS-95
/// Source:   [iapws-if97] region 1
[[nodiscard]] units::SpecificHeat specific_heat(units::Temperature water,
                                                units::AbsolutePressure pressure = standard_pressure);

/// Dynamic viscosity, Pa s: μ0(T)·μ1(T, ρ), with the critical enhancement μ2 = 1, as the release advises here.
///
/// Accuracy: 1e-6 of the formulation, 3e-5 of IAPWS-95
/// Source:   [iapws-2008-viscosity], at the density of [iapws-if97]
[[nodiscard]] units::DynamicViscosity viscosity(units::Temperature water,
                                                units::AbsolutePressure pressure = standard_pressure);

/// Kinematic viscosity, m2/s: viscosity / density.
[[nodiscard]] units::KinematicViscosity kinematic_viscosity(units::Temperature water,
                                                            units::AbsolutePressure pressure = standard_pressure);

/// Thermal conductivity, W/(m K): λ0(T)·λ1(T, ρ). The critical enhancement λ2 is left out: from 0 to 100 °C near
/// atmospheric pressure the release makes it zero.
///
/// Accuracy: 1e-6 of the formulation, 3e-5 of IAPWS-95
/// Source:   [iapws-2011-conductivity], at the density of [iapws-if97]
[[nodiscard]] units::ThermalConductivity conductivity(units::Temperature water,
                                                      units::AbsolutePressure pressure = standard_pressure);

/// Pressure at which water boils, Pa: the saturation equation, a quadratic in p^(1/4).
///
/// Accuracy: 1e-6 of the formulation, 1e-4 of IAPWS-95 from 5 °C (0 °C lies 0.01 K below the formula's own range)
/// Source:   [iapws-if97] region 4
[[nodiscard]] units::AbsolutePressure vapour_pressure(units::Temperature water);

/// Heat to evaporate water at its own vapour pressure, J/kg: enthalpy of the vapour (region 2) less that of the liquid
/// (region 1), both at vapour_pressure(water).
///
/// Accuracy: 1e-6 of the formulation
/// Source:   [iapws-if97] regions 1, 2 and 4
[[nodiscard]] units::LatentHeat latent_heat(units::Temperature water);

/// Density of water with salts dissolved in it, kg/m3, at atmospheric pressure.
///
///     ρ = ρw(T) + c (1 - ρw v),   c dissolved mass per volume,   v = 0.25 L/kg the room a dissolved salt takes up
///
/// Valid:    c from 0 to 40 kg/m3 (40 000 mg/L)
/// Accuracy: the rise, not the density, within 10 % for sea salt from 0 to 40 °C (tested; 8 % short at 0 °C) and about
///           as much the other way for table salt. v is our judgement for the mixtures of pool water: sea salt has
///           0.24 L/kg at 20 °C [iapws-2008-seawater], table salt 0.28 from memory. Calcium chloride and sodium sulfate
///           take up 0.1 to 0.2, from memory, so water rich in them is heavier than this. Above 40 °C it is not tested.
/// Source:   [iapws-if97] for ρw; judgement for v
[[nodiscard]] units::Density salty_density(units::Temperature water, units::AsItself dissolved);

} // namespace padwalk::physics
