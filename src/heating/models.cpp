#include "padwalk/heating/models.hpp"

#include "model_groups.hpp"

namespace padwalk::heating
{

std::vector<figures::Model> models(reference::Data const& data)
{
    std::vector<figures::Model> all = heat_models();
    for (auto& model : gas_models(gas_facts(data)))
        all.push_back(std::move(model));
    return all;
}

} // namespace padwalk::heating
