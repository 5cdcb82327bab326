#pragma once
/// The figures of this room: water_volume, turnover, filter_rate, head_of_pressure, pressure_of_head,
/// total_dynamic_head, pump_flow, pump_speed, water_power, pipe_velocity, pipe_friction, operating_point,
/// suction_margin, motor_current, motor_load, filter_loading, drain_cover_flow, pump_running_cost,
/// reference_system_curves, weighted_energy_factor.

#include "padwalk/figures/model.hpp"
#include "padwalk/reference/data.hpp"

namespace padwalk::circulation
{

/// All models of this room, with the tables they need read from the data once.
[[nodiscard]] std::vector<figures::Model> models(reference::Data const& data);

} // namespace padwalk::circulation
