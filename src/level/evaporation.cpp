#include "padwalk/level/evaporation.hpp"

#include "padwalk/figures/model.hpp"

namespace padwalk::level
{

units::MassFlux evaporation_flux(OpenWater const& open, EvaporationForm form, Activity activity,
                                 EvaporationTable const& table)
{
    if (physics::vapour_drive(open) < units::Pressure())
        throw figures::NotComputed("the air holds more vapour than the water gives off: it condenses on the water, for "
                                   "which these forms were not made");
    return physics::evaporation_flux(open,
                                     form == EvaporationForm::smith
                                         ? physics::coefficients_in_kilojoule(table.smith_still, table.smith_wind)
                                         : physics::coefficients_in_btu(table.ashrae_still, table.ashrae_wind),
                                     table.factor(form, activity));
}

} // namespace padwalk::level
