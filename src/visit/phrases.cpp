#include "padwalk/visit/phrases.hpp"

#include "stems.hpp"

#include <algorithm>
#include <array>
#include <set>

namespace padwalk::visit
{

struct Vocabulary::Token
{
    enum class Role
    {
        content,
        modifier, ///< 'any', 'sign': between a denial and what it denies
        denial,
        lack
    };
    std::string word;
    int id = -1;
    Role role = Role::content;
};

struct Vocabulary::Fit
{
    bool fits = false;
    bool denied = false;
    bool unclear = false; ///< a denial that can be taken in more than one way
    unsigned score = 0;
    double overlap = 0.0; ///< part of the phrase that the note holds, of its telling words
    std::set<int> said;
};

namespace
{

using Result = PhraseReading::Result;
constexpr std::size_t longest = 300; ///< characters of a note that are matched; judgement: a note is a sentence or two

constexpr auto modifiers = std::to_array<std::string_view>(
    {"any",     "sign",     "signs",      "evidence", "see",   "saw",   "seen",     "notice",   "noticed",
     "hear",    "heard",    "feel",       "felt",     "find",  "found", "observed", "detected", "visible",
     "obvious", "apparent", "noticeable", "seem",     "seems", "more",  "other",    "single",   "observe"});
constexpr auto weak =
    std::to_array<std::string_view>({"too", "much", "all", "out", "off", "up", "down", "after", "always", "any", "one",
                                     "now", "then", "still", "again", "even", "today"});
constexpr auto good = std::to_array<std::string_view>({"ok", "okay", "fine", "good", "intact", "normal", "normally",
                                                       "properly", "correctly", "great", "perfect", "solid", "works",
                                                       "worked", "working", "fixed", "repaired", "replaced"});
constexpr auto kinds = std::to_array<std::string_view>({"pump", "motor", "filter", "heater", "drain", "deck", "vent",
                                                        "flue", "skimmer", "light", "blower", "cleaner", "fence"});
constexpr auto tries = std::to_array<std::string_view>(
    {"tested",     "test",   "checked", "check",    "inspected", "inspect",   "verified", "verify",
     "accessible", "access", "sure",    "tell",     "reach",     "determine", "know",     "try",
     "tried",      "look",   "looked",  "examined", "evaluated", "visible"});
constexpr auto sights =
    std::to_array<std::string_view>({"see", "find", "open", "locate", "read", "get", "view", "measure", "remove"});
constexpr auto untold =
    std::to_array<std::string_view>({"untested", "unchecked", "unknown", "unsure", "unable", "inaccessible", "dunno"});

template <class List, class Value> bool among(List const& list, Value const& word)
{
    return std::find(list.begin(), list.end(), word) != list.end();
}

// The verb of 'could not see'; empty where the note does not say that it could not be told.
std::string not_told(std::vector<std::string> const& words)
{
    for (std::size_t i = 0; i < words.size(); ++i)
    {
        if (among(untold, words[i]))
            return words[i];
        if (words[i] != "not" && words[i] != "no" && words[i] != "never")
            continue;
        bool const could = i > 0 && (words[i - 1] == "could" || words[i - 1] == "can");
        for (std::size_t k = i + 1; k < words.size() && k <= i + 2; ++k)
            if (words[k] != "visible" ? among(tries, words[k]) || (could && among(sights, words[k])) : k == i + 1)
                return words[k];
    }
    return {};
}

bool hedged(std::string_view note, std::vector<std::string> const& words)
{
    if (note.find('?') != std::string_view::npos)
        return true;
    for (std::size_t i = 0; i < words.size(); ++i)
        if (words::is_hedge(words[i]) ||
            (i + 1 < words.size() && words[i + 1] == "be" && (words[i] == "may" || words[i] == "could")))
            return true;
    return false;
}

} // namespace

Vocabulary::Vocabulary(std::vector<Phrase> phrases)
{
    for (auto& phrase : phrases)
    {
        Entry entry{phrase.finding, phrase.item, {}};
        for (auto const& stem : content_stems(phrase.item))
            entry.kind.push_back(id_of(stem));
        for (auto const& text : phrase.words)
        {
            Held held{entries_.size(), {}, false};
            for (auto const& stem : content_stems(text))
                if (stem == "no")
                    held.denies = true;
                else if (int const id = id_of(stem); !among(held.content, id))
                    held.content.push_back(id);
            for (int const id : held.content)
                holding_[static_cast<std::size_t>(id)].push_back(static_cast<std::uint32_t>(held_.size()));
            held_.push_back(std::move(held));
        }
        entries_.push_back(std::move(entry));
    }
}

int Vocabulary::id_of(std::string const& stem)
{
    auto const [place, fresh] = ids_.emplace(stem, static_cast<int>(stems_.size()));
    if (fresh)
    {
        stems_.push_back(stem);
        holding_.emplace_back();
    }
    return place->second;
}

// The stem's number; of a long word that is not known, that of the only known one a letter off.
int Vocabulary::known(std::string const& word) const
{
    std::string const stem = words::stem(word);
    if (auto const place = ids_.find(stem); place != ids_.end())
        return place->second;
    if (word.size() < 6 || stem.size() < 5)
        return -1;
    int found = -1;
    for (std::size_t i = 0; i < stems_.size(); ++i)
        if (stems_[i].size() >= 5 && stems_[i].front() == stem.front() && words::one_edit_apart(stems_[i], stem))
        {
            if (found >= 0)
                return -1;
            found = static_cast<int>(i);
        }
    return found;
}

std::vector<Vocabulary::Token> Vocabulary::tokens(std::string_view note) const
{
    std::vector<Token> out;
    for (auto& word : words::split(note))
    {
        if (words::is_filler(word))
            continue;
        Token token{word, known(word), Token::Role::content};
        if (words::is_denial(word))
            token.role = Token::Role::denial;
        else if (words::is_lack(word))
            token.role = Token::Role::lack;
        else if (among(modifiers, word))
            token.role = Token::Role::modifier;
        out.push_back(std::move(token));
    }
    return out;
}

// Which denials of the note go with this phrase, and whether they make it so or not so.
Vocabulary::Fit Vocabulary::fit(Held const& phrase, std::vector<Token> const& note, bool any_kind) const
{
    using Role = Token::Role;
    Fit out;
    auto const& kind = entries_[phrase.entry].kind;
    double telling = 0, held = 0;
    for (int const id : phrase.content)
    {
        bool const said = std::any_of(note.begin(), note.end(), [&](Token const& t) { return t.id == id; });
        bool const of_kind = among(kind, id);
        telling += of_kind ? 0 : 1;
        held += said && !of_kind ? 1 : 0;
        out.fits = said || (of_kind && !any_kind);
        if (said && (!of_kind || any_kind))
        {
            out.said.insert(id);
            out.score += among(weak, stems_[static_cast<std::size_t>(id)]) ? 1U : 2U;
        }
    }
    out.overlap = telling > 0 ? held / telling : 0;
    out.fits = held > 0 &&
               std::all_of(phrase.content.begin(), phrase.content.end(),
                           [&](int id)
                           {
                               return (among(kind, id) && !any_kind) ||
                                      std::any_of(note.begin(), note.end(), [&](Token const& t) { return t.id == id; });
                           });
    if (!out.fits)
        return out;
    auto of_phrase = [&](Token const& t) { return t.id >= 0 && among(phrase.content, t.id); };
    unsigned serving = 0, strong = 0, outside = 0, doubled = 0;
    for (std::size_t i = 0; i < note.size(); ++i)
    {
        if (note[i].role != Role::denial && note[i].role != Role::lack)
            continue;
        if (of_phrase(note[i]))
            continue;
        std::size_t next = i + 1;
        while (next < note.size() && !of_phrase(note[next]) &&
               (note[next].role == Role::modifier || among(weak, note[next].word)))
            ++next;
        bool const before = next < note.size() && of_phrase(note[next]);
        bool const last = next >= note.size() || note[next].role == Role::lack;
        bool const after = i > 0 && (of_phrase(note[i - 1]) || note[i - 1].role == Role::denial);
        if (note[i].role == Role::denial && i + 1 < note.size() && note[i + 1].role == Role::lack)
            ++doubled; // 'not missing'
        else if (note[i].role == Role::lack ? before || after || last : before || (last && i > 0))
        {
            ++serving;
            strong += note[i].role == Role::denial ? 1U : 0U;
        }
        else
            ++outside;
    }
    bool const single = held < 2;
    unsigned const wanted = phrase.denies ? 1 : 0;
    bool const twice_denied = // 'not missing', 'no screws missing'
        phrase.denies && ((doubled == 1 && serving == 1) || (doubled == 0 && serving == 2 && strong == 1));
    bool const denied_once = !phrase.denies && serving == 1 && strong == 1 && doubled == 0 && outside == 0;
    if (serving < wanted)
        out.fits = false;
    else if (twice_denied || denied_once)
        out.denied = true;
    else
        out.unclear = serving + doubled > wanted || (single && outside > 0);
    out.score += phrase.denies ? 2U : 0U;
    return out;
}

PhraseReading Vocabulary::match(std::string_view note, std::string_view item) const
{
    PhraseReading out;
    out.part = std::string(note);
    for (auto const& entry : entries_)
        if (entry.finding == note)
            return {Result::understood, {entry.finding}, {}, out.part, {entry.finding}, ~0U};
    bool const too_long = note.size() > longest;
    note = note.substr(0, longest);
    auto const text = tokens(note);
    auto const raw = words::split(note);
    std::set<std::uint32_t> candidates;
    for (auto const& token : text)
        if (token.id >= 0)
            candidates.insert(holding_[static_cast<std::size_t>(token.id)].begin(),
                              holding_[static_cast<std::size_t>(token.id)].end());
    std::vector<std::pair<Fit, Held const*>> best;
    std::vector<std::pair<double, std::string>> near;
    for (auto const place : candidates)
    {
        Held const& phrase = held_[place];
        if (!item.empty() && entries_[phrase.entry].item != item)
            continue;
        Fit f = fit(phrase, text, item.empty());
        if (!f.fits)
        {
            if (f.overlap >= 0.5)
                near.emplace_back(-f.overlap, entries_[phrase.entry].finding);
            continue;
        }
        if (!best.empty() && f.score < best.front().first.score)
            continue;
        if (!best.empty() && f.score > best.front().first.score)
            best.clear();
        best.emplace_back(std::move(f), &phrase);
    }
    for (auto const& [f, phrase] : best)
        if (auto const& id = entries_[phrase->entry].finding; !among(out.findings, id))
            out.findings.push_back(id);
    std::set<int> said;
    bool denied = false, unclear = false, denies = false, mixed = false;
    for (auto const& [f, phrase] : best)
    {
        said.insert(f.said.begin(), f.said.end());
        mixed = mixed || (&f != &best.front().first && f.denied != denied);
        denied = denied || f.denied;
        unclear = unclear || f.unclear;
        denies = denies || phrase->denies;
        out.score = f.score;
    }
    for (int const id : said)
        out.stems.push_back(stems_[static_cast<std::size_t>(id)]);
    std::size_t left = 0;
    bool fine = false, other = false;
    for (std::size_t i = 0; i < text.size(); ++i)
    {
        Token const& token = text[i];
        bool const used = token.id >= 0 && said.count(token.id) != 0;
        if (used || token.role == Token::Role::denial || token.role == Token::Role::lack)
            continue;
        bool const own = among(kinds, token.word) && !item.empty() && item.find(token.word) != std::string_view::npos;
        left += token.role == Token::Role::content && !among(weak, token.word) && !own ? 1U : 0U;
        bool const turned = i > 0 && text[i - 1].role == Token::Role::denial;
        fine = fine || (among(good, token.word) && !turned);
        other = other || (among(kinds, token.word) && !own);
    }
    auto const verb = not_told(raw);
    bool const verb_said = !verb.empty() && denies && said.count(known(verb)) != 0;
    if (!verb.empty() && !verb_said)
    {
        out.result = Result::not_tested;
        out.why = "says that it could not be told";
        return out;
    }
    out.result = Result::several;
    if (out.findings.empty())
    {
        std::stable_sort(near.begin(), near.end());
        for (std::size_t i = 0; i < near.size() && out.findings.size() < 3; ++i)
            if (!among(out.findings, near[i].second))
                out.findings.push_back(near[i].second);
        out.result = Result::none;
        out.why = "fits nothing known";
    }
    else if (out.findings.size() > 1)
        out.why = "may mean more than one thing";
    else if (hedged(note, raw))
        out.why = "says 'maybe'; write it as seen, or say under not_tested why it can't be told";
    else if (unclear || mixed || (denied && left > 1))
        out.why = "says that something is not so; write what was looked for and not found under not_seen";
    else if (fine)
        out.why =
            "says that something is fine or was put right; write what was looked for and not found under not_seen";
    else if (said.size() < 2 && other)
        out.why = "also names another part; write it there if it is about that one";
    else
        out.result = denied ? Result::denied : Result::understood;
    if (too_long && out.result != Result::understood)
        out.why += "; only its first 300 characters were matched";
    return out;
}

namespace
{

struct Part
{
    std::string text;
    bool after_and = false, after_but = false;
};

// At ; , . and line ends, and at 'and', 'but', 'plus', 'also'; decimals stay whole.
std::vector<Part> parts_of(std::string_view note)
{
    std::vector<Part> out(1);
    auto cut = [&](bool with_and, bool with_but)
    {
        if (content_stems(out.back().text).empty())
            out.back() = Part{};
        else
            out.emplace_back();
        out.back().after_and = with_and;
        out.back().after_but = with_but;
    };
    for (std::size_t i = 0; i < note.size(); ++i)
    {
        char const c = note[i];
        bool const decimal = (c == '.' || c == ',') && i + 1 < note.size() && note[i + 1] >= '0' && note[i + 1] <= '9';
        if (c == ';' || c == '\n' || c == '&' || c == '+' || ((c == ',' || c == '.' || c == '!') && !decimal))
        {
            cut(c == '&' || c == '+', c == ';' || c == '.');
            continue;
        }
        bool found = false;
        for (std::string_view const joint : {" and ", " but ", " plus ", " also "})
            if (note.substr(i, joint.size()) == joint)
            {
                cut(joint != " but ", joint == " but ");
                i += joint.size() - 2; // the blank after it may begin the next joint
                found = true;
                break;
            }
        if (!found)
            out.back().text += c;
    }
    if (content_stems(out.back().text).empty() && out.size() > 1)
        out.pop_back();
    for (auto& part : out)
    {
        auto const from = part.text.find_first_not_of(' ');
        part.text = from == std::string::npos ? "" : part.text.substr(from, part.text.find_last_not_of(' ') + 1 - from);
    }
    return out;
}

bool starts_denied(std::string const& text)
{
    auto const raw = words::split(text);
    return !raw.empty() && (raw.front() == "no" || raw.front() == "without" || raw.front() == "not");
}

bool sure(PhraseReading const& r)
{
    return r.result == Result::understood || r.result == Result::denied || r.result == Result::not_tested;
}

} // namespace

std::vector<PhraseReading> Vocabulary::read(std::string_view note, std::string_view item) const
{
    auto const whole = match(note, item);
    auto const parts = parts_of(note.substr(0, longest));
    if (parts.size() < 2 || whole.score == ~0U)
        return {whole};
    std::vector<PhraseReading> each;
    unsigned most = 0;
    bool denying = false, any = false;
    for (std::size_t i = 0; i < parts.size(); ++i)
    {
        auto r = match(parts[i].text, item);
        denying = i > 0 && denying && !parts[i].after_but;
        // 'no cracks, leaks or rust' denies them all; 'no cracks, leaks' may
        if (denying && !starts_denied(parts[i].text) && r.result == Result::understood)
        {
            r.result = Result::several;
            r.why = "stands after a denial, which may go on; write what is there and what is not as notes of their own";
        }
        denying = denying || (starts_denied(parts[i].text) && r.result != Result::not_tested);
        if (hedged(note, words::split(note)) && sure(r) && note.find('?') != std::string_view::npos)
            r = match(parts[i].text + "?", item);
        most = std::max(most, r.score);
        any = any || sure(r);
        each.push_back(std::move(r));
    }
    if (sure(whole) && whole.score > most)
    {
        std::vector<PhraseReading> out{whole};
        for (auto& r : each)
        {
            auto const stems = content_stems(r.part);
            bool const inside = std::any_of(whole.stems.begin(), whole.stems.end(),
                                            [&](std::string const& s) { return among(stems, s); });
            if (!inside && !stems.empty() && r.result != Result::none)
                out.push_back(std::move(r));
        }
        return out;
    }
    return any ? each : std::vector<PhraseReading>{whole};
}

} // namespace padwalk::visit
