// What stands beside the causes named: that nothing is wrong, that it is something not known here, and how far the
// order rests on numbers that were judged.
#include "judge.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace padwalk::assess
{

// Exactly: a finding that any of them shows for certain, and that is not there.
double chance_of_none(Weighed const& weighed, std::vector<std::size_t> const& causes)
{
    auto network = weighed.network.network();
    diagnosis::Finding any{"any of them", 0.0, {}};
    for (std::size_t const c : causes)
        any.parents.push_back({c, 1.0});
    network.findings.push_back(std::move(any));
    auto evidence = weighed.evidence_without();
    evidence.push_back(diagnosis::not_seen(network.findings.size() - 1));
    auto const none = diagnosis::posterior(network, evidence);
    return none.possible ? std::min(1.0, std::exp(none.log_evidence - weighed.all.log_evidence)) : 0.0;
}

namespace
{

bool calls(diagnosis::CauseEntry const& cause)
{
    return cause.urgency > Urgency::watch;
}

/// The same throws on every machine: a xorshift generator, its shifts from memory. Fair enough for a few thousand.
class Coin
{
public:
    [[nodiscard]] bool toss()
    {
        state_ ^= state_ << 13U;
        state_ ^= state_ >> 7U;
        state_ ^= state_ << 17U;
        return (state_ >> 32U) % 2 == 0;
    }

private:
    std::uint64_t state_ = 0x9E3779B97F4A7C15ULL;
};

/// Odds times or over two, at random.
double twice_or_half(double p, Coin& coin)
{
    if (p <= 0 || p >= 1)
        return p;
    constexpr double factor = 2.0;
    double const odds = p / (1 - p) * (coin.toss() ? factor : 1 / factor);
    return odds / (1 + odds);
}

diagnosis::Network misjudged(diagnosis::Network network, std::size_t judged_findings, Coin& coin)
{
    for (auto& cause : network.causes)
        cause.prior = twice_or_half(cause.prior, coin);
    for (std::size_t i = 0; i < judged_findings; ++i)
    {
        network.findings[i].leak = twice_or_half(network.findings[i].leak, coin);
        for (auto& link : network.findings[i].parents)
            link.weight = twice_or_half(link.weight, coin);
    }
    return network;
}

/// What the evidence says first: the likeliest cause named, and the trade with most to come for; here the causes of a
/// trade are taken as independent, which is quicker and the same in every try.
struct First
{
    std::size_t cause = 0;
    std::string trade;
};

First first_of(Weighed const& weighed, std::vector<double> const& causes)
{
    First out;
    double most = -1;
    std::map<std::string, double> none;
    for (std::size_t const c : weighed.shown)
    {
        auto const& entry = *weighed.network.causes()[c].entry;
        if (causes[c] > most)
            most = causes[c], out.cause = c;
        if (calls(entry) && entry.trade != "none")
            none.try_emplace(entry.trade, 1.0).first->second *= 1 - causes[c];
    }
    double least = 1;
    for (auto const& [trade, p] : none)
        if (p < least)
            least = p, out.trade = trade;
    return out;
}

std::string of_tries(std::size_t n, std::size_t tries)
{
    return n == tries ? "in every one of " + std::to_string(tries) + " tries"
                      : "in " + std::to_string(n) + " of " + std::to_string(tries) + " tries";
}

std::string in_words(Workbench const& w, Robustness const& r, CauseEntryOf const& first, std::string const& trade)
{
    constexpr double firm = 0.9, shaky = 0.6; // of the tries; judgement
    auto const how = [&](std::size_t n)
    {
        double const share = static_cast<double>(n) / static_cast<double>(r.tries);
        return std::string(share >= firm ? "firm" : share >= shaky ? "fairly firm" : "not firm");
    };
    std::string const order = "the order of causes is " + how(r.likeliest) +
                              ": with every judged number off by a factor "
                              "of two, up or down at random, ";
    std::string const stays =
        first.name + " (" + w.name(first.item) + ") stays the likeliest " + of_tries(r.likeliest, r.tries) + ".";
    auto const* sent = w.engine.knowledge().trade(trade);
    if (sent == nullptr)
        return order + stays;
    return "whom to send is " + how(r.first_trade) + ", " + order + "the " + sent->plural + " has most to come for " +
           of_tries(r.first_trade, r.tries) + ", and " + stays;
}

} // namespace

void explain_items(Workbench& w, Weighed const& weighed)
{
    if (!weighed.all.possible)
        return;
    std::set<std::size_t> found;
    for (auto const& finding : w.out.findings)
        if (finding.state == FindingState::seen && finding.item != 0)
            found.insert(finding.item);
    auto const& causes = weighed.network.causes();
    for (std::size_t const item : found)
    {
        ItemExplained entry;
        entry.item = item;
        std::vector<std::size_t> here;
        for (std::size_t c = 0; c < causes.size(); ++c)
        {
            if (causes[c].item != item)
                continue;
            if (weighed.network.unknown(c))
                entry.something_else = weighed.all.causes[c];
            if (calls(*causes[c].entry))
                here.push_back(c);
        }
        entry.nothing_wrong = chance_of_none(weighed, here);
        w.out.explained.push_back(entry);
    }
}

void try_robustness(Workbench& w, Weighed const& weighed)
{
    constexpr std::size_t tries = 20; // judgement: enough to tell firm from not, in a few milliseconds
    if (!weighed.all.possible || w.out.causes.empty())
        return;
    // What readings say together is computed, not judged: those findings stand behind the others.
    std::size_t judged = weighed.network.network().findings.size();
    for (auto const& pattern : w.patterns)
        judged = std::min(judged, weighed.evidence[pattern.finding].finding);
    auto const evidence = weighed.evidence_without();
    First const now = first_of(weighed, weighed.all.causes);
    Robustness& out = w.out.robustness;
    Coin coin;
    for (std::size_t i = 0; i < tries; ++i)
    {
        auto const other = diagnosis::posterior(misjudged(weighed.network.network(), judged, coin), evidence);
        if (!other.possible)
            continue;
        ++out.tries;
        First const then = first_of(weighed, other.causes);
        out.likeliest += then.cause == now.cause ? 1U : 0U;
        out.first_trade += then.trade == now.trade ? 1U : 0U;
    }
    if (out.tries == 0)
        return;
    for (std::size_t k = 0; k < weighed.shown.size(); ++k)
        if (weighed.shown[k] == now.cause)
            out.words = in_words(w, out, w.out.causes[k], now.trade);
}

} // namespace padwalk::assess
