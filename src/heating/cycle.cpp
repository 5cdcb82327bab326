#include "padwalk/heating/cycle.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/physics/water.hpp"

namespace padwalk::heating
{

HeaterCycle heater_cycle(units::Volume volume, units::TemperatureDifference band, units::Power heat, units::Power loss,
                         units::Temperature water)
{
    double const store = units::in_si(volume) * units::in_si(physics::density(water)) *
                         units::in_si(physics::specific_heat(water)) * units::in_si(band);
    double const gained = units::in_si(heat) - units::in_si(loss), lost = units::in_si(loss);
    if (!(gained > 0))
        throw figures::NotComputed("the water loses all the heat that it is given, so the heater never rests");
    HeaterCycle out{units::of_si<units::Duration>(store / gained), std::nullopt};
    if (lost > 0)
        out.rests = units::of_si<units::Duration>(store / lost);
    return out;
}

} // namespace padwalk::heating
