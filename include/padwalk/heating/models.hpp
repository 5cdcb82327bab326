#pragma once
#include "padwalk/figures/model.hpp"
#include "padwalk/reference/data.hpp"

namespace padwalk::heating
{

/// heater_rise, heat_flow_estimate, heat_up, electric_rise, gas_input, altitude_derate, heater_efficiency,
/// spa_heat_loss, heating_cost, heat_pump, dew_point_flue, heat_balance and flue_gas. The tables are read once, here.
/// Throws reference::DataProblems.
[[nodiscard]] std::vector<figures::Model> models(reference::Data const& data);

} // namespace padwalk::heating
