// Finding what stands: time of the exact inference for one loop and for whole properties, against dlib's join trees and
// plain Quickscore in double on the same questions in the same run; then how true its likelihoods are.
#include "assess/calibration_made.hpp"
#include "diagnosis/join_tree_made.hpp"

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <optional>
#include <sstream>

using namespace padwalk;
using namespace padwalk::tests;
using diagnosis::Evidence;
using diagnosis::Network;

namespace
{

using Question = std::vector<Evidence>;

/// P(cause | evidence) by the sum over all subsets of the seen findings, as Quickscore has it: signs alternate, and
/// each of the 2^seen terms is a product over all causes. None where that is too many.
std::optional<std::vector<double>> quickscore(Network const& network, Question const& evidence)
{
    constexpr std::size_t most_seen = 14;
    std::size_t const causes = network.causes.size();
    std::vector<double> silent(causes, 1.0); // what is surely absent, by cause
    std::vector<Evidence> seen;
    for (auto const& item : evidence)
        if (item.if_present > 0)
            seen.push_back(item);
        else
            for (auto const& link : network.findings[item.finding].parents)
                silent[link.cause] *= 1 - link.weight;
    if (seen.size() > most_seen)
        return std::nullopt;
    double total = 0;
    std::vector<double> with(causes, 0.0), absent(causes);
    for (std::size_t subset = 0; subset < std::size_t{1} << seen.size(); ++subset)
    {
        absent = silent;
        double term = 1;
        for (std::size_t k = 0; k < seen.size(); ++k)
        {
            auto const& finding = network.findings[seen[k].finding];
            bool const in = (subset >> k & 1U) != 0;
            term *= in ? (seen[k].if_absent - seen[k].if_present) * (1 - finding.leak) : seen[k].if_present;
            for (auto const& link : finding.parents)
                if (in)
                    absent[link.cause] *= 1 - link.weight;
        }
        for (std::size_t c = 0; c < causes; ++c)
            term *= 1 - network.causes[c].prior + network.causes[c].prior * absent[c];
        total += term;
        for (std::size_t c = 0; c < causes; ++c)
        {
            double const present = network.causes[c].prior * absent[c];
            with[c] += term * present / (1 - network.causes[c].prior + present);
        }
    }
    for (auto& w : with)
        w /= total;
    return with;
}

std::optional<std::vector<double>> by_join_tree(Network const& network, Question const& question)
{
    auto const answer = join_tree_answer(network, question, JoinTreeWay{4, true, true, 13});
    return answer ? std::optional(answer->causes) : std::nullopt;
}

/// Seconds of one way on one question, the fastest of so many tries; its answer goes to `out`.
template <class Way> double timed(int tries, std::optional<std::vector<double>>& out, Way const& way)
{
    double best = 1e300;
    for (int i = 0; i < tries; ++i)
    {
        auto const start = std::chrono::steady_clock::now();
        out = way();
        std::chrono::duration<double> const took = std::chrono::steady_clock::now() - start;
        best = std::min(best, took.count());
    }
    return best;
}

/// What one way took over all questions, beside the exact inference on those that it could answer.
struct Tally
{
    std::vector<double> seconds, exact_seconds;
    double gap = 0; ///< largest difference of a posterior from the exact one
    int wrong = 0;  ///< questions with one beyond 1e-9

    void add(double took, std::optional<std::vector<double>> const& answer, double exact_took,
             std::vector<double> const& exact)
    {
        if (!answer)
            return;
        seconds.push_back(took);
        exact_seconds.push_back(exact_took);
        double here = 0;
        for (std::size_t c = 0; c < exact.size(); ++c)
            here = std::max(here, std::abs(exact[c] - (*answer)[c]));
        gap = std::max(gap, here);
        wrong += here > 1e-9 ? 1 : 0;
    }
};

double mean(std::vector<double> const& values)
{
    double sum = 0;
    for (double const v : values)
        sum += v;
    return sum / static_cast<double>(values.size());
}

double median(std::vector<double> values)
{
    auto const middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

double largest(std::vector<double> const& values)
{
    return *std::max_element(values.begin(), values.end());
}

void tell(char const* way, Tally const& t, std::size_t questions)
{
    if (t.seconds.empty())
    {
        std::printf("    %-22s answered 0 of %zu\n", way, questions);
        return;
    }
    std::printf("    %-22s answered %zu of %zu: mean %8.3f ms median %8.3f ms worst %8.3f ms", way, t.seconds.size(),
                questions, 1e3 * mean(t.seconds), 1e3 * median(t.seconds), 1e3 * largest(t.seconds));
    std::printf("; %.1f times the exact on these; largest difference %.1e, beyond 1e-9 in %d\n",
                mean(t.seconds) / mean(t.exact_seconds), t.gap, t.wrong);
}

void compare(char const* what, Network const& network, std::vector<Question> const& questions, double wanted_ms)
{
    constexpr int tries = 5;
    Tally join_tree, plain;
    std::vector<double> exact;
    double looked = 0, seen = 0;
    for (auto const& question : questions)
    {
        looked += static_cast<double>(question.size());
        for (auto const& item : question)
            seen += item.if_present > 0 ? 1 : 0;
        std::optional<std::vector<double>> by_exact, by_tree, by_plain;
        double const took = timed(tries, by_exact, [&] { return diagnosis::posterior(network, question).causes; });
        exact.push_back(took);
        double const tree = timed(1, by_tree, [&] { return by_join_tree(network, question); });
        join_tree.add(tree, by_tree, took, *by_exact);
        double const subsets = timed(1, by_plain, [&] { return quickscore(network, question); });
        plain.add(subsets, by_plain, took, *by_exact);
    }
    auto const many = static_cast<double>(questions.size());
    std::printf("%s: %zu causes, %.1f findings looked at, %.1f seen or uncertain\n", what, network.causes.size(),
                looked / many, seen / many);
    std::printf("    %-22s answered %zu of %zu: mean %8.3f ms median %8.3f ms worst %8.3f ms; wanted %.1f ms: %s\n",
                "exact", questions.size(), questions.size(), 1e3 * mean(exact), 1e3 * median(exact),
                1e3 * largest(exact), wanted_ms,
                1e3 * largest(exact) <= wanted_ms ? "kept by all"
                : 1e3 * mean(exact) <= wanted_ms  ? "kept on average"
                                                  : "NOT kept");
    tell("dlib's join trees", join_tree, questions.size());
    tell("Quickscore in double", plain, questions.size());
}

std::vector<Question> drawn_questions(LaidOut const& property, int many, double share)
{
    Chance chance(3);
    std::vector<Question> out;
    for (int i = 0; i < many; ++i)
        out.push_back(looked_at(drawn(property.network, chance), share, chance));
    return out;
}

/// What a demo visit found, noticed and computed, without the readings that were weighed together.
void compare_scenarios(assess::Engine const& engine)
{
    for (auto const& entry : std::filesystem::directory_iterator(PADWALK_SOURCE_FOLDER "/scenarios"))
    {
        std::ifstream stream(entry.path() / "visit.yaml");
        if (!stream.good())
            continue;
        std::ostringstream text;
        text << stream.rdbuf();
        auto const property = laid_out(text.str(), engine, engine.knowledge());
        auto const assessed = assess::assess(visit::read_visit(text.str(), engine.instruments()), engine);
        auto const question = found_by(assessed, property, engine);
        if (diagnosis::posterior(property.network, question).possible)
            compare(("demo visit " + entry.path().filename().string()).c_str(), property.network, {question}, 5);
    }
}

void tell(char const* who, Calibration const& c)
{
    auto const [sum, bins] = c.off_squared();
    std::printf("    %-16s Brier %.5f  mean gap %.4f  largest off %.2f  off squared %.1f over %d bins\n", who,
                c.brier(), c.mean_gap(), c.largest_off(), sum, bins);
}

void tell(char const* what, Judged const& j)
{
    auto const share = [&](int n) { return 100.0 * n / j.properties; };
    std::printf("%s: %d properties\n", what, j.properties);
    for (std::size_t b = 0; b < j.ours.bins().size(); ++b)
        if (auto const& bin = j.ours.bins()[b]; bin.pairs > 0)
            std::printf("    from %.3f: %8.0f pairs, stated %.4f, there %.4f, off %+.2f\n", Calibration::from[b],
                        bin.pairs, bin.stated / bin.pairs, bin.there / bin.pairs, bin.off());
    tell("ours", j.ours);
    tell("best", j.best);
    tell("one at a time", j.one_at_a_time);
    tell("priors", j.priors);
    std::printf("    likeliest cause the same %.1f %%, truly there %.1f %% (best %.1f %%); likeliest trade the same "
                "%.1f %%; a likely cause moved by %.3f\n",
                share(j.same_cause), share(j.ours_there), share(j.best_there), share(j.same_trade), j.mean_moved());
    std::printf("    trades sent: %.2f a property, best %.2f; %.1f %% of the best's sent, %.1f %% of ours are the "
                "best's\n",
                static_cast<double>(j.sent_by_ours) / j.properties, static_cast<double>(j.sent_by_best) / j.properties,
                100.0 * j.sent_by_both / j.sent_by_best, 100.0 * j.sent_by_both / j.sent_by_ours);
}

void calibrate(assess::Engine const& engine, int properties)
{
    auto const ours = laid_out(one_of_each, engine, engine.knowledge());
    SendingRule const rule(engine);
    Chance chance(1);
    Judged itself;
    judge_drawn(properties, ours, ours, rule, chance, itself);
    tell("drawn from the knowledge itself", itself);
    for (bool const leaks_too : {false, true})
    {
        Judged other;
        for (int round = 0; round < 40; ++round)
        {
            auto const truth = laid_out(one_of_each, engine, perturbed(engine.knowledge(), 2, leaks_too, chance));
            judge_drawn(properties / 40, truth, ours, rule, chance, other);
        }
        tell(leaks_too ? "odds of every prior, weight and leak off by up to 2"
                       : "odds of every prior and weight off by up to 2",
             other);
    }
}

std::string const one_loop = R"(loops:
  pool loop:
    pump: {age: 10 years}
    filter: {media: sand}
    drains: {main drain: {}}
)";

std::string const pool_and_spa = R"(waters:
  pool: {kind: pool}
  spa: {kind: spa}
loops:
  pool loop:
    serves: [pool]
    drains: {deep drain: {}, shallow drain: {}}
  spa loop:
    serves: [spa]
    drains: {one drain: {}, other drain: {}}
heaters:
  pool heater: {loop: pool loop}
  spa heater: {loop: spa loop}
fill_valves:
  pool fill: {fills: pool}
  spa fill: {fills: spa}
)";

} // namespace

int main(int argc, char** argv)
{
    int const many = argc > 1 ? std::atoi(argv[1]) : 100;
    int const properties = argc > 2 ? std::atoi(argv[2]) : 8000;
    assess::Engine const engine(reference::Data::built_in());
    for (double const share : {0.1, 1.0 / 3})
    {
        std::printf("-- %.0f %% of the findings looked at\n", 100 * share);
        auto const loop = laid_out(one_loop, engine, engine.knowledge());
        compare("one loop", loop.network, drawn_questions(loop, many, share), 0.1);
        auto const property = laid_out(one_of_each, engine, engine.knowledge());
        compare("property, one of each", property.network, drawn_questions(property, many, share), 5);
        auto const both = laid_out(pool_and_spa, engine, engine.knowledge());
        compare("pool and spa apart", both.network, drawn_questions(both, many, share), 5);
    }
    std::puts("-- demo visits");
    compare_scenarios(engine);
    std::puts("-- how true the likelihoods are");
    calibrate(engine, properties);
}
