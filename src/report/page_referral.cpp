/// The paper for one trade: what is asked of it, and all that makes the visit worth it.

#include "danger_cards.hpp"
#include "document_pages.hpp"
#include "figure_words.hpp"
#include "found_entries.hpp"
#include "item_pictures.hpp"
#include "likelihood_drawing.hpp"
#include "plain.hpp"
#include "spoken.hpp"
#include "wording.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace padwalk::report
{
namespace
{

using assess::Assessment;

constexpr double worth_a_line = 0.05; // judgement: a cause less likely than this is named and no more
constexpr std::size_t ruled_lines = 4;
constexpr std::size_t as_written_length = 120;

void add(std::vector<Part>& parts, std::string label, std::vector<std::string> texts, Tone tone = Tone::plain)
{
    texts.erase(std::remove(texts.begin(), texts.end(), std::string()), texts.end());
    if (!texts.empty())
        parts.push_back({std::move(label), std::move(texts), tone, false});
}

void once(std::vector<std::string>& list, std::string text)
{
    if (!text.empty() && std::find(list.begin(), list.end(), text) == list.end())
        list.push_back(std::move(text));
}

// 'noticed: "grinding noise"': the note itself, without how it was taken.
std::string own_words(std::string const& from)
{
    std::size_t const quote = from.find(": \"");
    bool const noted = quote != std::string::npos && from.find(' ') >= quote && from.back() == '"';
    return brief(noted ? from.substr(quote + 2) : from, as_written_length);
}

std::string joined_nonempty(std::string const& a, std::string const& b)
{
    return a + (a.empty() || b.empty() ? "" : "; ") + b;
}

/// What one referral says, section by section.
class ReferralPage
{
public:
    ReferralPage(Assessment const& a, assess::Referral const& referral, Lexicon const& words,
                 DocumentOptions const& options)
        : a_(a), referral_(referral), words_(words), say_(a, words), options_(options)
    {
        for (std::size_t const i : referral.alarms)
            comes_to_.insert(a.alarms.at(i).item);
        for (std::size_t const i : referral.causes)
            comes_to_.insert(a.causes.at(i).item);
        around_ = comes_to_;
        for (std::size_t const item : comes_to_)
            add_around(item);
    }

    [[nodiscard]] Page page() const;

private:
    Assessment const& a_;
    assess::Referral const& referral_;
    Lexicon const& words_;
    Spoken say_;
    DocumentOptions const& options_;
    std::set<std::size_t> comes_to_; ///< items
    std::set<std::size_t> around_;   ///< and those whose readings bear on them: of the same loop, heater or water

    void add_around(std::size_t item)
    {
        auto const group = [](std::string const& path)
        {
            std::size_t const first = path.find('/');
            return first == std::string::npos ? path : path.substr(0, path.find('/', first + 1));
        };
        std::string const own = group(a_.items.at(item).path);
        if (!own.empty())
            for (std::size_t i = 1; i < a_.items.size(); ++i)
                if (group(a_.items[i].path) == own)
                    around_.insert(i);
    }

    [[nodiscard]] Section danger() const;
    [[nodiscard]] Section asked() const;
    void ask_for_alarms(Section& out, std::size_t& number) const;
    [[nodiscard]] Section where() const;
    [[nodiscard]] Section seen() const;
    [[nodiscard]] Section readings() const;
    [[nodiscard]] Section figures() const;
    [[nodiscard]] Section likely() const;
    [[nodiscard]] Section to_do() const;
    [[nodiscard]] Section care() const;
    [[nodiscard]] Section found() const;
    [[nodiscard]] Section pictures() const;
    [[nodiscard]] std::string sign(assess::CauseEntryOf const& cause, std::size_t place) const;
    [[nodiscard]] Drawing bars() const;
    [[nodiscard]] std::vector<std::string> evidence(assess::CauseEntryOf const& cause,
                                                    std::vector<assess::WeightEntry> const& weights) const;
};

Section ReferralPage::danger() const
{
    Section out{"danger", words_("danger_heading"), {}, Tone::danger};
    for (auto& card : danger_cards(a_, say_, words_, referral_.trade))
        out.blocks.emplace_back(std::move(card));
    return out;
}

// What is dangerous or faulty in itself is asked item by item; a cause brings its own words.
void ReferralPage::ask_for_alarms(Section& out, std::size_t& number) const
{
    std::vector<std::pair<std::size_t, std::vector<std::string>>> by_item;
    for (std::size_t const i : referral_.alarms)
    {
        auto const& alarm = a_.alarms.at(i);
        auto const& finding = a_.findings.at(alarm.finding);
        bool const is_cause = std::any_of(
            referral_.causes.begin(), referral_.causes.end(),
            [&](std::size_t c) { return a_.causes.at(c).name == finding.name && a_.causes.at(c).item == alarm.item; });
        if (is_cause)
            continue;
        auto known = std::find_if(by_item.begin(), by_item.end(), [&](auto const& e) { return e.first == alarm.item; });
        if (known == by_item.end())
            known = by_item.insert(by_item.end(), {alarm.item, {}});
        once(known->second, say_.finding(finding));
    }
    for (auto& [item, found] : by_item)
    {
        Card card{capitalised(item == 0 ? words_("the_property") : say_.item(item)), {}, {}, ++number, Tone::plain, {}};
        card.parts.push_back({words_("seen_there"), {joined(found, "; ", "; ")}});
        card.parts.push_back({words_("please"), {words_("put_it_right")}});
        out.blocks.emplace_back(std::move(card));
    }
}

Section ReferralPage::asked() const
{
    Section out{"asked", words_("asked_of_you"), {}};
    std::size_t number = 0;
    std::vector<std::string> less;
    ask_for_alarms(out, number);
    for (std::size_t const i : referral_.causes)
    {
        auto const& cause = a_.causes.at(i);
        std::string const name = say_.at_item(say_.cause(cause), cause.item);
        if (cause.probability < worth_a_line)
        {
            less.push_back(name);
            continue;
        }
        Card card{capitalised(name),
                  say_.chance(cause.probability),
                  {},
                  ++number,
                  cause.hurts_people ? Tone::danger : Tone::plain,
                  {}};
        if (std::string const ask = say_.ask(cause); !ask.empty())
            card.parts.push_back({{}, {ask}});
        out.blocks.emplace_back(std::move(card));
    }
    if (!less.empty())
        out.blocks.emplace_back(
            Paragraph{words_("less_likely_too") + " " + joined(less, "; ", "; ") + ".", Tone::quiet});
    return out;
}

Section ReferralPage::where() const
{
    Section out{"where", words_("where_and_how"), {}};
    Table table{words_("where_caption"), {words_("item"), words_("where_it_is"), words_("to_know")}, {}, 32};
    for (std::size_t const item : comes_to_)
    {
        auto const& entry = a_.items.at(item);
        Cell notes{entry.notes == a_.notes ? "" : entry.notes, {}};
        for (auto const& fill : a_.fills)
            if (fill.item == item && !fill.reach.empty() && words_.language() == Language::english)
                notes.more.push_back(fill.reach);
        if (!entry.where.empty() || !notes.text.empty() || !notes.more.empty())
            table.rows.push_back({{capitalised(say_.item(item)), {}}, {entry.where, {}}, std::move(notes)});
    }
    if (!a_.notes.empty())
        table.rows.push_back({{capitalised(words_("the_property")), {}}, {"", {}}, {a_.notes, {}}});
    if (table.rows.empty())
        out.blocks.emplace_back(Paragraph{words_("where_unknown"), Tone::quiet});
    else
        out.blocks.emplace_back(std::move(table));
    return out;
}

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
        std::string const said = english ? joined_nonempty(words_text(entry), entry.meaning) : std::string();
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
    out.in_words.clear(); // the cards below say it
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

Section ReferralPage::likely() const
{
    Section out{"likely", words_("likely_heading"), {}};
    if (auto drawing = bars(); !drawing.svg.empty())
        out.blocks.emplace_back(std::move(drawing));
    for (std::size_t const i : referral_.causes)
    {
        auto const& cause = a_.causes.at(i);
        if (cause.probability < worth_a_line)
            continue;
        Card card{capitalised(say_.at_item(say_.cause(cause), cause.item)),
                  say_.chance(cause.probability),
                  {},
                  0,
                  Tone::plain,
                  {}};
        add(card.parts, words_("for_it"), {joined(evidence(cause, cause.speaks_for), "; ", "; ")});
        add(card.parts, words_("against_it"), {joined(evidence(cause, cause.speaks_against), "; ", "; ")});
        out.blocks.emplace_back(std::move(card));
    }
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

Section ReferralPage::care() const
{
    Section out{"care", words_("care_heading"), {}};
    Points points;
    auto add_caution = [&](std::string const& id, std::string const& english)
    { once(points.texts, say_.caution(id, english)); };
    for (auto const& id : referral_.cautions)
        for (auto const& [known, sentence] : a_.cautions)
            if (known == id)
                add_caution(id, sentence);
    for (auto const& check : referral_.checks)
        for (auto const& [id, sentence] : check.cautions)
            add_caution(id, sentence);
    if (!points.texts.empty())
        out.blocks.emplace_back(std::move(points));
    return out;
}

Section ReferralPage::found() const
{
    Section out{"what-was-found", words_("found_heading"), {}};
    out.blocks.emplace_back(Paragraph{words_("found_how")});
    Form form;
    for (std::size_t const i : referral_.causes)
    {
        auto const& cause = a_.causes.at(i);
        form.rows.push_back({capitalised(say_.at_item(say_.cause(cause), cause.item)),
                             {words_("it_was"), words_("it_was_not"), words_("not_looked_at")}});
    }
    form.rows.push_back({words_("put_right"), {words_("yes"), words_("no"), words_("in_part")}});
    form.lines = ruled_lines;
    out.blocks.emplace_back(std::move(form));
    std::vector<std::size_t> const items(comes_to_.begin(), comes_to_.end());
    if (std::string const yaml = found_entries(a_, items); !yaml.empty())
    {
        out.blocks.emplace_back(Paragraph{words_("found_back"), Tone::quiet});
        out.blocks.emplace_back(AsWritten{yaml});
    }
    return out;
}

Section ReferralPage::pictures() const
{
    bool const english = words_.language() == Language::english;
    Section out{"pictures", words_("pictures_heading"), {}};
    for (std::size_t const item : around_)
        for (auto& picture : pictures_of(a_, item, options_.system))
        {
            if (!english)
                picture.in_words.clear();
            out.blocks.emplace_back(std::move(picture));
        }
    if (!english && !out.blocks.empty())
        out.blocks.insert(out.blocks.begin(), Paragraph{words_("pictures_in_english"), Tone::quiet});
    for (std::size_t const item : around_)
        if (auto photos = photos_of(a_, item, options_.photos, words_))
            out.blocks.emplace_back(std::move(*photos));
    return out;
}

Page ReferralPage::page() const
{
    Page page;
    page.kind = "referral";
    page.language = words_.code();
    page.on = a_.on;
    page.title = words_.filled("referral_to", say_.trade(referral_));
    page.about.push_back(capitalised(a_.property.empty() ? words_("pool_and_spa") : a_.property));
    if (!a_.on.empty() || a_.by)
        page.about.push_back(words_("walked") + (a_.on.empty() ? "" : " " + a_.on) +
                             (a_.by ? ", " + say_.walker(*a_.by) : "") + ".");
    page.about.push_back(words_("how_soon") + ": " + say_.how_soon(referral_.urgency) + ".");
    for (auto& section :
         {danger(), asked(), care(), where(), seen(), readings(), figures(), likely(), to_do(), found(), pictures()})
        if (!section.blocks.empty())
            page.sections.push_back(section);
    page.foot = {words_("licensed_for") + ": " + say_.licensed_for(referral_) + ".", words_("chances_foot"),
                 words_("referral_foot")};
    return page;
}

} // namespace

Page referral_page(Assessment const& a, std::size_t referral, Layout const& layout, DocumentOptions const& options)
{
    return ReferralPage(a, a.referrals.at(referral), layout.words(options.language), options).page();
}

std::string referral_html(Assessment const& a, std::size_t referral, Layout const& layout,
                          DocumentOptions const& options)
{
    return html_of(referral_page(a, referral, layout, options), layout);
}

std::string referral_text(Assessment const& a, std::size_t referral, Layout const& layout,
                          DocumentOptions const& options, TextOptions const& text)
{
    return text_of(referral_page(a, referral, layout, options), text);
}

std::vector<Document> documents(assess::WaterReport const& report, Layout const& layout, DocumentOptions const& options)
{
    Assessment const& a = report.assessment;
    std::vector<Document> out;
    auto keep = [&](std::string name, Page const& page) {
        out.push_back({std::move(name), page.title, html_of(page, layout)});
    };
    keep("client", client_page(a, layout, options));
    for (std::size_t i = 0; i < a.referrals.size(); ++i)
        keep("refer-" + a.referrals[i].trade, referral_page(a, i, layout, options));
    if (!report.waters.empty())
        keep("owner", water_page(report, options.system));
    keep("record", page_of(a, options.system));
    return out;
}

} // namespace padwalk::report
