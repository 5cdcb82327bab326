#pragma once
/// JSON out and in. Numbers are written with up to 10 significant digits, in no locale.

#include "padwalk/assess/assessment.hpp"
#include "padwalk/assess/water_sheet.hpp"
#include "padwalk/fields/tree.hpp"

namespace padwalk::report
{

/// The whole assessment. The keys are stable: new ones may be added, none changes its meaning.
///
///     outcome (nothing_found | refer | unsafe), summary, property, on, by, weather, notes, items, alarms, verdicts,
///     causes, referrals, next, figures, limits_broken, loops, levels, fills, heaters,
///     vents, warmings, readings, findings, found, undecided, explained, robustness, asked, questions, assumptions,
///     not_tested, oddities, left_blank, conflict, cautions, sources
///
/// All are always there; lists may be empty. "item", "finding", "causes", "cause" and "alarms" refer to a place in the
/// list of that name, from 0; "cautions" and "sources" are objects by id. A cause's "evidence" has "for" and "against",
/// each with the finding and the natural log of the odds it adds (null: it settles the cause alone). A loop's curves
/// are lists of {"flow", "head"}; what is not known of its "measured" is 0 without "plus_minus". Units are those of
/// `figure_tree`; "plus_minus" is what would be written behind '±'. Bytes that are no UTF-8 become U+FFFD.
[[nodiscard]] std::string as_json(assess::Assessment const& assessment, units::System system);

/// The owner's sheet: {"something_to_do", "waters": [{"name", "item", "doing", "plan", "forecast", "swim"}], "sayings",
/// "assessment": as above}. A plan has "outcome" (nothing_to_do | doses | replace_water | cannot), "answer", "outside",
/// "steps" (each with what, product, amount, before, after …), "replace", "cost", "end"; where there is none,
/// "why_not". A forecast has "days" (each reading with value, low and high) and "exits".
[[nodiscard]] std::string as_json(assess::WaterReport const& report, units::System system);

/// The same as a tree.
[[nodiscard]] fields::Tree assessment_tree(assess::Assessment const& assessment, units::System system);

/// A tree as JSON: on one line without a line end, or indented by two spaces with one.
[[nodiscard]] std::string json_of(fields::Tree const& tree, bool indented);

/// One line of JSON, an object, as the record that a model reads.
///
/// Numbers become texts as they were written, strings become quoted texts, true and false 'yes' and 'no', null
/// nothing. A key that stands twice and nesting deeper than 16 are refused.
///
/// Throws: fields::InputProblems with the column, counted from 1 in bytes
[[nodiscard]] fields::Node node_of_json(std::string_view line);

} // namespace padwalk::report
