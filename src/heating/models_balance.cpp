#include "model_groups.hpp"

#include "padwalk/heating/heat_balance.hpp"

namespace padwalk::heating
{
namespace
{

using fields::Record;
using units::Fraction;
using units::TemperatureDifference;

constexpr char const* one_doubt = "standard uncertainty, ";

struct BalanceInput
{
    physics::Fuel fuel = physics::Fuel::natural_gas;
    std::optional<units::Power> nameplate_input, clocked_input;
    Fraction nameplate_efficiency{}, jacket{};
    std::optional<TemperatureDifference> rise;
    std::optional<units::VolumeFlow> flow;
    units::Temperature inlet_temperature{};
    std::optional<units::Temperature> flue_temperature;
    units::Temperature air_temperature{};
    std::optional<Fraction> oxygen, carbon_dioxide;
    Fraction nameplate_doubt{}, clocked_doubt{}, efficiency_doubt{}, jacket_doubt{}, flow_doubt{}, oxygen_doubt{},
        carbon_dioxide_doubt{};
    TemperatureDifference rise_doubt{}, flue_doubt{};
    static Record<BalanceInput> const& declaration();
};

Record<BalanceInput> with_readings()
{
    using In = BalanceInput;
    return Record<In>("heat_balance", "gas in, water and losses out, and which side doesn't fit")
        .field("fuel", &In::fuel, "what is burnt")
        .otherwise("natural_gas", "the usual gas; a tank beside the house means propane")
        .field("nameplate_input", &In::nameplate_input, "gross input on the plate, after any derating for altitude")
        .within("0.5 kW", "5000 kBtu/h")
        .field("clocked_input", &In::clocked_input, "gross input by the gas meter and a watch; see gas_input")
        .within("0.5 kW", "5000 kBtu/h")
        .field("nameplate_efficiency", &In::nameplate_efficiency, "heat into the water over gross input, as sold")
        .otherwise("82 %", "least of a new gas heater, from memory; older ones are sold with less")
        .within("50 %", "88 %")
        .field("jacket", &In::jacket, "share of the input that the casing loses")
        .otherwise("2 %", "our judgement for a closed and lined casing")
        .within("0 %", "20 %")
        .like("3 %")
        .field("rise", &In::rise, "outlet less inlet temperature, steady")
        .within("0.2 degF", "120 degF")
        .field("flow", &In::flow, "flow through the heater")
        .within("1 gpm", "1000 gpm")
        .field("inlet_temperature", &In::inlet_temperature, "water going into the heater")
        .otherwise("80 degF", "density times specific heat of water changes by only 1 % from 50 to 104 degF")
        .within("33 degF", "140 degF")
        .field("flue_temperature", &In::flue_temperature, "gas behind the exchanger, before any draft hood")
        .within("60 degF", "1500 degF")
        .like("350 degF")
        .field("air_temperature", &In::air_temperature, "air that the burner takes")
        .otherwise("70 degF", "10 degF of it are 0.3 % of the input")
        .within("-20 degF", "130 degF")
        .like("70 degF")
        .field("oxygen", &In::oxygen, "of the dry flue gas, before any draft hood")
        .within("0 %", "17 %")
        .like("6 %")
        .field("carbon_dioxide", &In::carbon_dioxide, "of the dry flue gas; counts only where oxygen is not given")
        .within("2 %", "14 %")
        .like("8 %");
}

Record<BalanceInput> const& BalanceInput::declaration()
{
    using In = BalanceInput;
    static std::string const u = one_doubt;
    static Record<In> const record =
        with_readings()
            .field("nameplate_doubt", &In::nameplate_doubt, u + "share of the plate's input")
            .otherwise("4 %", "a burner as set strays from its plate; our judgement")
            .within("0.1 %", "50 %")
            .field("clocked_doubt", &In::clocked_doubt, u + "share of the clocked input")
            .otherwise("3 %", "dial 1 %, watch 1 to 2 %, heating value 2 %; our judgement")
            .within("0.1 %", "50 %")
            .field("efficiency_doubt", &In::efficiency_doubt, u + "of the plate's efficiency")
            .otherwise("2 %", "one heater against the one that was tested; our judgement")
            .within("0.1 %", "20 %")
            .field("jacket_doubt", &In::jacket_doubt, u + "of the jacket's share")
            .otherwise("1 %", "our judgement")
            .within("0 %", "20 %")
            .field("flow_doubt", &In::flow_doubt, u + "share of the flow")
            .otherwise("5 %", "a flow meter on a straight pipe; 10 to 20 % where the flow is worked out from gauges")
            .within("0.1 %", "100 %")
            .field("oxygen_doubt", &In::oxygen_doubt, u + "of the oxygen")
            .otherwise("0.3 %", "a cell in calibration")
            .within("0 %", "10 %")
            .field("carbon_dioxide_doubt", &In::carbon_dioxide_doubt, u + "of the carbon dioxide")
            .otherwise("0.2 %", "worked out by the analyser from oxygen, or measured; our judgement")
            .within("0 %", "5 %")
            .field("rise_doubt", &In::rise_doubt, u + "of the rise")
            .otherwise("0.3 degF", "two thermometers that agree side by side within 0.2 degF each")
            .within("0.01 degF", "20 degF")
            .field("flue_doubt", &In::flue_doubt, u + "of the flue's temperature")
            .otherwise("5 degF", "a probe in a stream that is not uniform")
            .within("0 degF", "200 degF");
    return record;
}

struct BalanceOutput
{
    std::optional<units::Power> input, water, stack, jacket, unexplained, doubt;
    std::optional<units::Number> apart;
    std::optional<Fraction> efficiency_by_water, efficiency_by_stack, excess_air;
    std::string side, in_words;
    static Record<BalanceOutput> const& declaration()
    {
        using Out = BalanceOutput;
        static Record<Out> const record =
            Record<Out>("heat_balance", "gas in, water and losses out, and which side doesn't fit")
                .field("input", &Out::input, "by gas: clocked, else the plate's")
                .shown_in("kBtu/h", "kW")
                .field("water", &Out::water, "heat into the water, by flow and rise")
                .shown_in("kBtu/h", "kW")
                .field("stack", &Out::stack, "heat up the vent, with that of the vapour")
                .shown_in("kBtu/h", "kW")
                .field("jacket", &Out::jacket, "heat through the casing")
                .shown_in("kBtu/h", "kW")
                .field("unexplained", &Out::unexplained, "input less all of these; below 0: more came out than went in")
                .shown_in("kBtu/h", "kW")
                .field("doubt", &Out::doubt, "of what is unexplained, standard uncertainty by the doubts given")
                .shown_in("kBtu/h", "kW")
                .field("apart", &Out::apart, "unexplained over its doubt: it closes within 2")
                .field("efficiency_by_water", &Out::efficiency_by_water, "water over input")
                .field("efficiency_by_stack", &Out::efficiency_by_stack, "1 less stack and jacket")
                .field("excess_air", &Out::excess_air, "air beyond what the flame needs")
                .field("side", &Out::side, "what the readings speak against")
                .field("in_words", &Out::in_words, "how it closes and what that means");
        return record;
    }
};

template <class Q> std::optional<units::Measured<Q>> measured(std::optional<Q> const& value, double doubt)
{
    if (!value)
        return std::nullopt;
    return units::Measured<Q>{*value, units::of_si<units::Difference<Q>>(doubt), {}};
}

/// A doubt that is a share of its reading.
template <class Q> std::optional<units::Measured<Q>> by_share(std::optional<Q> const& value, Fraction share)
{
    return measured(value, value ? units::in_si(*value) * share.value() : 0.0);
}

BalanceReadings readings(BalanceInput const& in)
{
    BalanceReadings r;
    r.fuel = in.fuel;
    r.nameplate_input = by_share(in.nameplate_input, in.nameplate_doubt);
    r.clocked_input = by_share(in.clocked_input, in.clocked_doubt);
    r.nameplate_efficiency = {in.nameplate_efficiency, in.efficiency_doubt, {}};
    r.jacket = {in.jacket, in.jacket_doubt, {}};
    r.rise = measured(in.rise, units::in_si(in.rise_doubt));
    r.flow = by_share(in.flow, in.flow_doubt);
    r.inlet = in.inlet_temperature;
    r.flue = measured(in.flue_temperature, units::in_si(in.flue_doubt));
    r.air = in.air_temperature;
    r.oxygen = measured(in.oxygen, in.oxygen_doubt.value());
    r.carbon_dioxide = measured(in.carbon_dioxide, in.carbon_dioxide_doubt.value());
    return r;
}

BalanceOutput balance(BalanceInput const& in, FiredHeaterTable const& table)
{
    auto const b = heat_balance(readings(in), table);
    return {b.input,
            b.water,
            b.stack,
            b.jacket,
            b.unexplained,
            b.doubt,
            b.apart,
            b.efficiency_by_water,
            b.efficiency_by_stack,
            b.excess_air,
            {},
            {}};
}

void describe(BalanceInput const& in, BalanceOutput& out, FiredHeaterTable const& table)
{
    auto const read = readings(in);
    auto const b = heat_balance(read, table);
    out.side = fields::words_of<BalanceSide>::words().at(static_cast<std::size_t>(b.side));
    out.in_words = balance_in_words(b, read, table);
}

struct FlueInput
{
    physics::Fuel fuel = physics::Fuel::natural_gas;
    std::optional<Fraction> oxygen, carbon_dioxide;
    units::Temperature flue_temperature{}, air_temperature{};
    static Record<FlueInput> const& declaration()
    {
        using In = FlueInput;
        static Record<In> const record =
            Record<In>("flue_gas", "what the flue gas is made of and the heat it takes along")
                .field("fuel", &In::fuel, "what is burnt")
                .otherwise("natural_gas", "the usual gas; a tank beside the house means propane")
                .field("oxygen", &In::oxygen, "of the dry flue gas, before any draft hood")
                .within("0 %", "17 %")
                .like("6 %")
                .field("carbon_dioxide", &In::carbon_dioxide, "of the dry gas; counts only where oxygen is not given")
                .within("2 %", "14 %")
                .like("8 %")
                .field("flue_temperature", &In::flue_temperature, "gas behind the exchanger")
                .required()
                .within("60 degF", "1500 degF")
                .like("350 degF")
                .field("air_temperature", &In::air_temperature, "air that the burner takes")
                .otherwise("70 degF", "10 degF of it are 0.3 % of the input")
                .within("-20 degF", "130 degF")
                .like("70 degF");
        return record;
    }
};

struct FlueOutput
{
    Fraction excess_air{}, oxygen{}, carbon_dioxide{}, vapour{}, sensible_loss{}, latent_loss{}, net_loss{};
    static Record<FlueOutput> const& declaration()
    {
        using Out = FlueOutput;
        static Record<Out> const record =
            Record<Out>("flue_gas", "what the flue gas is made of and the heat it takes along")
                .field("excess_air", &Out::excess_air, "air beyond what the flame needs")
                .field("oxygen", &Out::oxygen, "of the dry gas")
                .field("carbon_dioxide", &Out::carbon_dioxide, "of the dry gas")
                .field("vapour", &Out::vapour, "of the wet gas")
                .field("sensible_loss", &Out::sensible_loss, "heat of the hot gas, share of the gross input")
                .field("latent_loss", &Out::latent_loss, "heat of the vapour, share of the gross input")
                .field("net_loss", &Out::net_loss, "heat of the hot gas, share of the net input");
        return record;
    }
};

FlueOutput flue(FlueInput const& in)
{
    if (!in.oxygen && !in.carbon_dioxide)
        throw figures::NotComputed("oxygen or carbon dioxide of the flue gas is wanted");
    if (in.flue_temperature < in.air_temperature)
        throw figures::NotComputed(
            "the flue is colder than the air the burner takes: it isn't firing, or the two are swapped");
    auto const excess = in.oxygen ? physics::excess_air_of_oxygen(in.fuel, *in.oxygen)
                                  : physics::excess_air_of_carbon_dioxide(in.fuel, *in.carbon_dioxide);
    auto const gas = physics::flue_gas(in.fuel, excess);
    auto const loss = physics::stack_loss_by_enthalpy(in.fuel, excess, in.flue_temperature, in.air_temperature);
    return {excess,
            gas.oxygen_dry(),
            gas.carbon_dioxide_dry(),
            gas.vapour_share(),
            loss.sensible,
            loss.latent,
            Fraction::from_value(loss.sensible / physics::net_to_gross(in.fuel))};
}

figures::Model heat_balance_model(FiredHeaterTable const& table)
{
    return figures::model<BalanceInput, BalanceOutput>(
        {.name = "heat_balance",
         .title = "gas in, water and losses out, and which side doesn't fit",
         .equation = "unexplained = input - density · specific heat · flow · rise - input · (sensible + latent stack "
                     "loss) - input · jacket; apart = unexplained / its doubt, doubts carried by first order",
         .valid =
             "steady high fire, all of the flow through the heater, nothing condensing, flue read before any draft "
             "hood; heat of unburnt gas is not seen. Limits of 2 and 10 % oxygen and the jacket are judgement; "
             "an analyser in the flue is a combustion technician's work" +
             std::string(rules_decide),
         .sources = {"iapws-if97", "gri-mech-thermo", "gum-2008", "judgement"},
         .cautions = {"burner_work", "carbon_monoxide", "hot_water"}},
        [table](BalanceInput const& in) { return balance(in, table); },
        [table](BalanceInput const& in, BalanceOutput& out) { describe(in, out, table); });
}

figures::Model flue_gas_model()
{
    return figures::model<FlueInput, FlueOutput>(
        {.name = "flue_gas",
         .title = "what the flue gas is made of and the heat it takes along",
         .equation =
             "CxHy + (1 + e)(x + y/4)(O2 + 3.773 N2) -> x CO2 + y/2 H2O + e (x + y/4) O2 + N2; "
             "e = O2 dry0 / (air0 (20.95 % - O2)); loss = enthalpy of the gas from the air's temperature to the "
             "flue's",
         .valid = "natural gas as methane, dry air, complete burning, nothing condensing; read before any draft hood" +
                  std::string(rules_decide),
         .sources = {"gri-mech-thermo"},
         .cautions = {"burner_work", "carbon_monoxide"}},
        flue);
}

} // namespace

void add_balance_models(std::vector<figures::Model>& all, FiredHeaterTable const& table)
{
    all.push_back(heat_balance_model(table));
    all.push_back(flue_gas_model());
}

} // namespace padwalk::heating
