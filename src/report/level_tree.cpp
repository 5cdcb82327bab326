#include "level_tree.hpp"

#include "loop_tree.hpp"
#include "quantity_tree.hpp"

namespace padwalk::report
{
namespace
{

using fields::Tree;

/// In units that everybody has for a level, however small.
template <class Q> Tree value(units::Reading const& reading, char const* us, char const* si, units::System system)
{
    fields::FieldShape shape;
    shape.measure = units::measure_of<Q>::value;
    shape.unit_us = us, shape.unit_si = si;
    return reading_tree(reading, &shape, system);
}

Tree rate(units::Velocity v, units::System system)
{
    return value<units::Velocity>(units::Reading::exact(v), "in/day", "mm/day", system);
}

Tree fall(units::Measured<units::Length> const& m, units::System system)
{
    return value<units::Length>(units::Reading::of(m), "in", "mm", system);
}

Tree leak(level::LeakRate const& leak, units::System system)
{
    return std::move(
        Tree::map()
            .add("estimate", value<units::Velocity>(units::Reading::of(leak.estimate), "in/day", "mm/day", system))
            .add("median", rate(leak.median, system))
            .add("low", rate(leak.low, system))
            .add("high", rate(leak.high, system)));
}

Tree marks(assess::LevelEntry const& level, units::System system)
{
    Tree out = Tree::list();
    for (std::size_t i = 0; i < level.record.marks.size() && i < level.balance.foretold.size(); ++i)
        out.push(std::move(
            Tree::map()
                .add("time", value<units::Duration>(units::Reading::exact(level.record.marks[i].at), "h", "h", system))
                .add("fall", fall(level.record.marks[i].fall, system))
                .add("without_leak", fall(level.balance.foretold[i].fall, system))));
    return out;
}

Tree settling(level::Settling const& s, units::System system)
{
    Tree fittings = Tree::list();
    for (auto const& f : s.fittings)
        fittings.push(std::move(Tree::map().add("name", f.name).add("chance", f.chance.value())));
    auto const depth = [&](units::Length d)
    { return value<units::Length>(units::Reading::exact(d), "in", "mm", system); };
    return std::move(Tree::map()
                         .add("depth", depth(s.depth))
                         .add("low", depth(s.low))
                         .add("high", depth(s.high))
                         .add("fittings", std::move(fittings)));
}

Tree fittings(assess::LevelEntry const& level, units::System system)
{
    Tree out = Tree::list();
    for (auto const& f : level.fittings)
        out.push(
            std::move(Tree::map()
                          .add("kind", fields::words_of<visit::FittingKind>::words()[static_cast<std::size_t>(f.kind)])
                          .add("name", f.place.name)
                          .add("depth", fall(f.place.depth, system))));
    return out;
}

Tree course(assess::LevelCourse const& c, units::System system)
{
    return std::move(Tree::map()
                         .add("trend", fields::words_of<assess::LevelTrend>::words()[static_cast<std::size_t>(c.trend)])
                         .add("time", value<units::Duration>(units::Reading::exact(c.time), "h", "h", system))
                         .add("fall", fall(c.fall, system))
                         .add("without_leak", fall(c.without_leak, system)));
}

Tree tree(assess::LevelEntry const& level, units::System system)
{
    Tree basis = Tree::list();
    for (auto const& text : level.basis)
        basis.push(Tree(text));
    auto const& b = level.balance;
    return std::move(Tree::map()
                         .add("item", level.item)
                         .add("in_words", level.words)
                         .add("leak", leak(b.leak, system))
                         .add("pump_on", b.on ? leak(*b.on, system) : Tree())
                         .add("pump_off", b.off ? leak(*b.off, system) : Tree())
                         .add("log_odds_of_leak", b.odds.log_ratio)
                         .add("least_shown", rate(b.least_shown, system))
                         .add("watch_longer",
                              level.watch_longer
                                  ? value<units::Duration>(units::Reading::exact(*level.watch_longer), "h", "h", system)
                                  : Tree())
                         .add("settling", level.settling ? settling(*level.settling, system) : Tree())
                         .add("fittings", fittings(level, system))
                         .add("course", level.course ? course(*level.course, system) : Tree())
                         .add("marks", marks(level, system))
                         .add("basis", std::move(basis)));
}

} // namespace

Tree fills_tree(assess::Assessment const& a, units::System system)
{
    Tree out = Tree::list();
    for (auto const& fill : a.fills)
    {
        Tree readings = Tree::list(), basis = Tree::list();
        for (auto const& reading : fill.readings)
            readings.push(against_sound_tree(reading, system));
        for (auto const& text : fill.basis)
            basis.push(Tree(text));
        out.push(std::move(Tree::map()
                               .add("item", fill.item)
                               .add("in_words", fill.words)
                               .add("reach", fill.reach)
                               .add("readings", std::move(readings))
                               .add("basis", std::move(basis))));
    }
    return out;
}

Tree levels_tree(assess::Assessment const& a, units::System system)
{
    Tree out = Tree::list();
    for (auto const& level : a.levels)
        out.push(tree(level, system));
    return out;
}

} // namespace padwalk::report
