#pragma once
#include "padwalk/assess/assessment.hpp"
#include "padwalk/fields/tree.hpp"

namespace padwalk::report
{

/// The warmings of an assessment: a list, empty without one.
[[nodiscard]] fields::Tree warmings_tree(assess::Assessment const& a, units::System system);

} // namespace padwalk::report
