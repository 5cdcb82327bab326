#include "loop_tree.hpp"

#include "quantity_tree.hpp"

namespace padwalk::report
{
namespace
{

using assess::LoopPlace;
using fields::Tree;

template <class List, class Each> Tree list_of(List const& list, Each each)
{
    Tree out = Tree::list();
    for (auto const& entry : list)
        out.push(each(entry));
    return out;
}

std::string key_of(LoopPlace place)
{
    return fields::words_of<LoopPlace>::words().at(static_cast<std::size_t>(place));
}

template <class Q> Tree measured(units::Measured<Q> const& value, units::System system)
{
    return reading_tree(units::Reading::of(value), nullptr, system);
}

// What a pump takes in is told in watts, as its field on the visit's sheet is.
fields::FieldShape const* shape_of(assess::ReadingAgainstSound const& reading)
{
    static auto const watts = []
    {
        fields::FieldShape shape;
        shape.unit_us = shape.unit_si = "W";
        return shape;
    }();
    return reading.place == LoopPlace::pump && reading.reading.measure == units::Measure::power &&
                   reading.expected.measure == units::Measure::power
               ? &watts
               : nullptr;
}

Tree tree(assess::ReadingAgainstSound const& reading, units::System system)
{
    return std::move(Tree::map()
                         .add("item", reading.item)
                         .add("label", reading.label)
                         .add("place", key_of(reading.place))
                         .add("reading", reading_tree(reading.reading, shape_of(reading), system))
                         .add("expected", reading_tree(reading.expected, shape_of(reading), system))
                         .add("off", reading.off)
                         .add("odd", reading.odd));
}

Tree tree(assess::FlowBy const& way, units::System system)
{
    return std::move(Tree::map()
                         .add("way", way.way)
                         .add("flow", measured(way.flow, system))
                         .add("off", way.off)
                         .add("odd", way.odd));
}

Tree tree(assess::LoopPart const& part)
{
    return std::move(Tree::map()
                         .add("place", key_of(part.place))
                         .add("item", part.item)
                         .add("name", part.name)
                         .add("detail", part.detail)
                         .add("assumed", part.assumed));
}

Tree tree(assess::LoopFault const& fault)
{
    return std::move(Tree::map().add("place", key_of(fault.place)).add("cause", fault.cause));
}

Tree tree(std::optional<assess::LoopDuty> const& duty, units::System system)
{
    return duty ? std::move(
                      Tree::map().add("flow", measured(duty->flow, system)).add("head", measured(duty->head, system)))
                : Tree();
}

Tree curve(std::vector<fields::CurvePoint> const& points, units::System system)
{
    return list_of(points,
                   [&](fields::CurvePoint const& p)
                   {
                       return std::move(Tree::map()
                                            .add("flow", reading_tree(units::Reading::exact(p.flow), nullptr, system))
                                            .add("head", reading_tree(units::Reading::exact(p.head), nullptr, system)));
                   });
}

Tree tree(assess::LoopEntry const& loop, units::System system)
{
    auto each = [system](auto const& entry) { return tree(entry, system); };
    auto plain = [](auto const& entry) { return tree(entry); };
    return std::move(Tree::map()
                         .add("item", loop.item)
                         .add("readings", list_of(loop.readings, each))
                         .add("flows", list_of(loop.flows, each))
                         .add("flow", loop.flow ? measured(*loop.flow, system) : Tree())
                         .add("flow_in_words", loop.flow_words)
                         .add("parts", list_of(loop.parts, plain))
                         .add("faults", list_of(loop.faults, plain))
                         .add("pump_is_usual", loop.pump_is_usual)
                         .add("pump_curve", curve(loop.pump_curve, system))
                         .add("sound_system", curve(loop.sound_system, system))
                         .add("sound", tree(loop.sound, system))
                         .add("measured", tree(loop.measured, system))
                         .add("basis", list_of(loop.basis, [](std::string const& text) { return Tree(text); })));
}

} // namespace

Tree against_sound_tree(assess::ReadingAgainstSound const& reading, units::System system)
{
    return tree(reading, system);
}

Tree loops_tree(assess::Assessment const& a, units::System system)
{
    return list_of(a.loops, [system](auto const& loop) { return tree(loop, system); });
}

} // namespace padwalk::report
