#include "model_groups.hpp"

#include "padwalk/level/fill_balance.hpp"

#include <cmath>

namespace padwalk::level
{
namespace
{

using fields::Record;

struct LeakInput
{
    units::Length drop{};
    units::Duration elapsed{};
    std::optional<units::Velocity> evaporation;
    std::optional<units::Length> bucket_drop;
    std::optional<units::Area> area;
    std::optional<units::Volume> filled;
    std::optional<units::Length> rain;
    units::Length mark_reading{};
    units::Fraction evaporation_doubt{};
    units::Velocity leak_sought{};

    static Record<LeakInput> const& declaration();
};

Record<LeakInput> const& LeakInput::declaration()
{
    using L = LeakInput;
    static Record<L> const record =
        Record<L>("level_leak", "a level at two marks, and what else moved it")
            .field("drop", &L::drop, "fall of the level")
            .required()
            .within("-12 in", "60 in")
            .field("elapsed", &L::elapsed, "time between the marks")
            .required()
            .within("1 h", "60 day")
            .field("evaporation", &L::evaporation,
                   "fall of the level by evaporation, as the evaporation model gives it")
            .within("0 in/day", "10 in/day")
            .field("bucket_drop", &L::bucket_drop, "fall in a bucket of pool water beside it over the same time")
            .within("-12 in", "24 in")
            .field("area", &L::area, "surface of the water; without it there is no volume")
            .within("5 ft2", "100000 ft2")
            .field("filled", &L::filled, "water that came in, by a meter or by flow times run; left out: none")
            .within("0 gal", "2000000 gal")
            .field("rain", &L::rain, "depth of rain; left out: none")
            .within("0 in", "24 in")
            .field("mark_reading", &L::mark_reading, "95 % of one mark's readings lie within ± this")
            .otherwise("0.0625 in", "a pencil mark read to the nearest 1/16 inch in still water")
            .within("0.001 in", "2 in")
            .field("evaporation_doubt", &L::evaporation_doubt, "95 % of days lie within ± this share of `evaporation`")
            .otherwise("58 %", "one weather for the time: form 15 %, hour 15 %, day 20 %, doubled (judgement)")
            .within("1 %", "200 %")
            .field("leak_sought", &L::leak_sought, "leak that is to be told from none")
            .otherwise("0.125 in/day", "half of the quarter inch at which a city sends for a check")
            .within("0.001 in/day", "20 in/day");
    return record;
}

struct LeakOutput
{
    std::optional<units::VolumeFlow> leak_rate;
    units::Velocity leak_drop_rate{};
    units::Velocity low{}, high{};
    units::Fraction chance_of_none{};
    units::Velocity least_leak_shown{};
    std::optional<units::Duration> watch_for;
    std::string in_words;

    static Record<LeakOutput> const& declaration();
};

Record<LeakOutput> const& LeakOutput::declaration()
{
    using L = LeakOutput;
    static Record<L> const record =
        Record<L>("level_leak", "the leak that is left")
            .field("leak_rate", &L::leak_rate, "water lost otherwise; below zero: more came in or less evaporated")
            .shown_in("gal/day", "L/day")
            .field("leak_drop_rate", &L::leak_drop_rate, "the same as a fall of the level")
            .shown_in("in/day", "mm/day")
            .field("low", &L::low, "least leak among the likelier, none below zero, 95 %")
            .shown_in("in/day", "mm/day")
            .field("high", &L::high, "greatest leak among the likelier, 95 %")
            .shown_in("in/day", "mm/day")
            .field("chance_of_none", &L::chance_of_none, "chance that nothing leaks, from even odds beforehand")
            .field("least_leak_shown", &L::least_leak_shown, "least leak that these marks could have shown")
            .shown_in("in/day", "mm/day")
            .field("watch_for", &L::watch_for,
                   "time between marks that would show the leak sought; none: no time would, but a bucket may")
            .shown_in("h", "h")
            .field("in_words", &L::in_words, "what that says");
    return record;
}

units::Measured<units::Velocity> joined(units::Measured<units::Velocity> a, units::Measured<units::Velocity> const& b)
{
    double const wa = 1 / std::pow(units::in_si(a.doubt), 2), wb = 1 / std::pow(units::in_si(b.doubt), 2);
    a.value = (a.value * wa + b.value * wb) / (wa + wb);
    a.doubt = units::of_si<units::Velocity>(1 / std::sqrt(wa + wb));
    return a;
}

/// By weather, by the bucket, or by both, each counted by its doubt; else the usual.
units::Measured<units::Velocity> evaporation_of(LeakInput const& in, BalanceTable const& table)
{
    std::optional<units::Measured<units::Velocity>> out;
    if (in.evaporation)
        out = {*in.evaporation, *in.evaporation * (in.evaporation_doubt.value() / units::coverage), "given"};
    if (in.bucket_drop)
    {
        double const time = units::in_si(in.elapsed);
        double const fall = (units::in_si(*in.bucket_drop) + units::in_si(in.rain.value_or(units::Length()))) / time;
        double const marks = std::sqrt(2.0) * units::in_si(in.mark_reading) / units::coverage / time;
        units::Measured<units::Velocity> const bucket{
            units::of_si<units::Velocity>(fall),
            units::of_si<units::Velocity>(std::hypot(marks, table.bucket_spread.si() * fall)), "bucket"};
        out = out && out->doubt > units::Velocity() ? joined(*out, bucket) : bucket;
    }
    if (out)
        return *out;
    return {table.usual_evaporation.value, table.usual_evaporation.value * table.usual_spread.si(), "judgement"};
}

std::optional<units::Duration> watch_for(LeakInput const& in, units::Velocity evaporation_doubt)
{
    double const wanted =
        units::in_si(in.leak_sought) / units::in_si(least_leak_shown(units::of_si<units::Velocity>(1)));
    double const left = wanted * wanted - std::pow(units::in_si(evaporation_doubt), 2);
    if (left <= 0)
        return std::nullopt;
    double const marks = std::sqrt(in.bucket_drop ? 4.0 : 2.0) * units::in_si(in.mark_reading) / units::coverage;
    return units::of_si<units::Duration>(marks / std::sqrt(left));
}

std::string leak_in_words(LeakOutput const& out)
{
    constexpr double sure = 0.95;
    if (out.chance_of_none.value() <= 1 - sure)
        return "water leaves by more than evaporation, as surely as these marks and this evaporation are known";
    if (out.chance_of_none.value() >= sure)
        return "no leak, or one too small to look for";
    return "these marks can't decide: a leak smaller than the least they could have shown can hide in them";
}

LeakOutput level_leak(LeakInput const& in, BalanceTable const& table)
{
    FillWatch watch;
    watch.elapsed = in.elapsed;
    watch.area = in.area;
    if (in.filled)
        watch.delivered = {*in.filled, units::Volume(), "given"};
    double const mark = units::in_si(in.mark_reading) / units::coverage;
    watch.fall = {in.drop + in.rain.value_or(units::Length()), units::of_si<units::Length>(mark * std::sqrt(2.0)),
                  "marks"};
    watch.evaporation = evaporation_of(in, table);
    auto const says = fill_says(watch, table);
    LeakOutput out;
    out.leak_drop_rate = says.leak.value;
    if (in.area)
        out.leak_rate = says.leak.value * *in.area;
    out.low = says.rate.low;
    out.high = says.rate.high;
    out.chance_of_none = says.odds.none;
    out.least_leak_shown = says.least_shown;
    // A bucket's marks tell more the longer it stands; what remains is how far it is like the pool.
    units::Velocity const lasting =
        in.bucket_drop ? units::Velocity(watch.evaporation.value * table.bucket_spread.si()) : watch.evaporation.doubt;
    out.watch_for = watch_for(in, lasting);
    out.in_words = leak_in_words(out);
    return out;
}

} // namespace

figures::Model leak_model(reference::Data const& data)
{
    return figures::model<LeakInput, LeakOutput>(
        {.name = "level_leak",
         .title = "leak by a level at two marks",
         .equation =
             "leak = (drop + rain)/elapsed + filled/(area elapsed) - evaporation; its doubt s from the marks and "
             "the evaporation; low, high: shortest 95 % of the normal density above zero; chance_of_none from "
             "the likelihood of none against the mean over leaks of 0.02 to 5 in/day, uniform in the logarithm; "
             "least_leak_shown = 3.29 s; watch_for = sqrt(2) u/sqrt((leak_sought/3.29)^2 - (evaporation's "
             "doubt)^2), sqrt(4) u with a bucket",
         .valid =
             "no backwash, splashing or other inflow. Doubt of the marks and of the evaporation are inputs of their "
             "own; ± written on other inputs widens the outputs besides. evaporation and bucket_drop together count "
             "by their doubts, a bucket's being 10 % and its marks; with neither, 0.25 in/day ± 120 % is taken. "
             "Evaporation's doubt is taken not to shrink as time goes on",
         .sources = {"bucket-test-advice", "currie-1968", "roe-woodroofe-2000", "judgement"},
         .cautions = {},
         .own_doubt = 0.0},
        [table = balance_facts(data).table](LeakInput const& in) { return level_leak(in, table); });
}

} // namespace padwalk::level
