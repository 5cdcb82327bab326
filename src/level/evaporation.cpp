#include "padwalk/level/evaporation.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/physics/air.hpp"
#include "padwalk/physics/water.hpp"
#include "padwalk/units/definitions.hpp"

#include <stdexcept>

namespace padwalk::level
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

EvaporationTable evaporation_table(reference::Data const& data)
{
    return reference::read_table<EvaporationTable>(data, "level/evaporation.yaml");
}

EvaporationCoefficients EvaporationTable::coefficients(EvaporationForm form) const
{
    using namespace units::exact;
    if (form == EvaporationForm::smith)
    {
        constexpr double unit = 1000 / hour / millimetre_mercury; // kJ/(h m2 mmHg)
        return {smith_still.value() * unit, smith_wind.value() * unit};
    }
    constexpr double unit = btu / hour / square_foot / inch_mercury; // Btu/(h ft2 inHg)
    return {ashrae_still.value() * unit, ashrae_wind.value() * unit / (foot / minute)};
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

units::MassFlux evaporation_flux(OpenWater const& open, EvaporationForm form, Activity activity,
                                 EvaporationTable const& table)
{
    units::Pressure const drive = physics::vapour_pressure(open.water_temperature) -
                                  physics::vapour_pressure_in_air(open.air_temperature, open.humidity);
    if (drive < units::Pressure())
        throw figures::NotComputed("the air holds more vapour than the water gives off: it condenses on the water, for "
                                   "which these forms were not made");
    auto const h = table.coefficients(form);
    double const transfer =
        table.factor(form, activity) * (h.still_W_per_m2_Pa + h.wind_W_s_per_m3_Pa * units::in_si(open.wind));
    auto const heat = units::of_si<units::HeatFlux>(transfer * units::in_si(drive));
    return heat / physics::latent_heat(open.water_temperature);
}

} // namespace padwalk::level
