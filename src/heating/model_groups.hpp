#pragma once
#include "padwalk/heating/condensation.hpp"
#include "padwalk/heating/fired_heater.hpp"
#include "padwalk/heating/fuel_price.hpp"
#include "padwalk/heating/gas.hpp"
#include "padwalk/heating/heat_loss.hpp"
#include "padwalk/heating/heat_pump.hpp"

#include "padwalk/figures/model.hpp"

namespace padwalk::heating
{

/// gas_input, altitude_derate and heater_efficiency: those that need the tables.
[[nodiscard]] std::vector<figures::Model> gas_models(GasFacts const& facts);

/// heater_rise and heat_flow_estimate.
[[nodiscard]] std::vector<figures::Model> heat_models();

[[nodiscard]] figures::Model heat_up_model(LossFacts const& facts, FuelPrices const& prices);
[[nodiscard]] figures::Model electric_rise_model();
[[nodiscard]] figures::Model heater_cycle_model();
[[nodiscard]] figures::Model spa_heat_loss_model(LossFacts const& facts);
[[nodiscard]] figures::Model heating_cost_model(FuelPrices const& prices);
[[nodiscard]] figures::Model heat_pump_model(HeatPumpFacts const& facts);
[[nodiscard]] figures::Model dew_point_flue_model(CondensationFacts const& facts);
/// heat_balance and flue_gas.
void add_balance_models(std::vector<figures::Model>& all, FiredHeaterTable const& table);

inline constexpr char const* rules_decide = "; the maker's instructions and local code rule";

} // namespace padwalk::heating
