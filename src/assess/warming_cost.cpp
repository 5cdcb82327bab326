// What a month of warm water takes, and what it costs where a price was given.
#include "warming_bench.hpp"

namespace padwalk::assess
{
namespace
{

using figures::Figure;
using visit::EnergyKind;

// Names of the outputs of heating_cost that are this heater's.
struct MonthOf
{
    char const *energy, *cost, *efficiency;
};

MonthOf month_of(HeaterBench const& b)
{
    if (b.v.energy == EnergyKind::electric_element)
        return {"element_month", "element_cost", "element_efficiency"};
    if (b.v.energy == EnergyKind::heat_pump)
        return {"heat_pump_month", "heat_pump_cost", "heat_pump_cop"};
    return {"gas_month", b.v.energy == EnergyKind::propane ? "propane_cost" : "gas_cost", "gas_efficiency"};
}

figures::Inputs month_inputs(WarmingBench const& m, units::Measured<units::Power> const& loss, MonthOf const& names)
{
    auto const& visit = m.w().visit;
    figures::Inputs in;
    in.add("loss", loss);
    if (m.b.v.energy == EnergyKind::heat_pump)
        in.add(names.efficiency, units::Reading{units::Measure::number, units::in_si(m.b.efficiency->value),
                                                units::in_si(m.b.efficiency->doubt), m.b.efficiency->method, false});
    else
        in.add(names.efficiency, m.b.efficiency);
    in.add("gas_price", visit.gas_price).add("propane_price", visit.propane_price);
    in.add("electricity_price", visit.electricity_price);
    if (visit.gas_price_per)
        in.add_words("gas_price_per", word(*visit.gas_price_per));
    return in;
}

} // namespace

units::Measured<units::Power> heat_of(units::Measured<units::Power> const& input,
                                      units::Measured<units::Fraction> const& efficiency)
{
    double const watts = units::in_si(input.value), share = units::in_si(efficiency.value);
    double const doubt = std::hypot(units::in_si(input.doubt) * share, units::in_si(efficiency.doubt) * watts);
    return {units::of_si<units::Power>(watts * share), units::of_si<units::Power>(doubt), "input x efficiency"};
}

std::optional<figures::OutputValue> told(Figure const& figure, std::string_view name)
{
    if (!figure.computed() || !figure.output(name).value)
        return std::nullopt;
    return figure.output(name);
}

std::optional<Price> own_price(HeaterBench const& b)
{
    auto const& visit = b.w.visit;
    auto const of = [](visit::Taken<units::Number> const& price, heating::SoldUnit per) {
        return price ? std::optional(Price{*price, per}) : std::nullopt;
    };
    if (b.v.energy == EnergyKind::natural_gas)
        return of(visit.gas_price, static_cast<heating::SoldUnit>(visit.gas_price_per.value_or(visit::GasSold::therm)));
    if (b.v.energy == EnergyKind::propane)
        return of(visit.propane_price, heating::SoldUnit::propane_gallon);
    return b.v.energy ? of(visit.electricity_price, heating::SoldUnit::kilowatt_hour) : std::nullopt;
}

void add_month(WarmingBench& m, Figure const& loss, WarmingCost& out, std::string const& label)
{
    auto const total = loss.get<units::Power>("total");
    if (!m.b.efficiency || !total || !(units::in_si(total->value) > 0))
        return;
    if (m.b.input && total->value >= heat_of(*m.b.input, *m.b.efficiency).value)
        return; // it can't be held
    MonthOf const names = month_of(m.b);
    auto const in = month_inputs(m, *total, names);
    auto const& visit = m.w().visit;
    bool const priced = visit.gas_price || visit.propane_price || visit.electricity_price;
    auto const figure = priced && !label.empty() ? m.w().figure(m.b.heater, "heating_cost", in, label)
                                                 : figures::run(m.w().engine.catalogue().at("heating_cost"), in);
    out.month_energy = told(figure, names.energy);
    if (own_price(m.b))
        out.month_cost = told(figure, names.cost);
}

void say_of_price(WarmingBench& m)
{
    auto const energy = m.b.v.energy;
    if (!own_price(m.b))
        m.basis(energy ? "No cost is given: the price of its " +
                             std::string(*energy == EnergyKind::natural_gas ? "gas"
                                         : *energy == EnergyKind::propane   ? "propane"
                                                                            : "electricity") +
                             " was not."
                       : "No cost is given: what it heats with was not said.");
    else if (energy == EnergyKind::natural_gas && !m.w().visit.gas_price_per)
        m.basis("The price of gas is taken as that of a therm: what it is for was not said.");
}

} // namespace padwalk::assess
