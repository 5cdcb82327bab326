#pragma once
/// Made-up level histories with a known leak, what would be written down of them, and how well the balance finds it.

#include "padwalk/level/level_balance.hpp"

#include <random>
#include <string>
#include <vector>

namespace padwalk::tests
{

/// The same numbers on every machine: the engine is fixed by the standard, the distributions are written out here.
class Chance
{
public:
    explicit Chance(unsigned seed) : engine_(seed) {}
    double uniform(double a, double b) { return a + (b - a) * (static_cast<double>(engine_()) + 0.5) / 4294967296.0; }
    bool happens(double probability) { return uniform(0, 1) < probability; }
    double normal();

private:
    std::mt19937 engine_;
};

struct HistoryQuestion
{
    double days = 2;
    bool bucket = false;
    bool pump_alternates = false; ///< half of the stretches on, else one state all the time
    bool other_laws = false;      ///< sun by day, marks rounded to a sixteenth, a scale skewed upwards
};

struct MadeHistory
{
    level::LevelRecord record;
    double off = 0, on = 0; ///< true rates of the leak, m/s
};

/// One history. The truth strays from what the balance foretells by its own spreads; it is computed from the printed
/// forms hour by hour, apart from the room's own code.
[[nodiscard]] MadeHistory make_history(Chance& chance, HistoryQuestion const& question, double off, double on,
                                       level::BalanceFacts const& facts);

/// How often the interval held the truth.
struct Coverage
{
    int histories = 0;
    int held = 0;             ///< of the rate that is the same in all states, or of the rate with the pump off
    int held_on = 0;          ///< of the rate with the pump on, where both states were watched
    int above = 0, below = 0; ///< the truth was above the interval, or below
    double mean_width = 0;    ///< m/s
    double chi_squared = 0;   ///< mean, of the estimate against the truth
};

/// Histories whose true leak is drawn evenly from zero to `most` (in/day).
[[nodiscard]] Coverage coverage(int histories, HistoryQuestion const& question, double most, unsigned seed,
                                level::BalanceFacts const& facts);
/// The same at one true leak, in/day.
[[nodiscard]] Coverage coverage_at(int histories, HistoryQuestion const& question, double leak, unsigned seed,
                                   level::BalanceFacts const& facts);

/// Alarms without a leak and misses with one.
struct Alarms
{
    int sound = 0, false_by_odds = 0, false_by_estimate = 0;
    int leaking = 0, missed_by_odds = 0, missed_by_estimate = 0;
    int least_leaking = 0, least_missed = 0; ///< at the very leak that each history says it could have shown
    double median_least = 0;                 ///< of those, in/day
};

/// A leak is called by the odds where its chance is 95 % or more, by the estimate where that lies above 1.645 of its
/// spreads. `leak` in in/day.
[[nodiscard]] Alarms alarms(int histories, HistoryQuestion const& question, double leak, unsigned seed,
                            level::BalanceFacts const& facts);

} // namespace padwalk::tests
