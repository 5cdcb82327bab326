#include "plain_text.hpp"

#include <array>

namespace padwalk::units
{
namespace
{

struct Spelling
{
    std::string_view written, plain;
};

// What keyboards and phones put in place of plain characters.
constexpr auto spellings = std::to_array<Spelling>({
    {"±", "+/-"},  {"−", "-"},    {"–", "-"},      {"‐", "-"},      {"‑", "-"},      {"°", "deg"},  {"º", "deg"},
    {"˚", "deg"},  {"℃", "degC"}, {"℉", "degF"},   {"²", "2"},      {"³", "3"},      {"µ", "u"},    {"μ", "u"},
    {"Ω", "ohm"},  {"Ω", "ohm"},  {"½", " 1/2"},   {"¼", " 1/4"},   {"¾", " 3/4"},   {"⅛", " 1/8"}, {"⅜", " 3/8"},
    {"⅝", " 5/8"}, {"⅞", " 7/8"}, {"″", "\""},     {"”", "\""},     {"“", "\""},     {"′", "'"},    {"’", "'"},
    {"·", " "},    {"×", "x"},    {"\u00a0", " "}, {"\u202f", " "}, {"\u2009", " "}, {"\t", " "},
});

Spelling const* spelling_at(std::string_view rest)
{
    for (auto const& s : spellings)
        if (rest.starts_with(s.written))
            return &s;
    return nullptr;
}

} // namespace

PlainText make_plain(std::string_view original)
{
    PlainText out;
    auto add = [&out](char c, std::size_t from)
    {
        bool const doubled_space = c == ' ' && (out.text.empty() || out.text.back() == ' ' || out.text.back() == '/');
        if (doubled_space)
            return;
        if (c == '/' && !out.text.empty() && out.text.back() == ' ')
        {
            out.text.pop_back();
            out.at.pop_back();
        }
        out.text += c;
        out.at.push_back(from);
    };
    for (std::size_t i = 0; i < original.size();)
    {
        if (auto const* s = spelling_at(original.substr(i)))
        {
            for (char const c : s->plain)
                add(c, i);
            i += s->written.size();
        }
        else
        {
            add(original[i], i);
            ++i;
        }
    }
    while (!out.text.empty() && out.text.back() == ' ')
    {
        out.text.pop_back();
        out.at.pop_back();
    }
    out.at.push_back(original.size());
    return out;
}

} // namespace padwalk::units
