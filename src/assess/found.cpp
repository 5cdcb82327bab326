// What a technician really found, held beside what the assessment makes of what was seen. It changes no chance: the
// two are there to be compared.
#include "judge.hpp"
#include "name_words.hpp"

#include <algorithm>
#include <array>

namespace padwalk::assess
{
namespace
{

constexpr std::size_t most_asked = 6; ///< more names than this are no help to choose from

struct Meant
{
    FoundMeaning meaning = FoundMeaning::not_known;
    std::vector<std::string> may; ///< ids
    std::string why;              ///< of a question
};

std::string plain_kind(std::string kind)
{
    std::replace(kind.begin(), kind.end(), '_', ' ');
    return kind;
}

bool hedged(std::string const& words)
{
    constexpr std::array hedges{"maybe", "perhaps", "possibly", "probably", "might"};
    return words.find('?') != std::string::npos ||
           std::any_of(hedges.begin(), hedges.end(), [&](char const* hedge) { return says(words, hedge); });
}

// Causes of this kind that hold at least half of the words: near enough to ask, too far to take.
std::vector<std::string> near_causes(Engine const& engine, std::string const& words, std::string const& kind)
{
    auto const asked = visit::content_stems(words);
    std::vector<std::string> out;
    for (auto const& [id, cause] : engine.knowledge().causes)
    {
        if (cause.item != kind)
            continue;
        auto const said = visit::content_stems(cause.name + " " + id);
        auto const common =
            std::count_if(asked.begin(), asked.end(),
                          [&](std::string const& stem)
                          { return stem != "no" && std::find(said.begin(), said.end(), stem) != said.end(); });
        if (common > 0 && 2 * static_cast<std::size_t>(common) >= asked.size())
            out.push_back(id);
    }
    return out;
}

// The cause of this kind of item that the words mean, if they surely mean one.
Meant meant_at(Engine const& engine, std::string const& words, std::string const& kind)
{
    auto const all = causes_meant(engine, words);
    std::vector<std::string> here, elsewhere;
    for (auto const& id : all)
        (engine.knowledge().cause(id)->item == kind ? here : elsewhere).push_back(id);
    std::string const a_kind = plain_kind(kind);
    if (hedged(words))
        return {FoundMeaning::unclear, here.empty() ? near_causes(engine, words, kind) : here,
                "is not sure; write what was found, and leave out what was not"};
    if (here.size() == 1)
        return {FoundMeaning::cause, here, {}};
    if (here.size() > 1)
        return {FoundMeaning::unclear, here, "fits more than one cause of a " + a_kind + "; write the one in full"};
    if (!elsewhere.empty())
        return {FoundMeaning::unclear, elsewhere,
                "is a cause of a " + plain_kind(engine.knowledge().cause(elsewhere.front())->item) + ", not of a " +
                    a_kind + "; write it there"};
    if (auto near = near_causes(engine, words, kind); !near.empty() && near.size() <= most_asked)
        return {FoundMeaning::unclear, std::move(near),
                "is no cause that is known of a " + a_kind + "; write the name of one of these, or other words"};
    return {};
}

void ask_back(Workbench& w, std::size_t item, std::string const& words, Meant const& meant)
{
    Question question{item, words, meant.why, {}};
    for (auto const& id : meant.may)
        if (question.may_mean.size() < most_asked)
            question.may_mean.push_back(w.engine.knowledge().cause(id)->name);
    w.out.questions.push_back(std::move(question));
}

void take(Workbench& w, std::size_t item, std::string const& words, bool was)
{
    if (words.empty())
        return;
    auto meant = meant_at(w.engine, words, w.property.at(item).entry.kind);
    FoundEntry entry;
    entry.item = item;
    entry.was = was;
    entry.words = words;
    entry.meaning = meant.meaning;
    if (meant.meaning == FoundMeaning::unclear)
        ask_back(w, item, words, meant);
    if (meant.meaning == FoundMeaning::cause)
    {
        auto const& cause = *w.engine.knowledge().cause(meant.may.front());
        entry.cause = meant.may.front();
        entry.name = cause.name;
        entry.stops_use = was && cause.hazard == diagnosis::Hazard::people && cause.urgency == Urgency::stop_use;
        if (entry.stops_use)
        {
            entry.trade = cause.trade;
            entry.meanwhile = cause.meanwhile;
            entry.cautions = cause.cautions;
        }
    }
    else
        entry.may_mean = std::move(meant.may);
    w.out.found.push_back(std::move(entry));
}

// The same said twice counts once; a cause that is both there and not is asked about.
void settle(Workbench& w)
{
    auto& found = w.out.found;
    for (std::size_t i = 0; i < found.size(); ++i)
        for (std::size_t k = i + 1; k < found.size(); ++k)
        {
            bool const same = found[i].meaning == FoundMeaning::cause && found[k].item == found[i].item &&
                              found[k].cause == found[i].cause;
            if (same && found[i].was == found[k].was)
                found.erase(found.begin() + static_cast<std::ptrdiff_t>(k--));
            else if (same)
            {
                Meant const meant{FoundMeaning::unclear, {found[i].cause}, "was found to be there and not there"};
                ask_back(w, found[i].item, found[i].words + " / " + found[k].words, meant);
                for (std::size_t const at : {i, k})
                {
                    found[at].meaning = FoundMeaning::unclear;
                    found[at].may_mean = {std::exchange(found[at].cause, {})};
                }
                break;
            }
        }
}

/// Whether a finding was noted or computed, at an item; none where it can't be told.
std::optional<bool> looked_for(Workbench const& w, std::string const& id, std::size_t item)
{
    std::optional<bool> noted, computed;
    for (auto const& finding : w.out.findings)
    {
        if (finding.id != id || finding.item != item || finding.state == FindingState::unclear)
            continue;
        bool const seen = finding.state == FindingState::seen;
        if (!finding.computed && noted && *noted != seen)
            return std::nullopt; // two contrary notes
        (finding.computed ? computed : noted) = seen;
    }
    return noted ? noted : computed;
}

/// The chance that a finding would be there without one cause: by its leak and by the others, of which those that were
/// found are there.
double otherwise(Workbench const& w, Weighed const& weighed, std::size_t finding, std::size_t cause)
{
    auto const& shown = weighed.network.network().findings[finding];
    double none = 1 - shown.leak;
    for (auto const& parent : shown.parents)
    {
        if (parent.cause == cause)
            continue;
        auto const& at = weighed.network.causes()[parent.cause];
        double there = at.prior;
        for (auto const& found : w.out.found)
            if (found.meaning == FoundMeaning::cause && found.item == at.item && found.cause == *at.id)
                there = found.was ? 1.0 : 0.0;
        none *= 1 - parent.weight * there;
    }
    return 1 - none;
}

void add_shown(Workbench const& w, Weighed& weighed, std::size_t cause, FoundEntry& entry)
{
    auto const& at = weighed.network.causes()[cause];
    for (auto const& link : at.entry->shows)
    {
        auto const& finding = *w.engine.knowledge().finding(link.finding);
        if (finding.established == diagnosis::Established::simulated)
            continue; // its weights are computed for each loop, not judged
        for (std::size_t const item : w.property.of_kind(finding.item, at.item))
            if (auto const seen = looked_for(w, link.finding, item))
                if (weighed.network.weight(cause, link.finding, item) > 0)
                    entry.shows.push_back({link.finding, *seen,
                                           otherwise(w, weighed, weighed.network.finding(link.finding, item), cause)});
    }
}

/// Its place among the causes told, by likelihood; those that were there as well do not stand before it. 0: not told.
std::size_t rank_of(Assessment const& a, FoundEntry const& entry)
{
    auto const& causes = a.causes;
    auto const own = std::find_if(causes.begin(), causes.end(),
                                  [&](CauseEntryOf const& c) { return c.id == entry.cause && c.item == entry.item; });
    if (own == causes.end())
        return 0;
    std::size_t before = 0;
    for (auto const& other : causes)
    {
        bool const there =
            std::any_of(a.found.begin(), a.found.end(),
                        [&](FoundEntry const& f) { return f.was && f.cause == other.id && f.item == other.item; });
        before += !there && other.probability > own->probability ? 1U : 0U;
    }
    return before + 1;
}

} // namespace

void read_found(Workbench& w)
{
    for (std::size_t item = 1; item < w.property.things().size(); ++item)
        if (auto const* base = w.property.at(item).base)
            for (auto const& found : base->found)
            {
                take(w, item, found.was, true);
                take(w, item, found.was_not, false);
            }
    settle(w);
}

void weigh_found(Workbench& w, Weighed& weighed)
{
    if (w.out.found.empty() || !weighed.all.possible)
        return;
    auto const& causes = weighed.network.causes();
    std::set<std::size_t> looked_into;
    for (auto const& entry : w.out.found)
        if (entry.meaning != FoundMeaning::unclear)
            looked_into.insert(entry.item);
    for (std::size_t const item : looked_into)
    {
        ItemLookedInto looked{item, {}};
        for (std::size_t c = 0; c < causes.size(); ++c)
            if (causes[c].item == item && !weighed.network.unknown(c))
                looked.chances.emplace_back(*causes[c].id, weighed.all.causes[c]);
        w.out.looked_into.push_back(std::move(looked));
    }
    for (auto& entry : w.out.found)
        for (std::size_t c = 0; c < causes.size() && entry.meaning == FoundMeaning::cause; ++c)
        {
            if (causes[c].item != entry.item || *causes[c].id != entry.cause)
                continue;
            entry.prior = causes[c].prior;
            entry.probability = weighed.all.causes[c];
            entry.rank = rank_of(w.out, entry);
            if (entry.was)
                add_shown(w, weighed, c, entry);
        }
}

} // namespace padwalk::assess
