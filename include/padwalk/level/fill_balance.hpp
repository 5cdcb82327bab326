#pragma once
/// What the water that came in by the fill says of a leak: a dead valve, one that runs all day, a meter.

#include "padwalk/level/leak_rate.hpp"

namespace padwalk::level
{

/// Water that came in over some time, and what the level did meanwhile.
struct FillWatch
{
    units::Duration elapsed{};
    std::optional<units::Measured<units::Volume>> delivered; ///< none: nothing, for certain
    units::Measured<units::Length> fall;                     ///< of the level; 0 ± the reading where it held
    units::Measured<units::Velocity> evaporation;            ///< fall of the level by it
    std::optional<units::Area> area;                         ///< needed where something was delivered
};

struct FillSays
{
    units::Measured<units::Velocity> leak; ///< estimate; below zero: less went in than evaporates
    LeakRate rate;                         ///< kept at or above zero
    LeakOdds odds;                         ///< log_ratio below zero argues against a leak
    units::Velocity least_shown{};         ///< least leak that this could have shown
};

/// The balance of the water that came in:
///
///     leak = fall/elapsed + delivered/(area·elapsed) - evaporation
///
/// - A valve that delivers nothing, broken or not called for, while the level holds: all that is lost is the fall. The
///   evidence against a leak is exp(-log_ratio); against a leak of one size exp(-log_ratio_of(size, leak)).
/// - A valve that runs all day: delivered is flow_over(flow, run). A leak hides in it as far as the flow, the run and
/// the
///   evaporation are doubtful, and no further.
/// - A meter with all else off bounds it: delivered is the meter's, with half its smallest step and its error as doubt.
///
/// Valid:    no rain, backwash or bathers, no other way in. A level is not held by a valve that is dead: then either
///           nothing is lost or the history is too short, which least_shown tells
/// Source:   geometry; the way of asking [common-practice]: a fill valve that does not run while the level holds argues
///           against a leak of any size
/// Throws:   figures::NotComputed without a time, a doubt or the area
[[nodiscard]] FillSays fill_says(FillWatch const& watch, BalanceTable const& table);

/// Volume by a flow over the time that a valve ran, doubts independent.
[[nodiscard]] units::Measured<units::Volume> flow_over(units::Measured<units::VolumeFlow> const& flow,
                                                       units::Measured<units::Duration> const& run);

} // namespace padwalk::level
