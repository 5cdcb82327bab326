#pragma once
#include "page.hpp"

namespace padwalk::report
{

/// The level over time as it was read, below what evaporation alone would have done, with the doubt of both; where the
/// pump ran, where the fill was open, and where the level may stop. `id` is unique on the page.
[[nodiscard]] Drawing level_drawing(assess::LevelEntry const& level, units::System system, std::string const& id);

} // namespace padwalk::report
