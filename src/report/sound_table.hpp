#pragma once
#include "page.hpp"

namespace padwalk::report
{

/// Each reading beside what a sound one would show. `sound`: 'a sound heater'.
[[nodiscard]] Table sound_table(std::vector<assess::ReadingAgainstSound> const& readings, std::string caption,
                                std::string sound, units::System system);

} // namespace padwalk::report
