// What was seen and has no likely cause: it can't be told from here, and what would decide it.
#include "judge.hpp"

#include <algorithm>
#include <set>

namespace padwalk::assess
{
namespace
{

using Place = std::pair<std::string, std::size_t>;

// The causes that this finding, by whichever note or reading, speaks for.
std::vector<std::size_t> causes_behind(Workbench const& w, Weighed const& weighed, std::size_t finding)
{
    Place const place{w.out.findings[finding].id, w.out.findings[finding].item};
    std::vector<std::size_t> out;
    bool const together = std::any_of(w.patterns.begin(), w.patterns.end(),
                                      [&](ReadingsPattern const& p) { return p.finding == finding; });
    if (together) // its links are those of this loop alone
    {
        auto const& parents = weighed.network.network().findings[weighed.evidence[finding].finding].parents;
        for (std::size_t c = 0; c < w.out.causes.size(); ++c)
            if (std::any_of(parents.begin(), parents.end(),
                            [&](diagnosis::Link const& l) { return l.cause == weighed.shown[c]; }))
                out.push_back(c);
        return out;
    }
    for (std::size_t c = 0; c < w.out.causes.size(); ++c)
    {
        auto const& shows = w.engine.knowledge().cause(w.out.causes[c].id)->shows;
        bool const shown = std::any_of(shows.begin(), shows.end(),
                                       [&](diagnosis::Shows const& s) { return s.finding == place.first; });
        if (shown && w.property.related(w.out.causes[c].item, place.second))
            out.push_back(c);
    }
    return out;
}

// The check that tells most of these causes for its time, on something that they show.
PossibleCheck const* decider(Workbench const& w, Weighed const& weighed, std::vector<std::size_t> const& causes)
{
    std::set<Place> shown;
    for (std::size_t const c : causes)
        for (auto const& link : w.engine.knowledge().cause(w.out.causes[c].id)->shows)
            for (std::size_t const at :
                 w.property.of_kind(w.engine.knowledge().finding(link.finding)->item, w.out.causes[c].item))
                shown.insert({link.finding, at});
    PossibleCheck const* best = nullptr;
    double most = 0;
    for (auto const& check : weighed.checks)
    {
        double told = 0;
        for (std::size_t const c : causes)
            told += c < check.by_cause.size() ? check.by_cause[c] : 0;
        constexpr double coming = 30, setup = 2; // minutes, judged: of a technician who must come, of anyone
        bool const must_come = check.entry->who == std::vector{diagnosis::Who::technician};
        double const rate = told / (check.entry->minutes.value() + setup + (must_come ? coming : 0));
        if (shown.contains(check.settles) && rate > most)
        {
            most = rate;
            best = &check;
        }
    }
    return best;
}

} // namespace

void name_undecided(Workbench& w, Weighed const& weighed)
{
    std::set<Place> met;
    for (std::size_t i = 0; i < w.out.findings.size(); ++i)
    {
        auto const& finding = w.out.findings[i];
        // A reading that was weighed with the others is not undecided by itself.
        bool const of_many = std::any_of(w.patterns.begin(), w.patterns.end(),
                                         [&](ReadingsPattern const& p) { return p.speaks_for(i); });
        if (finding.state != FindingState::seen || finding.id == "level_holds" || of_many ||
            !met.insert({finding.id, finding.item}).second)
            continue;
        auto causes = causes_behind(w, weighed, i);
        bool const explained =
            std::any_of(causes.begin(), causes.end(),
                        [&](std::size_t c) { return w.out.causes[c].probability >= w.rules.act("referred"); });
        bool const alarmed =
            std::any_of(w.out.alarms.begin(), w.out.alarms.end(), [&](Alarm const& a) { return a.finding == i; });
        if (explained || alarmed)
            continue;
        Undecided entry{i, std::move(causes), {}, {}, 0, {}, {}};
        if (auto const* check = decider(w, weighed, entry.causes))
        {
            entry.decides = check->entry->name;
            entry.needs = check->entry->needs;
            entry.cautions = check->entry->cautions;
            entry.minutes = check->entry->minutes.value();
            for (auto const who : check->entry->who)
                entry.by_whom.push_back(fields::words_of<diagnosis::Who>::words()[static_cast<std::size_t>(who)]);
        }
        w.out.undecided.push_back(std::move(entry));
    }
}

} // namespace padwalk::assess
