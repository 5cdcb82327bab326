#include "padwalk/level/models.hpp"

#include "model_groups.hpp"

namespace padwalk::level
{

std::vector<figures::Model> models(reference::Data const& data)
{
    std::vector<figures::Model> all = loss_models(data);
    all.push_back(evaporation_model(data));
    for (auto& model : flow_models())
        all.push_back(std::move(model));
    all.push_back(leak_model(data));
    all.push_back(fill_valve_rest_model(data));
    all.push_back(water_hammer_model(data));
    all.push_back(dilution_model());
    all.push_back(air_gap_model(data));
    return all;
}

} // namespace padwalk::level
