#include "padwalk/numerics/root.hpp"

#include "padwalk/numerics/number_text.hpp"

#include <boost/math/policies/policy.hpp>
#include <boost/math/tools/toms748_solve.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <string>
#include <utility>

namespace padwalk::numerics
{
namespace
{

// Without promotion to long double, which WebAssembly has in software and at another width.
using InDouble = boost::math::policies::policy<boost::math::policies::promote_float<false>,
                                               boost::math::policies::promote_double<false>>;

std::string interval_text(double low, double high)
{
    return "between " + number_text(low) + " and " + number_text(high);
}

void require_usable(double low, double high, double relative_tolerance, int most_steps)
{
    if (!std::isfinite(low) || !std::isfinite(high))
        throw std::invalid_argument("a root is looked for between finite ends, not " + interval_text(low, high));
    if (!(relative_tolerance >= 4 * std::numeric_limits<double>::epsilon() && relative_tolerance <= 0.1))
        throw std::invalid_argument("the tolerance of a root is from 8.9e-16 to 0.1, not " +
                                    number_text(relative_tolerance));
    if (most_steps < 1)
        throw std::invalid_argument("a root takes at least 1 step, not " + std::to_string(most_steps));
}

/// The caller's function, with every value it returns checked.
class Checked
{
public:
    explicit Checked(std::function<double(double)> const& function) : function_(function) {}

    double operator()(double x) const
    {
        double const value = function_(x);
        if (!std::isfinite(value))
            throw FunctionNotFinite("no root: the function is " + number_text(value) + " at " + number_text(x));
        return value;
    }

private:
    std::function<double(double)> const& function_;
};

} // namespace

double bracketed_root(std::function<double(double)> const& function, double low, double high, double relative_tolerance,
                      int most_steps)
{
    require_usable(low, high, relative_tolerance, most_steps);
    if (low > high)
        std::swap(low, high);
    Checked const checked(function);
    double const at_low = checked(low);
    double const at_high = checked(high);
    if (at_low == 0.0)
        return low;
    if (at_high == 0.0)
        return high;
    if (std::signbit(at_low) == std::signbit(at_high))
        throw NoBracket("no root " + interval_text(low, high) + ": the function is " + number_text(at_low) + " at " +
                        number_text(low) + " and " + number_text(at_high) + " at " + number_text(high));

    double const smallest = relative_tolerance * (high - low);
    auto const narrow = [&](double a, double b) {
        return b - a <= relative_tolerance * std::max({std::fabs(a), std::fabs(b), smallest});
    };
    auto steps = static_cast<std::uintmax_t>(most_steps);
    auto const [left, right] =
        boost::math::tools::toms748_solve(checked, low, high, at_low, at_high, narrow, steps, InDouble());
    if (!narrow(left, right))
        throw NoConvergence("no root yet at step " + std::to_string(most_steps) + ": it lies " +
                            interval_text(left, right));

    double const root = left + (right - left) / 2;
    double const at_root = std::fabs(checked(root));
    // A continuous function that changes sign is smaller there than at its ends; one that is larger jumps over zero.
    if (at_root > std::max(std::fabs(at_low), std::fabs(at_high)))
        throw NoConvergence("no root: the function jumps over zero at " + number_text(root));
    return root;
}

} // namespace padwalk::numerics
