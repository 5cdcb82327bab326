// What the readings of a pool or spa say: size, heat, cracks; its water and its level have files of their own.
#include "water_bench.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace padwalk::assess
{
namespace
{

void size(WaterBench& b)
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
        .add("shallow_length", b.v.shallow_length)
        .add("slope_length", b.v.slope_length)
        .add("deep_length", b.v.deep_length)
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

// Whether a heater of this water also heats a spa.
bool beside_a_spa(WaterBench const& b)
{
    auto const& all = b.w.property.things();
    return std::any_of(all.begin(), all.end(),
                       [&](Thing const& t)
                       {
                           bool const heats = t.entry.kind == "heater" && t.waters.contains(b.item);
                           return heats && std::any_of(t.waters.begin(), t.waters.end(),
                                                       [&](std::size_t other) {
                                                           return b.w.property.kind_of(other) == visit::WaterKind::spa;
                                                       });
                       });
}

void heat(WaterBench& b)
{
    if (!b.temperature)
        return;
    against_published(b, chemistry::Parameter::water_temperature, units::Reading::of(*b.temperature));
    std::string const rule = b.spa() ? "spa_too_hot" : "pool_too_hot";
    auto limit = b.w.rules.limit<units::Temperature>(rule);
    std::string speaks = b.w.rules.cited(rule);
    // The body that leads may allow less; more heat than what is safe for anyone nobody may allow.
    auto const lead = band_of(b, chemistry::Parameter::water_temperature).high;
    if (lead && lead->chosen && lead->bound.value < units::in_si(limit.value))
    {
        limit.value = units::of_si<units::Temperature>(lead->bound.value);
        speaks = b.w.show(lead->bound) + whose(b, *lead);
    }
    double const p = probability_above(*b.temperature, limit);
    // A heater that runs away overheats the spa long before the pool, so a pool that is not hot clears nobody: as
    // evidence it would only move blame about the spa.
    if (p < 0.5 && !b.spa() && beside_a_spa(b))
        return;
    b.w.computed(b.item, "water_too_hot", p, b.w.show(*b.temperature) + "; speaks above " + speaks);
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

// The test that counts, and that others were left aside for want of a date.
visit::WaterTest const* counted(WaterBench& b)
{
    auto const* found = newest_test(b.v);
    bool const undated = std::any_of(b.v.tests.begin(), b.v.tests.end(), [](auto const& t) { return !t.on; });
    if (found != nullptr && found->on && undated)
        b.w.out.assumptions.push_back(
            {"the newest dated test of " + b.w.name(b.item) + " counts", "other tests of it have no date"});
    return found;
}

chemistry::LimitSet chosen(visit::Water const& water, std::vector<chemistry::LimitSet> const& sets)
{
    if (!water.limits)
        return {};
    std::string const id = fields::words_of<visit::LimitsOf>::words()[static_cast<std::size_t>(*water.limits)];
    auto const found = std::find_if(sets.begin(), sets.end(), [&](auto const& set) { return set.id == id; });
    if (found == sets.end())
        throw std::logic_error("limits of '" + id + "' may be chosen and are not in the data");
    return *found;
}

} // namespace

visit::WaterTest const* newest_test(visit::Water const& water)
{
    visit::WaterTest const* found = nullptr;
    for (auto const& test : water.tests)
        if (test.on && (found == nullptr || test.on->hours >= found->on->hours))
            found = &test;
    return found != nullptr || water.tests.empty() ? found : &water.tests.back();
}

void assess_waters(Workbench& w)
{
    auto const& tables = w.engine.water_tables();
    for (std::size_t i = 0; i < w.property.things().size(); ++i)
    {
        Thing const& t = w.property.at(i);
        if (t.entry.kind == "shell")
            cracks(w, i);
        if (t.entry.kind != "water")
            continue;
        WaterBench b{w,
                     i,
                     *t.water,
                     nullptr,
                     t.water->temperature,
                     std::nullopt,
                     tables.bands,
                     tables.limits,
                     chosen(*t.water, tables.sets)};
        b.test = counted(b);
        if (!b.temperature && b.test != nullptr)
            b.temperature = b.test->temperature;
        size(b);
        assess_water_tests(b);
        heat(b);
        assess_level(b);
    }
}

} // namespace padwalk::assess
