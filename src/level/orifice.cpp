#include "padwalk/level/orifice.hpp"

#include <cmath>
#include <numbers>

namespace padwalk::level
{

units::VolumeFlow orifice_flow(units::Length bore, units::Pressure difference, units::Number coefficient,
                               units::Density density)
{
    units::Area const hole = std::numbers::pi / 4 * bore * bore;
    auto const jet = units::of_si<units::Velocity>(std::sqrt(2 * units::in_si(difference) / units::in_si(density)));
    return coefficient.value() * hole * jet;
}

} // namespace padwalk::level
