#pragma once
/// Every formula is valid somewhere. Outside it refuses by name; it neither clamps nor extrapolates.

#include "padwalk/units/quantity.hpp"

#include <stdexcept>
#include <string>
#include <string_view>

namespace padwalk::physics
{

/// A formula was asked for a value outside its range. The parts are ready to print, in the unit of the message:
/// "water temperature 112 °C is outside 0 to 100 °C of [iapws-if97]".
class OutOfRange : public std::domain_error
{
public:
    OutOfRange(std::string name, std::string value, std::string low, std::string high, std::string unit,
               std::string source);

    std::string name;   ///< 'water temperature'
    std::string value;  ///< '112', with as many digits as it takes to differ from the limit
    std::string low;    ///< '0'
    std::string high;   ///< '100'
    std::string unit;   ///< '°C'; empty for a pure number
    std::string source; ///< key in data/sources, without brackets; empty where the limit is the formula's own
};

/// Limits in the unit that a message prints them in, and whose limits they are.
struct Range
{
    double low;
    double high;
    std::string_view unit;
    std::string_view source;
};

/// Throws OutOfRange unless the value, in the range's unit, is inside. The limits count as inside, and so does a
/// thousand-millionth of the larger limit beyond them: 104 °F must pass for 40 °C after any conversion. NaN is outside.
void require_within(Range const& range, double value, std::string_view name);

/// The same for a temperature and a range in °C.
void require_within(Range const& celsius, units::Temperature temperature, std::string_view name);

/// The same for a share and a range in %.
void require_within(Range const& percent, units::Fraction share, std::string_view name);

} // namespace padwalk::physics
