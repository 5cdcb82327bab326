#pragma once
/// Conductivity of a water from its ions, and back: the salt that fits what a meter shows.

#include "padwalk/chemistry/equilibria.hpp"
#include "padwalk/reference/sources.hpp"

namespace padwalk::chemistry
{

/// An ion's conductivity without others around it, at 25 °C.
struct IonRow
{
    std::string ion;          ///< as Equilibria names it
    units::Number charge{};   ///< its size
    units::Number limiting{}; ///< S cm2 per equivalent
    reference::Cited source;
    static fields::Record<IonRow> const& declaration();
};

struct ConductivityTable
{
    std::vector<IonRow> ions;
    units::Number exponent{}; ///< of the activity coefficient, for charge 1
    reference::Cited exponent_source;
    units::Number per_kelvin{}; ///< rise of conductivity, share of that at 25 °C
    reference::Cited per_kelvin_source;
    fields::Named<reference::Source> sources;
    static fields::Record<ConductivityTable> const& declaration();
};

/// data/chemistry/conductivity.yaml; throws reference::DataProblems.
[[nodiscard]] ConductivityTable conductivity_table(reference::Data const& data);

/// What a meter that is compensated to 25 °C shows.
///
///     kappa = sum |z| limiting m gamma^(exponent/sqrt|z|)   over the ions of the table that the water holds
///
/// The calculation form of Standard Methods 2510, kappa = y^2 sum, y the activity coefficient of an ion of charge 1,
/// comes out 12 % low for plain salt water of 0.01 mol/L (both from memory), so it is not used.
///
/// Valid:    10 to 40 °C for the state, ionic strength to 0.3 mol/kg
/// Accuracy: 1.5 % for solutions of sodium and of calcium chloride; against PHREEQC 3.8.8, whose conductivities of its
/// own
///           are good to some per cent, 2 % in salt water and 5 % with much sulfate at 22 to 28 °C, 9 % at 10 to 42 °C
/// Source:   limiting conductivities and exponent from memory, data/chemistry/conductivity.yaml
[[nodiscard]] units::Conductivity specific_conductance(State const& water, ConductivityTable const& table);

/// A reading without compensation, brought to 25 °C: kappa/(1 + per_kelvin (T - 25 °C)). Valid from 10 to 45 °C.
[[nodiscard]] units::Conductivity at_25(units::Conductivity measured, units::Temperature water,
                                        ConductivityTable const& table);

/// The salt with which these readings (but for their salt) conduct so well.
///
/// Throws: figures::NotComputed where the other readings alone conduct more, or 35 000 mg/L don't suffice
[[nodiscard]] units::AsSodiumChloride salt_to_fit(Equilibria const& equilibria, WaterReadings const& readings,
                                                  units::Conductivity at_25, ConductivityTable const& table);

/// What stays when the water is dried: all ions, of alkalinity carbonate alone as bicarbonate loses the rest, boric
/// acid, cyanuric acid, chlorine as chloride.
[[nodiscard]] units::AsItself dissolved_solids(WaterReadings const& readings);

/// The salt with which these readings (but for their salt) hold so much. A meter of solids measures conductivity and
/// multiplies it by a factor of its own: give its conductivity to salt_to_fit instead where it shows one.
///
/// Throws: figures::NotComputed where the other readings alone hold more
[[nodiscard]] units::AsSodiumChloride salt_to_fit_solids(WaterReadings const& readings,
                                                         units::AsItself dissolved_solids);

} // namespace padwalk::chemistry
