#pragma once
/// Units by their exact definitions, each derived from the SI or from another definition; no factor is retyped.
///
/// Sources: [nist-sp-811] International yard and pound (in = 25.4 mm, lb = 0.45359237 kg), US gallon 231 in3,
/// standard gravity, International Table Btu; [iupac-2021] abridged standard atomic weights.
namespace padwalk::units::exact
{

inline constexpr double inch = 0.0254;
inline constexpr double foot = 12 * inch;
inline constexpr double mile = 5280 * foot;
inline constexpr double mil = inch / 1000;
inline constexpr double square_foot = foot * foot;
inline constexpr double acre = 43560 * square_foot;
inline constexpr double cubic_foot = foot * foot * foot;
inline constexpr double us_gallon = 231 * inch * inch * inch;
inline constexpr double us_quart = us_gallon / 4;
inline constexpr double us_pint = us_gallon / 8;
inline constexpr double us_cup = us_gallon / 16;
inline constexpr double us_fluid_ounce = us_gallon / 128;
inline constexpr double uk_gallon = 4.54609e-3;
inline constexpr double litre = 1e-3;

inline constexpr double minute = 60;
inline constexpr double hour = 60 * minute;
inline constexpr double day = 24 * hour;
inline constexpr double week = 7 * day;

inline constexpr double pound = 0.45359237;
inline constexpr double ounce = pound / 16;
inline constexpr double grain = pound / 7000;

inline constexpr double standard_gravity = 9.80665;
inline constexpr double pound_force = pound * standard_gravity;
inline constexpr double psi = pound_force / (inch * inch);
inline constexpr double bar = 1e5;
inline constexpr double atmosphere = 101325;
inline constexpr double inch_mercury = 13595.1 * standard_gravity * inch; ///< conventional mercury, 0 degC
inline constexpr double millimetre_mercury = 13595.1 * standard_gravity * 1e-3;
inline constexpr double inch_water = 1000 * standard_gravity * inch; ///< conventional water, 1000 kg/m3
inline constexpr double foot_water = 12 * inch_water;
inline constexpr double metre_water = 1000 * standard_gravity;

inline constexpr double btu = 1055.05585262;   ///< International Table
inline constexpr double us_therm = 1.054804e8; ///< 100 000 Btu(59 degF), by definition
inline constexpr double ec_therm = 1.05506e8;  ///< 100 000 Btu(ISO, 1055.06 J)
inline constexpr double kilowatt_hour = 1000 * hour;
inline constexpr double horsepower = 550 * pound_force * foot; ///< mechanical, 550 ft lbf/s
inline constexpr double electric_horsepower = 746;
inline constexpr double metric_horsepower = 75 * standard_gravity;
inline constexpr double ton_refrigeration = 12000 * btu / hour;

inline constexpr double fahrenheit_degree = 1 / 1.8; ///< K
inline constexpr double fahrenheit_zero = 459.67;    ///< degF below the ice scale's 0 degF
inline constexpr double celsius_zero = 273.15;       ///< K

/// kg/mol, from abridged standard atomic weights [iupac-2021]: Ca 40.078, C 12.011, O 15.999, H 1.008, N 14.007,
/// Na 22.990, Cl 35.45, B 10.81, S 32.06.
inline constexpr double calcium_carbonate_molar_mass = (40.078 + 12.011 + 3 * 15.999) * 1e-3;
inline constexpr double chlorine_molar_mass = 2 * 35.45e-3;
inline constexpr double sodium_chloride_molar_mass = (22.990 + 35.45) * 1e-3;
inline constexpr double boron_molar_mass = 10.81e-3;
inline constexpr double cyanuric_acid_molar_mass = (3 * 12.011 + 3 * 1.008 + 3 * 14.007 + 3 * 15.999) * 1e-3;

inline constexpr double sulfate_molar_mass = (32.06 + 4 * 15.999) * 1e-3;
inline constexpr double hydrogen_chloride_molar_mass = (1.008 + 35.45) * 1e-3;
inline constexpr double sodium_bicarbonate_molar_mass = (22.990 + 1.008 + 12.011 + 3 * 15.999) * 1e-3;
inline constexpr double sodium_carbonate_molar_mass = (2 * 22.990 + 12.011 + 3 * 15.999) * 1e-3;
inline constexpr double calcium_chloride_molar_mass = (40.078 + 2 * 35.45) * 1e-3;

} // namespace padwalk::units::exact
