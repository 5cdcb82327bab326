#pragma once
#include "rules.hpp"

#include "padwalk/assess/assess.hpp"
#include "padwalk/assess/water_standing.hpp"

namespace padwalk::assess
{

/// One water of an assessment that is done, while its standing is read off it.
struct AssessedWater
{
    Engine const& engine;
    Assessment const& out;
    Rules const& rules;
    visit::Water const& water;
    visit::WaterTest const* test; ///< the one that counts, or none
    std::size_t item;
    bool spa;
};

/// None where no index was computed.
[[nodiscard]] std::optional<SaturationWay> saturation_way(AssessedWater const& water);
/// None where free chlorine was not tested or its reading was not to be trusted.
[[nodiscard]] std::optional<ChlorineStanding> chlorine_standing(AssessedWater const& water);

} // namespace padwalk::assess
