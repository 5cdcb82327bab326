#pragma once
/// The water balance of a level history: is there a leak, how large, and on which side of the pump.

#include "padwalk/level/leak_rate.hpp"
#include "padwalk/level/level_record.hpp"

#include <optional>
#include <vector>

namespace padwalk::level
{

/// Where a leak loses by the pump.
enum class LeakPlace
{
    shell,         ///< the same with the pump on and off
    pressure_side, ///< more with the pump on
    suction_side   ///< more with the pump off
};

struct PlaceOdds
{
    LeakPlace place = LeakPlace::shell;
    double log_likelihood = 0.0; ///< of the history, over that without a leak
    units::Fraction chance{};    ///< among the places, if there is a leak
};

/// Fall foretold up to a mark, without a leak.
struct Foretold
{
    units::Duration at{};
    units::Measured<units::Length> fall; ///< by evaporation, use, rain and what came in
};

struct LevelBalance
{
    LeakRate leak;                  ///< the same rate in every state of the pump
    std::optional<LeakRate> off;    ///< with the pump off, where both states were watched apart
    std::optional<LeakRate> on;     ///< with the pump on
    LeakOdds odds;                  ///< over all places
    std::vector<PlaceOdds> places;  ///< as LeakPlace
    units::Velocity least_shown{};  ///< least leak that this history could have shown
    std::vector<Foretold> foretold; ///< for each mark, the first included
    double chi_squared = 0.0;       ///< of the marks against evaporation alone, the better of the two forms
    int degrees = 0;
    double chi_squared_with_leak = 0.0; ///< with the best rates, also below zero
};

/// Weighs a level history.
///
///     fall(mark) = evaporation + bathers + backwash - rain - filled + leak_off·time off + leak_on·time on
///
/// The marks, and those on a bucket, are one normal density about what is foretold. These may stray, each by its
/// spread in data/level/balance.yaml or by the doubt that the record writes, and each moves marks together: the
/// evaporation form's scale; every reading of the weather; one weather taken for all days; each day; a bucket against
/// the pool; stirring; cover; rain; bathers; each volume; a time; a mark. A bucket thereby measures the evaporation. An
/// open fill of unknown flow may have delivered anything up to `most_fill`, so its stretch says next to nothing. Where
/// the pump's share of the time is not known, five shares are equally likely, one for all such stretches.
///
/// Both published forms of evaporation count, equally likely beforehand (model average). Leaks follow leak_rate; the
/// odds are those of a leak at one of the three places against none: a leak of the pressure side keeps nothing to
/// `pressure_rest` of its rate with the pump off, one of the suction side nothing to `suction_rest` with it on.
///
/// Valid:    a leak that does not change as the level falls, see level_settling.hpp; marks read with normal errors
/// Accuracy: that of the spreads, most of them judgement. Over simulated histories with these spreads the interval
///           holds the truth at its stated rate (94 to 96 of 100; 92 to 95 where other laws made them), odds of 19 to 1
///           are wrong once in a hundred without a leak, and the estimate lies above 1.645 of its doubts 5 to 9 times,
///           as evaporation errs more upwards: tests/bench/bench_level.cpp. An estimate far below zero argues against a
///           leak only if no water came in that nobody knew of
/// Throws:   figures::NotComputed, see require_weighable; physics::OutOfRange
[[nodiscard]] LevelBalance level_balance(LevelRecord const& record, BalanceFacts const& facts);

/// How much longer to watch, with the fill shut and all else as in the last stretch, until a leak of this rate could be
/// shown: until 3.29 s, s the doubt of the leak in the history with one more mark, is no more than it. Zero where
/// the history can show it already; none where `longest_watch` would not do, then only a bucket helps.
///
/// For two marks of doubt u, evaporation E (fall in a day) of persisting relative doubt p and daily doubt d, after n
/// whole days:
///
///     s = sqrt(2 u²/n² + E² (p² + d²/n)) a day;   with a bucket of doubt b: about sqrt(4 u²/n² + E² b²)
///
/// Throws:   as level_balance
[[nodiscard]] std::optional<units::Duration> watch_longer(LevelRecord const& record, units::Velocity leak,
                                                          BalanceFacts const& facts);

} // namespace padwalk::level

template <> struct padwalk::fields::words_of<padwalk::level::LeakPlace>
{
    static std::vector<std::string> words() { return {"shell", "pressure_side", "suction_side"}; }
};
