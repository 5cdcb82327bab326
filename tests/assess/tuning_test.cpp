#include "assessed.hpp"
#include "catch_compat.hpp"

#include "padwalk/assess/tuning.hpp"

#include <boost/math/distributions/beta.hpp>

#include <algorithm>
#include <cmath>
#include <random>

using namespace padwalk;
using assess::CauseLookedFor;
using assess::LinkLookedFor;
using tests::engine;

namespace
{

bool close(double a, double b, double share = 1e-4)
{
    return std::abs(a - b) <= share * std::abs(b);
}

std::vector<CauseLookedFor> items(double assessed, std::size_t there, std::size_t not_there, double counts = 1.0)
{
    std::vector<CauseLookedFor> out(there, {assessed, true, 1.0});
    out.insert(out.end(), not_there, {assessed, false, counts});
    return out;
}

std::vector<LinkLookedFor> looks(double otherwise, std::size_t seen, std::size_t not_seen)
{
    std::vector<LinkLookedFor> out(seen, {true, otherwise});
    out.insert(out.end(), not_seen, {false, otherwise});
    return out;
}

/// The same numbers with every library: 0 to 1, without the ends.
class Chance
{
public:
    double next() { return (static_cast<double>(engine_() >> 11U) + 0.5) / 9007199254740992.0; }
    bool comes(double p) { return next() < p; }

private:
    std::mt19937_64 engine_{20260514};
};

/// Beta(s m, s (1 - m)) with s = cases / min(m, 1 - m), as tuning.hpp has it.
boost::math::beta_distribution<> judged(double m, double cases)
{
    double const s = cases / std::min(m, 1 - m);
    return boost::math::beta_distribution<>(s * m, s * (1 - m));
}

assess::CauseRecord const& of(assess::TuningProposal const& p, std::string const& cause)
{
    return p.record.causes.at(cause);
}

std::string pump(std::string const& more)
{
    return "loops:\n  l:\n    pump: {noticed: [grinding noise], " + more + "}\n";
}

} // namespace

TEST_CASE("tuning: a judged number alone stays as it is, Beta(1, 9) and its quantiles by hand")
{
    auto const chance = assess::tuned_base_rate(0.1, 1, {});
    CHECK(close(chance.now, 0.1));
    CHECK(close(chance.low, 1 - std::pow(0.975, 1.0 / 9))); // CDF 1 - (1 - x)^9
    CHECK(close(chance.high, 1 - std::pow(0.025, 1.0 / 9)));
    auto const link = assess::tuned_weight(0.9, 1, {});
    CHECK(close(link.now, 0.9));
    CHECK(close(link.low, std::pow(0.025, 1.0 / 9))); // CDF x^9
    CHECK(close(link.high, std::pow(0.975, 1.0 / 9)));
}

TEST_CASE("tuning: where nothing was seen that speaks of it, counts are added to the Beta distribution, by hand")
{
    // judged 0.5 for one case of the rarer: Beta(1, 1); three there: Beta(4, 1), CDF x^4
    auto const there = assess::tuned_base_rate(0.5, 1, items(0.5, 3, 0));
    CHECK(close(there.now, 0.8));
    CHECK(close(there.low, std::pow(0.025, 0.25)));
    CHECK(close(there.high, std::pow(0.975, 0.25)));
    // six not spoken of at one half each: Beta(1, 4), CDF 1 - (1 - x)^4
    auto const silent = assess::tuned_base_rate(0.5, 1, items(0.5, 0, 6, 0.5));
    CHECK(close(silent.now, 0.2));
    CHECK(close(silent.high, 1 - std::pow(0.025, 0.25)));
    // two seen, one not: Beta(3, 2), mean 3/5, CDF 4 x^3 - 3 x^4
    auto const link = assess::tuned_weight(0.5, 1, looks(0, 2, 1));
    CHECK(close(link.now, 0.6));
    auto cdf = [](double x) { return 4 * x * x * x - 3 * x * x * x * x; };
    CHECK(close(cdf(link.low), 0.025));
    CHECK(close(cdf(link.high), 0.975));
}

TEST_CASE("tuning: Beta quantiles of Boost.Math, also for rare causes and for many counts")
{
    struct Row
    {
        double m, cases;
        std::size_t there, not_there;
    };
    for (auto const& row : {Row{0.07, 4, 5, 35}, Row{0.001, 4, 0, 10}, Row{0.001, 4, 3, 10}, Row{0.5, 2, 0, 0},
                            Row{0.95, 2, 400, 600}, Row{0.02, 0.5, 0, 0}})
    {
        INFO(row.m << " with " << row.there << " of " << row.there + row.not_there);
        double const s = row.cases / std::min(row.m, 1 - row.m);
        boost::math::beta_distribution<> const exact(s * row.m + static_cast<double>(row.there),
                                                     s * (1 - row.m) + static_cast<double>(row.not_there));
        for (auto const& chance : {assess::tuned_base_rate(row.m, row.cases, items(row.m, row.there, row.not_there)),
                                   assess::tuned_weight(row.m, row.cases, looks(0, row.there, row.not_there))})
        {
            CHECK(close(chance.now, boost::math::mean(exact)));
            CHECK(close(chance.low, boost::math::quantile(exact, 0.025)));
            CHECK(close(chance.high, boost::math::quantile(exact, 0.975)));
        }
    }
}

TEST_CASE("tuning: a cause found as often as what was seen made likely keeps its base rate")
{
    auto const as_expected = assess::tuned_base_rate(0.07, 4, items(0.6, 60, 40));
    CHECK(as_expected.now > 0.063); // the plain share would be 0.6
    CHECK(as_expected.now < 0.077);
    CHECK(assess::tuned_base_rate(0.07, 4, items(0.6, 90, 10)).now > 0.15);
    CHECK(assess::tuned_base_rate(0.07, 4, items(0.6, 20, 80)).now < 0.04);
    // What was as good as settled by what was seen says nothing of how common it is.
    auto const settled = assess::tuned_base_rate(0.07, 4, items(1 - 1e-9, 100, 0));
    CHECK(close(settled.now, 0.07, 1e-3));
}

TEST_CASE("tuning: what shows anyway is taken off a link's weight")
{
    // true weight 0.6, seen otherwise half the time: 1 - 0.5 * 0.4 = 0.8 of the looks
    auto const chance = assess::tuned_weight(0.3, 2, looks(0.5, 1600, 400));
    CHECK(std::abs(chance.now - 0.6) < 0.02);
    CHECK(chance.low < 0.6);
    CHECK(chance.high > 0.6);
    CHECK(close(assess::tuned_weight(0.3, 2, looks(1.0, 50, 0)).now, 0.3)); // it shows always: nothing is learnt
}

TEST_CASE("tuning: with more visits of a known rate the number moves to it and the interval closes")
{
    double const truth = 0.2;
    double width = 1, off = 1;
    Chance chance;
    std::size_t there = 0, all = 0;
    for (std::size_t const n : {20U, 200U, 2000U})
    {
        for (; all < n; ++all)
            there += chance.comes(truth) ? 1U : 0U;
        auto const tuned = assess::tuned_base_rate(0.05, 4, items(0.05, there, all - there));
        CHECK(tuned.high - tuned.low < width);
        CHECK(std::abs(tuned.now - truth) < off);
        width = tuned.high - tuned.low;
        off = std::abs(tuned.now - truth);
    }
    CHECK(off < 0.02);
}

TEST_CASE("tuning: intervals hold the true base rate 19 times in 20, though only what was noticed is visited")
{
    // A cause with base rate x drawn from what is judged; it alone shows a finding 70 % of the time, the leak 10 %.
    // Somebody is called only where the finding is there.
    double const m = 0.07, cases = 4, with = 1 - 0.9 * 0.3, without = 0.1;
    double const assessed = m * with / (m * with + (1 - m) * without);
    Chance chance;
    int held = 0, plain_held = 0;
    constexpr int tries = 300, visits = 40;
    for (int i = 0; i < tries; ++i)
    {
        double const x = boost::math::quantile(judged(m, cases), chance.next());
        std::size_t there = 0;
        for (int visited = 0; visited < visits;)
        {
            bool const is = chance.comes(x);
            if (!chance.comes(is ? with : without))
                continue;
            ++visited;
            there += is ? 1U : 0U;
        }
        auto const tuned = assess::tuned_base_rate(m, cases, items(assessed, there, visits - there));
        held += tuned.low <= x && x <= tuned.high ? 1 : 0;
        auto const plain = assess::tuned_base_rate(m, cases, items(m, there, visits - there));
        plain_held += plain.low <= x && x <= plain.high ? 1 : 0;
    }
    INFO(held << " of " << tries << ", by plain shares " << plain_held);
    CHECK(held >= 0.91 * tries); // 3 standard errors of 95 % in 300
    CHECK(held <= 0.99 * tries);
    CHECK(plain_held < 0.5 * tries); // what the correction is for
}

TEST_CASE("tuning: intervals hold the true weight 19 times in 20, though the finding shows by itself as well")
{
    Chance chance;
    int held = 0;
    constexpr int tries = 300, confirmed = 25;
    for (int i = 0; i < tries; ++i)
    {
        double const m = i % 2 == 0 ? 0.7 : 0.15, otherwise = 0.2;
        double const w = boost::math::quantile(judged(m, 2), chance.next());
        std::size_t seen = 0;
        for (int k = 0; k < confirmed; ++k)
            seen += chance.comes(1 - (1 - otherwise) * (1 - w)) ? 1U : 0U;
        auto const tuned = assess::tuned_weight(m, 2, looks(otherwise, seen, confirmed - seen));
        held += tuned.low <= w && w <= tuned.high ? 1 : 0;
    }
    INFO(held << " of " << tries);
    CHECK(held >= 0.91 * tries);
    CHECK(held <= 0.99 * tries);
}

TEST_CASE("tuning: a folder is read, assessed and counted")
{
    auto const p = assess::tune({{"a.yaml", pump("found: [pump_bearings_worn, {was_not: shaft seal leaking}]")},
                                 {"b.yaml", pump("found: [{was: motor bearings worn}]")},
                                 {"broken.yaml", "loops:\n  l: {pumpe: {}}\n"},
                                 {"c.yaml", pump("found: [{was: impeller clogged, was_not: motor bearings worn}]")},
                                 {"d.yaml", pump("runs: yes")},
                                 {"e.yaml", pump("found: [mouse nest in the timer]")}},
                                engine());
    CHECK(p.record.visits == 4);
    CHECK(p.record.without == 1);
    CHECK(p.record.items == 4);
    CHECK(p.record.not_known == 1);
    REQUIRE(p.not_read.size() == 1);
    CHECK(p.not_read[0].file == "broken.yaml");
    CHECK(p.not_read[0].error.find("pumpe") != std::string::npos);
    auto const& bearings = of(p, "pump_bearings_worn");
    CHECK(bearings.there == 2);
    CHECK(bearings.ruled_out == 1);
    CHECK(bearings.not_spoken == 1); // the mouse's: somebody looked
    CHECK(of(p, "pump_shaft_seal_leaking").ruled_out == 1);
    CHECK(of(p, "pump_shaft_seal_leaking").not_spoken == 3);
    auto const& link = p.record.links.at({"pump_bearings_worn", "pump_noise_grinding"});
    CHECK(link.seen == 2);
    CHECK(link.not_seen == 0);
    CHECK(link.looks.front().otherwise > 0);
    CHECK(p.record.scores.confirmed == 3);
    CHECK(p.record.scores.first == 2);
    CHECK(p.record.scores.judged == 5);
    // Four pumps of the same noise: the chance given is the same each time.
    double const chance = bearings.looks.front().assessed;
    CHECK(close(bearings.expected, 4 * chance, 1e-12));
}

TEST_CASE("tuning: the Brier score is that of the chances, by hand")
{
    auto const p = assess::tune({{"a.yaml", pump("found: [{was: pump_bearings_worn}]")}}, engine());
    double const chance = of(p, "pump_bearings_worn").looks.at(0).assessed;
    CHECK(close(p.record.scores.squares, (1 - chance) * (1 - chance), 1e-12));
    CHECK(close(p.record.scores.squares_before, 0.93 * 0.93, 1e-12)); // base rate 7 %
}

TEST_CASE("tuning: only numbers that the counts move are proposed, those outside their interval first")
{
    std::vector<std::pair<std::string, std::string>> files;
    for (int i = 0; i < 25; ++i)
        files.emplace_back("v" + std::to_string(i) + ".yaml", pump("found: [{was: impeller clogged}]"));
    auto const p = assess::tune(files, engine());
    auto rate = [&](std::string const& cause)
    {
        auto const at = std::find_if(p.base_rates.begin(), p.base_rates.end(),
                                     [&](assess::ProposedChange const& c) { return c.cause == cause; });
        REQUIRE(at != p.base_rates.end());
        CHECK(at->outside());
        return at->chance.now / at->chance.old;
    };
    CHECK(rate("pump_impeller_clogged") > 2);
    CHECK(rate("pump_bearings_worn") < 0.5); // the noise spoke for them, and nobody found them
    double const worth = std::log(p.rules.worth_change.value());
    for (auto const* list : {&p.base_rates, &p.weights})
        for (std::size_t i = 0; i < list->size(); ++i)
        {
            auto const& c = (*list)[i].chance;
            CHECK(std::abs(std::log(c.now / (1 - c.now) * (1 - c.old) / c.old)) >= worth * (1 - 1e-12));
            CHECK(c.low < c.now);
            CHECK(c.now < c.high);
            CHECK((i == 0 || (*list)[i - 1].outside() || !(*list)[i].outside()));
        }
    for (auto const& change : p.base_rates)
        CHECK(p.record.causes.contains(change.cause));
    CHECK(p.base_rates.size() < engine().knowledge().causes.size() / 2); // a heater was never looked into
}

TEST_CASE("tuning: a folder in which nothing was found proposes nothing")
{
    auto const p = assess::tune({{"a.yaml", pump("runs: yes")}}, engine());
    CHECK(p.record.visits == 0);
    CHECK(p.record.without == 1);
    CHECK(p.base_rates.empty());
    CHECK(p.weights.empty());
    CHECK(assess::tune({}, engine()).record.without == 0);
}
