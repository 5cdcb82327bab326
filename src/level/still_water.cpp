#include "still_water.hpp"

#include "padwalk/physics/water.hpp"

#include <algorithm>

namespace padwalk::level
{
namespace
{

/// The weather with one of its readings moved by so many standard deviations.
OpenWater moved(LevelWeather const& w, std::size_t reading, double deviations)
{
    OpenWater out{w.water.value, w.air.value, w.humidity.value, w.wind.value};
    switch (reading)
    {
    case 0: out.water_temperature = out.water_temperature + w.water.doubt * deviations; break;
    case 1: out.air_temperature = out.air_temperature + w.air.doubt * deviations; break;
    case 2:
        out.humidity = units::Fraction::from_value(
            std::clamp(out.humidity.value() + w.humidity.doubt.value() * deviations, 0.0, 1.0));
        break;
    default: out.wind = std::max(units::Velocity(), units::Velocity(out.wind + w.wind.doubt * deviations)); break;
    }
    return out;
}

/// Fall of still, open water, m/s. Below zero where the readings have vapour condense: no form was made for it, but
/// readings err either way, and cutting one side off would shift what they say together.
double still_rate(OpenWater const& open, EvaporationForm form, EvaporationTable const& table)
{
    auto const coefficients = form == EvaporationForm::smith
                                  ? physics::coefficients_in_kilojoule(table.smith_still, table.smith_wind)
                                  : physics::coefficients_in_btu(table.ashrae_still, table.ashrae_wind);
    return units::in_si(physics::evaporation_flux(open, coefficients, table.factor(form, Activity::still)) /
                        physics::density(open.water_temperature));
}

} // namespace

StillWater still_water(LevelWeather const& w, EvaporationForm form, EvaporationTable const& table)
{
    StillWater out{still_rate(moved(w, 0, 0), form, table), {}};
    for (std::size_t i = 0; i < weather_readings; ++i)
        out.moves.at(i) = (still_rate(moved(w, i, 1), form, table) - still_rate(moved(w, i, -1), form, table)) / 2;
    return out;
}

} // namespace padwalk::level
