#include "padwalk/circulation/head.hpp"

#include "padwalk/circulation/pipe.hpp"
#include "padwalk/physics/water.hpp"

namespace padwalk::circulation
{

units::Head head_of_pressure(units::Pressure pressure, units::Temperature water)
{
    return units::Head{pressure / (physics::density(water) * physics::standard_gravity)};
}

units::Pressure pressure_of_head(units::Head head, units::Temperature water)
{
    return physics::density(water) * physics::standard_gravity * head.plain();
}

units::Head velocity_head(units::Velocity velocity)
{
    return units::Head{velocity * velocity / (2.0 * physics::standard_gravity)};
}

TotalHead total_dynamic_head(GaugePoint const& suction, GaugePoint const& discharge,
                             std::optional<units::VolumeFlow> flow, units::Temperature water)
{
    units::Head const pressure_part = head_of_pressure(discharge.reading - suction.reading, water);
    units::Head const height_part{discharge.height - suction.height};
    TotalHead out{pressure_part + height_part, std::nullopt};
    if (flow && suction.bore && discharge.bore)
    {
        out.velocity_part =
            velocity_head(pipe_velocity(*flow, *discharge.bore)) - velocity_head(pipe_velocity(*flow, *suction.bore));
        out.total = out.total + *out.velocity_part;
    }
    return out;
}

} // namespace padwalk::circulation
