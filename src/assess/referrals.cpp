// Whom to send and how soon; how each item stands; the answer in a sentence.
#include "judge.hpp"

#include <algorithm>
#include <set>

namespace padwalk::assess
{
namespace
{

constexpr std::size_t most_causes = 6; ///< more than a trade can act on in one visit only hides the likely ones

void add_once(std::vector<std::string>& list, std::vector<std::string> const& more)
{
    for (auto const& entry : more)
        if (std::find(list.begin(), list.end(), entry) == list.end())
            list.push_back(entry);
}

bool stops(CauseEntryOf const& cause)
{
    return cause.hurts_people && cause.urgency == Urgency::stop_use;
}

} // namespace

Urgency urgency_of(Workbench const& w, diagnosis::CauseEntry const& cause, double probability)
{
    bool const hurts = cause.hazard == diagnosis::Hazard::people;
    if (cause.urgency == Urgency::stop_use && probability < (hurts ? w.rules.act("danger_stops") : 0.5))
        return Urgency::soon;
    return cause.urgency;
}

void refer(Workbench& w)
{
    for (auto const& [id, trade] : w.engine.knowledge().trades)
    {
        Referral referral{id, trade.name, trade.why, Urgency::watch, {}, {}, {}};
        double none = 1.0;
        bool danger = false;
        for (std::size_t i = 0; i < w.out.causes.size(); ++i)
            if (w.out.causes[i].trade == id && w.out.causes[i].urgency > Urgency::watch)
            {
                if (referral.causes.size() < most_causes)
                    referral.causes.push_back(i);
                none *= 1 - w.out.causes[i].probability;
                danger = danger || (w.out.causes[i].hurts_people &&
                                    w.out.causes[i].probability >= w.rules.act("danger_referred"));
            }
        for (std::size_t i = 0; i < w.out.alarms.size(); ++i)
            if (w.out.alarms[i].trade == id)
                referral.alarms.push_back(i);
        bool const likely_enough = 1 - none >= w.rules.act("referred") || danger;
        if (!likely_enough)
            referral.causes.clear();
        if (referral.causes.empty() && referral.alarms.empty())
            continue;
        for (std::size_t const i : referral.causes)
        {
            referral.urgency = std::max(referral.urgency, w.out.causes[i].urgency);
            add_once(referral.cautions, w.out.causes[i].cautions);
        }
        for (std::size_t const i : referral.alarms)
        {
            referral.urgency = std::max(referral.urgency, w.out.alarms[i].urgency);
            add_once(referral.cautions, w.out.alarms[i].cautions);
        }
        if (referral.urgency > Urgency::watch || !referral.alarms.empty())
            w.out.referrals.push_back(std::move(referral));
    }
    std::stable_sort(w.out.referrals.begin(), w.out.referrals.end(),
                     [](Referral const& a, Referral const& b) { return a.urgency > b.urgency; });
}

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

Verdict verdict_of(Workbench& w, std::size_t item)
{
    Thing const& t = w.property.at(item);
    for (auto const& alarm : w.out.alarms)
        if (alarm.item == item && alarm.urgency == Urgency::stop_use)
            return {item, Condition::unsafe, w.out.findings[alarm.finding].name};
    for (auto const& cause : w.out.causes)
        if (cause.item == item && stops(cause))
            return {item, Condition::unsafe, "may be: " + cause.name};
    if (said_dead(t))
        return {item, Condition::does_not_work,
                t.pump != nullptr ? "it did not run" : "it did not start at its normal control"};
    for (auto const& finding : w.out.findings)
        if (finding.item == item && finding.id == "fill_delivers_nothing" && finding.state == FindingState::seen)
            return {item, Condition::does_not_work, finding.name};
    for (auto const& entry : w.out.undecided)
        if (w.out.findings[entry.finding].item == item)
            return {item, Condition::cannot_tell, w.out.findings[entry.finding].name};
    for (auto const& alarm : w.out.alarms)
        if (alarm.item == item)
            return {item, Condition::works_with_fault, w.out.findings[alarm.finding].name};
    for (auto const& cause : w.out.causes)
        if (cause.item == item && cause.probability >= w.rules.act("referred"))
            return {item, Condition::works_with_fault, "likely: " + cause.name};
    std::vector<std::string> looked;
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
            holds = holds || (finding.id == "level_holds" && finding.state == FindingState::seen);
        }
    std::size_t figures = 0;
    for (auto const& figure : w.out.figures)
        figures += figure.item == item && figure.figure.computed() ? 1U : 0U;
    if (said_alive(t) || !looked.empty() || holds)
        return {item, Condition::works, in_a_line(said_alive(t) ? "it ran" : holds ? "its level holds" : "", looked)};
    for (auto const& entry : w.out.not_tested)
        if (entry.item == item)
            return {item, Condition::not_tested, entry.what + ": " + entry.because};
    return {item, Condition::not_tested,
            figures > 0 ? "measured, but nothing that would show a fault"
                        : "nothing was recorded that would show a fault"};
}

std::string count_of(std::size_t count, std::string const& one, std::string const& many)
{
    return std::to_string(count) + " " + (count == 1 ? one : many);
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

namespace
{

std::string undecided_in_words(Workbench const& w)
{
    auto const& first = w.out.undecided.front();
    auto const& finding = w.out.findings[first.finding];
    return "It can't be told from here what is behind this: " + finding.name + " (" + w.name(finding.item) + ")." +
           (first.decides.empty() ? " No check known here decides it; have it looked at by the trade it belongs to."
                                  : " What would decide it: " + first.decides + ".");
}

} // namespace

void summarise(Workbench& w)
{
    auto& out = w.out;
    std::vector<std::string> unsafe;
    for (auto const& alarm : out.alarms)
        if (alarm.urgency == Urgency::stop_use)
            unsafe.push_back(out.findings[alarm.finding].name + " (" + w.name(alarm.item) + ")");
    for (auto const& cause : out.causes)
        if (stops(cause))
            unsafe.push_back("perhaps " + cause.name + " (" + w.name(cause.item) + ")");
    std::size_t seen = 0;
    for (auto const& finding : out.findings)
        seen += finding.state == FindingState::seen && finding.id != "level_holds" ? 1U : 0U;

    if (!unsafe.empty())
    {
        out.outcome = Outcome::unsafe;
        out.summary = "Not safe to use as it stands: ";
        for (std::size_t i = 0; i < unsafe.size() && i < 4; ++i)
            out.summary += (i > 0 ? "; " : "") + unsafe[i];
        out.summary += unsafe.size() > 4 ? "; and " + std::to_string(unsafe.size() - 4) + " more." : ".";
        if (!out.referrals.empty())
            out.summary += " Call first: " + out.referrals.front().name + ".";
    }
    else if (!out.referrals.empty())
    {
        out.outcome = Outcome::refer;
        out.summary = count_of(out.referrals.size(), "trade is", "trades are") +
                      " needed; first: " + out.referrals.front().name + ".";
        if (!out.causes.empty())
            out.summary += " Likeliest: " + out.causes.front().name + " (" + w.name(out.causes.front().item) + ").";
    }
    else if (!out.undecided.empty())
        out.outcome = Outcome::refer; // someone must look again before anyone can say that nothing is wrong
    else if (out.findings.empty())
        out.summary = "Nothing was recorded that could be judged" +
                      std::string(out.questions.empty() ? "." : "; see the notes that were not understood.");
    else
        out.summary = seen > 0
                          ? "Nothing was found that needs a trade now; the causes below are worth keeping an eye on."
                          : "Nothing wrong was found in what was looked at. What was not looked at is listed, and is "
                            "not thereby fine.";
    if (!out.undecided.empty() && unsafe.empty())
        out.summary += (out.summary.empty() ? "" : " ") + undecided_in_words(w);
}

void collect_cautions_and_sources(Workbench& w)
{
    std::vector<std::string> cautions;
    std::set<std::string> keys;
    for (auto const& alarm : w.out.alarms)
        add_once(cautions, alarm.cautions);
    for (auto const& referral : w.out.referrals)
        add_once(cautions, referral.cautions);
    for (auto const& check : w.out.next)
        add_once(cautions, check.cautions);
    for (auto const& cause : w.out.causes)
    {
        add_once(cautions, cause.cautions);
        keys.insert(w.engine.knowledge().cause(cause.id)->source.key);
    }
    for (auto const& finding : w.out.findings)
        keys.insert(w.engine.knowledge().finding(finding.id)->source.key);
    for (auto const& figure : w.out.figures)
        keys.insert(figure.figure.model->sources.begin(), figure.figure.model->sources.end());
    for (auto const& id : cautions)
        if (auto const* caution = w.engine.knowledge().caution(id))
            w.out.cautions.emplace_back(id, caution->say);
    for (auto const& key : keys)
        if (auto const found = w.engine.bibliography().find(key); found != w.engine.bibliography().end())
            w.out.sources.emplace_back(key, found->second);
}

} // namespace padwalk::assess
