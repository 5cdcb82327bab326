#include "padwalk/visit/phrases.hpp"

#include <algorithm>
#include <array>

namespace padwalk::visit
{
namespace
{

constexpr auto filler = std::to_array<std::string_view>(
    {"a",      "an",     "the",  "is",    "are",  "was",  "were", "be",    "been", "it",    "its",   "of",  "in",
     "on",     "at",     "to",   "and",   "from", "with", "when", "while", "very", "some",  "there", "has", "have",
     "had",    "i",      "we",   "this",  "that", "by",   "for",  "as",    "does", "do",    "did",   "bit", "lot",
     "little", "really", "just", "quite", "near", "like", "but",  "so",    "my",   "their", "which"});
constexpr auto denials = std::to_array<std::string_view>(
    {"no", "not", "never", "without", "none", "nothing", "missing", "absent", "lacks", "lacking", "gone"});
constexpr std::string_view denial = "no"; ///< what all of them are read as
constexpr auto hedges = std::to_array<std::string_view>({"maybe", "perhaps", "possibly", "probably", "might"});

template <class List> bool among(List const& list, std::string_view word)
{
    return std::find(list.begin(), list.end(), word) != list.end();
}

bool vowel(char c)
{
    return c == 'a' || c == 'e' || c == 'i' || c == 'o' || c == 'u' || c == 'y';
}

// Endings off, the same way on both sides; it need not make words, only make forms of one word meet.
std::string stem(std::string word)
{
    auto drop = [&word](std::string_view ending, std::size_t keep)
    {
        if (word.size() < ending.size() + keep || !word.ends_with(ending))
            return false;
        word.resize(word.size() - ending.size());
        return true;
    };
    if (word.size() > 4 && word.ends_with("ies"))
        word.replace(word.size() - 3, 3, "y");
    else if (word.ends_with("sses") || word.ends_with("ches") || word.ends_with("shes") || word.ends_with("xes"))
        word.resize(word.size() - 2);
    else if (word.size() > 3 && word.back() == 's' && word[word.size() - 2] != 's' && word[word.size() - 2] != 'u')
        word.pop_back();
    bool const cut = drop("ing", 3) || drop("ed", 3);
    if (cut && word.size() > 3 && word.back() == word[word.size() - 2] && !vowel(word.back()) && word.back() != 'l' &&
        word.back() != 's')
        word.pop_back(); // dripping, drip
    drop("ly", 4);
    drop("er", 4);
    if (word.size() > 3 && word.back() == 'e')
        word.pop_back();
    if (word.size() > 3 && word.back() == 'y')
        word.back() = 'i';
    return word;
}

// 'can' of "can't", 'cant' and 'cannot'; empty for other words.
std::string_view denied_verb(std::string_view word)
{
    struct Pair
    {
        std::string_view denied, verb;
    };
    static constexpr auto pairs = std::to_array<Pair>({{"cant", "can"},
                                                       {"cannot", "can"},
                                                       {"wont", "will"},
                                                       {"isnt", "is"},
                                                       {"arent", "are"},
                                                       {"wasnt", "was"},
                                                       {"werent", "were"},
                                                       {"dont", "do"},
                                                       {"doesnt", "does"},
                                                       {"didnt", "did"},
                                                       {"hasnt", "has"},
                                                       {"havent", "have"},
                                                       {"hadnt", "had"},
                                                       {"couldnt", "could"},
                                                       {"wouldnt", "would"},
                                                       {"shouldnt", "should"},
                                                       {"neednt", "need"},
                                                       {"mustnt", "must"}});
    for (auto const& pair : pairs)
        if (pair.denied == word)
            return pair.verb;
    return {};
}

std::vector<std::string> words_of_text(std::string_view text)
{
    std::vector<std::string> out;
    std::string word;
    auto finish = [&]
    {
        word.erase(std::remove(word.begin(), word.end(), '\''), word.end());
        if (auto const verb = denied_verb(word); !verb.empty())
        {
            out.emplace_back(verb);
            out.emplace_back("not");
        }
        else if (!word.empty())
            out.push_back(word);
        word.clear();
    };
    for (std::size_t i = 0; i < text.size(); ++i)
    {
        char c = text[i];
        if (text.substr(i, 3) == "\xE2\x80\x99") // the typographic apostrophe of phones
        {
            c = '\'';
            i += 2;
        }
        if (c >= 'A' && c <= 'Z')
            c = static_cast<char>(c - 'A' + 'a');
        bool const part =
            (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '\'' || static_cast<unsigned char>(c) >= 0x80;
        if (part)
            word += c;
        else
            finish();
    }
    finish();
    return out;
}

bool holds(std::vector<std::string> const& text, std::vector<std::string> const& phrase)
{
    return std::all_of(phrase.begin(), phrase.end(),
                       [&](std::string const& s) { return std::find(text.begin(), text.end(), s) != text.end(); });
}

bool denies(std::vector<std::string> const& stems)
{
    return std::find(stems.begin(), stems.end(), denial) != stems.end();
}

} // namespace

std::vector<std::string> content_stems(std::string_view text)
{
    std::vector<std::string> out;
    for (auto& word : words_of_text(text))
        if (!among(filler, word))
            out.push_back(among(denials, word) ? std::string(denial) : among(hedges, word) ? word : stem(word));
    return out;
}

Vocabulary::Vocabulary(std::vector<Phrase> phrases)
{
    for (auto& phrase : phrases)
    {
        Entry entry{phrase.finding, phrase.item, {}};
        for (auto const& words : phrase.words)
            entry.stems.push_back(content_stems(words));
        entries_.push_back(std::move(entry));
    }
}

PhraseReading Vocabulary::match(std::string_view note, std::string_view item) const
{
    PhraseReading out;
    auto text = content_stems(note);
    // What is noted at the vent need not say 'vent' again.
    for (auto& stem : content_stems(std::string(item)))
        text.push_back(std::move(stem));
    std::size_t most = 0;
    bool denied_match = false;
    std::vector<std::pair<double, std::string>> near;
    for (auto const& entry : entries_)
    {
        if (entry.finding == note)
            return {PhraseReading::Result::understood, {entry.finding}, {}};
        if (!item.empty() && entry.item != item)
            continue;
        std::size_t best = 0;
        bool best_denied = false;
        double overlap = 0;
        for (auto const& phrase : entry.stems)
        {
            if (phrase.empty())
                continue;
            std::size_t const common = static_cast<std::size_t>(std::count_if(
                phrase.begin(), phrase.end(),
                [&](std::string const& s) { return std::find(text.begin(), text.end(), s) != text.end(); }));
            overlap = std::max(overlap, static_cast<double>(common) / static_cast<double>(phrase.size()));
            if (phrase.size() > best && holds(text, phrase))
            {
                best = phrase.size();
                best_denied = denies(text) && !denies(phrase);
            }
        }
        if (overlap >= 0.5 && best == 0)
            near.emplace_back(-overlap, entry.finding);
        if (best == 0 || best < most)
            continue;
        if (best > most)
        {
            out.findings.clear();
            denied_match = false;
        }
        most = best;
        denied_match = denied_match || best_denied;
        if (!among(out.findings, entry.finding))
            out.findings.push_back(entry.finding);
    }
    bool const hedged = std::any_of(text.begin(), text.end(), [](std::string const& s) { return among(hedges, s); });
    if (out.findings.empty())
    {
        std::stable_sort(near.begin(), near.end());
        for (std::size_t i = 0; i < near.size() && i < 3; ++i)
            out.findings.push_back(near[i].second);
        out.why = "fits nothing known";
    }
    else if (out.findings.size() > 1)
    {
        out.result = PhraseReading::Result::several;
        out.why = "may mean more than one thing";
    }
    else if (denied_match)
    {
        out.result = PhraseReading::Result::several;
        out.why = "says that something is not so; write what was looked for and not found under not_seen";
    }
    else if (hedged)
    {
        out.result = PhraseReading::Result::several;
        out.why = "says 'maybe'; write it as seen, or say under not_tested why it can't be told";
    }
    else
        out.result = PhraseReading::Result::understood;
    return out;
}

} // namespace padwalk::visit
