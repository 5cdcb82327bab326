// Whether what was found fits together, and what would have to go for the rest to fit.
#include "judge.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <set>

namespace padwalk::assess
{
namespace
{

std::string named(Workbench const& w, std::size_t finding)
{
    auto const& f = w.out.findings[finding];
    return "\"" + f.name + "\" (" + w.name(f.item) + (f.state == FindingState::not_seen ? ", not there" : "") + ")";
}

double log_evidence(Weighed const& weighed, std::vector<diagnosis::Evidence> const& evidence)
{
    auto const p = diagnosis::posterior(weighed.network.network(), evidence);
    return p.possible ? p.log_evidence : -std::numeric_limits<double>::infinity();
}

/// What was said of one finding, with what it says beside.
std::vector<diagnosis::Evidence> alone(Weighed const& weighed, std::size_t finding)
{
    std::vector<diagnosis::Evidence> out{weighed.evidence[finding]};
    for (auto const& [of, more] : weighed.besides)
        if (of == finding)
            out.push_back(more);
    return out;
}

/// All of these together.
std::vector<diagnosis::Evidence> together(Weighed const& weighed, std::vector<std::size_t> const& findings)
{
    std::vector<diagnosis::Evidence> out;
    for (std::size_t const i : findings)
        for (auto const& piece : alone(weighed, i))
            out.push_back(piece);
    return out;
}

std::vector<std::size_t> but(std::vector<std::size_t> findings, std::size_t one)
{
    findings.erase(std::find(findings.begin(), findings.end(), one));
    return findings;
}

/// The one that the others speak against most: by how much likelier it would be without them, natural log.
struct Odd
{
    std::size_t finding = 0;
    double against = 0.0;
};

/// `without`: what all but each are together, where that was worked out already.
Odd oddest(Weighed const& weighed, std::vector<std::size_t> const& findings, double all,
           std::function<double(std::size_t)> const& without)
{
    Odd out;
    for (std::size_t const i : findings)
    {
        double const against = log_evidence(weighed, alone(weighed, i)) - (all - without(i));
        if (against > out.against)
            out = {i, against};
    }
    return out;
}

/// What the rest speaks against, and whether the rest then fits.
void does_not_fit(Workbench& w, Weighed const& weighed, std::set<std::size_t> const& named_already)
{
    std::vector<std::size_t> said;
    for (std::size_t i = 0; i < weighed.evidence.size(); ++i)
        if (weighed.evidence[i].if_present != weighed.evidence[i].if_absent)
            said.push_back(i);
    if (said.size() < 2)
        return;
    double const much = std::log(1 / w.rules.act("against_the_rest"));
    Odd const odd =
        oddest(weighed, said, weighed.all.log_evidence, [&](std::size_t i) { return weighed.without[i].log_evidence; });
    if (!(odd.against > much) || named_already.contains(odd.finding))
        return;
    auto const rest = but(said, odd.finding);
    Odd const then = oddest(weighed, rest, weighed.without[odd.finding].log_evidence,
                            [&](std::size_t i) { return log_evidence(weighed, together(weighed, but(rest, i))); });
    w.out.conflict +=
        (w.out.conflict.empty() ? "" : " ") + named(w, odd.finding) + " goes ill with the rest, which makes it " +
        std::to_string(std::lround(std::exp(odd.against))) + " times less likely. " +
        (then.against > much ? "Without it " + named(w, then.finding) + " would still not fit: look at all of it again."
                             : "Without it the rest fits: look at that again.");
}

/// It can't be at all: each that, left out, makes the rest possible.
void impossible(Workbench& w, Weighed const& weighed)
{
    w.out.conflict = "These findings cannot all be true as this tool understands them.";
    std::string which;
    for (std::size_t i = 0; i < weighed.evidence.size(); ++i)
        if (diagnosis::posterior(weighed.network.network(), weighed.evidence_without(i)).possible)
            which += (which.empty() ? "" : ", or ") + named(w, i);
    w.out.conflict += which.empty() ? " Look again at what was noted as seen and as not seen."
                                    : " They could be without " + which + ": look at that again.";
}

std::set<std::size_t> stand_out(Workbench& w, Weighed const& weighed)
{
    std::set<std::size_t> out;
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
        out.insert(i);
        w.out.conflict += w.out.conflict.empty() ? "Not everything fits together. " : " ";
        w.out.conflict += "\"" + finding.name + "\" (" + w.name(finding.item) + ") was " +
                          (missing ? "looked for and not found" : "found") +
                          ", where all else that was noted makes that less likely than one in " +
                          std::to_string(static_cast<int>(std::lround(1 / rare))) +
                          (unexplained ? ", and no cause known here explains it well." : ".") + " Look at it again.";
    }
    return out;
}

} // namespace

void look_for_conflict(Workbench& w, Weighed const& weighed)
{
    if (!weighed.all.possible)
        return impossible(w, weighed);
    does_not_fit(w, weighed, stand_out(w, weighed));
}

} // namespace padwalk::assess
