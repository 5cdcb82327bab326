#include "change_words.hpp"

#include "plain.hpp"

#include "padwalk/units/definitions.hpp"
#include "padwalk/units/print.hpp"

#include <array>
#include <cmath>

namespace padwalk::report
{

using units::Measure;

Measure difference_measure(Measure measure)
{
    switch (measure)
    {
    case Measure::temperature: return Measure::temperature_difference;
    case Measure::gauge_pressure:
    case Measure::absolute_pressure: return Measure::pressure_difference;
    case Measure::ph: return Measure::ph_difference;
    default: return measure;
    }
}

units::Style difference_style(Measure measure, double value, fields::FieldShape const* shape, units::System system)
{
    units::Style const style = shape != nullptr ? shape->style(system) : units::Style{system, {}, {}};
    std::string_view unit = units::unit_for(measure, value, style);
    auto const dimension = units::info(difference_measure(measure)).dimension;
    if (!unit.empty() && units::find_unit(unit, dimension) == nullptr)
        unit = {}; // 'psia' of an absolute pressure
    return {system, unit, unit};
}

namespace
{

std::string amount(double by, double doubt, Measure measure, double value, fields::FieldShape const* shape,
                   units::System system)
{
    return glued(units::show_with_doubt(difference_measure(measure), std::abs(by), doubt,
                                        difference_style(measure, value, shape, system)));
}

} // namespace

std::string change_in_words(assess::Difference const& d, Measure measure, double then, double now,
                            fields::FieldShape const* shape, units::System system)
{
    if (d.by == 0)
        return "the same";
    bool const vacuum = measure == Measure::gauge_pressure && then < 0 && now < 0;
    std::string const way = vacuum ? (d.by < 0 ? "deeper by " : "less deep by ") : d.by > 0 ? "up by " : "down by ";
    std::string const by =
        way + amount(d.by, d.doubt, measure, std::abs(now) > std::abs(then) ? now : then, shape, system);
    if (!d.doubts)
        return by + "; no doubt is known";
    double const doubts = *d.doubts;
    constexpr double many = 20;
    return by + ", " + (doubts > many ? "more than 20" : units::show_number(doubts, doubts < 9.95 ? 1 : 0)) + " doubts";
}

std::string means_of(units::Reading const& reading)
{
    return reading.method.empty() || reading.method == "given" || reading.method == "written"
               ? "one with its doubt written"
               : reading.method;
}

namespace
{

struct Period
{
    double seconds;
    std::string_view name;
    double up_to; ///< days that the series spans
};

constexpr double never = 1e9;
constexpr std::array periods{Period{units::exact::day, "a day", 10}, Period{7 * units::exact::day, "a week", 100},
                             Period{365.25 / 12 * units::exact::day, "a month", 1500},
                             Period{365.25 * units::exact::day, "a year", never}};

Period const& period_of(assess::Series const& series)
{
    double const days = (series.points.back().at.hours - series.points.front().at.hours) / 24;
    std::size_t i = 0;
    while (i + 1 < periods.size() && days > periods[i].up_to)
        ++i;
    return periods[i];
}

} // namespace

std::string trend_in_words(assess::Series const& series, units::System system)
{
    if (series.steady)
        return "the same at each";
    if (!series.trend)
        return "no trend: " + series.why_no_trend;
    auto const& trend = *series.trend;
    if (!trend.shows())
        return "no trend that its doubt would show";
    Period const& period = period_of(series);
    double const value = series.points.back().value;
    std::string out = trend.per_second > 0 ? "rises by " : "falls by ";
    out += amount(trend.per_second * period.seconds, trend.half_width / units::coverage * period.seconds,
                  series.measure, value, series.shape, system) +
           " " + std::string(period.name);
    constexpr double barely = 0.75; // of it: rounded, the two numbers look alike
    if (trend.half_width > barely * std::abs(trend.per_second))
        out += ", barely more than its doubt";
    return trend.values == 2 ? out + ", by two values alone" : out;
}

std::string band_in_words(assess::Series const& series, units::System system)
{
    if (!series.band)
        return {};
    auto const& band = *series.band;
    auto const show = [&](double value)
    {
        std::string text =
            units::show(series.measure, value, 0,
                        series.shape != nullptr ? series.shape->style(system) : units::Style{system, {}, {}});
        return glued(text.substr(0, text.find(" as "))); // the basis stands in the readings
    };
    std::string out;
    if (band.low && band.high)
    {
        std::string low = show(*band.low);
        std::string const high = show(*band.high);
        auto const unit = low.find("\u00a0"), same = high.find("\u00a0");
        if (unit != std::string::npos && same != std::string::npos && low.substr(unit) == high.substr(same))
            low.erase(unit); // '60 to 180 ppm'
        out = low + " to " + high;
    }
    else
        out = band.low ? "at least " + show(*band.low) : "at most " + show(*band.high);
    std::string whose = band.low ? band.low_body : band.high_body;
    if (band.low && band.high && band.low_body != band.high_body)
        whose += " and " + band.high_body;
    return out + " (" + whose + (band.from_memory ? ", from memory, not confirmed)" : ")");
}

} // namespace padwalk::report
