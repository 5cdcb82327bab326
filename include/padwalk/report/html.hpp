#pragma once
/// An assessment as one HTML file.

#include "padwalk/assess/assessment.hpp"
#include "padwalk/assess/water_sheet.hpp"
#include "padwalk/report/layout.hpp"

namespace padwalk::report
{

/// One file that stands alone: no script, nothing fetched, readable on a phone and on paper, light and dark. The
/// content and its order are those of `as_text`. Every text of the visit is escaped.
[[nodiscard]] std::string as_html(assess::Assessment const& assessment, units::System system, Layout const& layout);
[[nodiscard]] std::string as_html(assess::WaterReport const& report, units::System system, Layout const& layout);

} // namespace padwalk::report
