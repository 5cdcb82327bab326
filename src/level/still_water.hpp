#pragma once
/// Evaporation of still, open water by a weather that is known with doubt.

#include "padwalk/level/level_record.hpp"

#include <array>

namespace padwalk::level
{

/// Water, air, humidity, wind.
constexpr std::size_t weather_readings = 4;

struct StillWater
{
    double rate = 0;                              ///< fall of the level, m/s
    std::array<double, weather_readings> moves{}; ///< of it, by one deviation of each reading
};

/// Throws: physics::OutOfRange
[[nodiscard]] StillWater still_water(LevelWeather const& weather, EvaporationForm form, EvaporationTable const& table);

} // namespace padwalk::level
