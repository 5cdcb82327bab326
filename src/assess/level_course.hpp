#pragma once
#include "padwalk/assess/assessment.hpp"

namespace padwalk::assess
{

/// Whether a level still falls faster than without a leak: by the balance of its last stretch alone against that of all
/// before it, and by the settling, where there is one. It has stopped where the last stretch shows no leak and either
/// could have shown one as large as that before, or the settling is sure (19 to 1, and 39 of 40) that the leak stops
/// above the last mark. Where the pump changed it may be why, so nothing is said. None where the last stretch let in
/// water that nobody measured.
///
/// Throws:   as level::level_balance
[[nodiscard]] std::optional<LevelCourse> level_course(LevelEntry const& level, level::BalanceFacts const& facts);

} // namespace padwalk::assess
