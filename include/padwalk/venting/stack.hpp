#pragma once
/// The flue: the pull of hot gas, and the heat that leaves with it.

#include "padwalk/reference/sources.hpp"
#include "padwalk/units/quantity.hpp"

namespace padwalk::venting
{

/// Gases with constants in data/venting/stack.yaml.
enum class StackFuel
{
    natural_gas,
    propane
};

} // namespace padwalk::venting

template <> struct padwalk::fields::words_of<padwalk::venting::StackFuel>
{
    static std::vector<std::string> words() { return {"natural_gas", "propane"}; }
};

namespace padwalk::venting
{

/// Pull at the foot of a vent full of hot gas, before any of it is spent on flow; negative for a gas colder than
/// outdoors.
///
///     draft = g p / R_air · (1/T_outside - 1/T_flue) · height
///
/// Valid:    flue gas taken as air (that of natural gas is 3 to 4 % lighter: a little more pull); T_flue is the mean
/// over
///           the height, which is below the reading at the foot
/// Accuracy: within 0.3 % of the handbook's form 0.52 H p (1/T - 1/T1)
/// Source:   [venting-steam-babcock-wilcox]
[[nodiscard]] units::Pressure stack_draft(units::Length height, units::Temperature outside, units::Temperature flue,
                                          units::AbsolutePressure air);

/// What the draft means, in one sentence.
[[nodiscard]] std::string draft_in_words(units::Pressure draft);

/// Constants of one gas.
struct StackGas
{
    StackFuel fuel = StackFuel::natural_gas;
    units::Number a2{};             ///< % per K, times % O2
    units::Number b{};              ///< % per K
    units::Number dry_gas_ratio{};  ///< dry flue gas to air, by volume, no excess air
    units::Fraction net_to_gross{}; ///< net over gross heating value
    reference::Cited source;
    static fields::Record<StackGas> const& declaration();
};

struct StackFacts
{
    std::vector<StackGas> gases; ///< one for each StackFuel
    fields::Named<reference::Source> sources;
    static fields::Record<StackFacts> const& declaration();

    [[nodiscard]] StackGas const& gas(StackFuel fuel) const; ///< std::logic_error if the data has none
};

/// data/venting/stack.yaml. Throws reference::DataProblems.
[[nodiscard]] StackFacts stack_facts(reference::Data const& data);

/// Siegert's share of the net heat that leaves up the vent.
///
///     loss(%) = (t_flue - t_air) (A2 / (21 - O2) + B),   O2 in % of dry gas
///
/// Valid:    nothing condenses; O2 0 to 18 %, sampled before air is let in at a draft hood
/// Accuracy: natural gas 1 %, propane 4 to 5 % low against combustion enthalpies (relative, tested)
/// Source:   [venting-siegert-1-bimschv], formula read in [venting-siegert-tyrol-law]
/// Throws:   figures::NotComputed above 18 % O2 or for a flue colder than the air
[[nodiscard]] units::Fraction stack_loss(units::Temperature flue, units::Temperature air, units::Fraction oxygen,
                                         StackGas const& gas);

/// Air beyond what the fuel needs: ratio · O2 / (21 - O2), with the dry gas ratio of the fuel (1 would overstate it).
///
/// Throws:   figures::NotComputed above 18 % O2
[[nodiscard]] units::Fraction excess_air(units::Fraction oxygen, StackGas const& gas);

} // namespace padwalk::venting
