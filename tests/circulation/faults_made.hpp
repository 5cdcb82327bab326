#pragma once
/// Made-up loops with one fault each, what an inspector would read on them, and the rank of the true cause.

#include "padwalk/circulation/sound_loop.hpp"

#include <map>
#include <random>
#include <string>
#include <vector>

namespace padwalk::tests
{

/// What was read.
enum class GaugeSet
{
    filter_only,
    both_gauges,
    gauges_and_rise
};

struct RankTable
{
    int loops = 0, first = 0, in_three = 0, in_five = 0, called_sound = 0;
    int place_first =
        0; ///< the first named sits where the true one does: suction, pump, filter, returns, heater, gauge
    double mean_rank = 0;
    std::map<std::string, std::pair<int, int>> by_fault; ///< loops with it, ranked first
};

struct RankQuestion
{
    GaugeSet gauges = GaugeSet::both_gauges;
    bool clean_known = true;  ///< the filter's clean reading was written down
    bool curve_known = false; ///< the pump's own curve, not that of a usual pump of its power
};

/// Ranks the true cause among all hypotheses (the faults, broken gauges, a sound loop) in so many random loops.
[[nodiscard]] RankTable rank_faults(int loops, RankQuestion const& question, circulation::PlantTable const& plants,
                                    std::vector<circulation::GenericPump> const& pumps,
                                    circulation::SoundLoopTable const& table);

/// The faults that are tried, by name.
struct NamedSuspicion
{
    std::string name;
    circulation::Suspicion suspicion;
    std::string place; ///< on the loop
};
[[nodiscard]] std::vector<NamedSuspicion> const& suspicions();

} // namespace padwalk::tests
