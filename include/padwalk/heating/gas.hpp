#pragma once
/// Fuel gas: reading the meter against a watch, and what altitude does to a burner. All facts from
/// data/heating/gas.yaml.

#include "padwalk/reference/sources.hpp"
#include "padwalk/units/quantity.hpp"

namespace padwalk::heating
{

/// State of the gas that a heating value per volume is quoted for.
struct GasBase
{
    units::AbsolutePressure pressure{};
    units::Temperature temperature{};
    reference::Cited source;
    static fields::Record<GasBase> const& declaration();
};

/// Heat in a volume of gas, gross: what the input on a nameplate counts.
struct FuelGas
{
    units::HeatingValue usual{};
    units::HeatingValue low{};
    units::HeatingValue high{};
    std::string note;
    reference::Cited source;
    static fields::Record<FuelGas> const& declaration();
};

/// Less input where the air is thin: `share` of the nameplate for each `per`, above `from`.
struct DerateRule
{
    units::Fraction share{};
    units::Length per{};
    units::Length from{};
    std::string note;
    reference::Cited source;
    static fields::Record<DerateRule> const& declaration();
};

/// Where the words about an efficiency change.
struct EfficiencyMark
{
    units::Fraction share{};
    std::string meaning;
    reference::Cited source;
    static fields::Record<EfficiencyMark> const& declaration();
};

struct EfficiencyMarks
{
    EfficiencyMark low;
    EfficiencyMark new_least;
    EfficiencyMark dry_most;
    EfficiencyMark possible_most;
    static fields::Record<EfficiencyMarks> const& declaration();
};

struct GasFacts
{
    GasBase base;
    fields::Named<FuelGas> gases;
    DerateRule derate;
    EfficiencyMarks efficiency;
    fields::Named<reference::Source> sources;
    static fields::Record<GasFacts> const& declaration();
};

/// data/heating/gas.yaml. Throws reference::DataProblems.
[[nodiscard]] GasFacts gas_facts(reference::Data const& data);

/// Volume per time from one turn of a meter's dial: dial / elapsed.
///
/// Valid:    every other gas appliance idle, the burner on high fire and steady. Standing pilots stay lit: putting one
///           out means relighting it; each takes about 1 ft3/h (memory)
/// Source:   [heating-meter-clocking-pages]
/// Throws:   figures::NotComputed without elapsed time
[[nodiscard]] units::VolumeFlow clocked_flow(units::Volume dial, units::Duration elapsed);

/// What a volume at the meter is at the base state of the heating value, an ideal gas:
///
///     factor = (p_air(altitude) + p_meter) / p_base · T_base / T_gas
///
/// Valid:    gas near the air's pressure and temperature; the weather moves the air's pressure by ±3 %
/// Throws:   OutOfRange for an altitude outside -500 to 11 000 m
[[nodiscard]] units::Number base_volume_factor(units::GaugePressure meter, units::Temperature gas,
                                               units::Length altitude, GasBase const& base);

/// Heat in a flow of gas: flow · heating value.
[[nodiscard]] units::Power gas_input(units::VolumeFlow flow, units::HeatingValue heating_value);

/// The part of the nameplate's input that a rule leaves at an altitude, by its two readings.
struct Derate
{
    units::Fraction counted_from_sea_level{};
    units::Fraction counted_from_start{}; ///< from the height where the rule begins
};

/// Input left at an altitude: 1 - share · height / per, for altitudes above the rule's start; all of it below.
/// Sources differ on whether `height` counts from sea level or from the start.
///
/// Source:   [altitude-derate-trade-magazine]
/// Throws:   figures::NotComputed where nothing would be left
[[nodiscard]] Derate derate(units::Length altitude, DerateRule const& rule);

/// What an efficiency found by measurement means, in one sentence.
[[nodiscard]] std::string efficiency_in_words(units::Fraction efficiency, EfficiencyMarks const& marks);

} // namespace padwalk::heating
