#pragma once
/// The plain words of all reports.

#include "padwalk/assess/assessment.hpp"

namespace padwalk::report
{

/// How soon somebody must come.
[[nodiscard]] std::string_view soon_word(assess::Urgency urgency);
[[nodiscard]] std::string_view condition_word(assess::Condition condition);
/// 'an inspector', 'the owner'.
[[nodiscard]] std::string_view walker(visit::By by);

/// '82 %', 'under 1 %', 'over 99 %'.
[[nodiscard]] std::string percent(double probability);
/// 'likely, 82 %'.
[[nodiscard]] std::string chance(double probability);
/// How strongly a finding speaks, by how much it changes the odds.
[[nodiscard]] std::string_view strength_word(double log_odds);

/// What the words for chances and strengths mean.
[[nodiscard]] std::string chance_footnote();
[[nodiscard]] std::string strength_footnote();

/// “grinding noise”
[[nodiscard]] std::string quoted(std::string_view text);

/// A field or figure name in plain words: 'water temperature' for 'water_temperature', 'pH' for 'ph'.
[[nodiscard]] std::string plain_name(std::string_view name);

/// At most so many characters, cut behind a clause where there is one, else behind a word, and marked with '…'.
[[nodiscard]] std::string brief(std::string_view text, std::size_t most);

/// The sentence of each caution id, in order; an id without a sentence is left out.
[[nodiscard]] std::vector<std::string> caution_sentences(assess::Assessment const& a,
                                                         std::vector<std::string> const& ids);

/// 'licensed electrician' for the id of a trade that the assessment refers to, else the id in plain letters; empty for
/// 'none'.
[[nodiscard]] std::string trade_name(assess::Assessment const& a, std::string_view trade);

/// 'motor bearings worn (pump of spa loop)'; the property itself is not named.
[[nodiscard]] std::string at_item(assess::Assessment const& a, std::string_view what, std::size_t item);

} // namespace padwalk::report
