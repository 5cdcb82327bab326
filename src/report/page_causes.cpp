/// The sections about causes, and what would tell more of them.

#include "page.hpp"
#include "plain.hpp"
#include "wording.hpp"

#include <cmath>

namespace padwalk::report
{
namespace
{

std::string evidence_line(assess::Assessment const& a, assess::CauseEntryOf const& cause,
                          assess::WeightEntry const& weight)
{
    auto const& finding = a.findings.at(weight.finding);
    std::string name = finding.item == cause.item ? finding.name : at_item(a, finding.name, finding.item);
    if (finding.state == assess::FindingState::not_seen)
        name += finding.computed ? " – not so" : " – not there";
    std::string out = std::string(strength_word(weight.log_odds)) + ": " + name;
    if (finding.computed) // the comparison itself stands once, among the notes
        return out + " (computed, " + percent(finding.probability) + ")";
    return finding.from.empty() ? out : out + " (" + finding.from + ")";
}

std::vector<std::string> evidence_lines(assess::Assessment const& a, assess::CauseEntryOf const& cause,
                                        std::vector<assess::WeightEntry> const& weights)
{
    std::vector<std::string> out;
    for (auto const& weight : weights)
        out.push_back(evidence_line(a, cause, weight));
    return out;
}

Card cause_card(assess::Assessment const& a, assess::CauseEntryOf const& cause)
{
    Card card{capitalised(at_item(a, cause.name, cause.item)),
              chance(cause.probability) + (cause.hurts_people ? "; can hurt people" : ""),
              cause.probability,
              0,
              cause.hurts_people ? Tone::danger : Tone::plain,
              {}};
    if (!cause.meaning.empty())
        card.parts.push_back({"That is", {cause.meaning}});
    auto against = evidence_lines(a, cause, cause.speaks_against);
    if (against.empty())
        against.push_back("nothing that was noted or computed");
    auto speaks_for = evidence_lines(a, cause, cause.speaks_for);
    if (speaks_for.empty())
        speaks_for.push_back("nothing that was noted or computed");
    card.parts.push_back({"Speaks for it", std::move(speaks_for)});
    card.parts.push_back({"Speaks against it", std::move(against)});
    card.parts.push_back({"Without this walk", {percent(cause.prior) + " of such items would have it"}, Tone::quiet});
    std::string const trade = trade_name(a, cause.trade);
    card.parts.push_back(
        {"Who and when", {(trade.empty() ? "" : trade + ", ") + std::string(soon_word(cause.urgency))}});
    if (trade.empty() && !cause.ask.empty())
        card.parts.push_back({"To do", {cause.ask}});
    return card;
}

Card check_card(assess::Assessment const& a, assess::NextCheck const& check, std::size_t number)
{
    std::string const minutes = check.minutes > 0
                                    ? "about " + std::to_string(std::lround(std::ceil(check.minutes))) + "\u00a0min"
                                    : std::string();
    Card card{capitalised(at_item(a, check.name, check.item)), minutes, {}, number, Tone::plain, {}};
    if (!check.needs.empty())
        card.parts.push_back({"You need", {check.needs}});
    if (!check.changes.empty())
        card.parts.push_back({"It would show", {check.changes}});
    if (!check.tells.empty())
        card.parts.push_back({"Look for", check.tells});
    if (auto sentences = caution_sentences(a, check.cautions); !sentences.empty())
        card.parts.push_back({"Take care", std::move(sentences), Tone::danger});
    return card;
}

} // namespace

Section cause_section(assess::Assessment const& a)
{
    Section out{"causes", "What may be behind it", {}};
    for (auto const& cause : a.causes)
        out.blocks.emplace_back(cause_card(a, cause));
    return out;
}

Section check_section(assess::Assessment const& a)
{
    Section out{"next", "What you could check next", {}};
    for (std::size_t i = 0; i < a.next.size(); ++i)
        out.blocks.emplace_back(check_card(a, a.next[i], i + 1));
    return out;
}

Section undecided_section(assess::Assessment const& a)
{
    Section out{"undecided", "What can't be told from here", {}};
    for (auto const& entry : a.undecided)
    {
        auto const& finding = a.findings.at(entry.finding);
        Card card{capitalised(at_item(a, finding.name, finding.item)), {}, {}, 0, Tone::plain, {}};
        std::vector<std::string> behind;
        for (std::size_t const i : entry.causes)
            behind.push_back(a.causes.at(i).name + ", " + chance(a.causes.at(i).probability));
        if (behind.empty())
            behind.push_back("no cause known here explains it well");
        card.parts.push_back({"May be", std::move(behind)});
        if (!entry.decides.empty())
        {
            card.parts.push_back({"Decided by", {capitalised(entry.decides)}});
            std::string who;
            for (auto const& by : entry.by_whom)
                who += (who.empty() ? "" : " or ") + by;
            card.parts.push_back({"By whom", {who + "; needs: " + entry.needs}});
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
