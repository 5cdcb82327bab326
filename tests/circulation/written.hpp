#pragma once
/// Quantities and records in tests, as a person writes them.

#include "padwalk/figures/figure.hpp"

#include <initializer_list>
#include <stdexcept>
#include <string>

namespace padwalk::tests
{

/// q<units::VolumeFlow>("60 gpm")
template <units::Quantity Q> Q q(std::string const& text)
{
    auto const read = units::read_quantity(text, units::measure_of<Q>::value, "a test's value");
    if (auto const* bad = std::get_if<units::TextProblem>(&read))
        throw std::invalid_argument("'" + text + "': " + bad->message);
    return units::of_si<Q>(std::get<units::Reading>(read).value);
}

/// A quantity in a unit, as a number.
template <units::Quantity Q> double in(Q quantity, std::string const& unit)
{
    return units::in_si(quantity) / units::in_si(q<Q>("1 " + unit));
}

inline units::Number number(double value)
{
    return units::of_si<units::Number>(value);
}

inline fields::Node record(std::initializer_list<std::pair<std::string, std::string>> entries)
{
    fields::Node node = fields::Node::map();
    for (auto const& [key, text] : entries)
        node.entries.push_back({key, {}, fields::Node::scalar(text)});
    return node;
}

inline figures::Model const& find(std::vector<figures::Model> const& models, std::string const& name)
{
    for (auto const& m : models)
        if (m.name == name)
            return m;
    throw std::out_of_range("no model " + name);
}

} // namespace padwalk::tests
