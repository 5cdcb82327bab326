#include "rate_integral.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::level
{

std::vector<double> rate_nodes(double least, double most, double peak, double spread)
{
    // Even steps of a tenth catch what is broad, steps of a quarter deviation what is sharp.
    constexpr int even = 56, to_a_side = 24;
    constexpr double step = 0.25;
    std::vector<double> out;
    for (int i = 0; i <= even; ++i)
        out.push_back(least * std::pow(most / least, static_cast<double>(i) / even));
    for (int i = -to_a_side; i <= to_a_side; ++i)
    {
        double const rate = peak + i * step * spread;
        if (rate > least && rate < most)
            out.push_back(rate);
    }
    // Beyond an end the likelihood falls from it, with a length of its own.
    auto const from_end = [&](double end, double way)
    {
        constexpr double many_lengths = 20;
        double const away = way * (end - peak);
        double const length = std::min(spread, spread * spread / std::max(away, spread));
        for (double distance = step * step * length; away > 0 && distance < many_lengths * length;
             distance *= 1 + step / 2)
        {
            double const rate = end + way * distance;
            if (rate > least && rate < most)
                out.push_back(rate);
        }
    };
    from_end(least, 1);
    from_end(most, -1);
    std::sort(out.begin(), out.end());
    return out;
}

double log_mean_over(std::vector<double> const& rates, std::function<double(double)> const& log_likelihood)
{
    std::vector<double> logs;
    for (double const rate : rates)
        logs.push_back(log_likelihood(rate));
    double const greatest = *std::max_element(logs.begin(), logs.end());
    double sum = 0;
    for (std::size_t i = 1; i < rates.size(); ++i)
        sum +=
            std::log(rates[i] / rates[i - 1]) * (std::exp(logs[i] - greatest) + std::exp(logs[i - 1] - greatest)) / 2;
    return greatest + std::log(sum / std::log(rates.back() / rates.front()));
}

double log_mean_normal(double least, double most, double mean, double spread)
{
    return log_mean_over(rate_nodes(least, most, mean, spread),
                         [&](double rate)
                         {
                             double const z = (rate - mean) / spread;
                             return -z * z / 2;
                         });
}

} // namespace padwalk::level
