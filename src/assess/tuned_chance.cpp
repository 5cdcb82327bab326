// A judged chance after counts, by integrating what it may be.
#include "padwalk/assess/tuning.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace padwalk::assess
{
namespace
{

double log_chance(double log_odds) // ln x where log_odds = ln x/(1 − x)
{
    return log_odds > 0 ? -std::log1p(std::exp(-log_odds)) : log_odds - std::log1p(std::exp(log_odds));
}

double log_odds_of(double chance)
{
    constexpr double least = 1e-15; // beyond it a double holds no more of 1 − chance
    double const p = std::clamp(chance, least, 1 - least);
    return std::log(p) - std::log1p(-p);
}

double chance_of(double log_odds)
{
    return std::exp(log_chance(log_odds));
}

struct Span
{
    double from, to;
};

// Where the density, given by its logarithm, is not negligible.
template <class LogDensity> Span mass_of(LogDensity const& log_density)
{
    constexpr double far = 35.0, step = 0.05, negligible = 30.0;
    constexpr int steps = static_cast<int>(2 * far / step);
    std::vector<double> values;
    for (int i = 0; i <= steps; ++i)
        values.push_back(log_density(-far + step * i));
    double const most = *std::max_element(values.begin(), values.end());
    int first = steps, last = 0;
    for (int i = 0; i <= steps; ++i)
        if (values[static_cast<std::size_t>(i)] > most - negligible)
            first = std::min(first, i), last = std::max(last, i);
    return {-far + step * (first - 1), -far + step * (last + 1)};
}

// Mean and quantiles of a chance whose density over its log odds is given, not normed.
template <class LogDensity> TunedChance integrated(double judged, LogDensity const& log_density)
{
    constexpr int cells = 4000;
    Span const span = mass_of(log_density);
    double const step = (span.to - span.from) / cells;
    std::vector<double> density;
    for (int i = 0; i <= cells; ++i)
        density.push_back(log_density(span.from + step * i));
    double const most = *std::max_element(density.begin(), density.end());
    std::vector<double> below{0.0}; // cumulative, by trapezia
    double sum = 0.0;
    for (std::size_t i = 0; i < density.size(); ++i)
    {
        density[i] = std::exp(density[i] - most);
        sum += density[i] * chance_of(span.from + step * static_cast<double>(i));
        if (i > 0)
            below.push_back(below.back() + (density[i] + density[i - 1]) / 2);
    }
    double const all = below.back();
    auto quantile = [&](double p)
    {
        auto const above = std::lower_bound(below.begin(), below.end(), p * all);
        auto const i = static_cast<std::size_t>(std::max<std::ptrdiff_t>(above - below.begin(), 1));
        // Within a cell the density is a line, so what lies below is a parabola.
        double const left = density[i - 1], rise = density[i] - left, rest = p * all - below[i - 1];
        double const root = std::sqrt(std::max(left * left + 2 * rise * rest, 0.0));
        double const share = left + root > 0 ? std::min(2 * rest / (left + root), 1.0) : 0.0;
        return chance_of(span.from + step * (static_cast<double>(i - 1) + share));
    };
    constexpr double tail = 0.025;
    return {judged, sum / all, quantile(tail), quantile(1 - tail)};
}

/// The judged number as a Beta distribution, over the log odds.
struct Judged
{
    double yes, no;
    Judged(double judged, double cases)
        : yes(cases * judged / std::min(judged, 1 - judged)), no(cases * (1 - judged) / std::min(judged, 1 - judged))
    {
    }
    [[nodiscard]] double log_density(double log_odds) const
    {
        return yes * log_chance(log_odds) + no * log_chance(-log_odds);
    }
};

} // namespace

TunedChance tuned_base_rate(double judged, double cases, std::vector<CauseLookedFor> const& looks)
{
    if (judged <= 0 || judged >= 1 || cases <= 0)
        return {judged, judged, judged, judged};
    Judged const before(judged, cases);
    double const then = log_odds_of(judged);
    std::vector<double> assessed;
    for (auto const& look : looks)
        assessed.push_back(log_odds_of(look.assessed));
    return integrated(judged,
                      [&](double log_odds)
                      {
                          double sum = before.log_density(log_odds);
                          for (std::size_t i = 0; i < looks.size(); ++i)
                          {
                              double const here = assessed[i] + log_odds - then;
                              sum += looks[i].counts * log_chance(looks[i].there ? here : -here);
                          }
                          return sum;
                      });
}

TunedChance tuned_weight(double judged, double cases, std::vector<LinkLookedFor> const& looks)
{
    if (judged <= 0 || judged >= 1 || cases <= 0)
        return {judged, judged, judged, judged};
    Judged const before(judged, cases);
    return integrated(judged,
                      [&](double log_odds)
                      {
                          double const weight = chance_of(log_odds), log_not = log_chance(-log_odds);
                          double sum = before.log_density(log_odds);
                          for (auto const& look : looks)
                              sum += look.seen ? std::log(look.otherwise + (1 - look.otherwise) * weight) : log_not;
                          return sum;
                      });
}

} // namespace padwalk::assess
