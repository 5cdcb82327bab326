#pragma once
#include "padwalk/figures/model.hpp"
#include "padwalk/reference/data.hpp"

namespace padwalk::heating
{

/// heater_rise, gas_input, altitude_derate, heater_efficiency, heat_up, electric_rise and heat_flow_estimate.
/// The tables are read once, here. Throws reference::DataProblems.
[[nodiscard]] std::vector<figures::Model> models(reference::Data const& data);

} // namespace padwalk::heating
