#include "padwalk/physics/water.hpp"

#include "if97.hpp"
#include "padwalk/physics/range.hpp"
#include "transport.hpp"

namespace padwalk::physics
{
namespace
{

constexpr Range liquid_celsius{0, 100, "°C", "iapws-if97"};
constexpr Range liquid_kilopascal{1, 1e5, "kPa", "iapws-if97"};
constexpr Range dissolved_gram_per_litre{0, 40, "g/L", ""};

/// m3/kg that a dissolved salt takes up: our judgement for pool water (see the header).
constexpr double dissolved_specific_volume = 0.25e-3;

double checked_kelvin(units::Temperature water)
{
    require_within(liquid_celsius, water, "water temperature");
    return units::in_si(water);
}

if97::State liquid(units::Temperature water, units::AbsolutePressure pressure)
{
    double const kelvin = checked_kelvin(water);
    require_within(liquid_kilopascal, units::in_si(pressure) / 1e3, "water pressure");
    // A model asks for the same water again and again, and the formula has 34 terms of high powers.
    struct Last
    {
        double kelvin = 0.0, pascal = 0.0;
        if97::State state{};
    };
    thread_local Last last;
    if (last.kelvin != kelvin || last.pascal != units::in_si(pressure))
        last = {kelvin, units::in_si(pressure), if97::liquid(kelvin, units::in_si(pressure))};
    return last.state;
}

} // namespace

units::Density density(units::Temperature water, units::AbsolutePressure pressure)
{
    return units::of_si<units::Density>(1 / liquid(water, pressure).specific_volume);
}

units::SpecificHeat specific_heat(units::Temperature water, units::AbsolutePressure pressure)
{
    return units::of_si<units::SpecificHeat>(liquid(water, pressure).specific_heat);
}

units::DynamicViscosity viscosity(units::Temperature water, units::AbsolutePressure pressure)
{
    double const rho = units::in_si(density(water, pressure));
    return units::of_si<units::DynamicViscosity>(transport::viscosity(units::in_si(water), rho));
}

units::KinematicViscosity kinematic_viscosity(units::Temperature water, units::AbsolutePressure pressure)
{
    return viscosity(water, pressure) / density(water, pressure);
}

units::ThermalConductivity conductivity(units::Temperature water, units::AbsolutePressure pressure)
{
    double const rho = units::in_si(density(water, pressure));
    return units::of_si<units::ThermalConductivity>(transport::conductivity(units::in_si(water), rho));
}

units::AbsolutePressure vapour_pressure(units::Temperature water)
{
    return units::of_si<units::AbsolutePressure>(if97::saturation_pressure(checked_kelvin(water)));
}

units::LatentHeat latent_heat(units::Temperature water)
{
    double const kelvin = checked_kelvin(water);
    double const pascal = if97::saturation_pressure(kelvin);
    return units::of_si<units::LatentHeat>(if97::vapour(kelvin, pascal).enthalpy -
                                           if97::liquid(kelvin, pascal).enthalpy);
}

units::Density salty_density(units::Temperature water, units::AsItself dissolved)
{
    require_within(dissolved_gram_per_litre, dissolved.value(), "dissolved solids");
    double const pure = units::in_si(density(water));
    return units::of_si<units::Density>(pure + dissolved.value() * (1 - pure * dissolved_specific_volume));
}

} // namespace padwalk::physics
