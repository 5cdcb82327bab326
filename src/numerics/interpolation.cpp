#include "padwalk/numerics/interpolation.hpp"

#include "padwalk/numerics/number_text.hpp"

#include <boost/math/interpolators/cubic_hermite.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

namespace padwalk::numerics
{
namespace
{

void require_finite(std::span<double const> values, std::string const& name)
{
    for (std::size_t i = 0; i < values.size(); ++i)
        if (!std::isfinite(values[i]))
            throw BadTable("row " + std::to_string(i + 1) + " of the table has " + number_text(values[i]) + " for " +
                           name);
}

void require_table(std::span<double const> x, std::span<double const> y)
{
    if (x.size() != y.size())
        throw BadTable("a table needs as many x as y, not " + std::to_string(x.size()) + " and " +
                       std::to_string(y.size()));
    if (x.size() < 2)
        throw BadTable("a table needs at least 2 rows, not " + std::to_string(x.size()));
    require_finite(x, "x");
    require_finite(y, "y");
    for (std::size_t i = 1; i < x.size(); ++i)
        if (!(x[i] > x[i - 1]))
            throw BadTable("x must rise from row to row, but row " + std::to_string(i + 1) + " has " +
                           number_text(x[i]) + " after " + number_text(x[i - 1]));
}

/// Slopes that keep the curve between its rows [fritsch-butland-1984]: zero where the rows turn, elsewhere the weighted
/// harmonic mean of the two neighbouring chords; the chord itself at the ends.
std::vector<double> monotone_slopes(std::span<double const> x, std::span<double const> y)
{
    std::size_t const last = x.size() - 1;
    auto const step = [&](std::size_t i) { return x[i + 1] - x[i]; };
    auto const chord = [&](std::size_t i) { return (y[i + 1] - y[i]) / step(i); };
    std::vector<double> slopes(x.size(), 0.0);
    slopes[0] = chord(0);
    slopes[last] = chord(last - 1);
    for (std::size_t i = 1; i < last; ++i)
    {
        double const before = chord(i - 1);
        double const after = chord(i);
        double const weight_before = 2 * step(i) + step(i - 1);
        double const weight_after = step(i) + 2 * step(i - 1);
        if ((before > 0 && after > 0) || (before < 0 && after < 0))
            slopes[i] = (weight_before + weight_after) / (weight_before / before + weight_after / after);
    }
    return slopes;
}

} // namespace

OutsideTable::OutsideTable(double at_, double low_, double high_)
    : std::domain_error(number_text(at_) + " is outside the table's " + number_text(low_) + " to " +
                        number_text(high_)),
      at(at_), low(low_), high(high_)
{
}

double linear_table(std::span<double const> x, std::span<double const> y, double at)
{
    require_table(x, y);
    if (!(at >= x.front() && at <= x.back()))
        throw OutsideTable(at, x.front(), x.back());
    auto const above = std::upper_bound(x.begin(), x.end(), at);
    if (above == x.end())
        return y.back();
    auto const i = static_cast<std::size_t>(above - x.begin());
    double const share = (at - x[i - 1]) / (x[i] - x[i - 1]);
    return y[i - 1] + share * (y[i] - y[i - 1]);
}

// Boost's cubic_hermite and not its pchip, which has the same slopes but refuses fewer than four rows.
struct MonotoneCurve::Cubic
{
    boost::math::interpolators::cubic_hermite<std::vector<double>> curve;
};

MonotoneCurve::MonotoneCurve(std::span<double const> x, std::span<double const> y)
{
    require_table(x, y);
    low_ = x.front();
    high_ = x.back();
    using Curve = decltype(Cubic::curve);
    cubic_ = std::make_shared<Cubic const>(Cubic{Curve(
        std::vector<double>(x.begin(), x.end()), std::vector<double>(y.begin(), y.end()), monotone_slopes(x, y))});
}

double MonotoneCurve::at(double x) const
{
    require_inside(x);
    return cubic_->curve(x);
}

double MonotoneCurve::slope(double x) const
{
    require_inside(x);
    return cubic_->curve.prime(x);
}

void MonotoneCurve::require_inside(double x) const
{
    if (!(x >= low_ && x <= high_))
        throw OutsideTable(x, low_, high_);
}

} // namespace padwalk::numerics
