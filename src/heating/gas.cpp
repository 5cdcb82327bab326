#include "padwalk/heating/gas.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/physics/air.hpp"

namespace padwalk::heating
{

using fields::Record;

Record<GasBase> const& GasBase::declaration()
{
    static Record<GasBase> const record = Record<GasBase>("base", "state of the gas a heating value is quoted for")
                                              .field("pressure", &GasBase::pressure, "absolute pressure")
                                              .required()
                                              .field("temperature", &GasBase::temperature, "temperature")
                                              .required()
                                              .field("source", &GasBase::source, "where it comes from")
                                              .required();
    return record;
}

Record<FuelGas> const& FuelGas::declaration()
{
    static Record<FuelGas> const record =
        Record<FuelGas>("gas", "heat in a volume of gas, gross")
            .field("usual", &FuelGas::usual, "what is assumed without the utility's figure")
            .required()
            .field("low", &FuelGas::low, "lowest figure found")
            .required()
            .field("high", &FuelGas::high, "highest figure found")
            .required()
            .field("note", &FuelGas::note, "what else to know")
            .field("source", &FuelGas::source, "where it comes from")
            .required();
    return record;
}

Record<DerateRule> const& DerateRule::declaration()
{
    static Record<DerateRule> const record = Record<DerateRule>("derate", "less input where the air is thin")
                                                 .field("share", &DerateRule::share, "share of the nameplate")
                                                 .required()
                                                 .field("per", &DerateRule::per, "for each such height")
                                                 .required()
                                                 .field("from", &DerateRule::from, "altitude where the rule begins")
                                                 .required()
                                                 .field("note", &DerateRule::note, "what else to know")
                                                 .field("source", &DerateRule::source, "where it comes from")
                                                 .required();
    return record;
}

Record<EfficiencyMark> const& EfficiencyMark::declaration()
{
    static Record<EfficiencyMark> const record =
        Record<EfficiencyMark>("mark", "where the words about an efficiency change")
            .field("share", &EfficiencyMark::share, "the efficiency")
            .required()
            .field("meaning", &EfficiencyMark::meaning, "what lies there")
            .required()
            .field("source", &EfficiencyMark::source, "where it comes from")
            .required();
    return record;
}

Record<EfficiencyMarks> const& EfficiencyMarks::declaration()
{
    static Record<EfficiencyMarks> const record =
        Record<EfficiencyMarks>("efficiency", "what an efficiency says")
            .field("low", &EfficiencyMarks::low, "below this, heat is lost")
            .required()
            .field("new_least", &EfficiencyMarks::new_least, "least of a new gas heater")
            .required()
            .field("dry_most", &EfficiencyMarks::dry_most, "most without condensing")
            .required()
            .field("possible_most", &EfficiencyMarks::possible_most, "most of any burner")
            .required();
    return record;
}

Record<GasFacts> const& GasFacts::declaration()
{
    static Record<GasFacts> const record = Record<GasFacts>("gas", "facts about fuel gas and gas heaters")
                                               .field("base", &GasFacts::base, "state a heating value is quoted for")
                                               .required()
                                               .field("gases", &GasFacts::gases, "heating values")
                                               .required()
                                               .field("derate", &GasFacts::derate, "input at altitude")
                                               .required()
                                               .field("efficiency", &GasFacts::efficiency, "what an efficiency says")
                                               .required()
                                               .field("sources", &GasFacts::sources, "works cited");
    return record;
}

GasFacts gas_facts(reference::Data const& data)
{
    return reference::read_table<GasFacts>(data, "heating/gas.yaml");
}

units::VolumeFlow clocked_flow(units::Volume dial, units::Duration elapsed)
{
    if (units::in_si(elapsed) <= 0)
        throw figures::NotComputed("no time passed between the two readings of the meter");
    return dial / elapsed;
}

units::Number base_volume_factor(units::GaugePressure meter, units::Temperature gas, units::Length altitude,
                                 GasBase const& base)
{
    units::AbsolutePressure const at_meter = units::absolute(meter, physics::pressure_at_altitude(altitude));
    return units::Number(at_meter.from_zero() / base.pressure.from_zero() *
                         (base.temperature.from_zero() / gas.from_zero()));
}

units::Power gas_input(units::VolumeFlow flow, units::HeatingValue heating_value)
{
    return flow * heating_value.plain();
}

Derate derate(units::Length altitude, DerateRule const& rule)
{
    auto const left = [&rule](units::Length height)
    { return units::Fraction::from_value(1.0 - rule.share.value() * (height / rule.per).value()); };
    if (altitude <= rule.from)
        return {units::Fraction::from_value(1.0), units::Fraction::from_value(1.0)};
    Derate const out{left(altitude), left(altitude - rule.from)};
    if (out.counted_from_sea_level.value() <= 0)
        throw figures::NotComputed("so high up the rule leaves no input at all: it isn't meant for that");
    return out;
}

std::string efficiency_in_words(units::Fraction efficiency, EfficiencyMarks const& marks)
{
    if (efficiency.value() <= 0)
        return "the water leaves no warmer than it came: the heater isn't heating, or the two thermometers are swapped";
    if (efficiency > marks.possible_most.share)
        return "more heat in the water than in the fuel, which can't be: the flow, the rise or the input is read wrong";
    if (efficiency > marks.dry_most.share)
        return "more than a heater that doesn't condense can reach: unless this one condenses, the flow or the rise is "
               "read too high";
    if (efficiency >= marks.new_least.share)
        return "as a sound new gas heater";
    if (efficiency >= marks.low.share)
        return "as an older gas heater; a new one does better";
    return "low: heat is lost in the heater (scale, soot, too much air), or a reading is wrong; a technician with an "
           "analyser can tell which";
}

} // namespace padwalk::heating
