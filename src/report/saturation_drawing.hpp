#pragma once
#include "page.hpp"

namespace padwalk::report
{

/// The saturation index along the water's way, one place below the other, each with its interval on one scale that says
/// in words where water is corrosive, balanced and scaling. No svg without a place. `id` is unique on the page.
[[nodiscard]] Drawing saturation_drawing(assess::SaturationWay const& way, units::System system, std::string const& id);

} // namespace padwalk::report
