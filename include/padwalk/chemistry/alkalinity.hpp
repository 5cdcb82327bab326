#pragma once
/// What an alkalinity test counts: carbonate, and what cyanurate and borate add to it.

#include "padwalk/reference/sources.hpp"
#include "padwalk/units/quantity.hpp"

#include <vector>

namespace padwalk::chemistry
{

struct CyanurateFactor
{
    units::Ph ph{};
    units::Number factor{}; ///< mg/L as CaCO3 per mg/L of cyanuric acid
    reference::Cited source;
    static fields::Record<CyanurateFactor> const& declaration();
};

/// Boric acid's own constant; the factor follows from it.
struct BorateConstant
{
    units::Number pk_at_25_degc{};
    units::Number enthalpy_kj_per_mol{};
    units::Number activity_shift{}; ///< taken off pK for the salts of ordinary pool water
    reference::Cited source;
    static fields::Record<BorateConstant> const& declaration();
};

/// data/chemistry/alkalinity_factors.yaml
struct AlkalinityTable
{
    std::vector<CyanurateFactor> cyanurate;
    BorateConstant borate;
    fields::Named<reference::Source> sources;
    static fields::Record<AlkalinityTable> const& declaration();
};

[[nodiscard]] AlkalinityTable alkalinity_table(reference::Data const& data);

struct AlkalinityParts
{
    units::AsCalciumCarbonate carbonate{};
    units::AsCalciumCarbonate cyanurate{};
    units::AsCalciumCarbonate borate{};
};

/// mg/L as CaCO3 that each mg/L of cyanuric acid adds to the test, straight lines between the table's rows.
///
/// Valid:    pH 6.8 to 8.2
/// Accuracy: 0.02 of factors computed from the acid's constant at 25 °C; it knows no temperature: at 40 °C
///           it is 0.01 to 0.06 low, most at low pH
/// Source:   [cyanurate-factor-trade-page] pH 7.0 to 8.0; computed from [wahman-2018] at 6.8 and 8.2
/// Throws:   physics::OutOfRange
[[nodiscard]] units::Number cyanurate_factor(units::Ph ph, AlkalinityTable const& table);

/// mg/L as CaCO3 that each mg/L of boron adds to the test.
///
///     g = M(CaCO3)/(2 M(B)) / (1 + 10^(pK' - pH)),   pK'(T) = pK(25 °C) + ΔH/(R ln 10) (1/T - 1/298.15 K) - shift
///
/// The one published figure, 0.17 at pH 7.6, is 45 % above what boric acid's constant gives (0.116) and above a
/// published 5.7 mg/L for 50 mg/L of boron at pH 7.5 (0.114), so the constant is used.
///
/// Valid:    0 to 60 °C, pH 6 to 9; ionic strength near 0.013 (a dissolved solids reading of about 800 mg/L)
/// Accuracy: 0.002 of the same computed independently at 20 to 40 °C, pH 7 to 8
/// Source:   [phreeqc-dat-borate]
/// Throws:   physics::OutOfRange
[[nodiscard]] units::Number borate_factor(units::Ph ph, units::Temperature water, BorateConstant const& constant);

/// carbonate = total - cyanurate_factor·cyanurate - borate_factor·borate. A factor is only asked for where there is
/// any of its substance, so that its range does not bind.
///
/// Throws: physics::OutOfRange; figures::NotComputed where less than nothing would be left, naming what to retest
[[nodiscard]] AlkalinityParts carbonate_alkalinity(units::AsCalciumCarbonate total, units::Ph ph,
                                                   units::AsCyanuricAcid cyanurate, units::AsBoron borate,
                                                   units::Temperature water, AlkalinityTable const& table);

} // namespace padwalk::chemistry
