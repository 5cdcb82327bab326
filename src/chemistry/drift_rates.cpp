#include "padwalk/chemistry/drift_rates.hpp"

#include "padwalk/numerics/interpolation.hpp"
#include "padwalk/physics/range.hpp"
#include "padwalk/physics/water.hpp"
#include "padwalk/units/definitions.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace padwalk::chemistry
{
namespace
{

constexpr double cm_per_hour = 1e-2 / 3600;
constexpr double schmidt_of_rows = 600;
constexpr double schmidt_of_wind = 660;

template <class Row, class Key, class Member> Row const& row_of(std::vector<Row> const& rows, Member member, Key key)
{
    for (auto const& row : rows)
        if (row.*member == key)
            return row;
    throw std::logic_error("data/chemistry/drift.yaml lacks a row");
}

double schmidt_number(units::Temperature water)
{
    auto const at_20 = units::of_si<units::Temperature>(293.15);
    return schmidt_of_rows * (physics::kinematic_viscosity(water) / physics::kinematic_viscosity(at_20)).value() *
           (physics::viscosity(water) / physics::viscosity(at_20)).value() * (at_20.value() / water.value());
}

double unbound(State const& water)
{
    return units::in_si(water.hypochlorous_acid()) + units::in_si(water.hypochlorite());
}

/// Of chlorine that no cyanurate holds, 1/s; zero without chlorine.
double bare_surface(State const& water, DriftTable const& table)
{
    double const free = unbound(water);
    if (!(free > 0))
        return 0;
    double const acid = units::in_si(water.hypochlorous_acid()) / free;
    return acid * table.sunlight.hypochlorous_per_second.value() +
           (1 - acid) * table.sunlight.hypochlorite_per_second.value();
}

double share_not_held(State const& water)
{
    double const all = units::in_si(water.composition().totals.chlorine);
    return all > 0 ? std::min(unbound(water) / all, 1.0) : 0.0;
}

/// Mean over day and depth of what noon does at the surface.
double mean_of_noon(units::Length depth, Sunlight const& sunlight)
{
    double const day = 2 / std::numbers::pi * units::in_si(sunlight.day_length) / units::exact::day;
    double const x = (depth / sunlight.light_depth).value();
    return day * (x > 0 ? -std::expm1(-x) / x : 1.0);
}

} // namespace

units::Velocity transfer_velocity(Aeration aeration, std::optional<units::Velocity> wind, units::Temperature water,
                                  DriftTable const& table)
{
    physics::require_within({0, 45, "°C", ""}, water, "water temperature");
    double rate = units::in_si(row_of(table.transfer, &TransferRow::aeration, aeration).velocity);
    if (wind && aeration != Aeration::none)
    {
        double const u = units::in_si(*wind);
        physics::require_within({0, 20, "m/s", table.wind_source.key}, u, "wind");
        rate = std::max(rate,
                        table.wind_factor.value() * u * u * std::sqrt(schmidt_of_wind / schmidt_of_rows) * cm_per_hour);
    }
    return units::of_si<units::Velocity>(rate * std::sqrt(schmidt_of_rows / schmidt_number(water)));
}

double air_carbon_dioxide(DriftTable const& table)
{
    return std::log10(table.carbon_dioxide.value());
}

units::Frequency surface_photolysis(State const& water, DriftTable const& table)
{
    return units::of_si<units::Frequency>(bare_surface(water, table) * share_not_held(water));
}

units::Frequency mean_photolysis(State const& water, units::Length depth, DriftTable const& table)
{
    return surface_photolysis(water, table) * mean_of_noon(depth, table.sunlight);
}

double published_shielding(units::AsCyanuricAcid cyanurate, DriftTable const& table)
{
    std::vector<double> at, log_factor;
    for (auto const& row : table.sunlight.shield)
    {
        at.push_back(units::in_si(row.cyanurate));
        log_factor.push_back(std::log(row.factor.value()));
    }
    return std::exp(numerics::linear_table(at, log_factor, std::clamp(units::in_si(cyanurate), at.front(), at.back())));
}

units::Frequency sun_loss(State const& water, units::Length depth, Sun sun, units::Fraction lean,
                          DriftTable const& table)
{
    double const held_is_safe = share_not_held(water);
    if (!(held_is_safe > 0))
        return units::of_si<units::Frequency>(0);
    double const published = published_shielding(as_cyanuric_acid(water.composition().totals.cyanurate), table);
    double const left = std::min(std::pow(held_is_safe, 1 - lean.value()) * std::pow(published, lean.value()), 1.0);
    double const share = row_of(table.sunlight.sun, &SunRow::sun, sun).share.value();
    return units::of_si<units::Frequency>(bare_surface(water, table) * left * share *
                                          mean_of_noon(depth, table.sunlight));
}

units::Frequency standing_loss(units::Temperature water, DriftTable const& table)
{
    auto const& row = table.standing_loss;
    return units::of_si<units::Frequency>(row.per_day.value() / units::exact::day *
                                          std::exp2(((water - row.at) / row.doubling).value()));
}

} // namespace padwalk::chemistry
