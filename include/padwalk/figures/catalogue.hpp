#pragma once
#include "padwalk/figures/model.hpp"

namespace padwalk::figures
{

/// All models, by name.
class Catalogue
{
public:
    /// Throws std::logic_error where two models have one name.
    void add(std::vector<Model> models);
    [[nodiscard]] std::vector<Model> const& models() const { return models_; }
    [[nodiscard]] Model const* find(std::string_view name) const;
    [[nodiscard]] Model const& at(std::string_view name) const; ///< std::logic_error for a name that is not there
    [[nodiscard]] std::vector<std::string> names() const;

private:
    std::vector<Model> models_;
};

} // namespace padwalk::figures
