#pragma once
/// The pictures that show one item.

#include "page.hpp"

namespace padwalk::report
{

/// Of a loop its schematic and curve, of a heater its heat balance, of a vent its run, of a water its level and how it
/// warms; without those that have nothing to draw. Ids are unique on the page.
[[nodiscard]] std::vector<Drawing> pictures_of(assess::Assessment const& a, std::size_t item, units::System system);

/// Of a water that was tested, its saturation and its chlorine.
[[nodiscard]] std::vector<Drawing> water_pictures_of(assess::WaterReport const& report, std::size_t item,
                                                     units::System system);

/// Its photos, with what became of them. `photos` outlives the page; none: files are named.
[[nodiscard]] std::optional<PhotoRow> photos_of(assess::Assessment const& a, std::size_t item, Photos const* photos,
                                                Lexicon const& words);

} // namespace padwalk::report
