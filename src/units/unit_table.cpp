#include "padwalk/units/unit_table.hpp"

#include "padwalk/units/definitions.hpp"

#include <array>

namespace padwalk::units
{
namespace
{

using namespace exact;
using D = Dimension;

constexpr double microsiemens_per_cm = 1e-4;

// A symbol may stand in several dimensions ('in', 'ppm', 'degF'): the field decides which is meant.
constexpr auto table = std::to_array<Unit>({
    {"in", D::length, inch},
    {"inch", D::length, inch, 0, false},
    {"inches", D::length, inch, 0, false},
    {"\"", D::length, inch, 0, false},
    {"ft", D::length, foot},
    {"foot", D::length, foot, 0, false},
    {"feet", D::length, foot, 0, false},
    {"'", D::length, foot, 0, false},
    {"yd", D::length, 3 * foot},
    {"mil", D::length, mil},
    {"mi", D::length, mile},
    {"mm", D::length, 1e-3},
    {"cm", D::length, 1e-2},
    {"m", D::length, 1.0},
    {"km", D::length, 1e3},
    {"um", D::length, 1e-6},

    {"ft2", D::area, square_foot},
    {"sq ft", D::area, square_foot, 0, false},
    {"sqft", D::area, square_foot, 0, false},
    {"ft^2", D::area, square_foot, 0, false},
    {"square feet", D::area, square_foot, 0, false},
    {"in2", D::area, inch* inch},
    {"sq in", D::area, inch* inch, 0, false},
    {"in^2", D::area, inch* inch, 0, false},
    {"m2", D::area, 1.0},
    {"m^2", D::area, 1.0, 0, false},
    {"sq m", D::area, 1.0, 0, false},
    {"cm2", D::area, 1e-4},
    {"cm^2", D::area, 1e-4, 0, false},
    {"mm2", D::area, 1e-6},
    {"acre", D::area, acre},

    {"gal", D::volume, us_gallon},
    {"gallon", D::volume, us_gallon, 0, false},
    {"gallons", D::volume, us_gallon, 0, false},
    {"US gal", D::volume, us_gallon, 0, false},
    {"UK gal", D::volume, uk_gallon},
    {"imp gal", D::volume, uk_gallon, 0, false},
    {"qt", D::volume, us_quart},
    {"pt", D::volume, us_pint},
    {"cup", D::volume, us_cup},
    {"cups", D::volume, us_cup, 0, false},
    {"fl oz", D::volume, us_fluid_ounce},
    {"US fl oz", D::volume, us_fluid_ounce, 0, false},
    {"L", D::volume, litre},
    {"l", D::volume, litre, 0, false},
    {"litre", D::volume, litre, 0, false},
    {"litres", D::volume, litre, 0, false},
    {"liter", D::volume, litre, 0, false},
    {"liters", D::volume, litre, 0, false},
    {"mL", D::volume, 1e-6},
    {"ml", D::volume, 1e-6, 0, false},
    {"ft3", D::volume, cubic_foot},
    {"ft^3", D::volume, cubic_foot, 0, false},
    {"cu ft", D::volume, cubic_foot, 0, false},
    {"cubic feet", D::volume, cubic_foot, 0, false},
    {"cf", D::volume, cubic_foot, 0, false},
    {"in3", D::volume, inch* inch* inch},
    {"m3", D::volume, 1.0},
    {"m^3", D::volume, 1.0, 0, false},
    {"acre in", D::volume, acre* inch},

    {"gpm", D::volume_flow, us_gallon / minute},
    {"gal/min", D::volume_flow, us_gallon / minute, 0, false},
    {"US gpm", D::volume_flow, us_gallon / minute, 0, false},
    {"UK gpm", D::volume_flow, uk_gallon / minute},
    {"gph", D::volume_flow, us_gallon / hour},
    {"gal/h", D::volume_flow, us_gallon / hour, 0, false},
    {"gal/hr", D::volume_flow, us_gallon / hour, 0, false},
    {"gal/day", D::volume_flow, us_gallon / day},
    {"gpd", D::volume_flow, us_gallon / day, 0, false},
    {"gal/d", D::volume_flow, us_gallon / day, 0, false},
    {"US gal/day", D::volume_flow, us_gallon / day, 0, false},
    {"US gal/min", D::volume_flow, us_gallon / minute, 0, false},
    {"US gph", D::volume_flow, us_gallon / hour, 0, false},
    {"L/min", D::volume_flow, litre / minute},
    {"lpm", D::volume_flow, litre / minute, 0, false},
    {"l/min", D::volume_flow, litre / minute, 0, false},
    {"L/s", D::volume_flow, litre},
    {"L/h", D::volume_flow, litre / hour},
    {"L/day", D::volume_flow, litre / day},
    {"mL/min", D::volume_flow, 1e-6 / minute},
    {"m3/h", D::volume_flow, 1.0 / hour},
    {"m^3/h", D::volume_flow, 1.0 / hour, 0, false},
    {"m3/hr", D::volume_flow, 1.0 / hour, 0, false},
    {"m3/s", D::volume_flow, 1.0},
    {"m^3/s", D::volume_flow, 1.0, 0, false},
    {"m3/day", D::volume_flow, 1.0 / day},
    {"cfm", D::volume_flow, cubic_foot / minute},
    {"ft3/min", D::volume_flow, cubic_foot / minute, 0, false},
    {"ft3/h", D::volume_flow, cubic_foot / hour},
    {"cfh", D::volume_flow, cubic_foot / hour, 0, false},
    {"ft3/hr", D::volume_flow, cubic_foot / hour, 0, false},
    {"ft3/s", D::volume_flow, cubic_foot},

    {"lb", D::mass, pound},
    {"lbs", D::mass, pound, 0, false},
    {"oz", D::mass, ounce},
    {"kg", D::mass, 1.0},
    {"g", D::mass, 1e-3},
    {"mg", D::mass, 1e-6},
    {"lb/h", D::mass_flow, pound / hour},
    {"lb/hr", D::mass_flow, pound / hour, 0, false},
    {"kg/h", D::mass_flow, 1.0 / hour},
    {"kg/s", D::mass_flow, 1.0},
    {"g/s", D::mass_flow, 1e-3},

    {"ft/s", D::velocity, foot},
    {"fps", D::velocity, foot, 0, false},
    {"ft/min", D::velocity, foot / minute},
    {"fpm", D::velocity, foot / minute, 0, false},
    {"mph", D::velocity, mile / hour},
    {"m/s", D::velocity, 1.0},
    {"km/h", D::velocity, 1e3 / hour},
    {"in/day", D::velocity, inch / day},
    {"in/d", D::velocity, inch / day, 0, false},
    {"in/week", D::velocity, inch / week},
    {"mm/day", D::velocity, 1e-3 / day},
    {"mm/d", D::velocity, 1e-3 / day, 0, false},
    {"gpm/ft2", D::velocity, us_gallon / minute / square_foot},
    {"US gpm/ft2", D::velocity, us_gallon / minute / square_foot, 0, false},
    {"m/h", D::velocity, 1.0 / hour},
    {"cm/h", D::velocity, 1e-2 / hour},
    {"cm/day", D::velocity, 1e-2 / day},

    {"s", D::time, 1.0},
    {"sec", D::time, 1.0, 0, false},
    {"seconds", D::time, 1.0, 0, false},
    {"min", D::time, minute},
    {"minutes", D::time, minute, 0, false},
    {"h", D::time, hour},
    {"hr", D::time, hour, 0, false},
    {"hrs", D::time, hour, 0, false},
    {"hour", D::time, hour, 0, false},
    {"hours", D::time, hour, 0, false},
    {"d", D::time, day, 0, false},
    {"day", D::time, day},
    {"days", D::time, day, 0, false},
    {"week", D::time, week},
    {"weeks", D::time, week, 0, false},
    {"month", D::time, 365.25 * day / 12},
    {"months", D::time, 365.25 * day / 12, 0, false},
    {"year", D::time, 365.25 * day},
    {"years", D::time, 365.25 * day, 0, false},

    {"degF", D::temperature, fahrenheit_degree, fahrenheit_zero},
    {"deg F", D::temperature, fahrenheit_degree, fahrenheit_zero, false},
    {"F", D::temperature, fahrenheit_degree, fahrenheit_zero, false},
    {"degC", D::temperature, 1.0, celsius_zero},
    {"deg C", D::temperature, 1.0, celsius_zero, false},
    {"C", D::temperature, 1.0, celsius_zero, false},
    {"K", D::temperature, 1.0},
    {"degF", D::temperature_difference, fahrenheit_degree},
    {"deg F", D::temperature_difference, fahrenheit_degree, 0, false},
    {"F", D::temperature_difference, fahrenheit_degree, 0, false},
    {"degC", D::temperature_difference, 1.0},
    {"deg C", D::temperature_difference, 1.0, 0, false},
    {"C", D::temperature_difference, 1.0, 0, false},
    {"K", D::temperature_difference, 1.0},

    {"psi", D::pressure, exact::psi},
    {"psig", D::gauge_only, exact::psi},
    {"psia", D::absolute_only, exact::psi},
    {"kPa", D::pressure, 1e3},
    {"Pa", D::pressure, 1.0},
    {"MPa", D::pressure, 1e6},
    {"hPa", D::pressure, 1e2},
    {"bar", D::pressure, bar},
    {"mbar", D::pressure, bar / 1000},
    {"atm", D::pressure, atmosphere},
    {"inHg", D::pressure, inch_mercury},
    {"in Hg", D::pressure, inch_mercury, 0, false},
    {"\"Hg", D::pressure, inch_mercury, 0, false},
    {"mmHg", D::pressure, millimetre_mercury},
    {"ft water", D::pressure, foot_water},
    {"ftH2O", D::pressure, foot_water, 0, false},
    {"ft H2O", D::pressure, foot_water, 0, false},
    {"m water", D::pressure, metre_water},
    {"mH2O", D::pressure, metre_water, 0, false},
    {"in water", D::pressure, inch_water},
    {"inH2O", D::pressure, inch_water, 0, false},
    {"in H2O", D::pressure, inch_water, 0, false},
    {"in w.c.", D::pressure, inch_water, 0, false},
    {"inwc", D::pressure, inch_water, 0, false},
    {"in wc", D::pressure, inch_water, 0, false},
    {"\"wc", D::pressure, inch_water, 0, false},
    {"oz/in2", D::pressure, exact::psi / 16},

    {"kBtu/h", D::power, 1000 * btu / hour},
    {"kBtu/hr", D::power, 1000 * btu / hour, 0, false},
    {"kBTUH", D::power, 1000 * btu / hour, 0, false},
    {"MBH", D::power, 1000 * btu / hour, 0, false},
    {"Btu/h", D::power, btu / hour},
    {"Btu/hr", D::power, btu / hour, 0, false},
    {"BTUH", D::power, btu / hour, 0, false},
    {"W", D::power, 1.0},
    {"kW", D::power, 1e3},
    {"hp", D::power, horsepower},
    {"hp (electric)", D::power, electric_horsepower},
    {"hp (metric)", D::power, metric_horsepower},
    {"ton of refrigeration", D::power, ton_refrigeration},

    {"Btu", D::energy, btu},
    {"kBtu", D::energy, 1000 * btu},
    {"therm", D::energy, us_therm},
    {"therms", D::energy, us_therm, 0, false},
    {"therm (EC)", D::energy, ec_therm, 0, false},
    {"kWh", D::energy, kilowatt_hour},
    {"Wh", D::energy, hour},
    {"J", D::energy, 1.0},
    {"kJ", D::energy, 1e3},
    {"MJ", D::energy, 1e6},
    {"GJ", D::energy, 1e9},

    {"Btu/ft3", D::energy_per_volume, btu / cubic_foot},
    {"Btu/cf", D::energy_per_volume, btu / cubic_foot, 0, false},
    {"MJ/m3", D::energy_per_volume, 1e6},
    {"kWh/m3", D::energy_per_volume, kilowatt_hour},

    {"rpm", D::rotation_speed, 1.0 / minute},
    {"1/min", D::rotation_speed, 1.0 / minute, 0, false},
    {"Hz", D::frequency, 1.0},
    {"kHz", D::frequency, 1e3},
    {"Hz", D::rotation_speed, 1.0},
    {"V", D::voltage, 1.0},
    {"volt", D::voltage, 1.0, 0, false},
    {"volts", D::voltage, 1.0, 0, false},
    {"mV", D::voltage, 1e-3},
    {"A", D::current, 1.0},
    {"amp", D::current, 1.0, 0, false},
    {"amps", D::current, 1.0, 0, false},
    {"mA", D::current, 1e-3},
    {"ohm", D::resistance, 1.0},
    {"ohms", D::resistance, 1.0, 0, false},
    {"kohm", D::resistance, 1e3},
    {"megohm", D::resistance, 1e6},
    {"Mohm", D::resistance, 1e6, 0, false},

    {"ppm", D::mass_concentration, 1e-3},
    {"mg/L", D::mass_concentration, 1e-3},
    {"mg/l", D::mass_concentration, 1e-3, 0, false},
    {"g/L", D::mass_concentration, 1.0},
    {"g/m3", D::mass_concentration, 1e-3, 0, false},
    {"kg/m3", D::mass_concentration, 1.0},
    {"lb/ft3", D::mass_concentration, pound / cubic_foot},
    {"gr/gal", D::mass_concentration, grain / us_gallon},
    {"gpg", D::mass_concentration, grain / us_gallon, 0, false},
    {"gr/UK gal", D::mass_concentration, grain / uk_gallon},
    {"oz per 10000 gal", D::mass_concentration, ounce / (10000 * us_gallon)},
    {"mmol/L", D::amount_concentration, 1.0},
    {"mmol/l", D::amount_concentration, 1.0, 0, false},
    {"meq/L", D::equivalent_concentration, 1.0},
    {"meq/l", D::equivalent_concentration, 1.0, 0, false},
    {"mol/kg", D::molality, 1.0},
    {"mmol/kg", D::molality, 1e-3},

    {"mPa s", D::dynamic_viscosity, 1e-3},
    {"Pa s", D::dynamic_viscosity, 1.0},
    {"cP", D::dynamic_viscosity, 1e-3},
    {"cSt", D::kinematic_viscosity, 1e-6},
    {"mm2/s", D::kinematic_viscosity, 1e-6},
    {"m2/s", D::kinematic_viscosity, 1.0},
    {"J/(kg K)", D::specific_heat, 1.0},
    {"kJ/(kg K)", D::specific_heat, 1e3},
    {"Btu/(lb degF)", D::specific_heat, btu / (pound * fahrenheit_degree)},
    {"W/(m K)", D::thermal_conductivity, 1.0},
    {"J/kg", D::latent_heat, 1.0},
    {"kJ/kg", D::latent_heat, 1e3},
    {"Btu/lb", D::latent_heat, btu / pound},
    {"W/m2", D::heat_flux, 1.0},
    {"Btu/(h ft2)", D::heat_flux, btu / (hour * square_foot)},
    {"kg/(m2 s)", D::mass_flux, 1.0},
    {"lb/(h ft2)", D::mass_flux, pound / (hour * square_foot)},
    {"uS/cm", D::conductivity, microsiemens_per_cm},
    {"mS/cm", D::conductivity, 0.1},
    {"S/m", D::conductivity, 1.0},

    {"%", D::share, 1e-2},
    {"percent", D::share, 1e-2, 0, false},
    {"ppm", D::parts_by_volume, 1e-6},
    {"ppmv", D::parts_by_volume, 1e-6, 0, false},
    {"%", D::parts_by_volume, 1e-2},
    {"in/ft", D::slope, inch / foot},
    {"fl oz per 10000 gal", D::parts_by_volume, us_fluid_ounce / (10000 * us_gallon)},
});

} // namespace

std::span<Unit const> all_units()
{
    return table;
}

Unit const* find_unit(std::string_view symbol, Dimension dimension)
{
    for (auto const& unit : table)
        if (unit.dimension == dimension && unit.symbol == symbol)
            return &unit;
    return nullptr;
}

std::string printed(std::string_view symbol)
{
    if (symbol == "degF")
        return "°F";
    if (symbol == "degC")
        return "°C";
    if (symbol == "ohm")
        return "Ω";
    std::string out;
    for (std::size_t i = 0; i < symbol.size(); ++i)
    {
        char const c = symbol[i];
        bool const after_letter = i > 0 && ((symbol[i - 1] >= 'a' && symbol[i - 1] <= 'z') || symbol[i - 1] == ')');
        if (after_letter && c == '2')
            out += "²";
        else if (after_letter && c == '3')
            out += "³";
        else if (c == 'u' && (symbol.substr(i, 2) == "um" || symbol.substr(i, 2) == "uS"))
            out += "µ";
        else
            out += c;
    }
    return out;
}

} // namespace padwalk::units
