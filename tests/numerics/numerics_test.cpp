#include "catch_compat.hpp"

#include "csv.hpp"
#include "padwalk/numerics/gaussian.hpp"
#include "padwalk/numerics/interpolation.hpp"
#include "padwalk/numerics/quasi_random.hpp"
#include "padwalk/numerics/root.hpp"
#include "padwalk/numerics/statistics.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <sstream>
#include <vector>

using namespace padwalk::numerics;
using Catch::Matchers::Message;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace
{

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr double nan_value = std::numeric_limits<double>::quiet_NaN();

double density_at(double z)
{
    return std::exp(-z * z / 2) / std::sqrt(2 * 3.14159265358979323846);
}

struct Moments
{
    double mean;
    double variance;
};

/// Mean and variance of 2^17 - 1 evenly spread draws: so many, because the last 1/2^18 of each tail is never drawn, and
/// with it, in an unlimited tail, some 3e-4 of the variance.
Moments drawn(double mean, double sigma, double low, double high)
{
    QuasiRandom points(1);
    constexpr int count = (1 << 17) - 1;
    double sum = 0;
    double squares = 0;
    for (int i = 0; i < count; ++i)
    {
        double const x = truncated_normal_quantile(points.next()[0], mean, sigma, low, high);
        sum += x - mean;
        squares += (x - mean) * (x - mean);
    }
    double const shift = sum / count;
    return {mean + shift, squares / count - shift * shift};
}

} // namespace

TEST_CASE("a root is found to the tolerance asked for", "[numerics][root]")
{
    // Dottie number, printed in many places; the cube root by definition; 1e-9 sits where relative width means little.
    CHECK_THAT(bracketed_root([](double x) { return std::cos(x) - x; }, 0, 1, 1e-14),
               WithinRel(0.73908513321516064, 1e-14));
    CHECK_THAT(bracketed_root([](double x) { return x * x * x - 2; }, 0, 100, 1e-14),
               WithinRel(1.2599210498948732, 1e-14));
    CHECK_THAT(bracketed_root([](double x) { return x - 1e-9; }, -1, 1, 1e-12), WithinRel(1e-9, 1e-12));
    CHECK_THAT(bracketed_root([](double x) { return x * x * x; }, -1, 2, 1e-10), WithinAbs(0, 3e-20));
    CHECK_THAT(bracketed_root([](double x) { return std::expm1(50 * x) - 1e9; }, -3, 3, 1e-13),
               WithinRel(std::log1p(1e9) / 50, 1e-13));
}

TEST_CASE("the ends of a root's interval may be turned round, or be the root", "[numerics][root]")
{
    auto const line = [](double x) { return x - 3; };
    CHECK(bracketed_root(line, 3, 8, 1e-9) == 3.0);
    CHECK(bracketed_root(line, -1, 3, 1e-9) == 3.0);
    CHECK_THAT(bracketed_root(line, 7.3, -1, 1e-9), WithinRel(3.0, 1e-9));
}

TEST_CASE("a root that is not there is refused, with the reason", "[numerics][root]")
{
    auto const parabola = [](double x) { return x * x + 1; };
    CHECK_THROWS_MATCHES(bracketed_root(parabola, -1, 2, 1e-9), NoBracket,
                         Message("no root between -1 and 2: the function is 2 at -1 and 5 at 2"));
    auto const gap = [](double x) { return x < 1 ? -1.0 : nan_value; };
    CHECK_THROWS_MATCHES(bracketed_root(gap, 0, 2, 1e-9), FunctionNotFinite,
                         Message("no root: the function is nan at 2"));
    auto const gap_inside = [](double x) { return x > 0.9 && x < 1.9 ? nan_value : x - 1; };
    CHECK_THROWS_MATCHES(bracketed_root(gap_inside, 0, 2, 1e-9), FunctionNotFinite,
                         Message("no root: the function is nan at 1"));
    auto const pole = [](double x) { return 1 / (x - 1.0 / 3); };
    CHECK_THROWS_MATCHES(bracketed_root(pole, 0, 1, 1e-9), NoConvergence,
                         Message("no root: the function jumps over zero at 0.333333"));
    auto const cubic = [](double x) { return x * x * x - 2; };
    CHECK_THROWS_AS(bracketed_root(cubic, 0, 100, 1e-14, 3), NoConvergence);
    CHECK_THROWS_AS(bracketed_root(cubic, 2, 3, 1e-14), NoRoot);
    auto const thrower = [](double) -> double { throw std::out_of_range("from inside"); };
    CHECK_THROWS_MATCHES(bracketed_root(thrower, 0, 1, 1e-9), std::out_of_range, Message("from inside"));
}

TEST_CASE("a root asked for wrongly is refused", "[numerics][root]")
{
    auto const line = [](double x) { return x; };
    CHECK_THROWS_MATCHES(bracketed_root(line, -infinity, 1, 1e-9), std::invalid_argument,
                         Message("a root is looked for between finite ends, not between -inf and 1"));
    CHECK_THROWS_MATCHES(bracketed_root(line, -1, 1, 1e-17), std::invalid_argument,
                         Message("the tolerance of a root is from 8.9e-16 to 0.1, not 1e-17"));
    CHECK_THROWS_MATCHES(bracketed_root(line, -1, 1, 1e-9, 0), std::invalid_argument,
                         Message("a root takes at least 1 step, not 0"));
}

TEST_CASE("a root reports how far it got", "[numerics][root]")
{
    // By hand: the first step is the chord, from -1 at 0 and 1 at 1 to the middle, where the function is still -1.
    auto const step = [](double x) { return x < 0.7 ? -1.0 : 1.0; };
    CHECK_THROWS_MATCHES(bracketed_root(step, 0, 1, 1e-12, 1), NoConvergence,
                         Message("no root yet at step 1: it lies between 0.5 and 1"));
}

TEST_CASE("a table is read along straight lines", "[numerics][interpolation]")
{
    std::vector<double> const x{0, 1, 3};
    std::vector<double> const y{10, 20, 0};
    CHECK(linear_table(x, y, 0) == 10.0);
    CHECK(linear_table(x, y, 0.25) == 12.5);
    CHECK(linear_table(x, y, 1) == 20.0);
    CHECK(linear_table(x, y, 2.5) == 5.0);
    CHECK(linear_table(x, y, 3) == 0.0);
}

TEST_CASE("a table is not read beyond its rows", "[numerics][interpolation]")
{
    std::vector<double> const x{0, 1, 3};
    std::vector<double> const y{10, 20, 0};
    CHECK_THROWS_MATCHES(linear_table(x, y, 3.5), OutsideTable, Message("3.5 is outside the table's 0 to 3"));
    CHECK_THROWS_MATCHES(MonotoneCurve(x, y).at(-1), OutsideTable, Message("-1 is outside the table's 0 to 3"));
    CHECK_THROWS_MATCHES(MonotoneCurve(x, y).slope(nan_value), OutsideTable,
                         Message("nan is outside the table's 0 to 3"));
}

TEST_CASE("a table that is none is refused", "[numerics][interpolation]")
{
    auto const table = [](std::vector<double> const& x, std::vector<double> const& y) { return MonotoneCurve(x, y); };
    CHECK_THROWS_MATCHES(table({0, 1}, {2}), BadTable, Message("a table needs as many x as y, not 2 and 1"));
    CHECK_THROWS_MATCHES(table({0}, {2}), BadTable, Message("a table needs at least 2 rows, not 1"));
    CHECK_THROWS_MATCHES(table({0, 2, 2}, {1, 2, 3}), BadTable,
                         Message("x must rise from row to row, but row 3 has 2 after 2"));
    CHECK_THROWS_MATCHES(table({0, 1}, {1, infinity}), BadTable, Message("row 2 of the table has inf for y"));
    CHECK_THROWS_MATCHES(linear_table(std::vector<double>{nan_value, 1}, std::vector<double>{1, 2}, 0.5), BadTable,
                         Message("row 1 of the table has nan for x"));
}

TEST_CASE("a monotone curve goes through its rows and never turns between them", "[numerics][interpolation]")
{
    // The data of Fritsch and Carlson's paper (RPN 14), from memory: flat, then a cliff, where a spline overshoots.
    std::vector<double> const x{7.99, 8.09, 8.19, 8.7, 9.2, 10, 12, 15, 20};
    std::vector<double> const y{0, 2.76429e-5, 4.37498e-2, 0.169183, 0.469428, 0.943740, 0.998636, 0.999919, 0.999994};
    MonotoneCurve const curve(x, y);
    for (std::size_t i = 0; i < x.size(); ++i)
        CHECK_THAT(curve.at(x[i]), WithinAbs(y[i], 1e-15));
    double before = curve.at(x.front());
    for (int k = 1; k <= 2000; ++k)
    {
        double const at = std::min(x.back(), x.front() + (x.back() - x.front()) * k / 2000);
        double const now = curve.at(at);
        CHECK(now >= before);
        CHECK(curve.slope(at) >= 0.0);
        before = now;
    }
}

TEST_CASE("a monotone curve of few rows", "[numerics][interpolation]")
{
    MonotoneCurve const line(std::vector<double>{1, 3}, std::vector<double>{5, 9});
    CHECK_THAT(line.at(1.7), WithinRel(6.4, 1e-14));
    CHECK_THAT(line.slope(2.9), WithinRel(2.0, 1e-14));
    // By hand: slopes -1 and -3 at the ends, in the middle the harmonic mean -1.5; at 0.5 the Hermite mean of the rows
    // plus (slope left - slope right)/8.
    MonotoneCurve const three(std::vector<double>{0, 1, 2}, std::vector<double>{4, 3, 0});
    CHECK_THAT(three.at(0.5), WithinRel(3.5 + 0.5 / 8, 1e-14));
    CHECK_THAT(three.slope(1), WithinRel(-1.5, 1e-14));
    CHECK_THAT(three.slope(2), WithinRel(-3.0, 1e-14));
    // Uneven rows: chords 1 and 3 over 1 and 2; weights 2*2 + 1 and 2 + 2*1; slope 9/(5/1 + 4/3).
    MonotoneCurve const uneven(std::vector<double>{0, 1, 3}, std::vector<double>{0, 1, 7});
    CHECK_THAT(uneven.slope(1), WithinRel(27.0 / 19, 1e-14));
}

TEST_CASE("the quasi-random points begin as the Sobol sequence does", "[numerics][quasi_random]")
{
    // The beginning printed in the documentation of Boost's sobol_engine.
    double const expected[][2] = {{0.5, 0.5}, {0.75, 0.25}, {0.25, 0.75}, {0.375, 0.375}, {0.875, 0.875}};
    QuasiRandom points(2);
    for (auto const& row : expected)
    {
        auto const point = points.next();
        CHECK_THAT(point[0], WithinAbs(row[0], 1e-15));
        CHECK_THAT(point[1], WithinAbs(row[1], 1e-15));
        CHECK(point[0] > row[0]); // moved off the lattice, which holds a 0
    }
}

TEST_CASE("the quasi-random points fill every coordinate evenly and are the same again", "[numerics][quasi_random]")
{
    constexpr std::size_t dimensions = 60;
    constexpr std::size_t count = (1U << 8) - 1;
    QuasiRandom points(dimensions);
    QuasiRandom again(dimensions);
    std::vector<std::vector<int>> visits(dimensions, std::vector<int>(count + 1, 0));
    for (std::size_t i = 0; i < count; ++i)
    {
        auto const point = points.next();
        REQUIRE(point == again.next());
        for (std::size_t d = 0; d < dimensions; ++d)
        {
            REQUIRE((point[d] > 0.0 && point[d] < 1.0));
            ++visits[d][static_cast<std::size_t>(point[d] * (count + 1))];
        }
    }
    for (auto const& cells : visits)
        CHECK((cells[0] == 0 && std::all_of(cells.begin() + 1, cells.end(), [](int n) { return n == 1; })));
}

TEST_CASE("a quasi-random sequence needs a number of dimensions it has", "[numerics][quasi_random]")
{
    CHECK_THROWS_MATCHES(QuasiRandom(0), std::invalid_argument,
                         Message("a quasi-random sequence has 1 to 3667 dimensions, not 0"));
    CHECK_THROWS_MATCHES(QuasiRandom(3668), std::invalid_argument,
                         Message("a quasi-random sequence has 1 to 3667 dimensions, not 3668"));
    CHECK(QuasiRandom(3667).next().size() == 3667);
}

TEST_CASE("the normal distribution and its inverse agree with mpmath", "[numerics][normal]")
{
    // mpmath 1.3.0 with 60 digits.
    double const shares[][2] = {{-37, 5.7255712225245768e-300}, {-10, 7.6198530241605261e-24},
                                {-3, 0.0013498980316300945},    {-1, 0.15865525393145705},
                                {0.5, 0.6914624612740131},      {2, 0.97724986805182079},
                                {5, 0.99999971334842812}};
    for (auto const& [z, share] : shares)
        CHECK_THAT(standard_normal_cdf(z), WithinRel(share, 1e-13));
    double const quantiles[][2] = {{1e-300, -37.047096299361199},
                                   {1e-10, -6.3613409024040562},
                                   {0.025, -1.9599639845400542},
                                   {0.3, -0.52440051270804078},
                                   {0.9999999, 5.1993375821928169}};
    for (auto const& [p, z] : quantiles)
        CHECK_THAT(standard_normal_quantile(p), WithinRel(z, 1e-9 * (p > 0.9 ? 1 : 1e-4)));
    CHECK(standard_normal_cdf(-infinity) == 0.0);
    CHECK(standard_normal_cdf(infinity) == 1.0);
    CHECK(standard_normal_quantile(0.5) == 0.0);
}

TEST_CASE("quantiles of a cut-off normal distribution agree with mpmath, far tails included", "[numerics][normal]")
{
    struct Row
    {
        double p, mean, sigma, low, high, expected;
    };
    // mpmath 1.3.0 with 60 digits.
    for (Row const& r :
         {Row{0.5, 0, 1, -1, 2, 0.17116391801782477}, Row{0.01, 0, 1, -1, 2, -0.96672325185033378},
          Row{0.975, 10, 2, 5, infinity, 13.925254246345682}, Row{0.5, 0, 1, 6, infinity, 6.1115650618134393},
          Row{0.999, 0, 1, 8, 8.5, 8.492727587971527}, Row{0.25, 0, 1, 20, infinity, 20.014343291896004},
          Row{0.5, 0, 1, 29.5, infinity, 29.52346030015121}, Row{0.5, 0, 1, 30.5, infinity, 30.522693360906794},
          Row{0.001, 0, 1, 40, infinity, 40.000024996896941}, Row{0.999, 0, 1, 40, 40.01, 40.009987706976148},
          Row{0.3, 0, 1, -45, -44, -44.027340420783229}, Row{0.9, 0, 1, -infinity, -50, -50.002106324107884},
          Row{0.5, 100, 1, 0, 1, 0.99299947493504342}, Row{1e-12, 0, 1, 35, infinity, 35.000000000000029},
          Row{0.5, 0, 1, 100, infinity, 100.00693053875243}})
    {
        INFO("p " << r.p << ", " << r.low << " to " << r.high);
        CHECK_THAT(truncated_normal_quantile(r.p, r.mean, r.sigma, r.low, r.high), WithinRel(r.expected, 2e-14));
    }
}

TEST_CASE("draws of a cut-off normal distribution have its mean and variance", "[numerics][normal]")
{
    struct Row
    {
        double mean, sigma, low, high;
    };
    for (Row const& r : {Row{0, 1, -1, 2}, Row{5, 2, 0, infinity}, Row{7.4, 0.2, 7.2, 7.3}, Row{0, 1, -infinity, 0.5},
                         Row{0, 1, 3, infinity}, Row{0, 3, -infinity, infinity}})
    {
        INFO("mean " << r.mean << ", sigma " << r.sigma << ", " << r.low << " to " << r.high);
        double const a = (r.low - r.mean) / r.sigma;
        double const b = (r.high - r.mean) / r.sigma;
        double const share = standard_normal_cdf(b) - standard_normal_cdf(a);
        double const at_a = density_at(a) / share;
        double const at_b = density_at(b) / share;
        double const moment_a = std::isinf(a) ? 0 : a * at_a;
        double const moment_b = std::isinf(b) ? 0 : b * at_b;
        auto const [mean, variance] = drawn(r.mean, r.sigma, r.low, r.high);
        CHECK_THAT(mean, WithinAbs(r.mean + r.sigma * (at_a - at_b), 5e-5 * r.sigma));
        CHECK_THAT(variance, WithinRel(r.sigma * r.sigma * (1 + moment_a - moment_b - std::pow(at_a - at_b, 2)), 5e-4));
    }
    // From 40 sigmas up the mean is 1/(share above / density) = 40 + 1/40 - 2/40^3 + 10/40^5 of the asymptotic series.
    CHECK_THAT(drawn(0, 1, 40, infinity).mean, WithinAbs(40 + 1 / 40. - 2 / 64e3 + 10 / 1.024e8, 1e-5));
}

TEST_CASE("a cut-off normal distribution rises, stays inside, and mirrors", "[numerics][normal]")
{
    double const limits[][2] = {{-1, 2},       {-infinity, 0}, {2, infinity}, {29, 31},
                                {29.9999, 40}, {31, 31.001},   {0, 1e-9}};
    for (auto const& [low, high] : limits)
    {
        double before = low;
        for (int k = 1; k < 200; ++k)
        {
            double const p = k / 200.0;
            double const x = truncated_normal_quantile(p, 0, 1, low, high);
            INFO(low << " to " << high << ", p " << p);
            CHECK((x >= low && x <= high && x >= before));
            CHECK_THAT(-truncated_normal_quantile(1 - p, 0, 1, -high, -low), WithinAbs(x, 1e-13 * (1 + std::fabs(x))));
            before = x;
        }
    }
}

TEST_CASE("a cut-off normal distribution without doubt, or of one point", "[numerics][normal]")
{
    CHECK(truncated_normal_quantile(0.3, 7.4, 0, 0, 14) == 7.4);
    CHECK(truncated_normal_quantile(0.3, 7.4, 0.1, 7, 7) == 7.0);
    CHECK_THROWS_MATCHES(truncated_normal_quantile(0.3, 15, 0, 0, 14), std::invalid_argument,
                         Message("the value 15, without doubt, lies outside 0 to 14"));
}

TEST_CASE("a distribution asked for wrongly is refused", "[numerics][normal]")
{
    CHECK_THROWS_MATCHES(standard_normal_quantile(0), std::invalid_argument,
                         Message("a share of a distribution lies between 0 and 1, not at 0"));
    CHECK_THROWS_MATCHES(standard_normal_cdf(nan_value), std::invalid_argument,
                         Message("the normal distribution has no share below nan"));
    CHECK_THROWS_MATCHES(truncated_normal_quantile(1, 0, 1, 0, 1), std::invalid_argument,
                         Message("a share of a distribution lies between 0 and 1, not at 1"));
    CHECK_THROWS_MATCHES(truncated_normal_quantile(0.5, nan_value, 1, 0, 1), std::invalid_argument,
                         Message("a normal distribution has a finite mean, not nan"));
    CHECK_THROWS_MATCHES(truncated_normal_quantile(0.5, 0, -1, 0, 1), std::invalid_argument,
                         Message("a standard deviation is finite and not negative, not -1"));
    CHECK_THROWS_MATCHES(truncated_normal_quantile(0.5, 0, 1, 2, 1), std::invalid_argument,
                         Message("a distribution cut off below 2 and above 1 is empty"));
}

TEST_CASE("a quantile of values", "[numerics][statistics]")
{
    // Type 7 by hand: position 0.25 * 3 = 0.75 among 1, 2, 4, 8 counted from 0.
    CHECK(quantile({8, 1, 4, 2}, 0.25) == 1.75);
    CHECK(quantile({8, 1, 4, 2}, 0.5) == 3.0);
    CHECK(quantile({8, 1, 4, 2}, 0) == 1.0);
    CHECK(quantile({8, 1, 4, 2}, 1) == 8.0);
    CHECK(quantile({5}, 0.7) == 5.0);
    CHECK_THROWS_MATCHES(quantile({}, 0.5), std::invalid_argument, Message("a quantile of no values"));
    CHECK_THROWS_MATCHES(quantile({1}, 1.5), std::invalid_argument, Message("a quantile lies at 0 to 1, not at 1.5"));
    CHECK_THROWS_MATCHES(quantile({1, nan_value}, 0.5), std::invalid_argument,
                         Message("a quantile of values of which one is not finite"));
}

TEST_CASE("readings are combined by their doubts", "[numerics][statistics]")
{
    // By hand: weights 1 and 4; (10 + 4 * 12)/5 = 11.6; 1/sqrt 5; 1.6^2 + 4 * 0.4^2 = 3.2.
    std::vector<double> const values{10, 12};
    auto const combined = combine(values, std::vector<double>{1, 0.5});
    CHECK_THAT(combined.value, WithinRel(11.6, 1e-15));
    CHECK_THAT(combined.doubt, WithinRel(1 / std::sqrt(5.0), 1e-15));
    CHECK_THAT(combined.chi_squared, WithinRel(3.2, 1e-14));
    CHECK_THROWS_MATCHES(combine({}, {}), std::invalid_argument, Message("no readings to combine"));
    CHECK_THROWS_MATCHES(combine(values, std::vector<double>{1}), std::invalid_argument,
                         Message("2 readings with 1 doubts"));
    CHECK_THROWS_MATCHES(combine(values, std::vector<double>{1, 0}), std::invalid_argument,
                         Message("reading 2 has a doubt of 0; it must be above 0"));
    CHECK_THROWS_MATCHES(combine(std::vector<double>{infinity, 1}, std::vector<double>{1, 1}), std::invalid_argument,
                         Message("reading 1 is inf"));
}

TEST_CASE("the tests' own CSV reader is strict", "[tests][csv]")
{
    using padwalk::tests::read_csv;
    auto const rows = [](std::string const& text)
    {
        std::istringstream stream(text);
        return read_csv(stream, "t.csv");
    };
    auto const good = rows("# source\na,b\n1e3,\"x, \"\"y\"\"\"\n\n-2.5,\n");
    REQUIRE(good.size() == 2);
    CHECK(good[0].number("a") == 1000.0);
    CHECK(good[0].text("b") == "x, \"y\"");
    CHECK(good[1].text("b").empty());
    CHECK(good[1].place() == "t.csv:5");
    CHECK_THROWS_MATCHES(good[0].text("c"), std::runtime_error, Message("t.csv:3: no column 'c'"));
    CHECK_THROWS_MATCHES(good[0].number("b"), std::runtime_error, Message("t.csv:3, b: 'x, \"y\"' is not a number"));
    CHECK_THROWS_MATCHES(rows("a,b\n1\n"), std::runtime_error, Message("t.csv:2: 1 fields for 2 columns"));
    CHECK_THROWS_MATCHES(rows("a,a\n1,2\n"), std::runtime_error, Message("t.csv:2: two columns have one name"));
    CHECK_THROWS_MATCHES(rows("a\n\"1\n"), std::runtime_error, Message("a quote is not closed in: \"1"));
    CHECK_THROWS_MATCHES(rows("a,b\n"), std::runtime_error, Message("t.csv has no rows"));
}

TEST_CASE("a normal density of two that move together, against its closed form", "[numerics]")
{
    // sd 2 and 3, correlation 0.6: chi2 = (x2/4 - 2 r x y/6 + y2/9)/(1 - r2)
    double const r = 0.6, x = 1.5, y = -2.0;
    padwalk::numerics::Covariance v(2);
    v.add_together({2 * std::sqrt(r), 3 * std::sqrt(r)});
    v.add_alone(0, 4 * (1 - r));
    v.add_alone(1, 9 * (1 - r));
    double const square = (x * x / 4 - 2 * r * x * y / 6 + y * y / 9) / (1 - r * r);
    auto const d = padwalk::numerics::departure({x, y}, v);
    CHECK_THAT(d.square, Catch::Matchers::WithinRel(square, 1e-12));
    double const pi = 3.14159265358979323846;
    CHECK_THAT(d.log_density,
               Catch::Matchers::WithinRel(-square / 2 - std::log(2 * pi * 6 * std::sqrt(1 - r * r)), 1e-12));
    auto const one = padwalk::numerics::departure({y}, v.without(0));
    CHECK_THAT(one.square, Catch::Matchers::WithinRel(y * y / 9, 1e-12));
    CHECK(padwalk::numerics::departure({}, padwalk::numerics::Covariance(0)).square == 0);
    CHECK_THROWS_AS(padwalk::numerics::departure({x}, v), std::invalid_argument);
    CHECK_THROWS_AS(padwalk::numerics::departure({x, y}, padwalk::numerics::Covariance(2)), std::invalid_argument);
    CHECK_THROWS_AS(padwalk::numerics::departure({std::nan(""), y}, v), std::invalid_argument);
}

TEST_CASE("the log of a mean holds where the numbers themselves are below any double", "[numerics]")
{
    using padwalk::numerics::log_mean;
    CHECK_THAT(log_mean({std::log(2.0), std::log(4.0)}), Catch::Matchers::WithinRel(std::log(3.0), 1e-14));
    CHECK_THAT(log_mean({-5000.0, -5000.0}), Catch::Matchers::WithinRel(-5000.0, 1e-14));
    CHECK_THROWS_AS(log_mean({}), std::invalid_argument);
}
