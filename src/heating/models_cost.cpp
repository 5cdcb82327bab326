// The figure of what holding a temperature costs, fuel beside fuel.
#include "model_groups.hpp"

#include "padwalk/units/definitions.hpp"

#include <limits>

namespace padwalk::heating
{
namespace
{

using fields::Record;
using units::Number;

struct CostInput
{
    units::Power loss{};
    units::Fraction gas_efficiency{}, element_efficiency{};
    Number heat_pump_cop{};
    std::optional<Number> gas_price;
    SoldUnit gas_price_per = SoldUnit::therm;
    std::optional<Number> propane_price, electricity_price;

    static Record<CostInput> const& declaration()
    {
        using In = CostInput;
        static Record<In> const record =
            Record<In>("heating_cost", "heat to make good, and prices")
                .field("loss", &In::loss, "heat to make good, on average: total of spa_heat_loss")
                .required()
                .within("10 W", "5000 kBtu/h")
                .field("gas_efficiency", &In::gas_efficiency, "of a gas heater, gross, natural gas or propane")
                .otherwise("82 % ± 6 %", "least of a new gas pool heater, from memory; older ones have less")
                .within("20 %", "100 %")
                .field("element_efficiency", &In::element_efficiency, "of an electric element")
                .otherwise("100 %", "an element in the water gives it all of its heat")
                .within("20 %", "100 %")
                .field("heat_pump_cop", &In::heat_pump_cop, "heat of a heat pump for each unit of electricity")
                .otherwise("5 ± 1.5", "middle of the published 3 to 7")
                .within("1", "10")
                .field("gas_price", &In::gas_price, "price of natural gas, a plain number in any money")
                .within("0", "100000")
                .like("1.60")
                .field("gas_price_per", &In::gas_price_per, "what that price is for")
                .otherwise("therm", "US gas is sold so")
                .field("propane_price", &In::propane_price, "price of a gallon of propane")
                .within("0", "100000")
                .like("3")
                .field("electricity_price", &In::electricity_price, "price of a kWh")
                .within("0", "100000")
                .like("0.20");
        return record;
    }
};

struct CostOutput
{
    units::Energy heat_month{};
    std::optional<Number> gas_cost, propane_cost, element_cost, heat_pump_cost;
    units::Energy gas_month{}, element_month{}, heat_pump_month{};
    units::Volume propane_month{};
    std::string in_words;

    static Record<CostOutput> const& declaration()
    {
        using Out = CostOutput;
        static Record<Out> const record =
            Record<Out>("heating_cost", "a month of holding the temperature")
                .field("heat_month", &Out::heat_month, "heat to make good in a month")
                .shown_in("kWh", "kWh")
                .field("gas_cost", &Out::gas_cost, "a month by natural gas")
                .field("propane_cost", &Out::propane_cost, "a month by propane")
                .field("element_cost", &Out::element_cost, "a month by an electric element")
                .field("heat_pump_cost", &Out::heat_pump_cost, "a month by a heat pump")
                .field("gas_month", &Out::gas_month, "natural gas or propane used")
                .shown_in("therm", "MJ")
                .field("propane_month", &Out::propane_month, "liquid propane used")
                .shown_in("gal", "L")
                .field("element_month", &Out::element_month, "electricity an element uses")
                .shown_in("kWh", "kWh")
                .field("heat_pump_month", &Out::heat_pump_month, "electricity a heat pump uses")
                .shown_in("kWh", "kWh")
                .field("in_words", &Out::in_words, "which costs least");
        return record;
    }
};

CostOutput cost_side_by_side(CostInput const& in, FuelPrices const& prices)
{
    CostOutput out;
    out.heat_month = month_of(in.loss, units::Fraction::from_value(1.0));
    out.gas_month = month_of(in.loss, in.gas_efficiency);
    out.element_month = month_of(in.loss, in.element_efficiency);
    out.heat_pump_month = month_of(in.loss, units::Fraction::from_value(in.heat_pump_cop.value()));
    double const gallons = units::in_si(out.gas_month / prices.energy_in(SoldUnit::propane_gallon));
    out.propane_month = units::of_si<units::Volume>(gallons * units::exact::us_gallon);
    if (in.gas_price)
        out.gas_cost = cost_of(out.gas_month, *in.gas_price, in.gas_price_per, prices);
    if (in.propane_price)
        out.propane_cost = cost_of(out.gas_month, *in.propane_price, SoldUnit::propane_gallon, prices);
    if (in.electricity_price)
    {
        out.element_cost = cost_of(out.element_month, *in.electricity_price, SoldUnit::kilowatt_hour, prices);
        out.heat_pump_cost = cost_of(out.heat_pump_month, *in.electricity_price, SoldUnit::kilowatt_hour, prices);
    }
    return out;
}

void cost_in_words(CostInput const& in, CostOutput& out)
{
    double least = std::numeric_limits<double>::infinity();
    std::string by;
    auto const look = [&](std::optional<Number> const& cost, char const* name)
    {
        if (cost && cost->value() < least)
            least = cost->value(), by = name;
    };
    look(out.gas_cost, "natural gas");
    look(out.propane_cost, "propane");
    look(out.element_cost, "an electric element");
    look(out.heat_pump_cost, "a heat pump");
    if (by.empty())
    {
        out.in_words = "energy only: a cost needs a price";
        return;
    }
    out.in_words = "at these prices " + by + " costs least to run; what the heater itself costs is left out";
    if (in.electricity_price && by == "a heat pump")
        out.in_words += ". A heat pump needs mild air, and warms slowly";
}

} // namespace

figures::Model heating_cost_model(FuelPrices const& prices)
{
    return figures::model<CostInput, CostOutput>(
        {.name = "heating_cost",
         .title = "a month's cost of holding a temperature, fuel beside fuel",
         .equation =
             "energy = loss · month / efficiency (a heat pump's is its COP); cost = energy / energy sold for the "
             "price · price; a month is 365.25/12 days; a gallon of propane holds 91,500 Btu (memory)",
         .valid = "the loss is a mean over the month; standing pilots, standing charges and pumps are left out" +
                  std::string(rules_decide),
         .sources = {"nist-sp-811", "heating-propane-handbook", "heating-10-cfr-430-32-k", "doe-heat-pump-pool",
                     "judgement"},
         .cautions = {"hot_water"}},
        [prices](CostInput const& in) { return cost_side_by_side(in, prices); }, cost_in_words);
}

} // namespace padwalk::heating
