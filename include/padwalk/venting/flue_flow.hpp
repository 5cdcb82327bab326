#pragma once
/// What is left of a vent's pull once the flue gas flows: data/venting/flue_flow.yaml.

#include "padwalk/venting/stack.hpp"

#include <vector>

namespace padwalk::venting
{

/// What moves the gas into the vent.
enum class MovedBy
{
    draft_hood,
    fan,
    direct, ///< a fan or the fire, with air by its own pipe
    outdoor_top
};

} // namespace padwalk::venting

template <> struct padwalk::fields::words_of<padwalk::venting::MovedBy>
{
    static std::vector<std::string> words() { return {"draft_hood", "fan", "direct", "outdoor_top"}; }
};

namespace padwalk::venting
{

/// One loss, on the velocity pressure in the vent.
struct FlueLoss
{
    units::Number k{};
    reference::Cited source;
    static fields::Record<FlueLoss> const& declaration();
};

/// What it takes to bring the gas in and to speed.
struct FlueEntrance
{
    MovedBy moved_by = MovedBy::draft_hood;
    units::Number k{};
    std::string note;
    reference::Cited source;
    static fields::Record<FlueEntrance> const& declaration();
};

/// What burns to how much flue gas.
struct FlueGasOf
{
    StackFuel fuel = StackFuel::natural_gas;
    units::Number air{};      ///< mass of air for one of fuel, no excess
    units::LatentHeat heat{}; ///< gross, of the fuel
    reference::Cited source;
    static fields::Record<FlueGasOf> const& declaration();
};

/// A vent just lit.
struct ColdStart
{
    units::TemperatureDifference warmer{}; ///< its gas than the air outside
    reference::Cited source;
    static fields::Record<ColdStart> const& declaration();
};

struct FlueFlowFacts
{
    std::vector<FlueEntrance> entrances; ///< one for each MovedBy
    FlueLoss elbow_90, elbow_60, elbow_45, cap;
    FlueLoss wall;                ///< friction factor: times length over bore
    std::vector<FlueGasOf> gases; ///< one for each StackFuel
    ColdStart cold_start;
    fields::Named<reference::Source> sources;
    static fields::Record<FlueFlowFacts> const& declaration();

    [[nodiscard]] FlueEntrance const& entrance(MovedBy by) const; ///< std::logic_error if the data has none
    [[nodiscard]] FlueGasOf const& gas(StackFuel fuel) const;     ///< std::logic_error if the data has none
};

/// data/venting/flue_flow.yaml. Throws reference::DataProblems.
[[nodiscard]] FlueFlowFacts flue_flow_facts(reference::Data const& data);

/// A run as measured.
struct FlueRun
{
    units::Length height{}, run{}, bore{};
    double elbows_90 = 0.0, elbows_60 = 0.0, elbows_45 = 0.0;
    bool capped = true;
    MovedBy moved_by = MovedBy::draft_hood;
};

/// Sum of the losses: entrance + elbows + cap + wall · (height + run) / bore.
///
/// Accuracy: published K differ by 20 to 50 %
/// Source:   [venting-ashrae-chimney-memory], from memory
[[nodiscard]] units::Number loss_of_run(FlueRun const& run, FlueFlowFacts const& facts);

/// Flue gas of an input, with the air that a draft hood lets in counted as excess:
///
///     flow = input / heat · (1 + (1 + excess) · air)
[[nodiscard]] units::MassFlow flue_gas_flow(units::Power input, units::Fraction excess_air, FlueGasOf const& gas);

/// What the air is and what the gas.
struct FlueWeather
{
    units::Temperature outside{}, flue{};
    units::AbsolutePressure air{};
};

struct DraftBalance
{
    units::Velocity velocity{};
    units::Pressure velocity_pressure{};
    units::Pressure theoretical{}; ///< stack_draft
    units::Pressure losses{};
    units::Pressure available{}; ///< theoretical - losses; negative: not all of the gas gets away
    units::Fraction carried{};   ///< of the gas that is made, what the pull can carry: root of theoretical over losses
};

/// The pull of the height against what the whole flow takes of it.
///
///     velocity = flow / (density · π bore²/4),  losses = K · density · velocity² / 2,  density of air at flue gas's
///     heat
///
/// Valid:    one heater on a round vent of one bore; wind and fans in the house left out
/// Throws:   figures::NotComputed for a bore of nothing
[[nodiscard]] DraftBalance draft_balance(FlueRun const& run, units::MassFlow flow, FlueWeather const& weather,
                                         FlueFlowFacts const& facts);

/// What the balance means for spill, hot and just lit, in one sentence. Only a draft hood and an outdoor top live by
/// it.
[[nodiscard]] std::string spill_in_words(DraftBalance const& hot, DraftBalance const& just_lit, MovedBy by);

} // namespace padwalk::venting
