// Whether a cause called 30 % likely is there three times in ten, were the knowledge right; and what is left of that,
// and of whom to send, were each of its numbers off by up to a factor of two. tests/bench/bench_inference prints both.

#include "assessed.hpp"
#include "calibration_made.hpp"
#include "catch_compat.hpp"
#include "diagnosis/join_tree_made.hpp"

using namespace padwalk;
using namespace padwalk::tests;

namespace
{

// Chosen before the first run. A true normal deviation passes 4 once in 16 000, so one of sixteen bins once in 1000;
// a chi-square of k passes this bound once in 10 000 (by Wilson and Hilferty).
constexpr double most_off = 4;

double most_off_squared(int k)
{
    double const part = 2.0 / (9.0 * k);
    return k * std::pow(1 - part + 3.719 * std::sqrt(part), 3);
}

std::string table(Calibration const& calibration)
{
    std::string out;
    for (std::size_t b = 0; b < calibration.bins().size(); ++b)
    {
        auto const& bin = calibration.bins()[b];
        out += "from " + std::to_string(Calibration::from[b]) + ": " + std::to_string(bin.pairs) + " pairs, stated " +
               std::to_string(bin.stated) + ", there " + std::to_string(bin.there) +
               (bin.counts() ? ", off " + std::to_string(bin.off()) : "") + "\n";
    }
    return out;
}

std::string in_figures(Judged const& j)
{
    return "Brier ours " + std::to_string(j.ours.brier()) + ", best " + std::to_string(j.best.brier()) + ", priors " +
           std::to_string(j.priors.brier()) + "; mean gap " + std::to_string(j.ours.mean_gap()) + "; moved " +
           std::to_string(j.mean_moved()) + "; of " + std::to_string(j.properties) + " same cause " +
           std::to_string(j.same_cause) + ", same trade " + std::to_string(j.same_trade);
}

} // namespace

TEST_CASE("stated likelihoods are as often true as they say, against properties drawn from the knowledge itself",
          "[assess][calibration]")
{
    auto const property = laid_out(one_of_each, engine(), engine().knowledge());
    REQUIRE(property.network.causes.size() > 200);
    REQUIRE(property.network.findings.size() > 400);
    Chance chance(20261126);
    Judged judged;
    judge_drawn(2500, property, property, SendingRule(engine()), chance, judged);
    INFO(table(judged.ours));
    CHECK(judged.ours.largest_off() < most_off);
    auto const [sum, bins] = judged.ours.off_squared();
    CHECK(bins >= 12); // from rare to nearly certain, all ranges are met
    CHECK(sum < most_off_squared(bins));
    // The same bounds can fail: they find out one who weighs each cause by itself.
    CHECK(judged.one_at_a_time.largest_off() > most_off);
    CHECK(judged.one_at_a_time.off_squared().first > most_off_squared(judged.one_at_a_time.off_squared().second));
    CHECK(judged.ours.brier() < judged.one_at_a_time.brier());
    CHECK(judged.ours.brier() < 0.8 * judged.priors.brier()); // what was looked at did tell something
}

TEST_CASE("knowledge off by up to a factor of two still beats the priors, and mostly sends the same trade, against "
          "properties drawn from what it should have been",
          "[assess][calibration]")
{
    auto const ours = laid_out(one_of_each, engine(), engine().knowledge());
    Chance chance(7);
    Judged judged;
    for (int round = 0; round < 6; ++round)
    {
        auto const truth = laid_out(one_of_each, engine(), perturbed(engine().knowledge(), 2, false, chance));
        REQUIRE(truth.network.findings.size() == ours.network.findings.size());
        judge_drawn(100, truth, ours, SendingRule(engine()), chance, judged);
    }
    INFO(table(judged.ours));
    INFO(in_figures(judged));
    // One who knew the true numbers does better, one who looks at nothing does worse.
    CHECK(judged.best.brier() < judged.ours.brier());
    CHECK(judged.ours.brier() < judged.priors.brier());
    // Chosen before the first run: a bin is off by less than a tenth on average, the first answer stays in two cases of
    // three, whom to send first in three of four. Errors up and down in two hundred causes mostly even out in a bin;
    // what a single likely cause moves is `moved`.
    CHECK(judged.ours.mean_gap() < 0.1);
    CHECK(judged.mean_moved() < 0.15);
    CHECK(3 * judged.same_cause > 2 * judged.properties);
    CHECK(4 * judged.same_trade > 3 * judged.properties);
}

TEST_CASE("a whole property with a third of its findings looked at, against dlib's join trees", "[assess][calibration]")
{
    auto const property = laid_out(one_of_each, engine(), engine().knowledge());
    Chance chance(17);
    int answered = 0;
    for (int round = 0; round < 12; ++round)
    {
        auto const evidence = looked_at(drawn(property.network, chance), 1.0 / 3, chance);
        auto const expected = join_tree_answer(property.network, evidence, JoinTreeWay{4, true, true, 12});
        if (!expected)
            continue; // too large a tree for dlib in a test
        ++answered;
        auto const found = diagnosis::posterior(property.network, evidence);
        REQUIRE(found.causes.size() == expected->causes.size());
        for (std::size_t c = 0; c < found.causes.size(); ++c)
        {
            INFO("round " << round << ", " << property.network.causes[c].name);
            CHECK_THAT(found.causes[c], Catch::Matchers::WithinAbs(expected->causes[c], 1e-9));
        }
    }
    CHECK(answered >= 6);
}
