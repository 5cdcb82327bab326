#include "walk.hpp"

#include "padwalk/reference/yaml.hpp"
#include "walk_session.hpp"

#include <algorithm>
#include <ostream>

namespace padwalk::command_line
{
namespace
{

using Form = fields::FieldShape::Form;

std::string in_plain(std::string text)
{
    std::replace(text.begin(), text.end(), '_', ' ');
    return text;
}

std::string asked_in(assess::Telling const& telling, units::System system)
{
    if (telling.field == nullptr)
        return "  " + capital(telling.signs.front().name) + "?  y n ? 0 s c b q";
    std::string const ask = "  " + capital(telling.name);
    auto const& field = *telling.field;
    if (field.form == Form::yes_no)
        return ask + "  y n ? s c b q";
    if (field.form != Form::choice)
        return ask + ": " + (system == units::System::us ? "such as " + field.sample() : field.describe(system)) +
               ", or ? s c b q";
    std::string options;
    for (std::size_t i = 0; i < field.words.size(); ++i)
        options += "  " + std::to_string(i + 1) + " " + in_plain(field.words[i]);
    return ask + options + "  or ? s b q";
}

} // namespace

std::string Walk::key_of(assess::Telling const& telling)
{
    return std::to_string(telling.item) + " " + telling.id + (telling.field != nullptr ? " field" : " check");
}

assess::Telling const* Walk::next_open() const
{
    for (auto const& telling : now_->telling)
        if (!skipped_.contains(key_of(telling)))
            return &telling;
    return nullptr;
}

void Walk::untold(std::size_t item, std::string const& what, std::string const& because)
{
    take(visit::with_entry(text_, at(item, {"not_tested"}), {{"what", what}, {"because", because}}));
}

Goes Walk::ask_why_not(std::size_t item, std::string const& what)
{
    static std::vector<std::string> const reasons{"no access", "not safe", "no instrument for it", "not for me to do",
                                                  "no time"};
    std::string shown;
    for (std::size_t i = 0; i < reasons.size(); ++i)
        shown += "   " + std::to_string(i + 1) + " " + reasons[i];
    world_.out << in_lines("Why not?" + shown + "   or in your words", "  ", world_.columns);
    while (true)
    {
        auto const typed = read("  b back");
        if (!typed || typed->said == Said::leave)
            return Goes::left;
        if (typed->said == Said::back)
            return Goes::on;
        auto const chosen = choices_in(typed->text, reasons);
        if (chosen.empty() && (typed->said != Said::text || words_in(typed->text) == 0))
        {
            say("Type a number or the reason in words.");
            continue;
        }
        untold(item, what, chosen.empty() ? typed->text : reasons[chosen.front()]);
        return Goes::on;
    }
}

void Walk::own_words(std::size_t item, std::string const& words)
{
    auto const before = now_->assessment;
    if (!take(visit::with_entry(text_, at(item, {"noticed"}), {{"seen", words}})))
        return;
    auto const& after = now_->assessment;
    for (auto const& f : after.findings)
        if (!f.computed && f.from.find(words) != std::string::npos)
            say("Read as: " + f.name + (f.state == assess::FindingState::not_seen ? ", not there" : "") + " (" +
                name(f.item) + ").");
    for (std::size_t i = before.questions.size(); i < after.questions.size(); ++i)
        say("Kept as it is, but not understood: it " + after.questions[i].why + ". b takes it back.");
}

Goes Walk::answer_sign(assess::Telling const& telling, Typed const& typed)
{
    auto const& sign = telling.signs.front();
    switch (typed.said)
    {
    case Said::yes: note({{sign.finding, sign.name, sign.item, true}}); break;
    case Said::no: note({{sign.finding, sign.name, sign.item, false}}); break;
    case Said::none:
    {
        std::vector<Note> notes;
        for (auto const& one : telling.signs)
            notes.push_back({one.finding, one.name, one.item, false});
        note(notes);
        break;
    }
    case Said::unsure: untold(sign.item, sign.name, "looked, and could not tell"); break;
    case Said::cannot: return ask_why_not(telling.item, telling.name);
    default:
        if (words_in(typed.text) < 2 &&
            engine_.vocabulary().match(typed.text, now_->assessment.items.at(sign.item).kind).result ==
                visit::PhraseReading::Result::none)
            say("Not understood. y, n, ?, or what you noticed in two words or more; h for all keys.");
        else
            own_words(sign.item, typed.text);
    }
    return Goes::on;
}

void Walk::put_value(assess::Telling const& telling, std::string const& value)
{
    std::vector<std::string> field{telling.id};
    if (telling.of_test)
        field = {"tests", visit::the_last, telling.id};
    take(visit::with_value(text_, at(telling.item, field), value));
}

Goes Walk::answer_field(assess::Telling const& telling, Typed const& typed)
{
    auto const& field = *telling.field;
    bool const reading = field.form == Form::quantity || field.form == Form::moment;
    if (typed.said == Said::unsure)
        untold(telling.item, telling.name, "not known");
    else if (typed.said == Said::cannot)
        return ask_why_not(telling.item, telling.name);
    else if (field.form == Form::yes_no && (typed.said == Said::yes || typed.said == Said::no))
        put_value(telling, typed.said == Said::yes ? "yes" : "no");
    else if (auto const chosen = choices_in(typed.text, field.words); field.form == Form::choice && chosen.size() == 1)
        put_value(telling, field.words[chosen.front()]);
    else if (bool const number = typed.text.find_first_of("0123456789") != std::string::npos; reading && number)
        put_value(telling, typed.text);
    else if (typed.said == Said::text && words_in(typed.text) >= 2)
        own_words(telling.item, typed.text);
    else if (reading)
        say("A reading is asked, such as " + field.sample() + "; s skips it, c if it can't be taken.");
    else
        say(field.form == Form::choice ? "Type one of the numbers; s skips it, ? if it is not known."
                                       : "Type y or n; s skips it, ? if it is not known, c if it can't be tried.");
    return Goes::on;
}

Goes Walk::ask_next(assess::Telling const& telling)
{
    heading(telling);
    list_signs(telling);
    auto const typed = read(asked_in(telling, system_));
    if (!typed)
        return Goes::left;
    switch (typed->said)
    {
    case Said::leave: return Goes::left;
    case Said::back: back(); return Goes::on;
    case Said::nothing:
    case Said::help: say_keys(); return Goes::on;
    case Said::skip:
        before_.push_back({text_, skipped_});
        skipped_.insert(key_of(telling));
        return Goes::on;
    default: return telling.field != nullptr ? answer_field(telling, *typed) : answer_sign(telling, *typed);
    }
}

Situation Walk::look_round()
{
    Situation here;
    if (says_nothing(text_))
        now_.reset();
    else if (!now_)
        now_ = tried(text_);
    if (now_)
        here.visit = visit::read_visit(text_, engine_.instruments()).visit;
    here.nothing_there = here.visit.waters.empty() && here.visit.loops.empty() && here.visit.heaters.empty() &&
                         here.visit.fill_valves.empty() && !here.visit.electrical;
    auto const leaves = [&](std::string const& finding)
    { return engine_.knowledge().finding(finding)->if_seen->leave.value_or(false); };
    if (now_)
        for (auto const& alarm : now_->assessment.alarms)
            here.everyone_out = here.everyone_out || leaves(now_->assessment.findings.at(alarm.finding).id);
    if (!here.nothing_there)
    {
        here.dangers = now_->dangers;
        return here;
    }
    // Before anything is there, a danger stands among what was noticed, by its name.
    bool const asked = text_.find(asked_on_arrival) != std::string::npos;
    for (auto const& danger : assess::first_dangers(engine_))
    {
        bool const noted = std::any_of(here.visit.noticed.begin(), here.visit.noticed.end(),
                                       [&](visit::Noticed const& n) { return n.seen == danger.name; });
        here.everyone_out = here.everyone_out || (noted && leaves(danger.finding));
        if (!noted && !asked)
            here.dangers.push_back(danger);
    }
    return here;
}

Goes Walk::ask(Situation const& here)
{
    if (here.everyone_out)
    {
        if (answers_ == 0 && now_)
            say_changes({}, now_->assessment); // what was raised on an earlier walk
        say("The walk ends here; the visit is written. When those who were called have made it safe, change that note "
            "in the file and start again.");
        return Goes::ended;
    }
    if (!here.dangers.empty())
        return ask_dangers(here.dangers, here.nothing_there);
    if (!here.visit.by)
        return ask_who();
    if (here.nothing_there && !here.visit.on && !skipped_.contains("date"))
        return ask_when();
    if (here.nothing_there)
        return ask_things();
    if (std::string const heater = heater_without_loop(here.visit); !heater.empty())
        return ask_loop_of(heater, here.visit);
    if (assess::Telling const* open = next_open())
        return ask_next(*open);
    if (second_round_ || now_->telling.empty())
    {
        world_.out << "\nNothing is left that would tell more within a walk.\n";
        return Goes::ended;
    }
    second_round_ = true;
    skipped_.clear();
    world_.out << "\nOnce more what was skipped.\n";
    return Goes::on;
}

assess::Assessment Walk::go()
{
    world_.out << "Walk of " << file_ << (on_disk_ ? ", going on from what is in it" : ", a new visit")
               << ". Each answer is written at once.\n";
    say_keys();
    Goes goes = Goes::on;
    while (goes == Goes::on)
        goes = ask(look_round());
    if (goes == Goes::left)
        say(on_disk_ ? "Left. Go on with: padwalk walk " + file_ : "Left; nothing was written.");
    if (!now_)
        return {};
    say_standing(true);
    say("Next: padwalk assess " + file_);
    return now_->assessment;
}

bool says_nothing(std::string const& text)
{
    return reference::read_yaml(text).entries.empty();
}

assess::Assessment walk(std::string const& file, std::optional<std::string> const& text, assess::Engine const& engine,
                        units::System system, World& world)
{
    return Walk(file, text, engine, system, world).go();
}

} // namespace padwalk::command_line
