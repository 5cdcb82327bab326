#include "judge.hpp"

#include "telling.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace padwalk::assess
{
void add_once(std::vector<std::string>& list, std::vector<std::string> const& more)
{
    for (auto const& entry : more)
        if (std::find(list.begin(), list.end(), entry) == list.end())
            list.push_back(entry);
}

bool stops(CauseEntryOf const& cause)
{
    return cause.hurts_people && cause.urgency == Urgency::stop_use;
}

double told_log_odds(double p)
{
    constexpr double most_weight = 25.0; // natural log of the odds; beyond it a number says no more than 'settled'
    if (p <= 0)
        return -most_weight;
    if (p >= 1)
        return most_weight;
    return std::clamp(std::log(p) - std::log1p(-p), -most_weight, most_weight);
}

namespace
{

struct Candidate
{
    std::size_t cause;
    bool first;
    double p;
};

/// The causes of one trade that the evidence raised, and the chance that at least one of them is there.
struct TradeShare
{
    double together = 0.0;
    double unnamed = 0.0; ///< the same of those that are not named
    std::size_t named = 0;
    std::vector<Candidate> more;
};

TradeShare share_of_trade(Workbench const& w, Weighed const& weighed, std::string const& trade,
                          std::vector<Candidate> const& candidates)
{
    constexpr double least = 0.02; ///< below it a cause is not worth a line; judgement
    double const lifted = w.rules.act("lifted");
    TradeShare out;
    double none_unnamed = 1.0;
    std::vector<std::size_t> raised;
    auto const& causes = weighed.network.causes();
    for (std::size_t c = 0; c < causes.size(); ++c)
    {
        double const p = weighed.all.causes[c];
        bool const calls = causes[c].entry->urgency > Urgency::watch;
        if (causes[c].entry->trade != trade || !calls || p < least || p < lifted * causes[c].prior)
            continue;
        raised.push_back(c);
        if (std::any_of(candidates.begin(), candidates.end(), [&](Candidate const& k) { return k.cause == c; }))
            ++out.named;
        else
        {
            out.more.push_back({c, false, p});
            none_unnamed *= 1 - p;
        }
    }
    // Not by their chances alone: where one of several explains what was seen, it is the one or the other.
    out.together = raised.empty() ? 0.0 : 1 - chance_of_none(weighed, raised);
    out.unnamed = 1 - none_unnamed;
    std::stable_sort(out.more.begin(), out.more.end(),
                     [](Candidate const& x, Candidate const& y) { return x.p > y.p; });
    return out;
}

// The finding that was seen and that this cause shows most often; the count of findings if there is none.
std::size_t shown_by(Workbench const& w, Weighed const& weighed, std::size_t cause)
{
    std::size_t found = w.out.findings.size();
    double most = 0;
    for (std::size_t i = 0; i < weighed.evidence.size(); ++i)
        if (w.out.findings[i].state == FindingState::seen)
            for (auto const& parent : weighed.network.network().findings[weighed.evidence[i].finding].parents)
                if (parent.cause == cause && parent.weight > most)
                {
                    most = parent.weight;
                    found = i;
                }
    return found;
}

// Many causes may share what one would be likely for: none is named, and yet a trade must come. Where the causes of a
// trade together are likely enough to send it, its likeliest few are named too; for one finding one trade is enough.
void add_shared(Workbench& w, Weighed const& weighed, std::vector<Candidate>& candidates)
{
    constexpr std::size_t most_of_a_trade = 4;
    std::vector<TradeShare> shares;
    for (auto const& trade : w.engine.knowledge().trades)
    {
        shares.push_back(share_of_trade(w, weighed, trade.first, candidates));
        w.trade_chance[trade.first] = shares.back().together;
    }
    std::stable_sort(shares.begin(), shares.end(),
                     [](TradeShare const& x, TradeShare const& y) { return x.unnamed > y.unnamed; });
    std::set<std::size_t> cared_for;
    for (auto const& share : shares)
    {
        if (share.together < w.rules.act("referred") || share.more.empty())
            continue;
        if (!cared_for.insert(shown_by(w, weighed, share.more.front().cause)).second)
            continue;
        for (std::size_t i = 0; i < share.more.size() && share.named + i < most_of_a_trade; ++i)
            candidates.push_back(share.more[i]);
    }
}

constexpr diagnosis::Evidence says_nothing{0, 1.0, 1.0};

// What was noticed about a finding goes before what was computed; two contrary notes cancel, and are asked about.
void settle_clashes(Workbench& w, std::vector<diagnosis::Evidence>& evidence)
{
    auto const& findings = w.out.findings;
    for (std::size_t i = 0; i < findings.size(); ++i)
        for (std::size_t k = i + 1; k < findings.size(); ++k)
        {
            if (findings[i].id != findings[k].id || findings[i].item != findings[k].item)
                continue;
            if (findings[i].computed != findings[k].computed)
            {
                std::size_t const computed = findings[i].computed ? i : k;
                std::size_t const noted = findings[i].computed ? k : i;
                bool const contrary = findings[computed].state != FindingState::unclear &&
                                      findings[computed].state != findings[noted].state;
                if (contrary)
                    w.out.conflict += (w.out.conflict.empty() ? "" : " ") +
                                      ("What was noted of \"" + findings[noted].name) + "\" (" +
                                      w.name(findings[noted].item) +
                                      ") and what the readings say of it are contrary; the note was taken.";
                evidence[computed] = says_nothing;
            }
            else if (!findings[i].computed && findings[i].state != findings[k].state)
            {
                evidence[i] = evidence[k] = says_nothing;
                w.out.questions.push_back({findings[i].item,
                                           findings[i].from + " / " + findings[k].from,
                                           "say contrary things, so neither counts",
                                           {findings[i].name}});
            }
        }
}

// One gauge may speak of a loop and of its pump; everything else reads one item.
std::size_t place_of_reading(Workbench const& w, std::size_t item)
{
    Thing const& thing = w.property.at(item);
    return thing.entry.kind == "pump" && !thing.loops.empty() ? *thing.loops.begin() : item;
}

// Findings that follow from one reading and point the same way are one piece of evidence between them: each gets its
// share of the weight, the likelihood's root.
void share_readings(Workbench const& w, std::vector<diagnosis::Evidence>& evidence)
{
    std::map<std::pair<std::string, std::size_t>, std::vector<std::size_t>> groups;
    for (std::size_t i = 0; i < evidence.size(); ++i)
        if (!w.shared_reading[i].empty() && w.out.findings[i].probability > 0.5)
            groups[{w.shared_reading[i], place_of_reading(w, w.out.findings[i].item)}].push_back(i);
    for (auto const& [reading, members] : groups)
        for (std::size_t const i : members)
        {
            double const share = 1.0 / static_cast<double>(members.size());
            evidence[i].if_present = std::pow(evidence[i].if_present, share);
            evidence[i].if_absent = std::pow(evidence[i].if_absent, share);
        }
}

} // namespace

Weighed weigh(Workbench& w)
{
    Weighed out{PropertyNetwork(w.property, w.engine.knowledge()), w.evidence, {}, {}, {}, {}, {}};
    settle_clashes(w, out.evidence);
    share_readings(w, out.evidence);
    // The findings enter the network in an order of their own: the order of the notes leaves no trace, to the last bit.
    std::set<std::pair<std::string, std::size_t>> places;
    for (auto const& finding : w.out.findings)
        places.insert({finding.id, finding.item});
    for (auto const& [id, item] : places)
        out.network.finding(id, item);
    for (std::size_t i = 0; i < out.evidence.size(); ++i)
        out.evidence[i].finding = out.network.finding(w.out.findings[i].id, w.out.findings[i].item);
    lay_patterns(w, out);
    out.all = diagnosis::posterior(out.network.network(), out.evidence_without());
    for (std::size_t i = 0; i < out.evidence.size() && out.all.possible; ++i)
        out.without.push_back(diagnosis::posterior(out.network.network(), out.evidence_without(i)));
    return out;
}

std::vector<diagnosis::Evidence> Weighed::evidence_without(std::optional<std::size_t> finding) const
{
    std::vector<diagnosis::Evidence> out;
    for (std::size_t i = 0; i < evidence.size(); ++i)
        if (i != finding)
            out.push_back(evidence[i]);
    for (auto const& [of, more] : besides)
        if (of != finding)
            out.push_back(more);
    return out;
}

CauseEntryOf cause_as_told(Workbench const& w, Weighed const& weighed, std::size_t place)
{
    auto const& at = weighed.network.causes()[place];
    auto const& e = *at.entry;
    double const p = weighed.all.causes[place];
    CauseEntryOf cause{*at.id,
                       e.name,
                       e.meaning,
                       e.ask,
                       e.meanwhile,
                       at.item,
                       at.prior,
                       p,
                       urgency_of(w, e, p),
                       e.hazard == diagnosis::Hazard::people,
                       e.trade,
                       e.cautions,
                       {},
                       {}};
    constexpr double worth_telling = 0.1; // of the log odds
    for (std::size_t i = 0; i < weighed.without.size(); ++i)
    {
        if (!weighed.without[i].possible)
            continue;
        double const weight = told_log_odds(p) - told_log_odds(weighed.without[i].causes[place]);
        if (weight > worth_telling)
            cause.speaks_for.push_back({i, weight});
        if (weight < -worth_telling)
            cause.speaks_against.push_back({i, weight});
    }
    auto strongest = [](WeightEntry const& a, WeightEntry const& b)
    { return std::abs(a.log_odds) > std::abs(b.log_odds); };
    std::stable_sort(cause.speaks_for.begin(), cause.speaks_for.end(), strongest);
    std::stable_sort(cause.speaks_against.begin(), cause.speaks_against.end(), strongest);
    return cause;
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
        if (!weighed.network.unknown(c) && p >= named && p >= lifted * causes[c].prior)
            candidates.push_back({c, hurts && causes[c].entry->urgency == Urgency::stop_use && p >= danger, p});
    }
    add_shared(w, weighed, candidates);
    std::stable_sort(candidates.begin(), candidates.end(),
                     [](Candidate const& a, Candidate const& b) { return a.first != b.first ? a.first : a.p > b.p; });
    for (auto const& candidate : candidates)
    {
        w.out.causes.push_back(cause_as_told(w, weighed, candidate.cause));
        weighed.shown.push_back(candidate.cause);
    }
}

namespace
{

// A suction outlet closes the waters that it draws from.
std::vector<std::size_t> closed_by(Workbench const& w, std::size_t item, diagnosis::IfSeen const& follows)
{
    bool const suction =
        std::find(follows.cautions.begin(), follows.cautions.end(), "suction_entrapment") != follows.cautions.end();
    if (follows.urgency != Urgency::stop_use || !suction)
        return {};
    Thing const& thing = w.property.at(item);
    std::vector<std::size_t> out(thing.waters.begin(), thing.waters.end());
    if (thing.property_wide) // said of none in particular: of each
        for (std::size_t i = 0; i < w.property.things().size(); ++i)
            if (w.property.at(i).entry.kind == "water")
                out.push_back(i);
    return out;
}

// Keys of sources that a sentence names in square brackets.
void cite_from(Workbench& w, std::string const& text)
{
    for (std::size_t from = text.find('['); from != std::string::npos; from = text.find('[', from + 1))
        if (std::size_t const to = text.find(']', from); to != std::string::npos)
            if (std::string key = text.substr(from + 1, to - from - 1); w.engine.bibliography().contains(key))
                w.cited.insert(std::move(key));
}

} // namespace

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
        double const from = entry.if_seen->alarm_from ? entry.if_seen->alarm_from->value()
                                                      : w.rules.act(stops ? "alarm_stops" : "alarm");
        if (finding.probability > from)
        {
            auto const by_reading = w.at_once.find({finding.item, finding.id});
            std::string const& say = by_reading == w.at_once.end() ? entry.if_seen->say : by_reading->second;
            w.out.alarms.push_back({finding.item, i, entry.if_seen->urgency, say, entry.if_seen->trade,
                                    entry.if_seen->cautions, closed_by(w, finding.item, *entry.if_seen)});
            cite_from(w, say);
        }
    }
    auto rank = [&](Alarm const& alarm) { return w.rules.danger_rank(alarm.cautions); };
    auto leaves = [&](Alarm const& alarm)
    { return w.engine.knowledge().finding(w.out.findings[alarm.finding].id)->if_seen->leave.value_or(false); };
    std::stable_sort(w.out.alarms.begin(), w.out.alarms.end(),
                     [&](Alarm const& a, Alarm const& b)
                     {
                         if (a.urgency != b.urgency)
                             return a.urgency > b.urgency;
                         if (leaves(a) !=
                             leaves(b)) // where everyone must go, that is said before what is to be put right
                             return leaves(a);
                         return rank(a) < rank(b);
                     });
}

namespace
{

void judge_with(Workbench& w, std::vector<Telling>* telling)
{
    raise_alarms(w);
    try
    {
        Weighed weighed = weigh(w);
        name_causes(w, weighed);
        explain_items(w, weighed);
        try_robustness(w, weighed);
        look_for_conflict(w, weighed);
        weigh_checks(w, weighed);
        choose_checks(w, weighed);
        name_undecided(w, weighed);
        explain_asked(w, weighed);
        place_faults(w);
        weigh_found(w, weighed);
        if (telling != nullptr)
            *telling = what_tells(w, weighed);
    }
    catch (diagnosis::TooEntangled const&)
    {
        w.out.conflict = "So many findings hang together here that their causes could not be weighed exactly; what "
                         "follows rests on the findings themselves.";
    }
    refer(w);
    choose_trade_checks(w);
    name_licences(w);
    give_verdicts(w);
    summarise(w);
    collect_cautions_and_sources(w);
}

} // namespace

void judge(Workbench& w)
{
    judge_with(w, nullptr);
}

void judge(Workbench& w, std::vector<Telling>& telling)
{
    judge_with(w, &telling);
}

} // namespace padwalk::assess
