#include "padwalk/report/history.hpp"

#include "padwalk/report/figures.hpp"
#include "padwalk/units/definitions.hpp"
#include "padwalk/units/print.hpp"

#include <array>

namespace padwalk::report
{
namespace
{

using fields::Tree;

constexpr std::array<std::string_view, 3> outcome_keys{"nothing_found", "refer", "unsafe"};
constexpr std::array<std::string_view, 3> side_keys{"within", "below", "above"};
constexpr std::array<std::string_view, 7> event_keys{"alarm", "alarm_gone", "found",     "verdict",
                                                     "dose",  "note",       "not_tested"};
constexpr std::array<std::string_view, 4> urgency_keys{"watch", "plan", "soon", "stop_use"};

template <class E, std::size_t N> std::string_view key_of(E value, std::array<std::string_view, N> const& keys)
{
    return keys.at(static_cast<std::size_t>(value));
}

template <class List, class Make> Tree list_of(List const& list, Make const& make)
{
    Tree out = Tree::list();
    for (auto const& entry : list)
        out.push(make(entry));
    return out;
}

/// The unit of a series' numbers, and how large it is.
struct Told
{
    units::Measure measure;
    std::string_view unit;
    double scale = 1.0;

    [[nodiscard]] double number(double si) const { return units::in_unit(measure, si, unit); }
};

Told told(assess::Series const& series, units::System system)
{
    fields::FieldShape plain;
    plain.measure = series.measure;
    std::string_view const unit = stable_unit(series.shape != nullptr ? *series.shape : plain, system);
    auto const* found = unit.empty() ? nullptr : units::find_unit(unit, units::info(series.measure).dimension);
    return {series.measure, unit, found != nullptr ? found->scale : 1.0};
}

Tree wanted(assess::Series const& series, Told const& in)
{
    if (!series.band)
        return {};
    auto const& band = *series.band;
    return std::move(Tree::map()
                         .add("low", band.low ? Tree(in.number(*band.low)) : Tree())
                         .add("low_of", band.low_body)
                         .add("high", band.high ? Tree(in.number(*band.high)) : Tree())
                         .add("high_of", band.high_body)
                         .add("from_memory", band.from_memory));
}

Tree trend(assess::Series const& series, Told const& in)
{
    if (!series.trend)
        return {};
    auto const& t = *series.trend;
    constexpr double day = units::exact::day;
    return std::move(Tree::map()
                         .add("per_day", t.per_second * day / in.scale)
                         .add("plus_minus", t.half_width * day / in.scale)
                         .add("values", t.values)
                         .add("by_scatter", t.by_scatter)
                         .add("shows", t.shows()));
}

Tree series_tree(assess::Series const& series, units::System system)
{
    Told const in = told(series, system);
    Tree out = Tree::map();
    out.add("item", series.item).add("label", series.label);
    out.add("figure", series.figure.empty() ? Tree() : Tree(series.figure));
    out.add("unit", in.unit).add("basis", units::info(series.measure).basis);
    out.add("values",
            list_of(series.points,
                    [&](assess::HistoryPoint const& p)
                    {
                        return std::move(
                            Tree::map()
                                .add("on", p.at.text)
                                .add("value", in.number(p.value))
                                .add("plus_minus", p.doubt > 0 ? Tree(units::coverage * p.doubt / in.scale) : Tree())
                                .add("visit", p.visit)
                                .add("method", p.method)
                                .add("side", series.band ? Tree(key_of(p.side, side_keys)) : Tree())
                                .add("surely", p.surely));
                    }));
    out.add("gaps", list_of(series.gaps, [](std::size_t visit) { return Tree(visit); }));
    out.add("steady", series.steady);
    out.add("trend", trend(series, in)).add("why_no_trend", series.why_no_trend);
    out.add("wanted", wanted(series, in));
    return out;
}

Tree visit_tree(assess::VisitInLog const& visit)
{
    auto const by = fields::words_of<visit::By>::words();
    return std::move(Tree::map()
                         .add("file", visit.file)
                         .add("on", visit.on ? Tree(visit.on->text) : Tree())
                         .add("by", visit.by ? Tree(by[static_cast<std::size_t>(*visit.by)]) : Tree())
                         .add("outcome", key_of(visit.outcome, outcome_keys))
                         .add("summary", visit.summary));
}

Tree event_tree(assess::HistoryEvent const& event)
{
    return std::move(Tree::map()
                         .add("visit", event.visit)
                         .add("item", event.item)
                         .add("kind", key_of(event.kind, event_keys))
                         .add("words", event.words)
                         .add("danger", event.danger)
                         .add("mark", event.number));
}

Tree alarm_tree(assess::StandingAlarm const& alarm)
{
    return std::move(Tree::map()
                         .add("item", alarm.item)
                         .add("name", alarm.name)
                         .add("say", alarm.say)
                         .add("urgency", key_of(alarm.urgency, urgency_keys))
                         .add("last_seen", alarm.visit)
                         .add("looked_at_last", alarm.looked_at));
}

Tree property_tree(assess::PropertyLog const& log, units::System system)
{
    auto const text = [](std::string const& words) { return Tree(words); };
    Tree out = Tree::map();
    out.add("property", log.name).add("unsafe", log.unsafe);
    out.add("visits", list_of(log.visits, visit_tree));
    out.add("items", list_of(log.items, text));
    out.add("alarms", list_of(log.alarms, alarm_tree));
    out.add("series", list_of(log.series, [&](assess::Series const& s) { return series_tree(s, system); }));
    out.add("events", list_of(log.events, event_tree));
    out.add("remarks", list_of(log.notes, text));
    return out;
}

} // namespace

Tree history_tree(assess::History const& history, units::System system)
{
    Tree out = Tree::map();
    out.add("properties", list_of(history.properties, [&](auto const& log) { return property_tree(log, system); }));
    out.add("not_read", list_of(history.not_read, [](assess::FileNotRead const& bad)
                                { return std::move(Tree::map().add("file", bad.file).add("error", bad.error)); }));
    return out;
}

} // namespace padwalk::report
