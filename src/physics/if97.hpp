#pragma once
/// The kernel of [iapws-if97]: regions 1 (liquid), 2 (vapour) and 4 (saturation), in plain SI numbers: kelvin, pascal,
/// m3/kg, J/kg, J/(kg K). No range is checked here; physics/water.hpp does that.

namespace padwalk::physics::if97
{

struct State
{
    double specific_volume;
    double enthalpy;
    double internal_energy;
    double entropy;
    double specific_heat; ///< at constant pressure
};

[[nodiscard]] State liquid(double kelvin, double pascal);
[[nodiscard]] State vapour(double kelvin, double pascal);
[[nodiscard]] double saturation_pressure(double kelvin);

} // namespace padwalk::physics::if97
