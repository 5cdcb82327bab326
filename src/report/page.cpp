#include "page.hpp"

#include "plain.hpp"
#include "wording.hpp"

#include <algorithm>
#include <set>

namespace padwalk::report
{
namespace
{

void add(std::vector<Part>& parts, std::string label, std::vector<std::string> texts, Tone tone = Tone::plain)
{
    texts.erase(std::remove(texts.begin(), texts.end(), std::string()), texts.end());
    if (!texts.empty())
        parts.push_back({std::move(label), std::move(texts), tone});
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

std::string about_line(assess::Assessment const& a)
{
    std::string out;
    if (!a.on.empty())
        out = "Walked " + a.on;
    if (a.by)
        out += (out.empty() ? "Walked by " : " by ") + std::string(walker(*a.by));
    return out.empty() ? out : out + ".";
}

std::string referred_thing(assess::Assessment const& a, std::size_t cause)
{
    auto const& c = a.causes.at(cause);
    return at_item(a, c.name, c.item) + ": " + chance(c.probability);
}

Card referral_card(assess::Assessment const& a, assess::Referral const& referral, std::size_t number)
{
    Card card{capitalised(referral.name),
              std::string(soon_word(referral.urgency)),
              {},
              number,
              referral.urgency == assess::Urgency::stop_use ? Tone::danger : Tone::plain,
              {}};
    std::vector<std::string> things, asked;
    for (std::size_t const i : referral.alarms)
    {
        auto const& finding = a.findings.at(a.alarms.at(i).finding);
        std::string const evidence = alarm_evidence(finding);
        things.push_back(at_item(a, finding.name, a.alarms.at(i).item) + (evidence.empty() ? "" : ", " + evidence));
    }
    for (std::size_t const i : referral.causes)
    {
        things.push_back(referred_thing(a, i));
        auto const& c = a.causes.at(i);
        bool const several = referral.causes.size() > 1;
        if (!c.ask.empty())
            asked.push_back(several ? capitalised(c.name) + ": " + c.ask : c.ask);
    }
    add(card.parts, "Comes for", std::move(things));
    add(card.parts, "Ask them to", std::move(asked));
    add(card.parts, "Licensed for", {referral.why}, Tone::quiet);
    return card;
}

} // namespace

Page page_of(assess::Assessment const& a, units::System system)
{
    Page page;
    page.title = capitalised(a.property.empty() ? "pool and spa equipment" : a.property);
    if (std::string const line = about_line(a); !line.empty())
        page.about.push_back(line);
    if (!a.weather.empty())
        page.about.push_back("Weather: " + a.weather);
    for (auto&& section :
         {danger_section(a), answer_section(a), call_section(a), verdict_section(a), undecided_section(a),
          cause_section(a), check_section(a), meanwhile_section(a), figure_section(a, system), comparison_section(a),
          reading_section(a, system), note_section(a), understanding_section(a), oddity_section(a), conflict_section(a),
          not_tested_section(a), blank_section(a), assumption_section(a), source_section(a)})
        if (!section.blocks.empty())
            page.sections.push_back(section);
    if (!a.causes.empty())
        page.foot = {chance_footnote(), strength_footnote()};
    page.foot.push_back(
        "What was not looked at is not said to be sound. Local code and the maker's instructions decide.");
    return page;
}

namespace
{

// The sentences of those cautions that were not said yet; each stands once in a section, in full.
std::vector<std::string> fresh_cautions(assess::Assessment const& a, std::vector<std::string> const& ids,
                                        std::set<std::string>& said)
{
    std::vector<std::string> fresh;
    for (auto const& id : ids)
        if (said.insert(id).second)
            fresh.push_back(id);
    return caution_sentences(a, fresh);
}

Card dangerous_card(assess::Assessment const& a, std::vector<std::size_t> const& causes, std::set<std::string>& said)
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
        for (auto& sentence : fresh_cautions(a, cause.cautions, said))
            care.push_back(std::move(sentence));
    }
    add(card.parts, "At once", std::move(at_once), Tone::danger);
    add(card.parts, "Call", std::move(trades));
    add(card.parts, "Take care", std::move(care));
    return card;
}

} // namespace

Section danger_section(assess::Assessment const& a)
{
    Section out{"danger", "Danger: act on this first", {}, Tone::danger};
    std::set<std::string> said;
    for (auto const& alarm : a.alarms)
    {
        if (alarm.urgency != assess::Urgency::stop_use)
            continue;
        auto const& finding = a.findings.at(alarm.finding);
        Card card{capitalised(at_item(a, finding.name, alarm.item)), alarm_evidence(finding), {}, 0, Tone::danger, {}};
        add(card.parts, "At once", {alarm.say}, Tone::danger);
        add(card.parts, "Call", {trade_name(a, alarm.trade)});
        add(card.parts, "Take care", fresh_cautions(a, alarm.cautions, said));
        out.blocks.emplace_back(std::move(card));
    }
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

Section call_section(assess::Assessment const& a)
{
    Section out{"call", "Whom to call, in this order", {}};
    for (std::size_t i = 0; i < a.referrals.size(); ++i)
        out.blocks.emplace_back(referral_card(a, a.referrals[i], i + 1));
    return out;
}

Section verdict_section(assess::Assessment const& a)
{
    Section out{"items", "Item by item", {}};
    Table table{"What each item did when it was looked at", {"item", "how it stands", "because"}, {}, ": ", 24};
    for (auto const& verdict : a.verdicts)
    {
        bool const unsafe = verdict.condition == assess::Condition::unsafe;
        bool const untested = verdict.condition == assess::Condition::not_tested;
        Tone const tone = unsafe ? Tone::danger : untested ? Tone::quiet : Tone::plain;
        table.rows.push_back({{a.items.at(verdict.item).name, {}},
                              {std::string(condition_word(verdict.condition)), {}, tone},
                              {verdict.because, {}}});
    }
    if (!table.rows.empty())
        out.blocks.emplace_back(std::move(table));
    return out;
}

Section meanwhile_section(assess::Assessment const& a)
{
    Section out{"meanwhile", "Until it is put right", {}};
    Points points;
    auto const said = dangerous_causes(a); // at the top of the report already
    for (std::size_t i = 0; i < a.causes.size(); ++i)
        if (auto const& cause = a.causes[i];
            !cause.meanwhile.empty() && std::find(said.begin(), said.end(), i) == said.end())
            points.texts.push_back(capitalised(at_item(a, cause.name, cause.item)) + ": " + cause.meanwhile);
    for (auto const& alarm : a.alarms)
        if (alarm.urgency != assess::Urgency::stop_use && !alarm.say.empty())
            points.texts.push_back(capitalised(at_item(a, a.findings.at(alarm.finding).name, alarm.item)) + ": " +
                                   alarm.say);
    if (!points.texts.empty())
        out.blocks.emplace_back(std::move(points));
    if (a.cautions.empty())
        return out;
    Card card{"Take care", {}, {}, 0, Tone::plain, {}};
    std::vector<std::string> sentences;
    for (auto const& [id, sentence] : a.cautions)
        sentences.push_back(sentence);
    add(card.parts, {}, std::move(sentences));
    if (!card.parts.empty())
        out.blocks.emplace_back(std::move(card));
    return out;
}

} // namespace padwalk::report
