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
    Published const published{turnover_limits(data), filter_rate_limits(data), velocity_limits(data)};
    double const curve = curve_doubt(data);
    std::vector<figures::Model> all;
    add_water_models(all, read, published);
    add_head_models(all);
    add_pump_models(all, curve);
    add_pipe_models(all, published);
    add_suction_models(all, read);
    add_motor_models(all, read);
    add_filter_models(all, cleaning_rises(data));
    add_drain_models(all, cover_rules(data));
    add_energy_models(all, pump_rule(data), curve);
    add_flow_models(all, plant_table(data).filters, pump_power_table(data));
    return all;
}

} // namespace padwalk::circulation
