#include "warming_tree.hpp"

#include "quantity_tree.hpp"

namespace padwalk::report
{
namespace
{

using fields::Tree;

Tree output(std::optional<figures::OutputValue> const& value, units::System system)
{
    return value ? output_tree(*value, system) : Tree();
}

template <class Q> Tree exact(Q value, units::System system)
{
    return reading_tree(units::Reading::exact(value), nullptr, system);
}

Tree hours(units::Duration time, units::System system)
{
    fields::FieldShape in_hours;
    in_hours.measure = units::Measure::duration;
    in_hours.unit_us = in_hours.unit_si = "h";
    return reading_tree(units::Reading::exact(time), &in_hours, system);
}

Tree curve(std::vector<heating::HeatUpPoint> const& points, units::System system)
{
    constexpr std::size_t every = 4; // the drawing has more; the last always stands
    Tree out = Tree::list();
    for (std::size_t i = 0; i < points.size(); ++i)
        if (i % every == 0 || i + 1 == points.size())
            out.push(std::move(
                Tree::map().add("time", hours(points[i].time, system)).add("water", exact(points[i].water, system))));
    return out;
}

Tree tree(assess::WarmingCost const& cost, units::System system)
{
    return std::move(Tree::map()
                         .add("time", output(cost.time, system))
                         .add("energy", output(cost.energy, system))
                         .add("cost", output(cost.cost, system))
                         .add("loss", output(cost.loss, system))
                         .add("month_energy", output(cost.month_energy, system))
                         .add("month_cost", output(cost.month_cost, system)));
}

Tree tree(assess::WarmingEntry const& w, units::System system)
{
    Tree basis = Tree::list();
    for (auto const& sentence : w.basis)
        basis.push(sentence);
    return std::move(Tree::map()
                         .add("water", w.water)
                         .add("heater", w.heater)
                         .add("from", exact(w.from, system))
                         .add("to", exact(w.to, system))
                         .add("stops_at", w.stops_at ? exact(*w.stops_at, system) : Tree())
                         .add("chance_of_stopping_short", w.stops_short)
                         .add("without_losses", w.shortest)
                         .add("covered", w.covered)
                         .add("as_found", tree(w.as_found, system))
                         .add("other_cover", w.other_cover ? tree(*w.other_cover, system) : Tree())
                         .add("in_words", w.words)
                         .add("likely", curve(w.likely, system))
                         .add("fast", curve(w.fast, system))
                         .add("slow", curve(w.slow, system))
                         .add("basis", std::move(basis)));
}

} // namespace

Tree warmings_tree(assess::Assessment const& a, units::System system)
{
    Tree out = Tree::list();
    for (auto const& warming : a.warmings)
        out.push(tree(warming, system));
    return out;
}

} // namespace padwalk::report
