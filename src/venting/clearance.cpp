#include "padwalk/venting/clearance.hpp"

#include <stdexcept>

namespace padwalk::venting
{

using fields::Record;

namespace
{

struct ClearanceTable
{
    fields::Named<ClearanceRule> clearances;
    fields::Named<WordedRule> also;
    fields::Named<reference::Source> sources;
    static Record<ClearanceTable> const& declaration()
    {
        static Record<ClearanceTable> const record =
            Record<ClearanceTable>("clearances", "distances from a vent's end")
                .field("clearances", &ClearanceTable::clearances, "least distances, by id")
                .required()
                .field("also", &ClearanceTable::also, "rules without a distance")
                .field("sources", &ClearanceTable::sources, "works cited");
        return record;
    }
};

ClearanceTable table_of(reference::Data const& data)
{
    return reference::read_table<ClearanceTable>(data, "venting/clearances.yaml");
}

} // namespace

Record<ClearanceRule> const& ClearanceRule::declaration()
{
    static Record<ClearanceRule> const record =
        Record<ClearanceRule>("clearance", "one published least distance")
            .field("what", &ClearanceRule::what, "measured from what, for which vents")
            .required()
            .field("least", &ClearanceRule::least, "least distance")
            .required()
            .field("direction", &ClearanceRule::direction, "which way")
            .required()
            .field("note", &ClearanceRule::note, "what else to know")
            .field("edition", &ClearanceRule::edition, "of which text")
            .field("source", &ClearanceRule::source, "where it comes from")
            .required();
    return record;
}

std::vector<ClearanceRule> clearance_rules(reference::Data const& data)
{
    std::vector<ClearanceRule> out;
    for (auto const& [id, row] : table_of(data).clearances)
    {
        out.push_back(row);
        out.back().id = id;
    }
    return out;
}

fields::Named<WordedRule> vent_rules_in_words(reference::Data const& data)
{
    return table_of(data).also;
}

ClearanceRule const& rule_of(std::vector<ClearanceRule> const& rules, ClearanceId id)
{
    std::string const word = fields::words_of<ClearanceId>::words()[static_cast<std::size_t>(id)];
    for (auto const& rule : rules)
        if (rule.id == word)
            return rule;
    throw std::logic_error("venting/clearances.yaml has no rule '" + word + "'");
}

units::Length shortfall(units::Length distance, ClearanceRule const& rule)
{
    double const rounding = 1e-9; // 15 in must pass a rule of 1.25 ft
    return distance < rule.least * (1 - rounding) ? rule.least - distance : units::Length{};
}

} // namespace padwalk::venting

std::vector<std::string> padwalk::fields::words_of<padwalk::venting::ClearanceId>::words()
{
    return {"forced_inlet_above",   "opening_below",       "opening_beside",    "opening_above",
            "walkway_above",        "inside_corner",       "meter_beside",      "meter_new_york_city",
            "grade_above",          "grade_new_york_city", "direct_vent_small", "direct_vent_medium",
            "direct_vent_large",    "direct_vent_grade",   "draft_hood_rise",   "roof_to_6_in_12",
            "roof_to_7_in_12",      "roof_to_8_in_12",     "roof_to_9_in_12",   "roof_to_10_in_12",
            "roof_to_11_in_12",     "roof_to_12_in_12",    "roof_to_14_in_12",  "roof_to_16_in_12",
            "roof_to_18_in_12",     "roof_to_20_in_12",    "roof_to_21_in_12",  "roof_other",
            "property_line_beside", "other_vent_beside"};
}
