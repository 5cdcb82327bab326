// The file of a walk, and what is said of it.
#include "padwalk/report/text.hpp"
#include "walk.hpp"
#include "walk_session.hpp"

#include <algorithm>
#include <cmath>
#include <istream>
#include <ostream>
#include <tuple>

namespace padwalk::command_line
{
namespace
{

using assess::FindingState;

constexpr std::size_t answers_between_standings = 5;

/// What was noted of findings: id, item, and how.
using Noted = std::multiset<std::tuple<std::string, std::size_t, FindingState>>;

Noted noted_in(assess::Assessment const& assessment)
{
    Noted out;
    for (auto const& f : assessment.findings)
        if (!f.computed)
            out.insert({f.id, f.item, f.state});
    return out;
}

} // namespace

std::string capital(std::string text)
{
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
        text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text;
}

void Walk::save()
{
    if (on_disk_)
    {
        if (world_.read_file(file_) != *on_disk_)
            throw FileProblem("'" + file_ +
                              "' was changed by someone else meanwhile; it was left as it is, without the last answer. "
                              "Start the walk again");
        if (text_ == *on_disk_)
            return;
    }
    world_.write_file(file_, text_, on_disk_.has_value());
    on_disk_ = text_;
}

// The text assessed, or none where it can't be read; then the reason is said.
std::optional<assess::Walked> Walk::tried(std::string const& text)
{
    try
    {
        return assess::assess_walk(visit::read_visit(text, engine_.instruments()), engine_, system_);
    }
    catch (fields::InputProblems const& bad)
    {
        auto const& problem = bad.list().front();
        say(capital(problem.message) + (problem.advice.empty() ? "." : ": " + problem.advice + "."));
    }
    return std::nullopt;
}

void Walk::took(std::string text, assess::Walked walked)
{
    before_.push_back({text_, skipped_});
    text_ = std::move(text);
    save();
    auto const before = std::exchange(now_, std::move(walked));
    say_changes(before ? before->assessment : assess::Assessment(), now_->assessment);
    if (++answers_ % answers_between_standings == 0)
        say_standing(false);
}

bool Walk::take(std::string text)
{
    if (says_nothing(text))
    {
        before_.push_back({text_, skipped_});
        text_ = std::move(text);
        save();
        return true;
    }
    auto walked = tried(text);
    if (!walked)
        return false;
    took(std::move(text), std::move(*walked));
    return true;
}

void Walk::back()
{
    if (before_.empty())
        return say("Nothing to take back since this walk was begun.");
    text_ = before_.back().text;
    skipped_ = before_.back().skipped;
    before_.pop_back();
    save();
    now_.reset();
    under_way_.clear();
    say("Taken back.");
}

visit::Keys Walk::at(std::size_t item, std::vector<std::string> const& more) const
{
    auto keys = item == 0 ? visit::Keys() : visit::keys_of(text_, now_->assessment.items.at(item).path);
    keys.insert(keys.end(), more.begin(), more.end());
    return keys;
}

std::string Walk::with_notes(std::string text, std::vector<Note> const& notes, bool by_id) const
{
    for (auto const& one : notes)
        text = visit::with_entry(text, at(one.item, {"noticed"}),
                                 {{one.there ? "seen" : "not_seen", by_id ? one.finding : one.name}});
    return text;
}

// Findings are written by their names, for people to read; where a name is read as anything else than just that finding
// there, by their ids.
bool Walk::note(std::vector<Note> const& notes)
{
    Noted wanted = noted_in(now_->assessment);
    for (auto const& one : notes)
        wanted.insert({one.finding, one.item, one.there ? FindingState::seen : FindingState::not_seen});
    for (bool const by_id : {false, true})
    {
        auto text = with_notes(text_, notes, by_id);
        auto walked = tried(text);
        if (!walked)
            return false;
        bool const more_questions = walked->assessment.questions.size() > now_->assessment.questions.size();
        if (by_id || (noted_in(walked->assessment) == wanted && !more_questions))
        {
            took(std::move(text), std::move(*walked));
            return true;
        }
    }
    return false;
}

std::optional<Typed> Walk::read(std::string const& prompt)
{
    world_.out << prompt << " > " << std::flush;
    std::string line;
    if (!std::getline(world_.in, line))
    {
        world_.out << "\n";
        return std::nullopt;
    }
    return read_typed(line);
}

std::optional<Typed> Walk::read_answer(std::string const& prompt, Goes& goes)
{
    auto const typed = read(prompt);
    goes = !typed || typed->said == Said::leave ? Goes::left : Goes::on;
    if (goes == Goes::left)
        return std::nullopt;
    if (typed->said != Said::back)
        return typed;
    back();
    return std::nullopt;
}

void Walk::say_keys()
{
    world_.out << "  y yes   n no   0 none of all this check may show   ? not sure   s skip for now\n"
                  "  c can't be tested   b take back the last answer   q leave, to go on later\n"
                  "  or a reading with its unit, or what you noticed in your own words\n";
}

void Walk::caution(std::vector<std::string> const& ids)
{
    for (auto const& id : ids)
        if (auto const* entry = engine_.knowledge().caution(id); entry != nullptr && cautions_said_.insert(id).second)
            say(entry->say, "  ! ");
}

void Walk::heading(assess::Telling const& telling)
{
    std::string const key = std::to_string(telling.item) + telling.id + telling.name;
    if (key == under_way_)
        return;
    under_way_ = key;
    bool const first = headings_said_.insert(key).second;
    char const* const bold = world_.colour ? "\033[1m" : "";
    world_.out << "\n" << bold << capital(name(telling.item)) << (world_.colour ? "\033[0m" : "") << "\n";
    caution(telling.cautions);
    if (telling.field != nullptr)
        return;
    bool const needs = first && !telling.needs.empty() && telling.needs != "nothing";
    say(capital(telling.name) + "." +
        (first ? " " + std::to_string(std::lround(telling.minutes)) + " min" : std::string()) +
        (needs   ? "; needs: " + telling.needs + "."
         : first ? "."
                 : ""));
}

void Walk::list_signs(assess::Telling const& telling)
{
    if (telling.signs.size() < 2)
        return;
    std::string all;
    bool fresh = false;
    for (auto const& sign : telling.signs)
    {
        fresh = listed_.insert(std::to_string(sign.item) + " " + sign.finding).second || fresh;
        all += (all.empty() ? "" : "; ") + sign.name;
    }
    if (fresh)
        say("0 says none of: " + all);
}

void Walk::say_alarm(assess::Assessment const& assessment, assess::Alarm const& alarm)
{
    char const* const red = world_.colour ? "\033[1;31m" : "";
    world_.out << red << (alarm.urgency == assess::Urgency::stop_use ? "  STOP" : "  NOTE")
               << (world_.colour ? "\033[0m" : "") << ": " << assessment.findings.at(alarm.finding).name << " ("
               << assessment.items.at(alarm.item).name << ")\n";
    say(alarm.say);
    caution(alarm.cautions);
}

void Walk::say_changes(assess::Assessment const& before, assess::Assessment const& after)
{
    std::set<std::pair<std::string, std::string>> known;
    for (auto const& alarm : before.alarms)
        known.insert({before.findings.at(alarm.finding).id, before.items.at(alarm.item).path});
    for (auto const& alarm : after.alarms)
        if (!known.contains({after.findings.at(alarm.finding).id, after.items.at(alarm.item).path}))
            say_alarm(after, alarm);
    for (std::size_t i = before.danger_words.size(); i < after.danger_words.size(); ++i)
        say("Written as a danger: " + after.danger_words[i]);
    for (std::size_t i = before.oddities.size(); i < after.oddities.size(); ++i)
        say("Unusual, and kept: " + after.oddities[i].message + ". If it was mistyped, b takes it back.");
}

void Walk::say_standing(bool again)
{
    auto const& a = now_->assessment;
    std::string line;
    auto const likeliest = std::max_element(a.causes.begin(), a.causes.end(),
                                            [](auto const& x, auto const& y) { return x.probability < y.probability; });
    if (likeliest != a.causes.end())
        line += "likeliest: " + likeliest->name + " (" + name(likeliest->item) + "), " +
                std::string(report::probability_word(likeliest->probability)) + "; ";
    line += a.referrals.empty() ? "no trade needed so far; " : "first to call: " + a.referrals.front().name + "; ";
    line += a.outcome == assess::Outcome::unsafe ? "UNSAFE: do not use" : "nothing unsafe in what was looked at";
    if (line == standing_ && !again)
        return;
    standing_ = line;
    world_.out << "\n";
    say(line + ".", "= ");
}

} // namespace padwalk::command_line
