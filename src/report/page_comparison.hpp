#pragma once
#include "page.hpp"

#include "padwalk/report/comparison.hpp"

namespace padwalk::report
{

[[nodiscard]] Page comparison_page(ComparedVisits const& visits, units::System system);

/// Readings and figures side by side.
[[nodiscard]] Section readings_compared(assess::Comparison const& c, units::System system);
[[nodiscard]] Section figures_compared(assess::Comparison const& c, units::System system);

/// 'filter gauge (filter of filter loop)'.
[[nodiscard]] std::string of_item(assess::Comparison const& c, std::string_view what, std::size_t item);

} // namespace padwalk::report
