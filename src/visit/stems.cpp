#include "stems.hpp"

#include "padwalk/visit/phrases.hpp"

#include <algorithm>
#include <array>
#include <utility>

namespace padwalk::visit
{
namespace
{

using Pair = std::pair<std::string_view, std::string_view>;

constexpr auto filler = std::to_array<std::string_view>(
    {"a",      "an",    "the",  "is",   "are",      "was",   "were",   "be",     "been",  "it",    "its",
     "of",     "in",    "on",   "at",   "to",       "and",   "from",   "with",   "when",  "while", "very",
     "some",   "there", "has",  "have", "had",      "i",     "we",     "this",   "that",  "by",    "for",
     "as",     "does",  "do",   "did",  "bit",      "lot",   "little", "really", "just",  "quite", "near",
     "like",   "but",   "so",   "my",   "their",    "which", "will",   "can",    "would", "could", "super",
     "pretty", "kinda", "kind", "also", "whenever", "got",   "get",    "gets",   "im",    "ive"});
constexpr auto denials =
    std::to_array<std::string_view>({"no", "not", "never", "without", "none", "nothing", "nobody", "aint", "neither"});
constexpr auto lacks = std::to_array<std::string_view>({"missing", "absent", "lacks", "lacking", "gone"});
constexpr auto hedges =
    std::to_array<std::string_view>({"maybe", "perhaps", "possibly", "possible", "probably", "might", "think"});
// Not every -ly is an adverb of the word before it: what is hardly there is not hard.
constexpr auto kept_ly = std::to_array<std::string_view>(
    {"hardly", "barely", "nearly", "lately", "likely", "highly", "shortly", "daily", "only", "supply", "assembly"});
constexpr auto comparatives = std::to_array<Pair>({{"louder", "loud"},
                                                   {"slower", "slow"},
                                                   {"faster", "fast"},
                                                   {"hotter", "hot"},
                                                   {"colder", "cold"},
                                                   {"higher", "high"},
                                                   {"lower", "low"},
                                                   {"weaker", "weak"},
                                                   {"bigger", "big"},
                                                   {"wider", "wide"},
                                                   {"longer", "long"},
                                                   {"closer", "close"},
                                                   {"stronger", "strong"},
                                                   {"warmer", "warm"},
                                                   {"worse", "worse"}});
constexpr auto aliases = std::to_array<Pair>(
    {{"gfi", "gfci"},     {"gfcis", "gfci"},      {"odor", "smell"},    {"odors", "smell"},   {"odour", "smell"},
     {"smelt", "smell"},  {"smelly", "smell"},    {"leaky", "leak"},    {"leek", "leak"},     {"leeks", "leak"},
     {"leeking", "leak"}, {"rusty", "rust"},      {"broke", "broken"},  {"breaks", "broken"}, {"busted", "broken"},
     {"bust", "broken"},  {"ripped", "torn"},     {"tore", "torn"},     {"algea", "algae"},   {"algee", "algae"},
     {"alge", "algae"},   {"humms", "hum"},       {"sqeals", "squeal"}, {"jbox", "box"},      {"drippy", "drip"},
     {"shakey", "shake"}, {"monoxid", "monoxide"}});
constexpr auto denied_verbs = std::to_array<Pair>({{"cant", "can"},
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

template <class List> bool among(List const& list, std::string_view word)
{
    return std::find(list.begin(), list.end(), word) != list.end();
}

template <class List> std::string_view looked_up(List const& list, std::string_view word)
{
    for (auto const& pair : list)
        if (pair.first == word)
            return pair.second;
    return {};
}

bool vowel(char c)
{
    return c == 'a' || c == 'e' || c == 'i' || c == 'o' || c == 'u' || c == 'y';
}

} // namespace

namespace words
{

bool is_filler(std::string_view word)
{
    return among(filler, word);
}
bool is_denial(std::string_view word)
{
    return among(denials, word);
}
bool is_lack(std::string_view word)
{
    return among(lacks, word);
}
bool is_hedge(std::string_view word)
{
    return among(hedges, word);
}

std::string stem(std::string word)
{
    if (auto const base = looked_up(comparatives, word); !base.empty())
        word = base;
    if (auto const base = looked_up(aliases, word); !base.empty())
        word = base;
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
    if (!among(kept_ly, word))
        drop("ly", 4);
    if (word.size() > 3 && word.back() == 'e')
        word.pop_back();
    if (word.size() > 3 && word.back() == 'y')
        word.back() = 'i';
    return word;
}

std::vector<std::string> split(std::string_view text)
{
    std::vector<std::string> out;
    std::string word;
    auto finish = [&]
    {
        word.erase(std::remove(word.begin(), word.end(), '\''), word.end());
        if (auto const verb = looked_up(denied_verbs, word); !verb.empty())
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

bool one_edit_apart(std::string_view a, std::string_view b)
{
    if (a.size() > b.size())
        std::swap(a, b);
    if (b.size() - a.size() > 1)
        return false;
    std::size_t i = 0;
    while (i < a.size() && a[i] == b[i])
        ++i;
    if (a.size() != b.size())
        return a.substr(i) == b.substr(i + 1);
    if (i == a.size())
        return false;
    bool const swapped = i + 1 < a.size() && a[i] == b[i + 1] && a[i + 1] == b[i] && a.substr(i + 2) == b.substr(i + 2);
    return swapped || a.substr(i + 1) == b.substr(i + 1);
}

} // namespace words

std::vector<std::string> content_stems(std::string_view text)
{
    std::vector<std::string> out;
    for (auto& word : words::split(text))
        if (!words::is_filler(word))
            out.push_back(words::is_denial(word) || words::is_lack(word) ? std::string("no")
                          : words::is_hedge(word)                        ? word
                                                                         : words::stem(word));
    return out;
}

} // namespace padwalk::visit
