#pragma once
#include "padwalk/assess/assessment.hpp"
#include "padwalk/fields/tree.hpp"

namespace padwalk::report
{

/// Balances and readings of gas heaters, for JSON.
[[nodiscard]] fields::Tree heaters_tree(assess::Assessment const& assessment, units::System system);

} // namespace padwalk::report
