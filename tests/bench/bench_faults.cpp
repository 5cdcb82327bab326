// How well readings find the one fault of a random loop: the rank of the true cause, by what was read.
#include "circulation/faults_made.hpp"
#include "padwalk/reference/data.hpp"

#include <chrono>
#include <cstdio>
#include <cstdlib>

using namespace padwalk;
using namespace padwalk::tests;

int main(int argc, char** argv)
{
    int const loops = argc > 1 ? std::atoi(argv[1]) : 500;
    auto const data = reference::Data::built_in();
    auto const plants = circulation::plant_table(data);
    auto const pumps = circulation::generic_pumps(data);
    auto const table = circulation::sound_loop_table(data);
    struct Named
    {
        char const* name;
        RankQuestion question;
    };
    for (auto const& [name, question] :
         {Named{"filter gauge, clean not known", {GaugeSet::filter_only, false, false}},
          Named{"filter gauge", {GaugeSet::filter_only, true, false}},
          Named{"both gauges", {GaugeSet::both_gauges, true, false}},
          Named{"gauges and rise", {GaugeSet::gauges_and_rise, true, false}},
          Named{"gauges and rise, own pump curve", {GaugeSet::gauges_and_rise, true, true}}})
    {
        auto const start = std::chrono::steady_clock::now();
        auto const t = rank_faults(loops, question, plants, pumps, table);
        std::chrono::duration<double> const took = std::chrono::steady_clock::now() - start;
        std::printf("%-32s loops %d first %.0f%% in three %.0f%% in five %.0f%% place %.0f%% mean rank %.2f called "
                    "sound %.0f%%; "
                    "%.2f ms each\n",
                    name, t.loops, 100.0 * t.first / t.loops, 100.0 * t.in_three / t.loops, 100.0 * t.in_five / t.loops,
                    100.0 * t.place_first / t.loops, t.mean_rank, 100.0 * t.called_sound / t.loops,
                    1e3 * took.count() / t.loops);
        for (auto const& [fault, count] : t.by_fault)
            std::printf("    %-26s %3d of %3d first\n", fault.c_str(), count.second, count.first);
    }
}
