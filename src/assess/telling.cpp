// What to ask next on a walk.
#include "telling.hpp"

#include <algorithm>
#include <limits>
#include <map>
#include <set>
#include <stdexcept>

namespace padwalk::assess
{
namespace
{

using diagnosis::Who;

/// Something to tell or to read at an item: a field of the visit file.
struct AskRow
{
    std::string item, field, ask;
    std::optional<bool> of_test; ///< the field belongs to the item's newest water test
    std::vector<Who> who;        ///< all where left out
    std::optional<units::Number> minutes;
    std::vector<std::string> only_if, after, cautions;
    std::vector<std::string> tells;         ///< findings; none: it is asked before everything that is weighed
    std::vector<std::string> no_asks;       ///< findings to ask about first where it was answered by 'no'
    std::vector<std::string> yes_rules_out; ///< findings that can't be where it was answered by 'yes'
    std::optional<bool> while_running;      ///< there is nothing to read while the pump stands
    std::vector<std::string> no_rules_out;  ///< checks that can't be done where it was answered by 'no'
    reference::Cited source;
    static fields::Record<AskRow> const& declaration();
};

fields::Record<AskRow> const& AskRow::declaration()
{
    static fields::Record<AskRow> const record =
        fields::Record<AskRow>("ask", "something to tell or to read at an item")
            .field("item", &AskRow::item, "kind of item")
            .required()
            .field("field", &AskRow::field, "of the visit file")
            .required()
            .field("ask", &AskRow::ask, "the question")
            .required()
            .field("of_test", &AskRow::of_test, "whether the field belongs to a water test")
            .field("who", &AskRow::who, "who may do it")
            .field("minutes", &AskRow::minutes, "that it takes")
            .field("only_if", &AskRow::only_if, "contexts without which it is not asked")
            .field("after", &AskRow::after, "fields without which it is not asked")
            .field("cautions", &AskRow::cautions, "to say before")
            .field("tells", &AskRow::tells, "findings that it bears on")
            .field("no_asks", &AskRow::no_asks, "findings to ask about first after a no")
            .field("yes_rules_out", &AskRow::yes_rules_out, "findings that a yes rules out")
            .field("no_rules_out", &AskRow::no_rules_out, "checks that a no rules out")
            .field("while_running", &AskRow::while_running, "whether it wants the pump to run")
            .field("source", &AskRow::source, "whose it is")
            .required();
    return record;
}

struct FirstRow
{
    std::string finding, ask;
    std::vector<std::string> only_if;
    reference::Cited source;
    static fields::Record<FirstRow> const& declaration();
};

fields::Record<FirstRow> const& FirstRow::declaration()
{
    static fields::Record<FirstRow> const record =
        fields::Record<FirstRow>("first", "a danger that is asked about before everything else")
            .field("finding", &FirstRow::finding, "the danger")
            .required()
            .field("ask", &FirstRow::ask, "in few words")
            .required()
            .field("only_if", &FirstRow::only_if, "contexts without which it can't be")
            .field("source", &FirstRow::source, "whose it is")
            .required();
    return record;
}

/// data/assess/walk.yaml
struct WalkFile
{
    std::vector<FirstRow> first;
    std::vector<AskRow> asks;
    std::vector<std::string> pump_checks;
    static fields::Record<WalkFile> const& declaration();
};

fields::Record<WalkFile> const& WalkFile::declaration()
{
    static fields::Record<WalkFile> const record =
        fields::Record<WalkFile>("walk", "what a guided visit asks")
            .field("first", &WalkFile::first, "dangers, before everything else")
            .required()
            .field("asks", &WalkFile::asks, "what to tell and to read, in this order where nothing is weighed")
            .required()
            .field("pump_checks", &WalkFile::pump_checks, "checks that want the pump of the loop to run")
            .required();
    return record;
}

WalkFile walk_file(Engine const& engine)
{
    return reference::read_table<WalkFile>(engine.data(), "assess/walk.yaml");
}

bool holds(std::vector<std::string> const& list, std::string const& one)
{
    return std::find(list.begin(), list.end(), one) != list.end();
}

/// A field of a record: what it looks like, and what was given.
struct Given
{
    fields::FieldShape const* shape = nullptr;
    fields::Tree value;
};

template <class T> Given given_in(T const* record, std::string const& field)
{
    auto const& shapes = T::declaration().shape().fields;
    for (std::size_t i = 0; i < shapes.size(); ++i)
        if (shapes[i].name == field)
            return {&shapes[i], record == nullptr ? fields::Tree() : T::declaration().write_field(*record, i)};
    throw std::logic_error("data/assess/walk.yaml: no field '" + field + "'");
}

Given given_at(Thing const& t, AskRow const& row)
{
    if (row.of_test.value_or(false))
    {
        bool const any = t.water != nullptr && !t.water->tests.empty();
        return given_in<visit::WaterTest>(any ? &t.water->tests.back() : nullptr, row.field);
    }
    std::string const& kind = t.entry.kind;
    if (kind == "water")
        return given_in(t.water, row.field);
    if (kind == "shell")
        return given_in(t.shell, row.field);
    if (kind == "loop")
        return given_in(t.loop, row.field);
    if (kind == "pump")
        return given_in(t.pump, row.field);
    if (kind == "filter")
        return given_in(t.filter, row.field);
    if (kind == "drain")
        return given_in(t.drain, row.field);
    if (kind == "heater")
        return given_in(t.heater, row.field);
    if (kind == "fill_valve")
        return given_in(t.fill_valve, row.field);
    throw std::logic_error("data/assess/walk.yaml: no fields are asked of a " + kind);
}

// A test with a date or a kit was made before the walk: nothing is added to it.
bool may_ask(Thing const& t, AskRow const& row)
{
    if (!std::all_of(row.only_if.begin(), row.only_if.end(),
                     [&](std::string const& c) { return t.possible.contains(c); }))
        return false;
    if (row.of_test.value_or(false) && t.water != nullptr && !t.water->tests.empty() &&
        (t.water->tests.back().on || t.water->tests.back().kit))
        return false;
    AskRow other = row;
    return std::all_of(row.after.begin(), row.after.end(),
                       [&](std::string const& field)
                       {
                           other.field = field;
                           return !given_at(t, other).value.nothing();
                       });
}

/// Of a visit: what is known, what can't be or can't be done, what goes first.
class Open
{
public:
    Open(Workbench& w, Weighed& weighed)
        : w_(w), weighed_(weighed), file_(walk_file(w.engine)), who_(who_walks(w)), decisions_(decisions(w, weighed))
    {
        decide_causes();
        for (auto const& finding : w.out.findings)
        {
            known_.insert({finding.id, finding.item});
            bool const on_arrival = std::any_of(file_.first.begin(), file_.first.end(),
                                                [&](FirstRow const& row) { return row.finding == finding.id; });
            if (!finding.computed && !on_arrival)
                noted_.insert({finding.id, finding.item});
        }
        for (std::size_t item = 1; item < w.property.things().size(); ++item)
            for (auto const& row : file_.asks)
                if (w.property.at(item).entry.kind == row.item)
                    answered(item, row);
    }

    std::vector<Telling> list();

private:
    using At = std::pair<std::string, std::size_t>; ///< a finding or a check, and the item
    struct Ranked
    {
        double rate = 0.0;
        Telling telling;
    };
    Workbench& w_;
    Weighed& weighed_;
    WalkFile file_;
    Who who_;
    std::vector<Decision> decisions_;
    std::set<At> known_, noted_, ruled_out_, no_check_, first_;
    std::set<std::size_t> been_at_; ///< items of checks that were begun
    std::map<At, Look> looks_;

    void decide_causes();
    void answered(std::size_t item, AskRow const& row);
    [[nodiscard]] bool stands_still(std::size_t item) const;
    [[nodiscard]] bool said_untold(std::size_t item, std::string const& what) const;
    [[nodiscard]] bool may(std::vector<Who> const& who) const
    {
        return who.empty() || std::find(who.begin(), who.end(), who_) != who.end();
    }
    [[nodiscard]] bool possible(std::string const& id, diagnosis::CheckEntry const& check, std::size_t item) const;
    [[nodiscard]] std::map<At, At> quickest() const;
    Look const& look(std::string const& finding, std::size_t item);
    /// Minutes before a check begins: less where the one who walks has been already.
    [[nodiscard]] double getting_to(std::size_t item) const
    {
        return been_at_.contains(item) ? setup_minutes / 4 : setup_minutes;
    }
    void add_checks(std::vector<Ranked>& out);
    void add_asks(std::vector<Ranked>& out);
};

// A trade that comes by many roads is as good as sent before anyone has looked: on a walk every single cause counts,
// not only those that are named already.
void Open::decide_causes()
{
    auto const& causes = weighed_.network.causes();
    for (std::size_t c = 0; c < causes.size(); ++c)
    {
        bool const counted = std::find(weighed_.shown.begin(), weighed_.shown.end(), c) != weighed_.shown.end();
        if (!counted && !weighed_.network.unknown(c) && causes[c].entry->urgency > Urgency::watch)
            decisions_.push_back({{c}, w_.rules.act("decides_cause"), nullptr});
    }
}

void Open::answered(std::size_t item, AskRow const& row)
{
    auto const given = given_at(w_.property.at(item), row).value;
    auto const* yes = std::get_if<bool>(&given.value());
    if (yes == nullptr)
        return;
    for (auto const& finding : row.yes_rules_out)
        if (*yes)
            ruled_out_.insert({finding, item});
    for (auto const& check : row.no_rules_out)
        if (!*yes)
            no_check_.insert({check, item});
    for (auto const& finding : row.no_asks)
        if (!*yes)
            first_.insert({finding, item});
}

// Whether a pump of its loop is known not to run.
bool Open::stands_still(std::size_t item) const
{
    auto const& things = w_.property.things();
    return std::any_of(things.begin(), things.end(),
                       [&](Thing const& t)
                       {
                           if (t.pump == nullptr || t.pump->runs.value_or(true))
                               return false;
                           auto const& loops = w_.property.at(item).loops;
                           return std::any_of(t.loops.begin(), t.loops.end(),
                                              [&](std::size_t loop) { return loops.contains(loop); });
                       });
}

bool Open::said_untold(std::size_t item, std::string const& what) const
{
    return std::any_of(w_.out.not_tested.begin(), w_.out.not_tested.end(),
                       [&](NotTestedEntry const& entry) { return entry.item == item && entry.what == what; });
}

bool Open::possible(std::string const& id, diagnosis::CheckEntry const& check, std::size_t item) const
{
    constexpr double longest = 60.0; ///< minutes, judgement: what takes longer is no part of a walk
    return w_.property.at(item).entry.kind == check.item && may_be(w_.property.at(item), check) && may(check.who) &&
           check.minutes.value() <= longest && !no_check_.contains({id, item}) &&
           !(holds(file_.pump_checks, id) && stands_still(item)) && !said_untold(item, check.name) &&
           !said_impossible(w_, item, check) && !too_dangerous(w_, item);
}

// For each sign that someone could look for here, the check under which it is asked.
std::map<Open::At, Open::At> Open::quickest() const
{
    std::map<At, At> out;
    std::map<At, double> minutes;
    auto const& knowledge = w_.engine.knowledge();
    for (auto const& [id, check] : knowledge.checks)
        for (std::size_t item = 1; item < w_.property.things().size(); ++item)
        {
            if (!possible(id, check, item))
                continue;
            for (auto const& told : check.tells)
                for (std::size_t const at : w_.property.of_kind(knowledge.finding(told)->item, item))
                {
                    bool const seen = knowledge.finding(told)->established == diagnosis::Established::seen;
                    auto const best = minutes.find({told, at});
                    if (!seen || (best != minutes.end() && best->second <= check.minutes.value()))
                        continue;
                    minutes[{told, at}] = check.minutes.value();
                    out[{told, at}] = {id, item};
                }
        }
    return out;
}

Look const& Open::look(std::string const& finding, std::size_t item)
{
    auto const [place, fresh] = looks_.try_emplace({finding, item});
    if (fresh && weighed_.all.possible)
        place->second = worth(w_, weighed_, decisions_, finding, item);
    return place->second;
}

void Open::add_checks(std::vector<Ranked>& out)
{
    constexpr double next_sign = 0.5; ///< minutes for one sign more at a check that was begun, judged
    constexpr double still_worth =
        0.5; ///< judgement: so much less is enough there, as nobody wants to come back for it
    auto const& knowledge = w_.engine.knowledge();
    auto const under = quickest();
    std::map<At, std::vector<Sign>> signs;
    std::set<At> begun, urgent;
    for (auto const& [sign, check] : under)
        if (noted_.contains(sign))
        {
            begun.insert(check);
            been_at_.insert(check.second);
        }
    for (auto const& [sign, check] : under)
    {
        auto const& [finding, at] = sign;
        auto const& name = knowledge.finding(finding)->name;
        if (known_.contains(sign) || ruled_out_.contains(sign) || said_untold(at, name))
            continue;
        auto const& worth_of = look(finding, at);
        if (first_.contains(sign))
            urgent.insert(check);
        else if (worth_of.gain < w_.rules.act("walk_worth") * (begun.contains(check) ? still_worth : 1.0))
            continue;
        signs[check].push_back({finding, name, at, worth_of.gain, worth_of.probability});
    }
    for (auto& [check, list] : signs)
    {
        std::stable_sort(list.begin(), list.end(),
                         [&](Sign const& a, Sign const& b)
                         {
                             bool const first = first_.contains({a.finding, a.item});
                             bool const second = first_.contains({b.finding, b.item});
                             return first != second ? first : a.gain > b.gain;
                         });
        auto const entry = std::find_if(knowledge.checks.begin(), knowledge.checks.end(),
                                        [&, &id = check.first](auto const& c) { return c.first == id; });
        double const minutes =
            begun.contains(check) ? next_sign : entry->second.minutes.value() + getting_to(check.second);
        double const rate = list.front().gain / minutes + (urgent.contains(check) ? 1e6 : 0.0);
        out.push_back({rate,
                       {check.first, entry->second.name, entry->second.needs, check.second,
                        entry->second.minutes.value(), list.front().gain, entry->second.cautions, list}});
    }
}

void Open::add_asks(std::vector<Ranked>& out)
{
    for (auto const& row : file_.asks)
        for (std::size_t item = 1; item < w_.property.things().size(); ++item)
        {
            Thing const& t = w_.property.at(item);
            if (t.entry.kind != row.item || !may(row.who) || !may_ask(t, row) || said_untold(item, row.ask) ||
                (row.while_running.value_or(false) && stands_still(item)) || too_dangerous(w_, item))
                continue;
            auto const given = given_at(t, row);
            if (!given.value.nothing())
                continue;
            double gain = 0;
            for (auto const& told : row.tells)
                for (std::size_t const at : w_.property.of_kind(w_.engine.knowledge().finding(told)->item, item))
                    gain = std::max(gain, known_.contains({told, at}) ? 0.0 : look(told, at).gain);
            if (!row.tells.empty() && gain < w_.rules.act("walk_worth"))
                continue;
            double const minutes = row.minutes ? row.minutes->value() : 0.0;
            double const rate =
                row.tells.empty() ? std::numeric_limits<double>::infinity() : gain / (minutes + getting_to(item));
            out.push_back({rate,
                           {row.field,
                            row.ask,
                            {},
                            item,
                            minutes,
                            gain,
                            row.cautions,
                            {},
                            given.shape,
                            row.of_test.value_or(false)}});
        }
}

std::vector<Telling> Open::list()
{
    std::vector<Ranked> ranked;
    add_checks(ranked); // first: it tells where the walk has been
    add_asks(ranked);
    std::stable_sort(ranked.begin(), ranked.end(), [](Ranked const& a, Ranked const& b) { return a.rate > b.rate; });
    std::vector<Telling> out;
    for (auto& one : ranked)
        out.push_back(std::move(one.telling));
    return out;
}

FirstDanger danger_of(Engine const& engine, FirstRow const& row)
{
    auto const* finding = engine.knowledge().finding(row.finding);
    if (finding == nullptr || !finding->if_seen)
        throw std::logic_error("data/assess/walk.yaml: '" + row.finding + "' is no danger");
    return {row.finding, finding->name, row.ask, finding->if_seen->say, finding->if_seen->cautions, {}};
}

} // namespace

std::vector<Telling> what_tells(Workbench& w, Weighed& weighed)
{
    return Open(w, weighed).list();
}

std::vector<FirstDanger> open_dangers(Workbench const& w)
{
    std::vector<FirstDanger> out;
    for (auto const& row : walk_file(w.engine).first)
    {
        auto danger = danger_of(w.engine, row);
        auto const& kind = w.engine.knowledge().finding(row.finding)->item;
        for (std::size_t item = 1; item < w.property.things().size(); ++item)
        {
            Thing const& t = w.property.at(item);
            bool const known = std::any_of(w.out.findings.begin(), w.out.findings.end(),
                                           [&](auto const& f) { return f.id == row.finding && f.item == item; });
            bool const may_have = std::all_of(row.only_if.begin(), row.only_if.end(),
                                              [&](std::string const& c) { return t.possible.contains(c); });
            if (t.entry.kind == kind && may_have && !known)
                danger.items.push_back(item);
        }
        if (!danger.items.empty())
            out.push_back(std::move(danger));
    }
    return out;
}

std::vector<FirstDanger> first_dangers(Engine const& engine)
{
    std::vector<FirstDanger> out;
    for (auto const& row : walk_file(engine).first)
        out.push_back(danger_of(engine, row));
    return out;
}

} // namespace padwalk::assess
