/// The paper for one trade: what is asked of it, and all that makes the visit worth it.

#include "danger_cards.hpp"
#include "found_entries.hpp"
#include "item_pictures.hpp"
#include "plain.hpp"
#include "referral_page.hpp"
#include "wording.hpp"

#include <algorithm>

namespace padwalk::report
{
namespace
{

constexpr std::size_t ruled_lines = 4;

} // namespace

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
    page.place = a_.property;
    page.about.push_back(capitalised(a_.property.empty() ? words_("pool_and_spa") : a_.property));
    if (!a_.on.empty() || a_.by)
        page.about.push_back(words_("walked") + (a_.on.empty() ? "" : " " + a_.on) +
                             (a_.by ? ", " + say_.walker(*a_.by) : "") + ".");
    page.about.push_back(words_("how_soon") + ": " + say_.how_soon(referral_.urgency) + ".");
    for (auto& section :
         {danger(), asked(), care(), where(), seen(), likely(), readings(), figures(), to_do(), found(), pictures()})
        if (!section.blocks.empty())
            page.sections.push_back(section);
    page.foot = {words_("licensed_for") + ": " + say_.licensed_for(referral_) + ".", words_("chances_foot"),
                 words_("referral_foot")};
    return page;
}

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

} // namespace padwalk::report
