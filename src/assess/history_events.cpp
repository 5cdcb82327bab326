// What happened over the visits of a log: alarms, what was found, how items came to stand, doses, notes, what was left
// out.
#include "history_parts.hpp"

#include "matching.hpp"
#include "property.hpp"

#include "padwalk/units/print.hpp"

#include <algorithm>
#include <set>

namespace padwalk::assess
{
namespace
{

std::string_view stands(Condition condition)
{
    switch (condition)
    {
    case Condition::unsafe: return "not safe to use";
    case Condition::does_not_work: return "does not work";
    case Condition::works_with_fault: return "works, with a fault";
    case Condition::cannot_tell: return "can't be told from here";
    case Condition::works: return "works";
    case Condition::not_tested: break;
    }
    return "not tested";
}

/// Goes from visit to visit and remembers what stood before.
class Events
{
public:
    explicit Events(LogBench& log) : log_(log) {}

    void visit(std::size_t number)
    {
        number_ = number;
        auto const& visit = *log_.visits[number];
        alarms(visit.assessment);
        found(visit.assessment);
        for (auto const& verdict : visit.assessment.verdicts)
            stands_now(verdict);
        std::vector<Assumption> assumed;
        Property const property(visit.read.visit, assumed);
        note(0, visit.read.visit.notes);
        left_out(0, visit.read.visit.not_tested);
        for (std::size_t i = 1; i < property.things().size(); ++i)
        {
            auto const& thing = property.at(i);
            if (thing.entry.kind == "water")
                doses(i, *thing.water);
            if (thing.base == nullptr)
                continue;
            note(i, thing.base->notes);
            left_out(i, thing.base->not_tested);
        }
    }

    void finish()
    {
        auto& out = log_.out;
        std::size_t marks = 0;
        for (std::size_t i = 0; i < out.visits.size(); ++i)
        {
            bool used = false;
            for (auto& event : out.events)
                if (event.visit == i && log_.dated(i))
                    event.number = marks + 1, used = true;
            marks += used ? 1U : 0U;
        }
        for (auto& [key, alarm] : open_)
            out.alarms.push_back(std::move(alarm));
        std::stable_sort(out.alarms.begin(), out.alarms.end(),
                         [](StandingAlarm const& a, StandingAlarm const& b) { return a.urgency > b.urgency; });
        out.unsafe = out.visits.back().outcome == Outcome::unsafe ||
                     std::any_of(out.alarms.begin(), out.alarms.end(),
                                 [](StandingAlarm const& alarm) { return alarm.urgency == Urgency::stop_use; });
    }

private:
    using Key = std::pair<std::size_t, std::string>; // item and finding

    LogBench& log_;
    std::size_t number_ = 0;
    std::map<Key, StandingAlarm> open_;
    std::map<std::size_t, Condition> stood_;
    std::map<std::size_t, std::string> notes_, doses_;

    [[nodiscard]] std::size_t at(std::size_t item) const { return log_.item_at(number_, item); }

    void add(std::size_t item, EventKind kind, std::string words, bool danger = false)
    {
        log_.out.events.push_back({number_, item, kind, std::move(words), danger, 0});
    }

    void alarms(Assessment const& a)
    {
        std::set<Key> now;
        for (auto const& alarm : a.alarms)
        {
            auto const& finding = a.findings.at(alarm.finding);
            Key const key{at(alarm.item), finding.id};
            now.insert(key);
            auto const [known, fresh] = open_.emplace(key, StandingAlarm{});
            known->second = {key.first, number_, finding.name, alarm.say, alarm.urgency, true};
            if (fresh)
                add(key.first, EventKind::alarm, finding.name, alarm.urgency == Urgency::stop_use);
        }
        std::map<Key, Looked> looked;
        for (auto const& finding : a.findings)
            looked[{at(finding.item), finding.id}].add(finding);
        for (auto alarm = open_.begin(); alarm != open_.end();)
        {
            auto const seen = looked.find(alarm->first);
            bool const gone = seen != looked.end() && seen->second.state() == FindingState::not_seen;
            if (gone)
                add(alarm->first.first, EventKind::alarm_gone, alarm->second.name);
            else
                alarm->second.looked_at = now.contains(alarm->first);
            alarm = gone ? open_.erase(alarm) : std::next(alarm);
        }
    }

    void found(Assessment const& a)
    {
        for (auto const& entry : a.found)
        {
            std::string const name = entry.meaning == FoundMeaning::cause ? entry.name : "'" + entry.words + "'";
            add(at(entry.item), EventKind::found, (entry.was ? "found: " : "ruled out: ") + name, entry.stops_use);
        }
    }

    // 'not tested' is a gap, not another standing.
    void stands_now(Verdict const& verdict)
    {
        if (verdict.condition == Condition::not_tested)
            return;
        auto const [known, fresh] = stood_.emplace(at(verdict.item), verdict.condition);
        bool const well = verdict.condition == Condition::works;
        if (fresh ? well : known->second == verdict.condition)
            return;
        std::string words(stands(verdict.condition));
        if (!fresh)
            words = "from '" + std::string(stands(known->second)) + "' to '" + words + "'";
        if (!well && !verdict.because.empty())
            words += ": " + verdict.because;
        known->second = verdict.condition;
        add(known->first, EventKind::verdict, std::move(words), verdict.condition == Condition::unsafe);
    }

    void note(std::size_t item, std::string const& text)
    {
        std::size_t const place = at(item);
        if (!text.empty() && notes_[place] != text)
            add(place, EventKind::note, text);
        notes_[place] = text;
    }

    void left_out(std::size_t item, std::vector<visit::NotTested> const& entries)
    {
        for (auto const& entry : entries)
            add(at(item), EventKind::not_tested, entry.what + ": " + entry.because);
    }

    [[nodiscard]] std::string dose_text(visit::RepeatedDose const& dose) const
    {
        auto const show = [&](auto const& taken)
        {
            auto const r = units::Reading::of(*taken);
            return units::show(r.measure, r.value, 0, {log_.system, {}, {}});
        };
        std::string out = dose.product;
        std::replace(out.begin(), out.end(), '_', ' ');
        if (dose.weighs)
            out += " " + show(dose.weighs);
        if (dose.holds)
            out += " " + show(dose.holds);
        return dose.every ? out + " every " + show(dose.every) : out;
    }

    void doses(std::size_t item, visit::Water const& water)
    {
        if (!water.care || water.care->doses.empty())
            return; // a care that says nothing of doses does not say that they ended
        std::string text;
        for (auto const& dose : water.care->doses)
            text += (text.empty() ? "" : "; ") + dose_text(dose);
        auto& before = doses_[at(item)];
        if (before != text)
            add(at(item), EventKind::dose, "given: " + text);
        before = text;
    }
};

} // namespace

void add_events(LogBench& log)
{
    Events events(log);
    for (std::size_t i = 0; i < log.visits.size(); ++i)
        events.visit(i);
    events.finish();
}

} // namespace padwalk::assess
