#include "surroundings_fields.hpp"

#include "padwalk/figures/model.hpp"

namespace padwalk::heating
{

WaterBody water_body(SurroundingsInput const& in, std::optional<units::Volume> volume)
{
    if (!in.area || !in.air_temperature || !in.humidity)
        throw figures::NotComputed("to work out losses give area, air_temperature and humidity");
    WaterBody out;
    out.area = *in.area;
    out.falling_area = in.falling_area.value_or(units::Area());
    out.activity = in.activity.value_or(Activity::still);
    out.form = in.form.value_or(EvaporationForm::ashrae);
    out.evaporation_scale = in.evaporation_scale.value_or(units::Number::from_value(1.0));
    out.covered = in.covered.value_or(units::Fraction());
    out.cover_r = in.cover_r.value_or(units::Number::from_value(Assumed::cover_r_value));
    out.shell = in.shell.value_or(Shell::in_ground);
    if (in.shell_area)
        out.shell_area = *in.shell_area;
    else if (volume)
        out.shell_area = shell_area(*volume, *in.area);
    out.behind_shell = in.behind_shell.value_or(*in.air_temperature);
    return out;
}

Surroundings surroundings(SurroundingsInput const& in)
{
    Surroundings out;
    out.air_temperature = in.air_temperature.value();
    out.humidity = in.humidity.value();
    out.wind = in.wind.value_or(units::of_si<units::Velocity>(Assumed::wind_m_s));
    out.altitude = in.altitude.value_or(units::Length());
    out.sky_share = in.sky_share.value_or(units::Fraction::from_value(Assumed::sky_share_value));
    out.cloud = in.cloud.value_or(units::Fraction::from_value(Assumed::cloud_value));
    out.sky_measured = in.sky_temperature;
    out.sun = in.sun.value_or(units::HeatFlux());
    return out;
}

bool any_said(SurroundingsInput const& in)
{
    return in.area || in.air_temperature || in.humidity || in.wind || in.altitude || in.activity || in.form ||
           in.evaporation_scale || in.falling_area || in.sky_share || in.cloud || in.sky_temperature || in.sun ||
           in.covered || in.cover_r || in.shell || in.shell_area || in.behind_shell;
}

} // namespace padwalk::heating
