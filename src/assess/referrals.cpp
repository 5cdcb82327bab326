// Whom to send, and how soon.
#include "judge.hpp"

#include <algorithm>
#include <set>

namespace padwalk::assess
{
namespace
{

constexpr std::size_t most_causes = 6; ///< more than a trade can act on in one visit only hides the likely ones

} // namespace

Urgency urgency_of(Workbench const& w, diagnosis::CauseEntry const& cause, double probability)
{
    bool const hurts = cause.hazard == diagnosis::Hazard::people;
    if (cause.urgency == Urgency::stop_use && probability < (hurts ? w.rules.act("danger_stops") : 0.5))
        return Urgency::soon;
    return cause.urgency;
}

namespace
{

struct Called
{
    Referral referral;
    double together = 0.0; ///< chance that at least one of its causes is there
};

// What a trade would come for, or nothing.
std::optional<Called> called(Workbench const& w, std::string const& id, diagnosis::TradeEntry const& trade)
{
    Called out{{id, trade.name, trade.why, Urgency::watch, {}, {}, {}}, 0.0};
    std::vector<std::size_t> causes;
    double none = 1.0;
    bool danger = false;
    for (std::size_t i = 0; i < w.out.causes.size(); ++i)
    {
        auto const& cause = w.out.causes[i];
        if (cause.trade != id || cause.urgency == Urgency::watch)
            continue;
        causes.push_back(i);
        none *= 1 - cause.probability;
        danger = danger || (cause.hurts_people && cause.probability >= w.rules.act("danger_referred"));
    }
    // Causes that are not named count too: they are why several together send it.
    auto const all = w.trade_chance.find(id);
    out.together = std::max(1 - none, causes.empty() || all == w.trade_chance.end() ? 0.0 : all->second);
    if (out.together >= w.rules.act("referred") || danger)
        for (std::size_t const i : causes)
        {
            out.referral.urgency = std::max(out.referral.urgency, w.out.causes[i].urgency);
            add_once(out.referral.cautions, w.out.causes[i].cautions);
            if (out.referral.causes.size() < most_causes)
                out.referral.causes.push_back(i);
        }
    for (std::size_t i = 0; i < w.out.alarms.size(); ++i)
        if (w.out.alarms[i].trade == id)
        {
            out.referral.alarms.push_back(i);
            out.referral.urgency = std::max(out.referral.urgency, w.out.alarms[i].urgency);
            add_once(out.referral.cautions, w.out.alarms[i].cautions);
        }
    return out.referral.causes.empty() && out.referral.alarms.empty() ? std::nullopt : std::optional(out);
}

} // namespace

void refer(Workbench& w)
{
    std::vector<Called> all;
    for (auto const& [id, trade] : w.engine.knowledge().trades)
        if (auto one = called(w, id, trade))
            all.push_back(std::move(*one));
    // The most urgent first; among equals those whom an alarm calls, in the order of the knowledge, then the likeliest.
    std::stable_sort(all.begin(), all.end(),
                     [](Called const& a, Called const& b)
                     {
                         if (a.referral.urgency != b.referral.urgency)
                             return a.referral.urgency > b.referral.urgency;
                         if (a.referral.alarms.empty() != b.referral.alarms.empty())
                             return b.referral.alarms.empty();
                         return a.referral.alarms.empty() && a.together > b.together;
                     });
    for (auto& one : all)
        w.out.referrals.push_back(std::move(one.referral));
}

} // namespace padwalk::assess
