#include "plain.hpp"

#include "padwalk/units/spelling.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <cstdint>
#include <utility>

namespace padwalk::report
{
namespace
{

constexpr std::string_view no_break = "\u00a0";
constexpr std::string_view unreadable = "\ufffd";

// Marks that turn the direction of writing or end a line without being seen: ALM, LRM, RLM, U+2028-202E, U+2066-2069.
bool is_unseen_mark(std::string_view character)
{
    if (character == "\u061c" || character == "\u200e" || character == "\u200f")
        return true;
    return (character >= "\u2028" && character <= "\u202e") || (character >= "\u2066" && character <= "\u2069");
}

std::vector<std::string> split(std::string_view text, std::string_view at)
{
    std::vector<std::string> out;
    for (std::size_t end = 0; end != std::string_view::npos;)
    {
        end = text.find(at);
        if (end != 0 && !text.empty())
            out.emplace_back(text.substr(0, end));
        text.remove_prefix(end == std::string_view::npos ? text.size() : end + at.size());
    }
    return out;
}

std::string with_spaces(std::string const& word)
{
    return joined(split(word, no_break), " ", " ");
}

struct Span
{
    std::uint32_t first, last;
};

// What terminals show in two columns: the blocks whose characters Unicode's East Asian Width calls wide or fullwidth,
// taken whole.
constexpr std::array wide_spans{
    Span{0x1100, 0x115f},   Span{0x231a, 0x231b},   Span{0x23e9, 0x23ec},   Span{0x2e80, 0x303e},
    Span{0x3041, 0x33ff},   Span{0x3400, 0x4dbf},   Span{0x4e00, 0x9fff},   Span{0xa000, 0xa4cf},
    Span{0xa960, 0xa97f},   Span{0xac00, 0xd7a3},   Span{0xf900, 0xfaff},   Span{0xfe10, 0xfe19},
    Span{0xfe30, 0xfe6f},   Span{0xff00, 0xff60},   Span{0xffe0, 0xffe6},   Span{0x16fe0, 0x18aff},
    Span{0x1b000, 0x1b2ff}, Span{0x1f300, 0x1f64f}, Span{0x1f680, 0x1f6ff}, Span{0x1f900, 0x1f9ff},
    Span{0x1fa70, 0x1faff}, Span{0x20000, 0x3fffd}};

constexpr std::array no_width_spans{Span{0x300, 0x36f}, Span{0x200b, 0x200d}, Span{0x20d0, 0x20ff},
                                    Span{0xfe00, 0xfe0f}, Span{0xfe20, 0xfe2f}};

template <std::size_t N> bool is_in(std::array<Span, N> const& spans, std::uint32_t character)
{
    return std::any_of(spans.begin(), spans.end(),
                       [&](Span const& s) { return character >= s.first && character <= s.last; });
}

std::uint32_t code_of(std::string_view character)
{
    auto const byte = [&](std::size_t i)
    { return static_cast<std::uint32_t>(static_cast<unsigned char>(character[i])); };
    std::uint32_t code = character.size() == 1   ? byte(0)
                         : character.size() == 2 ? byte(0) & 0x1fU
                         : character.size() == 3 ? byte(0) & 0x0fU
                                                 : byte(0) & 0x07U;
    for (std::size_t i = 1; i < character.size(); ++i)
        code = (code << 6U) | (byte(i) & 0x3fU);
    return code;
}

std::size_t columns_of(std::string_view character)
{
    std::uint32_t const code = code_of(character);
    return is_in(no_width_spans, code) ? 0 : is_in(wide_spans, code) ? 2 : 1;
}

std::string_view first_character(std::string_view text)
{
    return text.substr(0, std::max<std::size_t>(1, units::character_length(text)));
}

// As much of the text as `room` columns hold; one character at least.
std::string_view fitting(std::string_view text, std::size_t room)
{
    std::size_t bytes = 0, taken = 0;
    while (bytes < text.size())
    {
        std::string_view const character = first_character(text.substr(bytes));
        taken += columns_of(character);
        if (taken > room && bytes > 0)
            break;
        bytes += character.size();
    }
    return text.substr(0, bytes);
}

void wrap_line(std::string_view text, std::size_t first, std::size_t rest, std::vector<std::string>& out)
{
    std::vector<std::string> words;
    for (auto const& word : split(text, " "))
    {
        if (width(word) <= rest)
            words.push_back(with_spaces(word));
        else
            for (auto& part : split(word, no_break))
                words.push_back(std::move(part));
    }
    std::string line;
    for (auto const& word : words)
    {
        std::size_t const room = out.empty() ? first : rest;
        if (!line.empty() && width(line) + 1 + width(word) > room)
            out.push_back(std::exchange(line, {}));
        line += (line.empty() ? "" : " ") + word;
        for (std::size_t limit = out.empty() ? first : rest; width(line) > limit; limit = rest)
        {
            std::string const part(fitting(line, limit));
            if (part.size() == line.size())
                break; // a single character wider than the line
            out.push_back(part);
            line.erase(0, part.size());
        }
    }
    out.push_back(std::move(line));
}

} // namespace

std::string clean(std::string_view text)
{
    std::string out;
    out.reserve(text.size());
    while (!text.empty())
    {
        std::size_t const length = units::character_length(text);
        std::string_view const character = text.substr(0, length);
        if (character == "\n" || (character == "\r" && !text.starts_with("\r\n")))
            out += '\n';
        else if (character == "\t")
            out += ' ';
        else if (character != "\r")
            out += length == 0 || units::is_control(text) || is_unseen_mark(character) ? unreadable : character;
        text.remove_prefix(length == 0 ? 1 : length);
    }
    return out;
}

std::string in_markup(std::string_view text, std::string_view line_end)
{
    std::string out;
    for (char const c : clean(text))
        switch (c)
        {
        case '&': out += "&amp;"; break;
        case '<': out += "&lt;"; break;
        case '>': out += "&gt;"; break;
        case '"': out += "&quot;"; break;
        case '\'': out += "&#39;"; break;
        case '\n': out += line_end; break;
        default: out += c;
        }
    return out;
}

std::string in_css(std::string_view text)
{
    constexpr std::string_view hex = "0123456789abcdef";
    std::string out = "\"";
    for (char const c : clean(text))
    {
        auto const byte = static_cast<unsigned char>(c);
        bool const plain = byte >= 0x80 || std::isalnum(byte) != 0 || c == ' ';
        if (plain)
            out += c;
        else if (c == '\n')
            out += ' ';
        else
            out += std::string("\\") + hex[byte >> 4U] + hex[byte & 15U] + ' ';
    }
    return out + "\"";
}

std::size_t width(std::string_view text)
{
    std::size_t out = 0;
    while (!text.empty())
    {
        std::string_view const character = first_character(text);
        out += columns_of(character);
        text.remove_prefix(character.size());
    }
    return out;
}

std::vector<std::string> wrapped(std::string_view text, std::size_t first, std::size_t rest)
{
    std::vector<std::string> out;
    for (auto const& line : split(text, "\n"))
        wrap_line(line, first, rest, out);
    out.erase(std::remove(out.begin(), out.end(), std::string()), out.end());
    return out;
}

std::string joined(std::vector<std::string> const& words, std::string_view between, std::string_view last)
{
    std::string out;
    for (std::size_t i = 0; i < words.size(); ++i)
        out += (i == 0 ? std::string() : std::string(i + 1 == words.size() ? last : between)) + words[i];
    return out;
}

void once(std::vector<std::string>& list, std::string text)
{
    if (!text.empty() && std::find(list.begin(), list.end(), text) == list.end())
        list.push_back(std::move(text));
}

std::string capitalised(std::string_view text)
{
    std::string out(text);
    bool const own_capital = out.size() > 1 && out[1] >= 'A' && out[1] <= 'Z';
    if (!out.empty() && out.front() >= 'a' && out.front() <= 'z' && !own_capital)
        out.front() = static_cast<char>(out.front() - 'a' + 'A');
    return out;
}

std::string glued(std::string_view quantity)
{
    std::string out;
    std::size_t const loose = std::min(quantity.find(" ("), quantity.find(" as "));
    for (std::size_t i = 0; i < quantity.size(); ++i)
        out += quantity[i] == ' ' && i < loose ? std::string(no_break) : std::string(1, quantity[i]);
    return out;
}

} // namespace padwalk::report
