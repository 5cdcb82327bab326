/// The section about what a technician found, beside what the assessment said of it.

#include "page.hpp"
#include "plain.hpp"
#include "wording.hpp"

namespace padwalk::report
{
namespace
{

std::string ordinal(std::size_t rank)
{
    return rank == 1 ? "named as the likeliest" : "named, no. " + std::to_string(rank) + " by likelihood";
}

std::string said_of(assess::FoundEntry const& entry)
{
    using assess::FoundMeaning;
    if (entry.meaning == FoundMeaning::not_known)
        return "not in the knowledge; kept as it is written";
    if (entry.meaning == FoundMeaning::unclear)
        return "not understood surely; see the questions";
    if (!entry.probability)
        return "no chance was computed for it: by what the visit says it can't be here, or too much hangs together";
    return chance(*entry.probability) + ", before anything was seen " + percent(entry.prior) + "; " +
           (entry.rank == 0 ? "not named" : ordinal(entry.rank));
}

Card danger_card(assess::Assessment const& a, assess::FoundEntry const& entry, Said& said)
{
    Card card{capitalised(at_item(a, entry.name, entry.item)), "found on site", {}, 0, Tone::danger, {}};
    if (!entry.meanwhile.empty())
        card.parts.push_back({"Unless it was put right since", {entry.meanwhile}, Tone::danger});
    if (std::string const trade = trade_name(a, entry.trade); !trade.empty())
        card.parts.push_back({"Call", {trade}});
    if (auto sentences = caution_texts(a, entry.cautions, "Danger", said); !sentences.empty())
        card.parts.push_back({"Take care", std::move(sentences)});
    return card;
}

} // namespace

std::vector<Card> found_dangers(assess::Assessment const& a, Said& said)
{
    std::vector<Card> out;
    for (auto const& entry : a.found)
        if (entry.stops_use)
            out.push_back(danger_card(a, entry, said));
    return out;
}

Section found_section(assess::Assessment const& a)
{
    Section out{"found", "What was found on site", {}};
    if (a.found.empty())
        return out;
    Table table{"Each beside the chance that what was seen gives it",
                {"what, and where", "found", "what this report says of it"},
                {},
                16};
    for (auto const& entry : a.found)
    {
        bool const known = entry.meaning == assess::FoundMeaning::cause;
        Cell what{known ? capitalised(at_item(a, entry.name, entry.item))
                        : quoted(entry.words) + " (" + a.items.at(entry.item).name + ")",
                  {}};
        if (known && entry.words != entry.cause && entry.words != entry.name)
            what.more.push_back("written: " + quoted(entry.words));
        table.rows.push_back({std::move(what), {entry.was ? "confirmed" : "ruled out", {}}, {said_of(entry), {}}});
    }
    out.blocks.emplace_back(std::move(table));
    out.blocks.emplace_back(Paragraph{"What was found changes no chance in this report, and no verdict unless it is a "
                                      "danger: they are judged on what was seen, so that the two can be compared.",
                                      Tone::quiet});
    return out;
}

} // namespace padwalk::report
