/// The sections about causes, and what would tell more of them.

#include "page.hpp"
#include "plain.hpp"
#include "wording.hpp"

#include <cmath>

namespace padwalk::report
{
namespace
{

constexpr double worth_a_card = 0.05; // judgement: below that a cause's evidence is given in one line

std::string evidence_line(assess::Assessment const& a, assess::CauseEntryOf const& cause,
                          assess::WeightEntry const& weight)
{
    auto const& finding = a.findings.at(weight.finding);
    std::string name = finding.item == cause.item ? finding.name : at_item(a, finding.name, finding.item);
    if (finding.state == assess::FindingState::not_seen)
        name += finding.computed ? " – not so" : " – not there";
    // The note's own words and the comparison stand once, further down.
    return std::string(strength_word(weight.log_odds)) + " " + name +
           (finding.computed ? " (computed, " + percent(finding.probability) + ")" : " (noted)");
}

std::string evidence(assess::Assessment const& a, assess::CauseEntryOf const& cause,
                     std::vector<assess::WeightEntry> const& weights)
{
    std::vector<std::string> out;
    for (auto const& weight : weights)
        out.push_back(evidence_line(a, cause, weight));
    return out.empty() ? "nothing noted or computed" : joined(out, "; ", "; ");
}

// The trade stands in full in the list of those to call, so here its place there is enough.
std::string who_and_when(assess::Assessment const& a, assess::CauseEntryOf const& cause)
{
    std::string const when = cause.urgency == assess::Urgency::stop_use ? "now" : std::string(soon_word(cause.urgency));
    for (std::size_t i = 0; i < a.referrals.size(); ++i)
        if (a.referrals[i].trade == cause.trade)
            return "no. " + std::to_string(i + 1) + " of those to call, " + when;
    std::string const trade = trade_name(a, cause.trade);
    return (trade.empty() ? "" : trade + ", ") + when;
}

std::string tag_of(assess::CauseEntryOf const& cause)
{
    return chance(cause.probability) + (cause.hurts_people ? "; can hurt people" : "");
}

Card cause_card(assess::Assessment const& a, assess::CauseEntryOf const& cause)
{
    Card card{capitalised(at_item(a, cause.name, cause.item)),
              tag_of(cause),
              cause.probability,
              0,
              cause.hurts_people ? Tone::danger : Tone::plain,
              {}};
    if (!cause.meaning.empty())
        card.parts.push_back({"That is", {cause.meaning}});
    card.parts.push_back({"Speaks for it", {evidence(a, cause, cause.speaks_for)}, Tone::plain, true});
    card.parts.push_back({"Against it", {evidence(a, cause, cause.speaks_against)}, Tone::plain, true});
    card.parts.push_back({"Before the walk", {percent(cause.prior)}, Tone::plain, true});
    card.parts.push_back({"Who and when", {who_and_when(a, cause)}, Tone::plain, true});
    if (trade_name(a, cause.trade).empty() && !cause.ask.empty())
        card.parts.push_back({"To do", {cause.ask}});
    return card;
}

Card check_card(assess::Assessment const& a, assess::NextCheck const& check, std::size_t number, Said& said)
{
    std::string const minutes = check.minutes > 0
                                    ? "about " + std::to_string(std::lround(std::ceil(check.minutes))) + "\u00a0min"
                                    : std::string();
    Card card{capitalised(at_item(a, check.name, check.item)), minutes, {}, number, Tone::plain, {}};
    if (!check.changes.empty())
        card.parts.push_back({"It would show", {check.changes, check.otherwise}});
    for (auto const& [label, text] : {std::pair{"If it is so", &check.if_so}, std::pair{"If not", &check.if_not}})
        if (!text->empty())
            card.parts.push_back({label, {*text}, Tone::plain, true});
    if (!check.tells.empty())
        card.parts.push_back({"Look for", {joined(check.tells, "; ", "; ")}, Tone::plain, true});
    if (!check.needs.empty())
        card.parts.push_back({"You need", {check.needs}, Tone::plain, true});
    if (auto sentences = caution_texts(a, check.cautions, "check " + std::to_string(number), said); !sentences.empty())
        card.parts.push_back({"Take care", std::move(sentences), Tone::danger, true});
    return card;
}

} // namespace

Section cause_section(assess::Assessment const& a)
{
    Section out{"causes", "What may be behind it", {}};
    Points unlikely;
    for (auto const& cause : a.causes)
        if (cause.probability >= worth_a_card)
            out.blocks.emplace_back(cause_card(a, cause));
        else
            unlikely.texts.push_back("And less likely: " + at_item(a, cause.name, cause.item) + ", " + tag_of(cause) +
                                     "; for it: " + evidence(a, cause, cause.speaks_for) + "; against it: " +
                                     evidence(a, cause, cause.speaks_against) + "; " + who_and_when(a, cause));
    if (!unlikely.texts.empty())
        out.blocks.emplace_back(std::move(unlikely));
    if (a.causes.empty())
        return out;
    Points beside;
    for (auto const& entry : a.explained)
        beside.texts.push_back("Beside these, at " + a.items.at(entry.item).name +
                               ": that nothing is wrong with it that calls for anyone, " +
                               percent(entry.nothing_wrong) + "; something that this tool does not know, " +
                               percent(entry.something_else) + ".");
    if (!a.robustness.words.empty())
        beside.texts.push_back(capitalised(a.robustness.words));
    beside.tone = Tone::quiet;
    if (!beside.texts.empty())
        out.blocks.emplace_back(std::move(beside));
    return out;
}

Section check_section(assess::Assessment const& a, Said& said)
{
    Section out{"next", "What you could check next", {}};
    for (std::size_t i = 0; i < a.next.size(); ++i)
        out.blocks.emplace_back(check_card(a, a.next[i], i + 1, said));
    return out;
}

Section undecided_section(assess::Assessment const& a, Said& said)
{
    Section out{"undecided", "What can't be told from here", {}};
    for (auto const& entry : a.undecided)
    {
        auto const& finding = a.findings.at(entry.finding);
        Card card{capitalised(at_item(a, finding.name, finding.item)), {}, {}, 0, Tone::plain, {}};
        std::vector<std::string> behind;
        for (std::size_t const i : entry.causes)
            behind.push_back(a.causes.at(i).name + ", " + chance(a.causes.at(i).probability));
        card.parts.push_back(
            {"May be", {behind.empty() ? "no cause known here explains it well" : joined(behind, "; ", "; ")}});
        if (!entry.decides.empty())
        {
            card.parts.push_back({"Decided by", {capitalised(entry.decides)}, Tone::plain, true});
            std::string who;
            for (auto const& by : entry.by_whom)
                who += (who.empty() ? "" : " or ") + by;
            card.parts.push_back(
                {"By whom", {who + (entry.needs.empty() ? "" : "; needs: " + entry.needs)}, Tone::plain, true});
            if (auto sentences = caution_texts(a, entry.cautions, "what can't be told", said); !sentences.empty())
                card.parts.push_back({"Take care", std::move(sentences), Tone::danger, true});
        }
        out.blocks.emplace_back(std::move(card));
    }
    return out;
}

Section conflict_section(assess::Assessment const& a)
{
    Section out{"conflict", "What does not fit together", {}};
    if (!a.conflict.empty())
        out.blocks.emplace_back(Paragraph{a.conflict});
    return out;
}

} // namespace padwalk::report
