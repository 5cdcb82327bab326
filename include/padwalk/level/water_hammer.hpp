#pragma once
/// The blow where flowing water is stopped.

#include "padwalk/level/stated.hpp"

#include <string>
#include <vector>

namespace padwalk::level
{

enum class PipeWall
{
    copper,
    pvc,
    polyethylene,
    steel
};

/// Speed of a pressure wave in water in a pipe whose wall gives way.
///
///     a = sqrt(K/density) / sqrt(1 + (K/E)(bore/thickness))
///
/// K bulk modulus of water, E Young's modulus of the wall, both as pressures.
///
/// Valid:    thin walls, no air in the water: a hundredth of air by volume makes the wave several times slower
/// Source:   [joukowsky-korteweg]
[[nodiscard]] units::Velocity wave_speed(units::Length bore, units::Length thickness, units::Pressure wall_stiffness,
                                         units::Pressure water_stiffness, units::Density density);

struct WaterHammer
{
    units::Velocity wave{};           ///< its speed
    units::Pressure sudden{};         ///< rise where the flow stops at once
    units::Duration there_and_back{}; ///< 2 length/wave: faster closing is sudden
    units::Pressure rise{};           ///< with this time of closing
};

/// Rise of pressure before a valve that closes.
///
///     sudden = density·wave·velocity;   rise = sudden·min(1, (2 length/wave)/closing)
///
/// Valid:    a single pipe fed from a main that keeps its pressure; closing even in time. Upper bound where air or
///           soft hose takes up the blow
/// Source:   [joukowsky-korteweg]
[[nodiscard]] WaterHammer water_hammer(units::Velocity velocity, units::Velocity wave, units::Length length,
                                       units::Duration closing, units::Density density);

} // namespace padwalk::level

template <> struct padwalk::fields::words_of<padwalk::level::PipeWall>
{
    static std::vector<std::string> words() { return {"copper", "pvc", "polyethylene", "steel"}; }
};
