#include "padwalk/heating/heat_balance.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/heating/heat.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::heating
{
namespace
{

bool far(std::optional<units::Number> const& apart)
{
    return apart && std::abs(apart->value()) > units::coverage;
}

bool low(std::optional<units::Number> const& apart)
{
    return apart && apart->value() < -units::coverage;
}

bool high(std::optional<units::Number> const& apart)
{
    return apart && apart->value() > units::coverage;
}

units::Number over(double difference, double doubt)
{
    if (!(doubt > 0))
        throw figures::NotComputed("readings without any doubt can't be held against each other");
    return units::Number::from_value(difference / doubt);
}

/// A share of the input with its doubt.
struct Share
{
    double value = 0, doubt = 0;
};

double excess(BalanceReadings const& r, double moved)
{
    return r.oxygen ? physics::excess_air_of_oxygen(
                          r.fuel, units::Fraction::from_value(std::max(0.0, r.oxygen->value.value() + moved)))
                          .value()
                    : physics::excess_air_of_carbon_dioxide(
                          r.fuel, units::Fraction::from_value(r.carbon_dioxide->value.value() + moved))
                          .value();
}

std::optional<Share> stack_share(BalanceReadings const& r)
{
    if (!r.flue || (!r.oxygen && !r.carbon_dioxide))
        return std::nullopt;
    if (r.flue->value < r.air)
        throw figures::NotComputed(
            "the flue is colder than the air the burner takes: it isn't firing, or the two are swapped");
    auto const loss = [&](double by_air, double by_flue)
    {
        auto const found =
            physics::stack_loss_by_enthalpy(r.fuel, units::Fraction::from_value(excess(r, by_air)),
                                            r.flue->value + units::of_si<units::TemperatureDifference>(by_flue), r.air);
        return found.sensible.value() + found.latent.value();
    };
    double const gas = r.oxygen ? r.oxygen->doubt.value() : r.carbon_dioxide->doubt.value();
    double const flue = units::in_si(r.flue->doubt);
    return Share{loss(0, 0), std::hypot((loss(gas, 0) - loss(-gas, 0)) / 2, loss(0, flue) - loss(0, 0))};
}

/// Heat into the water with its doubt, W.
std::optional<Share> water_heat(BalanceReadings const& r)
{
    if (!r.rise || !r.flow)
        return std::nullopt;
    double const capacity = units::in_si(heat_capacity_flow(r.flow->value, r.inlet));
    double const heat = capacity * units::in_si(r.rise->value);
    return Share{heat, std::hypot(capacity * units::in_si(r.rise->doubt),
                                  heat * units::in_si(r.flow->doubt) / units::in_si(r.flow->value))};
}

void close(HeatBalance& b, BalanceReadings const& r, Share const& input, std::optional<Share> const& water,
           std::optional<Share> const& stack)
{
    auto const power = [](double v) { return units::of_si<units::Power>(v); };
    double const jacket = r.jacket.value.value();
    b.jacket = power(input.value * jacket);
    Share const plate{r.nameplate_efficiency.value.value(), r.nameplate_efficiency.doubt.value()};
    if (stack)
    {
        b.stack = power(input.value * stack->value);
        double const efficiency = 1 - stack->value - jacket;
        b.efficiency_by_stack = units::Fraction::from_value(efficiency);
        b.stack_apart = over(efficiency - plate.value, std::hypot(plate.doubt, stack->doubt, r.jacket.doubt.value()));
    }
    if (water)
    {
        double const efficiency = water->value / input.value;
        b.efficiency_by_water = units::Fraction::from_value(efficiency);
        double const doubt = std::hypot(water->doubt, efficiency * input.doubt) / input.value;
        b.water_apart = over(efficiency - plate.value, std::hypot(plate.doubt, doubt));
        b.more_than_all = high(over(efficiency - 1, doubt));
    }
    if (!stack || !water)
        return;
    double const left = 1 - stack->value - jacket;
    double const gap = input.value * left - water->value;
    double const doubt = std::hypot(std::hypot(left * input.doubt, water->doubt),
                                    input.value * std::hypot(stack->doubt, r.jacket.doubt.value()));
    b.unexplained = power(gap);
    b.doubt = power(doubt);
    b.apart = over(gap, doubt);
    if (far(b.apart) && r.clocked_input && r.nameplate_input)
    {
        double const by_plate = units::in_si(r.nameplate_input->value), spread = units::in_si(r.nameplate_input->doubt);
        double const rest = by_plate * std::hypot(stack->doubt, r.jacket.doubt.value());
        b.closes_by_plate = !far(over(by_plate * left - water->value, std::hypot(left * spread, water->doubt, rest)));
    }
}

double oxygen(HeatBalance const& b, BalanceReadings const& r)
{
    return physics::flue_gas(r.fuel, *b.excess_air).oxygen_dry().value();
}

/// The heater itself, where the readings don't contradict each other.
BalanceSide heater_side(HeatBalance const& b, BalanceReadings const& r, FiredHeaterTable const& table)
{
    if (far(b.input_apart))
        return BalanceSide::gas;
    if (b.excess_air &&
        (oxygen(b, r) < table.oxygen_low.value.value() || oxygen(b, r) > table.oxygen_high.value.value()))
        return BalanceSide::air;
    if (low(b.stack_apart))
        return BalanceSide::exchanger;
    return BalanceSide::nothing;
}

BalanceSide side_of(HeatBalance const& b, BalanceReadings const& r, FiredHeaterTable const& table)
{
    if (b.more_than_all || b.closes_by_plate)
        return BalanceSide::reading;
    if (b.apart && !far(b.apart))
        return heater_side(b, r, table);
    if (b.apart)
    {
        if (high(b.apart) && oxygen(b, r) < table.oxygen_low.value.value())
            return BalanceSide::air; // heat leaves in gas that did not burn, which no flue thermometer sees
        // Gas and flue were read where they are: what is left is the water. With the plate's input it may be the gas.
        return r.clocked_input ? BalanceSide::flow_or_thermometers : BalanceSide::cannot_tell;
    }
    if (far(b.water_apart))
        return BalanceSide::cannot_tell;
    if (b.water_apart || b.stack_apart || b.excess_air || b.input_apart)
        return heater_side(b, r, table);
    return BalanceSide::cannot_tell;
}

} // namespace

HeatBalance heat_balance(BalanceReadings const& r, FiredHeaterTable const& table)
{
    HeatBalance b;
    auto const& input = r.clocked_input ? r.clocked_input : r.nameplate_input;
    auto const water = water_heat(r);
    auto const stack = stack_share(r);
    if (r.oxygen || r.carbon_dioxide)
        b.excess_air = units::Fraction::from_value(excess(r, 0));
    if (water)
        b.water = units::of_si<units::Power>(water->value);
    if (r.clocked_input && r.nameplate_input)
        b.input_apart = over(units::in_si(r.clocked_input->value - r.nameplate_input->value),
                             std::hypot(units::in_si(r.clocked_input->doubt), units::in_si(r.nameplate_input->doubt)));
    // Shares of an input that is not known compare just as well: only the water's heat needs one.
    Share const taken = input ? Share{units::in_si(input->value), units::in_si(input->doubt)} : Share{1, 0};
    if (!(taken.value > 0))
        throw figures::NotComputed("the heater takes in nothing: there is no balance");
    close(b, r, taken, input ? water : std::nullopt, stack);
    if (input)
        b.input = input->value;
    else
        b.stack = b.jacket = std::nullopt;
    b.side = side_of(b, r, table);
    return b;
}

} // namespace padwalk::heating
