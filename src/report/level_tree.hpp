#pragma once
#include "padwalk/assess/assessment.hpp"
#include "padwalk/fields/tree.hpp"

namespace padwalk::report
{

/// Levels that were watched, for JSON.
[[nodiscard]] fields::Tree fills_tree(assess::Assessment const& assessment, units::System system);
[[nodiscard]] fields::Tree levels_tree(assess::Assessment const& assessment, units::System system);

} // namespace padwalk::report
