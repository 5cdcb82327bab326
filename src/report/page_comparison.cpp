/// Two visits side by side: what a technician's return says of what was seen before.

#include "page_comparison.hpp"

#include "plain.hpp"
#include "wording.hpp"

#include <algorithm>

namespace padwalk::report
{
namespace
{

using assess::Standing;

std::string visit_line(std::string_view which, assess::Assessment const& a)
{
    std::string out = std::string(which) + ": " + (a.on.empty() ? "a visit without a date" : a.on);
    return out + (a.by ? ", by " + std::string(walker(*a.by)) : std::string()) + ".";
}

std::string_view standing_word(Standing standing)
{
    switch (standing)
    {
    case Standing::open: return "open";
    case Standing::fresh: return "something new";
    case Standing::resolved: return "resolved";
    case Standing::well: return "no fault seen";
    case Standing::not_told: break;
    }
    return "can't be told";
}

void add(std::vector<Part>& parts, std::string label, std::vector<std::string> texts, Tone tone = Tone::plain)
{
    texts.erase(std::remove(texts.begin(), texts.end(), std::string()), texts.end());
    if (!texts.empty())
        parts.push_back({std::move(label), std::move(texts), tone, false});
}

// What stood at the earlier visit and nobody has seen gone.
void add_left_dangers(Section& out, ComparedVisits const& v, Said& said)
{
    auto const& c = v.comparison;
    for (auto const& alarm : c.alarms)
    {
        if (alarm.state != assess::AlarmNow::not_looked_at || alarm.urgency != assess::Urgency::stop_use)
            continue;
        Card card{capitalised(of_item(c, alarm.name, alarm.item)),
                  "stood at the earlier visit; nobody looked this time, so it stands",
                  {},
                  0,
                  Tone::danger,
                  {}};
        add(card.parts, "At once", {alarm.say}, Tone::danger);
        add(card.parts, "Call", {trade_name(v.earlier, alarm.trade)});
        add(card.parts, "Take care", caution_texts(v.earlier, alarm.cautions, "Danger", said));
        out.blocks.emplace_back(std::move(card));
    }
    std::vector<std::string> others;
    for (auto const& matter : c.open)
    {
        bool const alarmed = std::any_of(c.alarms.begin(), c.alarms.end(),
                                         [&](assess::AlarmCompared const& alarm)
                                         { return alarm.item == matter.item && alarm.name == matter.what; });
        bool const said_now = c.items.at(matter.item).verdict_now &&
                              c.items.at(matter.item).verdict_now->condition == assess::Condition::unsafe;
        if (matter.danger && !alarmed && !said_now)
            others.push_back(capitalised(of_item(c, matter.what, matter.item)) + ": " + matter.why);
    }
    if (others.empty())
        return;
    Card card{"Not safe to use at the earlier visit", "nothing says that it was put right", {}, 0, Tone::danger, {}};
    add(card.parts, "Keep it out of use until a licensed trade has looked", std::move(others), Tone::danger);
    out.blocks.emplace_back(std::move(card));
}

Section danger_left(ComparedVisits const& v, Said& said)
{
    Section out = danger_section(v.later, said);
    add_left_dangers(out, v, said);
    return out;
}

Section remark_section(assess::Comparison const& c)
{
    Section out{"remarks", "Before you read on", {}};
    Points points;
    for (auto const& note : c.notes)
        points.texts.push_back(capitalised(note) + ".");
    if (!points.texts.empty())
        out.blocks.emplace_back(std::move(points));
    return out;
}

std::string counted(std::size_t count, std::string_view what)
{
    return (count == 0 ? std::string("nothing") : std::to_string(count)) + " " + std::string(what);
}

Section answer(assess::Comparison const& c)
{
    Section out{"answer", "In short", {}};
    std::string text = capitalised(counted(c.resolved.size(), "is resolved"));
    if (c.resolved.size() > 1)
        text = std::to_string(c.resolved.size()) + " matters are resolved";
    text +=
        ", " + (c.open.size() > 1 ? std::to_string(c.open.size()) + " are open" : counted(c.open.size(), "is open"));
    text +=
        ", " + (c.fresh.size() > 1 ? std::to_string(c.fresh.size()) + " are new" : counted(c.fresh.size(), "is new"));
    text += ".";
    if (c.left == assess::Left::unsafe)
        text = "It is not safe as it stands: see Danger. " + text;
    std::vector<std::string> confirmed, ruled_out;
    for (auto const& cause : c.causes)
        if (cause.found != assess::FoundAs::not_spoken)
            (cause.found == assess::FoundAs::confirmed ? confirmed : ruled_out)
                .push_back(of_item(c, cause.name, cause.item));
    if (!confirmed.empty())
        text += " Confirmed on site: " + joined(confirmed) + ".";
    if (!ruled_out.empty())
        text += " Ruled out: " + joined(ruled_out) + ".";
    out.blocks.emplace_back(Paragraph{std::move(text)});
    return out;
}

Section matter_section(assess::Comparison const& c)
{
    Section out{"matters", "Open, new, resolved", {}};
    Table table{"What was a fault at either visit", {"what, and where", "how it stands", "why that is said"}, {}, 18};
    auto const rows = [&](std::vector<assess::Matter> const& list, std::string_view word)
    {
        for (auto const& matter : list)
            table.rows.push_back({{capitalised(of_item(c, matter.what, matter.item)), {}},
                                  {std::string(word) + (matter.danger ? ", danger" : ""),
                                   {},
                                   matter.danger ? Tone::danger : Tone::plain},
                                  {matter.why, {}}});
    };
    rows(c.open, "open");
    rows(c.fresh, "new");
    rows(c.resolved, "resolved");
    if (!table.rows.empty())
        out.blocks.emplace_back(std::move(table));
    else
        out.blocks.emplace_back(Paragraph{"No fault was seen at either visit."});
    return out;
}

Section to_call(assess::Assessment const& later)
{
    Section out{"call", "Whom to call now", {}};
    Points points;
    for (auto const& referral : later.referrals)
        points.texts.push_back(capitalised(referral.name) + ": " + std::string(soon_word(referral.urgency)));
    if (points.texts.empty())
        return out;
    out.blocks.emplace_back(std::move(points));
    out.blocks.emplace_back(Paragraph{"What each is asked to do stands in the later visit's own report.", Tone::quiet});
    return out;
}

std::string found_words(assess::CauseCompared const& cause)
{
    switch (cause.found)
    {
    case assess::FoundAs::confirmed:
        return cause.rank_then == 0   ? "confirmed; it was not named then"
               : cause.rank_then == 1 ? "confirmed; named then as the likeliest there"
                                      : "confirmed; named then, no. " + std::to_string(cause.rank_then) + " there";
    case assess::FoundAs::ruled_out: return "looked at, and it was not that";
    case assess::FoundAs::not_spoken: break;
    }
    return "not spoken of";
}

Section causes_compared(assess::Comparison const& c)
{
    Section out{"causes-compared", "Causes, and what was found", {}};
    Table table{"The chance that each visit gives by what was seen, and what was found on site",
                {"cause", "then", "now", "found"},
                {},
                0,
                true};
    auto const said = [](std::string_view when, std::optional<double> chance_of)
    { return std::string(when) + (chance_of ? percent(*chance_of) : std::string("not named")); };
    for (auto const& cause : c.causes)
    {
        Cell name{capitalised(of_item(c, cause.name, cause.item)), {}};
        table.rows.push_back({std::move(name),
                              {said("then ", cause.then), {}},
                              {said("now ", cause.now), {}},
                              {found_words(cause), {}, cause.stops_use ? Tone::danger : Tone::plain}});
    }
    if (!table.rows.empty())
        out.blocks.emplace_back(std::move(table));
    Points other;
    for (auto const& found : c.other)
        other.texts.push_back("Something else was found at " + c.items.at(found.item).name + ": " +
                              quoted(found.words) +
                              (found.meaning == assess::FoundMeaning::unclear
                                   ? "; it may mean more than one cause, see the later visit's questions"
                                   : "; no cause that is known here"));
    if (!other.texts.empty())
        out.blocks.emplace_back(std::move(other));
    return out;
}

std::string verdict_text(std::string_view when, std::optional<std::size_t> there,
                         std::optional<assess::Verdict> const& verdict)
{
    std::string const said = !verdict ? (there ? "nothing was said of it" : "not in the file")
                             : verdict->condition == assess::Condition::works
                                 ? "works"
                                 : std::string(condition_word(verdict->condition));
    return std::string(when) + said;
}

Section items_compared(assess::Comparison const& c)
{
    Section out{"items-compared", "Item by item", {}};
    Table table{"How each stood at the two visits", {"item", "then", "now", "so"}, {}, 0};
    std::vector<std::string> well;
    for (auto const& item : c.items)
    {
        if (!item.verdict_then && !item.verdict_now)
            continue;
        bool const worked = item.verdict_then && item.verdict_then->condition == assess::Condition::works;
        if (item.standing == Standing::well && worked)
        {
            well.push_back(item.name);
            continue;
        }
        bool const unsafe = item.verdict_now && item.verdict_now->condition == assess::Condition::unsafe;
        std::string const so = !item.then  ? "only in the later file"
                               : !item.now ? "only in the earlier file"
                                           : std::string(standing_word(item.standing));
        table.rows.push_back(
            {{item.name, {}},
             {verdict_text("then ", item.then, item.verdict_then), {}},
             {verdict_text("now ", item.now, item.verdict_now), {}, unsafe ? Tone::danger : Tone::plain},
             {so, {}}});
    }
    if (!table.rows.empty())
        out.blocks.emplace_back(std::move(table));
    if (!well.empty())
        out.blocks.emplace_back(Paragraph{
            "Worked then and works now, as far as it was tried: " + joined(well, "; ", "; ") + ".", Tone::quiet});
    return out;
}

std::string state_word(std::optional<assess::FindingState> state)
{
    if (!state)
        return "not looked for";
    switch (*state)
    {
    case assess::FindingState::seen: return "seen";
    case assess::FindingState::not_seen: return "not seen";
    case assess::FindingState::unclear: break;
    }
    return "can't be told";
}

Section findings_compared(assess::Comparison const& c)
{
    Section out{"findings-compared", "What was seen", {}};
    Table table{"Noted or computed at either visit", {"what", "then", "now", "so"}, {}, 0};
    std::vector<std::string> neither;
    for (auto const& f : c.findings)
    {
        bool const seen = f.then == assess::FindingState::seen || f.now == assess::FindingState::seen;
        if (seen)
            table.rows.push_back({{capitalised(of_item(c, f.name, f.item)), {}},
                                  {"then " + state_word(f.then), {}},
                                  {"now " + state_word(f.now), {}},
                                  {std::string(standing_word(f.standing)), {}}});
        else if (f.then && f.now && f.standing == Standing::well)
            neither.push_back(of_item(c, f.name, f.item));
    }
    if (!table.rows.empty())
        out.blocks.emplace_back(std::move(table));
    if (!neither.empty())
        out.blocks.emplace_back(
            Paragraph{"Looked for at both visits and not there: " + joined(neither, "; ", "; ") + ".", Tone::quiet});
    return out;
}

} // namespace

std::string of_item(assess::Comparison const& c, std::string_view what, std::size_t item)
{
    return item == 0 ? std::string(what) : std::string(what) + " (" + c.items.at(item).name + ")";
}

Page comparison_page(ComparedVisits const& v, units::System system)
{
    auto const& c = v.comparison;
    Page page;
    page.kind = "comparison";
    page.on = c.on_now;
    page.title = capitalised(c.property.empty() ? "pool and spa equipment" : c.property) + ": two visits compared";
    page.about = {visit_line("Then", v.earlier), visit_line("Now", v.later)};
    Said said;
    Section not_tested = not_tested_section(v.later);
    not_tested.heading = "Not tested this time, and why";
    for (auto& section : {danger_left(v, said), remark_section(c), answer(c), matter_section(c), to_call(v.later),
                          causes_compared(c), items_compared(c), readings_compared(c, system),
                          figures_compared(c, system), findings_compared(c), not_tested})
        if (!section.blocks.empty())
            page.sections.push_back(section);
    page.foot = {"One doubt is the standard uncertainty of the difference: the root of both doubts squared, each taken "
                 "as independent. Up to two of them two readings agree; chance alone gives more about once in 20. An "
                 "instrument that reads wrong the same way each time is not seen by this.",
                 "What was not looked at is not said to be sound. Local code and the maker's instructions decide."};
    return page;
}

std::string as_text(ComparedVisits const& visits, TextOptions const& options)
{
    return text_of(comparison_page(visits, options.system), options);
}

std::string as_html(ComparedVisits const& visits, units::System system, Layout const& layout)
{
    return html_of(comparison_page(visits, system), layout);
}

} // namespace padwalk::report
