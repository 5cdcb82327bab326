#include "padwalk/physics/evaporation.hpp"

#include "padwalk/physics/air.hpp"
#include "padwalk/physics/water.hpp"
#include "padwalk/units/definitions.hpp"

namespace padwalk::physics
{

using namespace units::exact;

EvaporationCoefficients coefficients_in_btu(units::Number still, units::Number wind)
{
    constexpr double unit = btu / hour / square_foot / inch_mercury;
    return {still.value() * unit, wind.value() * unit / (foot / minute)};
}

EvaporationCoefficients coefficients_in_kilojoule(units::Number still, units::Number wind)
{
    constexpr double unit = 1000 / hour / millimetre_mercury;
    return {still.value() * unit, wind.value() * unit};
}

units::Pressure vapour_drive(OpenWater const& open)
{
    return vapour_pressure(open.water_temperature) - vapour_pressure_in_air(open.air_temperature, open.humidity);
}

EvaporationTransfer evaporation_transfer(units::Velocity wind, EvaporationCoefficients const& coefficients)
{
    return units::of_si<EvaporationTransfer>(coefficients.still_W_per_m2_Pa +
                                             coefficients.wind_W_s_per_m3_Pa * units::in_si(wind));
}

units::HeatFlux evaporation_heat(OpenWater const& open, EvaporationCoefficients const& coefficients, double factor)
{
    double const transfer = factor * units::in_si(evaporation_transfer(open.wind, coefficients));
    return units::of_si<units::HeatFlux>(transfer * units::in_si(vapour_drive(open)));
}

units::MassFlux evaporation_flux(OpenWater const& open, EvaporationCoefficients const& coefficients, double factor)
{
    return evaporation_heat(open, coefficients, factor) / latent_heat(open.water_temperature);
}

} // namespace padwalk::physics
