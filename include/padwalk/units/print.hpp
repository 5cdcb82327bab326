#pragma once
/// Printing quantities: a unit always, and never more digits than the doubt allows.

#include "padwalk/units/reading.hpp"

#include <string>
#include <string_view>

namespace padwalk::units
{

/// How a quantity is to be printed.
struct Style
{
    System system = System::us;
    std::string_view unit_us = {}; ///< overrides the measure's own choice
    std::string_view unit_si = {};
};

/// '48.4 ft': the last digit stands no lower than the first digit of the standard uncertainty.
/// With no doubt (0), four significant digits, or as many as the whole part has.
[[nodiscard]] std::string show(Measure measure, double value, double doubt, Style style);

/// '48.4 ± 1.8 ft' (two standard uncertainties). The unit is that of the larger of value and doubt: '0 ± 2 psi'.
[[nodiscard]] std::string show_with_doubt(Measure measure, double value, double doubt, Style style);

/// '48.4 ft (46.6 to 50.2)', all three in the unit of the largest.
[[nodiscard]] std::string show_interval(Measure measure, double value, double low, double high, Style style);

/// The unit that `show` would use for a value without doubt, as in the unit table ('degF'), empty for pure numbers.
/// In US units a vacuum, as gauge pressure below -0.5 inHg, is told in inHg.
[[nodiscard]] std::string_view unit_for(Measure measure, double value, Style style);

/// The number of SI `value` in `unit`; a unit of the measure's dimension.
[[nodiscard]] double in_unit(Measure measure, double value, std::string_view unit);

/// A number with a fixed count of decimals (negative: rounded to tens, hundreds …) and commas from 10,000 up.
[[nodiscard]] std::string show_number(double value, int decimals);

/// A number with so many significant digits, idle zeros off; with an exponent below 1e-6 and from 1e15 up.
[[nodiscard]] std::string show_significant(double value, int digits);

} // namespace padwalk::units
