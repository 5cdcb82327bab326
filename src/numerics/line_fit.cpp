#include "padwalk/numerics/line_fit.hpp"

#include "padwalk/numerics/gaussian.hpp"
#include "padwalk/numerics/number_text.hpp"

#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>

namespace padwalk::numerics
{
namespace
{

constexpr double inside = 0.95; // of the interval

void check(std::span<double const> x, std::span<double const> y, std::span<double const> doubts)
{
    if (x.size() < 2)
        throw std::invalid_argument("a line wants two values at least");
    if (x.size() != y.size() || x.size() != doubts.size())
        throw std::invalid_argument("a line through " + std::to_string(x.size()) + " places, " +
                                    std::to_string(y.size()) + " values and " + std::to_string(doubts.size()) +
                                    " doubts");
    for (std::size_t i = 0; i < x.size(); ++i)
    {
        if (!std::isfinite(x[i]) || !std::isfinite(y[i]))
            throw std::invalid_argument("value " + std::to_string(i + 1) + " is not finite");
        if (!(std::isfinite(doubts[i]) && doubts[i] > 0))
            throw std::invalid_argument("value " + std::to_string(i + 1) + " has a doubt of " + number_text(doubts[i]) +
                                        "; it must be above 0");
    }
    if (std::all_of(x.begin(), x.end(), [&](double place) { return place == x.front(); }))
        throw std::invalid_argument("a line through values that all stand at one place");
}

} // namespace

LineFit fit_line(std::span<double const> x, std::span<double const> y, std::span<double const> doubts)
{
    check(x, y, doubts);
    auto const weight = [&](std::size_t i) { return 1 / (doubts[i] * doubts[i]); };
    LineFit out;
    out.values = x.size();
    double weights = 0.0;
    for (std::size_t i = 0; i < x.size(); ++i)
    {
        weights += weight(i);
        out.centre += weight(i) * x[i];
        out.at_centre += weight(i) * y[i];
    }
    out.centre /= weights;
    out.at_centre /= weights;
    double spread = 0.0, together = 0.0;
    for (std::size_t i = 0; i < x.size(); ++i)
    {
        double const from = x[i] - out.centre;
        spread += weight(i) * from * from;
        together += weight(i) * from * (y[i] - out.at_centre); // less cancels than of y alone
    }
    out.slope = together / spread;
    out.slope_doubt = 1 / std::sqrt(spread);
    for (std::size_t i = 0; i < x.size(); ++i)
        out.chi_squared += weight(i) * std::pow(y[i] - out.at_centre - out.slope * (x[i] - out.centre), 2);
    return out;
}

SlopeInterval slope_interval(LineFit const& fit, bool doubts_known)
{
    if (fit.values < 3 && !doubts_known)
        throw std::invalid_argument("two values without doubt have a slope, and nothing says how sure it is");
    double const upper = (1 + inside) / 2;
    double const z = boost::math::quantile(boost::math::normal(), upper);
    if (fit.values < 3)
        return {fit.slope, z * fit.slope_doubt, false};
    auto const free = static_cast<double>(fit.values - 2);
    double const scatter = std::sqrt(fit.chi_squared / free);
    bool const by_scatter = !doubts_known || chance_above(fit.chi_squared, static_cast<int>(free)) < 1 - inside;
    if (!by_scatter)
        return {fit.slope, z * fit.slope_doubt * std::max(1.0, scatter), false};
    double const t = boost::math::quantile(boost::math::students_t(free), upper);
    return {fit.slope, t * fit.slope_doubt * scatter, true};
}

} // namespace padwalk::numerics
