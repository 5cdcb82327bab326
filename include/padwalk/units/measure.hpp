#pragma once
/// What a field measures: the bridge between a quantity type of the program and the words and units of a person.

#include "padwalk/units/quantity.hpp"

#include <span>
#include <string_view>

namespace padwalk::units
{

/// One enumerator for each quantity type of quantity.hpp.
enum class Measure
{
    length,
    head,
    area,
    volume,
    volume_flow,
    mass,
    mass_flow,
    velocity,
    duration,
    temperature,
    temperature_difference,
    pressure_difference,
    gauge_pressure,
    absolute_pressure,
    power,
    energy,
    heating_value,
    rotation_speed,
    frequency,
    voltage,
    current,
    resistance,
    density,
    dynamic_viscosity,
    kinematic_viscosity,
    specific_heat,
    thermal_conductivity,
    latent_heat,
    heat_flux,
    mass_flux,
    conductivity,
    as_calcium_carbonate,
    as_chlorine,
    as_sodium_chloride,
    as_boron,
    as_cyanuric_acid,
    as_sulfate,
    as_hydrogen_chloride,
    as_bicarbonate,
    as_carbonate,
    as_calcium_chloride,
    as_itself,
    molality,
    ph,
    ph_difference,
    fraction,
    gas_fraction,
    number
};

/// What a unit measures. Several measures may share a dimension (a head and a length), never the reverse.
enum class Dimension
{
    length,
    area,
    volume,
    volume_flow,
    mass,
    mass_flow,
    velocity,
    time,
    temperature,
    temperature_difference,
    pressure,
    gauge_only,
    absolute_only,
    power,
    energy,
    energy_per_volume,
    rotation_speed,
    frequency,
    voltage,
    current,
    resistance,
    mass_concentration,
    dynamic_viscosity,
    kinematic_viscosity,
    specific_heat,
    thermal_conductivity,
    latent_heat,
    heat_flux,
    mass_flux,
    conductivity,
    amount_concentration,
    equivalent_concentration,
    molality,
    share,
    parts_by_volume,
    slope,
    none
};

/// US customary or SI, for printing. Reading takes both, always.
enum class System
{
    us,
    si
};

/// A unit to print in, used from the given size of the SI value upwards.
struct PrintUnit
{
    std::string_view symbol; ///< as in the unit table; empty for a pure number
    double from = 0.0;
};

struct MeasureInfo
{
    Measure measure;
    std::string_view name; ///< 'gauge pressure'
    std::string_view noun; ///< 'a pressure', for "'45 gpm' is a flow; suction is a pressure"
    Dimension dimension;
    std::string_view basis;   ///< 'CaCO3': the basis that ppm and mg/L mean here, else empty
    double molar_mass;        ///< kg/mol of the basis, 0 where there is none
    std::string_view example; ///< '18 psi'
    std::string_view units;   ///< the common ones, for messages and the schema
    std::span<PrintUnit const> us;
    std::span<PrintUnit const> si;
};

[[nodiscard]] MeasureInfo const& info(Measure measure);
[[nodiscard]] std::span<MeasureInfo const> all_measures();

/// 'a flow', 'a pressure': what a unit's dimension is called.
[[nodiscard]] std::string_view noun(Dimension dimension);

/// The measure of a quantity type; specialised for each type of quantity.hpp.
template <class Q> struct measure_of;

#define PADWALK_MEASURE(type, name)                                                                                    \
    template <> struct measure_of<type>                                                                                \
    {                                                                                                                  \
        static constexpr Measure value = Measure::name;                                                                \
    }
PADWALK_MEASURE(Length, length);
PADWALK_MEASURE(Head, head);
PADWALK_MEASURE(Area, area);
PADWALK_MEASURE(Volume, volume);
PADWALK_MEASURE(VolumeFlow, volume_flow);
PADWALK_MEASURE(Mass, mass);
PADWALK_MEASURE(MassFlow, mass_flow);
PADWALK_MEASURE(Velocity, velocity);
PADWALK_MEASURE(Duration, duration);
PADWALK_MEASURE(Temperature, temperature);
PADWALK_MEASURE(TemperatureDifference, temperature_difference);
PADWALK_MEASURE(Pressure, pressure_difference);
PADWALK_MEASURE(GaugePressure, gauge_pressure);
PADWALK_MEASURE(AbsolutePressure, absolute_pressure);
PADWALK_MEASURE(Power, power);
PADWALK_MEASURE(Energy, energy);
PADWALK_MEASURE(HeatingValue, heating_value);
PADWALK_MEASURE(RotationSpeed, rotation_speed);
PADWALK_MEASURE(Frequency, frequency);
PADWALK_MEASURE(Voltage, voltage);
PADWALK_MEASURE(Current, current);
PADWALK_MEASURE(Resistance, resistance);
PADWALK_MEASURE(Density, density);
PADWALK_MEASURE(DynamicViscosity, dynamic_viscosity);
PADWALK_MEASURE(KinematicViscosity, kinematic_viscosity);
PADWALK_MEASURE(SpecificHeat, specific_heat);
PADWALK_MEASURE(ThermalConductivity, thermal_conductivity);
PADWALK_MEASURE(LatentHeat, latent_heat);
PADWALK_MEASURE(HeatFlux, heat_flux);
PADWALK_MEASURE(MassFlux, mass_flux);
PADWALK_MEASURE(Conductivity, conductivity);
PADWALK_MEASURE(AsCalciumCarbonate, as_calcium_carbonate);
PADWALK_MEASURE(AsChlorine, as_chlorine);
PADWALK_MEASURE(AsSodiumChloride, as_sodium_chloride);
PADWALK_MEASURE(AsBoron, as_boron);
PADWALK_MEASURE(AsCyanuricAcid, as_cyanuric_acid);
PADWALK_MEASURE(AsSulfate, as_sulfate);
PADWALK_MEASURE(AsHydrogenChloride, as_hydrogen_chloride);
PADWALK_MEASURE(AsBicarbonate, as_bicarbonate);
PADWALK_MEASURE(AsCarbonate, as_carbonate);
PADWALK_MEASURE(AsCalciumChloride, as_calcium_chloride);
PADWALK_MEASURE(AsItself, as_itself);
PADWALK_MEASURE(Molality, molality);
PADWALK_MEASURE(Ph, ph);
PADWALK_MEASURE(PhDifference, ph_difference);
PADWALK_MEASURE(Fraction, fraction);
PADWALK_MEASURE(GasFraction, gas_fraction);
PADWALK_MEASURE(Number, number);
#undef PADWALK_MEASURE

template <class Q>
concept Quantity = requires
{
    measure_of<Q>::value;
};

} // namespace padwalk::units
