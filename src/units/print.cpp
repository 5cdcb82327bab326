#include "padwalk/units/print.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <limits>
#include <stdexcept>

namespace padwalk::units
{
namespace
{

Unit const& unit_of(Measure measure, std::string_view symbol)
{
    MeasureInfo const& m = info(measure);
    if (auto const* unit = find_unit(symbol, m.dimension))
        return *unit;
    throw std::logic_error("no unit '" + std::string(symbol) + "' for " + std::string(m.name));
}

// The place of the last digit worth printing: that of the first digit of the standard uncertainty.
int decimals_for(double value, double doubt)
{
    if (doubt > 0 && std::isfinite(doubt))
        return -static_cast<int>(std::floor(std::log10(doubt) + 1e-9));
    if (value == 0 || !std::isfinite(value))
        return 0;
    return 3 - static_cast<int>(std::floor(std::log10(std::abs(value))));
}

std::string with_unit(std::string number, Measure measure, std::string_view unit)
{
    MeasureInfo const& m = info(measure);
    if (!unit.empty())
    {
        bool const us_gallon = unit.starts_with("gal") || unit.starts_with("gpm") || unit == "gph";
        number += (us_gallon ? " US " : " ") + printed(unit);
    }
    if (!m.basis.empty())
        number += " as " + std::string(m.basis);
    return number;
}

// Trailing zeros after the point say nothing where there is no doubt to show.
std::string without_idle_zeros(std::string text)
{
    if (text.find('.') == std::string::npos)
        return text;
    while (text.back() == '0')
        text.pop_back();
    if (text.back() == '.')
        text.pop_back();
    return text;
}

// The size that chooses the unit: a value near zero is told in the unit of its doubt. The sign is kept.
double telling(double value, double doubt)
{
    double const size =
        doubt > 0 && std::isfinite(doubt) ? std::max(std::abs(value), coverage * doubt) : std::abs(value);
    return value < 0 ? -size : size;
}

// A vacuum is read off its gauge in inches of mercury; less than half an inch is a draft, told in inches of water.
bool is_vacuum(Measure measure, double value, System system)
{
    return measure == Measure::gauge_pressure && system == System::us &&
           -value >= 0.5 * unit_of(measure, "inHg").scale * (1 - 1e-9);
}

std::string digits(double value, double doubt)
{
    int const decimals = decimals_for(value, doubt);
    if (doubt > 0)
        return show_number(value, std::min(decimals, 9));
    return decimals > 9 ? show_significant(value, 4) : without_idle_zeros(show_number(value, std::max(decimals, 0)));
}

} // namespace

std::string show_number(double value, int decimals)
{
    if (!std::isfinite(value))
        return value > 0 ? "unlimited" : "none";
    double rounded = value;
    if (decimals < 0)
    {
        double const step = std::pow(10.0, -decimals);
        rounded = std::round(value / step) * step;
    }
    char buffer[400];
    std::snprintf(buffer, sizeof buffer, "%.*f", std::clamp(decimals, 0, 15), rounded);
    std::string text = buffer;
    if (text.find_first_not_of("-0.") == std::string::npos && text.front() == '-')
        text.erase(0, 1); // no minus zero
    std::size_t const point = std::min(text.find('.'), text.size());
    std::size_t const first = text.front() == '-' ? 1 : 0;
    if (point - first >= 5)
        for (std::size_t i = point; i > first + 3; i -= 3)
            text.insert(i - 3, ",");
    return text;
}

std::string show_significant(double value, int digits)
{
    if (value == 0 || !std::isfinite(value))
        return show_number(value, 0);
    double const size = std::abs(value);
    if (size < 1e-6 || size >= 1e15)
    {
        char buffer[64];
        std::snprintf(buffer, sizeof buffer, "%.*e", std::clamp(digits, 1, 17) - 1, value);
        return buffer;
    }
    return without_idle_zeros(show_number(value, digits - 1 - static_cast<int>(std::floor(std::log10(size)))));
}

std::string_view unit_for(Measure measure, double value, Style style)
{
    std::string_view const chosen = style.system == System::us ? style.unit_us : style.unit_si;
    if (!chosen.empty())
        return chosen;
    if (is_vacuum(measure, value, style.system))
        return "inHg";
    MeasureInfo const& m = info(measure);
    auto const choices = style.system == System::us ? m.us : m.si;
    std::string_view unit = choices.front().symbol;
    for (auto const& choice : choices)
        if (std::abs(value) >= choice.from * (1 - 1e-9))
            unit = choice.symbol;
    return unit;
}

double in_unit(Measure measure, double value, std::string_view unit)
{
    if (unit.empty())
        return value;
    Unit const& u = unit_of(measure, unit);
    return value / u.scale - u.zero;
}

std::string show(Measure measure, double value, double doubt, Style style)
{
    std::string_view const unit = unit_for(measure, telling(value, doubt), style);
    double const scale = unit.empty() ? 1.0 : unit_of(measure, unit).scale;
    return with_unit(digits(in_unit(measure, value, unit), doubt / scale), measure, unit);
}

std::string show_with_doubt(Measure measure, double value, double doubt, Style style)
{
    if (!(doubt > 0))
        return show(measure, value, doubt, style);
    std::string_view const unit = unit_for(measure, telling(value, doubt), style);
    double const scale = unit.empty() ? 1.0 : unit_of(measure, unit).scale;
    double const shown_doubt = doubt / scale;
    int const decimals = std::min(decimals_for(in_unit(measure, value, unit), shown_doubt), 9);
    return with_unit(show_number(in_unit(measure, value, unit), decimals) + " ± " +
                         show_number(coverage * shown_doubt, decimals),
                     measure, unit);
}

std::string show_interval(Measure measure, double value, double low, double high, Style style)
{
    double const doubt = (high - low) / (2 * coverage);
    if (!(doubt > 0))
        return show(measure, value, 0, style);
    double largest = value;
    for (double const end : {low, high})
        if (std::isfinite(end) && std::abs(end) > std::abs(largest))
            largest = end;
    std::string_view const unit = unit_for(measure, largest, style);
    double const scale = unit.empty() ? 1.0 : unit_of(measure, unit).scale;
    int const decimals = std::min(decimals_for(in_unit(measure, value, unit), doubt / scale), 9);
    return with_unit(show_number(in_unit(measure, value, unit), decimals), measure, unit) + " (" +
           show_number(in_unit(measure, low, unit), decimals) + " to " +
           show_number(in_unit(measure, high, unit), decimals) + ")";
}

} // namespace padwalk::units
