#include "padwalk/numerics/statistics.hpp"

#include "padwalk/numerics/number_text.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <stdexcept>
#include <string>

namespace padwalk::numerics
{

double quantile(std::vector<double> values, double p)
{
    if (values.empty())
        throw std::invalid_argument("a quantile of no values");
    if (!(p >= 0 && p <= 1))
        throw std::invalid_argument("a quantile lies at 0 to 1, not at " + number_text(p));
    if (!std::all_of(values.begin(), values.end(), [](double value) { return std::isfinite(value); }))
        throw std::invalid_argument("a quantile of values of which one is not finite");
    std::sort(values.begin(), values.end());
    double const position = p * static_cast<double>(values.size() - 1);
    auto const below = static_cast<std::size_t>(position);
    double const share = position - static_cast<double>(below);
    if (share == 0.0)
        return values[below];
    return values[below] + share * (values[below + 1] - values[below]);
}

Combined combine(std::span<double const> values, std::span<double const> doubts)
{
    if (values.empty())
        throw std::invalid_argument("no readings to combine");
    if (values.size() != doubts.size())
        throw std::invalid_argument(std::to_string(values.size()) + " readings with " + std::to_string(doubts.size()) +
                                    " doubts");
    double weights = 0.0;
    double weighted = 0.0;
    for (std::size_t i = 0; i < values.size(); ++i)
    {
        if (!std::isfinite(values[i]))
            throw std::invalid_argument("reading " + std::to_string(i + 1) + " is " + number_text(values[i]));
        if (!(std::isfinite(doubts[i]) && doubts[i] > 0))
            throw std::invalid_argument("reading " + std::to_string(i + 1) + " has a doubt of " +
                                        number_text(doubts[i]) + "; it must be above 0");
        double const weight = 1 / (doubts[i] * doubts[i]);
        weights += weight;
        weighted += weight * values[i];
    }
    Combined result;
    result.value = weighted / weights;
    result.doubt = 1 / std::sqrt(weights);
    for (std::size_t i = 0; i < values.size(); ++i)
        result.chi_squared += std::pow((values[i] - result.value) / doubts[i], 2);
    return result;
}

} // namespace padwalk::numerics
