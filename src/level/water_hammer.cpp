#include "padwalk/level/water_hammer.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::level
{

units::Velocity wave_speed(units::Length bore, units::Length thickness, units::Pressure wall_stiffness,
                           units::Pressure water_stiffness, units::Density density)
{
    double const give = water_stiffness / wall_stiffness * (bore / thickness);
    return units::of_si<units::Velocity>(std::sqrt(units::in_si(water_stiffness) / units::in_si(density) / (1 + give)));
}

WaterHammer water_hammer(units::Velocity velocity, units::Velocity wave, units::Length length, units::Duration closing,
                         units::Density density)
{
    WaterHammer out;
    out.wave = wave;
    out.sudden = density * wave * velocity;
    out.there_and_back = 2.0 * length / wave;
    double const there_and_back = units::in_si(out.there_and_back), slow = units::in_si(closing);
    out.rise = out.sudden * (slow > there_and_back ? there_and_back / slow : 1.0);
    return out;
}

} // namespace padwalk::level
