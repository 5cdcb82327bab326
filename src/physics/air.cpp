#include "padwalk/physics/air.hpp"

#include "if97.hpp"
#include "padwalk/numerics/number_text.hpp"
#include "padwalk/numerics/root.hpp"
#include "padwalk/physics/range.hpp"
#include "padwalk/units/definitions.hpp"

#include <cmath>

namespace padwalk::physics
{
namespace
{

using units::exact::celsius_zero;

constexpr double coldest = -40;
constexpr double hottest = 60;
constexpr Range altitude_metre{-500, 11000, "m", "icao-7488"};
constexpr Range air_celsius{coldest, hottest, "°C", ""};
constexpr Range warm_air_celsius{0, hottest, "°C", "ashrae-hof-psychrometrics"};
constexpr Range air_kilopascal{20, 120, "kPa", ""};
constexpr Range humidity_percent{0, 100, "%", ""};

constexpr double vapour_to_air = water_molar_mass / dry_air_molar_mass;

/// Over supercooled water, 123 K < T < 332 K: equation 10 of [murphy-koop-2005].
double supercooled_pressure(double kelvin)
{
    double const t = kelvin;
    double const cold = 53.878 - 1331.22 / t - 9.44523 * std::log(t) + 0.014025 * t;
    return std::exp(54.842763 - 6763.22 / t - 4.210 * std::log(t) + 0.000367 * t +
                    std::tanh(0.0415 * (t - 218.8)) * cold);
}

double saturation_pascal(double kelvin)
{
    return kelvin < celsius_zero ? supercooled_pressure(kelvin) : if97::saturation_pressure(kelvin);
}

/// Partial pressure of the vapour, after checking that it leaves room for dry air.
double vapour_pascal(units::Temperature air, units::Fraction relative_humidity, units::AbsolutePressure pressure)
{
    require_within(air_kilopascal, units::in_si(pressure) / 1e3, "air pressure");
    double const vapour = units::in_si(vapour_pressure_in_air(air, relative_humidity));
    require_within(Range{0, units::in_si(pressure) / 1e3, "kPa", ""}, vapour / 1e3, "vapour pressure");
    return vapour;
}

double ratio_of(double vapour, double pressure)
{
    return vapour_to_air * vapour / (pressure - vapour);
}

} // namespace

units::AbsolutePressure pressure_at_altitude(units::Length altitude)
{
    require_within(altitude_metre, units::in_si(altitude), "altitude");
    constexpr double sea_level_kelvin = 288.15;
    constexpr double lapse = 6.5e-3;           // K/m
    constexpr double gas_constant = 287.05287; // J/(kg K), the standard's own value
    double const cooling = lapse * units::in_si(altitude) / sea_level_kelvin;
    return units::of_si<units::AbsolutePressure>(
        units::exact::atmosphere * std::pow(1 - cooling, units::exact::standard_gravity / (gas_constant * lapse)));
}

units::AbsolutePressure saturation_pressure_in_air(units::Temperature air)
{
    require_within(air_celsius, air, "air temperature");
    return units::of_si<units::AbsolutePressure>(saturation_pascal(units::in_si(air)));
}

units::AbsolutePressure vapour_pressure_in_air(units::Temperature air, units::Fraction relative_humidity)
{
    require_within(humidity_percent, relative_humidity, "relative humidity");
    return units::AbsolutePressure(saturation_pressure_in_air(air).from_zero() * relative_humidity.value());
}

units::Density moist_air_density(units::Temperature air, units::Fraction relative_humidity,
                                 units::AbsolutePressure pressure)
{
    double const vapour = vapour_pascal(air, relative_humidity, pressure);
    double const dry = units::in_si(pressure) - vapour;
    return units::of_si<units::Density>(
        (dry / units::in_si(dry_air_gas_constant) + vapour / units::in_si(water_vapour_gas_constant)) /
        units::in_si(air));
}

units::Number humidity_ratio(units::Temperature air, units::Fraction relative_humidity,
                             units::AbsolutePressure pressure)
{
    double const vapour = vapour_pascal(air, relative_humidity, pressure);
    return units::of_si<units::Number>(ratio_of(vapour, units::in_si(pressure)));
}

units::Temperature dew_point(units::AbsolutePressure vapour)
{
    double const low = coldest + celsius_zero;
    double const high = hottest + celsius_zero;
    double const wanted = units::in_si(vapour);
    require_within(Range{saturation_pascal(low), saturation_pascal(high), "Pa", ""}, wanted, "vapour pressure");
    // A vapour pressure at a limit may miss it by the rounding that the range allows.
    if (wanted <= saturation_pascal(low))
        return units::of_si<units::Temperature>(low);
    if (wanted >= saturation_pascal(high))
        return units::of_si<units::Temperature>(high);
    auto const excess = [&](double kelvin) { return std::log(saturation_pascal(kelvin) / wanted); };
    return units::of_si<units::Temperature>(numerics::bracketed_root(excess, low, high, 1e-12));
}

units::Temperature dew_point(units::Temperature air, units::Fraction relative_humidity)
{
    return dew_point(vapour_pressure_in_air(air, relative_humidity));
}

units::Temperature wet_bulb(units::Temperature air, units::Fraction relative_humidity, units::AbsolutePressure pressure)
{
    require_within(warm_air_celsius, air, "air temperature");
    double const ratio = units::in_si(humidity_ratio(air, relative_humidity, pressure));
    double const dry_bulb = units::in_si(air) - celsius_zero;
    // Vapour the air can't hold at this bulb, kJ per kg of dry air: falls through zero at the true bulb.
    auto const excess = [&](double bulb)
    {
        double const saturated = ratio_of(saturation_pascal(bulb + celsius_zero), units::in_si(pressure));
        return (2501 + 1.86 * dry_bulb - 4.186 * bulb) * ratio - (2501 - 2.326 * bulb) * saturated +
               1.006 * (dry_bulb - bulb);
    };
    if (excess(0) < 0)
        throw OutOfRange("wet bulb", "below 0", "0", numerics::number_text(dry_bulb), "°C",
                         "ashrae-hof-psychrometrics");
    if (excess(dry_bulb) >= 0) // saturated air, but for rounding
        return air;
    return units::of_si<units::Temperature>(celsius_zero + numerics::bracketed_root(excess, 0, dry_bulb, 1e-12));
}

} // namespace padwalk::physics
