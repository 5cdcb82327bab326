#include "padwalk/circulation/volume.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/units/print.hpp"

#include <cmath>
#include <initializer_list>
#include <numbers>

namespace padwalk::circulation
{
namespace
{

using figures::NotComputed;
using units::Area;
using units::Length;

struct Wanted
{
    std::optional<Length> const& value;
    char const* name;
};

/// Throws unless all are there: 'an oval pool needs length and width; width is missing'.
void need(std::string const& whose, std::string const& which, std::initializer_list<Wanted> wanted)
{
    std::string missing;
    int count = 0;
    for (auto const& w : wanted)
        if (!w.value)
            missing += (count++ > 0 ? " and " : "") + std::string(w.name);
    if (count > 0)
        throw NotComputed(whose + " needs " + which + "; " + missing + (count > 1 ? " are" : " is") + " missing");
}

Area disc(Length diameter)
{
    return std::numbers::pi / 4 * diameter * diameter;
}

bool given_by_diameter(Plan const& plan)
{
    return plan.diameter && !plan.length && !plan.width;
}

/// Spa outline, less a bench of this width on every side.
Area spa_area(Plan const& plan, Length bench_width)
{
    auto const inside = [&](Length across)
    {
        Length const left = across - 2.0 * bench_width;
        if (left <= Length{})
            throw NotComputed("bench_width of " +
                              units::show(units::Measure::length, units::in_si(bench_width), 0, {}) +
                              " on both sides leaves no room in a spa " +
                              units::show(units::Measure::length, units::in_si(across), 0, {}) + " across");
        return left;
    };
    if (given_by_diameter(plan))
        return disc(inside(*plan.diameter));
    if (plan.length && plan.width && !plan.diameter)
        return inside(*plan.length) * inside(*plan.width);
    throw NotComputed("a spa with a bench needs diameter, or length and width, and not both");
}

void require_lengths_agree(Plan const& plan, Depths const& depths)
{
    if (!depths.shallow_length || !depths.slope_length || !depths.deep_length || !plan.length)
        return;
    constexpr double agreement = 0.1; // a tape along a pool wall is better than this; a forgotten section is worse
    Length const sum = *depths.shallow_length + *depths.slope_length + *depths.deep_length;
    if (std::abs(units::in_si(sum) / units::in_si(*plan.length) - 1) > agreement)
        throw NotComputed("shallow_length, slope_length and deep_length add up to " +
                          units::show(units::Measure::length, units::in_si(sum), 0, {}) + ", but length is " +
                          units::show(units::Measure::length, units::in_si(*plan.length), 0, {}) + "; measure again");
}

WaterBody spa_body(Plan const& plan, Depths const& depths, Bench const& bench)
{
    need("a spa with a bench", "depth, bench_depth and bench_width",
         {{depths.depth, "depth"}, {bench.depth, "bench_depth"}, {bench.width, "bench_width"}});
    if (*bench.depth >= *depths.depth)
        throw NotComputed(
            "bench_depth is the water over the bench and must be less than depth, the water over the floor");
    Area const surface = spa_area(plan, Length{});
    Area const floor = spa_area(plan, *bench.width);
    units::Volume const volume = surface * *bench.depth + floor * (*depths.depth - *bench.depth);
    return {volume, surface, volume / surface};
}

} // namespace

Area plan_area(Plan const& plan, units::Number kidney_factor)
{
    switch (plan.shape)
    {
    case PlanShape::round:
        need("a round shape", "diameter", {{plan.diameter, "diameter"}});
        return disc(*plan.diameter);
    case PlanShape::rectangle:
        need("a rectangle", "length and width", {{plan.length, "length"}, {plan.width, "width"}});
        return *plan.length * *plan.width;
    case PlanShape::oval:
        need("an oval", "length and width", {{plan.length, "length"}, {plan.width, "width"}});
        return std::numbers::pi / 4 * *plan.length * *plan.width;
    case PlanShape::kidney:
        need("a kidney", "length, width and second_width",
             {{plan.length, "length"}, {plan.width, "width"}, {plan.second_width, "second_width"}});
        return kidney_factor.value() * (*plan.width + *plan.second_width) * *plan.length;
    case PlanShape::free_form:
        if (!plan.area)
            throw NotComputed("a free form needs area; area is missing");
        return *plan.area;
    case PlanShape::spa_with_bench: return spa_area(plan, Length{});
    }
    throw std::logic_error("a shape of water without an area");
}

Length mean_depth(Depths const& d)
{
    bool const sloped = d.shallow || d.deep;
    if (d.depth && sloped)
        throw NotComputed("give depth, or shallow_depth and deep_depth, but not both");
    if (d.depth)
        return *d.depth;
    if (!sloped)
        throw NotComputed("depth is missing: give depth, or shallow_depth and deep_depth");
    need("a sloping floor", "shallow_depth and deep_depth", {{d.shallow, "shallow_depth"}, {d.deep, "deep_depth"}});
    if (*d.shallow > *d.deep)
        throw NotComputed("shallow_depth is more than deep_depth");
    if (!d.shallow_length && !d.slope_length && !d.deep_length)
        return (*d.shallow + *d.deep) / 2.0;
    need("a floor in three sections", "shallow_length, slope_length and deep_length",
         {{d.shallow_length, "shallow_length"}, {d.slope_length, "slope_length"}, {d.deep_length, "deep_length"}});
    Area const profile =
        *d.shallow_length * *d.shallow + *d.slope_length * (*d.shallow + *d.deep) / 2.0 + *d.deep_length * *d.deep;
    Length const all = *d.shallow_length + *d.slope_length + *d.deep_length;
    if (all <= Length{})
        throw NotComputed("shallow_length, slope_length and deep_length add up to nothing");
    return profile / all;
}

WaterBody water_body(Plan const& plan, Depths const& depths, Bench const& bench, units::Number kidney_factor)
{
    if (plan.shape == PlanShape::spa_with_bench)
        return spa_body(plan, depths, bench);
    require_lengths_agree(plan, depths);
    Area const area = plan_area(plan, kidney_factor);
    Length const depth = mean_depth(depths);
    return {area * depth, area, depth};
}

std::string basis_in_words(Plan const& plan, Depths const& depths)
{
    static std::vector<std::string> const outlines = {
        "a circle of the diameter",
        "a rectangle of length and width",
        "an ellipse of length and width",
        "a kidney by a rule of thumb for its two widths, itself good to about 10 %: a measured area is better",
        "the area given",
        "a spa with a bench of one width all around"};
    std::string const& text = outlines.at(static_cast<std::size_t>(plan.shape));
    if (plan.shape == PlanShape::spa_with_bench)
        return text + (given_by_diameter(plan) ? ", round" : ", rectangular");
    if (depths.depth)
        return text + "; the same depth all over";
    return text + (depths.shallow_length ? "; a shallow floor, a slope and a deep floor"
                                         : "; the floor slopes evenly from end to end");
}

} // namespace padwalk::circulation
