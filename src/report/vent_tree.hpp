#pragma once
#include "padwalk/assess/assessment.hpp"
#include "padwalk/fields/tree.hpp"

namespace padwalk::report
{

/// The vents of an assessment: a list, empty without one.
[[nodiscard]] fields::Tree vents_tree(assess::Assessment const& a, units::System system);

} // namespace padwalk::report
