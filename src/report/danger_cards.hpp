#pragma once
/// What is unsafe, told in a minute: one card for each item, and of each alarm what to do at once.

#include "page.hpp"
#include "spoken.hpp"

namespace padwalk::report
{

/// `of_trade`: only what this trade comes for; empty: all.
[[nodiscard]] std::vector<Card> danger_cards(assess::Assessment const& a, Spoken const& say, Lexicon const& words,
                                             std::string_view of_trade = {});

/// Notes that speak of danger and fit nothing that is known; none where there are none.
[[nodiscard]] std::optional<Card> danger_words_card(assess::Assessment const& a, Lexicon const& words);

/// The text without the keys of sources, for who does not look them up.
[[nodiscard]] std::string without_keys(std::string text);

} // namespace padwalk::report
