#pragma once
/// What a water holds. Only this is conserved: doses, dilution, evaporation, heating and lost carbon dioxide are all
/// arithmetic here, and pH and every species follow from it (equilibria.hpp).

#include "padwalk/units/quantity.hpp"

namespace padwalk::chemistry
{

/// Dissolved totals per kg of water; also what a dose adds to or takes from them.
///
/// One litre of sample is taken to hold one kg of water, as the test kits' mg/L are used everywhere in the trade; at
/// 3000 mg/L of salt that is 0.3 % off in the worst total, 0.003 in the saturation index.
struct Totals
{
    units::Molality carbonate{};  ///< all dissolved inorganic carbon: carbon dioxide, bicarbonate, carbonate, pairs
    units::Molality alkalinity{}; ///< equivalents, counted from carbon dioxide, water, boric, cyanuric and
                                  ///< hypochlorous acid; so borate, cyanurate and hypochlorite are in it, as in a test
    units::Molality calcium{};
    units::Molality magnesium{};
    units::Molality sodium{};
    units::Molality chloride{};
    units::Molality sulfate{};
    units::Molality boron{};
    units::Molality cyanurate{}; ///< all cyanurate rings, chlorinated or not
    units::Molality chlorine{};  ///< all chlorine in oxidation state +1, held by cyanurate or not: 'free chlorine'

    friend Totals operator+(Totals a, Totals const& b);
    friend Totals operator-(Totals a, Totals const& b);
    friend Totals operator*(Totals a, double k);
    friend bool operator==(Totals const& a, Totals const& b);
};

/// Equivalents of sodium, calcium and magnesium less those of chloride, sulfate and alkalinity. Zero for any real
/// water without other ions, at any pH; every dose of a real product leaves it as it was.
[[nodiscard]] units::Molality charge_imbalance(Totals const& totals);

struct Composition
{
    Totals totals;
    units::Temperature temperature{};
};

/// A water as its tests read it.
struct WaterReadings
{
    units::Temperature temperature{};
    units::Ph ph{};
    units::AsCalciumCarbonate alkalinity{};
    units::AsCalciumCarbonate calcium{};   ///< calcium hardness
    units::AsCalciumCarbonate magnesium{}; ///< magnesium hardness
    units::AsSodiumChloride salt{};        ///< salt added as such; that of the other salts comes on top
    units::AsSulfate sulfate{};
    units::AsBoron borate{};
    units::AsCyanuricAcid cyanurate{};
    units::AsChlorine free_chlorine{};
};

/// The composition of readings, all but the carbonate, which needs their pH (Equilibria::at_ph).
///
/// The ions that no test reads are those that come with what is read: sodium with alkalinity, sulfate and salt,
/// chloride with hardness and salt; borate as boric acid, chlorine and cyanurate as their acids. Electroneutral at any
/// pH.
[[nodiscard]] Composition composition_of(WaterReadings const& readings);

/// Totals as the kits would read them; ph is not among them, pass the state's.
[[nodiscard]] WaterReadings readings_of(Composition const& composition, units::Ph ph);

/// Amount per kg of water of a concentration, one litre holding one kg.
[[nodiscard]] units::Molality molality(units::AsCalciumCarbonate hardness); ///< mol of calcium carbonate
[[nodiscard]] units::Molality equivalents(units::AsCalciumCarbonate alkalinity);
[[nodiscard]] units::Molality molality(units::AsSodiumChloride salt);
[[nodiscard]] units::Molality molality(units::AsSulfate sulfate);
[[nodiscard]] units::Molality molality(units::AsBoron borate);
[[nodiscard]] units::Molality molality(units::AsCyanuricAcid cyanurate);
[[nodiscard]] units::Molality molality(units::AsChlorine chlorine); ///< mol of Cl(+1), one for each Cl2
[[nodiscard]] units::Molality molality(units::AsHydrogenChloride acid);
[[nodiscard]] units::Molality molality(units::AsBicarbonate bicarbonate);
[[nodiscard]] units::Molality molality(units::AsCarbonate carbonate);
[[nodiscard]] units::Molality molality(units::AsCalciumChloride chloride);

/// And back.
[[nodiscard]] units::AsCalciumCarbonate hardness(units::Molality calcium_or_magnesium);
[[nodiscard]] units::AsCalciumCarbonate alkalinity(units::Molality equivalents);
[[nodiscard]] units::AsChlorine as_chlorine(units::Molality chlorine);
[[nodiscard]] units::AsCyanuricAcid as_cyanuric_acid(units::Molality cyanurate);

/// The water and another, mixed: `share` of the result is the other.
[[nodiscard]] Composition mixed(Composition const& water, Composition const& other, double share);

/// What is left after this share of the water itself has gone as vapour; 0 to below 1.
[[nodiscard]] Composition evaporated(Composition const& water, double share);

} // namespace padwalk::chemistry
