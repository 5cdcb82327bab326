#pragma once
/// Running one of the room's figures from what a person would write, and checks that several files make.

#include "data_folder.hpp"

#include "padwalk/figures/figure.hpp"
#include "padwalk/heating/models.hpp"
#include "padwalk/reference/yaml.hpp"
#include "padwalk/units/definitions.hpp"

#include <string>
#include <vector>

namespace padwalk::heating_tests
{

inline reference::Data const& data()
{
    static reference::Data const all = tests::data_from_folder();
    return all;
}

inline figures::Model const& model(std::string const& name)
{
    static std::vector<figures::Model> const all = heating::models(data());
    for (auto const& one : all)
        if (one.name == name)
            return one;
    throw std::logic_error("no model '" + name + "'");
}

inline figures::Figure figure(std::string const& name, std::string const& yaml)
{
    return figures::run_written(model(name), reference::read_yaml(yaml));
}

/// SI value of an output over a unit.
inline double value(figures::Figure const& figure, std::string const& output, double unit = 1.0)
{
    return figure.output(output).value.value() / unit;
}

inline units::Temperature celsius(double value)
{
    return units::of_si<units::Temperature>(value + units::exact::celsius_zero);
}

inline double in_celsius(units::Temperature t)
{
    return units::in_si(t) - units::exact::celsius_zero;
}

} // namespace padwalk::heating_tests
