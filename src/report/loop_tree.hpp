#pragma once
#include "padwalk/assess/assessment.hpp"
#include "padwalk/fields/tree.hpp"

namespace padwalk::report
{

/// The loops of an assessment: a list, empty without one.
[[nodiscard]] fields::Tree loops_tree(assess::Assessment const& a, units::System system);

/// One reading beside what a sound loop or heater would show.
[[nodiscard]] fields::Tree against_sound_tree(assess::ReadingAgainstSound const& reading, units::System system);

} // namespace padwalk::report
