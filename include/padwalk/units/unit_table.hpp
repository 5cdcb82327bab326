#pragma once
/// The units that people write, each by its exact definition.

#include "padwalk/units/measure.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace padwalk::units
{

/// One spelling of one unit. value_in_SI = (number + zero) * scale.
struct Unit
{
    std::string_view symbol; ///< as read, after normalising: '°' is 'deg', '³' is '3', 'µ' is 'u'
    Dimension dimension;
    double scale;
    double zero = 0.0; ///< offset of the scale's zero, in this unit; only temperatures have one
    bool first = true; ///< the spelling that lists and messages show
};

[[nodiscard]] std::span<Unit const> all_units();

/// The unit with this exact symbol in this dimension, or none.
[[nodiscard]] Unit const* find_unit(std::string_view symbol, Dimension dimension);

/// What the symbol looks like in print: 'degF' as '°F', 'ft3' as 'ft³'.
[[nodiscard]] std::string printed(std::string_view symbol);

} // namespace padwalk::units
