#pragma once
#include "padwalk/assess/assessment.hpp"
#include "padwalk/fields/tree.hpp"

namespace padwalk::report
{

/// What a technician found: the list under "found" in the JSON.
[[nodiscard]] fields::Tree found_tree(assess::Assessment const& a);

/// The licence classes that may do it, where the visit names a state: {"classes": [{"name", "seen"}], "note"}.
[[nodiscard]] fields::Tree licences_tree(assess::Referral const& referral);

} // namespace padwalk::report
