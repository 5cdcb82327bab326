#pragma once
/// Made-up gas heaters with one fault each, what an inspector would read on them, and the rank of the true cause.

#include "padwalk/heating/fired_faults.hpp"

#include <map>
#include <string>
#include <vector>

namespace padwalk::tests
{

/// What was read.
enum class HeaterGaugeSet
{
    thermometers, ///< the rise, against plate and flow
    meter,        ///< and the gas meter clocked
    analyser      ///< and flue temperature, oxygen and carbon monoxide
};

struct HeaterQuestion
{
    HeaterGaugeSet gauges = HeaterGaugeSet::thermometers;
    bool flow_metered = false; ///< a flow meter stands on the pipe
    bool other_laws = false;   ///< the true heater follows other judged figures than the table's
};

struct HeaterRanks
{
    int heaters = 0, first = 0, in_three = 0, side_first = 0, called_sound = 0;
    double mean_rank = 0;
    double kinds = 0; ///< among which it is ranked
    struct Count
    {
        int heaters = 0, first = 0, in_three = 0, side = 0;
    };
    std::map<std::string, Count> by_fault, by_side;
};

/// Ranks the true fault among all, and the true side among the sides, in so many random heaters. Every fault is as
/// likely as another beforehand; a side's weight is the sum of its faults'.
[[nodiscard]] HeaterRanks rank_heater_faults(int heaters, HeaterQuestion const& question,
                                             heating::FiredHeaterTable const& table);

/// Random heaters with nothing wrong.
struct HeaterFalseAlarms
{
    int heaters = 0;
    int even = 0;   ///< some fault likelier than none
    int twenty = 0; ///< by twenty to one
};
[[nodiscard]] HeaterFalseAlarms heater_false_alarms(int heaters, HeaterQuestion const& question,
                                                    heating::FiredHeaterTable const& table);

} // namespace padwalk::tests
