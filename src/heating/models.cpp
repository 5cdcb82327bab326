#include "padwalk/heating/models.hpp"

#include "model_groups.hpp"

namespace padwalk::heating
{

std::vector<figures::Model> models(reference::Data const& data)
{
    LossFacts const losses = loss_facts(data);
    FuelPrices const prices = fuel_prices(data);
    std::vector<figures::Model> all = heat_models();
    all.push_back(heat_up_model(losses, prices));
    all.push_back(electric_rise_model());
    all.push_back(heater_cycle_model());
    for (auto& model : gas_models(gas_facts(data)))
        all.push_back(std::move(model));
    all.push_back(spa_heat_loss_model(losses));
    all.push_back(heating_cost_model(prices));
    all.push_back(heat_pump_model(heat_pump_facts(data)));
    all.push_back(dew_point_flue_model(condensation_facts(data)));
    add_balance_models(all, fired_heater_table(data));
    return all;
}

} // namespace padwalk::heating
