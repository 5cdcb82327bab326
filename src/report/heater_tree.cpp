#include "heater_tree.hpp"

#include "loop_tree.hpp"
#include "quantity_tree.hpp"

namespace padwalk::report
{
namespace
{

using fields::Tree;

template <class Q> Tree value(std::optional<Q> const& q, units::System system)
{
    return q ? reading_tree(units::Reading::exact(*q), nullptr, system) : Tree();
}

Tree unexplained(heating::HeatBalance const& b, units::System system)
{
    if (!b.unexplained || !b.doubt)
        return Tree();
    return reading_tree(units::Reading::of(units::Measured<units::Power>{*b.unexplained, *b.doubt, "balance"}), nullptr,
                        system);
}

Tree tree(heating::HeatBalance const& b, std::string const& words, units::System system)
{
    auto const& sides = fields::words_of<heating::BalanceSide>::words();
    return std::move(Tree::map()
                         .add("input", value(b.input, system))
                         .add("water", value(b.water, system))
                         .add("stack", value(b.stack, system))
                         .add("jacket", value(b.jacket, system))
                         .add("unexplained", unexplained(b, system))
                         .add("efficiency_by_water", value(b.efficiency_by_water, system))
                         .add("efficiency_by_stack", value(b.efficiency_by_stack, system))
                         .add("excess_air", value(b.excess_air, system))
                         .add("speaks_against", sides.at(static_cast<std::size_t>(b.side)))
                         .add("in_words", words));
}

Tree tree(assess::HeaterEntry const& heater, units::System system)
{
    Tree readings = Tree::list(), basis = Tree::list();
    for (auto const& reading : heater.readings)
        readings.push(against_sound_tree(reading, system));
    for (auto const& text : heater.basis)
        basis.push(Tree(text));
    return std::move(Tree::map()
                         .add("item", heater.item)
                         .add("balance", heater.balance ? tree(*heater.balance, heater.balance_words, system) : Tree())
                         .add("readings", std::move(readings))
                         .add("basis", std::move(basis)));
}

} // namespace

Tree heaters_tree(assess::Assessment const& a, units::System system)
{
    Tree out = Tree::list();
    for (auto const& heater : a.heaters)
        out.push(tree(heater, system));
    return out;
}

} // namespace padwalk::report
