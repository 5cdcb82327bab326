#pragma once
/// What the drawing of the shell's section says in words.

#include "padwalk/assess/assessment.hpp"

#include <string>
#include <vector>

namespace padwalk::report
{

/// '4.62 ± 0.12 in', or in cm.
[[nodiscard]] std::string depth_with_doubt(units::Measured<units::Length> const& depth, units::System system);
/// '4.0 in', or '1.5 in above' for what is above the first mark; as many digits as the doubt allows.
[[nodiscard]] std::string depth_text(units::Measured<units::Length> const& depth, units::System system);
/// '3.8 to 4.2 in': where it would stop, 19 times in 20.
[[nodiscard]] std::string stop_text(level::Settling const& settling, units::System system);

/// The marks don't surely speak against a leak that stops: where it would is worth showing.
[[nodiscard]] bool shows_stop(assess::LevelEntry const& level);
/// Whether the level still falls, and by what that is known.
[[nodiscard]] std::string trend_sentence(assess::LevelEntry const& level, units::System system);
/// What the chances beside the names mean, and what is left for no name.
[[nodiscard]] std::string chances_sentence(assess::LevelEntry const& level);
/// The drawing for those who can't see it.
[[nodiscard]] std::vector<std::string> section_in_words(assess::LevelEntry const& level, units::System system);

} // namespace padwalk::report
