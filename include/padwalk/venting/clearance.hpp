#pragma once
/// How far a vent's end must stay from openings, walks, ground, meters and roofs: data/venting/clearances.yaml.

#include "padwalk/venting/combustion_air.hpp"

namespace padwalk::venting
{

/// One published least distance.
struct ClearanceRule
{
    std::string id;
    std::string what; ///< what the distance is measured from, and for which vents
    units::Length least{};
    std::string direction; ///< 'upwards', 'downwards', 'sideways' or 'any way' to the vent's end
    std::string note;
    std::string edition; ///< of which text, as far as it was seen
    reference::Cited source;
    static fields::Record<ClearanceRule> const& declaration(); ///< without the id, which is the key
};

/// The rules with a distance, in the order of the file. Throws reference::DataProblems.
[[nodiscard]] std::vector<ClearanceRule> clearance_rules(reference::Data const& data);

/// The rules without one: where a vent may not end or join, how a connector runs. Throws reference::DataProblems.
[[nodiscard]] fields::Named<WordedRule> vent_rules_in_words(reference::Data const& data);

/// Which rule: one enumerator for each id of the table, in its order.
enum class ClearanceId
{
    forced_inlet_above,
    opening_below,
    opening_beside,
    opening_above,
    walkway_above,
    inside_corner,
    meter_beside,
    meter_new_york_city,
    grade_above,
    grade_new_york_city,
    direct_vent_small,
    direct_vent_medium,
    direct_vent_large,
    direct_vent_grade,
    draft_hood_rise,
    roof_to_6_in_12,
    roof_to_7_in_12,
    roof_to_8_in_12,
    roof_to_9_in_12,
    roof_to_10_in_12,
    roof_to_11_in_12,
    roof_to_12_in_12,
    roof_to_14_in_12,
    roof_to_16_in_12,
    roof_to_18_in_12,
    roof_to_20_in_12,
    roof_to_21_in_12,
    roof_other,
    property_line_beside,
    other_vent_beside
};

/// The rule of an id; std::logic_error if the table has none.
[[nodiscard]] ClearanceRule const& rule_of(std::vector<ClearanceRule> const& rules, ClearanceId id);

/// How far a distance falls short of a rule; nothing where it doesn't.
[[nodiscard]] units::Length shortfall(units::Length distance, ClearanceRule const& rule);

} // namespace padwalk::venting

template <> struct padwalk::fields::words_of<padwalk::venting::ClearanceId>
{
    static std::vector<std::string> words();
};
