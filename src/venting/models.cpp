#include "padwalk/venting/models.hpp"

#include "model_groups.hpp"

namespace padwalk::venting
{

std::vector<figures::Model> models(reference::Data const& data)
{
    std::vector<figures::Model> all = room_models(combustion_air_rules(data), clearance_rules(data));
    for (auto& model : flue_models(carbon_monoxide_limits(data), stack_facts(data)))
        all.push_back(std::move(model));
    for (auto& model : run_models(vent_rules(data), flue_flow_facts(data)))
        all.push_back(std::move(model));
    all.push_back(carbon_monoxide_action_model(carbon_monoxide_actions(data)));
    return all;
}

} // namespace padwalk::venting
