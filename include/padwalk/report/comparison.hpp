#pragma once
/// Two visits of one property side by side, as text, HTML and JSON. Renderers compute nothing.

#include "padwalk/assess/comparison.hpp"
#include "padwalk/fields/tree.hpp"
#include "padwalk/report/layout.hpp"
#include "padwalk/report/text.hpp"

namespace padwalk::report
{

/// A comparison with the two assessments that it was made of.
struct ComparedVisits
{
    assess::Comparison const& comparison;
    assess::Assessment const& earlier;
    assess::Assessment const& later;
};

/// What is unsafe now first; then what is open, new and resolved, causes against what was found, items, readings and
/// figures side by side, findings, what was not tested this time.
[[nodiscard]] std::string as_text(ComparedVisits const& visits, TextOptions const& options = {});
/// One HTML file that stands alone, with the same content.
[[nodiscard]] std::string as_html(ComparedVisits const& visits, units::System system, Layout const& layout);

/// {"left": nothing | something | unsafe, "property", "on": {"then", "now"}, "remarks", "alarms", "open", "new",
/// "resolved", "items", "causes", "other_found", "readings", "figures", "findings", "level_marks"}. "item" refers to a
/// place in "items". A value has "then" and "now" as in an assessment's JSON, null where there is none; "change" has
/// "by" and "plus_minus" in the value's unit and "doubts".
[[nodiscard]] fields::Tree comparison_tree(assess::Comparison const& comparison, units::System system);

} // namespace padwalk::report
