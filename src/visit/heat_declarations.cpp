#include "declarations.hpp"

namespace padwalk::visit
{
namespace
{

Record<Heater>&& with_electricity(Record<Heater>&& record)
{
    return std::move(record)
        .field("nameplate_voltage", &Heater::nameplate_voltage, "voltage on the nameplate at which its input holds")
        .within("12 V", "600 V")
        .usual("110 V", "480 V")
        .like("240 V")
        .field("supply_voltage", &Heater::supply_voltage,
               "voltage measured while it heats, by an electrician or technician; an unlicensed hand opens no panel")
        .within("0 V", "700 V")
        .usual("100 V", "500 V")
        .read_by("volt_meter")
        .like("238 V")
        .field("current", &Heater::current,
               "current of one wire while it heats, by the clamp of an electrician or technician; an unlicensed hand "
               "opens no panel")
        .within("0 A", "1000 A")
        .usual("0 A", "200 A")
        .read_by("clamp_meter")
        .like("45 A")
        .field("three_phase", &Heater::three_phase, "whether its plate says three phases");
}

Record<Heater>&& with_air(Record<Heater>&& record)
{
    return std::move(record)
        .field("air_in_temperature", &Heater::air_in_temperature,
               "heat pump: air at its coil, in the shade; else the air of the day is taken")
        .within("-40 degF", "140 degF")
        .usual("20 degF", "115 degF")
        .read_by("thermometer")
        .like("78 degF")
        .field("air_out_temperature", &Heater::air_out_temperature,
               "heat pump: air leaving its fan while it heats, fingers kept out of the guard")
        .within("-40 degF", "140 degF")
        .usual("10 degF", "115 degF")
        .read_by("thermometer")
        .like("66 degF")
        .field("least_air_temperature", &Heater::least_air_temperature,
               "heat pump: air at which it stops by itself, from the plate or manual")
        .within("-30 degF", "70 degF")
        .usual("0 degF", "60 degF")
        .like("50 degF");
}

} // namespace

Record<Meter> const& Meter::declaration()
{
    static Record<Meter> const record =
        Record<Meter>("meter", "the gas meter clocked with the heater alone on")
            .field("dial", &Meter::dial, "gas of the turns that were timed")
            .within("0.1 ft3", "1000 ft3")
            .usual("0.25 ft3", "100 ft3")
            .read_by("gas_meter_dial")
            .shown_in("ft3", "m3")
            .like("2 ft3")
            .field("elapsed", &Meter::elapsed, "time for it")
            .within("2 s", "2 h")
            .usual("10 s", "20 min")
            .read_by("stop_watch")
            .like("20 s")
            .field("heating_value", &Meter::heating_value, "heating value, from the utility")
            .within("300 Btu/ft3", "3500 Btu/ft3")
            .usual("800 Btu/ft3", "2600 Btu/ft3")
            .read_by("utility")
            .like("1030 Btu/ft3")
            .field("pressure", &Meter::pressure, "gas pressure at the meter")
            .within("-5 in water", "30 psi")
            .read_by("manometer")
            .like("7 in water")
            .field("compensated", &Meter::compensated,
                   "the meter, or the utility's heating value, already allows for pressure and altitude");
    return record;
}

Record<Flue> const& Flue::declaration()
{
    static Record<Flue> const record =
        Record<Flue>("flue", "combustion analysis, burner steady")
            .field("oxygen", &Flue::oxygen, "oxygen in the dry flue gas")
            .within("0 %", "20.9 %")
            .usual("2 %", "14 %")
            .read_by("gas_analyser")
            .like("6 %")
            .field("carbon_dioxide", &Flue::carbon_dioxide,
                   "carbon dioxide in the dry flue gas; counts where oxygen is not given")
            .within("0 %", "20 %")
            .usual("4 %", "12 %")
            .read_by("gas_analyser")
            .like("8 %")
            .field("carbon_monoxide", &Flue::carbon_monoxide, "carbon monoxide in the flue, as read")
            .within("0 ppm", "50000 ppm")
            .usual("0 ppm", "2000 ppm")
            .read_by("co_meter")
            .like("60 ppm")
            .field("temperature", &Flue::temperature, "temperature of the flue gas")
            .within("32 degF", "2000 degF")
            .usual("90 degF", "700 degF")
            .read_by("flue_thermometer")
            .like("380 degF");
    return record;
}

Record<Heater> const& Heater::declaration()
{
    static Record<Heater> const record = with_item_fields(with_air(with_electricity(
        Record<Heater>("heater", "a heater, its vent and where it stands")
            .field("loop", &Heater::loop, "name of the loop it heats")
            .like("spa loop")
            .field("energy", &Heater::energy, "what it heats with")
            .field("stands", &Heater::stands, "where it stands")
            .field("input", &Heater::input, "input on the nameplate")
            .within("0.5 kW", "3000 kBtu/h")
            .usual("1 kW", "500 kBtu/h")
            .read_by("nameplate")
            .like("400 kBtu/h")
            .field("output", &Heater::output, "output on the nameplate, if given")
            .within("0.5 kW", "3000 kBtu/h")
            .read_by("nameplate")
            .like("328 kBtu/h")
            .field("efficiency", &Heater::efficiency, "efficiency on the nameplate")
            .within("10 %", "100 %")
            .usual("60 %", "99 %")
            .like("82 %")
            .field("cop", &Heater::cop, "heat pump: heat out over electricity in, from the plate")
            .within("1", "8")
            .usual("3", "7")
            .read_by("nameplate")
            .like("5.5")
            .field("fires", &Heater::fires, "whether it lit or started at its normal control")
            .field("inlet_temperature", &Heater::inlet_temperature, "water into the heater")
            .within("32 degF", "200 degF")
            .usual("40 degF", "110 degF")
            .read_by("thermometer_pair")
            .like("98 degF")
            .field("outlet_temperature", &Heater::outlet_temperature, "water out of the heater")
            .within("32 degF", "212 degF")
            .usual("40 degF", "140 degF")
            .read_by("thermometer_pair")
            .like("109 degF")
            .field("set_temperature", &Heater::set_temperature, "water temperature that it is set to")
            .within("32 degF", "140 degF")
            .usual("70 degF", "104 degF")
            .like("84 degF")
            .field("runs_for", &Heater::runs_for, "time that it burned until it stopped by itself")
            .within("1 s", "24 h")
            .read_by("stop_watch")
            .like("90 s")
            .field("least_flow", &Heater::least_flow, "least flow that its plate or manual allows")
            .within("1 gpm", "500 gpm")
            .read_by("nameplate")
            .like("25 gpm")
            .field("most_flow", &Heater::most_flow, "greatest flow that its plate or manual allows")
            .within("1 gpm", "1000 gpm")
            .read_by("nameplate")
            .like("125 gpm")
            .field("drip", &Heater::drip, "water dripping under it while it burns, caught from outside in a cup")
            .within("0 gal/day", "5000 gal/day")
            .like("6 gal/day ± 2 gal/day")
            .field("bypass", &Heater::bypass, "how a valve stood that leads water past the heater")
            .field("meter", &Heater::meter, "gas meter clocked")
            .field("flue", &Heater::flue, "combustion analysis")
            .field("carbon_monoxide_in_air", &Heater::carbon_monoxide_in_air,
                   "carbon monoxide in the air where people stand")
            .within("0 ppm", "12800 ppm")
            .usual("0 ppm", "9 ppm")
            .read_by("co_meter")
            .like("0 ppm")
            .field("carbon_monoxide_at", &Heater::carbon_monoxide_at,
                   "the same at several places, each by its name; read from where you stand safely, "
                   "never by going in")
            .within("0 ppm", "12800 ppm")
            .read_by("co_meter")
            .like("{pad: 0 ppm, beside the window: 4 ppm}")
            .field("vent", &Heater::vent, "flue run and its end")
            .field("room", &Heater::room, "room, shed or pit"))));
    return record;
}

Record<Electrical> const& Electrical::declaration()
{
    static Record<Electrical> const record =
        with_item_fields(Record<Electrical>("electrical", "electrical protection seen"));
    return record;
}

} // namespace padwalk::visit
