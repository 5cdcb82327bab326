#include "padwalk/heating/condensation.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/numerics/root.hpp"
#include "padwalk/physics/air.hpp"
#include "padwalk/physics/constants.hpp"
#include "padwalk/physics/water.hpp"
#include "padwalk/units/definitions.hpp"

namespace padwalk::heating
{
namespace
{

using fields::Record;

/// Above this share of oxygen, or below this of carbon dioxide, nearly all of the sample is air; judgement.
constexpr double most_oxygen = 0.18;
constexpr double least_carbon_dioxide = 0.02;

// Oxygen that a mole of the fuel takes, and moles of dry gas that it leaves.
double oxygen_need(BurnedGasRow const& fuel)
{
    return fuel.carbon.value() + fuel.hydrogen.value() / 4;
}

double dry_gas(double air_ratio, BurnedGasRow const& fuel, double air_oxygen)
{
    double const need = oxygen_need(fuel);
    return fuel.carbon.value() - need + air_ratio * need / air_oxygen;
}

units::Temperature dew_point_of(double pascal)
{
    constexpr double low = units::exact::celsius_zero, high = low + 100; // K, of the vapour pressure
    double const kelvin = numerics::bracketed_root(
        [pascal](double t)
        { return units::in_si(physics::vapour_pressure(units::of_si<units::Temperature>(t))) - pascal; },
        low, high, 1e-12);
    return units::of_si<units::Temperature>(kelvin);
}

} // namespace

Record<BurnedGasRow> const& BurnedGasRow::declaration()
{
    using B = BurnedGasRow;
    static Record<B> const record = Record<B>("fuel", "a mole of fuel")
                                        .field("fuel", &B::fuel, "which gas")
                                        .required()
                                        .field("carbon", &B::carbon, "atoms of carbon")
                                        .required()
                                        .field("hydrogen", &B::hydrogen, "atoms of hydrogen")
                                        .required()
                                        .field("gross_heat", &B::gross_heat, "gross heat, kJ/mol")
                                        .required()
                                        .field("meaning", &B::meaning, "what is left out")
                                        .field("source", &B::source, "where it comes from")
                                        .required();
    return record;
}

Record<CondensationFacts> const& CondensationFacts::declaration()
{
    using C = CondensationFacts;
    static Record<C> const record = Record<C>("condensation", "what leaves a burner")
                                        .field("fuels", &C::fuels, "fuels")
                                        .required()
                                        .field("air_oxygen", &C::air_oxygen, "oxygen in dry air")
                                        .required()
                                        .field("tube_warmer", &C::tube_warmer, "tubes over the water, K")
                                        .required()
                                        .field("sources", &C::sources, "works cited");
    return record;
}

BurnedGasRow const& CondensationFacts::fuel(BurnedGas which) const
{
    for (auto const& row : fuels)
        if (row.fuel == which)
            return row;
    throw std::logic_error("heating/condensation.yaml has no row for a fuel");
}

CondensationFacts condensation_facts(reference::Data const& data)
{
    return reference::read_table<CondensationFacts>(data, "heating/condensation.yaml");
}

units::Number air_ratio_from_oxygen(units::Fraction oxygen, BurnedGasRow const& fuel, CondensationFacts const& facts)
{
    double const o = oxygen.value(), need = oxygen_need(fuel);
    if (o >= most_oxygen)
        throw figures::NotComputed(
            "18 % oxygen or more: the sample is nearly all room air, not flue gas; nothing can be told from it");
    return units::Number::from_value((need + o * (fuel.carbon.value() - need)) /
                                     (need - o * need / facts.air_oxygen.value()));
}

units::Number air_ratio_from_carbon_dioxide(units::Fraction carbon_dioxide, BurnedGasRow const& fuel,
                                            CondensationFacts const& facts)
{
    double const share = carbon_dioxide.value(), carbon = fuel.carbon.value(), need = oxygen_need(fuel);
    if (share < least_carbon_dioxide)
        throw figures::NotComputed(
            "below 2 % carbon dioxide: the sample is nearly all room air, not flue gas; nothing can be told from it");
    double const ratio = (carbon / share - carbon + need) * facts.air_oxygen.value() / need;
    if (ratio < 1 - 1e-9)
        throw figures::NotComputed("more carbon dioxide than this fuel can leave: the other fuel burns, or the reading "
                                   "is wrong");
    return units::Number::from_value(ratio);
}

FlueWater flue_water(units::Number air_ratio, BurnerAir const& air, BurnedGasRow const& fuel,
                     CondensationFacts const& facts)
{
    double const pressure = units::in_si(physics::pressure_at_altitude(air.altitude));
    double const damp = units::in_si(physics::vapour_pressure_in_air(air.temperature, air.humidity));
    double const dry_air = air_ratio.value() * oxygen_need(fuel) / facts.air_oxygen.value();
    double const water = fuel.hydrogen.value() / 2 + dry_air * damp / (pressure - damp);
    double const vapour = water / (water + dry_gas(air_ratio.value(), fuel, facts.air_oxygen.value()));
    return {dew_point_of(vapour * pressure), units::Fraction::from_value(vapour),
            units::of_si<units::Mass>(water * physics::water_molar_mass)};
}

units::MassFlow most_condensate(units::Power input, FlueWater const& gas, units::Temperature tubes,
                                BurnerAir const& air, BurnedGasRow const& fuel)
{
    double const pressure = units::in_si(physics::pressure_at_altitude(air.altitude));
    double const saturated = units::in_si(physics::vapour_pressure(tubes)) / pressure;
    double const vapour = gas.vapour.value();
    if (saturated >= vapour)
        return {};
    // For each mole of dry gas, before and after.
    double const left = saturated / (1 - saturated) / (vapour / (1 - vapour));
    double const moles_in_a_second = units::in_si(input) / (1000 * fuel.gross_heat.value());
    return units::of_si<units::MassFlow>(moles_in_a_second * units::in_si(gas.per_mole) * (1 - left));
}

} // namespace padwalk::heating
