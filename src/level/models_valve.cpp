#include "model_groups.hpp"

#include "padwalk/level/fill_valve.hpp"
#include "padwalk/level/orifice.hpp"
#include "padwalk/physics/water.hpp"
#include "padwalk/units/definitions.hpp"

#include <cmath>
#include <numbers>

namespace padwalk::level
{
namespace
{

using fields::Record;

struct RestInput
{
    units::GaugePressure supply_pressure{};
    units::Length bore{};
    units::Number coefficient{};
    std::optional<units::VolumeFlow> line_flow;
    units::Area area{};
    units::Velocity loss{};
    FillKind kind = FillKind::float_valve;
    std::optional<units::Length> travel;
    std::optional<units::Length> below;
    units::Length near{};

    static Record<RestInput> const& declaration();
};

Record<RestInput> const& RestInput::declaration()
{
    using R = RestInput;
    static Record<R> const record =
        Record<R>("fill_valve_rest", "a fill valve at work against a loss of water")
            .field("supply_pressure", &R::supply_pressure, "pressure at the valve while it runs")
            .required()
            .within("0 psi", "200 psi")
            .field("bore", &R::bore, "narrowest opening, usually the seat")
            .required()
            .within("0.01 in", "4 in")
            .field("coefficient", &R::coefficient, "discharge coefficient")
            .otherwise("0.62 ± 0.06", "a sharp-edged hole; rounded entries pass about half as much again")
            .within("0.1", "1")
            .field("line_flow", &R::line_flow, "what the line passes by itself at this pressure; left out: plenty")
            .within("0.01 gpm", "200 gpm")
            .field("area", &R::area, "surface of the water")
            .required()
            .within("5 ft2", "100000 ft2")
            .field("loss", &R::loss, "fall of the level in a day if nothing came in: evaporation and leak")
            .required()
            .within("0 in/day", "100 in/day")
            .field("kind", &R::kind, "a float that throttles, or a sensor that opens and shuts a valve")
            .otherwise("float_valve", "the common kind")
            .field(
                "travel", &R::travel,
                "fall below the set level at which it stands wide open; left out: 1 in of a float, 1/2 in of a sensor")
            .within("0.05 in", "12 in")
            .field("below", &R::below, "level below the set level now; left out: a day's loss")
            .within("0 in", "60 in")
            .field("near", &R::near, "made up when it is this close to where it rests")
            .otherwise("0.125 in", "closer can't be told from a mark")
            .within("0.001 in", "2 in");
    return record;
}

struct RestOutput
{
    units::VolumeFlow flow{};
    units::Length rests_below{};
    units::Volume day_volume{};
    units::Fraction run{};
    units::Number starts{};
    std::optional<units::Duration> time_to_make_up;
    units::Velocity falls{};
    std::string in_words;

    static Record<RestOutput> const& declaration();
};

Record<RestOutput> const& RestOutput::declaration()
{
    using R = RestOutput;
    static Record<R> const record =
        Record<R>("fill_valve_rest", "where the level rests, and how the valve runs")
            .field("flow", &R::flow, "flow, wide open")
            .shown_in("gpm", "L/min")
            .field("rests_below", &R::rests_below, "level at rest, below the set level; of a sensor the mean")
            .shown_in("in", "mm")
            .field("day_volume", &R::day_volume, "delivered in a day")
            .shown_in("gal", "L")
            .field("run", &R::run, "of what it would deliver wide open all day")
            .field("starts", &R::starts, "openings in a day; of a float valve 0: it throttles")
            .field("time_to_make_up", &R::time_to_make_up, "time until the level is back; none: it doesn't keep up")
            .shown_in("h", "h")
            .field("falls", &R::falls, "fall of the level that goes on although it runs")
            .shown_in("in/day", "mm/day")
            .field("in_words", &R::in_words, "what that says");
    return record;
}

RestOutput fill_valve_rest(RestInput const& in, FillValveTable const& table)
{
    // supply water is cool: density within 0.5 % of 1000 kg/m3, so a quarter of a percent in the flow
    auto const cool = units::of_si<units::Temperature>(units::exact::celsius_zero + 15.0);
    FillValve valve;
    valve.kind = in.kind;
    valve.flow = wide_open_flow(
        orifice_flow(in.bore, in.supply_pressure.from_zero(), in.coefficient, physics::density(cool)), in.line_flow);
    valve.travel =
        in.travel.value_or(in.kind == FillKind::float_valve ? table.float_travel.value : table.sensor_band.value);
    valve.overflow = table.overflow.value;
    valve.area = in.area;
    valve.loss = in.loss;
    auto const rest = fill_at_rest(valve, table);
    units::Length const a_day = in.loss * units::of_si<units::Duration>(units::exact::day);
    RestOutput out{valve.flow, rest.below, rest.day, rest.run, rest.starts, std::nullopt, rest.falls, {}};
    out.time_to_make_up = time_to_make_up(valve, in.below.value_or(a_day), in.near);
    out.in_words = rest.holds ? "it keeps up with the loss, and the level alone does not show that water is lost: only "
                                "a meter, or the valve shut for a day, does"
                              : "it does not keep up with the loss: the level falls although the valve runs all day";
    return out;
}

struct HammerInput
{
    units::VolumeFlow flow{};
    units::Length bore{};
    units::Length thickness{};
    units::Length length{};
    units::Duration closing{};
    PipeWall wall = PipeWall::copper;

    static Record<HammerInput> const& declaration();
};

Record<HammerInput> const& HammerInput::declaration()
{
    using H = HammerInput;
    static Record<H> const record = Record<H>("water_hammer", "water in a pipe that is stopped by a valve")
                                        .field("flow", &H::flow, "before it is stopped")
                                        .required()
                                        .within("0 gpm", "500 gpm")
                                        .field("bore", &H::bore, "inside diameter of the pipe")
                                        .required()
                                        .within("0.1 in", "12 in")
                                        .field("thickness", &H::thickness, "of the pipe's wall")
                                        .required()
                                        .within("0.01 in", "2 in")
                                        .field("wall", &H::wall, "what the pipe is made of")
                                        .required()
                                        .field("length", &H::length, "of the pipe, back to a main or a large tank")
                                        .required()
                                        .within("1 ft", "5000 ft")
                                        .field("closing", &H::closing, "time in which the valve closes")
                                        .otherwise("0 s", "at once: the most that can come of it")
                                        .within("0 s", "600 s");
    return record;
}

struct HammerOutput
{
    units::Velocity velocity{};
    units::Velocity wave{};
    units::Pressure sudden{};
    units::Duration there_and_back{};
    units::Pressure rise{};

    static Record<HammerOutput> const& declaration();
};

Record<HammerOutput> const& HammerOutput::declaration()
{
    using H = HammerOutput;
    static Record<H> const record = Record<H>("water_hammer", "the blow")
                                        .field("velocity", &H::velocity, "of the water before")
                                        .shown_in("ft/s", "m/s")
                                        .field("wave", &H::wave, "speed of the pressure wave")
                                        .shown_in("ft/s", "m/s")
                                        .field("sudden", &H::sudden, "rise where the flow stops at once")
                                        .shown_in("psi", "kPa")
                                        .field("there_and_back", &H::there_and_back, "faster closing is sudden")
                                        .shown_in("s", "s")
                                        .field("rise", &H::rise, "rise with this time of closing")
                                        .shown_in("psi", "kPa");
    return record;
}

HammerOutput hammer(HammerInput const& in, FillValveTable const& table)
{
    constexpr double megapascal = 1e6;
    auto const density =
        physics::density(units::of_si<units::Temperature>(units::exact::celsius_zero + 15.0)); // cool, as a supply is
    auto const water = units::of_si<units::Pressure>(table.water_stiffness.si() * megapascal);
    auto const velocity = in.flow / units::Area(std::numbers::pi / 4 * in.bore * in.bore);
    auto const blow =
        water_hammer(velocity, wave_speed(in.bore, in.thickness, table.wall_stiffness(in.wall), water, density),
                     in.length, in.closing, density);
    return {velocity, blow.wave, blow.sudden, blow.there_and_back, blow.rise};
}

} // namespace

figures::Model fill_valve_rest_model(reference::Data const& data)
{
    return figures::model<RestInput, RestOutput>(
        {.name = "fill_valve_rest",
         .title = "where a fill valve holds the level, and how long it takes to make up a loss",
         .equation = "Q = seat by orifice and line in a row: 1/Q^2 = 1/Qseat^2 + 1/Qline^2; q = Q/area. Float: rests "
                     "travel loss/q below its set level; time = (below - travel)/(q - loss) wide open, then (travel/q) "
                     "ln((h - rest)/near). Sensor: between its set level and travel below; time = below/(q - loss)",
         .valid = "steady loss, no waves, flow in proportion to the fall below the set level near closing. Travel of 1 "
                  "in (float) and 1/2 in (sensor) are judgement. Where loss exceeds q the level after a week is given",
         .sources = {"durant-leak-table", "common-practice", "judgement"},
         .cautions = {"cross_connection"},
         .own_doubt = 0.0},
        [table = fill_valve_table(data)](RestInput const& in) { return fill_valve_rest(in, table); });
}

figures::Model water_hammer_model(reference::Data const& data)
{
    return figures::model<HammerInput, HammerOutput>(
        {.name = "water_hammer",
         .title = "rise of pressure where flowing water is stopped",
         .equation =
             "sudden = density wave velocity; wave = sqrt(K/density)/sqrt(1 + (K/E) bore/thickness), K water, E "
             "wall; rise = sudden min(1, (2 length/wave)/closing)",
         .valid = "one pipe from a main that keeps its pressure, no air in it, closing even in time. Air, a hose or an "
                  "arrester takes up part of the blow: take it as an upper bound. Stiffness of walls from memory, of "
                  "plastics within 15 to 30 %",
         .sources = {"joukowsky-korteweg", "common-practice"},
         .cautions = {},
         .own_doubt = 0.0},
        [table = fill_valve_table(data)](HammerInput const& in) { return hammer(in, table); });
}

} // namespace padwalk::level
