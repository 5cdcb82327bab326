// What readings that were held against a model amount to, whatever the model.
#include "accounts.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::assess
{

double Accounts::best() const
{
    double out = std::max(sound, anything);
    for (auto const* list : {&causes, &broken})
        for (auto const& [cause, log] : *list)
            out = std::max(out, log);
    return out;
}

Weighing weigh_accounts(Accounts const& accounts, double by_chance, Rules const& rules)
{
    // Readings that a sound one gives often enough speak for no fault, however well one of many fits them.
    constexpr double nothing_below = 0.05, nothing_above = 0.3; // judgement
    constexpr double fits = 0.5;                                // judgement: of the best account, for 'anything'
    double const best = accounts.best();
    double const anything = std::exp(accounts.anything - best);
    double const weight = std::clamp((nothing_above - by_chance) / (nothing_above - nothing_below), 0.0, 1.0);
    auto const share = [&](double log) { return std::min(1.0, std::exp(weight * (log - best)) + anything); };
    Weighing out;
    out.pattern.sound = std::max(share(accounts.sound), 1 - rules.act("pattern_trust"));
    for (auto const& [cause, log] : accounts.causes)
        out.pattern.accounts[cause] = share(log);
    for (auto const& [cause, log] : accounts.broken) // one cause may stand for several gauges
        out.pattern.accounts[cause] = std::max(out.pattern.accounts[cause], share(log));
    // Against the mean account, not the best: among many, one always fits better.
    double mean = 0;
    for (auto const& [cause, account] : out.pattern.accounts)
        mean += account / static_cast<double>(out.pattern.accounts.size());
    double const sound = std::exp(weight * (accounts.sound - best));
    out.departs = mean / (mean + sound);
    out.nothing_fits = anything >= fits;
    out.by_chance_sound = by_chance > nothing_below;
    return out;
}

std::vector<std::size_t> computed_findings(Workbench const& w, std::size_t item, std::vector<std::string> const& ids)
{
    std::vector<std::size_t> out;
    for (auto const& id : ids)
        for (std::size_t i = 0; i < w.out.findings.size(); ++i)
        {
            auto const& f = w.out.findings[i];
            if (f.computed && f.id == id && (f.item == item || w.property.at(f.item).loops.contains(item)))
                out.push_back(i);
        }
    return out;
}

} // namespace padwalk::assess
