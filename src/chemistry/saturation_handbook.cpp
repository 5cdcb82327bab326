#include "padwalk/chemistry/saturation_handbook.hpp"

#include "padwalk/numerics/interpolation.hpp"
#include "padwalk/numerics/number_text.hpp"
#include "padwalk/physics/range.hpp"
#include "padwalk/units/definitions.hpp"

#include <algorithm>

namespace padwalk::chemistry
{

using fields::Record;

Record<TemperatureFactor> const& TemperatureFactor::declaration()
{
    static Record<TemperatureFactor> const record =
        Record<TemperatureFactor>("temperature factor", "a row of the temperature table")
            .field("at", &TemperatureFactor::at, "water temperature")
            .required()
            .field("factor", &TemperatureFactor::factor, "factor")
            .required();
    return record;
}

Record<HardnessFactor> const& HardnessFactor::declaration()
{
    static Record<HardnessFactor> const record =
        Record<HardnessFactor>("hardness factor", "a row of the calcium or alkalinity table")
            .field("at", &HardnessFactor::at, "calcium hardness or alkalinity")
            .required()
            .field("factor", &HardnessFactor::factor, "factor")
            .required();
    return record;
}

Record<SolidsConstant> const& SolidsConstant::declaration()
{
    static Record<SolidsConstant> const record =
        Record<SolidsConstant>("constant", "what is taken off, by dissolved solids")
            .field("up_to", &SolidsConstant::up_to, "dissolved solids up to and including")
            .required()
            .field("constant", &SolidsConstant::constant, "the constant")
            .required()
            .field("source", &SolidsConstant::source, "where it comes from")
            .required();
    return record;
}

Record<IndexBand> const& IndexBand::declaration()
{
    static Record<IndexBand> const record = Record<IndexBand>("band", "where water is called balanced")
                                                .field("low", &IndexBand::low, "corrosive below")
                                                .required()
                                                .field("high", &IndexBand::high, "scaling above")
                                                .required()
                                                .field("body", &IndexBand::body, "who says so")
                                                .required()
                                                .field("source", &IndexBand::source, "where it comes from")
                                                .required();
    return record;
}

Record<HandbookTable> const& HandbookTable::declaration()
{
    static Record<HandbookTable> const record =
        Record<HandbookTable>("saturation handbook", "the hand method of the saturation index")
            .field("temperature", &HandbookTable::temperature, "factors by temperature")
            .required()
            .field("calcium", &HandbookTable::calcium, "factors by calcium hardness")
            .required()
            .field("alkalinity", &HandbookTable::alkalinity, "factors by alkalinity")
            .required()
            .field("source", &HandbookTable::source, "of the factors")
            .required()
            .field("constants", &HandbookTable::constants, "by dissolved solids")
            .required()
            .field("band", &HandbookTable::band, "the band used in words")
            .required()
            .field("other_bands", &HandbookTable::other_bands, "what others print")
            .field("sources", &HandbookTable::sources, "works cited");
    return record;
}

HandbookTable handbook_table(reference::Data const& data)
{
    return reference::read_table<HandbookTable>(data, "chemistry/saturation_handbook.yaml");
}

namespace
{

constexpr double mg_per_litre = 1e-3; // kg/m3

/// The unit that messages print: value = si/unit - zero.
struct Scale
{
    double unit;
    double zero;
    std::string_view symbol;
};
constexpr Scale fahrenheit{units::exact::fahrenheit_degree, units::exact::fahrenheit_zero, "°F"};
constexpr Scale as_calcium_carbonate{mg_per_litre, 0.0, "mg/L as CaCO3"};

template <class Row>
units::Number interpolated(std::vector<Row> const& rows, double si, Scale const& scale, std::string_view name,
                           std::string const& source)
{
    std::vector<double> at, factor;
    for (auto const& row : rows)
    {
        at.push_back(units::in_si(row.at));
        factor.push_back(row.factor.value());
    }
    auto const shown = [&](double value) { return value / scale.unit - scale.zero; };
    physics::require_within({shown(at.front()), shown(at.back()), scale.symbol, source}, shown(si), name);
    double const inside =
        std::min(std::max(si, at.front()), at.back()); // moves the last digit of a unit's conversion at most
    return units::Number::from_value(numerics::linear_table(at, factor, inside));
}

units::Number constant_for(units::AsItself dissolved, std::vector<SolidsConstant> const& rows)
{
    auto const& last = rows.back();
    physics::require_within({0.0, units::in_si(last.up_to) / mg_per_litre, "mg/L", last.source.key},
                            units::in_si(dissolved) / mg_per_litre, "dissolved solids");
    for (auto const& row : rows)
        if (dissolved <= row.up_to)
            return row.constant;
    return last.constant;
}

} // namespace

HandbookIndex handbook_index(HandbookWater const& water, HandbookTable const& table)
{
    std::string const& source = table.source.key;
    HandbookIndex out;
    out.temperature_factor =
        interpolated(table.temperature, units::in_si(water.water_temperature), fahrenheit, "water temperature", source);
    out.calcium_factor =
        interpolated(table.calcium, units::in_si(water.calcium), as_calcium_carbonate, "calcium hardness", source);
    out.alkalinity_factor =
        interpolated(table.alkalinity, units::in_si(water.alkalinity), as_calcium_carbonate, "alkalinity", source);
    out.constant = constant_for(water.dissolved_solids, table.constants);
    out.index = units::Number::from_value(water.ph.value()) + out.temperature_factor + out.calcium_factor +
                out.alkalinity_factor - out.constant;
    out.saturation_ph = water.ph - units::PhDifference::from_value(out.index.value());
    return out;
}

std::string index_in_words(units::Number index, IndexBand const& band)
{
    std::string const limits =
        numerics::number_text(band.low.value()) + " to +" + numerics::number_text(band.high.value());
    if (index < band.low)
        return "corrosive: below the band " + limits + "; such water dissolves plaster and grout";
    if (index > band.high)
        return "scaling: above the band " + limits + "; scale comes first where the water is hottest";
    return "balanced: within the band " + limits;
}

} // namespace padwalk::chemistry
