#pragma once
/// The words for a vent's rules, the same in the table, the drawing and the terminal.

#include "padwalk/assess/assessment.hpp"

namespace padwalk::report
{

/// 'level run', 'beside an opening', 'another vent'.
[[nodiscard]] std::string vent_rule_name(venting::JudgedRule const& rule);

/// 'kept', 'not kept', 'too close to tell', 'not known'.
[[nodiscard]] std::string_view kept_word(venting::Keeps keeps);

/// '9 ft, at most 2.2 ft: 6.8 ft too much', or what was found in words.
[[nodiscard]] std::string vent_rule_found(venting::JudgedRule const& rule, units::System system);

/// What it asks, of which text, by which source, and whether that is from memory.
[[nodiscard]] std::vector<std::string> vent_rule_asks(venting::JudgedRule const& rule, units::System system);

/// A length, share or number without its doubt.
[[nodiscard]] std::string plain_quantity(units::Reading const& reading, units::System system);

/// Those that were judged, broken ones first, then by the order of the run.
[[nodiscard]] std::vector<venting::JudgedRule const*> judged_rules(assess::VentEntry const& vent);

} // namespace padwalk::report
