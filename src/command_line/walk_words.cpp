#include "walk_words.hpp"

#include "padwalk/fields/node.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <sstream>
#include <utility>

namespace padwalk::command_line
{
namespace
{

std::string cleaned(std::string const& line)
{
    std::string out;
    for (char const c : line)
    {
        auto const byte = static_cast<unsigned char>(c);
        out += byte < 0x20 || byte == 0x7f ? ' ' : c;
    }
    std::size_t const from = out.find_first_not_of(' ');
    return from == std::string::npos ? std::string() : out.substr(from, out.find_last_not_of(' ') - from + 1);
}

std::string lowered(std::string text)
{
    for (char& c : text)
        c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return text;
}

std::size_t characters(std::string const& text)
{
    return static_cast<std::size_t>(std::count_if(
        text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

} // namespace

Typed read_typed(std::string const& line)
{
    static std::vector<std::pair<Said, std::vector<std::string>>> const known{
        {Said::yes, {"y", "yes", "yep", "yeah"}},
        {Said::no, {"n", "no", "nope"}},
        {Said::none, {"0", "none", "none of these"}},
        {Said::unsure, {"?", "maybe", "unsure", "not sure", "don't know", "dont know", "can't tell"}},
        {Said::skip, {"s", "skip", "later"}},
        {Said::cannot, {"c", "can't", "cant", "cannot"}},
        {Said::back, {"b", "back", "undo"}},
        {Said::leave, {"q", "quit", "leave", "exit"}},
        {Said::help, {"h", "help"}}};
    Typed out{Said::nothing, cleaned(line)};
    if (out.text.empty())
        return out;
    std::string word = lowered(out.text);
    while (word.size() > 1 && (word.back() == '.' || word.back() == '!'))
        word.pop_back();
    if (std::all_of(word.begin(), word.end(), [&](char c) { return c == word.front(); }))
        word.resize(1);
    out.said = Said::text;
    for (auto const& [said, words] : known)
        if (std::find(words.begin(), words.end(), word) != words.end())
            out.said = said;
    return out;
}

std::vector<std::size_t> choices_in(std::string const& text, std::vector<std::string> const& choices)
{
    std::vector<std::size_t> out;
    std::string spaced = lowered(text);
    std::string const whole = fields::normal_key(spaced);
    auto begun = [&](std::string const& word)
    {
        std::vector<std::size_t> fit;
        for (std::size_t i = 0; i < choices.size(); ++i)
        {
            std::string const key = fields::normal_key(choices[i]);
            if (key == word)
                return std::vector<std::size_t>{i};
            if (key.starts_with(word))
                fit.push_back(i);
        }
        return fit;
    };
    if (auto const fit = begun(whole); fit.size() == 1)
        return fit;
    for (char& c : spaced)
        c = c == ',' || c == ';' || c == '+' ? ' ' : c;
    std::istringstream words(spaced);
    for (std::string word; words >> word;)
    {
        bool const digits = std::all_of(word.begin(), word.end(), [](char c) { return c >= '0' && c <= '9'; });
        if (digits && choices.size() > 9) // two digits would be read as two choices
            return {};
        for (char const c : digits ? word : std::string())
        {
            auto const place = static_cast<std::size_t>(c - '0');
            if (place == 0 || place > choices.size())
                return {};
            out.push_back(place - 1);
        }
        if (digits || word == "and")
            continue;
        auto const fit = begun(word);
        if (fit.size() != 1)
            return {};
        out.push_back(fit.front());
    }
    return out;
}

std::size_t words_in(std::string const& text)
{
    std::size_t words = 0, letters = 0;
    for (char const c : text + " ")
    {
        bool const letter = std::isalpha(static_cast<unsigned char>(c)) != 0 || static_cast<unsigned char>(c) >= 0x80U;
        if (!letter && letters >= 3)
            ++words;
        letters = letter ? letters + 1 : 0;
    }
    return words;
}

std::string in_lines(std::string const& text, std::string const& lead, std::size_t columns)
{
    std::istringstream words(text);
    std::string out, line = lead;
    for (std::string word; words >> word;)
    {
        if (line != lead && characters(line) + 1 + characters(word) > columns)
        {
            out += line + "\n";
            line = std::string(characters(lead), ' ');
            line += word;
            continue;
        }
        line += (line == lead ? "" : " ") + word;
    }
    return out + line + "\n";
}

} // namespace padwalk::command_line
