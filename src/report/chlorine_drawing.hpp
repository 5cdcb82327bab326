#pragma once
#include "page.hpp"

namespace padwalk::report
{

/// Where the water stands on the plane of free chlorine over cyanurate, with its doubt: the band for bathing, where
/// there is too little chlorine for this much cyanurate, and lines of equal work. Where cyanurate is not known, free
/// chlorine alone on its scale. No svg for numbers that are none. `id` is unique on the page.
[[nodiscard]] Drawing chlorine_drawing(assess::ChlorineStanding const& chlorine, units::System system,
                                       std::string const& id);

} // namespace padwalk::report
