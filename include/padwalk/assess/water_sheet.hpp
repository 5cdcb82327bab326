#pragma once
/// The owner's answer: what the water is doing, what to add, when to swim, what it will do.

#include "padwalk/assess/assess.hpp"
#include "padwalk/assess/water_standing.hpp"
#include "padwalk/chemistry/dose_plan.hpp"
#include "padwalk/chemistry/drift.hpp"

namespace padwalk::assess
{

struct Swim
{
    bool now = false;
    std::vector<std::string> against; ///< why not now
    std::string when;                 ///< what must be so first; empty if now
};

/// One water. What could not be worked out says why.
struct WaterSheet
{
    std::size_t item = 0;           ///< in Assessment::items
    std::vector<std::string> doing; ///< what the water is doing, one matter each
    std::optional<chemistry::DosePlan> plan;
    std::string no_plan;
    std::optional<chemistry::Forecast> forecast; ///< from the end of the plan, where there is one
    std::string no_forecast;
    units::Duration ahead{};
    std::vector<chemistry::DriftBand> bands;
    Swim swim;
    std::optional<SaturationWay> saturation;
    std::optional<ChlorineStanding> chlorine;
};

/// The whole assessment with a sheet for each water of the visit.
struct WaterReport
{
    Assessment assessment;
    std::vector<WaterSheet> waters;
    fields::Named<std::string> sayings; ///< ways and cautions of the products named in the plans, by id
    bool something_to_do = false;
};

/// `ahead` is how far the forecast goes, 1 to 400 days. Same visit, same report. Throws reference::DataProblems.
[[nodiscard]] WaterReport assess_water(visit::ReadVisit const& visit, Engine const& engine,
                                       units::System system = units::System::us,
                                       units::Duration ahead = units::Duration::from_value(30 * 86400.0));

} // namespace padwalk::assess
