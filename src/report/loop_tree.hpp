#pragma once
#include "padwalk/assess/assessment.hpp"
#include "padwalk/fields/tree.hpp"

namespace padwalk::report
{

/// The loops of an assessment: a list, empty without one.
[[nodiscard]] fields::Tree loops_tree(assess::Assessment const& a, units::System system);

} // namespace padwalk::report
