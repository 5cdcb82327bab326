#include "catch_compat.hpp"
#include "padwalk/circulation/volume.hpp"
#include "padwalk/figures/model.hpp"
#include "written.hpp"

using namespace padwalk;
using namespace padwalk::circulation;
using Catch::Matchers::Message;
using Catch::Matchers::WithinRel;
using tests::in;
using tests::number;
using tests::q;

namespace
{

units::Length foot(double value)
{
    return units::of_si<units::Length>(value * 0.3048);
}

Plan rectangle(double length, double width)
{
    Plan plan;
    plan.shape = PlanShape::rectangle;
    plan.length = foot(length);
    plan.width = foot(width);
    return plan;
}

Depths even(double depth)
{
    Depths depths;
    depths.depth = foot(depth);
    return depths;
}

Depths slope(double shallow, double deep)
{
    Depths depths;
    depths.shallow = foot(shallow);
    depths.deep = foot(deep);
    return depths;
}

double gallons(Plan const& plan, Depths const& depths, Bench const& bench = {})
{
    return in(water_body(plan, depths, bench, number(0.45)).volume, "gal");
}

constexpr double per_cubic_foot = 1728.0 / 231; // US gallons, by definition

} // namespace

TEST_CASE("volumes by hand: round, rectangle, oval, kidney, free form", "[circulation]")
{
    Plan round;
    round.shape = PlanShape::round;
    round.diameter = foot(8);
    CHECK_THAT(gallons(round, even(3)), WithinRel(3.14159265358979 * 16 * 3 * per_cubic_foot, 1e-12));
    CHECK_THAT(gallons(rectangle(32, 16), slope(3, 8)), WithinRel(32 * 16 * 5.5 * per_cubic_foot, 1e-12));
    Plan oval = rectangle(30, 15);
    oval.shape = PlanShape::oval;
    CHECK_THAT(gallons(oval, even(5)), WithinRel(3.14159265358979 / 4 * 450 * 5 * per_cubic_foot, 1e-12));
    Plan kidney = rectangle(32, 18);
    kidney.shape = PlanShape::kidney;
    kidney.second_width = foot(14);
    CHECK_THAT(gallons(kidney, even(5)), WithinRel(0.45 * 32 * 32 * 5 * per_cubic_foot, 1e-12));
    Plan free;
    free.shape = PlanShape::free_form;
    free.area = q<units::Area>("400 ft2");
    CHECK_THAT(gallons(free, even(5)), WithinRel(2000 * per_cubic_foot, 1e-12));
}

TEST_CASE("trade factor of round and oval pools, 5.9 gal per ft3 of the box, from memory", "[circulation]")
{
    // 7.48 pi/4 = 5.875, rounded by the trade.
    Plan oval = rectangle(30, 15);
    oval.shape = PlanShape::oval;
    CHECK_THAT(gallons(oval, even(5)), WithinRel(30 * 15 * 5 * 5.9, 0.005));
}

TEST_CASE("a floor in three sections, by hand", "[circulation]")
{
    Depths depths = slope(3, 9);
    depths.shallow_length = foot(12);
    depths.slope_length = foot(10);
    depths.deep_length = foot(10);
    // 12 x 3 + 10 x 6 + 10 x 9 = 186 ft2 of profile
    CHECK_THAT(gallons(rectangle(32, 16), depths), WithinRel(186 * 16 * per_cubic_foot, 1e-12));
    depths.shallow_length = foot(0);
    depths.slope_length = foot(32);
    depths.deep_length = foot(0);
    CHECK_THAT(gallons(rectangle(32, 16), depths), WithinRel(gallons(rectangle(32, 16), slope(3, 9)), 1e-12));
}

TEST_CASE("a spa with a bench, by hand, round and square", "[circulation]")
{
    Plan spa;
    spa.shape = PlanShape::spa_with_bench;
    spa.diameter = foot(8);
    Bench const bench{foot(1.5), foot(1.5)};
    double const pi = 3.14159265358979;
    CHECK_THAT(gallons(spa, even(3), bench), WithinRel((pi * 16 * 1.5 + pi * 2.5 * 2.5 * 1.5) * per_cubic_foot, 1e-12));
    spa.diameter = std::nullopt;
    spa.length = spa.width = foot(7);
    CHECK_THAT(gallons(spa, even(3), bench), WithinRel((49 * 1.5 + 16 * 1.5) * per_cubic_foot, 1e-12));
    auto const body = water_body(spa, even(3), bench, number(0.45));
    CHECK_THAT(units::in_si(body.area * body.mean_depth), WithinRel(units::in_si(body.volume), 1e-14));
}

TEST_CASE("missing and contradictory measures are named", "[circulation]")
{
    auto const refuses = [](Plan const& plan, Depths const& depths, Bench const& bench, char const* words)
    { CHECK_THROWS_MATCHES(water_body(plan, depths, bench, number(0.45)), figures::NotComputed, Message(words)); };
    Plan plan;
    plan.shape = PlanShape::rectangle;
    refuses(plan, even(4), {}, "a rectangle needs length and width; length and width are missing");
    plan.length = foot(20);
    refuses(plan, even(4), {}, "a rectangle needs length and width; width is missing");
    plan.shape = PlanShape::round;
    refuses(plan, even(4), {}, "a round shape needs diameter; diameter is missing");
    plan.shape = PlanShape::oval;
    refuses(plan, even(4), {}, "an oval needs length and width; width is missing");
    plan.shape = PlanShape::kidney;
    refuses(plan, even(4), {}, "a kidney needs length, width and second_width; width and second_width are missing");
    plan.shape = PlanShape::free_form;
    refuses(plan, even(4), {}, "a free form needs area; area is missing");
    plan.shape = PlanShape::spa_with_bench;
    refuses(plan, even(4), {},
            "a spa with a bench needs depth, bench_depth and bench_width; bench_depth and bench_width are missing");
    refuses(plan, even(4), {foot(1), foot(1)}, "a spa with a bench needs diameter, or length and width, and not both");
    plan.width = foot(6);
    refuses(plan, even(4), {foot(1), foot(3)}, "bench_width of 3 ft on both sides leaves no room in a spa 6 ft across");
    refuses(plan, even(4), {foot(5), foot(1)},
            "bench_depth is the water over the bench and must be less than depth, the water over the floor");

    refuses(rectangle(32, 16), {}, {}, "depth is missing: give depth, or shallow_depth and deep_depth");
    Depths depths = slope(3, 8);
    depths.depth = foot(5);
    refuses(rectangle(32, 16), depths, {}, "give depth, or shallow_depth and deep_depth, but not both");
    depths = slope(3, 8);
    depths.deep = std::nullopt;
    refuses(rectangle(32, 16), depths, {}, "a sloping floor needs shallow_depth and deep_depth; deep_depth is missing");
    refuses(rectangle(32, 16), slope(8, 3), {}, "shallow_depth is more than deep_depth");
    depths = slope(3, 8);
    depths.slope_length = foot(10);
    refuses(rectangle(32, 16), depths, {},
            "a floor in three sections needs shallow_length, slope_length and deep_length; shallow_length and "
            "deep_length are missing");
    depths.shallow_length = depths.deep_length = foot(6);
    refuses(rectangle(32, 16), depths, {},
            "shallow_length, slope_length and deep_length add up to 22 ft, but length is 32 ft; measure again");
}
