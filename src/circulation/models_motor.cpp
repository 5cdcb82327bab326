#include "models_parts.hpp"

#include "padwalk/circulation/motor.hpp"

namespace padwalk::circulation
{
namespace
{

using fields::Record;

struct CurrentInput
{
    units::Power shaft_power{};
    units::Voltage voltage{};
    units::Fraction power_factor{};
    units::Fraction efficiency{};

    static Record<CurrentInput> const& declaration()
    {
        static Record<CurrentInput> const record =
            Record<CurrentInput>("motor_current", "a single-phase motor at work")
                .field("shaft_power", &CurrentInput::shaft_power, "power at the shaft")
                .required()
                .within("10 W", "20 hp")
                .like("1.5 hp")
                .field("voltage", &CurrentInput::voltage, "voltage at the motor")
                .required()
                .within("90 V", "300 V")
                .field("power_factor", &CurrentInput::power_factor, "power factor")
                .required()
                .within("20 %", "100 %")
                .like("90 %")
                .field("efficiency", &CurrentInput::efficiency, "shaft power over electric power")
                .required()
                .within("10 %", "98 %")
                .like("75 %");
        return record;
    }
};

struct CurrentOutput
{
    units::Current current{};
    units::Power input_power{};

    static Record<CurrentOutput> const& declaration()
    {
        static Record<CurrentOutput> const record =
            Record<CurrentOutput>("motor_current", "what the motor takes")
                .field("current", &CurrentOutput::current, "current")
                .field("input_power", &CurrentOutput::input_power, "electric power")
                .shown_in("W", "W");
        return record;
    }
};

struct LoadInput
{
    units::Current current{};
    units::Current nameplate_current{};
    units::Number service_factor{};

    static Record<LoadInput> const& declaration()
    {
        static Record<LoadInput> const record =
            Record<LoadInput>("motor_load", "a measured current and the nameplate")
                .field("current", &LoadInput::current, "measured running current")
                .required()
                .within("0.1 A", "200 A")
                .field("nameplate_current", &LoadInput::nameplate_current,
                       "rated current on the nameplate for the voltage in use")
                .required()
                .within("0.5 A", "200 A")
                .field("service_factor", &LoadInput::service_factor, "service factor on the nameplate")
                .otherwise("1", "no service factor was read, so no load above the rating is taken as allowed")
                .within("1", "2");
        return record;
    }
};

struct LoadOutput
{
    units::Fraction load_share{};
    units::Fraction share_of_greatest{};
    std::string in_words;

    static Record<LoadOutput> const& declaration()
    {
        static Record<LoadOutput> const record =
            Record<LoadOutput>("motor_load", "how hard the motor works")
                .field("load_share", &LoadOutput::load_share, "measured over rated current")
                .field("share_of_greatest", &LoadOutput::share_of_greatest,
                       "measured over rated current times service factor")
                .field("in_words", &LoadOutput::in_words, "what it means");
        return record;
    }
};

} // namespace

void add_motor_models(std::vector<figures::Model>& models, Rules const& rules)
{
    models.push_back(figures::model<CurrentInput, CurrentOutput>(
        {.name = "motor_current",
         .title = "current and electric power of a single-phase motor at a shaft power",
         .equation = "input = shaft power / efficiency;  I = input / (V power factor)",
         .valid = "single phase, power factor and efficiency of this load. From memory: motors with a run capacitor "
                  "have a power factor of 0.8 to 0.98, "
                  "with a start capacitor only 0.6 to 0.7",
         .sources = {"common-practice"}},
        [](CurrentInput const& in)
        {
            MotorInput const out = motor_current(in.shaft_power, in.voltage, in.power_factor, in.efficiency);
            return CurrentOutput{out.current, out.power};
        }));
    units::Fraction const light{rules.light_motor_load.value.plain()};
    models.push_back(figures::model<LoadInput, LoadOutput>(
        {.name = "motor_load",
         .title = "a motor's measured current against its nameplate",
         .equation = "load share = measured / nameplate current;  share of greatest = load share / service factor",
         .valid = "nameplate voltage within 10 %. Under half load the current hardly falls with the load, so a small "
                  "share is only a hint. That the "
                  "current grows with the service factor in proportion is our approximation",
         .sources = {"circ-doe-motor-sheet", "judgement"},
         .cautions = {"electric_shock", "capacitor_charge"}},
        [light](LoadInput const& in)
        {
            MotorLoad const load = motor_load(in.current, in.nameplate_current, in.service_factor);
            return LoadOutput{load.of_rated, load.of_greatest, load_in_words(load, light)};
        }));
}

} // namespace padwalk::circulation
