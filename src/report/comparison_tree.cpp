#include "padwalk/report/comparison.hpp"

#include "change_words.hpp"
#include "quantity_tree.hpp"

#include "padwalk/report/figures.hpp"
#include "padwalk/units/print.hpp"

#include <array>

namespace padwalk::report
{
namespace
{

using fields::Tree;

template <class E, std::size_t N> std::string_view key_of(E value, std::array<std::string_view, N> const& keys)
{
    return keys.at(static_cast<std::size_t>(value));
}

constexpr std::array<std::string_view, 5> standing_keys{"open", "new", "resolved", "no_fault", "not_told"};
constexpr std::array<std::string_view, 4> changed_keys{"agrees", "changed", "only_then", "only_now"};
constexpr std::array<std::string_view, 3> state_keys{"seen", "not_seen", "unclear"};
constexpr std::array<std::string_view, 3> found_keys{"not_spoken", "confirmed", "ruled_out"};
constexpr std::array<std::string_view, 4> alarm_keys{"stands", "new", "not_looked_at", "gone"};
constexpr std::array<std::string_view, 3> left_keys{"nothing", "something", "unsafe"};
constexpr std::array<std::string_view, 4> urgency_keys{"watch", "plan", "soon", "stop_use"};
constexpr std::array<std::string_view, 6> condition_keys{"unsafe",      "does_not_work", "works_with_fault",
                                                         "cannot_tell", "works",         "not_tested"};

template <class List, class Make> Tree list_of(List const& list, Make const& make)
{
    Tree out = Tree::list();
    for (auto const& entry : list)
        out.push(make(entry));
    return out;
}

Tree matters(std::vector<assess::Matter> const& list)
{
    return list_of(
        list,
        [](assess::Matter const& m) {
            return std::move(
                Tree::map().add("item", m.item).add("what", m.what).add("why", m.why).add("danger", m.danger));
        });
}

Tree verdict(std::optional<assess::Verdict> const& v)
{
    if (!v)
        return {};
    return std::move(Tree::map().add("condition", key_of(v->condition, condition_keys)).add("because", v->because));
}

// In the unit in which the value itself is given.
Tree change(std::optional<assess::Difference> const& d, units::Measure measure, fields::FieldShape const* shape,
            units::System system)
{
    if (!d)
        return {};
    fields::FieldShape plain;
    plain.measure = measure;
    std::string_view const unit = stable_unit(shape != nullptr ? *shape : plain, system);
    auto const* found = unit.empty() ? nullptr : units::find_unit(unit, units::info(measure).dimension);
    double const scale = found != nullptr ? found->scale : 1.0;
    return std::move(Tree::map()
                         .add("by", d->by / scale)
                         .add("plus_minus", units::coverage * d->doubt / scale)
                         .add("doubts", d->doubts ? Tree(*d->doubts) : Tree()));
}

Tree side(std::optional<assess::ReadingSide> const& s, fields::FieldShape const* shape, units::System system)
{
    if (!s)
        return {};
    Tree out = s->words.empty() ? reading_tree(s->reading, shape, system) : Tree::map().add("words", s->words);
    if (s->words.empty() && !s->reading.method.empty())
        out.add("method", s->reading.method);
    if (!s->taken_at.empty())
        out.add("test_of", s->taken_at);
    return out;
}

Tree reading(assess::ReadingCompared const& r, units::System system)
{
    auto const measure = (r.now ? r.now : r.then)->reading.measure;
    return std::move(Tree::map()
                         .add("item", r.item)
                         .add("label", r.label)
                         .add("then", side(r.then, r.shape, system))
                         .add("now", side(r.now, r.shape, system))
                         .add("state", key_of(r.changed, changed_keys))
                         .add("change", change(r.difference, measure, r.shape, system))
                         .add("other_instrument", r.other_instrument));
}

Tree figure(assess::FigureCompared const& f, units::System system)
{
    auto const value = [&](std::optional<figures::OutputValue> const& out)
    { return out ? output_tree(*out, system) : Tree(); };
    auto const& any = f.now ? f.now : f.then;
    Tree out = Tree::map();
    out.add("item", f.item).add("label", f.label).add("figure", f.model).add("output", f.output);
    out.add("then", value(f.then)).add("now", value(f.now));
    out.add("why_not_then", f.why_not_then).add("why_not_now", f.why_not_now);
    out.add("state", f.then || f.now ? Tree(key_of(f.changed, changed_keys)) : Tree());
    out.add("change", any ? change(f.difference, *any->shape->measure, any->shape, system) : Tree());
    return out;
}

Tree finding(assess::FindingCompared const& f)
{
    auto const state = [](std::optional<assess::FindingState> s) { return s ? Tree(key_of(*s, state_keys)) : Tree(); };
    return std::move(Tree::map()
                         .add("item", f.item)
                         .add("id", f.id)
                         .add("name", f.name)
                         .add("then", state(f.then))
                         .add("now", state(f.now))
                         .add("from_then", f.from_then)
                         .add("from_now", f.from_now)
                         .add("standing", key_of(f.standing, standing_keys)));
}

Tree cause(assess::CauseCompared const& c)
{
    return std::move(Tree::map()
                         .add("item", c.item)
                         .add("id", c.id)
                         .add("name", c.name)
                         .add("then", c.then ? Tree(*c.then) : Tree())
                         .add("now", c.now ? Tree(*c.now) : Tree())
                         .add("rank_then", c.rank_then)
                         .add("found", key_of(c.found, found_keys))
                         .add("written", c.written)
                         .add("stops_use", c.stops_use));
}

Tree alarm(assess::AlarmCompared const& a)
{
    return std::move(Tree::map()
                         .add("item", a.item)
                         .add("finding", a.finding)
                         .add("name", a.name)
                         .add("urgency", key_of(a.urgency, urgency_keys))
                         .add("say", a.say)
                         .add("trade", a.trade)
                         .add("state", key_of(a.state, alarm_keys)));
}

Tree item(assess::ItemCompared const& i)
{
    return std::move(Tree::map()
                         .add("kind", i.kind)
                         .add("name", i.name)
                         .add("path", i.path)
                         .add("in_earlier", i.then.has_value())
                         .add("in_later", i.now.has_value())
                         .add("then", verdict(i.verdict_then))
                         .add("now", verdict(i.verdict_now))
                         .add("standing", key_of(i.standing, standing_keys)));
}

} // namespace

Tree comparison_tree(assess::Comparison const& c, units::System system)
{
    Tree out = Tree::map();
    out.add("left", key_of(c.left, left_keys)).add("property", c.property);
    out.add("on", std::move(Tree::map().add("then", c.on_then).add("now", c.on_now)));
    out.add("remarks", list_of(c.notes, [](std::string const& note) { return Tree(note); }));
    out.add("alarms", list_of(c.alarms, alarm));
    out.add("open", matters(c.open)).add("new", matters(c.fresh)).add("resolved", matters(c.resolved));
    out.add("items", list_of(c.items, item));
    out.add("causes", list_of(c.causes, cause));
    out.add("other_found", list_of(c.other,
                                   [](assess::OtherFound const& o)
                                   {
                                       return std::move(Tree::map()
                                                            .add("item", o.item)
                                                            .add("words", o.words)
                                                            .add("meaning", o.meaning == assess::FoundMeaning::unclear
                                                                                ? "unclear"
                                                                                : "not_in_the_knowledge"));
                                   }));
    out.add("readings", list_of(c.readings, [&](auto const& r) { return reading(r, system); }));
    out.add("figures", list_of(c.figures, [&](auto const& f) { return figure(f, system); }));
    out.add("findings", list_of(c.findings, finding));
    out.add("level_marks", std::move(Tree::map().add("then", c.marks_then).add("now", c.marks_now)));
    return out;
}

} // namespace padwalk::report
