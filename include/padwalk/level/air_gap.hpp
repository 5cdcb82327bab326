#pragma once
/// The gap of free air above the highest water, which keeps pool water out of the drinking water.

#include "padwalk/reference/sources.hpp"
#include "padwalk/units/quantity.hpp"

#include <string>

namespace padwalk::level
{

/// data/level/air_gap.yaml: published rules, which differ.
struct AirGapRules
{
    units::Number diameters{};      ///< of the opening
    units::Number diameters_wall{}; ///< of the opening, with a wall close by
    units::Length least{};
    reference::Cited plumbing_source;
    reference::Cited wall_source;
    units::Length pool_spout{}; ///< some bodies, for a spout at a pool
    reference::Cited pool_source;
    fields::Named<reference::Source> sources;
    static fields::Record<AirGapRules> const& declaration();
};

[[nodiscard]] AirGapRules air_gap_rules(reference::Data const& data);

struct AirGap
{
    units::Length required{};         ///< general plumbing rule
    units::Length shortfall{};        ///< required less the gap; negative: to spare
    units::Length required_at_pool{}; ///< the stricter rule for pool spouts
    units::Length shortfall_at_pool{};
};

/// Gap asked for by the general plumbing rule (twice the opening, three times with a wall near, one inch at least) and
/// by the bodies that ask for six inches at a pool spout.
///
/// Source: [fill-air-gap-codes], [pool-spout-gap-codes], [alexandria-11-11-41]
[[nodiscard]] AirGap air_gap(units::Length bore, units::Length gap, bool near_wall, AirGapRules const& rules);

[[nodiscard]] std::string air_gap_in_words(units::Length gap, AirGap const& result);

} // namespace padwalk::level
