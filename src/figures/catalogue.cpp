#include "padwalk/figures/catalogue.hpp"

#include <algorithm>

namespace padwalk::figures
{

void Catalogue::add(std::vector<Model> models)
{
    for (auto& model : models)
    {
        if (find(model.name) != nullptr)
            throw std::logic_error("two models are called '" + model.name + "'");
        models_.push_back(std::move(model));
    }
    std::sort(models_.begin(), models_.end(), [](Model const& a, Model const& b) { return a.name < b.name; });
}

Model const* Catalogue::find(std::string_view name) const
{
    for (auto const& model : models_)
        if (model.name == name)
            return &model;
    return nullptr;
}

Model const& Catalogue::at(std::string_view name) const
{
    if (Model const* model = find(name))
        return *model;
    throw std::logic_error("no model '" + std::string(name) + "'");
}

std::vector<std::string> Catalogue::names() const
{
    std::vector<std::string> out;
    for (auto const& model : models_)
        out.push_back(model.name);
    return out;
}

} // namespace padwalk::figures
