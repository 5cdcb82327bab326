// The first questions of a walk: dangers, who walks, what is there.
#include "padwalk/visit/visit.hpp"
#include "walk_session.hpp"
#include "walk_start.hpp"

#include <algorithm>
#include <ostream>
#include <utility>

namespace padwalk::command_line
{
namespace
{

std::vector<Note> denials(std::vector<assess::FirstDanger> const& dangers)
{
    std::vector<Note> out;
    for (auto const& danger : dangers)
        for (std::size_t const item : danger.items)
            out.push_back({danger.finding, danger.name, item, false});
    return out;
}

} // namespace

void Walk::danger_seen(assess::FirstDanger const& danger, bool nothing_there)
{
    if (nothing_there)
    {
        say("STOP: " + danger.name);
        say(danger.say);
        caution(danger.cautions);
        take(visit::with_entry(text_, {"noticed"}, {{"seen", danger.name}}));
        return;
    }
    std::vector<std::string> names;
    for (std::size_t const item : danger.items)
        names.push_back(name(item));
    std::size_t place = 0; // where it is not said: a danger is not dropped
    if (names.size() > 1)
    {
        for (std::size_t i = 0; i < names.size(); ++i)
            world_.out << "  " << i + 1 << " " << names[i] << "\n";
        std::optional<Typed> typed;
        std::vector<std::size_t> chosen;
        do
        {
            typed = read("  " + capital(danger.ask) + ": where?");
            chosen = typed ? choices_in(typed->text, names) : std::vector<std::size_t>();
        } while (chosen.empty() && typed && typed->said != Said::leave && typed->said != Said::back);
        place = chosen.empty() ? place : chosen.front();
    }
    note({{danger.finding, danger.name, danger.items[place], true}});
}

void Walk::deny(std::vector<assess::FirstDanger> const& dangers, bool nothing_there)
{
    if (nothing_there)
    {
        take(text_ + (text_.empty() || text_.back() == '\n' ? "" : "\n") + asked_on_arrival + "\n");
        return;
    }
    note(denials(dangers));
}

Goes Walk::ask_dangers(std::vector<assess::FirstDanger> const& dangers, bool nothing_there)
{
    world_.out << "\nFirst, before anything else. Is there any of this, now or lately?\n";
    std::vector<std::string> cautions, names;
    for (std::size_t i = 0; i < dangers.size(); ++i)
    {
        world_.out << "  " << i + 1 << " " << dangers[i].ask << "\n";
        names.push_back(dangers[i].ask);
        cautions.insert(cautions.end(), dangers[i].cautions.begin(), dangers[i].cautions.end());
    }
    caution(cautions);
    Goes goes = Goes::on;
    while (true)
    {
        auto const typed = read_answer("  n none of these, or its number", goes);
        if (!typed)
            return goes;
        if (typed->said == Said::no || typed->said == Said::none)
        {
            deny(dangers, nothing_there);
            return Goes::on;
        }
        auto chosen = choices_in(typed->text, names);
        std::sort(chosen.begin(), chosen.end());
        chosen.erase(std::unique(chosen.begin(), chosen.end()), chosen.end());
        for (std::size_t const i : chosen)
            danger_seen(dangers[i], nothing_there);
        if (!chosen.empty())
            return Goes::on; // and asks for the others
        say("Type n if there is none of these, or the number of what there is. In doubt take it as there.");
    }
}

Goes Walk::ask_who()
{
    std::vector<std::string> const who = fields::words_of<visit::By>::words();
    Goes goes = Goes::on;
    while (true)
    {
        auto const typed = read_answer("\nWho walks? i inspector   t technician   o owner", goes);
        if (!typed)
            return goes;
        auto const chosen = choices_in(typed->text, who);
        if (typed->said == Said::skip || chosen.size() != 1)
        {
            say("Type i, t or o: what you may do safely depends on it.");
            continue;
        }
        if (take(visit::with_value(text_, {"by"}, who[chosen.front()])))
            return Goes::on;
    }
}

// A date on a cover says nothing without the day of the visit.
Goes Walk::ask_when()
{
    Goes goes = Goes::on;
    while (true)
    {
        auto const typed = read_answer("\nToday's date? such as 2026-05-14, or s to skip", goes);
        if (!typed)
            return goes;
        if (typed->said == Said::skip || typed->said == Said::unsure)
        {
            before_.push_back({text_, skipped_});
            skipped_.insert("date");
            return Goes::on;
        }
        if (typed->said != Said::text)
            say("Type the date as year, month, day: 2026-05-14.");
        else if (take(visit::with_value(text_, {"on"}, typed->text)))
            return Goes::on;
    }
}

Goes Walk::ask_things()
{
    world_.out << "\nWhat is there? Pump and filter are taken for granted.\n";
    for (std::size_t i = 0; i < things_shown().size(); ++i)
        world_.out << "  " << i + 1 << " " << things_shown()[i] << "\n";
    Goes goes = Goes::on;
    while (true)
    {
        auto const typed = read_answer("  the numbers of all there is, for example 1477", goes);
        if (!typed)
            return goes;
        auto const chosen = choices_in(typed->text, things_typed());
        std::string const text = chosen.empty() ? std::string() : with_things(text_, chosen);
        if (text.empty())
        {
            say("Type numbers from the list, with a pool or a spa among them.");
            continue;
        }
        if (begin_with(text))
            return Goes::on;
    }
}

// The things, and that they have none of the dangers that were asked about on arrival: one answer.
bool Walk::begin_with(std::string const& text)
{
    auto walked = tried(text);
    if (!walked)
        return false;
    std::string written;
    for (auto const& item : walked->assessment.items)
        if (auto const& kind = item.kind;
            kind == "water" || kind == "loop" || kind == "drain" || kind == "heater" || kind == "fill_valve")
            written += (written.empty() ? "" : ", ") + item.name;
    say("Written: " + written + ". b takes it back; give other names in the file.");
    auto const notes =
        text.find(asked_on_arrival) == std::string::npos ? std::vector<Note>() : denials(walked->dangers);
    if (notes.empty())
    {
        took(text, std::move(*walked));
        return true;
    }
    std::string const before = std::exchange(text_, text);
    now_ = std::move(walked);
    if (!note(notes))
        return false;
    before_.back().text = before;
    return true;
}

std::string Walk::heater_without_loop(visit::Visit const& visit) const
{
    for (auto const& [name, heater] : visit.heaters)
        if (visit.loops.size() > 1 && heater.loop.empty() && !skipped_.contains("loop of " + name))
            return name;
    return {};
}

Goes Walk::ask_loop_of(std::string const& heater, visit::Visit const& visit)
{
    std::vector<std::string> loops;
    std::string shown;
    for (auto const& [loop, entry] : visit.loops)
    {
        loops.push_back(loop);
        shown += "   " + std::to_string(loops.size()) + " " + loop;
    }
    Goes goes = Goes::on;
    while (true)
    {
        auto const typed = read_answer("\n" + capital(heater) + ": which loop does it heat?" + shown, goes);
        if (!typed)
            return goes;
        if (typed->said == Said::skip || typed->said == Said::unsure)
        {
            before_.push_back({text_, skipped_});
            skipped_.insert("loop of " + heater);
            return Goes::on;
        }
        auto const chosen = choices_in(typed->text, loops);
        if (chosen.size() != 1)
            say("Type one of the numbers, or s to skip.");
        else if (take(visit::with_value(text_, {"heaters", heater, "loop"}, loops[chosen.front()])))
            return Goes::on;
    }
}

} // namespace padwalk::command_line
