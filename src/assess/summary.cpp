// The answer in a few sentences; the cautions and sources that it all rests on.
#include "judge.hpp"

#include <algorithm>
#include <set>

namespace padwalk::assess
{
namespace
{

std::string count_of(std::size_t count, std::string const& one, std::string const& many)
{
    return std::to_string(count) + " " + (count == 1 ? one : many);
}

std::string undecided_in_words(Workbench const& w)
{
    auto const& first = w.out.undecided.front();
    auto const& finding = w.out.findings[first.finding];
    return "It can't be told from here what is behind this: " + finding.name + " (" + w.name(finding.item) + ")." +
           (first.decides.empty() ? "" : " What would decide it: " + first.decides + ".");
}

// 'a; b; and 3 more'
std::string listed(std::vector<std::string> const& things, std::size_t most)
{
    std::string out;
    for (std::size_t i = 0; i < things.size() && i < most; ++i)
        out += (i > 0 ? "; " : "") + things[i];
    if (things.size() > most)
        out += "; and " + std::to_string(things.size() - most) + " more";
    return out + ".";
}

std::vector<std::string> unsafe_things(Workbench const& w)
{
    std::vector<std::string> out;
    for (auto const& note : w.out.danger_words)
        out.push_back("words of danger (" + note + ")");
    for (auto const& alarm : w.out.alarms)
        if (alarm.urgency == Urgency::stop_use)
            out.push_back(w.out.findings[alarm.finding].name + " (" + w.name(alarm.item) + ")");
    for (auto const& found : w.out.found)
        if (found.stops_use)
            out.push_back("found on site, unless it was put right since: " + found.name + " (" + w.name(found.item) +
                          ")");
    for (auto const& cause : w.out.causes)
        if (stops(cause))
            out.push_back("perhaps " + cause.name + " (" + w.name(cause.item) + ")");
    return out;
}

std::vector<std::string> found_things(Workbench const& w)
{
    std::vector<std::string> out;
    for (auto const& finding : w.out.findings)
        if (finding.state == FindingState::seen && finding.id != "level_holds")
            out.push_back(finding.name + " (" + w.name(finding.item) + ")");
    return out;
}

// Before any trade comes whoever helps people.
bool everyone_leaves(Workbench const& w)
{
    return std::any_of(w.out.alarms.begin(), w.out.alarms.end(),
                       [&](Alarm const& alarm)
                       {
                           auto const& id = w.out.findings[alarm.finding].id;
                           return w.engine.knowledge().finding(id)->if_seen->leave.value_or(false) ||
                                  w.at_once.contains({alarm.item, id});
                       });
}

// The likeliest cause among those that the first trade comes for.
std::string likeliest(Workbench const& w)
{
    CauseEntryOf const* best = nullptr;
    for (std::size_t const i : w.out.referrals.front().causes)
        if (best == nullptr || w.out.causes[i].probability > best->probability)
            best = &w.out.causes[i];
    return best == nullptr ? std::string() : " Likeliest: " + best->name + " (" + w.name(best->item) + ").";
}

void add_sentence(std::string& text, std::string const& sentence)
{
    text += (text.empty() || sentence.empty() ? "" : " ") + sentence;
}

} // namespace

void summarise(Workbench& w)
{
    auto& out = w.out;
    auto const unsafe = unsafe_things(w);
    auto const found = found_things(w);
    if (!unsafe.empty())
    {
        out.outcome = Outcome::unsafe;
        out.summary = "Not safe to use as it stands: " + listed(unsafe, 4);
        if (!out.referrals.empty())
            add_sentence(out.summary,
                         (everyone_leaves(w) ? "Everyone out first, and what is said above of it; only then "
                                               "call: "
                                             : "Call first: ") +
                             out.referrals.front().name + ".");
    }
    else if (!out.referrals.empty())
    {
        out.outcome = Outcome::refer;
        if (!found.empty())
            out.summary = "Found: " + listed(found, 3);
        add_sentence(out.summary, count_of(out.referrals.size(), "trade is", "trades are") +
                                      " needed; first: " + out.referrals.front().name + "." + likeliest(w));
    }
    else if (!out.undecided.empty())
        out.outcome = Outcome::refer; // someone must look again before anyone can say that nothing is wrong
    else if (out.findings.empty())
        out.summary = "Nothing was recorded that could be judged.";
    else
        out.summary = !found.empty() && out.causes.empty()
                          ? "Nothing was found that needs a trade now; what the figures below say is worth keeping an "
                            "eye on."
                      : !found.empty() || !out.causes.empty()
                          ? "Nothing was found that needs a trade now; the causes below are worth keeping an eye on."
                          : "Nothing wrong was found in what was looked at. What was not looked at is listed, and is "
                            "not thereby fine.";
    if (unsafe.empty())
        for (auto const& verdict : out.verdicts)
            if (verdict.condition == Condition::does_not_work)
            {
                out.outcome = std::max(out.outcome, Outcome::refer);
                out.summary = "Does not work: " + w.name(verdict.item) + " (" + verdict.because + "). " +
                              (out.referrals.empty() && found.empty() ? std::string() : out.summary);
                break;
            }
    if (!out.undecided.empty() && unsafe.empty())
        add_sentence(out.summary, undecided_in_words(w));
    if (!out.questions.empty())
    {
        // What was not understood may matter: it is not thereby fine.
        out.outcome = std::max(out.outcome, Outcome::refer);
        add_sentence(out.summary,
                     count_of(out.questions.size(), "question is", "questions are") + " open and may matter.");
    }
}

void collect_cautions_and_sources(Workbench& w)
{
    std::vector<std::string> cautions;
    std::set<std::string> keys = w.cited;
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
    for (auto const& found : w.out.found)
        add_once(cautions, found.cautions);
    for (auto const& finding : w.out.findings)
        keys.insert(w.engine.knowledge().finding(finding.id)->source.key);
    for (auto const& figure : w.out.figures)
        keys.insert(figure.figure.model->sources.begin(), figure.figure.model->sources.end());
    for (auto const& reading : w.out.limits_broken)
        for (auto const& limit : reading.broken_by)
            if (!limit.from_memory)
                keys.insert(limit.key);
    for (auto const& id : cautions)
        if (auto const* caution = w.engine.knowledge().caution(id))
            w.out.cautions.emplace_back(id, caution->say);
    for (auto const& key : keys)
        if (auto const found = w.engine.bibliography().find(key); found != w.engine.bibliography().end())
            w.out.sources.emplace_back(key, found->second);
}

} // namespace padwalk::assess
