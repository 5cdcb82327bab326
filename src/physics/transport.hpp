#pragma once
/// The kernels of [iapws-2008-viscosity] and [iapws-2011-conductivity] in plain SI numbers: kelvin, kg/m3, Pa s, W/(m
/// K). Both without their critical enhancement, which counts near 374 °C only. No range is checked here.

namespace padwalk::physics::transport
{

[[nodiscard]] double viscosity(double kelvin, double density);
[[nodiscard]] double conductivity(double kelvin, double density);

} // namespace padwalk::physics::transport
