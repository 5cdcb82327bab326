// What the readings of a pool or spa say: size, level, tests, cracks.
#include "workbench.hpp"

#include "padwalk/chemistry/limits.hpp"
#include "padwalk/chemistry/saturation_handbook.hpp"
#include "padwalk/units/definitions.hpp"

#include <cmath>

namespace padwalk::assess
{
namespace
{

using units::Measured;

struct Bench
{
    Workbench& w;
    std::size_t item;
    visit::Water const& v;
    visit::WaterTest const* test; ///< the newest, or none
    visit::Taken<units::Temperature> temperature;
    visit::Taken<units::Area> area;
    std::vector<chemistry::WorkingBand> const& bands;
};

void size(Bench& b)
{
    figures::Inputs in;
    if (b.v.shape)
        in.add_words("shape", fields::words_of<visit::Shape>::words()[static_cast<std::size_t>(*b.v.shape)]);
    in.add("length", b.v.length)
        .add("width", b.v.width)
        .add("second_width", b.v.second_width)
        .add("diameter", b.v.diameter)
        .add("depth", b.v.depth);
    in.add("shallow_depth", b.v.shallow_depth)
        .add("deep_depth", b.v.deep_depth)
        .add("bench_depth", b.v.bench_depth)
        .add("bench_width", b.v.bench_width);
    in.add("area", b.v.area);
    b.area = b.v.area;
    if (!b.v.shape)
        return;
    auto const figure = b.w.figure(b.item, "water_volume", in, "volume of " + b.w.name(b.item));
    if (!b.area)
        b.area = figure.get<units::Area>("area");
    auto const computed = figure.get<units::Volume>("volume");
    if (!computed || !b.v.volume)
        return;
    double const gap = std::abs(units::in_si(computed->value - b.v.volume->value));
    double const doubt = std::hypot(units::in_si(computed->doubt), units::in_si(b.v.volume->doubt));
    if (gap > 3 * doubt)
        b.w.meaning("does not agree with the volume given, " + b.w.show(*b.v.volume) +
                    "; measure again before dosing by either");
}

// A value against the band's ends: two findings, one for each side.
template <class Q>
void against_band(Bench& b, visit::Taken<Q> const& value, chemistry::Parameter parameter, std::string const& low_id,
                  std::string const& high_id, chemistry::Stabilizer stabilizer = chemistry::Stabilizer::either)
{
    if (!value)
        return;
    auto const venue =
        b.w.property.kind_of(b.item) == visit::WaterKind::spa ? chemistry::Venue::spa : chemistry::Venue::pool;
    auto const* band = chemistry::working_band(b.bands, parameter, venue, stabilizer);
    if (band == nullptr)
        return;
    std::string const whose = " [" + band->source.key + "]";
    auto say = [&](std::optional<units::Reading> const& bound, std::string const& id, bool above)
    {
        auto const limit = chemistry::Bounds::as<Q>(bound);
        if (!limit || id.empty())
            return;
        Measured<Q> const edge{*limit, {}, "limit"};
        double const p = probability_above(*value, edge);
        b.w.computed(b.item, id, above ? p : 1 - p,
                     b.w.show(*value) + ", limit " + (above ? "at most " : "at least ") + b.w.show(edge) + whose);
    };
    say(band->bounds.low, low_id, false);
    say(band->bounds.high, high_id, true);
}

void tests(Bench& b)
{
    if (b.test == nullptr)
        return;
    auto const& t = *b.test;
    bool const stabilized = t.cyanurate && units::in_si(t.cyanurate->value) > 2 * units::in_si(t.cyanurate->doubt);
    auto const stabilizer = stabilized ? chemistry::Stabilizer::present : chemistry::Stabilizer::none;
    using P = chemistry::Parameter;
    against_band(b, t.ph, P::ph, "ph_low", "ph_high");
    against_band(b, t.free_chlorine, P::free_chlorine, "free_chlorine_low", "free_chlorine_high", stabilizer);
    against_band(b, t.alkalinity, P::alkalinity, "alkalinity_low", "alkalinity_high");
    against_band(b, t.calcium, P::calcium, "hardness_low", "hardness_high");
    against_band(b, t.cyanurate, P::cyanurate, "", "cyanurate_high");

    figures::Inputs combined;
    combined.add("total_chlorine", t.total_chlorine).add("free_chlorine", t.free_chlorine);
    auto const bound = b.w.figure(b.item, "combined_chlorine", combined, "combined chlorine of " + b.w.name(b.item));
    against_band(b, bound.get<units::AsChlorine>("combined"), P::combined_chlorine, "", "combined_chlorine_high");

    figures::Inputs ratio;
    ratio.add("free_chlorine", t.free_chlorine).add("cyanurate", t.cyanurate);
    auto const held =
        b.w.figure(b.item, "chlorine_to_cyanurate", ratio, "cyanurate to free chlorine of " + b.w.name(b.item));
    against_band(b, held.get<units::Number>("ratio"), P::cyanurate_to_chlorine, "", "chlorine_to_cyanurate_low");
}

void saturation(Bench& b)
{
    if (b.test == nullptr)
        return;
    auto const& t = *b.test;
    figures::Inputs in;
    in.add("ph", t.ph)
        .add("alkalinity", t.alkalinity)
        .add("calcium", t.calcium)
        .add("cyanurate", t.cyanurate)
        .add("borate", t.borate);
    in.add("water_temperature", b.temperature);
    if (t.dissolved_solids)
        in.add("dissolved_solids", t.dissolved_solids);
    else if (t.salt)
        in.add("dissolved_solids", units::Reading{units::Measure::as_itself, units::in_si(t.salt->value),
                                                  units::in_si(t.salt->doubt), t.salt->method, false});
    auto const figure =
        b.w.figure(b.item, "saturation_handbook", in, "saturation index of " + b.w.name(b.item) + " (hand method)");
    auto const index = figure.get<units::Number>("handbook_index");
    if (!index)
        return;
    auto const table = chemistry::handbook_table(b.w.engine.data());
    std::string const whose = " (" + table.band.body + ")";
    b.w.computed(b.item, "index_low", 1 - probability_above(*index, Measured<units::Number>{table.band.low, {}, {}}),
                 "saturation index " + b.w.show(*index) + ", corrosive below " +
                     b.w.show(Measured<units::Number>{table.band.low, {}, {}}) + whose);
    b.w.computed(b.item, "index_high", probability_above(*index, Measured<units::Number>{table.band.high, {}, {}}),
                 "saturation index " + b.w.show(*index) + ", scaling above " +
                     b.w.show(Measured<units::Number>{table.band.high, {}, {}}) + whose);
}

void heat(Bench& b)
{
    if (!b.temperature)
        return;
    std::string const rule = b.w.property.kind_of(b.item) == visit::WaterKind::spa ? "spa_too_hot" : "pool_too_hot";
    b.w.computed(b.item, "water_too_hot", probability_above(*b.temperature, b.w.rules.limit<units::Temperature>(rule)),
                 b.w.show(*b.temperature) + "; speaks above " + b.w.rules.cited(rule));
}

/// A fall of the level with the fill valve shut, and what evaporation would explain of it.
void excess(Bench& b, visit::Taken<units::Velocity> const& beyond, std::string const& rule, std::string const& from)
{
    if (!beyond)
        return;
    double const p = probability_above(*beyond, b.w.rules.limit<units::Velocity>(rule));
    b.w.computed(b.item, "loss_above_evaporation", p, from + "; speaks above " + b.w.rules.cited(rule));
    b.w.computed(b.item, "level_holds", 1 - p, from + "; speaks below " + b.w.rules.cited(rule));
}

visit::Taken<units::Velocity> evaporation(Bench& b)
{
    figures::Inputs in;
    in.add("water_temperature", b.temperature)
        .add("air_temperature", b.w.visit.air_temperature)
        .add("humidity", b.w.visit.humidity);
    in.add("wind", b.w.visit.wind).add("area", b.area);
    auto const figure = b.w.figure(b.item, "evaporation", in, "evaporation of " + b.w.name(b.item));
    return figure.get<units::Velocity>("level_rate");
}

void bucket(Bench& b)
{
    if (!b.v.bucket_test)
        return;
    auto const& t = *b.v.bucket_test;
    if (t.fill == visit::Switch::on)
    {
        b.w.out.not_tested.push_back(
            {b.item, "loss by the bucket test", "the fill valve was open meanwhile, so the level says nothing"});
        return;
    }
    figures::Inputs in;
    in.add("pool_drop", t.pool_drop).add("bucket_drop", t.bucket_drop).add("elapsed", t.elapsed).add("area", b.area);
    auto const figure = b.w.figure(b.item, "bucket_test", in, "bucket test of " + b.w.name(b.item));
    if (figure.computed())
    {
        excess(b, figure.get<units::Velocity>("leak_drop_rate"), "loss_excess",
               "loss beyond the bucket " + b.w.show(*figure.get<units::Velocity>("leak_drop_rate"), "in/day"));
    }
}

void level_history(Bench& b)
{
    auto const& marks = b.v.level_history;
    if (marks.size() < 2)
        return;
    double drop = 0, variance = 0, hours = 0;
    bool filled = false;
    for (std::size_t i = 1; i < marks.size(); ++i)
    {
        if (marks[i].fill == visit::Switch::on)
        {
            filled = true;
            continue; // what is added hides what is lost
        }
        drop += units::in_si(marks[i].drop->value - marks[i - 1].drop->value);
        variance +=
            std::pow(units::in_si(marks[i].drop->doubt), 2) + std::pow(units::in_si(marks[i - 1].drop->doubt), 2);
        hours += marks[i].at->hours - marks[i - 1].at->hours;
    }
    if (hours < 1)
    {
        b.w.out.not_tested.push_back({b.item, "loss by the level",
                                      filled ? "the fill valve was open all the while"
                                             : "the marks are less than an hour apart, or not in order of time"});
        return;
    }
    figures::Inputs in;
    in.add("drop", units::Reading{units::Measure::length, drop, std::sqrt(variance), "mark on the wall", false});
    in.add("elapsed", units::Reading{units::Measure::duration, hours * units::exact::hour, 5 * units::exact::minute,
                                     "clock", false})
        .add("area", b.area);
    auto const rate = evaporation(b);
    in.add("evaporation", rate);
    auto const figure = b.w.figure(b.item, "level_loss", in, "loss of " + b.w.name(b.item) + " by its level");
    auto const fell = figure.get<units::Velocity>("drop_rate");
    if (!fell)
        return;
    if (!rate)
    {
        excess(b, fell, "loss_without_bucket", "level fell " + b.w.show(*fell, "in/day"));
        return;
    }
    Measured<units::Velocity> const beyond{
        fell->value - rate->value,
        units::of_si<units::Velocity>(std::hypot(units::in_si(fell->doubt), units::in_si(rate->doubt))), "difference"};
    excess(b, beyond, "loss_excess",
           "level fell " + b.w.show(*fell, "in/day") + ", evaporation " + b.w.show(*rate, "in/day"));
}

void cracks(Workbench& w, std::size_t shell)
{
    Thing const& t = w.property.at(shell);
    if (t.shell == nullptr)
        return;
    double most = -1;
    std::string from;
    for (auto const& crack : t.shell->cracks)
        if (crack.width)
        {
            double const p = probability_above(*crack.width, w.rules.limit<units::Length>("crack_width"));
            if (p > most)
            {
                most = p;
                from = (crack.where.empty() ? "a line" : crack.where) + ", " + w.show(*crack.width, "in") +
                       " wide; speaks above " + w.rules.cited("crack_width");
            }
        }
    if (most >= 0)
        w.computed(shell, "crack_wide", most, from);
}

} // namespace

void assess_waters(Workbench& w)
{
    auto const bands = chemistry::working_bands(w.engine.data());
    for (std::size_t i = 0; i < w.property.things().size(); ++i)
    {
        Thing const& t = w.property.at(i);
        if (t.entry.kind == "shell")
            cracks(w, i);
        if (t.entry.kind != "water")
            continue;
        visit::WaterTest const* test = t.water->tests.empty() ? nullptr : &t.water->tests.back();
        auto const temperature = t.water->temperature ? t.water->temperature
                                 : test != nullptr    ? test->temperature
                                                      : std::nullopt;
        Bench b{w, i, *t.water, test, temperature, std::nullopt, bands};
        size(b);
        tests(b);
        saturation(b);
        heat(b);
        bucket(b);
        level_history(b);
    }
}

} // namespace padwalk::assess
