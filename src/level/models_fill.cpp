#include "model_groups.hpp"

#include "padwalk/level/air_gap.hpp"
#include "padwalk/level/dilution.hpp"
#include "padwalk/level/orifice.hpp"
#include "padwalk/physics/water.hpp"
#include "padwalk/units/definitions.hpp"

namespace padwalk::level
{
namespace
{

using fields::Record;

constexpr char sharp_hole[] =
    "a sharp-edged hole; the leak tables of utilities are made with it. Rounded entries pass about half as much again";

struct OrificeInput
{
    units::Length bore{};
    units::Pressure pressure{};
    units::Number coefficient{};
    units::Temperature water_temperature{};

    static Record<OrificeInput> const& declaration()
    {
        static Record<OrificeInput> const record =
            Record<OrificeInput>("orifice_flow", "water through a round hole")
                .field("bore", &OrificeInput::bore, "diameter of the hole")
                .required()
                .within("0.001 in", "24 in")
                .field("pressure", &OrificeInput::pressure, "pressure before the hole above that behind it")
                .required()
                .within("0 psi", "300 psi")
                .field("coefficient", &OrificeInput::coefficient, "discharge coefficient")
                .otherwise("0.62 ± 0.06", sharp_hole)
                .within("0.1", "1")
                .field("water_temperature", &OrificeInput::water_temperature, "temperature of the water")
                .otherwise("68 degF", "it moves the flow by less than half a percent from cold to spa water")
                .within("32 degF", "212 degF");
        return record;
    }
};

struct OrificeOutput
{
    units::VolumeFlow flow{};

    static Record<OrificeOutput> const& declaration()
    {
        static Record<OrificeOutput> const record = Record<OrificeOutput>("orifice_flow", "what passes")
                                                        .field("flow", &OrificeOutput::flow, "flow through the hole")
                                                        .shown_in("gal/day", "L/day");
        return record;
    }
};

struct FillInput
{
    units::GaugePressure supply_pressure{};
    units::Length bore{};
    units::Number coefficient{};
    std::optional<units::Area> area;
    std::optional<units::Volume> lost;

    static Record<FillInput> const& declaration()
    {
        static Record<FillInput> const record =
            Record<FillInput>("fill_valve_flow", "water through a fill valve that stands wide open")
                .field("supply_pressure", &FillInput::supply_pressure, "pressure at the valve while it runs")
                .required()
                .within("0 psi", "200 psi")
                .field("bore", &FillInput::bore, "narrowest opening, usually the seat")
                .required()
                .within("0.01 in", "4 in")
                .field("coefficient", &FillInput::coefficient, "discharge coefficient")
                .otherwise("0.62 ± 0.06", sharp_hole)
                .within("0.1", "1")
                .field("area", &FillInput::area, "surface of the water")
                .within("5 ft2", "100000 ft2")
                .field("lost", &FillInput::lost, "water to make up")
                .within("0 gal", "2000000 gal");
        return record;
    }
};

struct FillOutput
{
    units::VolumeFlow flow{};
    std::optional<units::Velocity> level_rate;
    std::optional<units::Duration> time_to_fill;

    static Record<FillOutput> const& declaration()
    {
        static Record<FillOutput> const record =
            Record<FillOutput>("fill_valve_flow", "what it can deliver")
                .field("flow", &FillOutput::flow, "flow, wide open")
                .shown_in("gpm", "L/min")
                .field("level_rate", &FillOutput::level_rate, "fall of the level that it would hide")
                .shown_in("in/day", "mm/day")
                .field("time_to_fill", &FillOutput::time_to_fill, "time to make up what was lost")
                .shown_in("h", "h");
        return record;
    }
};

struct DilutionInput
{
    std::optional<units::Volume> volume;
    std::optional<units::Volume> replaced;
    std::optional<units::Fraction> share;
    units::AsItself old_concentration{};
    units::AsItself fill{};
    units::Number times{};
    Exchange how = Exchange::drained_first;

    static Record<DilutionInput> const& declaration()
    {
        static Record<DilutionInput> const record =
            Record<DilutionInput>("dilution", "changing part of the water")
                .field("volume", &DilutionInput::volume, "water in the pool or spa; not needed with share")
                .within("1 gal", "2000000 gal")
                .field("replaced", &DilutionInput::replaced, "water changed each time")
                .within("0 gal", "10000000 gal")
                .field("share", &DilutionInput::share, "or the share of it that is changed")
                .within("0 %", "1000 %")
                .field("old", &DilutionInput::old_concentration, "concentration before")
                .required()
                .within("0 ppm", "400000 ppm")
                .field("fill", &DilutionInput::fill, "concentration of the fill water")
                .required()
                .within("0 ppm", "400000 ppm")
                .field("times", &DilutionInput::times, "how many times")
                .otherwise("1", "once")
                .within("0", "1000")
                .field("how", &DilutionInput::how, "drained first, or filled while it flows out mixed")
                .otherwise("drained_first", "the usual way");
        return record;
    }
};

struct DilutionOutput
{
    units::AsItself new_concentration{};
    units::Fraction old_left{};

    static Record<DilutionOutput> const& declaration()
    {
        static Record<DilutionOutput> const record =
            Record<DilutionOutput>("dilution", "what is left")
                .field("new", &DilutionOutput::new_concentration, "concentration after")
                .field("old_left", &DilutionOutput::old_left, "share of the old water still there");
        return record;
    }
};

units::Fraction share_of(DilutionInput const& in)
{
    if (in.share && in.replaced)
        throw figures::NotComputed("give either replaced or share, not both");
    if (in.share)
        return *in.share;
    if (!in.replaced)
        throw figures::NotComputed("needs replaced (with volume) or share: how much water is changed each time");
    if (!in.volume)
        throw figures::NotComputed("needs volume: water in the pool or spa");
    return units::Fraction::from_value(units::in_si(*in.replaced) / units::in_si(*in.volume));
}

struct GapInput
{
    units::Length bore{};
    units::Length gap{};
    bool near_wall = false;

    static Record<GapInput> const& declaration()
    {
        static Record<GapInput> const record =
            Record<GapInput>("air_gap", "free air between a fill opening and the highest water")
                .field("bore", &GapInput::bore, "inside diameter of the opening")
                .required()
                .within("0.1 in", "12 in")
                .field("gap", &GapInput::gap, "from the highest water to the opening; below zero: under water")
                .required()
                .within("-60 in", "120 in")
                .field("near_wall", &GapInput::near_wall, "a wall closer than three openings")
                .otherwise("no", "spouts mostly stand free");
        return record;
    }
};

struct GapOutput
{
    units::Length required{};
    units::Length shortfall{};
    units::Length required_at_pool{};
    units::Length shortfall_at_pool{};
    std::string in_words;

    static Record<GapOutput> const& declaration()
    {
        static Record<GapOutput> const record =
            Record<GapOutput>("air_gap", "against two published rules, which differ")
                .field("required", &GapOutput::required, "gap by the general plumbing rule")
                .shown_in("in", "mm")
                .field("shortfall", &GapOutput::shortfall, "what is missing to it; below zero: to spare")
                .shown_in("in", "mm")
                .field("required_at_pool", &GapOutput::required_at_pool, "gap by the rule for pool spouts")
                .shown_in("in", "mm")
                .field("shortfall_at_pool", &GapOutput::shortfall_at_pool,
                       "what is missing to it; below zero: to spare")
                .shown_in("in", "mm")
                .field("in_words", &GapOutput::in_words, "what that says");
        return record;
    }
};

} // namespace

std::vector<figures::Model> flow_models()
{
    return {figures::model<OrificeInput, OrificeOutput>(
                {.name = "orifice_flow",
                 .title = "flow through a hole",
                 .equation = "Q = C (pi/4) bore^2 sqrt(2 pressure/density)",
                 .valid = "sharp-edged round hole that discharges freely. A hole in soil, a crack or a long passage "
                          "passes less: take it as an upper bound",
                 .sources = {"durant-leak-table", "common-practice"},
                 .cautions = {},
                 .own_doubt = 0.0},
                [](OrificeInput const& in) {
                    return OrificeOutput{
                        orifice_flow(in.bore, in.pressure, in.coefficient, physics::density(in.water_temperature))};
                }),
            figures::model<FillInput, FillOutput>(
                {.name = "fill_valve_flow",
                 .title = "what a fill valve can deliver, and so hide",
                 .equation = "Q = C (pi/4) bore^2 sqrt(2 supply pressure/density); level rate = Q/area; time = lost/Q",
                 .valid = "valve wide open, pressure measured while it runs, discharge above the water. A float valve "
                          "near its set level passes less",
                 .sources = {"durant-leak-table", "common-practice"},
                 .cautions = {"cross_connection"},
                 .own_doubt = 0.0},
                [](FillInput const& in)
                {
                    FillOutput out;
                    // supply water is cool: density within 0.5 % of 1000 kg/m3, so a quarter of a percent in the flow
                    auto const cool = units::of_si<units::Temperature>(units::exact::celsius_zero + 15.0);
                    out.flow =
                        orifice_flow(in.bore, in.supply_pressure.from_zero(), in.coefficient, physics::density(cool));
                    if (in.area)
                        out.level_rate = out.flow / *in.area;
                    if (in.lost && out.flow > units::VolumeFlow())
                        out.time_to_fill = *in.lost / out.flow;
                    return out;
                })};
}

figures::Model dilution_model()
{
    return figures::model<DilutionInput, DilutionOutput>(
        {.name = "dilution",
         .title = "concentration after changing water",
         .equation = "new = fill + left (old - fill); drained first: left = (1 - share)^times; flow through: left = "
                     "exp(-share times)",
         .valid = "nothing added or used up meanwhile; water well mixed. Never drain a shell without a licensed "
                  "trade's word: groundwater can lift or crack it",
         .sources = {"judgement"},
         .cautions = {"draining_shell"},
         .own_doubt = 0.0},
        [](DilutionInput const& in)
        {
            auto const left = old_water_left(share_of(in), in.times, in.how);
            return DilutionOutput{diluted(in.old_concentration, in.fill, left), left};
        });
}

figures::Model air_gap_model(reference::Data const& data)
{
    return figures::model<GapInput, GapOutput>(
        {.name = "air_gap",
         .title = "air gap of a fill opening",
         .equation = "required = the larger of 2 bore (3 bore near a wall) and 1 in; at a pool spout, where asked for, "
                     "the larger of that and 6 in",
         .valid = "open discharge above the highest water. Published rules differ and the local code decides; an "
                  "approved backflow preventer may stand in for a gap",
         .sources = {"fill-air-gap-codes", "pool-spout-gap-codes", "alexandria-11-11-41"},
         .cautions = {"cross_connection"},
         .own_doubt = 0.0},
        [rules = air_gap_rules(data)](GapInput const& in)
        {
            auto const r = air_gap(in.bore, in.gap, in.near_wall, rules);
            return GapOutput{r.required, r.shortfall, r.required_at_pool, r.shortfall_at_pool,
                             air_gap_in_words(in.gap, r)};
        });
}

} // namespace padwalk::level
