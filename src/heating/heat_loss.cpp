#include "padwalk/heating/heat_loss.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/physics/air.hpp"
#include "padwalk/physics/water.hpp"
#include "padwalk/units/definitions.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::heating
{
namespace
{

using namespace units::exact;

// 2 π^5 k^4/(15 h^3 c^2) of the exact constants [si-2019].
constexpr double stefan_boltzmann = 5.670374419e-8;                         // W/(m2 K4)
constexpr double clear_sky_reference = 273.0;                               // K, of the form as printed
constexpr double us_r_value = square_foot * hour * fahrenheit_degree / btu; // m2 K/W

double fourth_power(units::Temperature t)
{
    return std::pow(units::in_si(t), 4);
}

double pressure_ratio(units::Length altitude)
{
    return units::in_si(physics::pressure_at_altitude(altitude)) / units::in_si(physics::standard_pressure);
}

// Heat by evaporation and by convection from each square metre of open water.
struct WetAndDry
{
    double evaporation, convection; // W/m2
};

WetAndDry wet_and_dry(units::Temperature water, Activity activity, WaterBody const& body, Surroundings const& around,
                      LossFacts const& facts)
{
    physics::OpenWater const open{water, around.air_temperature, around.humidity, around.wind};
    double const thin = std::pow(pressure_ratio(around.altitude), -facts.table.thin_air.value());
    auto const& evaporation = facts.evaporation;
    auto const coefficients = body.form == EvaporationForm::smith
                                  ? physics::coefficients_in_kilojoule(evaporation.smith_still, evaporation.smith_wind)
                                  : physics::coefficients_in_btu(evaporation.ashrae_still, evaporation.ashrae_wind);
    double const transfer = facts.evaporation.factor(body.form, activity) * body.evaporation_scale.value() * thin *
                            units::in_si(physics::evaporation_transfer(around.wind, coefficients));
    double const bowen = facts.table.bowen.value() * pressure_ratio(around.altitude);
    return {transfer * units::in_si(physics::vapour_drive(open)),
            transfer * bowen * units::in_si(water - around.air_temperature)};
}

double radiation_flux(units::Temperature water, Surroundings const& around, LossTable const& table)
{
    double const sky_share = around.sky_share.value();
    double back = (1 - sky_share) * fourth_power(around.air_temperature);
    if (sky_share > 0)
        back += sky_share * fourth_power(around.sky_measured ? *around.sky_measured
                                                             : sky_temperature(around.air_temperature, around.humidity,
                                                                               around.cloud, table));
    return table.emissivity.value() * stefan_boltzmann * (fourth_power(water) - back);
}

double conductance(Shell shell, LossTable const& table)
{
    for (auto const& row : table.shells)
        if (row.shell == shell)
            return row.conductance.value();
    throw std::logic_error("heating/heat_loss.yaml has no row for a shell");
}

} // namespace

units::Power HeatLoss::total() const
{
    return evaporation + falling_water + convection + radiation + cover + shell - sun;
}

units::Temperature sky_temperature(units::Temperature air, units::Fraction humidity, units::Fraction cloud,
                                   LossTable const& table)
{
    double const dew = units::in_si(physics::dew_point(air, humidity));
    double const tenths = 10 * cloud.value();
    double const clear = table.sky_clear.value() + table.sky_dew.value() * std::log(dew / clear_sky_reference);
    double const clouded =
        1 + tenths * (table.cloud_1.value() + tenths * (table.cloud_2.value() + tenths * table.cloud_3.value()));
    // No sky sends more than a black one as warm as the air.
    double const emissivity = std::min(1.0, clear * clouded);
    return units::of_si<units::Temperature>(units::in_si(air) * std::pow(emissivity, 0.25));
}

units::Area shell_area(units::Volume volume, units::Area area)
{
    double const surface = units::in_si(area);
    if (surface <= 0)
        throw figures::NotComputed("a shell's area needs the area of the water");
    return units::of_si<units::Area>(surface + 4 * std::sqrt(surface) * units::in_si(volume) / surface);
}

HeatLoss heat_loss(units::Temperature water, WaterBody const& body, Surroundings const& around, LossFacts const& facts)
{
    auto const watt = [](double value) { return units::of_si<units::Power>(value); };
    LossTable const& table = facts.table;
    double const area = units::in_si(body.area), falling_area = units::in_si(body.falling_area);
    double const covered = area * body.covered.value(), open = area - covered;
    double const warmer = units::in_si(water - around.air_temperature);
    WetAndDry const surface = wet_and_dry(water, body.activity, body, around, facts);
    WetAndDry const falling = wet_and_dry(water, Activity::jets, body, around, facts);
    HeatLoss out;
    out.evaporation = watt(surface.evaporation * (area - covered * table.cover_cut.value()));
    out.falling_water = watt((falling.evaporation + falling.convection) * falling_area);
    out.convection = watt(surface.convection * open);
    out.radiation = watt(radiation_flux(water, around, table) * open);
    out.cover = watt(covered * warmer / (body.cover_r.value() * us_r_value + table.outer_film.value()));
    out.shell =
        watt(conductance(body.shell, table) * units::in_si(body.shell_area) * units::in_si(water - body.behind_shell));
    out.sun = watt(table.sun_absorbed.value() * units::in_si(around.sun) * open);
    out.water = (out.evaporation + watt(falling.evaporation * falling_area)) / physics::latent_heat(water);
    return out;
}

} // namespace padwalk::heating
