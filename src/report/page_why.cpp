/// The section that explains a cause that was asked about, also where it is unlikely.

#include "page.hpp"
#include "plain.hpp"
#include "wording.hpp"

#include <cmath>

namespace padwalk::report
{
namespace
{

constexpr double hardly = 0.05; ///< of the log odds, judgement: it prints as nothing

std::string log_units(double log_odds)
{
    return (log_odds > 0 ? "+" : "") + units::show_significant(log_odds, 2);
}

std::string state_word(assess::FindingEntryOf const& finding)
{
    using assess::FindingState;
    if (finding.computed)
        return "computed, " + percent(finding.probability);
    return finding.state == FindingState::seen       ? "noted"
           : finding.state == FindingState::not_seen ? "noted as not there"
                                                     : "noted, unclear";
}

std::string shown_line(assess::Assessment const& a, assess::CauseAsked const& asked, assess::ShownFinding const& shown)
{
    std::string out = shown.item == asked.cause.item ? shown.name : at_item(a, shown.name, shown.item);
    out += ": it shows this " + percent(shown.weight) + " of the time, without it " + percent(shown.leak);
    if (!shown.noticed)
        return out + "; nobody looked";
    out += "; " + state_word(a.findings.at(*shown.noticed));
    return out +
           (std::abs(shown.log_odds) < hardly ? ", which changes nothing here" : ", " + log_units(shown.log_odds));
}

Card why_card(assess::Assessment const& a, assess::CauseAsked const& asked, Said& said)
{
    auto const& cause = asked.cause;
    Card card{capitalised(at_item(a, cause.name, cause.item)),
              chance(cause.probability) + (cause.hurts_people ? "; can hurt people" : ""),
              cause.probability,
              0,
              cause.hurts_people ? Tone::danger : Tone::plain,
              {}};
    card.parts.push_back({"That is", {cause.meaning}});
    std::string before = percent(asked.base_rate) + ". " + asked.why_rate;
    for (auto const& [name, factor] : asked.changed_by)
        before += " " + capitalised(name) + ": odds times " + units::show_significant(factor, 2) + ".";
    if (!asked.changed_by.empty())
        before += " Here that makes " + percent(cause.prior) + ".";
    card.parts.push_back({"Before anything is seen", {std::move(before)}});
    std::vector<std::string> noticed, open;
    for (auto const& shown : asked.shows)
        (shown.noticed ? noticed : open).push_back(shown_line(a, asked, shown));
    if (noticed.empty())
        noticed.emplace_back("nothing that it shows was looked at");
    card.parts.push_back({"What was looked at", std::move(noticed)});
    if (!open.empty())
        card.parts.push_back({"What was not", std::move(open)});
    std::vector<std::string> besides;
    for (auto const& weight : asked.besides)
    {
        auto const& finding = a.findings.at(weight.finding);
        besides.push_back(at_item(a, finding.name, finding.item) + " (" + state_word(finding) + "), " +
                          log_units(weight.log_odds));
    }
    if (!besides.empty())
        card.parts.push_back({"What it does not show, and still counts", std::move(besides)});
    if (!asked.checks.empty())
        card.parts.push_back({"What would tell more", asked.checks});
    std::string const trade = trade_name(a, cause.trade);
    card.parts.push_back(
        {"Who and when",
         {(trade.empty() ? std::string("nobody need come") : trade) + ", " + std::string(soon_word(cause.urgency))}});
    if (!cause.ask.empty())
        card.parts.push_back({"Ask them to", {cause.ask}});
    if (!cause.meanwhile.empty())
        card.parts.push_back({"Meanwhile", {cause.meanwhile}});
    if (auto sentences = caution_texts(a, cause.cautions, "why", said); !sentences.empty())
        card.parts.push_back({"Take care", std::move(sentences), Tone::danger});
    return card;
}

} // namespace

Section why_section(assess::Assessment const& a, Said& said)
{
    Section out{"why", "The cause that was asked about", {}};
    for (auto const& asked : a.asked)
        out.blocks.emplace_back(why_card(a, asked, said));
    if (!out.blocks.empty())
        out.blocks.emplace_back(
            Paragraph{"Numbers with a sign are the natural log of the odds that this one thing adds, all else being "
                      "kept: +0.7 doubles the odds, -0.7 halves them, +2.3 makes them ten times as large. Chances of "
                      "what a cause shows are judged unless a reading was computed.",
                      Tone::quiet});
    return out;
}

} // namespace padwalk::report
