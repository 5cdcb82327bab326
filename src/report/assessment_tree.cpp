#include "padwalk/report/json.hpp"

#include "found_tree.hpp"
#include "heater_tree.hpp"
#include "level_tree.hpp"
#include "loop_tree.hpp"
#include "quantity_tree.hpp"
#include "vent_tree.hpp"
#include "warming_tree.hpp"
#include "wording.hpp"

#include "padwalk/report/figures.hpp"
#include "padwalk/report/text.hpp"

#include <algorithm>

namespace padwalk::report
{
namespace
{

using fields::Tree;

template <class List, class Each> Tree list_of(List const& list, Each each)
{
    Tree out = Tree::list();
    for (auto const& entry : list)
        out.push(each(entry));
    return out;
}

Tree texts(std::vector<std::string> const& list)
{
    return list_of(list, [](std::string const& text) { return Tree(text); });
}

Tree places(std::vector<std::size_t> const& list)
{
    return list_of(list, [](std::size_t place) { return Tree(place); });
}

template <class E> std::string word(E value)
{
    return fields::words_of<E>::words()[static_cast<std::size_t>(value)];
}

std::string_view key_of(assess::Outcome outcome)
{
    switch (outcome)
    {
    case assess::Outcome::unsafe: return "unsafe";
    case assess::Outcome::refer: return "refer";
    case assess::Outcome::nothing_found: break;
    }
    return "nothing_found";
}

std::string_view key_of(assess::Condition condition)
{
    switch (condition)
    {
    case assess::Condition::unsafe: return "unsafe";
    case assess::Condition::does_not_work: return "does_not_work";
    case assess::Condition::works_with_fault: return "works_with_fault";
    case assess::Condition::cannot_tell: return "cannot_tell";
    case assess::Condition::works: return "works";
    case assess::Condition::not_tested: break;
    }
    return "not_tested";
}

std::string_view key_of(assess::FindingState state)
{
    return state == assess::FindingState::seen       ? "seen"
           : state == assess::FindingState::not_seen ? "not_seen"
                                                     : "unclear";
}

Tree tree(assess::ItemEntry const& item)
{
    return std::move(
        Tree::map()
            .add("kind", item.kind)
            .add("name", item.name)
            .add("path", item.path)
            .add("where", item.where)
            .add("notes", item.notes)
            .add("photos", list_of(item.photos, [](visit::Photo const& p)
                                   { return std::move(Tree::map().add("file", p.file).add("caption", p.caption)); })));
}

// Alarms stand before all else, so each says in words what and where it is.
Tree alarms(assess::Assessment const& a)
{
    return list_of(a.alarms,
                   [&a](assess::Alarm const& alarm)
                   {
                       return std::move(Tree::map()
                                            .add("item", alarm.item)
                                            .add("finding", alarm.finding)
                                            .add("what", a.findings.at(alarm.finding).name)
                                            .add("at", a.items.at(alarm.item).name)
                                            .add("urgency", word(alarm.urgency))
                                            .add("say", alarm.say)
                                            .add("closes", list_of(alarm.closes, [&a](std::size_t water)
                                                                   { return Tree(a.items.at(water).name); }))
                                            .add("trade", alarm.trade)
                                            .add("cautions", texts(alarm.cautions)));
                   });
}

Tree tree(assess::Verdict const& verdict)
{
    return std::move(Tree::map()
                         .add("item", verdict.item)
                         .add("condition", key_of(verdict.condition))
                         .add("because", verdict.because));
}

Tree tree(assess::FindingEntryOf const& finding)
{
    return std::move(Tree::map()
                         .add("id", finding.id)
                         .add("name", finding.name)
                         .add("item", finding.item)
                         .add("state", key_of(finding.state))
                         .add("probability", finding.probability)
                         .add("computed", finding.computed)
                         .add("from", finding.from));
}

Tree evidence(std::vector<assess::WeightEntry> const& weights)
{
    return list_of(weights, [](assess::WeightEntry const& w)
                   { return std::move(Tree::map().add("finding", w.finding).add("log_odds", w.log_odds)); });
}

Tree tree(assess::CauseEntryOf const& cause)
{
    Tree weights = Tree::map();
    weights.add("for", evidence(cause.speaks_for)).add("against", evidence(cause.speaks_against));
    return std::move(Tree::map()
                         .add("id", cause.id)
                         .add("name", cause.name)
                         .add("meaning", cause.meaning)
                         .add("item", cause.item)
                         .add("prior", cause.prior)
                         .add("probability", cause.probability)
                         .add("in_words", probability_word(cause.probability))
                         .add("urgency", word(cause.urgency))
                         .add("hurts_people", cause.hurts_people)
                         .add("trade", cause.trade)
                         .add("ask", cause.ask)
                         .add("meanwhile", cause.meanwhile)
                         .add("cautions", texts(cause.cautions))
                         .add("evidence", std::move(weights)));
}

Tree tree(assess::TradeCheck const& check)
{
    Tree cautions = Tree::list();
    for (auto const& one : check.cautions)
        cautions.push(one.second);
    return std::move(Tree::map()
                         .add("id", check.id)
                         .add("name", check.name)
                         .add("item", check.item)
                         .add("needs", check.needs)
                         .add("minutes", check.minutes)
                         .add("cautions", std::move(cautions)));
}

Tree tree(assess::Referral const& referral)
{
    return std::move(Tree::map()
                         .add("trade", referral.trade)
                         .add("name", referral.name)
                         .add("why", referral.why)
                         .add("urgency", word(referral.urgency))
                         .add("how_soon", soon_word(referral.urgency))
                         .add("causes", places(referral.causes))
                         .add("alarms", places(referral.alarms))
                         .add("cautions", texts(referral.cautions))
                         .add("licences", licences_tree(referral))
                         .add("checks", list_of(referral.checks, [](assess::TradeCheck const& c) { return tree(c); })));
}

Tree tree(assess::NextCheck const& check)
{
    return std::move(Tree::map()
                         .add("id", check.id)
                         .add("name", check.name)
                         .add("item", check.item)
                         .add("needs", check.needs)
                         .add("minutes", check.minutes)
                         .add("gain_bits", check.gain)
                         .add("tells", texts(check.tells))
                         .add("changes", check.changes)
                         .add("otherwise", check.otherwise)
                         .add("risk", fields::words_of<diagnosis::Risk>::words()[static_cast<std::size_t>(check.risk)])
                         .add("if_so", check.if_so)
                         .add("if_not", check.if_not)
                         .add("cautions", texts(check.cautions)));
}

Tree tree(assess::Question const& question)
{
    return std::move(Tree::map()
                         .add("item", question.item)
                         .add("note", question.note)
                         .add("why", question.why)
                         .add("may_mean", texts(question.may_mean)));
}

Tree tree(assess::ReadingTaken const& taken, units::System system)
{
    return std::move(
        Tree::map()
            .add("item", taken.item)
            .add("name", taken.shape != nullptr ? taken.shape->name : "")
            .add("label", taken.label)
            .add("reading", taken.words.empty() ? reading_tree(taken.reading, taken.shape, system) : Tree(taken.words))
            .add("method", taken.reading.method));
}

Tree inputs(figures::Figure const& figure, units::System system)
{
    Tree out = Tree::map();
    for (auto const& input : figure.inputs)
    {
        Tree value = input.shape->measure ? reading_tree(input.reading, input.shape, system)
                                          : std::move(Tree::map().add("value", input.words));
        if (input.assumed)
            value.add("assumed", true);
        out.add(input.shape->name, std::move(value));
    }
    return out;
}

Tree tree(assess::FigureEntry const& entry, units::System system)
{
    Tree outputs = Tree::map();
    for (auto const& output : entry.figure.outputs)
        outputs.add(output.shape->name, output_tree(output, system));
    return std::move(Tree::map()
                         .add("item", entry.item)
                         .add("label", entry.label)
                         .add("name", entry.figure.model != nullptr ? entry.figure.model->name : "")
                         .add("inputs", inputs(entry.figure, system))
                         .add("outputs", std::move(outputs))
                         .add("not_computed", entry.figure.computed() ? Tree() : Tree(entry.figure.why_not))
                         .add("note", entry.figure.note)
                         .add("meaning", entry.meaning));
}

Tree tree(assess::LimitsBroken const& reading)
{
    Tree broken = list_of(reading.broken_by,
                          [](assess::BrokenLimit const& limit)
                          {
                              return std::move(Tree::map()
                                                   .add("body", limit.body)
                                                   .add("key", limit.key)
                                                   .add("bound", limit.bound)
                                                   .add("note", limit.note)
                                                   .add("seen", limit.from_memory ? "from memory, not confirmed" : "")
                                                   .add("leads", limit.leads));
                          });
    return std::move(Tree::map()
                         .add("item", reading.item)
                         .add("parameter", reading.parameter)
                         .add("reading", reading.reading)
                         .add("broken_by", std::move(broken))
                         .add("kept_by", reading.kept_by)
                         .add("leading", reading.leading)
                         .add("leading_verdict", reading.leading_verdict));
}

Tree tree(fields::Problem const& odd)
{
    return std::move(Tree::map()
                         .add("message", odd.message)
                         .add("advice", odd.advice)
                         .add("path", odd.path)
                         .add("line", odd.place.line)
                         .add("column", odd.place.column));
}

Tree tree(assess::Undecided const& entry)
{
    Tree causes = Tree::list();
    for (std::size_t const i : entry.causes)
        causes.push(i);
    return std::move(Tree::map()
                         .add("finding", entry.finding)
                         .add("causes", std::move(causes))
                         .add("decides", entry.decides)
                         .add("by_whom", texts(entry.by_whom))
                         .add("minutes", entry.minutes)
                         .add("needs", entry.needs)
                         .add("cautions", texts(entry.cautions)));
}

Tree tree(assess::ItemExplained const& entry)
{
    return std::move(Tree::map()
                         .add("item", entry.item)
                         .add("nothing_wrong", entry.nothing_wrong)
                         .add("something_else", entry.something_else));
}

Tree tree(assess::Robustness const& robustness)
{
    return std::move(Tree::map()
                         .add("tries", robustness.tries)
                         .add("likeliest_stays", robustness.likeliest)
                         .add("first_trade_stays", robustness.first_trade)
                         .add("in_words", robustness.words));
}

Tree tree(assess::CauseAsked const& asked)
{
    Tree shows = Tree::list(), changed = Tree::list();
    for (auto const& shown : asked.shows)
        shows.push(std::move(Tree::map()
                                 .add("finding", shown.noticed ? Tree(*shown.noticed) : Tree())
                                 .add("name", shown.name)
                                 .add("item", shown.item)
                                 .add("weight", shown.weight)
                                 .add("leak", shown.leak)
                                 .add("log_odds", shown.log_odds)));
    for (auto const& [name, factor] : asked.changed_by)
        changed.push(std::move(Tree::map().add("context", name).add("factor", factor)));
    Tree out = tree(asked.cause);
    out.add("base_rate", asked.base_rate)
        .add("why_rate", asked.why_rate)
        .add("changed_by", std::move(changed))
        .add("shows", std::move(shows))
        .add("checks", texts(asked.checks));
    return out;
}

template <class List> Tree trees(List const& list)
{
    return list_of(list, [](auto const& entry) { return tree(entry); });
}

template <class List> Tree trees(List const& list, units::System system)
{
    return list_of(list, [system](auto const& entry) { return tree(entry, system); });
}

void add_basis(Tree& out, assess::Assessment const& a)
{
    out.add("found", found_tree(a));
    out.add("undecided", trees(a.undecided));
    out.add("explained", trees(a.explained));
    out.add("robustness", tree(a.robustness));
    out.add("asked", trees(a.asked));
    out.add("questions", trees(a.questions));
    out.add("assumptions", list_of(a.assumptions, [](auto const& e)
                                   { return std::move(Tree::map().add("what", e.what).add("because", e.because)); }));
    out.add(
        "not_tested",
        list_of(a.not_tested, [](auto const& e)
                { return std::move(Tree::map().add("item", e.item).add("what", e.what).add("because", e.because)); }));
    out.add("oddities", trees(a.oddities));
    out.add("left_blank", texts(a.blanks));
    out.add("conflict", a.conflict.empty() ? Tree() : Tree(a.conflict));
    Tree cautions = Tree::map();
    for (auto const& [id, sentence] : a.cautions)
        cautions.add(id, sentence);
    out.add("cautions", std::move(cautions));
    Tree sources = Tree::map();
    for (auto const& [key, source] : a.sources)
        sources.add(key, std::move(Tree::map()
                                       .add("title", source.title)
                                       .add("by", source.by)
                                       .add("year", source.year)
                                       .add("seen", source.seen)));
    out.add("sources", std::move(sources));
}

} // namespace

Tree assessment_tree(assess::Assessment const& a, units::System system)
{
    Tree out = Tree::map();
    out.add("outcome", key_of(a.outcome)).add("alarms", alarms(a)).add("summary", a.summary);
    out.add("property", a.property)
        .add("on", a.on)
        .add("by", a.by ? Tree(word(*a.by)) : Tree())
        .add("weather", a.weather)
        .add("notes", a.notes);
    out.add("items", trees(a.items));
    out.add("verdicts", trees(a.verdicts));
    out.add("causes", trees(a.causes));
    out.add("referrals", trees(a.referrals));
    out.add("next", trees(a.next));
    out.add("figures", trees(a.figures, system));
    out.add("limits_broken", trees(a.limits_broken));
    out.add("loops", loops_tree(a, system));
    out.add("levels", levels_tree(a, system));
    out.add("fills", fills_tree(a, system));
    out.add("heaters", heaters_tree(a, system));
    out.add("vents", vents_tree(a, system));
    out.add("warmings", warmings_tree(a, system));
    out.add("readings", trees(a.readings, system));
    out.add("findings", trees(a.findings));
    add_basis(out, a);
    return out;
}

} // namespace padwalk::report
