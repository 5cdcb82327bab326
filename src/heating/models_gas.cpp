#include "model_groups.hpp"

#include "padwalk/heating/heat.hpp"

namespace padwalk::heating
{

/// Whether the meter or the tariff already counts gas at the state its heating value is quoted for.
enum class Compensated
{
    yes,
    no
};

} // namespace padwalk::heating

template <> struct padwalk::fields::words_of<padwalk::heating::Compensated>
{
    static std::vector<std::string> words() { return {"yes", "no"}; }
};

namespace padwalk::heating
{
namespace
{

using fields::Record;

struct GasInputInput
{
    units::Volume dial{};
    units::Duration elapsed{};
    units::HeatingValue heating_value{};
    units::GaugePressure meter_pressure{};
    units::Temperature gas_temperature{};
    units::Length altitude{};
    Compensated compensated = Compensated::yes;
    static Record<GasInputInput> const& declaration()
    {
        static Record<GasInputInput> const record =
            Record<GasInputInput>("gas_input", "what a gas heater burns, by its meter and a watch")
                .field("dial", &GasInputInput::dial, "gas of the turns that were timed")
                .required()
                .within("0.05 ft3", "1000 ft3")
                .like("2 ft3")
                .field("elapsed", &GasInputInput::elapsed, "time of those turns")
                .required()
                .within("2 s", "2 h")
                .like("20 s")
                .field("heating_value", &GasInputInput::heating_value,
                       "gross heat in a volume of this gas, from the utility")
                .otherwise("1030 ± 60 Btu/ft3",
                           "usual natural gas; published figures run from 900 to 1050, less where it is thinned for "
                           "altitude, and propane is about 2500: ask the utility")
                .within("400 Btu/ft3", "3500 Btu/ft3")
                .field("meter_pressure", &GasInputInput::meter_pressure, "gas pressure in the meter")
                .otherwise("7 in water", "usual house pressure; counts only where the meter isn't compensated")
                .within("0 in water", "5 psi")
                .field("gas_temperature", &GasInputInput::gas_temperature, "gas in the meter")
                .otherwise("60 degF", "the base temperature; counts only where the meter isn't compensated")
                .within("-40 degF", "130 degF")
                .field("altitude", &GasInputInput::altitude, "height of the place above the sea")
                .otherwise("0 ft", "near sea level; counts only where the meter isn't compensated")
                .within("-300 ft", "14000 ft")
                .field("compensated", &GasInputInput::compensated,
                       "does the meter or the tariff already correct to standard conditions?")
                .otherwise("yes", "plain clocking, as training pages do it: nothing is corrected");
        return record;
    }
};

struct GasInputOutput
{
    units::VolumeFlow volume_rate{};
    units::Power input{};
    units::Number correction{};
    static Record<GasInputOutput> const& declaration()
    {
        static Record<GasInputOutput> const record =
            Record<GasInputOutput>("gas_input", "what a gas heater burns, by its meter and a watch")
                .field("volume_rate", &GasInputOutput::volume_rate, "gas through the meter")
                .shown_in("ft3/h", "m3/h")
                .field("input", &GasInputOutput::input, "gross input, as nameplates count it")
                .shown_in("kBtu/h", "kW")
                .field("correction", &GasInputOutput::correction,
                       "base volume over metered volume; 1 where compensated");
        return record;
    }
};

GasInputOutput clock(GasInputInput const& in, GasBase const& base)
{
    auto const rate = clocked_flow(in.dial, in.elapsed);
    auto const factor = in.compensated == Compensated::yes
                            ? units::Number::from_value(1.0)
                            : base_volume_factor(in.meter_pressure, in.gas_temperature, in.altitude, base);
    return {rate, gas_input(rate, in.heating_value) * factor.value(), factor};
}

struct DerateInput
{
    units::Power nameplate{};
    units::Length altitude{};
    static Record<DerateInput> const& declaration()
    {
        static Record<DerateInput> const record =
            Record<DerateInput>("altitude_derate", "input a gas heater should have at altitude")
                .field("nameplate", &DerateInput::nameplate, "input on the nameplate")
                .required()
                .within("1 kBtu/h", "5000 kBtu/h")
                .field("altitude", &DerateInput::altitude, "height of the place above the sea")
                .required()
                .within("-300 ft", "14000 ft");
        return record;
    }
};

struct DerateOutput
{
    units::Power input_from_sea_level{};
    units::Power input_from_2000_ft{};
    static Record<DerateOutput> const& declaration()
    {
        static Record<DerateOutput> const record =
            Record<DerateOutput>("altitude_derate", "input a gas heater should have at altitude")
                .field("input_from_sea_level", &DerateOutput::input_from_sea_level,
                       "4 % less for each 1000 ft counted from the sea")
                .shown_in("kBtu/h", "kW")
                .field("input_from_2000_ft", &DerateOutput::input_from_2000_ft,
                       "4 % less for each 1000 ft counted from 2000 ft")
                .shown_in("kBtu/h", "kW");
        return record;
    }
};

DerateOutput derated(DerateInput const& in, DerateRule const& rule)
{
    auto const left = derate(in.altitude, rule);
    return {in.nameplate * left.counted_from_sea_level.value(), in.nameplate * left.counted_from_start.value()};
}

struct EfficiencyInput
{
    units::TemperatureDifference rise{};
    units::VolumeFlow flow{};
    units::Power input{};
    units::Temperature inlet_temperature{};
    static Record<EfficiencyInput> const& declaration()
    {
        static Record<EfficiencyInput> const record =
            Record<EfficiencyInput>("heater_efficiency", "share of the fuel's heat that reaches the water")
                .field("rise", &EfficiencyInput::rise, "outlet less inlet temperature, steady")
                .required()
                .within("-30 degF", "120 degF")
                .field("flow", &EfficiencyInput::flow, "flow through the heater")
                .required()
                .within("1 gpm", "1000 gpm")
                .field("input", &EfficiencyInput::input, "gross input, by the meter or the nameplate")
                .required()
                .within("0.5 kW", "5000 kBtu/h")
                .field("inlet_temperature", &EfficiencyInput::inlet_temperature, "water going into the heater")
                .otherwise("80 degF", "density times specific heat of water changes by only 1 % from 50 to 104 degF")
                .within("33 degF", "140 degF");
        return record;
    }
};

struct EfficiencyOutput
{
    units::Power useful_heat{};
    units::Fraction efficiency{};
    std::string in_words;
    static Record<EfficiencyOutput> const& declaration()
    {
        static Record<EfficiencyOutput> const record =
            Record<EfficiencyOutput>("heater_efficiency", "share of the fuel's heat that reaches the water")
                .field("useful_heat", &EfficiencyOutput::useful_heat, "heat into the water")
                .shown_in("kBtu/h", "kW")
                .field("efficiency", &EfficiencyOutput::efficiency, "useful heat over input")
                .field("in_words", &EfficiencyOutput::in_words, "what that means");
        return record;
    }
};

EfficiencyOutput efficiency_of(EfficiencyInput const& in, EfficiencyMarks const& marks)
{
    auto const useful = useful_heat(in.rise, in.flow, in.inlet_temperature);
    auto const share = heater_efficiency(useful, in.input);
    return {useful, share, efficiency_in_words(share, marks)};
}

figures::Model gas_input_model(GasBase const& base)
{
    return figures::model<GasInputInput, GasInputOutput>(
        {.name = "gas_input",
         .title = "what a gas heater burns, by its meter and a watch",
         .equation = "volume rate = dial / elapsed; input = volume rate · correction · heating value; "
                     "correction = (air + meter pressure) / 14.73 psi · 519.67 °R / gas temperature, or 1 where "
                     "compensated",
         .valid = "every other gas appliance idle, the burner steady on high fire; standing pilots stay lit (each "
                  "takes about 1 ft³/h, from memory); reading a meter needs no tool, and nobody without a licence "
                  "changes the burner or the gas pressure" +
                  std::string(rules_decide),
         .sources = {"heating-meter-clocking-pages", "heating-firing-rate-pages", "heating-gas-base-state"},
         .cautions = {"gas_smell", "burner_work"}},
        [base](GasInputInput const& in) { return clock(in, base); });
}

figures::Model altitude_derate_model(DerateRule const& rule)
{
    return figures::model<DerateInput, DerateOutput>(
        {.name = "altitude_derate",
         .title = "input a gas heater should have at altitude",
         .equation = "input = nameplate · (1 - 4 % · height / 1000 ft) above 2000 ft, height counted from the sea "
                     "or from 2000 ft",
         .valid = "sources differ on where counting begins, so both are given; furnace makers print 2 to 3.2 %; "
                  "gas thinned by the utility "
                  "may have done part of it" +
                  std::string(rules_decide),
         .sources = {"altitude-derate-trade-magazine"},
         .cautions = {"burner_work"}},
        [rule](DerateInput const& in) { return derated(in, rule); });
}

figures::Model heater_efficiency_model(EfficiencyMarks const& marks)
{
    return figures::model<EfficiencyInput, EfficiencyOutput>(
        {.name = "heater_efficiency",
         .title = "share of the fuel's heat that reaches the water",
         .equation = "useful heat = density · specific heat · flow · rise, both of water at the inlet's temperature; "
                     "efficiency = useful heat / input",
         .valid = "burners and electric elements, not heat pumps; steady firing, all of the flow through the "
                  "heater; the words' limits of 70 "
                  "and 82 % are from memory, that of 86 % is judgement" +
                  std::string(rules_decide),
         .sources = {"iapws-if97", "heating-10-cfr-430-32-k", "judgement", "common-practice"},
         .cautions = {"burner_work", "carbon_monoxide", "hot_water"}},
        [marks](EfficiencyInput const& in) { return efficiency_of(in, marks); });
}

} // namespace

std::vector<figures::Model> gas_models(GasFacts const& facts)
{
    return {gas_input_model(facts.base), altitude_derate_model(facts.derate),
            heater_efficiency_model(facts.efficiency)};
}

} // namespace padwalk::heating
