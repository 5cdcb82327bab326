// What the readings of a loop or a heater say together, as part of the network of causes.
//
// One finding, "the readings are as they are", is there for certain. A sound one shows it with the likelihood of its
// account (its leak), each cause that can be simulated with that of its own, relative to the best account: a noisy-OR
// like every other finding, so that one cause explains another away. A cause that accounts for less than a sound one
// can't lower it there; how much worse the best account fits with it beside is evidence on that cause alone.
#include "judge.hpp"
#include "loop_tables.hpp"

#include <algorithm>

namespace padwalk::assess
{
namespace
{

/// What the links of the knowledge say of a cause that can't be simulated.
struct ByLinks
{
    double shows = 0.0;  ///< how well it accounts for the gauges that showed something, each of them
    double absent = 1.0; ///< how much less likely what did not show makes it
};

ByLinks by_links(Workbench const& w, Weighed const& weighed, ReadingsPattern const& pattern, std::size_t cause)
{
    constexpr double by_chance = 0.05; // judgement: a gauge off that the cause has no link to is off for another reason
    ByLinks out;
    double shows = 1.0;
    bool linked = false;
    for (auto const& gauge : pattern.same_reading)
    {
        double here = by_chance;
        bool showed = false;
        for (std::size_t const i : gauge)
        {
            auto const& f = w.out.findings[i];
            double const weight = weighed.network.weight(cause, f.id, f.item);
            if (f.probability > 0.5)
            {
                showed = true;
                here = std::max(here, weight * f.probability);
                linked = linked || weight > 0;
            }
            else
                out.absent *= 1 - weight * (1 - f.probability);
        }
        if (showed)
            shows *= here;
    }
    out.shows = linked ? shows : 0.0;
    return out;
}

void silence(Weighed& weighed, std::size_t finding)
{
    weighed.evidence[finding] = {weighed.evidence[finding].finding, 1.0, 1.0};
}

/// The weight of noisy-OR with which a cause alone brings what was seen to this likelihood.
double weight_for(double account, double sound)
{
    return account <= sound || sound >= 1 ? 0.0 : 1 - (1 - account) / (1 - sound);
}

} // namespace

void lay_patterns(Workbench const& w, Weighed& weighed)
{
    for (auto const& pattern : w.patterns)
    {
        diagnosis::Finding all{"readings of " + w.name(pattern.item), pattern.sound, {}};
        auto const& causes = weighed.network.causes();
        std::vector<std::pair<std::size_t, double>> alone;
        for (std::size_t c = 0; c < causes.size(); ++c)
        {
            if (!w.property.related(causes[c].item, pattern.item) || pattern.leaves_out.contains(causes[c].item))
                continue;
            auto const simulated = pattern.accounts.find(*causes[c].id);
            auto const links = simulated == pattern.accounts.end() ? by_links(w, weighed, pattern, c) : ByLinks{};
            double const weight =
                simulated == pattern.accounts.end() ? links.shows : weight_for(simulated->second, pattern.sound);
            if (weight > 0)
                all.parents.push_back({c, weight});
            auto const against = pattern.beside.find(*causes[c].id);
            double const absent = against == pattern.beside.end() ? links.absent : against->second;
            if (absent < 1)
                alone.emplace_back(c, absent);
        }
        for (auto const& gauge : pattern.same_reading)
            for (std::size_t const i : gauge)
            {
                silence(weighed, i);
                // A note that says the same of the same gauge is the same evidence.
                for (std::size_t k = 0; k < w.out.findings.size(); ++k)
                    if (k != i && w.out.findings[k].id == w.out.findings[i].id &&
                        w.out.findings[k].item == w.out.findings[i].item &&
                        w.out.findings[k].state == w.out.findings[i].state)
                        silence(weighed, k);
            }
        weighed.evidence[pattern.finding] = diagnosis::seen(weighed.network.own_finding(std::move(all)));
        for (auto const& [c, absent] : alone)
        {
            // A finding that is the cause itself: its evidence scales the odds of that cause alone.
            std::size_t const place = weighed.network.own_finding({"readings with " + *causes[c].id, 0.0, {{c, 1.0}}});
            weighed.besides.push_back({pattern.finding, {place, absent, 1.0}});
        }
    }
}

namespace
{

/// By its signature, else by the item that it is a cause of; none for what sits at no place of the loop.
std::optional<LoopPlace> place_of(Workbench const& w, CauseEntryOf const& cause)
{
    auto const& tables = w.engine.loop_tables().signatures;
    for (auto const& [id, signature] : tables.signatures)
        if (id == cause.id)
            return signature.at;
    if (cause.id == tables.broken_gauges.filter || cause.id == tables.broken_gauges.suction ||
        cause.id == tables.broken_gauges.flow_meter)
        return LoopPlace::gauge;
    std::string const& kind = w.property.at(cause.item).entry.kind;
    if (kind == "pump")
        return LoopPlace::pump;
    if (kind == "filter")
        return LoopPlace::filter;
    if (kind == "heater")
        return LoopPlace::heater;
    if (kind == "drain")
        return LoopPlace::suction;
    return std::nullopt;
}

} // namespace

void place_faults(Workbench& w)
{
    constexpr std::size_t most = 5; // judgement: a drawing with more flags says nothing
    for (auto& loop : w.out.loops)
        for (std::size_t c = 0; c < w.out.causes.size(); ++c)
        {
            auto const& cause = w.out.causes[c];
            bool const here = cause.item == loop.item || w.property.at(cause.item).loops.contains(loop.item);
            auto const place = place_of(w, cause);
            if (here && place && cause.probability >= w.rules.act("named"))
                loop.faults.push_back({*place, c});
        }
    for (auto& loop : w.out.loops)
    {
        std::stable_sort(loop.faults.begin(), loop.faults.end(),
                         [&](LoopFault const& a, LoopFault const& b)
                         { return w.out.causes[a.cause].probability > w.out.causes[b.cause].probability; });
        loop.faults.resize(std::min(loop.faults.size(), most));
    }
}

} // namespace padwalk::assess
