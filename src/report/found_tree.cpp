#include "found_tree.hpp"

namespace padwalk::report
{
namespace
{

using fields::Tree;

std::string_view key_of(assess::FoundMeaning meaning)
{
    switch (meaning)
    {
    case assess::FoundMeaning::cause: return "cause";
    case assess::FoundMeaning::unclear: return "unclear";
    case assess::FoundMeaning::not_known: break;
    }
    return "not_in_the_knowledge";
}

} // namespace

Tree found_tree(assess::Assessment const& a)
{
    Tree out = Tree::list();
    for (auto const& entry : a.found)
    {
        Tree may = Tree::list();
        for (auto const& id : entry.may_mean)
            may.push(id);
        out.push(std::move(Tree::map()
                               .add("item", entry.item)
                               .add("words", entry.words)
                               .add("was", entry.was)
                               .add("meaning", key_of(entry.meaning))
                               .add("cause", entry.cause)
                               .add("name", entry.name)
                               .add("may_mean", std::move(may))
                               .add("prior", entry.prior)
                               .add("probability", entry.probability ? Tree(*entry.probability) : Tree())
                               .add("rank", entry.rank)
                               .add("stops_use", entry.stops_use)));
    }
    return out;
}

Tree licences_tree(assess::Referral const& referral)
{
    Tree classes = Tree::list();
    for (auto const& one : referral.licences)
        classes.push(std::move(
            Tree::map().add("name", one.name).add("seen", one.from_memory ? "from memory, not confirmed" : "")));
    return std::move(Tree::map().add("classes", std::move(classes)).add("note", referral.licence_note));
}

} // namespace padwalk::report
