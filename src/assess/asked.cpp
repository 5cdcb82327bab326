// A cause that somebody asks about, in full, also where it is unlikely.
#include "judge.hpp"
#include "name_words.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::assess
{
namespace
{

std::string who_may(diagnosis::CheckEntry const& check)
{
    std::string out;
    for (auto const who : check.who)
        out += (out.empty() ? "" : " or ") + fields::words_of<diagnosis::Who>::words()[static_cast<std::size_t>(who)];
    return out;
}

/// Every finding that the cause shows at the items that it reaches, and what was noticed of it.
void add_shown(Workbench const& w, Weighed const& weighed, std::size_t place, CauseAsked& out)
{
    auto const& at = weighed.network.causes()[place];
    double const now = told_log_odds(weighed.all.causes[place]);
    for (auto const& link : at.entry->shows)
    {
        auto const& finding = *w.engine.knowledge().finding(link.finding);
        for (std::size_t const item : w.property.of_kind(finding.item, at.item))
        {
            if (!(weighed.network.weight(place, link.finding, item) > 0))
                continue; // of its kind, but not what this one reaches
            ShownFinding shown{link.finding, finding.name, item, link.weight.value(), finding.leak.value(), {}, 0.0};
            for (std::size_t i = 0; i < w.out.findings.size(); ++i)
                if (w.out.findings[i].id == link.finding && w.out.findings[i].item == item)
                {
                    shown.noticed = i;
                    if (i < weighed.without.size() && weighed.without[i].possible)
                        shown.log_odds += now - told_log_odds(weighed.without[i].causes[place]);
                }
            out.shows.push_back(std::move(shown));
        }
    }
    std::stable_sort(out.shows.begin(), out.shows.end(),
                     [](ShownFinding const& a, ShownFinding const& b)
                     {
                         if (a.noticed.has_value() != b.noticed.has_value())
                             return a.noticed.has_value();
                         double const left = std::abs(a.log_odds), right = std::abs(b.log_odds);
                         return left != right ? left > right : a.weight > b.weight;
                     });
}

void add_besides(CauseAsked& out)
{
    for (auto const* list : {&out.cause.speaks_for, &out.cause.speaks_against})
        for (auto const& weight : *list)
            if (std::none_of(out.shows.begin(), out.shows.end(),
                             [&](ShownFinding const& s) { return s.noticed == weight.finding; }))
                out.besides.push_back(weight);
}

void add_checks(Workbench const& w, Weighed const& weighed, std::size_t place, CauseAsked& out)
{
    auto const& at = weighed.network.causes()[place];
    for (auto const& [id, check] : w.engine.knowledge().checks)
    {
        bool const here =
            std::any_of(check.tells.begin(), check.tells.end(),
                        [&](std::string const& told)
                        {
                            return std::any_of(out.shows.begin(), out.shows.end(),
                                               [&](ShownFinding const& s) { return s.finding == told && !s.noticed; });
                        });
        if (here && !w.property.of_kind(check.item, at.item).empty())
            out.checks.push_back(check.name + " (" + who_may(check) + ")");
    }
}

} // namespace

void explain_asked(Workbench& w, Weighed& weighed)
{
    if (!weighed.all.possible)
        return;
    auto const& causes = weighed.network.causes();
    for (auto const& id : w.asked)
        for (std::size_t c = 0; c < causes.size(); ++c)
        {
            if (*causes[c].id != id)
                continue;
            CauseAsked out;
            out.cause = cause_as_told(w, weighed, c);
            out.base_rate = causes[c].entry->base_rate.value();
            out.why_rate = causes[c].entry->why_rate;
            for (auto const& [context, factor] : causes[c].entry->raised_by)
                if (w.property.at(causes[c].item).holds.contains(context))
                    for (auto const& [known, entry] : w.engine.knowledge().contexts)
                        if (known == context)
                            out.changed_by.emplace_back(entry.name, factor.value());
            add_shown(w, weighed, c, out);
            add_besides(out);
            add_checks(w, weighed, c, out);
            w.out.asked.push_back(std::move(out));
        }
}

std::vector<std::string> causes_meant(Engine const& engine, std::string const& words)
{
    auto const& causes = engine.knowledge().causes;
    std::vector<std::string> exact, near;
    auto const asked = visit::content_stems(words);
    for (auto const& [id, cause] : causes)
    {
        if (id == words)
            return {id};
        if (lowered(cause.name) == lowered(words))
            exact.push_back(id);
        auto const said = visit::content_stems(cause.name + " " + id);
        bool const all =
            !asked.empty() && std::all_of(asked.begin(), asked.end(),
                                          [&](std::string const& stem)
                                          { return std::find(said.begin(), said.end(), stem) != said.end(); });
        if (all)
            near.push_back(id);
    }
    return exact.empty() ? near : exact;
}

} // namespace padwalk::assess
