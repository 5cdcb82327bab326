#pragma once
/// Changing part of the water.

#include "padwalk/fields/record.hpp"
#include "padwalk/units/quantity.hpp"

#include <string>
#include <vector>

namespace padwalk::level
{

enum class Exchange
{
    drained_first, ///< part let out, then filled up
    flow_through   ///< fresh water in while as much mixed water leaves
};

/// Share of the old water that is still there after `times` exchanges of `share` of the volume each.
///
///     drained first: (1 - share)^times      flow through, well mixed: exp(-share·times)
///
/// Throws: figures::NotComputed for a share above 1 drained first
[[nodiscard]] units::Fraction old_water_left(units::Fraction share, units::Number times, Exchange exchange);

/// Concentration after: fill + left·(old - fill).
[[nodiscard]] units::AsItself diluted(units::AsItself old, units::AsItself fill, units::Fraction left);

} // namespace padwalk::level

template <> struct padwalk::fields::words_of<padwalk::level::Exchange>
{
    static std::vector<std::string> words() { return {"drained_first", "flow_through"}; }
};
