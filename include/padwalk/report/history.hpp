#pragma once
/// The log of a folder of visits, as text, HTML and JSON. Renderers compute nothing.

#include "padwalk/assess/history.hpp"
#include "padwalk/fields/tree.hpp"
#include "padwalk/report/layout.hpp"
#include "padwalk/report/text.hpp"

namespace padwalk::report
{

/// What is unsafe first; then for each property its visits, what happened, and each reading and figure over time.
[[nodiscard]] std::string as_text(assess::History const& history, TextOptions const& options = {});
/// One HTML file that stands alone, with a picture for each reading.
[[nodiscard]] std::string as_html(assess::History const& history, units::System system, Layout const& layout);

/// {"properties": [{"property", "unsafe", "visits", "items", "alarms", "series", "events", "remarks"}], "not_read":
/// [{"file", "error"}]}. "visit" and "item" refer to places in "visits" and "items". A series has "label", "figure"
/// (null for a reading), "unit", "values" (each "on", "value", "plus_minus", "visit", "side" of the wanted band),
/// "gaps" (visits), "trend" ("per_day" and "plus_minus", 95 %, in the unit; "shows" where that excludes zero) and
/// "wanted".
[[nodiscard]] fields::Tree history_tree(assess::History const& history, units::System system);

} // namespace padwalk::report
