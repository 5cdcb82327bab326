// How each item stands.
#include "judge.hpp"

#include <algorithm>

namespace padwalk::assess
{

namespace
{

bool said_dead(Thing const& t)
{
    return (t.pump != nullptr && t.pump->runs == false) || (t.entry.kind == "heater" && t.heater->fires == false);
}

bool said_alive(Thing const& t)
{
    return (t.pump != nullptr && t.pump->runs == true) || (t.entry.kind == "heater" && t.heater->fires == true);
}

// 'it ran; no sign of: grinding noise; drip at the seal; and 3 more'
std::string in_a_line(std::string start, std::vector<std::string> const& looked)
{
    constexpr std::size_t named = 3;
    for (std::size_t i = 0; i < looked.size() && i < named; ++i)
        start += (i > 0 ? "; " : start.empty() ? "no sign of: " : "; no sign of: ") + looked[i];
    if (looked.size() > named)
        start += "; and " + std::to_string(looked.size() - named) + " more";
    return start;
}

// A finding that alone can't be told, of a reading that was weighed with the others.
bool weighed_together(Workbench const& w, std::size_t finding)
{
    return std::any_of(w.patterns.begin(), w.patterns.end(),
                       [&](ReadingsPattern const& p) { return p.finding == finding || p.speaks_for(finding); });
}

/// Nobody need come for it and it hurts nothing.
bool no_fault(CauseEntryOf const& cause)
{
    return cause.trade == "none" && cause.urgency == Urgency::watch && !cause.hurts_people;
}

Verdict verdict_of(Workbench& w, std::size_t item)
{
    Thing const& t = w.property.at(item);
    for (auto const& alarm : w.out.alarms)
        if (alarm.item == item && alarm.urgency == Urgency::stop_use)
            return {item, Condition::unsafe, w.out.findings[alarm.finding].name};
    for (auto const& found : w.out.found)
        if (found.item == item && found.stops_use)
            return {item, Condition::unsafe, "found on site: " + found.name};
    for (auto const& cause : w.out.causes)
        if (cause.item == item && stops(cause))
            return {item, Condition::unsafe, "may be: " + cause.name};
    for (auto const& alarm : w.out.alarms)
        if (std::find(alarm.closes.begin(), alarm.closes.end(), item) != alarm.closes.end())
            return {item, Condition::unsafe,
                    "closed: " + w.out.findings[alarm.finding].name + " (" + w.name(alarm.item) + ")"};
    if (said_dead(t))
        return {item, Condition::does_not_work,
                t.pump != nullptr ? "it did not run" : "it did not start at its normal control"};
    for (auto const& finding : w.out.findings)
        if (finding.item == item && finding.state == FindingState::seen &&
            w.engine.knowledge().finding(finding.id)->does_not_work.value_or(false))
            return {item, Condition::does_not_work, finding.name};
    for (auto const& entry : w.out.undecided)
        if (w.out.findings[entry.finding].item == item)
            return {item, Condition::cannot_tell, w.out.findings[entry.finding].name};
    for (auto const& alarm : w.out.alarms)
        if (alarm.item == item)
            return {item, Condition::works_with_fault, w.out.findings[alarm.finding].name};
    CauseEntryOf const* harmless = nullptr;
    for (auto const& cause : w.out.causes)
        if (cause.item == item && cause.probability >= w.rules.act("referred"))
        {
            if (!no_fault(cause))
                return {item, Condition::works_with_fault,
                        (cause.probability < 0.5 ? "perhaps: " : "likely: ") + cause.name};
            harmless = harmless == nullptr ? &cause : harmless;
        }
    if (harmless != nullptr && harmless->probability > w.rules.act("alarm_stops"))
        return {item, Condition::works, "likely: " + harmless->name + "; nothing to repair"};
    std::vector<std::string> looked, unclear;
    bool holds = false;
    for (auto const& finding : w.out.findings)
        if (finding.item == item)
        {
            auto const& entry = *w.engine.knowledge().finding(finding.id);
            bool const fault = finding.state == FindingState::seen && finding.id != "level_holds";
            if (fault)
                return {item, Condition::works_with_fault, entry.name};
            if (finding.state == FindingState::not_seen)
                looked.push_back(finding.name);
            auto const place = static_cast<std::size_t>(&finding - w.out.findings.data());
            if (finding.state == FindingState::unclear && finding.id != "level_holds" && !weighed_together(w, place))
                unclear.push_back(finding.name);
            holds = holds || (finding.id == "level_holds" && finding.state == FindingState::seen);
        }
    std::size_t figures = 0;
    for (auto const& figure : w.out.figures)
        figures += figure.item == item && figure.figure.computed() ? 1U : 0U;
    if (!unclear.empty())
        return {item, Condition::cannot_tell, "the doubt of the readings is too large to say: " + unclear.front()};
    if (said_alive(t) || !looked.empty() || holds)
        return {item, Condition::works, in_a_line(said_alive(t) ? "it ran" : holds ? "its level holds" : "", looked)};
    for (auto const& entry : w.out.not_tested)
        if (entry.item == item)
            return {item, Condition::not_tested, entry.what + ": " + entry.because};
    return {item, Condition::not_tested,
            figures > 0 ? "measured, but nothing that would show a fault"
                        : "nothing was recorded that would show a fault"};
}

} // namespace

void give_verdicts(Workbench& w)
{
    for (std::size_t i = 1; i < w.property.things().size(); ++i)
    {
        bool touched = w.property.at(i).mentioned;
        for (auto const& finding : w.out.findings)
            touched = touched || finding.item == i;
        for (auto const& cause : w.out.causes)
            touched = touched || (cause.item == i && cause.probability >= w.rules.act("referred"));
        if (touched)
            w.out.verdicts.push_back(verdict_of(w, i));
        else
            w.out.not_tested.push_back({i, "how it is", "nothing was recorded about it"});
    }
}

} // namespace padwalk::assess
