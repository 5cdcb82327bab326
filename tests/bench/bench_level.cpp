// How well a level history finds a leak: how often the interval holds the truth, false alarms and misses by the length
// of the record, with and without a bucket, and what one balance takes.
#include "level/histories_made.hpp"

#include "padwalk/level/level_settling.hpp"
#include "padwalk/reference/data.hpp"
#include "padwalk/units/definitions.hpp"

#include <cstdio>
#include <cstdlib>
#include <ctime>

using namespace padwalk;
using namespace padwalk::tests;

namespace
{

constexpr double inch_a_day = units::exact::inch / units::exact::day;

void print(char const* what, Coverage const& c, bool on)
{
    std::printf("%-44s held %5.1f %% of %d (truth above %4.1f %%, below %4.1f %%)", what, 100.0 * c.held / c.histories,
                c.histories, 100.0 * c.above / c.histories, 100.0 * c.below / c.histories);
    if (on)
        std::printf(", pump on %5.1f %%", 100.0 * c.held_on / c.histories);
    std::printf(", mean width %.2f in/day, chi squared %.2f\n", c.mean_width / inch_a_day, c.chi_squared);
}

void time_settling(level::BalanceFacts const& facts)
{
    Chance chance(6);
    constexpr int many = 20;
    auto const start = std::clock();
    double stops = 0;
    for (int i = 0; i < many; ++i)
    {
        auto const made = make_history(chance, {7, false, false, false}, inch_a_day, inch_a_day, facts);
        level::Fitting const fitting{"throat",
                                     {units::of_si<units::Length>(0.1), units::of_si<units::Length>(0.01), {}}};
        stops += level::level_settling(made.record, {fitting}, facts).log_stops / many;
    }
    double const took = static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
    std::printf("where it stops, 7 days of a leak that never stops: mean ln of stops over never %.1f; %.1f ms of "
                "processor each\n",
                stops, 1e3 * took / many);
}

void time_watch(level::BalanceFacts const& facts)
{
    Chance chance(7);
    constexpr int many = 100;
    int told = 0;
    double hours = 0;
    auto const start = std::clock();
    for (int i = 0; i < many; ++i)
    {
        auto const made = make_history(chance, {1, true, false, false}, 0, 0, facts);
        if (auto const more = level::watch_longer(made.record, facts.table.target_leak.value, facts))
        {
            ++told;
            hours += units::in_si(*more) / units::exact::hour;
        }
    }
    double const took = static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
    std::printf("after 1 day with a bucket, 1/8 in/day can be told in %d of %d histories, mean %.0f h more; %.2f ms of "
                "processor each\n",
                told, many, told > 0 ? hours / told : 0, 1e3 * took / many);
}

} // namespace

int main(int argc, char** argv)
{
    int const histories = argc > 1 ? std::atoi(argv[1]) : 1000;
    auto const facts = level::balance_facts(reference::Data::built_in());
    std::puts("95 % interval, true leak even from 0 to 1.5 in/day");
    for (double const days : {0.5, 1.0, 2.0, 4.0, 7.0})
        for (bool const bucket : {false, true})
        {
            char name[80];
            std::snprintf(name, sizeof name, "%.1f days%s", days, bucket ? ", bucket" : "");
            print(name, coverage(histories, {days, bucket, false, false}, 1.5, 1, facts), false);
            if (days < 1)
                continue;
            std::snprintf(name, sizeof name, "%.1f days%s, pump on and off", days, bucket ? ", bucket" : "");
            print(name, coverage(histories, {days, bucket, true, false}, 1.5, 2, facts), true);
            std::snprintf(name, sizeof name, "%.1f days%s, other laws", days, bucket ? ", bucket" : "");
            print(name, coverage(histories, {days, bucket, false, true}, 1.5, 3, facts), false);
        }
    std::puts("95 % interval at one true leak, 2 days, bucket");
    for (double const leak : {0.0, 0.05, 0.1, 0.15, 0.25, 0.5, 1.0, 2.0})
    {
        char name[80];
        std::snprintf(name, sizeof name, "%.2f in/day", leak);
        print(name, coverage_at(histories, {2, true, false, false}, leak, 4, facts), false);
    }
    std::puts(
        "called by the odds (95 %) | by the estimate (1.645 spreads); leak 0.25 in/day; misses at its own least leak");
    for (bool const bucket : {false, true})
        for (double const days : {0.5, 1.0, 2.0, 4.0, 7.0})
        {
            auto const start = std::clock();
            auto const a = alarms(histories, {days, bucket, false, false}, 0.25, 5, facts);
            double const took = static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
            auto const percent = [&](int n) { return 100.0 * n / a.sound; };
            std::printf(
                "%.1f days%-9s false %4.1f %% | %4.1f %%   missed %5.1f %% | %5.1f %%   least leak shown (median) "
                "%.2f in/day, missed %4.1f %%; %.2f ms of processor each\n",
                days, bucket ? ", bucket" : "", percent(a.false_by_odds), percent(a.false_by_estimate),
                percent(a.missed_by_odds), percent(a.missed_by_estimate), a.median_least, percent(a.least_missed),
                1e3 * took / (3 * histories));
        }
    time_settling(facts);
    time_watch(facts);
}
