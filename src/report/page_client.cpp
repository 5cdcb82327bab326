/// The client's page: what is unsafe, what works and what does not, whom to call, and each item in plain words.

#include "danger_cards.hpp"
#include "document_pages.hpp"
#include "figure_words.hpp"
#include "glossary.hpp"
#include "item_pictures.hpp"
#include "plain.hpp"
#include "wording.hpp"

#include <algorithm>

namespace padwalk::report
{
namespace
{

using assess::Assessment;
using assess::Condition;

constexpr std::size_t most_lines = 4; // what a trade comes for; the rest stands on its own paper
constexpr std::size_t longest_meaning = 120;
constexpr double worth_naming = 0.2; // judgement: below 'possible' a cause only worries a client

constexpr std::array conditions{Condition::unsafe,      Condition::does_not_work, Condition::works_with_fault,
                                Condition::cannot_tell, Condition::works,         Condition::not_tested};

std::string sentence(std::string const& text)
{
    if (text.empty())
        return text;
    return capitalised(text) + (std::string_view(".!?…").find(text.back()) == std::string_view::npos ? "." : "");
}

void add(std::vector<Part>& parts, std::string label, std::vector<std::string> texts, Tone tone = Tone::plain)
{
    texts.erase(std::remove(texts.begin(), texts.end(), std::string()), texts.end());
    if (!texts.empty())
        parts.push_back({std::move(label), std::move(texts), tone, false});
}

std::string_view key_of(Condition condition)
{
    switch (condition)
    {
    case Condition::unsafe: return "stands_unsafe";
    case Condition::does_not_work: return "stands_does_not_work";
    case Condition::works_with_fault: return "stands_works_with_fault";
    case Condition::cannot_tell: return "stands_cannot_tell";
    case Condition::works: return "stands_works";
    case Condition::not_tested: break;
    }
    return "stands_not_tested";
}

// Why nothing is said of an item, as the visit has it.
std::string why_not_tested(Assessment const& a, std::size_t item)
{
    std::vector<std::string> out;
    for (auto const& entry : a.not_tested)
        if (entry.item == item)
            once(out, entry.because);
    return joined(out, "; ", "; ");
}

std::string standing_line(Assessment const& a, assess::Verdict const& verdict)
{
    std::string const& name = a.items.at(verdict.item).name;
    if (verdict.condition == Condition::works)
        return name;
    std::string why = verdict.condition == Condition::not_tested ? why_not_tested(a, verdict.item) : std::string();
    if (why.empty())
        why = verdict.because;
    return name + (why.empty() ? "" : ": " + why);
}

// One row for each state, so that the whole property is seen at a glance; items that work need no reason.
Section standing_section(Assessment const& a, Lexicon const& words)
{
    Section out{"standing", words("standing"), {}};
    Card card;
    for (Condition const condition : conditions)
    {
        std::vector<std::string> lines;
        for (auto const& verdict : a.verdicts)
            if (verdict.condition == condition)
                lines.push_back(standing_line(a, verdict));
        if (condition == Condition::works || condition == Condition::not_tested)
        {
            bool const short_ones = std::all_of(lines.begin(), lines.end(),
                                                [](std::string const& l) { return l.find(": ") == std::string::npos; });
            if (short_ones && !lines.empty())
                lines = {joined(lines)};
        }
        for (auto& line : lines)
            line = capitalised(line);
        add(card.parts, words(key_of(condition)), std::move(lines),
            condition == Condition::unsafe ? Tone::danger : Tone::plain);
    }
    if (!card.parts.empty())
        out.blocks.emplace_back(std::move(card));
    return out;
}

// In the order of a report; a trade is told by what it comes for, its own paper has the rest.
Section client_call_section(Assessment const& a, Lexicon const& words)
{
    Section out{"call", words("call_in_order"), {}};
    for (std::size_t i = 0; i < a.referrals.size(); ++i)
    {
        auto const& referral = a.referrals[i];
        bool const now = referral.urgency == assess::Urgency::stop_use;
        Card card{capitalised(referral.name),
                  std::string(soon_word(referral.urgency)),
                  {},
                  i + 1,
                  now ? Tone::danger : Tone::plain,
                  {}};
        std::vector<std::string> comes;
        for (std::size_t const alarm : referral.alarms)
            once(comes, at_item(a, a.findings.at(a.alarms.at(alarm).finding).name, a.alarms.at(alarm).item));
        for (std::size_t const c : referral.causes)
            if (auto const& cause = a.causes.at(c); cause.probability >= worth_naming)
                once(comes, at_item(a, cause.name, cause.item) + ", " + chance(cause.probability));
        if (comes.empty())
            for (std::size_t const c : referral.causes)
                once(comes,
                     at_item(a, a.causes.at(c).name, a.causes.at(c).item) + ", " + chance(a.causes.at(c).probability));
        if (comes.size() > most_lines + 1)
        {
            std::string const more = std::to_string(comes.size() - most_lines);
            comes.resize(most_lines);
            comes.push_back(words.filled("and_more", more));
        }
        add(card.parts, words("comes_for"), std::move(comes));
        add(card.parts, words("give_them"), {words.filled("give_them_paper", referral.name)}, Tone::quiet);
        out.blocks.emplace_back(std::move(card));
    }
    if (a.referrals.empty())
        out.blocks.emplace_back(Paragraph{words("nobody_to_call")});
    return out;
}

std::vector<std::string> seen_at(Assessment const& a, std::size_t item)
{
    std::vector<std::string> out;
    for (auto const& f : a.findings)
        if (f.item == item && f.state == assess::FindingState::seen && !f.computed)
            once(out, f.name);
    return out;
}

// What was computed of an item and stops its use, with its numbers.
std::vector<std::string> measured_at(Assessment const& a, std::size_t item)
{
    std::vector<std::string> out;
    for (auto const& alarm : a.alarms)
        if (auto const& finding = a.findings.at(alarm.finding); alarm.item == item && finding.computed)
            once(out, capitalised(finding.name) + ": " + brief(without_keys(finding.from), longest_meaning));
    return out;
}

std::vector<std::string> behind(Assessment const& a, std::size_t item)
{
    std::vector<std::string> out;
    for (auto const& cause : a.causes)
        if (cause.item == item && cause.probability >= worth_naming)
            out.push_back(capitalised(cause.name) + ", " + chance(cause.probability) + ". " + sentence(cause.meaning));
    return out;
}

std::vector<std::string> until_then(Assessment const& a, std::size_t item)
{
    std::vector<std::string> out;
    for (auto const& alarm : a.alarms)
        if (alarm.item == item && alarm.urgency != assess::Urgency::stop_use)
            once(out, without_keys(alarm.say));
    for (auto const& cause : a.causes)
        if (cause.item == item && cause.probability >= worth_naming)
            once(out, cause.meanwhile);
    return out;
}

// The first value of those whose meaning was put into words: a number alone says nothing to who is not of the trade,
// and the rest stands in the record.
std::vector<std::string> figures_of(Assessment const& a, std::size_t item, units::System system)
{
    std::vector<std::string> out;
    for (auto const& entry : a.figures)
    {
        if (entry.item != item || !entry.figure.computed() || entry.meaning.empty())
            continue;
        auto const shown = worth_showing(entry.figure);
        auto const value =
            std::find_if(shown.begin(), shown.end(), [](auto const* o) { return o->value && o->shape->measure; });
        std::string const number = value == shown.end() ? std::string() : ": " + output_text(**value, system);
        out.push_back(capitalised(entry.label) + number + ". " +
                      sentence(brief(without_keys(entry.meaning), longest_meaning)));
    }
    return out;
}

Section item_section(assess::WaterReport const& report, assess::Verdict const& verdict, Lexicon const& words,
                     DocumentOptions const& options)
{
    Assessment const& a = report.assessment;
    std::size_t const item = verdict.item;
    auto const& entry = a.items.at(item);
    bool const unsafe = verdict.condition == Condition::unsafe;
    Section out{"item-" + std::to_string(item), capitalised(entry.name), {}};
    Card card{{}, {}, {}, 0, unsafe ? Tone::danger : Tone::plain, {}};
    add(card.parts, words("how_it_stands"), {std::string(condition_word(verdict.condition))},
        unsafe ? Tone::danger : Tone::plain);
    add(card.parts, words("where_it_is"), {entry.where});
    std::string const seen = joined(seen_at(a, item), "; ", "; ");
    add(card.parts, words("what_was_seen"), {seen});
    add(card.parts, words("measured"), measured_at(a, item));
    if (verdict.condition != Condition::works && verdict.because != seen)
        add(card.parts, words("because"), {without_keys(verdict.because)});
    add(card.parts, words("behind_it"), behind(a, item));
    add(card.parts, words("until_then"), until_then(a, item));
    add(card.parts, words("figures_in_words"), figures_of(a, item, options.system));
    std::vector<Block> blocks{std::move(card)};
    for (auto& picture : pictures_of(a, item, options.system))
        blocks.emplace_back(std::move(picture));
    for (auto& picture : water_pictures_of(report, item, options.system))
    {
        picture.caption = without_keys(picture.caption);
        blocks.emplace_back(std::move(picture));
    }
    if (auto photos = photos_of(a, item, options.photos, words))
        blocks.emplace_back(std::move(*photos));
    bool const more_than_its_state = std::get<Card>(blocks.front()).parts.size() > 1 || blocks.size() > 1;
    if (more_than_its_state)
        out.blocks = std::move(blocks);
    return out;
}

// What was not tested beside whole items.
Section untested_section(Assessment const& a, Lexicon const& words)
{
    Section out = not_tested_section(a);
    out.heading = words("not_tested_heading");
    return out;
}

Section property_section(Assessment const& a, Lexicon const& words, DocumentOptions const& options)
{
    Section out{"property", words("the_property"), {}};
    if (!a.notes.empty())
        out.blocks.emplace_back(Paragraph{a.notes});
    if (auto photos = photos_of(a, 0, options.photos, words))
        out.blocks.emplace_back(std::move(*photos));
    return out;
}

// One card for each item, whom to call, and the cautions once.
Section client_danger_section(Assessment const& a, Lexicon const& words, Said& said)
{
    Section out{"danger", words("danger_heading"), {}, Tone::danger};
    if (auto card = danger_words_card(a, words))
        out.blocks.emplace_back(std::move(*card));
    for (auto& card : danger_cards(a, Spoken(a, words), words))
        out.blocks.emplace_back(std::move(card));
    for (auto& card : found_dangers(a, said))
        out.blocks.emplace_back(std::move(card));
    if (out.blocks.empty())
        return out;
    std::vector<std::string> trades, ids;
    auto note = [&](std::string const& trade, std::vector<std::string> const& cautions)
    {
        once(trades, trade_name(a, trade));
        ids.insert(ids.end(), cautions.begin(), cautions.end());
    };
    for (auto const& alarm : a.alarms)
        if (alarm.urgency == assess::Urgency::stop_use)
            note(alarm.trade, alarm.cautions);
    for (auto const& cause : a.causes)
        if (cause.urgency == assess::Urgency::stop_use && cause.hurts_people)
            note(cause.trade, cause.cautions);
    Card all{{}, {}, {}, 0, Tone::danger, {}};
    if (!trades.empty())
        add(all.parts, words("call"), {joined(trades)});
    add(all.parts, words("take_care"), caution_texts(a, ids, words("danger_heading"), said));
    if (!all.parts.empty())
        out.blocks.emplace_back(std::move(all));
    return out;
}

// The same cautions in the other language, for who works on the property.
Section spoken_cautions(Assessment const& a, Lexicon const& spoken)
{
    Section out{"cautions-" + std::string(spoken.code()), spoken("cautions_heading"), {}, Tone::danger};
    Points points;
    for (auto const& alarm : a.alarms)
    {
        auto const& finding = a.findings.at(alarm.finding);
        once(points.texts, capitalised(spoken.said("findings/" + finding.id, finding.name)) + " (" +
                               a.items.at(alarm.item).name + "): " + spoken.said("alarms/" + finding.id, alarm.say));
    }
    for (auto const& [id, say] : a.cautions)
        once(points.texts, spoken.said("cautions/" + id, say));
    if (!points.texts.empty())
        out.blocks.emplace_back(std::move(points));
    return out;
}

} // namespace

Page client_page(assess::WaterReport const& report, Layout const& layout, DocumentOptions const& options)
{
    Assessment const& a = report.assessment;
    Lexicon const& words = layout.words();
    Page page;
    page.kind = "client";
    page.on = a.on;
    page.title = capitalised(a.property.empty() ? words("pool_and_spa") : a.property);
    page.about = {words("client_about")};
    if (std::string const line = about_line(a); !line.empty())
        page.about.push_back(line);
    Said said;
    auto put = [&](Section section)
    {
        if (!section.blocks.empty())
            page.sections.push_back(std::move(section));
    };
    put(client_danger_section(a, words, said));
    if (options.language != Language::english)
        put(spoken_cautions(a, layout.words(options.language)));
    if (page.sections.empty()) // else what matters stands above
        put(answer_section(a));
    put(standing_section(a, words));
    put(client_call_section(a, words));
    for (auto const& verdict : a.verdicts)
        put(item_section(report, verdict, words, options));
    put(property_section(a, words, options));
    put(untested_section(a, words));
    put(glossary_section(page, layout.glossary(), words));
    if (!a.causes.empty())
        page.foot.push_back(chance_footnote());
    page.foot.push_back(words("not_said_to_be_sound"));
    return page;
}

std::string client_html(assess::WaterReport const& report, Layout const& layout, DocumentOptions const& options)
{
    return html_of(client_page(report, layout, options), layout);
}

std::string client_text(assess::WaterReport const& report, Layout const& layout, DocumentOptions const& options,
                        TextOptions const& text)
{
    return text_of(client_page(report, layout, options), text);
}

} // namespace padwalk::report
