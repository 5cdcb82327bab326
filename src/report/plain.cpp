#include "plain.hpp"

#include "padwalk/units/spelling.hpp"

#include <algorithm>
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

std::size_t width(std::string_view text)
{
    return static_cast<std::size_t>(std::count_if(
        text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
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
