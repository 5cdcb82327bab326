// What was seen, what may be behind it and what was found, at two visits.
#include "comparison_parts.hpp"

#include "matching.hpp"

#include <algorithm>
#include <map>

namespace padwalk::assess
{
namespace
{

constexpr char good_sign[] = "level_holds"; // the one finding that is no fault

using Looks = std::map<std::pair<std::size_t, std::string>, Looked>; // by item and finding

template <class At>
Looks looks_of(Assessment const& a, At const& at, std::vector<std::pair<std::size_t, std::string>>& order)
{
    Looks out;
    for (auto const& finding : a.findings)
    {
        std::pair const key{at(finding.item), finding.id};
        out[key].add(finding);
        if (std::find(order.begin(), order.end(), key) == order.end())
            order.push_back(key);
    }
    return out;
}

Standing standing_of(std::optional<FindingState> then, std::optional<FindingState> now)
{
    bool const was = then == FindingState::seen;
    if (now == FindingState::seen)
        return was ? Standing::open : Standing::fresh;
    if (was)
        return now == FindingState::not_seen ? Standing::resolved : Standing::open;
    return now == FindingState::not_seen ? Standing::well : Standing::not_told;
}

FindingCompared const* finding_at(Comparison const& c, std::size_t item, std::string const& id)
{
    auto const known = std::find_if(c.findings.begin(), c.findings.end(),
                                    [&](FindingCompared const& f) { return f.item == item && f.id == id; });
    return known == c.findings.end() ? nullptr : &*known;
}

CauseCompared& cause_at(Comparison& c, std::size_t item, std::string const& id, std::string const& name)
{
    for (auto& cause : c.causes)
        if (cause.item == item && cause.id == id)
            return cause;
    c.causes.push_back({item, id, name, {}, {}, 0, FoundAs::not_spoken, false, {}});
    return c.causes.back();
}

// Among the causes named at one item, by chance.
std::size_t rank_of(Assessment const& a, CauseEntryOf const& cause)
{
    return 1 + static_cast<std::size_t>(std::count_if(a.causes.begin(), a.causes.end(),
                                                      [&](CauseEntryOf const& other) {
                                                          return other.item == cause.item &&
                                                                 other.probability > cause.probability;
                                                      }));
}

template <class At>
void add_found(Comparison& c, Assessment const& a, At const& at, std::optional<double> CauseCompared::*chance)
{
    for (auto const& found : a.found)
    {
        if (found.meaning != FoundMeaning::cause)
        {
            if (found.was)
                c.other.push_back({at(found.item), found.words, found.meaning});
            continue;
        }
        auto& cause = cause_at(c, at(found.item), found.cause, found.name);
        cause.found = found.was ? FoundAs::confirmed : FoundAs::ruled_out;
        cause.stops_use = found.stops_use;
        cause.written = found.words;
        if (!(cause.*chance) && found.probability)
            cause.*chance = found.probability;
    }
}

double larger(CauseCompared const& cause)
{
    return std::max(cause.then.value_or(0), cause.now.value_or(0));
}

AlarmCompared alarm_of(Assessment const& a, Alarm const& alarm, std::size_t item, AlarmNow state)
{
    auto const& finding = a.findings.at(alarm.finding);
    return {item, finding.id, finding.name, alarm.urgency, alarm.say, alarm.trade, alarm.cautions, state};
}

int place_of(AlarmCompared const& alarm)
{
    return alarm.state == AlarmNow::gone ? 100 : -static_cast<int>(alarm.urgency);
}

} // namespace

void compare_findings(Pair& pair)
{
    std::vector<std::pair<std::size_t, std::string>> order;
    auto const now = looks_of(
        pair.now, [&](std::size_t i) { return pair.now_at(i); }, order);
    auto const then = looks_of(
        pair.then, [&](std::size_t i) { return pair.then_at(i); }, order);
    for (auto const& key : order)
    {
        FindingCompared c{key.first, key.second, {}, {}, {}, {}, {}, Standing::not_told};
        if (auto const found = then.find(key); found != then.end())
            c.then = found->second.state(), c.from_then = found->second.from, c.name = found->second.name;
        if (auto const found = now.find(key); found != now.end())
            c.now = found->second.state(), c.from_now = found->second.from, c.name = found->second.name;
        c.standing = c.id == good_sign ? Standing::well : standing_of(c.then, c.now);
        pair.out.findings.push_back(std::move(c));
    }
    std::stable_sort(pair.out.findings.begin(), pair.out.findings.end(),
                     [](FindingCompared const& a, FindingCompared const& b) { return a.item < b.item; });
}

void compare_causes(Pair& pair)
{
    auto& c = pair.out;
    for (auto const& cause : pair.now.causes)
        cause_at(c, pair.now_at(cause.item), cause.id, cause.name).now = cause.probability;
    for (auto const& cause : pair.then.causes)
    {
        auto& known = cause_at(c, pair.then_at(cause.item), cause.id, cause.name);
        known.then = cause.probability;
        known.rank_then = rank_of(pair.then, cause);
    }
    add_found(
        c, pair.then, [&](std::size_t i) { return pair.then_at(i); }, &CauseCompared::then);
    add_found(
        c, pair.now, [&](std::size_t i) { return pair.now_at(i); }, &CauseCompared::now);
    std::stable_sort(c.causes.begin(), c.causes.end(),
                     [](CauseCompared const& a, CauseCompared const& b)
                     {
                         if ((a.found == FoundAs::not_spoken) != (b.found == FoundAs::not_spoken))
                             return b.found == FoundAs::not_spoken;
                         if (a.found != b.found)
                             return a.found == FoundAs::confirmed;
                         return larger(a) > larger(b);
                     });
}

void compare_alarms(Pair& pair)
{
    auto& c = pair.out;
    for (auto const& alarm : pair.now.alarms)
    {
        auto one = alarm_of(pair.now, alarm, pair.now_at(alarm.item), AlarmNow::fresh);
        bool const was = std::any_of(pair.then.alarms.begin(), pair.then.alarms.end(),
                                     [&](Alarm const& before) {
                                         return pair.then_at(before.item) == one.item &&
                                                pair.then.findings.at(before.finding).id == one.finding;
                                     });
        one.state = was ? AlarmNow::stands : AlarmNow::fresh;
        c.alarms.push_back(std::move(one));
    }
    for (auto const& alarm : pair.then.alarms)
    {
        auto one = alarm_of(pair.then, alarm, pair.then_at(alarm.item), AlarmNow::not_looked_at);
        bool const there = std::any_of(c.alarms.begin(), c.alarms.end(),
                                       [&](AlarmCompared const& known)
                                       { return known.item == one.item && known.finding == one.finding; });
        if (there)
            continue;
        auto const* finding = finding_at(c, one.item, one.finding);
        if (finding != nullptr && finding->now == FindingState::not_seen)
            one.state = AlarmNow::gone;
        c.alarms.push_back(std::move(one));
    }
    std::stable_sort(c.alarms.begin(), c.alarms.end(),
                     [](AlarmCompared const& a, AlarmCompared const& b) { return place_of(a) < place_of(b); });
}

} // namespace padwalk::assess
