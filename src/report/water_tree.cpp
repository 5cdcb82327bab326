// The owner's sheet as a tree for JSON.
#include "quantity_tree.hpp"

#include "padwalk/report/json.hpp"

namespace padwalk::report
{
namespace
{

using fields::Tree;

template <class Q> Tree quantity(Q const& value, units::System system)
{
    return reading_tree(units::Reading::exact(value), nullptr, system);
}

Tree texts(std::vector<std::string> const& list)
{
    Tree out = Tree::list();
    for (auto const& text : list)
        out.push(text);
    return out;
}

Tree water(chemistry::WaterAt const& at, units::System s)
{
    auto const& r = at.readings;
    return Tree::map()
        .add("ph", quantity(r.ph, s))
        .add("free_chlorine", quantity(r.free_chlorine, s))
        .add("alkalinity", quantity(r.alkalinity, s))
        .add("carbonate_alkalinity", quantity(at.carbonate_alkalinity, s))
        .add("calcium", quantity(r.calcium, s))
        .add("cyanurate", quantity(r.cyanurate, s))
        .add("borate", quantity(r.borate, s))
        .add("salt", quantity(r.salt, s))
        .add("sulfate", quantity(r.sulfate, s))
        .add("saturation_calcite", quantity(at.saturation, s));
}

std::string_view word(chemistry::DoseStep::Kind kind)
{
    using K = chemistry::DoseStep::Kind;
    switch (kind)
    {
    case K::replace_water: return "replace_water";
    case K::let_chlorine_fall: return "let_chlorine_fall";
    case K::dose: return "dose";
    case K::aerate: return "aerate";
    }
    return {};
}

std::string_view word(chemistry::Outcome outcome)
{
    using O = chemistry::Outcome;
    switch (outcome)
    {
    case O::nothing_to_do: return "nothing_to_do";
    case O::doses: return "doses";
    case O::replace_water: return "replace_water";
    case O::cannot: return "cannot";
    }
    return {};
}

Tree step(chemistry::DoseStep const& one, units::System s)
{
    Tree out = Tree::map().add("kind", std::string(word(one.kind))).add("what", one.what);
    if (!one.product.empty())
        out.add("product", one.product);
    if (one.amount)
        out.add("amount", Tree::map()
                              .add("us", one.amount->us)
                              .add("metric", one.amount->metric)
                              .add("mass", quantity(one.amount->mass, s)));
    if (one.kind == chemistry::DoseStep::Kind::replace_water)
        out.add("share", quantity(one.share, s));
    out.add("part", static_cast<std::size_t>(one.part)).add("parts", static_cast<std::size_t>(one.parts));
    out.add("why", one.why).add("how", one.how);
    out.add("wait", quantity(one.wait, s)).add("swim", quantity(one.swim, s)).add("retest", one.retest);
    out.add("before", water(one.before, s)).add("after", water(one.after, s));
    out.add("cautions", texts(one.cautions));
    return out;
}

Tree plan(assess::WaterSheet const& sheet, units::System s)
{
    if (!sheet.plan)
        return Tree::map().add("why_not", sheet.no_plan);
    auto const& p = *sheet.plan;
    Tree steps = Tree::list();
    for (auto const& one : p.steps)
        steps.push(step(one, s));
    Tree out = Tree::map()
                   .add("outcome", std::string(word(p.outcome)))
                   .add("answer", p.answer)
                   .add("outside", texts(p.outside))
                   .add("steps", std::move(steps))
                   .add("replace", quantity(p.replace, s))
                   .add("because", p.because)
                   .add("now", water(p.now, s))
                   .add("end", water(p.end, s))
                   .add("products", texts(p.products))
                   .add("assumptions", texts(p.assumptions));
    if (p.cost)
        out.add("cost", *p.cost);
    return out;
}

template <class Q> Tree spread(chemistry::Spread<Q> const& value, units::System s)
{
    return Tree::map()
        .add("value", quantity(value.median, s))
        .add("low", quantity(value.low, s))
        .add("high", quantity(value.high, s));
}

Tree forecast(assess::WaterSheet const& sheet, units::System s)
{
    if (!sheet.forecast)
        return Tree::map().add("why_not", sheet.no_forecast);
    Tree days = Tree::list(), exits = Tree::list();
    for (auto const& d : sheet.forecast->days)
    {
        Tree one = Tree::map()
                       .add("at", quantity(d.at, s))
                       .add("ph", spread(d.ph, s))
                       .add("free_chlorine", spread(d.free_chlorine, s))
                       .add("alkalinity", spread(d.alkalinity, s))
                       .add("calcium", spread(d.calcium, s))
                       .add("cyanurate", spread(d.cyanurate, s))
                       .add("salt", spread(d.salt, s));
        if (d.saturation_index)
            one.add("saturation_index", spread(*d.saturation_index, s));
        days.push(std::move(one));
    }
    for (auto const& e : sheet.forecast->exits)
    {
        Tree one = Tree::map().add(
            "reading", fields::words_of<chemistry::Followed>::words()[static_cast<std::size_t>(e.band.reading)]);
        if (e.early)
            one.add("early", quantity(*e.early, s));
        if (e.likely)
            one.add("likely", quantity(*e.likely, s));
        if (e.late)
            one.add("late", quantity(*e.late, s));
        one.add("share", quantity(e.share, s)).add("above", e.above);
        one.add("words", chemistry::exit_in_words(e, sheet.ahead));
        exits.push(std::move(one));
    }
    return Tree::map()
        .add("days", std::move(days))
        .add("exits", std::move(exits))
        .add("ended_because", sheet.forecast->ended_because);
}

} // namespace

std::string as_json(assess::WaterReport const& report, units::System system)
{
    Tree waters = Tree::list(), sayings = Tree::map();
    for (auto const& sheet : report.waters)
        waters.push(Tree::map()
                        .add("name", report.assessment.items.at(sheet.item).name)
                        .add("item", sheet.item)
                        .add("doing", texts(sheet.doing))
                        .add("plan", plan(sheet, system))
                        .add("forecast", forecast(sheet, system))
                        .add("swim", Tree::map()
                                         .add("now", sheet.swim.now)
                                         .add("against", texts(sheet.swim.against))
                                         .add("when", sheet.swim.when)));
    for (auto const& [id, say] : report.sayings)
        sayings.add(id, say);
    return json_of(Tree::map()
                       .add("something_to_do", report.something_to_do)
                       .add("waters", std::move(waters))
                       .add("sayings", std::move(sayings))
                       .add("assessment", assessment_tree(report.assessment, system)),
                   true);
}

} // namespace padwalk::report
