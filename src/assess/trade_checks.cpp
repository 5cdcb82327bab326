// What the trade that comes should check: what would tell most of the causes it comes for, and is for a technician.
#include "judge.hpp"

#include <algorithm>
#include <map>

namespace padwalk::assess
{
namespace
{

constexpr std::size_t most_checks = 6;             ///< more than a visit holds only hides the telling ones
constexpr double of_the_trade = 3.0;               ///< what nobody else may do is what the trade comes for, judged
constexpr double to_set_up = 5.0;                  ///< minutes, judged
using Place = std::pair<std::string, std::size_t>; ///< a finding or a check, and the item

// Noticed, looked for, or known from a reading.
bool settled(Workbench const& w, Place const& place)
{
    return std::any_of(w.out.findings.begin(), w.out.findings.end(),
                       [&](FindingEntryOf const& f)
                       { return f.state != FindingState::unclear && f.id == place.first && f.item == place.second; });
}

// How much seeing each finding would say of these causes: what is open about the cause, times how often it shows it.
std::map<Place, double> telling(Workbench const& w, Referral const& referral)
{
    std::map<Place, double> out;
    for (std::size_t const i : referral.causes)
    {
        auto const& told = w.out.causes[i];
        auto const* cause = w.engine.knowledge().cause(told.id);
        if (cause == nullptr)
            continue;
        double const open = told.probability * (1 - told.probability);
        for (auto const& link : cause->shows)
            for (std::size_t const at : w.property.of_kind(w.engine.knowledge().finding(link.finding)->item, told.item))
                if (Place const place{link.finding, at}; !settled(w, place))
                    out[place] += open * link.weight.value();
    }
    return out;
}

fields::Named<std::string> cautions_of(Workbench const& w, diagnosis::CheckEntry const& check)
{
    fields::Named<std::string> out;
    for (auto const& id : check.cautions)
        if (auto const* caution = w.engine.knowledge().caution(id))
            out.emplace_back(id, caution->say);
    return out;
}

struct Scored
{
    double score = 0.0;
    TradeCheck check;
};

void score(std::vector<Scored>& to, Workbench const& w, std::string const& id, diagnosis::CheckEntry const& check,
           std::map<Place, double> const& tells)
{
    std::map<std::size_t, double> at_item;
    for (auto const& [place, worth] : tells)
        if (std::find(check.tells.begin(), check.tells.end(), place.first) != check.tells.end())
            at_item[place.second] += worth;
    double const own = check.who == std::vector{diagnosis::Who::technician} ? of_the_trade : 1.0;
    for (auto const& [item, worth] : at_item)
        to.push_back({own * worth / (check.minutes.value() + to_set_up),
                      {id, check.name, check.needs, item, check.minutes.value(), check.if_so, check.if_not,
                       cautions_of(w, check)}});
}

} // namespace

void choose_trade_checks(Workbench& w)
{
    for (auto& referral : w.out.referrals)
    {
        auto const tells = telling(w, referral);
        std::vector<Scored> all;
        for (auto const& [id, check] : w.engine.knowledge().checks)
            if (std::find(check.who.begin(), check.who.end(), diagnosis::Who::technician) != check.who.end())
                score(all, w, id, check, tells);
        std::stable_sort(all.begin(), all.end(), [](Scored const& a, Scored const& b) { return a.score > b.score; });
        for (auto& one : all)
            if (referral.checks.size() < most_checks)
                referral.checks.push_back(std::move(one.check));
    }
}

} // namespace padwalk::assess
