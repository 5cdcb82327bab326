#pragma once
/// How often what is called so likely is so: properties drawn from one state of knowledge, judged by another.

#include "laid_out_made.hpp"

#include <array>
#include <cmath>

namespace padwalk::tests
{

/// A small property with one item of each kind: no field but what says which causes can be there.
inline std::string const one_of_each = R"(waters:
  pool:
    kind: pool
    shell: {surface: plaster}
loops:
  pool loop:
    serves: [pool]
    pump: {age: 10 years}
    filter: {media: sand}
    drains: {main drain: {}}
heaters:
  gas heater: {loop: pool loop, energy: natural_gas, stands: outdoors}
fill_valves:
  fill: {fills: pool, kind: float_valve}
)";

/// Causes whose stated likelihoods lie in one range, over all properties.
struct CalibrationBin
{
    double pairs = 0;  ///< of a cause and a property
    double stated = 0; ///< sum of their stated likelihoods
    double there = 0;  ///< how many are truly there
    double spread = 0; ///< variance of `there`, were all of them independent: sum of p (1 − p)
    double met = 0;    ///< sum over properties of (there − stated)², which knows of what hangs together

    /// Few of either kind say nothing: a bin counts with 25 expected to be there and 25 not.
    [[nodiscard]] bool counts() const { return stated >= 25 && pairs - stated >= 25; }
    /// (there − stated) by its spread, the larger of the two. Near normal, 0 ± 1, where the likelihoods are true.
    [[nodiscard]] double off() const;
    /// |share there − mean stated|
    [[nodiscard]] double gap() const { return pairs > 0 ? std::abs(there - stated) / pairs : 0; }
};

class Calibration
{
public:
    /// Where each bin begins; the last ends at 1.
    static constexpr std::array from{0.0, 0.001, 0.003, 0.01, 0.03, 0.06, 0.1, 0.2,
                                     0.3, 0.4,   0.5,   0.6,  0.7,  0.8,  0.9, 0.97};

    /// One property: what was said of each cause, and what is true.
    void add(std::vector<double> const& stated, std::vector<bool> const& there);

    [[nodiscard]] std::array<CalibrationBin, from.size()> const& bins() const { return bins_; }
    /// Mean of (stated − 1 if there, else 0)²: 0 for one who knows all.
    [[nodiscard]] double brier() const { return squares_ / pairs_; }
    /// Mean of the gaps, the bins that count alike.
    [[nodiscard]] double mean_gap() const;
    [[nodiscard]] double largest_off() const;
    /// Sum of off() squared over the bins that count, and how many those are.
    [[nodiscard]] std::pair<double, int> off_squared() const;

private:
    std::array<CalibrationBin, from.size()> bins_{};
    double squares_ = 0, pairs_ = 0;
};

/// Properties drawn from `truth`, judged by `ours`, by `truth` itself (the best that can be done), by the priors of
/// `ours` alone (as if nothing had been looked at), and by `ours` one cause at a time.
struct Judged
{
    Calibration ours, best, priors, one_at_a_time;
    int properties = 0;
    int same_cause = 0, same_trade = 0;                       ///< the likeliest, by ours and by the best
    int ours_there = 0, best_there = 0;                       ///< the likeliest cause is truly there
    int sent_by_ours = 0, sent_by_best = 0, sent_by_both = 0; ///< trades, over all properties
    double moved = 0; ///< sum of |ours − best| over the causes that the best calls likely, from 10 % on
    int likely = 0;   ///< how many those are

    [[nodiscard]] double mean_moved() const { return moved / likely; }
};

/// What to expect of whoever takes the findings for independent given one cause, the others at their priors: the right
/// chance of each finding, but nothing is explained away by another cause.
[[nodiscard]] std::vector<double> one_cause_at_a_time(diagnosis::Network const& network,
                                                      std::span<diagnosis::Evidence const> evidence);

/// Plain sampling, no weights: a property has some thirteen causes by its priors alone, so none need be forced in, and
/// P(cause | evidence) is by its meaning the share of properties with this evidence that have the cause, as long as
/// what is looked at does not depend on what is there. A third of the findings is looked at, whichever.
///
/// Requires: both are laid out over the same visit
void judge_drawn(int properties, LaidOut const& truth, LaidOut const& ours, SendingRule const& rule, Chance& chance,
                 Judged& into);

} // namespace padwalk::tests
