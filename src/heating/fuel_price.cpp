#include "padwalk/heating/fuel_price.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/units/definitions.hpp"

namespace padwalk::heating
{

using fields::Record;

Record<SoldRow> const& SoldRow::declaration()
{
    static Record<SoldRow> const record = Record<SoldRow>("sold", "energy in what is paid for")
                                              .field("unit", &SoldRow::unit, "what the price is for")
                                              .required()
                                              .field("energy", &SoldRow::energy, "energy in it, gross")
                                              .required()
                                              .field("source", &SoldRow::source, "where it comes from")
                                              .required();
    return record;
}

Record<FuelPrices> const& FuelPrices::declaration()
{
    static Record<FuelPrices> const record = Record<FuelPrices>("fuels", "what heat costs")
                                                 .field("sold", &FuelPrices::sold, "energy in what is paid for")
                                                 .required()
                                                 .field("sources", &FuelPrices::sources, "works cited");
    return record;
}

units::Energy FuelPrices::energy_in(SoldUnit unit) const
{
    for (auto const& row : sold)
        if (row.unit == unit)
            return row.energy;
    throw std::logic_error("heating/fuels.yaml has no row for a unit");
}

FuelPrices fuel_prices(reference::Data const& data)
{
    return reference::read_table<FuelPrices>(data, "heating/fuels.yaml");
}

units::Number cost_of(units::Energy energy, units::Number price, SoldUnit unit, FuelPrices const& prices)
{
    return price * units::in_si(energy / prices.energy_in(unit));
}

units::Energy month_of(units::Power loss, units::Fraction efficiency)
{
    constexpr double month = 365.25 * units::exact::day / 12;
    if (efficiency.value() <= 0)
        throw figures::NotComputed("a heater without efficiency heats nothing");
    return loss * units::of_si<units::Duration>(month) / efficiency.value();
}

} // namespace padwalk::heating
