#include "padwalk/heating/fired_heater.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/heating/heat.hpp"
#include "padwalk/physics/air.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::heating
{

using figures::NotComputed;

namespace
{

/// Hot end of the gas where its mean heat capacity and its mean pull are meant; judgement.
constexpr double mean_gas_kelvin = 1200;

units::Fraction share(double value)
{
    return units::Fraction::from_value(value);
}

units::Temperature kelvin(double value)
{
    return units::of_si<units::Temperature>(value);
}

/// At the air's pressure near the sea; the loop's own pressure is to spare.
void require_no_boiling(double water_kelvin)
{
    if (water_kelvin > 373.15)
        throw NotComputed("so little water passes the tubes that it would boil in them");
}

double excess_air_set(FiredHeater const& h, FiredHeaterTable const& table)
{
    return h.rated_excess ? h.rated_excess->value() : table.excess_air(h.draft);
}

double jacket_share(FiredHeater const& h, FiredHeaterTable const& table)
{
    return h.jacket ? h.jacket->value() : table.jacket.value.value();
}

/// Heat capacity of the gas of one mole of fuel, share of the gross heating value for each kelvin.
double mean_capacity(physics::Fuel fuel, physics::FlueGas const& gas, double water)
{
    return physics::heat_carried(fuel, gas, kelvin(water), kelvin(mean_gas_kelvin)).value() / (mean_gas_kelvin - water);
}

/// What pulls: hot gas in place of air, from the flame to the exchanger's end. Chamber and exchanger stand before the
/// draft hood, so the vent's own height does not count.
double pull_of(double air, double flue)
{
    return std::max(0.0, 1 / air - 2 / (mean_gas_kelvin + flue));
}

/// One firing: what is fixed before the exchanger's and the draft's temperatures are found, then those.
class Firing
{
public:
    Firing(FiredHeater const& heater, HeaterBase const& base, FiredHeaterTable const& table)
        : h_(heater), table_(table), plate_(base), jacket_(jacket_share(heater, table)),
          bypass_(heater.bypass ? heater.bypass->value() : table.bypass.value.value()), air_(units::in_si(heater.air)),
          inlet_(units::in_si(heater.inlet))
    {
        if (!(units::in_si(h_.flow) > 0))
            throw NotComputed("no water flows through the heater: there is no steady rise");
        if (!(bypass_ >= 0 && bypass_ < 1))
            throw NotComputed("a bypass leads less than all of the water past the tubes");
        input_ = units::in_si(h_.plate_input) * h_.orifice.value() * std::sqrt(h_.gas_pressure.value() * plate_.thin) *
                 h_.gas_heat.value();
        if (!(input_ > 0))
            throw NotComputed("the burner gets no gas");
        capacity_ = plate_.water_heat * units::in_si(h_.flow);
        water_ = inlet_;
        flue_ = 2 / (1 / units::in_si(table.plate.air) - plate_.pull) - mean_gas_kelvin;
        find();
    }
    [[nodiscard]] HeaterState state() const;

private:
    void find();
    void draw_air();
    void exchange();
    void burn_badly(HeaterState& s) const;
    [[nodiscard]] double scale_and_film() const;

    FiredHeater const& h_;
    FiredHeaterTable const& table_;
    HeaterBase const& plate_;
    double jacket_, bypass_, air_, inlet_;
    double input_ = 0, capacity_ = 0;
    double water_ = 0, flue_ = 0; ///< K: mean of the water in the tubes; gas behind the exchanger
    double excess_ = 0, burnt_ = 1, taken_ = 0, units_ = 0; ///< taken: heat out of the gas, share; units: UA/C
    physics::FlueGas gas_, through_;                        ///< that leaves; that passes the tubes
};

/// Air that is drawn at the flue's temperature, and the gas it makes.
void Firing::draw_air()
{
    double const warm = units::in_si(table_.plate.air) / air_;
    double const drive = h_.draft == Draft::fan ? warm : std::sqrt(pull_of(air_, flue_) / plate_.pull);
    double const drawn = (1 + excess_air_set(h_, table_)) * h_.air_way.value() * h_.soot_air.value() * plate_.thin *
                         drive * units::in_si(h_.plate_input) / input_;
    double const back = h_.recirculated.value();
    excess_ = drawn * (1 - back) - 1;
    if (1 + excess_ < table_.least_air.value.value())
        throw NotComputed("so little air reaches the burner that no flame lasts");
    burnt_ = std::min(1.0, 1 + excess_);
    gas_ = physics::flue_gas(h_.fuel, share(excess_));
    through_ = gas_.times(1 + back * drawn * physics::air_needed(h_.fuel).value() / gas_.total().value());
}

/// Resistance between water and the far side of the scale, K/W.
double Firing::scale_and_film() const
{
    double const tube_flow = units::in_si(h_.flow) * (1 - bypass_) / plate_.tube_flow;
    double const film = table_.water_share.value.value() * std::pow(tube_flow, -table_.water_exponent.value.value());
    return (film + h_.scale.value()) / plate_.conductance;
}

void Firing::exchange()
{
    double const flow = input_ * through_.total().value() / plate_.gas_flow;
    double const gas_side = (1 - table_.water_share.value.value()) *
                            std::pow(flow, -table_.gas_exponent.value.value()) / plate_.conductance;
    double const resistance = gas_side + h_.soot.value() / plate_.conductance + scale_and_film();
    double const net = burnt_ * physics::net_to_gross(h_.fuel).value();
    units_ = 1 / (resistance * mean_capacity(h_.fuel, through_, water_) * input_);
    double const most = net - physics::heat_carried(h_.fuel, through_, h_.air, kelvin(water_)).value();
    taken_ = (1 - std::exp(-units_)) * most;
    flue_ = units::in_si(physics::temperature_with(h_.fuel, through_, share(net - taken_), h_.air));
    water_ = inlet_ + input_ * (taken_ - jacket_ * burnt_) / (2 * capacity_ * (1 - bypass_));
    if (taken_ <= jacket_ * burnt_)
        throw NotComputed("so little heat passes to the water that the casing loses more");
    require_no_boiling(water_); // the outlet then boils for certain
}

void Firing::find()
{
    // Water and draft answer weakly to the gas: each turn is some ten times closer.
    constexpr int most_turns = 100;
    constexpr double close = 1e-9; // K
    for (int i = 0; i < most_turns; ++i)
    {
        double const water = water_, flue = flue_;
        draw_air();
        exchange();
        if (std::abs(water_ - water) < close && std::abs(flue_ - flue) < close)
            return;
    }
    throw NotComputed("draft and flue temperature don't settle");
}

/// Carbon monoxide by the judged law.
void Firing::burn_badly(HeaterState& s) const
{
    auto const& rule = table_.monoxide;
    double const tens = std::max(0.0, rule.short_below.value() - excess_) / rule.short_tenfold.value() +
                        h_.recirculated.value() / rule.recirculated_tenfold.value() +
                        std::max(0.0, input_ / units::in_si(h_.plate_input) - 1) / rule.over_fired_tenfold.value();
    double const free = rule.sound.value() * std::pow(10.0, tens), levelled = free / (1 + free / rule.most.value());
    s.monoxide_air_free = units::GasFraction::from_value(levelled);
    s.monoxide = s.monoxide_air_free / physics::air_free_factor(s.oxygen).value();
}

HeaterState Firing::state() const
{
    HeaterState s;
    auto const power = [&](double part) { return units::of_si<units::Power>(input_ * part); };
    double const latent = 1 - physics::net_to_gross(h_.fuel).value();
    s.flue = kelvin(flue_);
    s.input = power(1);
    s.clocked = power(1 / h_.gas_heat.value());
    s.jacket = power(jacket_ * burnt_);
    s.water = power(taken_ - jacket_ * burnt_);
    s.stack_sensible = power(physics::heat_carried(h_.fuel, through_, h_.air, s.flue).value());
    s.stack_latent = power(burnt_ * latent);
    s.unburnt = power(1 - burnt_);
    s.efficiency = share(taken_ - jacket_ * burnt_);
    s.efficiency_by_stack = share(1 - latent - physics::heat_carried(h_.fuel, gas_, h_.air, s.flue).value() - jacket_);
    s.excess_air = share(excess_);
    s.oxygen = gas_.oxygen_dry();
    s.carbon_dioxide = gas_.carbon_dioxide_dry();
    s.vapour = gas_.vapour_share();
    burn_badly(s);
    double const rise = units::in_si(s.water) / capacity_;
    s.rise = units::of_si<units::TemperatureDifference>(rise);
    s.rise_shown = s.rise + h_.thermometers_off;
    s.outlet = h_.inlet + s.rise;
    s.tubes_outlet = h_.inlet + s.rise / (1 - bypass_);
    require_no_boiling(units::in_si(s.tubes_outlet));
    // Gas and water are 1/(1 - exp(-UA/C))·UA/C times as far apart where the gas comes in as they are on average.
    double const peak = units_ / (1 - std::exp(-units_));
    s.hot_wall = s.tubes_outlet + units::of_si<units::TemperatureDifference>(peak * input_ * taken_ * scale_and_film());
    return s;
}

} // namespace

units::VolumeFlow plate_flow(FiredHeater const& h, FiredHeaterTable const& table)
{
    return flow_from_rise(h.plate_input, h.plate_efficiency, table.plate.rise, table.plate.inlet);
}

HeaterBase heater_base(FiredHeater const& h, FiredHeaterTable const& table)
{
    double const input = units::in_si(h.plate_input), bypass = table.bypass.value.value();
    if (!(input > 0))
        throw NotComputed("the heater has no input on its plate");
    double const air = units::in_si(table.plate.air);
    double const water = units::in_si(table.plate.inlet) + units::in_si(table.plate.rise) / (2 * (1 - bypass));
    auto const gas = physics::flue_gas(h.fuel, share(excess_air_set(h, table)));
    double const net = physics::net_to_gross(h.fuel).value();
    double const most = net - physics::heat_carried(h.fuel, gas, kelvin(air), kelvin(water)).value();
    double const taken = h.plate_efficiency.value() + jacket_share(h, table);
    double const effectiveness = taken / most;
    if (!(effectiveness > 0 && effectiveness < 1))
        throw NotComputed("a heater of this efficiency would have to condense, which is not computed");
    auto const flue = physics::temperature_with(h.fuel, gas, share(net - taken), kelvin(air));
    double const per_volume = units::in_si(heat_capacity_flow(units::of_si<units::VolumeFlow>(1), h.inlet));
    double const thin =
        units::in_si(physics::pressure_at_altitude(h.altitude)) / units::in_si(physics::standard_pressure);
    return {-std::log(1 - effectiveness) * mean_capacity(h.fuel, gas, water) * input,
            input * gas.total().value(),
            units::in_si(plate_flow(h, table)) * (1 - bypass),
            pull_of(air, units::in_si(flue)),
            per_volume,
            thin};
}

HeaterState fire(FiredHeater const& heater, FiredHeaterTable const& table)
{
    return fire(heater, heater_base(heater, table), table);
}

HeaterState fire(FiredHeater const& heater, HeaterBase const& base, FiredHeaterTable const& table)
{
    return Firing(heater, base, table).state();
}

FiredHeater set_for_altitude(FiredHeater heater, units::Fraction input_left)
{
    double const thin =
        units::in_si(physics::pressure_at_altitude(heater.altitude)) / units::in_si(physics::standard_pressure);
    heater.orifice = units::Number::from_value(input_left.value() / std::sqrt(thin));
    return heater;
}

} // namespace padwalk::heating
