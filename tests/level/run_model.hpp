#pragma once
/// Running one of the room's models from what a person would write.

#include "data_folder.hpp"

#include "padwalk/figures/catalogue.hpp"
#include "padwalk/figures/figure.hpp"
#include "padwalk/level/models.hpp"

namespace padwalk::level_tests
{

inline reference::Data const& data()
{
    static reference::Data const all = tests::data_from_folder();
    return all;
}

inline figures::Catalogue const& catalogue()
{
    static figures::Catalogue const all = []
    {
        figures::Catalogue c;
        c.add(level::models(data()));
        return c;
    }();
    return all;
}

/// The figure of a model for pairs of field and text.
inline figures::Figure figure(std::string const& model, std::vector<std::pair<std::string, std::string>> const& written)
{
    fields::Node record = fields::Node::map();
    for (auto const& [key, text] : written)
        record.entries.push_back({key, {}, fields::Node::scalar(text)});
    return figures::run_written(catalogue().at(model), record);
}

} // namespace padwalk::level_tests
