// The figure that tells sweating tubes from a leak.
#include "model_groups.hpp"

#include "padwalk/physics/water.hpp"
#include "padwalk/units/print.hpp"

namespace padwalk::heating
{
namespace
{

using fields::Record;

struct DewInput
{
    BurnedGas fuel = BurnedGas::natural_gas;
    std::optional<units::Fraction> oxygen, carbon_dioxide;
    units::Temperature air_temperature{};
    units::Fraction humidity{};
    units::Length altitude{};
    units::TemperatureDifference tube_warmer{};
    std::optional<units::Temperature> inlet_temperature;
    std::optional<units::Power> input;

    static Record<DewInput> const& declaration()
    {
        using In = DewInput;
        static Record<In> const record =
            Record<In>("dew_point_flue", "flue gas, and the water that goes into the heater")
                .field("fuel", &In::fuel, "which gas burns")
                .required()
                .like("natural_gas")
                .field("oxygen", &In::oxygen, "oxygen in the dry flue gas, before a draft hood")
                .within("0 %", "20.9 %")
                .field("carbon_dioxide", &In::carbon_dioxide, "or carbon dioxide in it; with neither, no excess air")
                .within("0 %", "20 %")
                .field("air_temperature", &In::air_temperature, "air that the burner takes")
                .otherwise("68 degF", "it moves the dew point by a degree or two at most")
                .within("-40 degF", "130 degF")
                .field("humidity", &In::humidity, "relative humidity of that air")
                .otherwise("50 %", "dry air lowers the dew point by about 1 K, damp air raises it as much")
                .within("0 %", "100 %")
                .field("altitude", &In::altitude, "height of the place above the sea")
                .otherwise("0 ft", "at 5000 ft the dew point is 3 to 4 K lower")
                .within("-300 ft", "14000 ft")
                .shown_in("ft", "m")
                .field("tube_warmer", &In::tube_warmer, "by how much the tubes are warmer than the water going in")
                .otherwise("27 degF ± 18 degF", "from boiler practice, which keeps water into a finned copper heater "
                                                "above about 105 degF (memory, judgement)")
                .within("0 degF", "120 degF")
                .field("inlet_temperature", &In::inlet_temperature, "water going into the heater")
                .within("33 degF", "180 degF")
                .field("input", &In::input, "gross input; with inlet_temperature, the most that could drip")
                .within("0.5 kW", "5000 kBtu/h");
        return record;
    }
};

struct DewOutput
{
    units::Temperature dew_point{};
    units::Temperature sweats_below{};
    units::Fraction vapour{};
    units::Fraction excess_air{};
    std::optional<units::VolumeFlow> most_drip;
    std::string in_words;

    static Record<DewOutput> const& declaration()
    {
        using Out = DewOutput;
        static Record<Out> const record =
            Record<Out>("dew_point_flue", "when it sweats")
                .field("dew_point", &Out::dew_point, "surface below which the flue gas leaves dew")
                .field("sweats_below", &Out::sweats_below, "water going into the heater below which its tubes sweat")
                .field("vapour", &Out::vapour, "share of water vapour in the flue gas")
                .field("excess_air", &Out::excess_air, "air beyond the least that burns all of the gas")
                .field("most_drip", &Out::most_drip, "most that could drip, all of the gas cooled to the tubes")
                .shown_in("gal/day", "L/h")
                .field("in_words", &Out::in_words, "what that says about a drip");
        return record;
    }
};

units::Number air_ratio(DewInput const& in, BurnedGasRow const& fuel, CondensationFacts const& facts)
{
    if (in.oxygen && in.carbon_dioxide)
        throw figures::NotComputed("give oxygen or carbon_dioxide, not both: each says how much air was burned");
    if (in.oxygen)
        return air_ratio_from_oxygen(*in.oxygen, fuel, facts);
    if (in.carbon_dioxide)
        return air_ratio_from_carbon_dioxide(*in.carbon_dioxide, fuel, facts);
    return units::Number::from_value(1.0);
}

DewOutput dew_of(DewInput const& in, CondensationFacts const& facts)
{
    BurnedGasRow const& fuel = facts.fuel(in.fuel);
    BurnerAir const air{in.air_temperature, in.humidity, in.altitude};
    units::Number const ratio = air_ratio(in, fuel, facts);
    FlueWater const gas = flue_water(ratio, air, fuel, facts);
    DewOutput out;
    out.dew_point = gas.dew_point;
    out.sweats_below = gas.dew_point - in.tube_warmer;
    out.vapour = gas.vapour;
    out.excess_air = units::Fraction::from_value(ratio.value() - 1);
    if (in.input && in.inlet_temperature)
        out.most_drip = most_condensate(*in.input, gas, *in.inlet_temperature + in.tube_warmer, air, fuel) /
                        physics::density(*in.inlet_temperature);
    return out;
}

void dew_in_words(DewInput const& in, DewOutput& out)
{
    std::string const limit = units::show(units::Measure::temperature, units::in_si(out.sweats_below), 2.0, {});
    if (!in.inlet_temperature)
        out.in_words =
            "with water below about " + limit + " going in, dew forms on the tubes and can drip as a leak does";
    else if (*in.inlet_temperature < out.sweats_below)
        out.in_words = "water this cool makes dew on the tubes while the burner runs: a drip may be that and no leak. "
                       "Dew stops as the water passes about " +
                       limit +
                       "; a leak drips with the burner off and the pump on too. Dew that goes on for hours rusts the "
                       "heater and may block its flue passages: a technician looks at the bypass";
    else
        out.in_words =
            "the tubes are too warm for dew: a drip that goes on is more likely a leak of water, or rain, or "
            "a relief valve; a technician finds which";
    if (!in.oxygen && !in.carbon_dioxide)
        out.in_words += ". No excess air was taken, which gives the highest dew point";
}

} // namespace

figures::Model dew_point_flue_model(CondensationFacts const& facts)
{
    return figures::model<DewInput, DewOutput>(
        {.name = "dew_point_flue",
         .title = "water temperature below which a gas heater's tubes sweat",
         .equation = "share of vapour in the burned gas from CH4 or C3H8, air and its damp; dew point: share · air's "
                     "pressure = vapour pressure of water; sweats below = dew point - tube_warmer",
         .valid = "complete burning, gas before a draft hood, a heater not made to condense; how much warmer the tubes "
                  "are than the water is judgement; sampling flue gas takes a trained person and an analyser" +
                  std::string(rules_decide),
         .sources = {"heating-combustion-enthalpies", "heating-flue-dew-point-handbooks", "iapws-if97", "judgement"},
         .cautions = {"burner_work", "carbon_monoxide", "hot_water"}},
        [facts](DewInput const& in) { return dew_of(in, facts); }, dew_in_words);
}

} // namespace padwalk::heating
