// The figure of how long the water takes to warm, and what that costs.
#include "model_groups.hpp"
#include "surroundings_fields.hpp"

#include "padwalk/heating/heat.hpp"
#include "padwalk/heating/heat_up.hpp"
#include "padwalk/units/print.hpp"

namespace padwalk::heating
{
namespace
{

using fields::Record;

struct HeatUpInput : SurroundingsInput
{
    units::Volume volume{};
    units::Temperature from{};
    units::Temperature to{};
    units::Power input{};
    units::Fraction efficiency{};
    units::Power loss{};
    std::optional<units::Number> price;
    std::optional<SoldUnit> price_per;

    static Record<HeatUpInput> own_fields()
    {
        using In = HeatUpInput;
        return Record<In>("heat_up", "time and energy to warm the water")
            .field("volume", &In::volume, "water in the pool or spa")
            .required()
            .within("10 gal", "2000000 gal")
            .field("from", &In::from, "water now")
            .required()
            .within("32.1 degF", "120 degF")
            .field("to", &In::to, "water wanted")
            .required()
            .within("32.1 degF", "120 degF")
            .usual("60 degF", "104 degF")
            .field("input", &In::input, "fuel or electricity the heater takes in")
            .required()
            .within("0.5 kW", "5000 kBtu/h")
            .field("efficiency", &In::efficiency,
                   "heat into the water per energy used; a heat pump's COP of 5 is 500 %")
            .required()
            .within("5 %", "800 %")
            .usual("60 %", "100 %")
            .field("loss", &In::loss, "heat lost meanwhile that does not change, beside what surroundings take")
            .otherwise("0 W", "nothing said of cover, wind and air: the time is then the shortest possible")
            .within("0 W", "5000 kBtu/h")
            .field("price", &In::price, "price of the fuel or electricity, a plain number in any money")
            .within("0", "100000")
            .like("1.60")
            .field("price_per", &In::price_per, "what that price is for");
    }
    static Record<HeatUpInput> const& declaration()
    {
        static Record<HeatUpInput> const record = with_surroundings(own_fields(), false);
        return record;
    }
};

struct HeatUpOutput
{
    std::optional<units::Duration> time;
    std::optional<units::Energy> energy_used;
    std::optional<units::Energy> heat_needed;
    std::optional<units::Energy> heat_lost;
    std::optional<units::Number> cost;
    std::optional<units::Duration> quarter_time, half_time, three_quarter_time;
    std::optional<units::Temperature> stops_at;
    std::string in_words;

    static Record<HeatUpOutput> const& declaration()
    {
        using Out = HeatUpOutput;
        static Record<Out> const record =
            Record<Out>("heat_up", "time and energy to warm the water")
                .field("time", &Out::time, "time at full input")
                .shown_in("h", "h")
                .field("energy_used", &Out::energy_used, "fuel or electricity used, losses included")
                .shown_in("kWh", "kWh")
                .field("heat_needed", &Out::heat_needed, "heat stored in the water")
                .shown_in("kWh", "kWh")
                .field("heat_lost", &Out::heat_lost, "heat lost to the surroundings meanwhile")
                .shown_in("kWh", "kWh")
                .field("cost", &Out::cost, "price of the energy used, in the money of the price")
                .field("quarter_time", &Out::quarter_time, "time to a quarter of the rise")
                .shown_in("h", "h")
                .field("half_time", &Out::half_time, "time to half of the rise")
                .shown_in("h", "h")
                .field("three_quarter_time", &Out::three_quarter_time, "time to three quarters of the rise")
                .shown_in("h", "h")
                .field("stops_at", &Out::stops_at, "where the water stops, losing all it is given")
                .field("in_words", &Out::in_words, "what that says");
        return record;
    }
};

void with_losses(HeatUpInput const& in, LossFacts const& facts, HeatUpOutput& out)
{
    WaterBody const body = water_body(in, in.volume);
    Surroundings const around = surroundings(in);
    LossAt const loss = [&](units::Temperature water)
    { return in.loss + heat_loss(water, body, around, facts).total(); };
    WarmingRun const run = warming_run({in.volume, in.from, in.to, in.input, in.efficiency}, loss);
    out.heat_needed = run.heat_needed;
    out.stops_at = run.stops_at;
    if (run.stops_at)
        return;
    out.time = run.time, out.energy_used = run.energy_used, out.heat_lost = run.heat_lost;
    out.quarter_time = run.quarter_times[0], out.half_time = run.quarter_times[1];
    out.three_quarter_time = run.quarter_times[2];
}

HeatUpOutput heat_up_of(HeatUpInput const& in, LossFacts const& facts, FuelPrices const& prices)
{
    if (in.price.has_value() != in.price_per.has_value())
        throw figures::NotComputed("a cost needs both price and price_per");
    HeatUpOutput out;
    if (any_said(in))
        with_losses(in, facts, out);
    else
    {
        auto const found = heat_up(in.volume, in.from, in.to, in.input, in.efficiency, in.loss);
        out.time = found.time, out.energy_used = found.energy_used, out.heat_needed = found.heat_needed;
        out.heat_lost = in.loss * found.time;
        out.quarter_time = found.time * 0.25, out.half_time = found.time * 0.5;
        out.three_quarter_time = found.time * 0.75;
    }
    if (in.price && out.energy_used)
        out.cost = cost_of(*out.energy_used, *in.price, *in.price_per, prices);
    return out;
}

std::string shown(units::Temperature t)
{
    return units::show(units::Measure::temperature, units::in_si(t), 0.5, {});
}

// Of the heat given, the share lost at the end; above this a little wind decides whether it gets there. Judgement.
constexpr double barely_enough = 0.75;

bool barely(HeatUpInput const& in, LossFacts const& facts)
{
    units::Power const lost = in.loss + heat_loss(in.to, water_body(in, in.volume), surroundings(in), facts).total();
    return units::in_si(lost) > barely_enough * units::in_si(in.input) * in.efficiency.value();
}

void heat_up_in_words(HeatUpInput const& in, LossFacts const& facts, HeatUpOutput& out)
{
    if (!any_said(in))
        return;
    if (!out.stops_at && barely(in, facts))
        out.in_words = "barely enough: at the end most of the heat is lost, and a little more wind or colder air keeps "
                       "the water from getting there; a cover helps most";
    else if (!out.stops_at)
        out.in_words = "losses grow as the water warms, so the last degrees take longest";
    else if (*out.stops_at < in.from)
        out.in_words = "never gets there: with this heat the water cools, and stops at " + shown(*out.stops_at) +
                       "; a cover, shelter from wind or more heat is needed";
    else
        out.in_words = "never gets there: it stops at " + shown(*out.stops_at) +
                       ", where it loses all that it is given; a cover, shelter from wind or more heat is needed";
    if (!in.wind || !in.sky_share)
        out.in_words += ". What was not said of wind, sky, sun and cover is taken as spa_heat_loss takes it";
}

} // namespace

figures::Model heat_up_model(LossFacts const& facts, FuelPrices const& prices)
{
    return figures::model<HeatUpInput, HeatUpOutput>(
        {.name = "heat_up",
         .title = "time and energy to warm the water",
         .equation = "heat = volume · density · specific heat · (to - from), both at the mean temperature; "
                     "time = heat / (input · efficiency - loss). With area, air_temperature and humidity the losses of "
                     "spa_heat_loss change as the water warms: heat · dT/dt = (to - from)(input · efficiency - "
                     "loss(T)), integrated",
         .valid = "well-mixed water, full input all the time, weather that stays as it is; shells and ground take "
                  "some heat too. The losses' own doubt (15 %, one standard uncertainty) is carried only where "
                  "evaporation_scale is written with it: 1 ± 0.3" +
                  std::string(rules_decide),
         .sources = {"iapws-if97"},
         .cautions = {"hot_water"}},
        [facts, prices](HeatUpInput const& in) { return heat_up_of(in, facts, prices); },
        [facts](HeatUpInput const& in, HeatUpOutput& out) { heat_up_in_words(in, facts, out); });
}

} // namespace padwalk::heating
