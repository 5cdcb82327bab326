#include "padwalk/circulation/models.hpp"

#include "models_parts.hpp"

#include "padwalk/reference/sources.hpp"

namespace padwalk::circulation
{

namespace
{

// The instruments' row of a published curve, as a share.
double curve_doubt(reference::Data const& data)
{
    auto const whole = units::Reading::exact(units::of_si<units::VolumeFlow>(1.0));
    return reference::instruments(data)(whole, "curve", {}).doubt;
}

} // namespace

std::vector<figures::Model> models(reference::Data const& data)
{
    Rules const read = rules(data);
    std::vector<figures::Model> all;
    add_water_models(all, read);
    add_head_models(all);
    add_pump_models(all, curve_doubt(data));
    add_pipe_models(all);
    add_suction_models(all, read);
    add_motor_models(all, read);
    return all;
}

} // namespace padwalk::circulation
