// How well readings find the one fault of a random gas heater: the rank of the true cause and side, by what was read.
#include "heating/faults_made.hpp"
#include "padwalk/reference/data.hpp"

#include <cstdio>
#include <cstdlib>
#include <ctime>

using namespace padwalk;
using namespace padwalk::tests;

int main(int argc, char** argv)
{
    int const heaters = argc > 1 ? std::atoi(argv[1]) : 300;
    auto const table = heating::fired_heater_table(reference::Data::built_in());
    struct Named
    {
        char const* name;
        HeaterQuestion question;
    };
    for (auto const& [name, question] : {Named{"thermometers and plate", {HeaterGaugeSet::thermometers, false, false}},
                                         Named{"and meter clocked", {HeaterGaugeSet::meter, false, false}},
                                         Named{"and analyser", {HeaterGaugeSet::analyser, false, false}},
                                         Named{"thermometers, flow meter", {HeaterGaugeSet::thermometers, true, false}},
                                         Named{"all and flow meter", {HeaterGaugeSet::analyser, true, false}},
                                         Named{"meter, other laws", {HeaterGaugeSet::meter, false, true}},
                                         Named{"analyser, other laws", {HeaterGaugeSet::analyser, false, true}}})
    {
        auto const start = std::clock();
        auto const t = rank_heater_faults(heaters, question, table);
        double const took = static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
        auto const percent = [&](int n) { return 100.0 * n / t.heaters; };
        std::printf(
            "%-26s heaters %d side %.0f%% fault first %.0f%% in three %.0f%% mean rank %.2f of %.0f called sound "
            "%.0f%%; %.2f ms of processor each\n",
            name, t.heaters, percent(t.side_first), percent(t.first), percent(t.in_three), t.mean_rank, t.kinds,
            percent(t.called_sound), 1e3 * took / t.heaters);
        auto const alarms = heater_false_alarms(heaters, question, table);
        std::printf("    of sound heaters %.0f%% fit some fault better, %.0f%% twenty times better\n",
                    percent(alarms.even), percent(alarms.twenty));
        for (auto const* by : {&t.by_side, &t.by_fault})
            for (auto const& [what, c] : *by)
                std::printf("    %-36s of %3d: side %3d first %3d in three %3d\n", what.c_str(), c.heaters, c.side,
                            c.first, c.in_three);
    }
}
