// What was noticed, in plain words, and what was read off.
#include "name_words.hpp"
#include "workbench.hpp"

#include <algorithm>
#include <set>
#include <stdexcept>

namespace padwalk::assess
{
namespace
{

using Result = visit::PhraseReading::Result;
using Kinds = std::set<std::string_view>;

std::string quoted(std::string const& note, bool there)
{
    return (there ? "noticed: \"" : "looked for: \"") + note + "\"";
}

struct GoodNewsEntry
{
    std::string finding;
    std::vector<std::string> words;
    static fields::Record<GoodNewsEntry> const& declaration();
};

fields::Record<GoodNewsEntry> const& GoodNewsEntry::declaration()
{
    static fields::Record<GoodNewsEntry> const record =
        fields::Record<GoodNewsEntry>("good_news", "how people say that a fault is not there")
            .field("finding", &GoodNewsEntry::finding, "the finding that is then not there")
            .required()
            .field("words", &GoodNewsEntry::words, "as people say it")
            .required();
    return record;
}

struct GoodNewsFile
{
    std::vector<GoodNewsEntry> good_news;
    static fields::Record<GoodNewsFile> const& declaration();
};

fields::Record<GoodNewsFile> const& GoodNewsFile::declaration()
{
    static fields::Record<GoodNewsFile> const record =
        fields::Record<GoodNewsFile>("good_news_file", "good news in plain words")
            .field("good_news", &GoodNewsFile::good_news, "by finding")
            .required();
    return record;
}

visit::Vocabulary good_news(Engine const& engine)
{
    std::vector<visit::Phrase> phrases;
    for (auto const& entry : reference::read_table<GoodNewsFile>(engine.data(), "visit/good_news.yaml").good_news)
    {
        auto const* finding = engine.knowledge().finding(entry.finding);
        if (finding == nullptr)
            throw std::logic_error("good news of an unknown finding '" + entry.finding + "'");
        phrases.push_back({entry.finding, finding->item, entry.words});
    }
    return visit::Vocabulary(std::move(phrases));
}

// Kinds that are parts of one thing, so that a note at one may be about the other. A drain's cover is never guessed
// from elsewhere.
bool of_one_thing(std::string const& a, std::string const& b)
{
    for (Kinds const& group :
         {Kinds{"pump", "loop", "filter"}, Kinds{"heater", "vent"}, Kinds{"shell", "deck", "water", "fill_valve"}})
        if (group.count(a) != 0 && group.count(b) != 0)
            return true;
    return false;
}

// Whether a note names one of these things.
bool names_one_of(std::string const& note, std::string const& things)
{
    auto const wanted = visit::content_stems(things);
    auto const stems = visit::content_stems(note);
    return std::any_of(stems.begin(), stems.end(),
                       [&](std::string const& s)
                       { return std::find(wanted.begin(), wanted.end(), s) != wanted.end(); });
}

bool about_wiring(std::string const& note)
{
    return names_one_of(note,
                        "gfci wire wiring bond bonding breaker shock conduit outlet receptacle disconnect jolt zap "
                        "tingle cord electric electrical");
}

bool about_vent(std::string const& note)
{
    return names_one_of(note, "vent vents flue flues chimney stack exhaust");
}

// The notes of one visit on their way to the bench.
class NoteReader
{
public:
    explicit NoteReader(Workbench& bench) : w(bench), good_(good_news(bench.engine)) {}

    void note(std::size_t item, visit::Noticed const& n)
    {
        if (!n.seen.empty() && !named(item, n.seen, true))
            seen(item, n.seen);
        if (!n.not_seen.empty() && !named(item, n.not_seen, false))
            for (auto const& part : w.engine.vocabulary().read(n.not_seen, kind_at(item)))
                if (!lay(item, widened(item, part), n.not_seen, false))
                    ask(item, part, n.not_seen);
        aside(item, n.where, "in where it was noticed");
    }
    void untested(std::size_t item, visit::NotTested const& n)
    {
        w.out.not_tested.push_back({item, n.what, n.because});
        aside(item, n.because, "in why it was not tested");
        if (!n.what.empty())
            aside(item, n.what + " not tested", "among what was not tested"); // a thing to test is no danger
    }
    /// Text that is not matched, only searched for danger.
    void aside(std::size_t item, std::string const& text, std::string const& where)
    {
        for (auto const& d : visit::dangers(text, kind_at(item)))
        {
            bool const known =
                std::any_of(w.out.findings.begin(), w.out.findings.end(),
                            [&](auto const& f) { return f.id == d.finding && f.state == FindingState::seen; });
            if (!d.denied && !known)
                raise(item, d, d.sentence, where);
        }
    }

private:
    Workbench& w;
    visit::Vocabulary good_;

    [[nodiscard]] std::string kind_at(std::size_t item) const
    {
        std::string const& kind = w.property.at(item).entry.kind;
        return kind == "property" ? std::string() : kind;
    }
    // A note that is a finding's own name or id is that finding, whatever words stand in it.
    bool named(std::size_t item, std::string const& note, bool there)
    {
        std::string const kind = kind_at(item), said = lowered(note);
        std::string const* id = nullptr;
        for (auto const& [of, finding] : w.engine.knowledge().findings)
            if ((said == of || said == lowered(finding.name)) && (id == nullptr || finding.item == kind))
                id = &of;
        if (id == nullptr)
            return false;
        auto const place = place_for(entry(*id).item, item);
        if (!place)
            return false;
        w.noticed(*place, *id, there, quoted(note, there));
        return true;
    }
    // An item of the finding's kind that the note may be about: the item itself, else the only one related to it.
    [[nodiscard]] std::optional<std::size_t> place_for(std::string const& kind, std::size_t item) const
    {
        auto const places = w.property.of_kind(kind, item);
        return places.size() == 1 ? std::optional(places.front()) : std::nullopt;
    }
    [[nodiscard]] diagnosis::FindingEntry const& entry(std::string const& id) const
    {
        return *w.engine.knowledge().finding(id);
    }

    // What fits nothing here may be about another part of the same thing, if it says enough.
    [[nodiscard]] visit::PhraseReading widened(std::size_t item, visit::PhraseReading part) const
    {
        std::string const kind = kind_at(item);
        if (kind.empty() || part.result != Result::none)
            return part;
        if (kind == "heater" && about_vent(part.part))
        {
            auto of_vent = w.engine.vocabulary().match(part.part, "vent");
            bool const understood = of_vent.result == Result::understood || of_vent.result == Result::denied;
            if (understood && place_for(entry(of_vent.findings.front()).item, item))
                return of_vent;
        }
        auto wider = w.engine.vocabulary().match(part.part, "");
        if (wider.result != Result::understood && wider.result != Result::denied)
            return part;
        std::string const& other = entry(wider.findings.front()).item;
        std::size_t telling = wider.stems.size();
        for (auto const& name : visit::content_stems(kind + " " + other))
            telling -= static_cast<std::size_t>(std::count(wider.stems.begin(), wider.stems.end(), name));
        bool const wiring = (kind == "electrical" || other == "electrical") && about_wiring(part.part);
        bool const may = other == kind || of_one_thing(kind, other) || wiring;
        return may && telling >= 2 && place_for(other, item) ? wider : part;
    }

    // False where it is a question.
    bool lay(std::size_t item, visit::PhraseReading const& part, std::string const& note, bool there)
    {
        if (part.result == Result::not_tested)
        {
            w.out.not_tested.push_back({item, part.part, "as noted: \"" + note + "\""});
            return true;
        }
        if (part.result != Result::understood && (part.result != Result::denied || !there))
            return false;
        std::string const& id = part.findings.front();
        auto const place = place_for(entry(id).item, item);
        if (!place)
            return false;
        bool const denied = part.result == Result::denied;
        auto const* pump = w.property.at(*place).pump;
        // What hums while it runs does not hum in vain, unless the note itself says that it does not start.
        bool const says_so = note.find("start") != std::string::npos || note.find("turn") != std::string::npos;
        if (id == "pump_hums_no_start" && !says_so && pump != nullptr && pump->runs.value_or(false) && there && !denied)
        {
            w.noticed(*place, "pump_hum_loud", true, quoted(note, there) + "; it was recorded as running");
            return true;
        }
        w.noticed(*place, id, there && !denied,
                  quoted(note, there) + (denied ? "; read as: looked for and not there" : ""));
        return true;
    }

    void ask(std::size_t item, visit::PhraseReading const& part, std::string const& note)
    {
        Question question{item, part.part.empty() ? note : part.part, part.why, {}};
        if (part.result == Result::denied)
            question.why = "denies under not_seen; write what was looked for, without 'no'";
        else if (part.result == Result::understood)
            question.why =
                "is about a " + entry(part.findings.front()).item + ", and it is not clear which; write it there";
        for (auto const& id : part.findings)
            question.may_mean.push_back(entry(id).name);
        w.out.questions.push_back(std::move(question));
    }

    void raise(std::size_t item, visit::Danger const& d, std::string const& note, std::string const& where)
    {
        std::string const& name = w.property.at(item).entry.name;
        w.out.danger_words.push_back("\"" + note + "\" (" + (where.empty() ? "noticed" : where) + ", " + name + ")");
        w.out.questions.push_back({item,
                                   note,
                                   "this may be dangerous: it may be " + entry(d.finding).name +
                                       "; write it under noticed at the item it was at",
                                   {entry(d.finding).name}});
    }

    [[nodiscard]] bool stops_use(std::string const& id) const
    {
        auto const& seen_rule = entry(id).if_seen;
        return seen_rule && seen_rule->urgency == Urgency::stop_use;
    }

    // Whether a reading that was laid already says this danger, or one as serious in the same words.
    [[nodiscard]] bool says(visit::PhraseReading const& part, visit::Danger const& d) const
    {
        if (part.result != Result::understood)
            return false;
        std::string const& id = part.findings.front();
        if (id == d.finding)
            return true;
        std::string words;
        for (auto const& word : d.words)
            words += word + " ";
        auto const stems = visit::content_stems(words);
        return stops_use(id) &&
               std::any_of(part.stems.begin(), part.stems.end(),
                           [&](auto const& s) { return std::count(stems.begin(), stems.end(), s) != 0; });
    }

    std::vector<visit::PhraseReading> parts_of(std::size_t item, std::string const& note)
    {
        std::string const kind = kind_at(item);
        auto parts = w.engine.vocabulary().read(note, kind);
        for (auto& part : parts)
            part = widened(item, std::move(part));
        auto const fine = good_.match(note, kind);
        bool const outdone = std::any_of(parts.begin(), parts.end(),
                                         [&](auto const& p)
                                         {
                                             return p.result == Result::not_tested ||
                                                    (p.result == Result::understood && p.score > fine.score) ||
                                                    (p.result == Result::denied && p.score >= fine.score);
                                         });
        if (fine.result == Result::understood && !outdone)
        {
            parts = {fine};
            parts.front().result = Result::denied;
        }
        return parts;
    }

    void seen(std::size_t item, std::string const& note)
    {
        auto parts = parts_of(item, note);
        auto const found = visit::dangers(note, kind_at(item));
        bool const hedged = note.find('?') != std::string::npos;
        bool read = false;
        for (auto const& d : found)
        {
            bool const said = std::any_of(parts.begin(), parts.end(),
                                          [&](auto const& p)
                                          { return says(p, d) && place_for(entry(p.findings.front()).item, item); });
            if (said || (d.denied && !hedged))
                continue;
            if (d.denied)
                raise(item, d, note, "");
            else
                read_as(item, d, note);
            read = true;
            parts.erase(std::remove_if(parts.begin(), parts.end(),
                                       [&](auto const& p)
                                       { return p.result == Result::denied && p.findings.front() == d.finding; }),
                        parts.end());
        }
        for (auto const& part : parts)
            if (!lay(item, part, note, true) && !(read && parts.size() == 1))
                ask(item, part, note);
    }

    void read_as(std::size_t item, visit::Danger const& d, std::string const& note)
    {
        auto const places = w.property.of_kind(d.item, item);
        if (places.empty() && d.item == "drain") // an outlet that was not described closes the water all the same
            return w.noticed(item, d.finding, true,
                             quoted(note, true) + "; read as " + entry(d.finding).name +
                                 " until you say otherwise; no drain is described here");
        if (places.empty())
            return raise(item, d, note, "");
        for (std::size_t const place : places)
            w.noticed(place, d.finding, true,
                      quoted(note, true) + "; read as " + entry(d.finding).name + " until you say otherwise" +
                          (places.size() > 1 ? ", at each since it is not said which" : ""));
    }
};

void notes_of(NoteReader& reader, Workbench const& w, std::size_t item)
{
    auto each = [&](auto const& holder)
    {
        for (auto const& n : holder.noticed)
            reader.note(item, n);
        for (auto const& n : holder.not_tested)
            reader.untested(item, n);
    };
    if (item == 0)
        each(w.visit);
    else if (auto const* base = w.property.at(item).base)
        each(*base);
}

void asides_of(NoteReader& reader, Workbench const& w, std::size_t item)
{
    auto each = [&](auto const& holder)
    {
        reader.aside(item, holder.notes, "in the notes");
        for (auto const& photo : holder.photos)
            reader.aside(item, photo.caption, "under a photo");
    };
    if (item == 0)
    {
        each(w.visit);
        reader.aside(item, w.visit.weather, "under weather");
    }
    else if (auto const* base = w.property.at(item).base)
    {
        each(*base);
        reader.aside(item, base->where, "in where it stands");
        for (auto const& found : w.out.found)
            if (found.item == item && found.was && found.meaning != FoundMeaning::cause)
                reader.aside(item, found.words, "in what was found");
    }
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

std::string text_of(std::optional<fields::Moment> const& moment)
{
    return moment ? moment->text : std::string();
}

template <class T>
void readings_of(Workbench& w, std::size_t item, T const& record, std::string const& before = {},
                 std::string const& when = {})
{
    auto const& shape = T::declaration().shape();
    auto const& fields = shape.fields;
    for (std::size_t i = 0; i < fields.size(); ++i)
    {
        auto const reading = T::declaration().reading(record, i);
        std::string const words =
            reading ? std::string() : said_in_words(T::declaration().write_field(record, i), fields[i].form);
        if (!reading && words.empty())
            continue;
        w.out.readings.push_back({item, &fields[i], in_plain(before + fields[i].name),
                                  reading.value_or(units::Reading{}), words, shape.name, when});
    }
}

} // namespace

void read_notes(Workbench& w)
{
    NoteReader reader(w);
    for (std::size_t i = 0; i < w.property.things().size(); ++i)
        notes_of(reader, w, i);
    for (std::size_t i = 0; i < w.property.things().size(); ++i)
        asides_of(reader, w, i); // after the notes: what they say need not be said again
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
                readings_of(w, i, test, test.on ? "test " + test.on->text + ", " : "", text_of(test.on));
            if (t.water->bucket_test)
                readings_of(w, i, *t.water->bucket_test, "bucket test ");
            for (auto const& mark : t.water->level_history)
                readings_of(w, i, mark, "level " + (mark.at ? mark.at->text + ", " : std::string()), text_of(mark.at));
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
            auto const* places = visit::Heater::declaration().shape().find("carbon_monoxide_at");
            for (auto const& [place, reading] : t.heater->carbon_monoxide_at)
                w.out.readings.push_back(
                    {i, places, "carbon monoxide at " + in_plain(place), units::Reading::of(reading), {}, "heater"});
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
