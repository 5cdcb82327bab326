#include "padwalk/reference/evaporation_table.hpp"

#include <stdexcept>

namespace padwalk::reference
{

using fields::Record;

Record<ActivityFactor> const& ActivityFactor::declaration()
{
    static Record<ActivityFactor> const record =
        Record<ActivityFactor>("activity", "evaporation by what goes on in the water")
            .field("activity", &ActivityFactor::activity, "what goes on")
            .required()
            .field("factor", &ActivityFactor::factor, "of the ashrae form")
            .required()
            .field("source", &ActivityFactor::source, "where it comes from")
            .required();
    return record;
}

Record<EvaporationTable> const& EvaporationTable::declaration()
{
    static Record<EvaporationTable> const record =
        Record<EvaporationTable>("evaporation", "published forms of the evaporation of a pool")
            .field("ashrae_still", &EvaporationTable::ashrae_still, "Btu/(h ft2 inHg)")
            .required()
            .field("ashrae_wind", &EvaporationTable::ashrae_wind, "Btu/(h ft2 inHg) per ft/min")
            .required()
            .field("ashrae_source", &EvaporationTable::ashrae_source, "where it comes from")
            .required()
            .field("smith_still", &EvaporationTable::smith_still, "kJ/(h m2 mmHg)")
            .required()
            .field("smith_wind", &EvaporationTable::smith_wind, "kJ/(h m2 mmHg) per m/s")
            .required()
            .field("smith_source", &EvaporationTable::smith_source, "where it comes from")
            .required()
            .field("activity", &EvaporationTable::activity, "factors")
            .required()
            .field("sources", &EvaporationTable::sources, "works cited");
    return record;
}

EvaporationTable evaporation_table(Data const& data)
{
    return read_table<EvaporationTable>(data, "level/evaporation.yaml");
}

double EvaporationTable::factor(EvaporationForm form, Activity doing) const
{
    auto const of_ashrae = [this](Activity which)
    {
        for (auto const& row : activity)
            if (row.activity == which)
                return row.factor.value();
        throw std::logic_error("data/level/evaporation.yaml lacks an activity");
    };
    return form == EvaporationForm::ashrae ? of_ashrae(doing) : of_ashrae(doing) / of_ashrae(Activity::still);
}

} // namespace padwalk::reference
