#pragma once
/// What holds a flue from the heater to its end, and the pit it may stand in: data/venting/vent_rules.yaml, and each
/// rule held against what was found.

#include "padwalk/venting/clearance.hpp"
#include "padwalk/venting/flue_flow.hpp"

#include "padwalk/units/reading.hpp"

namespace padwalk::venting
{

/// Kinds of vent pipe.
enum class PipeKind
{
    single_wall,
    double_wall,
    stainless,
    plastic,
    masonry,
    masonry_lined,
    flexible,
    other
};

/// Vent category by pressure and condensing.
enum class Category
{
    I,   ///< no pressure, dry
    II,  ///< no pressure, may condense
    III, ///< pressure, dry
    IV   ///< pressure, may condense
};

} // namespace padwalk::venting

template <> struct padwalk::fields::words_of<padwalk::venting::PipeKind>
{
    static std::vector<std::string> words()
    {
        return {"single_wall", "double_wall", "stainless", "plastic", "masonry", "masonry_lined", "flexible", "other"};
    }
};
template <> struct padwalk::fields::words_of<padwalk::venting::Category>
{
    static std::vector<std::string> words() { return {"I", "II", "III", "IV"}; }
};

namespace padwalk::venting
{

/// One rule of a run or a pit; at most one of the figures is there.
struct VentRule
{
    std::string asks;
    std::string edition; ///< of which text, as far as it was seen
    std::optional<units::Length> length;
    std::optional<units::Fraction> share;
    std::optional<units::Number> number;
    reference::Cited source;
    static fields::Record<VentRule> const& declaration();
};

/// What a kind of pipe bears.
struct PipeRule
{
    PipeKind kind = PipeKind::single_wall;
    std::vector<Category> categories;
    std::string note;
    reference::Cited source;
    static fields::Record<PipeRule> const& declaration();
};

struct VentRules
{
    fields::Named<VentRule> rules;
    std::vector<PipeRule> pipes; ///< one for each PipeKind but other
    fields::Named<reference::Source> sources;
    std::vector<ClearanceRule> clearances;                 ///< of data/venting/clearances.yaml
    static fields::Record<VentRules> const& declaration(); ///< without the clearances

    [[nodiscard]] VentRule const& rule(std::string_view id) const; ///< std::logic_error if the data has none
    [[nodiscard]] PipeRule const* pipe(PipeKind kind) const;       ///< none for other
};

/// Both files. Throws reference::DataProblems.
[[nodiscard]] VentRules vent_rules(reference::Data const& data);

/// Whether the gas may condense, by efficiency: above 83 % of combustion efficiency.
///
/// Source:   [chimney-science-trade-article-2]
[[nodiscard]] bool condenses(units::Fraction efficiency, VentRules const& rules);

/// The category of a pressure at the outlet and of condensing.
///
/// Source:   [ifgc-vent-categories-as-quoted]
[[nodiscard]] Category category_of(bool under_pressure, bool may_condense);

/// The least height of a vent's end above a roof: by the table for a vent not over 12 in, with a listed cap and 8 ft
/// or more from a wall, else the rule of 2 ft above anything within 10 ft. None for a slope beyond the table.
///
/// Source:   [irc-2018-roof-table-web-copy]
[[nodiscard]] ClearanceRule const* roof_rule(units::Number rise_in_12, bool by_table, VentRules const& rules);

template <class Q> using Found = std::optional<units::Measured<Q>>;

/// A vent and its pit as found. What is not there was not looked at, and counts for nothing.
struct VentAsFound
{
    std::optional<MovedBy> moved_by;
    std::vector<PipeKind> pipes;
    std::optional<Category> category; ///< on the plate
    Found<units::Fraction> efficiency;
    Found<units::GaugePressure> outlet_pressure;
    Found<units::Length> height, run, bore, outlet_bore;
    Found<units::Number> elbows_90, elbows_60, elbows_45;
    Found<units::Fraction> slope;
    std::optional<bool> buried, enclosed, under_deck, capped;
    Found<units::Length> combustibles;
    Found<units::Number> roof_slope;
    Found<units::Length> above_roof, from_wall;
    fields::Named<units::Measured<units::Length>> distances; ///< by id of a clearance

    bool in_pit = false;
    bool propane = false;
    std::optional<bool> gas_way_out, person_way_out, shut_lid, holds_water;
    Found<units::Length> service_space;
};

enum class Keeps
{
    holds,
    fails,
    too_close, ///< nearer to the rule than the doubt of what was measured
    not_known
};

/// One rule against what was found.
struct JudgedRule
{
    std::string id; ///< of vent_rules.yaml or clearances.yaml
    std::string asks;
    std::string edition;
    std::string where; ///< 'upwards', 'sideways' … for a distance from the end
    std::string note;
    reference::Cited source;
    Keeps keeps = Keeps::not_known;
    std::string found; ///< in words where it is no quantity, or what would have to be known
    std::optional<units::Reading> measured;
    std::optional<units::Reading> limit;
    std::optional<units::Reading> margin; ///< what is over; negative: what is missing
    [[nodiscard]] bool from_memory() const { return source.seen == reference::Seen::memory; }
};

/// Every rule that this vent and pit are asked by, in the order of the run: pipe, run, end, pit.
///
/// Valid:    gas heaters; rules as their copies give them; the maker's instructions and local code rule
[[nodiscard]] std::vector<JudgedRule> judge(VentAsFound const& found, VentRules const& rules);

} // namespace padwalk::venting

template <> struct padwalk::fields::words_of<padwalk::venting::Keeps>
{
    static std::vector<std::string> words() { return {"holds", "fails", "too close to tell", "not known"}; }
};
