#pragma once
#include "padwalk/heating/gas.hpp"

#include "padwalk/figures/model.hpp"

namespace padwalk::heating
{

/// gas_input, altitude_derate and heater_efficiency: those that need the tables.
[[nodiscard]] std::vector<figures::Model> gas_models(GasFacts const& facts);

/// heater_rise, heat_flow_estimate, heat_up and electric_rise.
[[nodiscard]] std::vector<figures::Model> heat_models();

inline constexpr char const* rules_decide = "; the maker's instructions and local code rule";

} // namespace padwalk::heating
