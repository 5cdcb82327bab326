#include "judge.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace padwalk::assess
{
namespace
{

constexpr double most_weight = 25.0; ///< natural log of the odds; beyond it a number says no more than 'settled'

double log_odds(double p)
{
    if (p <= 0)
        return -most_weight;
    if (p >= 1)
        return most_weight;
    return std::clamp(std::log(p) - std::log1p(-p), -most_weight, most_weight);
}

struct Candidate
{
    std::size_t cause;
    bool first;
    double p;
};

// Many causes may share what one would be likely for: none is named, and yet a trade must come. Where the causes of a
// trade together are likely enough to send it, its likeliest few are named too.
void add_shared(Workbench& w, Weighed const& weighed, std::vector<Candidate>& candidates)
{
    constexpr std::size_t most_of_a_trade = 4;
    constexpr double least = 0.02; ///< below it a cause is not worth a line; judgement
    double const referred = w.rules.act("referred"), lifted = w.rules.act("lifted");
    auto const& causes = weighed.network.causes();
    for (auto const& trade : w.engine.knowledge().trades)
    {
        std::string const& id = trade.first;
        double none = 1.0;
        std::size_t already = 0;
        std::vector<Candidate> more;
        for (std::size_t c = 0; c < causes.size(); ++c)
        {
            double const p = weighed.all.causes[c];
            bool const calls = causes[c].entry->urgency > Urgency::watch;
            if (causes[c].entry->trade != id || !calls || p < least || p < lifted * causes[c].prior)
                continue;
            none *= 1 - p;
            bool const named =
                std::any_of(candidates.begin(), candidates.end(), [&](Candidate const& k) { return k.cause == c; });
            already += named ? 1U : 0U;
            if (!named)
                more.push_back({c, false, p});
        }
        if (1 - none < referred)
            continue;
        std::stable_sort(more.begin(), more.end(), [](Candidate const& a, Candidate const& b) { return a.p > b.p; });
        for (std::size_t i = 0; i < more.size() && already + i < most_of_a_trade; ++i)
            candidates.push_back(more[i]);
    }
}

} // namespace

Weighed weigh(Workbench& w)
{
    Weighed out{PropertyNetwork(w.property, w.engine.knowledge()), w.evidence, {}, {}, {}, {}};
    // The findings enter the network in an order of their own: the order of the notes leaves no trace, to the last bit.
    std::set<std::pair<std::string, std::size_t>> places;
    for (auto const& finding : w.out.findings)
        places.insert({finding.id, finding.item});
    for (auto const& [id, item] : places)
        out.network.finding(id, item);
    for (std::size_t i = 0; i < out.evidence.size(); ++i)
        out.evidence[i].finding = out.network.finding(w.out.findings[i].id, w.out.findings[i].item);
    out.all = diagnosis::posterior(out.network.network(), out.evidence);
    for (std::size_t i = 0; i < out.evidence.size() && out.all.possible; ++i)
    {
        auto rest = out.evidence;
        rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(i));
        out.without.push_back(diagnosis::posterior(out.network.network(), rest));
    }
    return out;
}

void name_causes(Workbench& w, Weighed& weighed)
{
    if (!weighed.all.possible || w.out.findings.empty())
        return;
    double const named = w.rules.act("named"), lifted = w.rules.act("lifted"), danger = w.rules.act("danger_referred");
    std::vector<Candidate> candidates;
    auto const& causes = weighed.network.causes();
    for (std::size_t c = 0; c < causes.size(); ++c)
    {
        double const p = weighed.all.causes[c];
        bool const hurts = causes[c].entry->hazard == diagnosis::Hazard::people;
        if (p >= named && p >= lifted * causes[c].prior)
            candidates.push_back({c, hurts && causes[c].entry->urgency == Urgency::stop_use && p >= danger, p});
    }
    add_shared(w, weighed, candidates);
    std::stable_sort(candidates.begin(), candidates.end(),
                     [](Candidate const& a, Candidate const& b) { return a.first != b.first ? a.first : a.p > b.p; });
    for (auto const& candidate : candidates)
    {
        auto const& at = causes[candidate.cause];
        auto const& e = *at.entry;
        CauseEntryOf cause{*at.id,
                           e.name,
                           e.meaning,
                           e.ask,
                           e.meanwhile,
                           at.item,
                           at.prior,
                           candidate.p,
                           urgency_of(w, e, candidate.p),
                           e.hazard == diagnosis::Hazard::people,
                           e.trade,
                           e.cautions,
                           {},
                           {}};
        for (std::size_t i = 0; i < weighed.without.size(); ++i)
        {
            if (!weighed.without[i].possible)
                continue;
            double const weight = log_odds(candidate.p) - log_odds(weighed.without[i].causes[candidate.cause]);
            if (weight > 0.1)
                cause.speaks_for.push_back({i, weight});
            if (weight < -0.1)
                cause.speaks_against.push_back({i, weight});
        }
        auto strongest = [](WeightEntry const& a, WeightEntry const& b)
        { return std::abs(a.log_odds) > std::abs(b.log_odds); };
        std::stable_sort(cause.speaks_for.begin(), cause.speaks_for.end(), strongest);
        std::stable_sort(cause.speaks_against.begin(), cause.speaks_against.end(), strongest);
        w.out.causes.push_back(std::move(cause));
        weighed.shown.push_back(candidate.cause);
    }
}

void look_for_conflict(Workbench& w, Weighed const& weighed)
{
    if (!weighed.all.possible)
    {
        w.out.conflict = "These findings cannot all be true as this tool understands them. Look again at what was "
                         "noted as seen and as not seen.";
        return;
    }
    double const rare = w.rules.act("stands_out");
    for (std::size_t i = 0; i < weighed.without.size(); ++i)
    {
        if (!weighed.without[i].possible)
            continue;
        double const given_rest = std::exp(weighed.all.log_evidence - weighed.without[i].log_evidence);
        auto const& finding = w.out.findings[i];
        double explained = 0;
        for (auto const& parent : weighed.network.network().findings[weighed.evidence[i].finding].parents)
            explained = std::max(explained, weighed.all.causes[parent.cause]);
        bool const unexplained = finding.state == FindingState::seen && explained < w.rules.act("referred");
        bool const missing = finding.state == FindingState::not_seen && !finding.computed;
        if (given_rest >= rare || !(unexplained || missing))
            continue;
        w.out.conflict += w.out.conflict.empty() ? "Not everything fits together. " : " ";
        w.out.conflict += "\"" + finding.name + "\" (" + w.name(finding.item) + ") was " +
                          (missing ? "looked for and not found" : "found") +
                          ", where all else that was noted makes that less likely than one in " +
                          std::to_string(static_cast<int>(std::lround(1 / rare))) +
                          (unexplained ? ", and no cause known here explains it well." : ".") + " Look at it again.";
    }
}

void raise_alarms(Workbench& w)
{
    for (std::size_t i = 0; i < w.out.findings.size(); ++i)
    {
        auto const& finding = w.out.findings[i];
        auto const& entry = *w.engine.knowledge().finding(finding.id);
        if (!entry.if_seen)
            continue;
        bool const stops = entry.if_seen->urgency == Urgency::stop_use;
        // Where it is about stopping use, the doubt is given to the people.
        if (finding.probability > (stops ? 0.5 : 0.75))
            w.out.alarms.push_back({finding.item, i, entry.if_seen->urgency, entry.if_seen->say, entry.if_seen->trade,
                                    entry.if_seen->cautions});
    }
    std::stable_sort(w.out.alarms.begin(), w.out.alarms.end(),
                     [](Alarm const& a, Alarm const& b) { return a.urgency > b.urgency; });
}

void judge(Workbench& w)
{
    raise_alarms(w);
    try
    {
        Weighed weighed = weigh(w);
        name_causes(w, weighed);
        look_for_conflict(w, weighed);
        choose_checks(w, weighed);
        name_undecided(w, weighed);
    }
    catch (diagnosis::TooEntangled const&)
    {
        w.out.conflict = "So many findings hang together here that their causes could not be weighed exactly; what "
                         "follows rests on the findings themselves.";
    }
    refer(w);
    give_verdicts(w);
    summarise(w);
    collect_cautions_and_sources(w);
}

} // namespace padwalk::assess
