#include "padwalk/heating/heat_balance.hpp"

#include "padwalk/numerics/number_text.hpp"

#include <cmath>

namespace padwalk::heating
{
namespace
{

std::string units_of_doubt(units::Number apart)
{
    constexpr double tenths = 10; // more digits would say more than is known
    double const rounded = std::round(tenths * std::abs(apart.value())) / tenths;
    return numerics::number_text(rounded) + " units of doubt";
}

/// How the balance closes; empty where there is none.
std::string closing(HeatBalance const& b)
{
    if (!b.apart)
        return {};
    if (std::abs(b.apart->value()) <= units::coverage)
        return "the balance closes within " + units_of_doubt(*b.apart) + ": ";
    return (b.apart->value() > 0 ? "heat of the gas is missing in the water by "
                                 : "the water has more heat than the gas "
                                   "left it by ") +
           units_of_doubt(*b.apart) + ": ";
}

std::string gas_words(HeatBalance const& b)
{
    return std::string(b.input_apart && b.input_apart->value() < 0 ? "less" : "more") +
           " gas is burnt than the plate says (" + (b.input_apart ? units_of_doubt(*b.input_apart) : "") +
           "): pressure, orifice, heating value or altitude; a gas fitter finds out which";
}

std::string air_words(HeatBalance const& b, BalanceReadings const& r, FiredHeaterTable const& table)
{
    double const oxygen =
        b.excess_air ? physics::flue_gas(r.fuel, *b.excess_air).oxygen_dry().value() : table.oxygen_high.value.value();
    return oxygen < table.oxygen_low.value.value()
               ? "the burner is short of air: leave the heater off and have a combustion technician look at vent, "
                 "openings and carbon monoxide"
               : "far more air than the flame needs: the gas is low, or air got into the sample or the casing; a "
                 "combustion technician can tell";
}

/// What would tell more.
std::string missing(BalanceReadings const& r)
{
    std::string out;
    auto const want = [&](bool has, char const* what)
    {
        if (!has)
            out += (out.empty() ? "" : ", ") + std::string(what);
    };
    want(r.clocked_input.has_value(), "the gas meter clocked");
    want(r.flow.has_value(), "the flow");
    want(r.rise.has_value(), "the rise");
    want(r.flue && (r.oxygen || r.carbon_dioxide), "flue temperature and oxygen by a technician");
    return out.empty() ? "a second way to the flow, and the thermometers in one bucket" : out;
}

std::string cannot_tell_words(HeatBalance const& b, BalanceReadings const& r)
{
    if (!b.water_apart || std::abs(b.water_apart->value()) <= units::coverage)
        return "can't tell which side is wrong; " + missing(r) + " would tell more";
    return std::string(b.water_apart->value() < 0 ? "less" : "more") +
           " heat in the water than plate and input give (" + units_of_doubt(*b.water_apart) +
           "): " + (r.clocked_input ? "" : "gas, ") + (b.water_apart->value() < 0 ? "exchanger, " : "") +
           "flow or thermometers, can't tell which; " + missing(r) + " would tell more";
}

std::string side_words(HeatBalance const& b, BalanceReadings const& r, FiredHeaterTable const& table)
{
    switch (b.side)
    {
    case BalanceSide::nothing:
        return b.stack_apart || b.water_apart
                   ? "the readings agree with each other and with the plate"
                   : "nothing speaks against the heater so far; " + missing(r) + " would tell more";
    case BalanceSide::gas: return gas_words(b);
    case BalanceSide::air: return air_words(b, r, table);
    case BalanceSide::exchanger:
        return "more heat leaves by the flue than the plate allows, at usual air: soot on the gas side or scale on the "
               "water side, which these readings don't tell apart";
    case BalanceSide::flow_or_thermometers:
        return "gas and flue were read, so the flow or the thermometers are wrong; hold both thermometers in one "
               "bucket, "
               "then read the flow another way";
    case BalanceSide::reading:
        return b.more_than_all ? "more heat in the water than in the gas, which can't be: flow, rise or input is read "
                                 "wrong"
                               : "with the plate's input the balance would close, so the clocking is in doubt: another "
                                 "appliance, the wrong dial, the heating value; clock it again";
    case BalanceSide::cannot_tell: break;
    }
    return cannot_tell_words(b, r);
}

} // namespace

std::string balance_in_words(HeatBalance const& b, BalanceReadings const& r, FiredHeaterTable const& table)
{
    return closing(b) + side_words(b, r, table);
}

} // namespace padwalk::heating
