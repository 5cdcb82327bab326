#pragma once
#include "page.hpp"

namespace padwalk::report
{

/// What the readings of a water will do by themselves, day by day: a panel for each that changes or leaves its band,
/// one below the other, each with its doubt, the band that is wanted, and the day on which it leaves that. No svg
/// without a forecast of two days. `id` is unique on the page.
[[nodiscard]] Drawing forecast_drawing(assess::WaterSheet const& sheet, units::System system, std::string const& id);

} // namespace padwalk::report
