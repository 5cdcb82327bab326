#pragma once
/// What a falling level says, with and without a bucket beside it.

#include "padwalk/reference/sources.hpp"
#include "padwalk/units/quantity.hpp"

#include <optional>
#include <string>

namespace padwalk::level
{

/// data/level/loss.yaml: published rules of thumb for a falling level.
struct LossRule
{
    units::Velocity rate{};
    reference::Cited source;
    static fields::Record<LossRule> const& declaration();
};
struct LossRules
{
    LossRule may_leak;            ///< more than this may be a leak
    units::Length mark_reading{}; ///< 95 % of one level mark's readings lie within ± this
    reference::Cited mark_source;
    fields::Named<reference::Source> sources;
    static fields::Record<LossRules> const& declaration();
};

[[nodiscard]] LossRules loss_rules(reference::Data const& data);

struct Loss
{
    units::Velocity level{};    ///< fall of the level
    units::VolumeFlow volume{}; ///< water gone
};

/// What a pool lost beyond a bucket of its own water standing in it: both evaporate alike, so the difference leaked.
///
///     leak = (pool_drop - bucket_drop)·area/elapsed
///
/// Valid: nothing added meanwhile, no rain, no splashing; same wind and sun on both. May be negative.
/// Source: geometry; the test itself [bucket-test-advice]
[[nodiscard]] Loss bucket_test(units::Length pool_drop, units::Length bucket_drop, units::Duration elapsed,
                               units::Area area);

/// A verdict of a bucket test, from the marks' own doubt: four marks, each ± mark_reading.
[[nodiscard]] std::string bucket_in_words(units::Length pool_drop, units::Length bucket_drop, LossRules const& rules);

/// What a fall of the level amounts to: loss = drop·area/elapsed.
[[nodiscard]] Loss level_loss(units::Length drop, units::Duration elapsed, units::Area area);

/// A verdict: against computed evaporation if there is any, else against the published rule of thumb.
/// Evaporation is called the likely cause of up to 1.3 times itself: its formula is no better than 30 % (two standard
/// uncertainties).
[[nodiscard]] std::string loss_in_words(units::Velocity level, std::optional<units::Velocity> evaporation,
                                        LossRules const& rules);

} // namespace padwalk::level
