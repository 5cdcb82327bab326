#pragma once
/// The saturation index as state bathing codes print it: five numbers from a table, added up on paper.
///
/// It is a hand method, kept because codes and trade courses use it. It knows no ion pairs and no strong salt.

#include "padwalk/reference/sources.hpp"
#include "padwalk/units/quantity.hpp"

#include <vector>

namespace padwalk::chemistry
{

struct TemperatureFactor
{
    units::Temperature at{};
    units::Number factor{};
    static fields::Record<TemperatureFactor> const& declaration();
};

/// For calcium hardness and for alkalinity.
struct HardnessFactor
{
    units::AsCalciumCarbonate at{};
    units::Number factor{};
    static fields::Record<HardnessFactor> const& declaration();
};

/// The constant to take off, for dissolved solids up to and including `up_to`.
struct SolidsConstant
{
    units::AsItself up_to{};
    units::Number constant{};
    reference::Cited source;
    static fields::Record<SolidsConstant> const& declaration();
};

/// Where water is called balanced.
struct IndexBand
{
    units::Number low{};
    units::Number high{};
    std::string body; ///< who says so
    reference::Cited source;
    static fields::Record<IndexBand> const& declaration();
};

/// data/chemistry/saturation_handbook.yaml
struct HandbookTable
{
    std::vector<TemperatureFactor> temperature;
    std::vector<HardnessFactor> calcium;
    std::vector<HardnessFactor> alkalinity;
    reference::Cited source; ///< of the three tables above
    std::vector<SolidsConstant> constants;
    IndexBand band;                     ///< the one that in_words uses
    std::vector<IndexBand> other_bands; ///< what others print
    fields::Named<reference::Source> sources;
    static fields::Record<HandbookTable> const& declaration();
};

[[nodiscard]] HandbookTable handbook_table(reference::Data const& data);

struct HandbookWater
{
    units::Ph ph{};
    units::Temperature water_temperature{};
    units::AsCalciumCarbonate alkalinity{}; ///< the one to be used: carbonate or total, as the caller decides
    units::AsCalciumCarbonate calcium{};    ///< calcium hardness
    units::AsItself dissolved_solids{};
};

struct HandbookIndex
{
    units::Number index{};
    units::Ph saturation_ph{};
    units::Number temperature_factor{};
    units::Number calcium_factor{};
    units::Number alkalinity_factor{};
    units::Number constant{};
};

/// Saturation index from the table of the state codes, straight lines between its rows.
///
///     index = pH + TF(temperature) + CF(calcium) + AF(alkalinity) - K(dissolved solids),   saturation pH = pH - index
///
/// Valid:    32 to 128 °F; calcium hardness and alkalinity 5 to 1000 mg/L as CaCO3; dissolved solids to 6000 mg/L
/// Accuracy: the codes' own example to the last digit of its parts. Against calcite by two rigorous data sets over 27
///           computed waters: within 0.10 at 76 to 104 °F and ordinary salt; 0.09 to 0.36 too low below 70 °F, most in
///           soft water; 0.04 to 0.18 too high from 2500 to 6000 mg/L of salt. Rows of the table are rounded to 0.1.
/// Source:   [ny-10-nycrr-6-1-30] tables and the straight lines; [montana-arm-37-115] K
/// Throws:   physics::OutOfRange
[[nodiscard]] HandbookIndex handbook_index(HandbookWater const& water, HandbookTable const& table);

/// 'corrosive', 'balanced' or 'scaling' with the band it is judged by, in a sentence.
[[nodiscard]] std::string index_in_words(units::Number index, IndexBand const& band);

} // namespace padwalk::chemistry
