#include "padwalk/level/air_gap.hpp"

#include <algorithm>

namespace padwalk::level
{

using fields::Record;

Record<AirGapRules> const& AirGapRules::declaration()
{
    static Record<AirGapRules> const record =
        Record<AirGapRules>("air gap", "published air gaps")
            .field("diameters", &AirGapRules::diameters, "of the opening")
            .required()
            .field("least", &AirGapRules::least, "and never less than")
            .required()
            .field("plumbing_source", &AirGapRules::plumbing_source, "where these come from")
            .required()
            .field("diameters_wall", &AirGapRules::diameters_wall, "of the opening, near a wall")
            .required()
            .field("wall_source", &AirGapRules::wall_source, "where that comes from")
            .required()
            .field("pool_spout", &AirGapRules::pool_spout, "at a pool spout")
            .required()
            .field("pool_source", &AirGapRules::pool_source, "where that comes from")
            .required()
            .field("sources", &AirGapRules::sources, "works cited");
    return record;
}

AirGapRules air_gap_rules(reference::Data const& data)
{
    return reference::read_table<AirGapRules>(data, "level/air_gap.yaml");
}

AirGap air_gap(units::Length bore, units::Length gap, bool near_wall, AirGapRules const& rules)
{
    double const diameters = near_wall ? rules.diameters_wall.value() : rules.diameters.value();
    units::Length const required = std::max<units::Length>(bore * diameters, rules.least);
    units::Length const at_pool = std::max<units::Length>(required, rules.pool_spout);
    return {required, required - gap, at_pool, at_pool - gap};
}

std::string air_gap_in_words(units::Length gap, AirGap const& result)
{
    if (!(gap > units::Length()))
        return "no air gap: the opening can be under water, and pool water can be drawn into the drinking water; a "
               "plumber must see it";
    if (result.shortfall > units::Length())
        return "too small by the plumbing rule as well as by the rule for pool spouts; a plumber must see it";
    if (result.shortfall_at_pool > units::Length())
        return "enough by the general plumbing rule, too small where six inches are asked for at a pool spout; the "
               "local code decides";
    return "enough by both published rules";
}

} // namespace padwalk::level
