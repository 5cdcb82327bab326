#include "model_groups.hpp"

namespace padwalk::venting
{
namespace
{

using fields::Record;

struct AirInput
{
    units::Power input{};
    AirSource source = AirSource::outdoors_direct;
    Louvre louvre = Louvre::none;
    std::optional<units::Volume> room_volume;
    std::optional<units::Volume> joined_volume;
    std::optional<units::Area> high_opening;
    std::optional<units::Area> low_opening;
    std::optional<units::Area> vent_connector_area;
    std::optional<units::Number> air_changes;
    MovedBy moved_by = MovedBy::draft_hood;
    static Record<AirInput> const& declaration()
    {
        static Record<AirInput> const record =
            Record<AirInput>("combustion_air", "air for the burners in a room or vault")
                .field("input", &AirInput::input, "input of all fuel appliances in the room together")
                .required()
                .within("1 kBtu/h", "5000 kBtu/h")
                .field("source", &AirInput::source, "where the air comes from")
                .required()
                .field("louvre", &AirInput::louvre, "what stands in the openings")
                .otherwise("none", "nothing said: an open hole, the kindest case")
                .field("room_volume", &AirInput::room_volume, "the heater's room alone")
                .within("1 ft3", "10000000 ft3")
                .like("1200 ft3")
                .field("joined_volume", &AirInput::joined_volume, "that room with the rooms its openings join to it")
                .within("1 ft3", "10000000 ft3")
                .like("9000 ft3")
                .field("high_opening", &AirInput::high_opening,
                       "the opening near the top, across its frame; 0 if there is none")
                .within("0 in2", "100000 in2")
                .like("150 in2")
                .field("low_opening", &AirInput::low_opening,
                       "the opening near the bottom, across its frame; 0 if there is none")
                .within("0 in2", "100000 in2")
                .like("150 in2")
                .field("vent_connector_area", &AirInput::vent_connector_area,
                       "all vent connectors of the room together, for one high opening")
                .within("0 in2", "10000 in2")
                .like("50 in2")
                .field("air_changes", &AirInput::air_changes,
                       "air changes of the building in an hour, if they were measured")
                .within("0", "20")
                .like("0.4")
                .field("moved_by", &AirInput::moved_by, "what moves the flue gas, for the air changes")
                .otherwise("draft_hood", "it needs more room than a fan does");
        return record;
    }
};

struct AirOutput
{
    units::Volume volume_needed{};
    std::optional<units::Volume> volume_by_air_changes;
    units::Area opening_needed{};
    units::Area gross_needed{};
    std::string verdict;
    std::string in_words;
    static Record<AirOutput> const& declaration()
    {
        static Record<AirOutput> const record =
            Record<AirOutput>("combustion_air", "air for the burners in a room or vault")
                .field("volume_needed", &AirOutput::volume_needed, "room that would do without openings")
                .shown_in("ft3", "m3")
                .field("volume_by_air_changes", &AirOutput::volume_by_air_changes,
                       "the same by the measured air changes, from memory; it decides nothing here")
                .shown_in("ft3", "m3")
                .field("opening_needed", &AirOutput::opening_needed, "free area of each opening")
                .shown_in("in2", "cm2")
                .field("gross_needed", &AirOutput::gross_needed, "area of each opening across its frame")
                .shown_in("in2", "cm2")
                .field("verdict", &AirOutput::verdict, "enough, short or cannot tell")
                .field("in_words", &AirOutput::in_words, "why");
        return record;
    }
};

AirOutput air_of(AirInput const& in, CombustionAirRules const& rules)
{
    auto found = judge({in.input, in.source, in.louvre, in.room_volume, in.joined_volume, in.high_opening,
                        in.low_opening, in.vent_connector_area},
                       rules);
    AirOutput out{found.volume_needed,      std::nullopt,
                  found.opening_needed,     found.gross_needed,
                  std::move(found.verdict), std::move(found.in_words)};
    if (in.air_changes)
        out.volume_by_air_changes =
            volume_needed(in.input, *in.air_changes, in.moved_by == MovedBy::fan || in.moved_by == MovedBy::direct,
                          rules.air_changes);
    return out;
}

struct ClearanceInput
{
    ClearanceId what = ClearanceId::forced_inlet_above;
    units::Length distance{};
    static Record<ClearanceInput> const& declaration()
    {
        static Record<ClearanceInput> const record =
            Record<ClearanceInput>("vent_clearance", "a distance from a vent's end against its published rule")
                .field("what", &ClearanceInput::what, "which rule")
                .required()
                .field("distance", &ClearanceInput::distance, "as measured")
                .required()
                .within("0 in", "200 ft")
                .like("30 in");
        return record;
    }
};

struct ClearanceOutput
{
    units::Length least{};
    units::Length shortfall{};
    std::string in_words;
    static Record<ClearanceOutput> const& declaration()
    {
        static Record<ClearanceOutput> const record =
            Record<ClearanceOutput>("vent_clearance", "a distance from a vent's end against its published rule")
                .field("least", &ClearanceOutput::least, "least distance of the rule")
                .shown_in("in", "cm")
                .field("shortfall", &ClearanceOutput::shortfall, "missing from it; 0 where it is kept")
                .shown_in("in", "cm")
                .field("in_words", &ClearanceOutput::in_words, "the rule, and whether it is kept");
        return record;
    }
};

ClearanceOutput clearance_of(ClearanceInput const& in, std::vector<ClearanceRule> const& rules)
{
    ClearanceRule const& rule = rule_of(rules, in.what);
    auto const missing = shortfall(in.distance, rule);
    std::string words = units::in_si(missing) > 0 ? "too near: from " : "far enough by this rule: from ";
    words += rule.what + ", " + rule.direction + " to the vent's end";
    if (!rule.note.empty())
        words += " (" + rule.note + ")";
    return {rule.least, missing, std::move(words)};
}

figures::Model combustion_air_model(CombustionAirRules const& air)
{
    return figures::model<AirInput, AirOutput>(
        {.name = "combustion_air",
         .title = "air for the burners in a room or vault",
         .equation = "room = 50 ft³ per 1000 Btu/h; free area of each opening = 1 in² per 4000 (outdoors, direct "
                     "or vertical ducts), 2000 "
                     "(horizontal ducts), 3000 (one high) or 1000 Btu/h (indoors, at least 100 in²); across the "
                     "frame = free / free share",
         .valid = "gas burners that take air from the room, ordinary buildings (a tight one needs more); openings "
                  "begin within 12 in of top "
                  "and bottom, no side under 3 in, ducts level or rising; a vault needs ducts to outdoors; free "
                  "shares of 75 % (metal) and "
                  "25 % (wood) are for unmarked louvres, 81 % (quarter-inch mesh) is judgement; appliances that "
                  "draw air by a pipe from "
                  "outdoors are not counted" +
                  std::string(rules_decide),
         .sources = {"irc-m1703-2-web-copy", "nyc-mechanical-804-2", "venting-code-check-summary",
                     "venting-manuals-quoting-fuel-gas-code", "judgement"},
         .cautions = {"carbon_monoxide"}},
        [air](AirInput const& in) { return air_of(in, air); });
}

figures::Model vent_clearance_model(std::vector<ClearanceRule> const& clearances)
{
    return figures::model<ClearanceInput, ClearanceOutput>(
        {.name = "vent_clearance",
         .title = "a distance from a vent's end against its published rule",
         .equation = "shortfall = least distance - distance, where that is above zero",
         .valid = "gas vents; rules as quoted copies give them, each for the kind of vent it names; one rule kept "
                  "doesn't clear the others" +
                  std::string(rules_decide),
         .sources = {"nyc-mechanical-804-2", "ifgc-503-8-as-quoted", "irc-2018-roof-table-web-copy",
                     "venting-manuals-quoting-fuel-gas-code", "venting-code-check-summary", "venting-upc-2021-509-8-2",
                     "venting-roof-rule-summaries", "venting-ifgc-503-8-memory"},
         .cautions = {"carbon_monoxide"}},
        [clearances](ClearanceInput const& in) { return clearance_of(in, clearances); });
}

} // namespace

std::vector<figures::Model> room_models(CombustionAirRules const& air, std::vector<ClearanceRule> const& clearances)
{
    return {combustion_air_model(air), vent_clearance_model(clearances)};
}

} // namespace padwalk::venting
