// Which check, that this person may safely do here, would tell most.
#include "checks.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace padwalk::assess
{
namespace
{

constexpr std::size_t most_causes = 8; ///< the check is to decide among these
constexpr std::size_t most_checks = 6;

double entropy_bits(double p)
{
    return p <= 0 || p >= 1 ? 0.0 : -(p * std::log2(p) + (1 - p) * std::log2(1 - p));
}

} // namespace

std::vector<Decision> decisions(Workbench const& w, Weighed const& weighed)
{
    auto const& causes = weighed.network.causes();
    std::vector<Decision> out;
    auto decide = [&](double weight, std::string const* trade, auto const& belongs)
    {
        Decision one{{}, weight, trade};
        for (std::size_t c = 0; c < causes.size(); ++c)
            if (!weighed.network.unknown(c) && belongs(*causes[c].entry))
                one.causes.push_back(c);
        if (!one.causes.empty())
            out.push_back(std::move(one));
    };
    using diagnosis::CauseEntry;
    for (auto const& trade : w.engine.knowledge().trades)
        decide(w.rules.act("decides_trade"), &trade.first,
               [&](CauseEntry const& c) { return c.trade == trade.first && c.urgency > Urgency::watch; });
    decide(w.rules.act("decides_safety"), nullptr,
           [](CauseEntry const& c) { return c.hazard == diagnosis::Hazard::people && c.urgency == Urgency::stop_use; });
    decide(w.rules.act("decides_urgency"), nullptr, [](CauseEntry const& c) { return c.urgency >= Urgency::soon; });
    for (std::size_t k = 0; k < weighed.shown.size() && k < most_causes; ++k)
        out.push_back({{weighed.shown[k]}, w.rules.act("decides_cause"), nullptr});
    return out;
}

Look worth(Workbench& w, Weighed& weighed, std::vector<Decision> const& open, std::string const& id, std::size_t item)
{
    std::size_t const place = weighed.network.finding(id, item);
    auto with = weighed.evidence_without();
    with.push_back(diagnosis::seen(place));
    auto const seen = diagnosis::posterior(weighed.network.network(), with);
    Look look;
    if (!seen.possible)
        return look;
    double const p = look.probability = std::min(1.0, std::exp(seen.log_evidence - weighed.all.log_evidence));
    auto now = [&](std::size_t c) { return weighed.all.causes[c]; };
    auto yes = [&](std::size_t c) { return seen.causes[c]; };
    auto no = [&](std::size_t c) { return p < 1 ? std::clamp((now(c) - p * yes(c)) / (1 - p), 0.0, 1.0) : now(c); };
    double const sent = w.rules.act("referred");
    for (auto const& decision : open)
    {
        double const before = decision.probability(now);
        double const there = decision.probability(yes), away = decision.probability(no);
        look.gain += decision.weight * (entropy_bits(before) - p * entropy_bits(there) - (1 - p) * entropy_bits(away));
        if (decision.trade == nullptr)
            continue;
        auto const& name = w.engine.knowledge().trade(*decision.trade)->plural;
        if (look.sends.empty() && before < sent && there >= sent)
            look.sends = name;
        if (look.spares.empty() && before >= sent && away < sent)
            look.spares = name;
    }
    double largest = 0;
    for (std::size_t k = 0; k < weighed.shown.size() && k < most_causes; ++k)
    {
        std::size_t const c = weighed.shown[k];
        look.by_cause.push_back(
            std::max(0.0, entropy_bits(now(c)) - p * entropy_bits(yes(c)) - (1 - p) * entropy_bits(no(c))));
        if (std::abs(yes(c) - now(c)) > largest)
        {
            largest = std::abs(yes(c) - now(c));
            look.cause = k;
            look.if_seen = yes(c);
            look.if_not = no(c);
        }
    }
    return look;
}

// At least half of what was not tested, and two words of it or all, stand in the check's own name and needs.
bool said_impossible(Workbench const& w, std::size_t item, diagnosis::CheckEntry const& check)
{
    auto const told = visit::content_stems(check.name + " " + check.needs);
    for (auto const& entry : w.out.not_tested)
    {
        if (entry.item != item)
            continue;
        auto const said = visit::content_stems(entry.what);
        auto const common = static_cast<std::size_t>(
            std::count_if(said.begin(), said.end(),
                          [&](std::string const& s) { return std::find(told.begin(), told.end(), s) != told.end(); }));
        if (2 * common >= said.size() && (common >= 2 || (common == said.size() && common > 0)))
            return true;
    }
    return false;
}

bool may_be(Thing const& thing, diagnosis::CheckEntry const& check)
{
    return std::all_of(check.only_if.begin(), check.only_if.end(),
                       [&](std::string const& context) { return thing.possible.contains(context); });
}

namespace
{

std::string percent(double p)
{
    return std::to_string(static_cast<int>(std::lround(100 * p))) + " %";
}

} // namespace

diagnosis::Who who_walks(Workbench const& w)
{
    switch (w.out.by.value_or(visit::By::inspector))
    {
    case visit::By::technician: return diagnosis::Who::technician;
    case visit::By::owner: return diagnosis::Who::owner;
    case visit::By::inspector: break;
    }
    return diagnosis::Who::inspector;
}

bool too_dangerous(Workbench const& w, std::size_t item)
{
    auto stands_in_the_way = [&](std::size_t danger)
    {
        Thing const& thing = w.property.at(item);
        return danger == item || (!thing.water_side && w.property.related(danger, item));
    };
    for (auto const& alarm : w.out.alarms)
    {
        auto const& follows = w.engine.knowledge().finding(w.out.findings[alarm.finding].id)->if_seen;
        if (follows->leave.value_or(false))
            return true;
        if (alarm.urgency == Urgency::stop_use && stands_in_the_way(alarm.item))
            return true;
    }
    return std::any_of(w.out.causes.begin(), w.out.causes.end(),
                       [&](CauseEntryOf const& cause) {
                           return cause.hurts_people && cause.urgency == Urgency::stop_use &&
                                  stands_in_the_way(cause.item);
                       });
}

namespace
{

/// What is known before any check: the findings at hand, and those that the causes in question would show.
struct AtHand
{
    std::set<std::pair<std::string, std::size_t>> known;
    std::set<std::string> told_by_causes;
    std::vector<Decision> open;
    std::map<std::pair<std::string, std::size_t>, Look> looks;
};

AtHand at_hand(Workbench const& w, Weighed const& weighed)
{
    AtHand out;
    out.open = decisions(w, weighed);
    for (auto const& finding : w.out.findings)
        out.known.insert({finding.id, finding.item});
    for (std::size_t k = 0; k < weighed.shown.size() && k < most_causes; ++k)
        for (auto const& link : weighed.network.causes()[weighed.shown[k]].entry->shows)
            out.told_by_causes.insert(link.finding);
    return out;
}

// What a check at an item would tell of the causes in question; gain 0 if nothing.
PossibleCheck weigh_check(Workbench& w, Weighed& weighed, AtHand& hand, std::string const& id,
                          diagnosis::CheckEntry const& entry, std::size_t item)
{
    PossibleCheck out{&id, &entry, item, 0.0, {}, {}, {}, {}, {}};
    Look best;
    std::string best_name;
    for (auto const& told : entry.tells)
    {
        auto const& finding = *w.engine.knowledge().finding(told);
        for (std::size_t const at : w.property.of_kind(finding.item, item))
        {
            if (!hand.told_by_causes.contains(told) || hand.known.contains({told, at}))
                continue;
            auto const [look, fresh] = hand.looks.try_emplace({told, at});
            if (fresh)
                look->second = worth(w, weighed, hand.open, told, at);
            out.tells.push_back(finding.name);
            out.by_cause.resize(std::max(out.by_cause.size(), look->second.by_cause.size()), 0.0);
            for (std::size_t k = 0; k < look->second.by_cause.size(); ++k)
                out.by_cause[k] = std::max(out.by_cause[k], look->second.by_cause[k]);
            if (look->second.gain <= best.gain)
                continue;
            best = look->second;
            best_name = finding.name;
            out.settles = {told, at};
        }
    }
    out.gain = best.gain;
    if (best.gain > 0)
    {
        auto const& cause = w.out.causes[best.cause];
        out.changes = "if seen: " + best_name + " (" + percent(best.probability) + " likely), then " + cause.name +
                      " goes from " + percent(cause.probability) + " to " + percent(best.if_seen) +
                      (best.sends.empty() ? "" : ", and that calls for the " + best.sends);
        out.otherwise = "if not: " + cause.name + " goes to " + percent(best.if_not) +
                        (best.spares.empty() ? "" : ", and the " + best.spares + " need not come for it");
    }
    return out;
}

double per_minute(PossibleCheck const& check)
{
    return check.gain / (check.entry->minutes.value() + setup_minutes);
}

} // namespace

void weigh_checks(Workbench& w, Weighed& weighed)
{
    if (!weighed.all.possible || w.out.causes.empty())
        return;
    AtHand hand = at_hand(w, weighed);
    for (auto const& [id, entry] : w.engine.knowledge().checks)
        for (std::size_t item = 1; item < w.property.things().size(); ++item)
        {
            bool const is_there = w.property.at(item).entry.kind == entry.item && may_be(w.property.at(item), entry);
            if (!is_there || said_impossible(w, item, entry) || too_dangerous(w, item))
                continue;
            auto possible = weigh_check(w, weighed, hand, id, entry, item);
            constexpr double one_visit = 120; // minutes, judgement
            bool const takes_long = entry.minutes.value() > one_visit;
            if (possible.gain >= w.rules.act(takes_long ? "long_check_worth" : "check_worth"))
                weighed.checks.push_back(std::move(possible));
        }
    std::stable_sort(weighed.checks.begin(), weighed.checks.end(),
                     [](PossibleCheck const& a, PossibleCheck const& b) { return per_minute(a) > per_minute(b); });
}

void choose_checks(Workbench& w, Weighed const& weighed)
{
    auto const who = who_walks(w);
    std::set<std::pair<std::string, std::size_t>> settled;
    for (auto const& check : weighed.checks)
    {
        auto const& may = check.entry->who;
        if (std::find(may.begin(), may.end(), who) == may.end() || w.out.next.size() >= most_checks)
            continue;
        if (!settled.insert(check.settles).second)
            continue; // a quicker check settles the same
        w.out.next.push_back({*check.id, check.entry->name, check.entry->needs, check.item,
                              check.entry->minutes.value(), check.gain, check.tells, check.entry->cautions,
                              check.changes, check.otherwise, check.entry->risk, check.entry->if_so,
                              check.entry->if_not});
    }
}

} // namespace padwalk::assess
