#include "page.hpp"

#include "plain.hpp"
#include "wording.hpp"

#include <algorithm>

namespace padwalk::report
{
namespace
{

constexpr double worth_a_line = 0.05; // judgement: a cause less likely than this is named and no more

void add(std::vector<Part>& parts, std::string label, std::vector<std::string> texts, Tone tone = Tone::plain,
         bool runs_on = false)
{
    texts.erase(std::remove(texts.begin(), texts.end(), std::string()), texts.end());
    if (!texts.empty())
        parts.push_back({std::move(label), std::move(texts), tone, runs_on});
}

// Causes for which use is stopped, though nothing dangerous itself was seen.
std::vector<std::size_t> dangerous_causes(assess::Assessment const& a)
{
    std::vector<std::size_t> out;
    for (auto const& referral : a.referrals)
        for (std::size_t const c : referral.causes)
            if (referral.urgency == assess::Urgency::stop_use && a.causes.at(c).urgency == assess::Urgency::stop_use &&
                a.causes.at(c).hurts_people && std::find(out.begin(), out.end(), c) == out.end())
                out.push_back(c);
    return out;
}

std::string alarm_evidence(assess::FindingEntryOf const& finding)
{
    if (finding.from.empty())
        return {};
    return finding.computed ? "computed: " + finding.from : finding.from;
}

std::string closed_waters(assess::Assessment const& a, assess::Alarm const& alarm)
{
    std::vector<std::string> names;
    for (std::size_t const water : alarm.closes)
        names.push_back(a.items.at(water).name);
    return joined(names);
}

/// What a trade comes for, by item, so that each item is named once.
class ByItem
{
public:
    void add(std::size_t item, std::string text)
    {
        auto const known = std::find_if(list_.begin(), list_.end(), [&](auto const& e) { return e.first == item; });
        if (known == list_.end())
            list_.push_back({item, {std::move(text)}});
        else if (std::find(known->second.begin(), known->second.end(), text) == known->second.end())
            known->second.push_back(std::move(text));
    }
    [[nodiscard]] std::vector<std::string> lines(assess::Assessment const& a) const
    {
        std::vector<std::string> out;
        for (auto const& entry : list_)
            out.push_back((entry.first == 0 ? "" : a.items.at(entry.first).name + ": ") +
                          joined(entry.second, "; ", "; "));
        return out;
    }

private:
    std::vector<std::pair<std::size_t, std::vector<std::string>>> list_;
};

std::vector<std::string> asked_of(assess::Assessment const& a, assess::Referral const& referral)
{
    std::vector<std::string> asked;
    for (std::size_t const i : referral.causes)
    {
        auto const& c = a.causes.at(i);
        if (c.ask.empty() || c.probability < worth_a_line)
            continue;
        asked.push_back(referral.causes.size() > 1 ? capitalised(c.name) + ": " + c.ask : c.ask);
    }
    return asked;
}

// Classes of the state that the visit names; without one there is nothing to say.
std::vector<std::string> licences_named(assess::Referral const& referral)
{
    std::string classes;
    for (auto const& one : referral.licences)
        classes +=
            (classes.empty() ? "" : ", or ") + one.name + (one.from_memory ? " (from memory, not confirmed)" : "");
    if (!referral.licence_note.empty())
        classes += (classes.empty() ? "" : "; ") + referral.licence_note;
    return {classes};
}

// Of items that the trade comes for, where it was noted how they lie.
std::vector<std::string> reached(assess::Assessment const& a, assess::Referral const& referral)
{
    std::vector<std::string> out;
    for (auto const& fill : a.fills)
    {
        bool const comes = std::any_of(referral.causes.begin(), referral.causes.end(),
                                       [&](std::size_t i) { return a.causes.at(i).item == fill.item; });
        if (comes && !fill.reach.empty())
            out.push_back(capitalised(a.items.at(fill.item).name) + ": " + fill.reach);
    }
    return out;
}

Card referral_card(assess::Assessment const& a, assess::Referral const& referral, std::size_t number)
{
    Card card{capitalised(referral.name),
              std::string(soon_word(referral.urgency)),
              {},
              number,
              referral.urgency == assess::Urgency::stop_use ? Tone::danger : Tone::plain,
              {}};
    ByItem things;
    std::vector<std::string> unlikely;
    // Where what was seen is its own cause, it is named once, with its probability.
    auto named_as_cause = [&](std::string const& name, std::size_t item)
    {
        return std::any_of(referral.causes.begin(), referral.causes.end(),
                           [&](std::size_t c) { return a.causes.at(c).name == name && a.causes.at(c).item == item; });
    };
    for (std::size_t const i : referral.alarms)
        if (!named_as_cause(a.findings.at(a.alarms.at(i).finding).name, a.alarms.at(i).item))
            things.add(a.alarms.at(i).item, a.findings.at(a.alarms.at(i).finding).name);
    for (std::size_t const i : referral.causes)
    {
        auto const& c = a.causes.at(i);
        if (c.probability < worth_a_line)
            unlikely.push_back(c.name);
        else
            things.add(c.item, c.name + ", " + percent(c.probability));
    }
    auto lines = things.lines(a);
    if (!unlikely.empty())
        lines.push_back("and less likely: " + joined(unlikely, ", ", ", "));
    add(card.parts, "Comes for", std::move(lines));
    add(card.parts, "Ask them to", asked_of(a, referral));
    add(card.parts, "How it is reached", reached(a, referral));
    add(card.parts, "Licensed for", {referral.why}, Tone::quiet);
    add(card.parts, "In " + a.licences_of, licences_named(referral), Tone::quiet);
    return card;
}

} // namespace

namespace
{

std::vector<Section> sections_told(assess::Assessment const& a, units::System system, Told told, Said& said)
{
    switch (told)
    {
    case Told::next:
    {
        std::vector<Section> out{danger_section(a, said), undecided_section(a, said), check_section(a, said)};
        if (out.back().blocks.empty())
            out.back().blocks.emplace_back(
                Paragraph{a.outcome == assess::Outcome::unsafe
                              ? "No check is proposed while what is unsafe stands; whoever comes for it looks further."
                              : "Nothing that " + std::string(walker(a.by.value_or(visit::By::inspector))) +
                                    " may safely do here is known to change whom to send or how soon."});
        return out;
    }
    case Told::why: return {danger_section(a, said), why_section(a, said)};
    case Told::all: break;
    }
    return {
        danger_section(a, said),   answer_section(a),          question_section(a),        call_section(a),
        found_section(a),          verdict_section(a),         undecided_section(a, said), cause_section(a),
        check_section(a, said),    meanwhile_section(a, said), loop_section(a, system),    level_section(a, system),
        heater_section(a, system), warming_section(a, system), vent_section(a, system),    figure_section(a, system),
        comparison_section(a),     limits_section(a),          reading_section(a, system), note_section(a),
        understanding_section(a),  oddity_section(a),          conflict_section(a),        not_tested_section(a),
        blank_section(a),          assumption_section(a),      source_section(a)};
}

} // namespace

std::string about_line(assess::Assessment const& a)
{
    std::string out;
    if (!a.on.empty())
        out = "Walked " + a.on;
    if (a.by)
        out += (out.empty() ? "Walked by " : " by ") + std::string(walker(*a.by));
    if (!a.weather.empty())
        out += (out.empty() ? "Weather: " : "; weather: ") + a.weather;
    return out.empty() ? out : out + ".";
}

Page page_of(assess::Assessment const& a, units::System system, Told told)
{
    Page page;
    page.kind = "record";
    page.on = a.on;
    page.title = capitalised(a.property.empty() ? "pool and spa equipment" : a.property);
    if (std::string const line = about_line(a); !line.empty())
        page.about.push_back(line);
    Said said;
    for (auto& section : sections_told(a, system, told, said))
        if (!section.blocks.empty())
            page.sections.push_back(std::move(section));
    if (!a.causes.empty())
        page.foot = {chance_footnote() + " " + strength_footnote()};
    page.foot.push_back(
        "What was not looked at is not said to be sound. Local code and the maker's instructions decide.");
    return page;
}

std::vector<std::string> caution_texts(assess::Assessment const& a, std::vector<std::string> const& ids,
                                       std::string const& here, Said& said)
{
    std::vector<std::string> fresh, places;
    for (auto const& id : ids)
    {
        auto const [known, is_new] = said.emplace(id, here);
        if (is_new)
            fresh.push_back(id);
        else if (known->second != here && std::find(places.begin(), places.end(), known->second) == places.end())
            places.push_back(known->second);
    }
    auto out = caution_sentences(a, fresh);
    if (!places.empty())
        out.push_back("as under " + joined(places));
    return out;
}

namespace
{

Card dangerous_card(assess::Assessment const& a, std::vector<std::size_t> const& causes, Said& said)
{
    Card card{"What may be behind it can hurt people", {}, {}, 0, Tone::danger, {}};
    std::vector<std::string> at_once, trades, care;
    for (std::size_t const i : causes)
    {
        auto const& cause = a.causes.at(i);
        at_once.push_back(capitalised(at_item(a, cause.name, cause.item)) + ", " + chance(cause.probability) +
                          (cause.meanwhile.empty() ? "" : ": " + cause.meanwhile));
        if (std::string const trade = trade_name(a, cause.trade);
            std::find(trades.begin(), trades.end(), trade) == trades.end())
            trades.push_back(trade);
        for (auto& sentence : caution_texts(a, cause.cautions, "Danger", said))
            care.push_back(std::move(sentence));
    }
    add(card.parts, "At once", std::move(at_once), Tone::danger);
    add(card.parts, "Call", {joined(trades)});
    add(card.parts, "Take care", std::move(care));
    return card;
}

Card words_card(assess::Assessment const& a)
{
    std::vector<std::string> words;
    for (auto const& w : a.danger_words)
        words.push_back(quoted(w));
    Card card{"These words may mean danger: " + joined(words, ", ", ", "), {}, {}, 0, Tone::danger, {}};
    add(card.parts, "If so",
        {"Everyone out of the water. Leave, keep others away, and call emergency services or the gas supplier from "
         "outside."},
        Tone::danger);
    return card;
}

} // namespace

Section danger_section(assess::Assessment const& a, Said& said)
{
    Section out{"danger", "Danger: act on this first", {}, Tone::danger};
    if (!a.danger_words.empty())
        out.blocks.emplace_back(words_card(a));
    std::string trade_before;
    for (auto const& alarm : a.alarms)
    {
        if (alarm.urgency != assess::Urgency::stop_use)
            continue;
        auto const& finding = a.findings.at(alarm.finding);
        Card card{capitalised(at_item(a, finding.name, alarm.item)), alarm_evidence(finding), {}, 0, Tone::danger, {}};
        add(card.parts, "At once", {alarm.say}, Tone::danger);
        add(card.parts, "Closed until then", {closed_waters(a, alarm)}, Tone::danger, true);
        // For a row of alarms that one trade comes for, it is named at the first.
        if (std::string trade = trade_name(a, alarm.trade); trade != trade_before)
        {
            add(card.parts, "Call", {trade}, Tone::plain, true);
            trade_before = std::move(trade);
        }
        add(card.parts, "Take care", caution_texts(a, alarm.cautions, "Danger", said));
        out.blocks.emplace_back(std::move(card));
    }
    for (auto& card : found_dangers(a, said))
        out.blocks.emplace_back(std::move(card));
    if (auto const causes = dangerous_causes(a); !causes.empty())
        out.blocks.emplace_back(dangerous_card(a, causes, said));
    return out;
}

Section answer_section(assess::Assessment const& a)
{
    Section out{"answer", "In short", {}};
    if (!a.summary.empty())
        out.blocks.emplace_back(Paragraph{a.summary});
    return out;
}

Section question_section(assess::Assessment const& a)
{
    Section out{"questions", "Notes that were not understood: please say more", {}};
    Table table{"Until then these notes count for nothing", {"note", "why I ask", "did you mean"}, {}, 36, true};
    for (auto const& question : a.questions)
    {
        std::string const note =
            quoted(question.note) + (question.item == 0 ? "" : " (" + a.items.at(question.item).name + ")");
        table.rows.push_back(
            {{note, {}},
             {question.why, {}},
             {question.may_mean.empty() ? "" : "Did you mean: " + joined(question.may_mean, "; ", " or ") + "?", {}}});
    }
    if (!table.rows.empty())
        out.blocks.emplace_back(std::move(table));
    return out;
}

Section call_section(assess::Assessment const& a)
{
    Section out{"call", "Whom to call, in this order", {}};
    for (std::size_t i = 0; i < a.referrals.size(); ++i)
        out.blocks.emplace_back(referral_card(a, a.referrals[i], i + 1));
    if (!a.licences_say.empty())
        out.blocks.emplace_back(Paragraph{a.licences_say, Tone::quiet});
    return out;
}

Section verdict_section(assess::Assessment const& a)
{
    constexpr std::size_t reason = 60; // what was looked at in full stands further down
    Section out{"items", "Item by item", {}};
    Table table{"What each item did when it was looked at", {"item", "how it stands", "because"}, {}, 24};
    for (auto const& verdict : a.verdicts)
    {
        bool const unsafe = verdict.condition == assess::Condition::unsafe;
        bool const not_tried = verdict.condition == assess::Condition::not_tested;
        Tone const tone = unsafe ? Tone::danger : not_tried ? Tone::quiet : Tone::plain;
        table.rows.push_back({{a.items.at(verdict.item).name, {}},
                              {std::string(condition_word(verdict.condition)), {}, tone},
                              {brief(verdict.because, reason), {}}});
    }
    if (!table.rows.empty())
        out.blocks.emplace_back(std::move(table));
    return out;
}

Section meanwhile_section(assess::Assessment const& a, Said& said)
{
    Section out{"meanwhile", "Until it is put right", {}};
    Points points;
    auto const dangerous = dangerous_causes(a); // at the top of the report already
    for (std::size_t i = 0; i < a.causes.size(); ++i)
        if (auto const& cause = a.causes[i];
            !cause.meanwhile.empty() && std::find(dangerous.begin(), dangerous.end(), i) == dangerous.end())
            points.texts.push_back(capitalised(at_item(a, cause.name, cause.item)) + ": " + cause.meanwhile);
    for (auto const& alarm : a.alarms)
        if (alarm.urgency != assess::Urgency::stop_use && !alarm.say.empty())
            points.texts.push_back(capitalised(at_item(a, a.findings.at(alarm.finding).name, alarm.item)) + ": " +
                                   alarm.say);
    if (!points.texts.empty())
        out.blocks.emplace_back(std::move(points));
    std::vector<std::string> fresh;
    for (auto const& caution : a.cautions)
        if (said.emplace(caution.first, out.heading).second)
            fresh.push_back(caution.second);
    Card card{{}, {}, {}, 0, Tone::plain, {}};
    add(card.parts, "Take care", std::move(fresh), Tone::danger);
    if (!card.parts.empty())
        out.blocks.emplace_back(std::move(card));
    return out;
}

} // namespace padwalk::report
