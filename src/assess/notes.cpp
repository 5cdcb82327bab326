// What was noticed, in plain words, and what was read off.
#include "workbench.hpp"

#include <algorithm>

namespace padwalk::assess
{
namespace
{

std::string quoted(std::string const& note, bool there)
{
    return (there ? "noticed: \"" : "looked for: \"") + note + "\"";
}

// An item of the finding's kind that the note may be about: the item itself, else the only one related to it.
std::optional<std::size_t> place_for(Workbench& w, std::string const& kind, std::size_t item)
{
    if (w.property.at(item).entry.kind == kind)
        return item;
    auto const places = w.property.of_kind(kind, item);
    return places.size() == 1 ? std::optional(places.front()) : std::nullopt;
}

void one_note(Workbench& w, std::size_t item, std::string const& note, bool there)
{
    auto const& knowledge = w.engine.knowledge();
    std::string const& kind = w.property.at(item).entry.kind;
    bool const anywhere = kind == "property";
    auto reading = w.engine.vocabulary().match(note, anywhere ? "" : kind);
    if (!anywhere && reading.result == visit::PhraseReading::Result::none)
    {
        auto const wider = w.engine.vocabulary().match(note, ""); // a drip noticed at the pump may be the filter's
        if (wider.result == visit::PhraseReading::Result::understood &&
            place_for(w, knowledge.finding(wider.findings.front())->item, item))
            reading = wider;
    }
    if (reading.result == visit::PhraseReading::Result::understood)
    {
        std::string const& id = reading.findings.front();
        if (auto const place = place_for(w, knowledge.finding(id)->item, item))
        {
            w.noticed(*place, id, there, quoted(note, there));
            return;
        }
        reading.why = "is about a " + knowledge.finding(id)->item + ", and it is not clear which; write it there";
    }
    Question question{item, note, reading.why, {}};
    for (auto const& id : reading.findings)
        question.may_mean.push_back(knowledge.finding(id)->name);
    w.out.questions.push_back(std::move(question));
}

void notes_of(Workbench& w, std::size_t item, std::vector<visit::Noticed> const& notes)
{
    for (auto const& n : notes)
    {
        if (!n.seen.empty())
            one_note(w, item, n.seen, true);
        if (!n.not_seen.empty())
            one_note(w, item, n.not_seen, false);
    }
}

void untested_of(Workbench& w, std::size_t item, std::vector<visit::NotTested> const& list)
{
    for (auto const& n : list)
        w.out.not_tested.push_back({item, n.what, n.because});
}

std::string in_plain(std::string text)
{
    std::replace(text.begin(), text.end(), '_', ' ');
    return text;
}

// What was ticked rather than measured: 'yes', 'part open', a date.
std::string said_in_words(fields::Tree const& value, fields::FieldShape::Form form)
{
    using Form = fields::FieldShape::Form;
    if (form == Form::yes_no)
        if (auto const* yes = std::get_if<bool>(&value.value()))
            return *yes ? "yes" : "no";
    if (form == Form::choice || form == Form::moment)
        if (auto const* text = std::get_if<std::string>(&value.value()))
            return in_plain(*text);
    return {};
}

template <class T> void readings_of(Workbench& w, std::size_t item, T const& record, std::string const& before = {})
{
    auto const& fields = T::declaration().shape().fields;
    for (std::size_t i = 0; i < fields.size(); ++i)
    {
        auto const reading = T::declaration().reading(record, i);
        std::string const words =
            reading ? std::string() : said_in_words(T::declaration().write_field(record, i), fields[i].form);
        if (!reading && words.empty())
            continue;
        w.out.readings.push_back(
            {item, &fields[i], in_plain(before + fields[i].name), reading.value_or(units::Reading{}), words});
    }
}

} // namespace

void read_notes(Workbench& w)
{
    notes_of(w, 0, w.visit.noticed);
    untested_of(w, 0, w.visit.not_tested);
    for (std::size_t i = 1; i < w.property.things().size(); ++i)
        if (auto const* base = w.property.at(i).base)
        {
            notes_of(w, i, base->noticed);
            untested_of(w, i, base->not_tested);
        }
}

void list_readings(Workbench& w)
{
    readings_of(w, 0, w.visit);
    for (std::size_t i = 1; i < w.property.things().size(); ++i)
    {
        Thing const& t = w.property.at(i);
        std::string const& kind = t.entry.kind;
        if (kind == "water")
        {
            readings_of(w, i, *t.water);
            for (auto const& test : t.water->tests)
                readings_of(w, i, test, test.on ? "test " + test.on->text + ", " : "");
            if (t.water->bucket_test)
                readings_of(w, i, *t.water->bucket_test, "bucket test ");
            for (auto const& mark : t.water->level_history)
                readings_of(w, i, mark, "level " + (mark.at ? mark.at->text + ", " : std::string()));
        }
        if (kind == "shell" && t.shell != nullptr)
            for (auto const& crack : t.shell->cracks)
                readings_of(w, i, crack, "crack " + (crack.where.empty() ? std::string() : "(" + crack.where + ") "));
        if (kind == "loop")
        {
            readings_of(w, i, *t.loop);
            for (auto const& [name, valve] : t.loop->valves)
                readings_of(w, i, valve, "valve " + name + ", ");
            if (t.loop->suction)
                readings_of(w, i, *t.loop->suction, "suction ");
            if (t.loop->discharge)
                readings_of(w, i, *t.loop->discharge, "return ");
        }
        if (t.pump != nullptr)
        {
            readings_of(w, i, *t.pump);
            if (t.pump->motor)
                readings_of(w, i, *t.pump->motor, "motor ");
        }
        if (t.filter != nullptr)
            readings_of(w, i, *t.filter);
        if (t.drain != nullptr)
            readings_of(w, i, *t.drain);
        if (kind == "heater")
        {
            readings_of(w, i, *t.heater);
            if (t.heater->meter)
                readings_of(w, i, *t.heater->meter, "gas meter ");
            if (t.heater->flue)
                readings_of(w, i, *t.heater->flue, "flue ");
        }
        if (kind == "vent")
        {
            if (t.vent != nullptr)
                readings_of(w, i, *t.vent);
            if (t.heater->room)
                readings_of(w, i, *t.heater->room, "room ");
        }
        if (t.fill_valve != nullptr)
            readings_of(w, i, *t.fill_valve);
    }
}

} // namespace padwalk::assess
