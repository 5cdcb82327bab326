#include "padwalk/physics/range.hpp"

#include "padwalk/numerics/number_text.hpp"
#include "padwalk/units/definitions.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace padwalk::physics
{
namespace
{

std::string message(OutOfRange const& e)
{
    auto const with_unit = [&](std::string const& number) { return e.unit.empty() ? number : number + " " + e.unit; };
    std::string text = e.name + " " + with_unit(e.value) + " is outside " + e.low + " to " + with_unit(e.high);
    if (!e.source.empty())
        text += " of [" + e.source + "]";
    return text;
}

} // namespace

OutOfRange::OutOfRange(std::string name_, std::string value_, std::string low_, std::string high_, std::string unit_,
                       std::string source_)
    : std::domain_error(""), name(std::move(name_)), value(std::move(value_)), low(std::move(low_)),
      high(std::move(high_)), unit(std::move(unit_)), source(std::move(source_))
{
    static_cast<std::domain_error&>(*this) = std::domain_error(message(*this));
}

void require_within(Range const& range, double value, std::string_view name)
{
    double const conversion_rounding = 1e-9 * std::max(std::fabs(range.low), std::fabs(range.high));
    if (value >= range.low - conversion_rounding && value <= range.high + conversion_rounding)
        return;
    std::string const low = numerics::number_text(range.low);
    std::string const high = numerics::number_text(range.high);
    std::string text = numerics::number_text(value);
    for (int digits = 7; digits <= 17 && (text == low || text == high); ++digits)
        text = numerics::number_text(value, digits);
    throw OutOfRange(std::string(name), text, low, high, std::string(range.unit), std::string(range.source));
}

void require_within(Range const& celsius, units::Temperature temperature, std::string_view name)
{
    require_within(celsius, units::in_si(temperature) - units::exact::celsius_zero, name);
}

void require_within(Range const& percent, units::Fraction share, std::string_view name)
{
    require_within(percent, share.value() * 100, name);
}

} // namespace padwalk::physics
