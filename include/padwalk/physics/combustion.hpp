#pragma once
/// Burning of fuel gas in dry air: what comes out of it and the heat that this carries. Heat is told as a share of the
/// fuel's gross heating value, so that one figure serves any amount of fuel.

#include "padwalk/physics/constants.hpp"
#include "padwalk/units/quantity.hpp"

namespace padwalk::physics
{

/// Natural gas is taken as methane: gas of 94 % methane needs 1 % other air and has 1 % other carbon dioxide.
enum class Fuel
{
    natural_gas,
    propane
};

/// What one mole of fuel becomes, moles.
struct FlueGas
{
    units::Number carbon_dioxide{}, water{}, oxygen{}, nitrogen{};

    [[nodiscard]] units::Number dry() const { return carbon_dioxide + oxygen + nitrogen; }
    [[nodiscard]] units::Number total() const { return dry() + water; }
    [[nodiscard]] units::Fraction oxygen_dry() const { return units::Fraction::from_value(oxygen / dry()); }
    [[nodiscard]] units::Fraction carbon_dioxide_dry() const
    {
        return units::Fraction::from_value(carbon_dioxide / dry());
    }
    /// Of the wet gas. With the air's pressure it gives the pressure of the vapour, and dew_point() of air.hpp the
    /// temperature below which water drips.
    [[nodiscard]] units::Fraction vapour_share() const { return units::Fraction::from_value(water / total()); }
    [[nodiscard]] FlueGas times(double factor) const;
};

/// Moles of dry air that one mole of fuel needs: (C + H/4) / 0.2095.
[[nodiscard]] units::Number air_needed(Fuel fuel);

/// Net over gross heating value: 0.901 of methane, 0.921 of propane.
///
/// Source:   formation enthalpies [gri-mech-thermo]; net 802.3 and 2043.1 kJ/mol, 44.0 kJ/mol for each mole of water
[[nodiscard]] units::Fraction net_to_gross(Fuel fuel);

/// Flue gas of complete burning. Where the air is too little the part of the fuel that it suffices for burns, and what
/// that part becomes is given: the rest leaves unburnt. (A real flame then makes carbon monoxide and hydrogen.)
///
///     CxHy + (1 + e)(x + y/4)(O2 + 79.05/20.95 N2) -> x CO2 + y/2 H2O + e (x + y/4) O2 + N2
///
/// Valid:    dry air; damp air of 30 °C adds up to 2 % of vapour to the gas
/// Throws:   OutOfRange for an excess below -100 %
[[nodiscard]] FlueGas flue_gas(Fuel fuel, units::Fraction excess_air);

/// Excess air from the oxygen of the dry gas: e = O2 dry0 / (air0 (20.95 % - O2)).
///
/// Accuracy: within 0.7 of a percentage point of a public program's figures for gas of 94 % methane
/// Throws:   OutOfRange for less than none or over 18 %: above, nearly all of the sample is air
[[nodiscard]] units::Fraction excess_air_of_oxygen(Fuel fuel, units::Fraction oxygen_dry);

/// Excess air from the carbon dioxide of the dry gas: e = (C / CO2 - dry0) / air0.
///
/// Valid:    carbon dioxide up to what burning without excess gives (11.7 % methane, 13.7 % propane), a little more for
///           the instrument's sake; the answer is then a little below none
/// Throws:   OutOfRange below 1 % and over 15 %
[[nodiscard]] units::Fraction excess_air_of_carbon_dioxide(Fuel fuel, units::Fraction carbon_dioxide_dry);

/// Heat that the gas of one mole of fuel takes up between two temperatures, as a share of the gross heating value.
/// Negative where it cools.
///
/// Valid:    250 to 2500 K; nothing condenses, nothing dissociates (it does above 1900 K)
/// Source:   polynomials of [gri-mech-thermo]
/// Throws:   OutOfRange
[[nodiscard]] units::Fraction heat_carried(Fuel fuel, FlueGas const& gas, units::Temperature from,
                                           units::Temperature to);

/// The inverse: how hot the gas is after it took up that heat.
///
/// Accuracy: heat_carried of the answer gives the heat back to 1e-12
/// Throws:   OutOfRange where that lies outside 250 to 2500 K
[[nodiscard]] units::Temperature temperature_with(Fuel fuel, FlueGas const& gas, units::Fraction heat,
                                                  units::Temperature from);

/// Heat that leaves in the dry flue gas and in the vapour that doesn't condense, as shares of the gross heating value.
struct StackLoss
{
    units::Fraction sensible{}; ///< of the hot gas over the air
    units::Fraction latent{};   ///< of the vapour
};

/// Stack loss by enthalpy: sensible = heat_carried from the air's temperature to the flue's, latent = 1 - net/gross.
///
/// Accuracy: 0.02 of a percentage point of an own check by another program
/// Throws:   OutOfRange
[[nodiscard]] StackLoss stack_loss_by_enthalpy(Fuel fuel, units::Fraction excess_air, units::Temperature flue,
                                               units::Temperature air);

/// What a share of the dry flue gas is multiplied by to take all excess air out: 20.9 / (20.9 - O2), O2 in % of dry
/// gas.
///
/// Source:   [combustion-analysis-trade-article-1]
[[nodiscard]] units::Number air_free_factor(units::Fraction oxygen_dry);

/// Siegert's share of the net heat that leaves up the vent: (flue - air) (A2 / (21 - O2) + B) %, O2 in % of dry gas.
///
/// Valid:    nothing condenses; the constants are an argument, % per K times % and % per K
/// Source:   formula read in [venting-siegert-tyrol-law]
[[nodiscard]] units::Fraction stack_loss_siegert(units::TemperatureDifference over_air, units::Fraction oxygen_dry,
                                                 units::Number a2, units::Number b);

} // namespace padwalk::physics
