#pragma once
#include "padwalk/units/unit_table.hpp"

#include <string_view>
#include <vector>

namespace padwalk::units
{

struct UnitMatch
{
    Unit const* unit = nullptr;
    std::size_t length = 0;
    bool folded = false; ///< by forgiving the case
};

/// The longest unit of one of these dimensions that `text` starts with, as a whole word; of any where there are none.
[[nodiscard]] UnitMatch match_unit(std::string_view text, std::vector<Dimension> const& dimensions);

/// The unit of these dimensions that a misspelt word most likely is; empty if none is near.
[[nodiscard]] std::string_view nearest_unit(std::string_view word, std::vector<Dimension> const& dimensions);

/// Which dimensions a measure's text may be written in.
[[nodiscard]] std::vector<Dimension> dimensions_of(MeasureInfo const& measure);

} // namespace padwalk::units
