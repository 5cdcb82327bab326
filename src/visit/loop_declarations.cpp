#include "declarations.hpp"

namespace padwalk::visit
{

Record<Motor> const& Motor::declaration()
{
    static Record<Motor> const record =
        Record<Motor>("motor", "nameplate of the motor and what it draws")
            .field("nameplate_voltage", &Motor::nameplate_voltage, "voltage on the nameplate as wired")
            .within("12 V", "600 V")
            .usual("110 V", "480 V")
            .like("230 V")
            .field("nameplate_current", &Motor::nameplate_current, "current on the nameplate at that voltage")
            .within("0.1 A", "100 A")
            .usual("1 A", "30 A")
            .read_by("nameplate")
            .like("8.0 A")
            .field("service_factor_current", &Motor::service_factor_current, "current at service factor, if printed")
            .within("0.1 A", "120 A")
            .read_by("nameplate")
            .like("9.6 A")
            .field("service_factor", &Motor::service_factor, "service factor")
            .within("1", "2")
            .like("1.25")
            .field("voltage", &Motor::voltage, "voltage measured while running (licensed)")
            .within("0 V", "700 V")
            .usual("100 V", "500 V")
            .read_by("volt_meter")
            .like("228 V")
            .field("power", &Motor::power,
                   "electric power it takes while running: a drive's display, or measured (licensed)")
            .within("0 W", "30 kW")
            .usual("50 W", "4 kW")
            .read_by("power_meter")
            .like("1.4 kW")
            .field("current", &Motor::current, "current measured while running (licensed)")
            .within("0 A", "150 A")
            .usual("0.5 A", "30 A")
            .read_by("clamp_meter")
            .like("7.6 A");
    return record;
}

Record<Pump> const& Pump::declaration()
{
    static Record<Pump> const record = with_item_fields(
        Record<Pump>("pump", "pump and its motor")
            .field("curve", &Pump::curve, "three or more points of the pump's curve, flow:head, at curve_speed")
            .field("rated_power", &Pump::rated_power, "power on the nameplate")
            .within("0.05 hp", "25 hp")
            .usual("0.1 hp", "5 hp")
            .read_by("nameplate")
            .like("1.5 hp")
            .field("speed", &Pump::speed, "speed while the readings were taken")
            .within("100 rpm", "4000 rpm")
            .usual("600 rpm", "3600 rpm")
            .read_by("speed_display")
            .like("3450 rpm")
            .field("curve_speed", &Pump::curve_speed, "speed that the curve is for")
            .within("100 rpm", "4000 rpm")
            .like("3450 rpm")
            .field("variable_speed", &Pump::variable_speed, "has a variable-speed drive")
            .field("runs", &Pump::runs, "whether it runs")
            .field("daily_run", &Pump::daily_run, "how long it runs in a day")
            .within("0 h", "24 h")
            .like("8 h")
            .field("discharge_gauge", &Pump::discharge_gauge, "gauge at the pump's outlet, if there is one")
            .within("-5 psi", "150 psi")
            .usual("0 psi", "45 psi")
            .read_by("pressure_gauge")
            .like("20 psi")
            .field("needs_suction_head", &Pump::needs_suction_head, "net positive suction head the maker requires")
            .within("0 ft", "60 ft")
            .like("8 ft")
            .field("motor", &Pump::motor, "nameplate and measured current"));
    return record;
}

Record<Filter> const& Filter::declaration()
{
    static Record<Filter> const record = with_item_fields(
        Record<Filter>("filter", "the filter")
            .field("media", &Filter::media, "what it filters with")
            .field("area", &Filter::area, "filter area on its label")
            .within("0.5 ft2", "2000 ft2")
            .usual("1 ft2", "700 ft2")
            .read_by("nameplate")
            .like("150 ft2")
            .field("gauge", &Filter::gauge, "filter gauge, pump running")
            .within("-15 psi", "150 psi")
            .usual("2 psi", "40 psi")
            .read_by("pressure_gauge")
            .like("18 psi")
            .field("clean_gauge", &Filter::clean_gauge, "filter gauge when last clean, at the same speed")
            .within("0 psi", "150 psi")
            .usual("2 psi", "35 psi")
            .read_by("pressure_gauge")
            .like("12 psi")
            .field("outlet_gauge", &Filter::outlet_gauge, "gauge behind the filter, if there is one")
            .within("-15 psi", "150 psi")
            .usual("0 psi", "35 psi")
            .read_by("pressure_gauge")
            .like("14 psi")
            .field("clean_speed", &Filter::clean_speed, "speed of the pump when clean_gauge was read, if variable")
            .within("100 rpm", "4000 rpm")
            .usual("600 rpm", "3600 rpm")
            .read_by("speed_display")
            .like("3450 rpm")
            .field("gauge_height", &Filter::gauge_height, "height of that gauge above the pump")
            .within("-10 ft", "20 ft")
            .usual("-2 ft", "6 ft")
            .read_by("tape")
            .like("3 ft"));
    return record;
}

Record<Pipe> const& Pipe::declaration()
{
    static Record<Pipe> const record =
        Record<Pipe>("pipe", "a run of pipe")
            .field("bore", &Pipe::bore, "inside diameter; 2 in schedule 40 has 2.058 in")
            .within("0.25 in", "12 in")
            .usual("1 in", "6 in")
            .like("2.058 in")
            .field("length", &Pipe::length, "length of the run")
            .within("0 ft", "1000 ft")
            .usual("1 ft", "300 ft")
            .like("40 ft")
            .field("minor_loss", &Pipe::minor_loss, "sum of the fittings' loss coefficients")
            .within("0", "500")
            .like("6.5")
            .field("fittings", &Pipe::fittings, "how many of each fitting")
            .within("0", "200")
            .like("{elbow_90: 4}");
    return record;
}

Record<Drain> const& Drain::declaration()
{
    static Record<Drain> const record = with_item_fields(
        Record<Drain>("drain", "a suction outlet and its cover")
            .field("rating", &Drain::rating, "flow stamped on the cover")
            .within("1 gpm", "2000 gpm")
            .usual("20 gpm", "600 gpm")
            .like("110 gpm")
            .field("expires", &Drain::expires,
                   "last day stamped on the cover; where only a month or a year is, write the last day of it")
            .like("2029-06-30")
            .field("listed", &Drain::listed, "its cover carries the marks of a listed one")
            .field("unblockable", &Drain::unblockable, "too large or too long for a body to cover")
            .field("release_device", &Drain::release_device, "a device breaks the suction where a body blocks it"));
    return record;
}

Record<ReturnInlets> const& ReturnInlets::declaration()
{
    static Record<ReturnInlets> const record =
        Record<ReturnInlets>("return_inlets", "the openings through which the water comes back")
            .field("count", &ReturnInlets::count, "how many are open")
            .within("1", "100")
            .like("3")
            .field("opening", &ReturnInlets::opening, "diameter of each")
            .within("0.1 in", "8 in")
            .usual("0.25 in", "2 in")
            .like("0.75 in");
    return record;
}

Record<Valve> const& Valve::declaration()
{
    static Record<Valve> const record = Record<Valve>("valve", "a valve of the loop")
                                            .field("position", &Valve::position, "how it stood")
                                            .field("where", &Valve::where, "where it is")
                                            .short_form("position");
    return record;
}

Record<Loop> const& Loop::declaration()
{
    static Record<Loop> const record = with_item_fields(
        Record<Loop>("loop", "one circulation: suction, pump, filter, heater, returns")
            .field("serves", &Loop::serves, "names of the waters it serves")
            .like("[spa]")
            .field("pump", &Loop::pump, "the pump")
            .field("filter", &Loop::filter, "the filter")
            .field("suction", &Loop::suction, "pipe from the water to the pump")
            .field("return", &Loop::discharge, "pipe from the pump back to the water")
            .field("drains", &Loop::drains, "suction outlets, each under a name of your own")
            .field("valves", &Loop::valves, "valves, each under a name of your own")
            .field("suction_gauge", &Loop::suction_gauge,
                   "gauge at the pump's inlet; write vacuum with a minus: -6 inHg")
            .within("-30 inHg", "60 psi")
            .usual("-15 inHg", "5 psi")
            .read_by("vacuum_gauge")
            .like("-6 inHg")
            .field("suction_gauge_height", &Loop::suction_gauge_height, "height of that gauge above the pump")
            .within("-20 ft", "20 ft")
            .read_by("tape")
            .like("0 ft")
            .field("flow", &Loop::flow, "flow meter")
            .within("0 gpm", "2000 gpm")
            .usual("5 gpm", "200 gpm")
            .read_by("flow_meter")
            .like("45 gpm")
            .field("equipment", &Loop::equipment, "whether the pump stands above or below the water")
            .field("pump_height", &Loop::pump_height, "height of the pump above the water; below it with a minus")
            .within("-30 ft", "30 ft")
            .usual("-12 ft", "8 ft")
            .read_by("tape")
            .like("1 ft")
            .field("skimmers", &Loop::skimmers, "how many skimmers it draws from")
            .within("0", "20")
            .like("1")
            .field("suction_outlets", &Loop::suction_outlets,
                   "how many suction outlets under water it draws from, skimmers not counted")
            .within("0", "20")
            .like("2")
            .field("return_inlets", &Loop::return_inlets, "openings through which the water comes back")
            .field("roof_height", &Loop::roof_height,
                   "height of a collector on the roof above the water, if it runs there")
            .within("0 ft", "80 ft")
            .like("14 ft"));
    return record;
}

} // namespace padwalk::visit
