#pragma once
/// When flue gas sweats on a heater's tubes. Facts from data/heating/condensation.yaml.

#include "padwalk/heating/constant.hpp"

#include <vector>

namespace padwalk::heating
{

enum class BurnedGas
{
    natural_gas,
    propane
};

/// A mole of fuel: atoms in it, and its gross heat.
struct BurnedGasRow
{
    BurnedGas fuel = BurnedGas::natural_gas;
    units::Number carbon{}, hydrogen{};
    units::Number gross_heat{}; ///< kJ/mol
    std::string meaning;
    reference::Cited source;
    static fields::Record<BurnedGasRow> const& declaration();
};

/// data/heating/condensation.yaml
struct CondensationFacts
{
    std::vector<BurnedGasRow> fuels;
    Constant air_oxygen, tube_warmer;
    fields::Named<reference::Source> sources;
    static fields::Record<CondensationFacts> const& declaration();

    [[nodiscard]] BurnedGasRow const& fuel(BurnedGas which) const;
};

/// Throws reference::DataProblems.
[[nodiscard]] CondensationFacts condensation_facts(reference::Data const& data);

/// Air burned over the least that burns all of the fuel, from the oxygen or the carbon dioxide of the dry flue gas.
/// With x carbon, y hydrogen, s = x + y/4 and a the oxygen of dry air, a mole of fuel leaves as dry gas
///
///     n = x - s + λ s/a,    O2 = (λ - 1) s/n,    CO2 = x/n
///
/// Source:   the reaction itself; [heating-combustion-enthalpies] for the air
/// Throws:   figures::NotComputed for oxygen from 18 % up (nearly all room air), for carbon dioxide above what the fuel
///           can leave or below 2 % (judgement)
[[nodiscard]] units::Number air_ratio_from_oxygen(units::Fraction oxygen, BurnedGasRow const& fuel,
                                                  CondensationFacts const& facts);
[[nodiscard]] units::Number air_ratio_from_carbon_dioxide(units::Fraction carbon_dioxide, BurnedGasRow const& fuel,
                                                          CondensationFacts const& facts);

/// Air that the burner takes.
struct BurnerAir
{
    units::Temperature temperature{};
    units::Fraction humidity{};
    units::Length altitude{};
};

struct FlueWater
{
    units::Temperature dew_point{};
    units::Fraction vapour{}; ///< share of the wet flue gas
    units::Mass per_mole{};   ///< water in the gas of one mole of fuel
};

/// Water in the flue gas of complete burning, and the temperature below which it forms dew:
///
///     vapour = (y/2 + m λ s/a)/(n + y/2 + m λ s/a),   m = e/(p - e) moles of vapour in the air for each of dry air
///     dew point: vapour · p = vapour pressure of water there
///
/// Valid:    gas before any draft hood thins it; no sulfur (acid dew lies higher); dew points 0 to 100 °C
/// Accuracy: the reaction's; 0.5 K of published 59 °C for natural gas at no excess air (memory)
/// Source:   [iapws-if97] for the vapour pressure
/// Throws:   OutOfRange
[[nodiscard]] FlueWater flue_water(units::Number air_ratio, BurnerAir const& air, BurnedGasRow const& fuel,
                                   CondensationFacts const& facts);

/// Most water that could condense on tubes of this temperature in a time: what is in the gas above saturation there,
/// all of the gas cooled so far. In truth most of the gas never touches a cold tube.
///
/// Throws:   OutOfRange
[[nodiscard]] units::MassFlow most_condensate(units::Power input, FlueWater const& gas, units::Temperature tubes,
                                              BurnerAir const& air, BurnedGasRow const& fuel);

} // namespace padwalk::heating

template <> struct padwalk::fields::words_of<padwalk::heating::BurnedGas>
{
    static std::vector<std::string> words() { return {"natural_gas", "propane"}; }
};
