// The figure that tells a thermostat at work from a heater that cuts out.
#include "model_groups.hpp"

#include "padwalk/heating/cycle.hpp"

namespace padwalk::heating
{
namespace
{

using fields::Record;

struct CycleInput
{
    units::Volume volume{};
    units::TemperatureDifference band{};
    units::Power input{};
    units::Fraction efficiency{};
    units::Power loss{};
    units::Temperature water_temperature{};

    static Record<CycleInput> const& declaration()
    {
        using In = CycleInput;
        static Record<In> const record =
            Record<In>("heater_cycle", "a heater at its thermostat")
                .field("volume", &In::volume, "water in the pool or spa")
                .required()
                .within("10 gal", "2000000 gal")
                .field("band", &In::band, "fall at which the thermostat starts again")
                .otherwise("1 degF ± 1 degF", "controls of pool heaters hold within a degree or two (judgement)")
                .within("0.05 degF", "20 degF")
                .field("input", &In::input, "fuel or electricity the heater takes in")
                .required()
                .within("0.5 kW", "5000 kBtu/h")
                .field("efficiency", &In::efficiency, "heat into the water per energy used")
                .required()
                .within("5 %", "800 %")
                .field("loss", &In::loss, "heat that the water loses meanwhile; see spa_heat_loss")
                .otherwise("0 W", "nothing said: the run is then the shortest possible")
                .within("0 W", "5000 kBtu/h")
                .field("water_temperature", &In::water_temperature, "water")
                .otherwise("80 degF", "its weight and heat hardly change")
                .within("33 degF", "120 degF");
        return record;
    }
};

struct CycleOutput
{
    units::Duration runs{};
    std::optional<units::Duration> rests;

    static Record<CycleOutput> const& declaration()
    {
        using Out = CycleOutput;
        static Record<Out> const record = Record<Out>("heater_cycle", "run and rest")
                                              .field("runs", &Out::runs, "time it runs until the water is warm again")
                                              .shown_in("min", "min")
                                              .field("rests", &Out::rests, "time until the water has cooled so far")
                                              .shown_in("h", "h");
        return record;
    }
};

CycleOutput cycle_of(CycleInput const& in)
{
    auto const c = heater_cycle(in.volume, in.band, in.input * in.efficiency.value(), in.loss, in.water_temperature);
    return {c.runs, c.rests};
}

} // namespace

figures::Model heater_cycle_model()
{
    return figures::model<CycleInput, CycleOutput>(
        {.name = "heater_cycle",
         .title = "how long a heater runs and rests at its thermostat",
         .equation = "runs = volume · density · specific heat · band / (input · efficiency - loss); rests = the same "
                     "heat / loss",
         .valid = "well-mixed water; a sensor beside the heater sees warm water sooner than the pool does, and a big "
                  "heater on a small spa runs for a minute by right" +
                  std::string(rules_decide),
         .sources = {"iapws-if97", "judgement"},
         .cautions = {"hot_water"}},
        cycle_of);
}

} // namespace padwalk::heating
