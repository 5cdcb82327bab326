/// What a referral rests on: what was seen and read, what is likely and why, what is worth doing.

#include "figure_words.hpp"
#include "likelihood_drawing.hpp"
#include "plain.hpp"
#include "referral_page.hpp"
#include "wording.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::report
{
namespace
{

constexpr std::size_t as_written_length = 120;
constexpr std::size_t said_length = 200;    // of a figure; the record has all of it
constexpr std::size_t shown_by_picture = 4; // causes that a picture holds with their signs

// 'noticed: "grinding noise"': the note itself, without how it was taken.
std::string own_words(std::string const& from)
{
    std::size_t const quote = from.find(": \"");
    bool const noted = quote != std::string::npos && from.find(' ') >= quote && from.back() == '"';
    return brief(noted ? from.substr(quote + 2) : from, as_written_length);
}

} // namespace

// What is there in a table, with the words in which it was written; what was looked for in vain in one line.
Section ReferralPage::seen() const
{
    Section out{"seen", words_("seen_heading"), {}};
    Table table{words_("seen_caption"), {words_("finding"), words_("item"), words_("as_written")}, {}, 28};
    std::vector<std::string> in_vain;
    for (auto const& finding : a_.findings)
    {
        bool const bears = around_.contains(finding.item) && !finding.computed;
        if (!bears)
            continue;
        std::string const name = say_.finding(finding);
        if (finding.state == assess::FindingState::not_seen)
            once(in_vain, say_.at_item(name, finding.item));
        else
            table.rows.push_back(
                {{capitalised(name), {}}, {say_.item(finding.item), {}}, {own_words(finding.from), {}, Tone::quiet}});
    }
    if (!table.rows.empty())
        out.blocks.emplace_back(std::move(table));
    if (!in_vain.empty())
    {
        Card card;
        card.parts.push_back({capitalised(words_("not_there")), {joined(in_vain, "; ", "; ")}});
        out.blocks.emplace_back(std::move(card));
    }
    return out;
}

// What an instrument gave, with its doubt; what was only written down stands by item below it.
Section ReferralPage::readings() const
{
    Section out{"readings", words_("readings_heading"), {}};
    bool const timed = std::any_of(a_.readings.begin(), a_.readings.end(),
                                   [&](auto const& t) { return around_.contains(t.item) && !t.when.empty(); });
    Table table{words_("readings_caption"), {words_("reading"), words_("value"), words_("instrument")}, {}, 0, true};
    if (timed)
        table.heads.push_back(words_("when"));
    Table there{words_("as_found_caption"), {words_("item"), words_("as_found")}, {}, 0, true};
    for (std::size_t const item : around_)
    {
        std::vector<std::string> in_words;
        for (auto const& taken : a_.readings)
        {
            if (taken.item != item)
                continue;
            std::string const value = say_.reading_value(taken, options_.system);
            if (!taken.words.empty())
            {
                in_words.push_back(say_.reading(taken) + ": " + value);
                continue;
            }
            std::vector<Cell> row{
                {capitalised(say_.reading(taken)), {say_.item(item)}}, {value, {}}, {say_.instrument(taken), {}}};
            if (timed)
                row.push_back({taken.when, {}, Tone::quiet});
            table.rows.push_back(std::move(row));
        }
        if (!in_words.empty())
            there.rows.push_back({{capitalised(say_.item(item)), {}}, {joined(in_words, "; ", "; "), {}}});
    }
    if (!table.rows.empty())
    {
        if (!a_.on.empty())
            out.blocks.emplace_back(Paragraph{words_.filled("readings_taken", a_.on), Tone::quiet});
        out.blocks.emplace_back(std::move(table));
    }
    if (!there.rows.empty())
        out.blocks.emplace_back(std::move(there));
    return out;
}

Section ReferralPage::figures() const
{
    Section out{"figures", words_("figures_heading"), {}};
    bool const english = words_.language() == Language::english;
    Table table{words_("figures_caption"), {words_("figure"), words_("value")}, {}, english ? 30 : 0, true};
    if (english)
        table.heads.push_back(words_("meaning"));
    for (auto const& entry : a_.figures)
    {
        if (!around_.contains(entry.item) || !entry.figure.computed())
            continue;
        std::string const values = say_.figure_values(entry, options_.system);
        std::string const said =
            english ? brief(entry.meaning.empty() ? words_text(entry) : entry.meaning, said_length) : std::string();
        if (values.empty() && said.empty())
            continue;
        std::vector<Cell> row{{capitalised(say_.figure(entry)), {}}, {values, {}}};
        if (english)
            row.push_back({said, {}});
        table.rows.push_back(std::move(row));
    }
    if (!table.rows.empty())
        out.blocks.emplace_back(std::move(table));
    return out;
}

std::string ReferralPage::sign(assess::CauseEntryOf const& cause, std::size_t place) const
{
    auto const& finding = a_.findings.at(place);
    std::string text = say_.finding(finding);
    if (finding.item != cause.item)
        text = say_.at_item(text, finding.item);
    if (finding.state == assess::FindingState::not_seen)
        text += " – " + words_(finding.computed ? "not_so" : "not_there");
    return text;
}

Drawing ReferralPage::bars() const
{
    std::vector<CauseBar> causes;
    for (std::size_t const i : referral_.causes)
    {
        auto const& cause = a_.causes.at(i);
        if (cause.probability < worth_a_line)
            continue;
        CauseBar bar{capitalised(say_.at_item(say_.cause(cause), cause.item)),
                     say_.chance(cause.probability),
                     cause.probability,
                     {},
                     {}};
        for (auto const& weight : cause.speaks_for)
            bar.for_it.push_back({sign(cause, weight.finding), weight.log_odds});
        for (auto const& weight : cause.speaks_against)
            bar.against_it.push_back({sign(cause, weight.finding), weight.log_odds});
        causes.push_back(std::move(bar));
    }
    LikelihoodWords const words{words_("bars_title"),   words_("bars_against"), words_("bars_for"),
                                words_("for_it"),       words_("against_it"),   words_("bars_nothing"),
                                words_("bars_caption"), words_("bars_cut")};
    auto out = likelihood_drawing(causes, "likely-bars", words);
    out.in_words.clear();
    return out;
}

std::vector<std::string> ReferralPage::evidence(assess::CauseEntryOf const& cause,
                                                std::vector<assess::WeightEntry> const& weights) const
{
    std::vector<std::string> out;
    for (auto const& weight : weights)
    {
        std::string text = sign(cause, weight.finding);
        if (a_.findings.at(weight.finding).computed)
            text += " (" + words_("computed") + ")";
        out.push_back(std::move(text));
    }
    return out;
}

std::vector<std::string> ReferralPage::reasons(assess::CauseEntryOf const& cause) const
{
    std::vector<std::string> out;
    for (auto const& [label, weights] :
         {std::pair{"for_it", &cause.speaks_for}, std::pair{"against_it", &cause.speaks_against}})
        if (auto const signs = evidence(cause, *weights); !signs.empty())
            out.push_back(words_(label) + ": " + joined(signs, "; ", "; "));
    return out;
}

// The picture says it all where it has room; else, and where there are no pictures, it is said in words.
Section ReferralPage::likely() const
{
    Section out{"likely", words_("likely_heading"), {}};
    auto drawing = bars();
    std::vector<Block> cards;
    for (std::size_t const i : referral_.causes)
    {
        auto const& cause = a_.causes.at(i);
        if (cause.probability < worth_a_line)
            continue;
        std::string const name = capitalised(say_.at_item(say_.cause(cause), cause.item));
        Card card{name, say_.chance(cause.probability), {}, 0, Tone::plain, {}};
        std::string line = name + ", " + say_.chance(cause.probability);
        for (auto& reason : reasons(cause))
        {
            line += ". " + reason;
            card.parts.push_back({{}, {std::move(reason)}});
        }
        cards.emplace_back(std::move(card));
        drawing.in_words.push_back(line + ".");
    }
    bool const in_words_too = cards.size() > shown_by_picture;
    if (in_words_too)
        drawing.in_words.clear();
    if (!drawing.svg.empty())
        out.blocks.emplace_back(std::move(drawing));
    if (in_words_too)
        out.blocks.insert(out.blocks.end(), cards.begin(), cards.end());
    return out;
}

Section ReferralPage::to_do() const
{
    Section out{"not-done", words_("not_done_heading"), {}};
    Points open;
    for (auto const& entry : a_.not_tested)
        if (around_.contains(entry.item) || entry.item == 0)
            once(open.texts, capitalised(say_.at_item(entry.what, entry.item)) + ": " + entry.because);
    if (!open.texts.empty())
    {
        out.blocks.emplace_back(Paragraph{words_("not_tested_by_us")});
        out.blocks.emplace_back(std::move(open));
    }
    std::size_t number = 0;
    std::vector<std::string> bring;
    for (auto const& check : referral_.checks)
    {
        std::string const minutes = std::to_string(std::lround(std::ceil(check.minutes))) + "\u00a0min";
        Card card{capitalised(say_.at_item(say_.check(check), check.item)),
                  words_.filled("about_minutes", minutes),
                  {},
                  ++number,
                  Tone::plain,
                  {}};
        card.tick = words_("tick_done");
        once(bring, say_.needs(check));
        out.blocks.emplace_back(std::move(card));
    }
    if (!bring.empty())
    {
        Card card{words_("bring"), {}, {}, 0, Tone::plain, {}};
        card.parts.push_back({{}, std::move(bring)});
        out.blocks.emplace_back(std::move(card));
    }
    return out;
}

} // namespace padwalk::report
