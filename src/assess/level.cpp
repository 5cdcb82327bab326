// What the level of a pool or spa says: bucket test, marks over time, pump on against off.
#include "water_bench.hpp"

#include "padwalk/units/definitions.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::assess
{
namespace
{

using Rate = units::Measured<units::Velocity>;

constexpr double long_history = 12;    ///< hours; longer, the weather of one hour is stretched; judgement
constexpr double weather_share = 0.25; ///< standard uncertainty of days' evaporation by one hour's weather; judgement

void not_tested(WaterBench& b, std::string what, std::string because)
{
    b.w.out.not_tested.push_back({b.item, std::move(what), std::move(because)});
}

// 'needs elapsed: …' as a reason that can stand alone.
std::string reason(figures::Figure const& figure)
{
    return figure.why_not.starts_with("needs ") ? "it " + figure.why_not : figure.why_not;
}

// ---- evaporation

Rate stretched(WaterBench& b, Rate rate)
{
    double const more = weather_share * std::abs(units::in_si(rate.value));
    rate.doubt = units::of_si<units::Velocity>(std::hypot(units::in_si(rate.doubt), more));
    b.w.out.assumptions.push_back({"the weather of the visit for the whole level history of " + b.w.name(b.item),
                                   "no other weather was given; a quarter of the evaporation is added to its standard "
                                   "uncertainty (judgement)"});
    return rate;
}

// A cover keeps back anything from hardly a part to nearly all: half ± half.
Rate under_cover(WaterBench& b, Rate const& full)
{
    double const half = units::in_si(full.value) / 2, doubt = units::in_si(full.doubt) / 2;
    b.w.out.assumptions.push_back({"half ± half of the open evaporation for " + b.w.name(b.item),
                                   "it is kept covered when not in use, and how tight and how long was not measured "
                                   "(judgement)"});
    b.w.meaning("open water; kept covered, so half of it ± half is taken");
    return {units::of_si<units::Velocity>(half),
            units::of_si<units::Velocity>(std::hypot(half / units::coverage, doubt)), "judgement"};
}

visit::Taken<units::Velocity> evaporation(WaterBench& b, double hours)
{
    figures::Inputs in;
    in.add("water_temperature", b.temperature)
        .add("air_temperature", b.w.visit.air_temperature)
        .add("humidity", b.w.visit.humidity);
    in.add("wind", b.w.visit.wind).add("area", b.area);
    auto const figure = b.w.figure(b.item, "evaporation", in, "evaporation of " + b.w.name(b.item));
    auto rate = figure.get<units::Velocity>("level_rate");
    if (rate && hours > long_history)
        rate = stretched(b, *rate);
    if (rate && b.v.covered.value_or(false))
        rate = under_cover(b, *rate);
    return rate;
}

// ---- bucket test

void bucket(WaterBench& b)
{
    if (!b.v.bucket_test)
        return;
    auto const& t = *b.v.bucket_test;
    if (t.fill == visit::Switch::on)
    {
        not_tested(b, "loss by the bucket test", "the fill valve was open meanwhile, so the level says nothing");
        return;
    }
    figures::Inputs in;
    in.add("pool_drop", t.pool_drop).add("bucket_drop", t.bucket_drop).add("elapsed", t.elapsed).add("area", b.area);
    auto const figure = b.w.figure(b.item, "bucket_test", in, "bucket test of " + b.w.name(b.item));
    if (!figure.get<units::Velocity>("leak_drop_rate"))
    {
        not_tested(b, "loss by the bucket test", reason(figure));
        return;
    }
    if (!t.fill)
        b.w.out.assumptions.push_back({"fill valve taken as shut during the bucket test of " + b.w.name(b.item),
                                       "it was not said; open, it would hide a loss"});
}

// ---- marks over time

struct Mark
{
    double hours, hours_doubt;
    double drop, drop_doubt;
};

/// Marks between which nothing changed: from one place in the history to a later one.
struct Run
{
    std::size_t from, to;
};

Mark mark_of(visit::LevelMark const& written)
{
    auto const time = time_of(written);
    return {time.hours, time.doubt, units::in_si(written.drop->value), units::in_si(written.drop->doubt)};
}

// The stretches of the history in which each mark says `keep` of the time since the one before.
template <class Keep> std::vector<Run> runs(std::vector<visit::LevelMark> const& marks, Keep keep)
{
    std::vector<Run> out;
    for (std::size_t i = 1; i < marks.size(); ++i)
    {
        if (!keep(marks[i]))
            continue;
        if (!out.empty() && out.back().to == i - 1)
            out.back().to = i;
        else
            out.push_back({i - 1, i});
    }
    return out;
}

/// Fall over some runs. Only the end marks of a run count: what lies between cancels.
struct Fall
{
    double drop = 0, hours = 0;
    double drop_variance = 0, hours_variance = 0;
};

Fall fall_over(std::vector<Mark> const& marks, std::vector<Run> const& over)
{
    Fall f;
    for (auto const& run : over)
        for (auto const& [sign, m] : {std::pair{-1.0, marks[run.from]}, std::pair{1.0, marks[run.to]}})
        {
            f.drop += sign * m.drop;
            f.hours += sign * m.hours;
            f.drop_variance += m.drop_doubt * m.drop_doubt;
            f.hours_variance += m.hours_doubt * m.hours_doubt;
        }
    return f;
}

visit::Taken<units::Velocity> loss_rate(WaterBench& b, Fall const& f, visit::Taken<units::Velocity> const& evaporated)
{
    using units::exact::hour;
    figures::Inputs in;
    in.add("drop",
           units::Reading{units::Measure::length, f.drop, std::sqrt(f.drop_variance), "mark on the wall", false});
    in.add("elapsed", units::Reading{units::Measure::duration, f.hours * hour, std::sqrt(f.hours_variance) * hour,
                                     "clock", false});
    in.add("area", b.area).add("evaporation", evaporated);
    auto const figure = b.w.figure(b.item, "level_loss", in, "loss of " + b.w.name(b.item) + " by its level");
    auto const fell = figure.get<units::Velocity>("drop_rate");
    if (!fell)
        not_tested(b, "loss by the level", reason(figure));
    return fell;
}

bool shut(visit::LevelMark const& mark)
{
    return mark.fill != visit::Switch::on; // what is added hides what is lost
}

void level_history(WaterBench& b, std::vector<Mark> const& marks)
{
    auto const& written = b.v.level_history;
    if (written.empty())
        return;
    auto const over = runs(written, shut);
    Fall const f = fall_over(marks, over);
    if (f.hours < 1)
    {
        not_tested(b, "loss by the level",
                   written.size() < 2 ? "there is one mark only; a second one, a day later, would tell"
                   : over.empty()     ? "the fill valve was open all the while"
                                      : "the marks are less than an hour apart, as far as their times say");
        return;
    }
    if (std::any_of(written.begin() + 1, written.end(), [](auto const& mark) { return !mark.fill; }))
        b.w.out.assumptions.push_back({"fill valve taken as shut between the level marks of " + b.w.name(b.item),
                                       "it was not said; open, it would hide a loss"});
    auto const evaporated = evaporation(b, f.hours);
    auto const fell = loss_rate(b, f, evaporated);
    if (fell && units::in_si(fell->value) + units::coverage * units::in_si(fell->doubt) < 0)
        not_tested(b, "loss by the level", "the level rose, so water came in meanwhile");
}

} // namespace

MarkTime time_of(visit::LevelMark const& mark)
{
    constexpr double day_doubt = 12;         // hours, 95 %
    constexpr double clock_doubt = 5.0 / 60; // hours, standard uncertainty; as the instrument 'clock'
    bool const day_only = mark.at->text.size() == 10;
    return {mark.at->hours + (day_only ? day_doubt : 0), day_only ? day_doubt / units::coverage : clock_doubt};
}

void assess_level(WaterBench& b)
{
    std::vector<Mark> marks;
    for (auto const& written : b.v.level_history)
        marks.push_back(mark_of(written));
    bucket(b);
    level_history(b, marks);
    weigh_level(b);
}

} // namespace padwalk::assess
