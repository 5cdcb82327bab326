#pragma once
/// What technicians found over many visits, and the numbers that it would change: to be looked over, never applied.

#include "padwalk/assess/tuning.hpp"
#include "padwalk/fields/tree.hpp"

namespace padwalk::report
{

/// {"about": [sentences], "visits": {…}, "scores": {…}, "base_rates": [{"cause", "name", "old", "new", "low", "high",
/// "outside", "counts", "would_change"}], "link_weights": [the same with "finding" and "finding_name"], "not_read":
/// [{"file", "error"}]}. Chances have three significant digits.
[[nodiscard]] fields::Tree tuning_tree(assess::TuningProposal const& proposal);

/// The same as a YAML file, "about" as a comment at its head.
[[nodiscard]] std::string tuning_yaml(assess::TuningProposal const& proposal);

} // namespace padwalk::report
