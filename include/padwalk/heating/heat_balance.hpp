#pragma once
/// The heat balance of a gas heater by what was read on it: gas in, water and losses out, what doesn't close, and which
/// side that speaks against.

#include "padwalk/heating/fired_heater.hpp"
#include "padwalk/units/reading.hpp"

#include <optional>
#include <string>

namespace padwalk::heating
{

/// What was read, each with its standard uncertainty.
struct BalanceReadings
{
    physics::Fuel fuel = physics::Fuel::natural_gas;
    std::optional<units::Measured<units::Power>> nameplate_input, clocked_input; ///< gross
    units::Measured<units::Fraction> nameplate_efficiency;
    units::Measured<units::Fraction> jacket; ///< share of the input
    std::optional<units::Measured<units::TemperatureDifference>> rise;
    std::optional<units::Measured<units::VolumeFlow>> flow;
    units::Temperature inlet{};
    std::optional<units::Measured<units::Temperature>> flue;
    units::Temperature air{};
    std::optional<units::Measured<units::Fraction>> oxygen, carbon_dioxide; ///< of the dry gas; oxygen goes first
};

/// What a balance speaks against.
enum class BalanceSide
{
    nothing,              ///< all that was read agrees
    gas,                  ///< more or less gas is burnt than the plate says
    air,                  ///< too little or too much air
    exchanger,            ///< hot flue gas at usual air: soot on the gas side or scale on the water side
    flow_or_thermometers, ///< the water's two readings, which nothing tells apart
    reading,              ///< more heat than there can be: something was read wrong
    cannot_tell
};

/// Heat a second. Each is there where it follows from the readings.
struct HeatBalance
{
    std::optional<units::Power> input, water, stack, jacket;
    std::optional<units::Power> unexplained;  ///< input - water - stack - jacket; negative: more came out than went in
    std::optional<units::Power> doubt;        ///< of it, standard
    std::optional<units::Number> apart;       ///< unexplained over its doubt
    std::optional<units::Number> input_apart; ///< (clocked - nameplate) over its doubt
    std::optional<units::Number> stack_apart; ///< (efficiency by stack - plate's) over its doubt
    std::optional<units::Number> water_apart; ///< (efficiency by water - plate's) over its doubt
    std::optional<units::Fraction> efficiency_by_water, efficiency_by_stack, excess_air;
    bool more_than_all = false;   ///< more heat in the water than in the gas
    bool closes_by_plate = false; ///< not with the clocked input, but with the plate's
    BalanceSide side = BalanceSide::cannot_tell;
};

/// The balance of what was read. Input is the clocked one, else the plate's.
///
///     unexplained = input - rho c flow rise - input (sensible + latent) - input jacket
///
/// with the stack's sensible and latent share by stack_loss_by_enthalpy. Doubts are carried by first order:
/// u2 = ((1 - stack - jacket) u input)2 + (water u flow/flow)2 + (water u rise/rise)2 + (input u stack)2 + (input u
/// jacket)2. Apart counts from two standard uncertainties on (units::coverage).
///
/// Valid:    steady high fire, all of the flow through the heater, nothing condensing, flue gas read before any draft
///           hood. A flue's heat in unburnt gas is not seen: with little oxygen the balance does not close
/// Source:   definition; linear propagation as in JCGM 100:2008 [gum-2008]
/// Throws:   physics::OutOfRange; figures::NotComputed for a flue colder than the air
[[nodiscard]] HeatBalance heat_balance(BalanceReadings const& read, FiredHeaterTable const& table);

/// What the balance means, in a sentence or two: how it closes, the side, what would tell more.
[[nodiscard]] std::string balance_in_words(HeatBalance const& balance, BalanceReadings const& read,
                                           FiredHeaterTable const& table);

} // namespace padwalk::heating

template <> struct padwalk::fields::words_of<padwalk::heating::BalanceSide>
{
    static std::vector<std::string> words()
    {
        return {"nothing", "gas", "air", "exchanger", "flow or thermometers", "reading", "can't tell"};
    }
};
