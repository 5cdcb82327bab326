#include "vent_tree.hpp"

#include "quantity_tree.hpp"

namespace padwalk::report
{
namespace
{

using fields::Tree;

Tree reading(std::optional<units::Reading> const& value, units::System system)
{
    return value ? reading_tree(*value, nullptr, system) : Tree();
}

Tree tree(venting::JudgedRule const& rule, units::System system)
{
    return std::move(Tree::map()
                         .add("rule", rule.id)
                         .add("keeps", fields::words_of<venting::Keeps>::words()[static_cast<std::size_t>(rule.keeps)])
                         .add("asks", rule.asks)
                         .add("note", rule.note)
                         .add("edition", rule.edition)
                         .add("key", rule.source.key)
                         .add("seen", rule.from_memory() ? "from memory, not confirmed" : "")
                         .add("found", rule.found)
                         .add("measured", reading(rule.measured, system))
                         .add("limit", reading(rule.limit, system))
                         .add("margin", reading(rule.margin, system)));
}

Tree tree(assess::VentEntry const& vent, units::System system)
{
    Tree rules = Tree::list();
    for (auto const& rule : vent.rules)
        rules.push(tree(rule, system));
    return std::move(Tree::map()
                         .add("item", vent.item)
                         .add("heater", vent.heater)
                         .add("in_pit", vent.in_pit)
                         .add("draft_in_words", vent.draft_words)
                         .add("rules", std::move(rules)));
}

} // namespace

Tree vents_tree(assess::Assessment const& a, units::System system)
{
    Tree out = Tree::list();
    for (auto const& vent : a.vents)
        out.push(tree(vent, system));
    return out;
}

} // namespace padwalk::report
