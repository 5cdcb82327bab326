#pragma once
/// What heat costs: energy in what is paid for. Facts from data/heating/fuels.yaml. Money is a plain number, in any
/// money.

#include "padwalk/reference/sources.hpp"
#include "padwalk/units/quantity.hpp"

#include <optional>
#include <vector>

namespace padwalk::heating
{

/// What a price is for.
enum class SoldUnit
{
    therm,
    megajoule,
    kilowatt_hour,
    propane_gallon
};

/// Energy in it, gross as a nameplate counts it.
struct SoldRow
{
    SoldUnit unit = SoldUnit::kilowatt_hour;
    units::Energy energy{};
    reference::Cited source;
    static fields::Record<SoldRow> const& declaration();
};

/// data/heating/fuels.yaml
struct FuelPrices
{
    std::vector<SoldRow> sold;
    fields::Named<reference::Source> sources;
    static fields::Record<FuelPrices> const& declaration();

    [[nodiscard]] units::Energy energy_in(SoldUnit unit) const;
};

/// Throws reference::DataProblems.
[[nodiscard]] FuelPrices fuel_prices(reference::Data const& data);

/// Price of an energy: energy / energy in the unit · price of the unit.
[[nodiscard]] units::Number cost_of(units::Energy energy, units::Number price, SoldUnit unit, FuelPrices const& prices);

/// What a month of holding a temperature takes: loss · month / efficiency, a month of 365.25/12 days.
///
/// Throws:   figures::NotComputed for an efficiency that isn't above zero
[[nodiscard]] units::Energy month_of(units::Power loss, units::Fraction efficiency);

} // namespace padwalk::heating

template <> struct padwalk::fields::words_of<padwalk::heating::SoldUnit>
{
    static std::vector<std::string> words() { return {"therm", "MJ", "kWh", "propane_gallon"}; }
};
