#include "padwalk/level/dilution.hpp"

#include "padwalk/figures/model.hpp"

#include <cmath>

namespace padwalk::level
{

units::Fraction old_water_left(units::Fraction share, units::Number times, Exchange exchange)
{
    if (exchange == Exchange::flow_through)
        return units::Fraction::from_value(std::exp(-share.value() * times.value()));
    if (share.value() > 1)
        throw figures::NotComputed(
            "more water than the pool holds can't be drained at one time; give the number of times, or flow_through");
    return units::Fraction::from_value(std::pow(1 - share.value(), times.value()));
}

units::AsItself diluted(units::AsItself old, units::AsItself fill, units::Fraction left)
{
    return fill + (old - fill) * left.value();
}

} // namespace padwalk::level
