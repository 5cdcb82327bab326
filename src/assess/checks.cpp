// Which check, that this person may safely do here, would tell most.
#include "judge.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace padwalk::assess
{
namespace
{

constexpr std::size_t most_causes = 8; ///< the check is to decide among these
constexpr std::size_t most_checks = 6;
constexpr double setup_minutes = 2.0; ///< getting to it and writing it down, judged

double entropy_bits(double p)
{
    return p <= 0 || p >= 1 ? 0.0 : -(p * std::log2(p) + (1 - p) * std::log2(1 - p));
}

struct Look
{
    double gain = 0.0;        ///< bits
    double probability = 0.0; ///< of seeing it
    std::size_t cause = 0;    ///< whose probability it would change most, in Assessment::causes
    double if_seen = 0.0;
};

// What looking for one finding is worth: the expected fall of the causes' uncertainty.
Look worth(Workbench& w, Weighed& weighed, std::string const& id, std::size_t item)
{
    std::size_t const place = weighed.network.finding(id, item);
    auto with = weighed.evidence;
    with.push_back(diagnosis::seen(place));
    auto const seen = diagnosis::posterior(weighed.network.network(), with);
    Look look;
    if (!seen.possible)
        return look;
    look.probability = std::min(1.0, std::exp(seen.log_evidence - weighed.all.log_evidence));
    double largest = 0;
    for (std::size_t k = 0; k < weighed.shown.size() && k < most_causes; ++k)
    {
        std::size_t const c = weighed.shown[k];
        double const now = weighed.all.causes[c];
        double const yes = seen.causes[c];
        double const no =
            look.probability < 1 ? std::clamp((now - look.probability * yes) / (1 - look.probability), 0.0, 1.0) : now;
        look.gain +=
            entropy_bits(now) - look.probability * entropy_bits(yes) - (1 - look.probability) * entropy_bits(no);
        if (std::abs(yes - now) > largest)
        {
            largest = std::abs(yes - now);
            look.cause = k;
            look.if_seen = yes;
        }
    }
    return w.out.causes.empty() ? Look{} : look;
}

double per_minute(NextCheck const& check)
{
    return check.gain / (check.minutes + setup_minutes);
}

// Of two checks that settle the same finding only the quicker one is worth proposing.
void keep_better(std::vector<NextCheck>& list, std::vector<std::pair<std::string, std::size_t>>& settles,
                 NextCheck next, std::pair<std::string, std::size_t> const& finding)
{
    for (std::size_t i = 0; i < list.size(); ++i)
        if (settles[i] == finding)
        {
            if (per_minute(next) > per_minute(list[i]))
                list[i] = std::move(next);
            return;
        }
    list.push_back(std::move(next));
    settles.push_back(finding);
}

// Whether the visit says that this was not to be done here: at least half of what was not tested, and two words of it
// or all, stand in the check's own name and needs.
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

std::string percent(double p)
{
    return std::to_string(static_cast<int>(std::lround(100 * p))) + " %";
}

} // namespace

void choose_checks(Workbench& w, Weighed& weighed)
{
    if (!weighed.all.possible || w.out.causes.empty())
        return;
    auto const who = static_cast<diagnosis::Who>(static_cast<int>(w.out.by.value_or(visit::By::inspector)));
    std::set<std::pair<std::string, std::size_t>> known;
    for (auto const& finding : w.out.findings)
        known.insert({finding.id, finding.item});
    std::set<std::string> told_by_causes;
    for (std::size_t k = 0; k < weighed.shown.size() && k < most_causes; ++k)
        for (auto const& link : weighed.network.causes()[weighed.shown[k]].entry->shows)
            told_by_causes.insert(link.finding);

    std::map<std::pair<std::string, std::size_t>, Look> looks;
    std::vector<std::pair<std::string, std::size_t>> settles; ///< what each check would settle best
    for (auto const& [id, check] : w.engine.knowledge().checks)
    {
        bool const may = std::find(check.who.begin(), check.who.end(), who) != check.who.end();
        for (std::size_t item = 1; item < w.property.things().size(); ++item)
        {
            if (w.property.at(item).entry.kind != check.item)
                continue;
            if (said_impossible(w, item, check))
                continue;
            NextCheck next{id, check.name, check.needs, item, check.minutes.value(), 0.0, {}, check.cautions, {}};
            Look best;
            std::string best_name;
            std::pair<std::string, std::size_t> best_finding;
            for (auto const& told : check.tells)
            {
                auto const* entry = w.engine.knowledge().finding(told);
                for (std::size_t const at : w.property.of_kind(entry->item, item))
                {
                    if (!told_by_causes.contains(told) || known.contains({told, at}))
                        continue;
                    auto const [look, fresh] = looks.try_emplace({told, at});
                    if (fresh)
                        look->second = worth(w, weighed, told, at);
                    next.tells.push_back(entry->name);
                    if (look->second.gain > best.gain)
                    {
                        best = look->second;
                        best_name = entry->name;
                        best_finding = {told, at};
                    }
                }
            }
            weighed.gains[id] = std::max(weighed.gains[id], best.gain);
            if (best.gain < 0.02 || !may)
                continue;
            next.gain = best.gain;
            auto const& cause = w.out.causes[best.cause];
            next.changes = "if seen: " + best_name + " (" + percent(best.probability) + " likely), then " + cause.name +
                           " goes from " + percent(cause.probability) + " to " + percent(best.if_seen);
            keep_better(w.out.next, settles, std::move(next), best_finding);
        }
    }
    std::stable_sort(w.out.next.begin(), w.out.next.end(),
                     [](NextCheck const& a, NextCheck const& b) { return per_minute(a) > per_minute(b); });
    if (w.out.next.size() > most_checks)
        w.out.next.resize(most_checks);
}

} // namespace padwalk::assess

namespace padwalk::assess
{

void name_undecided(Workbench& w, Weighed const& weighed)
{
    for (std::size_t i = 0; i < w.out.findings.size(); ++i)
    {
        auto const& finding = w.out.findings[i];
        if (finding.state != FindingState::seen || finding.id == "level_holds")
            continue;
        Undecided entry{i, {}, {}, {}, 0, {}};
        double likeliest = 0;
        for (std::size_t c = 0; c < w.out.causes.size(); ++c)
            for (auto const& weight : w.out.causes[c].speaks_for)
                if (weight.finding == i)
                {
                    entry.causes.push_back(c);
                    likeliest = std::max(likeliest, w.out.causes[c].probability);
                    break;
                }
        bool const alarmed =
            std::any_of(w.out.alarms.begin(), w.out.alarms.end(), [&](Alarm const& a) { return a.finding == i; });
        if (likeliest >= w.rules.act("referred") || alarmed)
            continue;
        double most = 0.02;
        for (auto const& [id, check] : w.engine.knowledge().checks)
        {
            auto const gain = weighed.gains.find(id);
            if (check.item != w.property.at(finding.item).entry.kind || gain == weighed.gains.end() ||
                gain->second <= most)
                continue;
            most = gain->second;
            entry.decides = check.name;
            entry.needs = check.needs;
            entry.minutes = check.minutes.value();
            entry.by_whom.clear();
            for (auto const who : check.who)
                entry.by_whom.push_back(fields::words_of<diagnosis::Who>::words()[static_cast<std::size_t>(who)]);
        }
        w.out.undecided.push_back(std::move(entry));
    }
}

} // namespace padwalk::assess
