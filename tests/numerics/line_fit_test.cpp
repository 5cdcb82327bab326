#include "catch_compat.hpp"

#include "padwalk/numerics/line_fit.hpp"

#include <cmath>
#include <limits>
#include <stdexcept>
#include <vector>

using namespace padwalk::numerics;
using List = std::vector<double>;

namespace
{

bool near(double a, double b, double relative)
{
    return std::abs(a - b) <= relative * std::abs(b);
}

struct Point
{
    double y, x;
};

// NIST Statistical Reference Datasets, linear regression, Norris. The points and the certified values are from memory;
// that these points give all the certified digits is what says that the memory is good.
constexpr Point norris[] = {
    {0.1, 0.2},     {338.8, 337.4}, {118.1, 118.2}, {888.0, 884.6}, {9.2, 10.1},    {228.1, 226.5},
    {668.5, 666.3}, {998.5, 996.3}, {449.1, 448.6}, {778.9, 777.0}, {559.2, 558.2}, {0.3, 0.4},
    {0.1, 0.6},     {778.1, 775.5}, {668.8, 666.9}, {339.3, 338.0}, {448.9, 447.5}, {10.8, 11.6},
    {557.7, 556.0}, {228.3, 228.1}, {998.0, 995.8}, {888.8, 887.6}, {119.6, 120.2}, {0.3, 0.3},
    {0.6, 0.3},     {557.6, 556.8}, {339.3, 339.1}, {888.0, 887.2}, {998.5, 999.0}, {778.9, 779.0},
    {10.2, 11.1},   {117.6, 118.3}, {228.9, 229.2}, {668.4, 669.1}, {449.2, 448.9}, {0.2, 0.5}};

} // namespace

TEST_CASE("line fit: certified values of the NIST reference line Norris (from memory)")
{
    List x, y, u;
    for (auto const& point : norris)
        x.push_back(point.x), y.push_back(point.y), u.push_back(1.0);
    auto const fit = fit_line(x, y, u);
    double const scatter = std::sqrt(fit.chi_squared / 34);
    CHECK(near(fit.slope, 1.00211681802045, 1e-12));
    CHECK(near(fit.at_centre - fit.slope * fit.centre, -0.262323073774029, 1e-10));
    CHECK(near(scatter, 0.884796396144373, 1e-12));
    CHECK(near(fit.slope_doubt * scatter, 0.429796848199937e-03, 1e-12));
    // t of 34 degrees of freedom at 97.5 % is 2.0322 in printed tables (from memory), good to half of its last digit
    auto const interval = slope_interval(fit, false);
    CHECK(interval.by_scatter);
    CHECK(near(interval.half_width, 2.0322 * 0.429796848199937e-03, 0.00005 / 2.0322));
}

TEST_CASE("line fit: two values, by hand")
{
    auto const fit = fit_line(List{1, 5}, List{10, 2}, List{0.3, 0.4});
    CHECK(near(fit.slope, -2.0, 1e-14));
    CHECK(near(fit.slope_doubt, 0.5 / 4, 1e-14)); // sqrt(0.09 + 0.16) over 4
    CHECK(std::abs(fit.chi_squared) < 1e-20);
    auto const interval = slope_interval(fit);
    CHECK_FALSE(interval.by_scatter);
    CHECK(near(interval.half_width, 1.959963984540054 * 0.125, 1e-12));
    CHECK_THROWS_AS(slope_interval(fit, false), std::invalid_argument);
}

TEST_CASE("line fit: three values of unequal weight, by hand")
{
    // weights 4, 1, 1: centre (0 + 1 + 2)/6 = 1/2, mean (0 + 1 + 5)/6 = 1; slope sum 4·(−1/2)(−1) + 0 + (3/2)·4 = 8
    // over 4/4 + 1/4 + 9/4 = 7/2; residuals 1/7, −8/7, 4/7 with 4, 1, 1 give 84/49
    auto const fit = fit_line(List{0, 1, 2}, List{0, 1, 5}, List{0.5, 1, 1});
    CHECK(near(fit.centre, 0.5, 1e-14));
    CHECK(near(fit.at_centre, 1.0, 1e-14));
    CHECK(near(fit.slope, 16.0 / 7, 1e-14));
    CHECK(near(fit.slope_doubt, std::sqrt(2.0 / 7), 1e-14));
    CHECK(near(fit.chi_squared, 84.0 / 49, 1e-13));
    // chance gives 12/7 with one degree more than once in 20: widened, and not by Student's t
    auto const interval = slope_interval(fit);
    CHECK_FALSE(interval.by_scatter);
    CHECK(near(interval.half_width, 1.959963984540054 * std::sqrt(2.0 / 7 * 84.0 / 49), 1e-12));
}

TEST_CASE("line fit: values that scatter far beyond their doubts widen the interval, doubts alone never narrow it")
{
    List const x{0, 1, 2, 3}, y{0, 4, -1, 5};
    auto const tight = slope_interval(fit_line(x, y, List{0.1, 0.1, 0.1, 0.1}));
    auto const tighter = slope_interval(fit_line(x, y, List{0.01, 0.01, 0.01, 0.01}));
    CHECK(tight.by_scatter);
    CHECK(near(tight.half_width, tighter.half_width, 1e-12)); // the scatter is what it is
    auto const loose = fit_line(x, List{0, 1, 2, 3}, List{0.1, 0.1, 0.1, 0.1});
    CHECK(near(slope_interval(loose).half_width, 1.959963984540054 * 0.1 / std::sqrt(5.0), 1e-12));
}

TEST_CASE("line fit: what can't be fitted is refused")
{
    double const none = std::numeric_limits<double>::quiet_NaN();
    CHECK_THROWS_AS(fit_line(List{1}, List{1}, List{1}), std::invalid_argument);
    CHECK_THROWS_AS(fit_line(List{1, 2}, List{1}, List{1, 1}), std::invalid_argument);
    CHECK_THROWS_AS(fit_line(List{1, 2}, List{1, 2}, List{1, 0}), std::invalid_argument);
    CHECK_THROWS_AS(fit_line(List{1, none}, List{1, 2}, List{1, 1}), std::invalid_argument);
    CHECK_THROWS_AS(fit_line(List{3, 3}, List{1, 2}, List{1, 1}), std::invalid_argument);
}
