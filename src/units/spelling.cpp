#include "padwalk/units/spelling.hpp"

#include <algorithm>
#include <vector>

namespace padwalk::units
{
namespace
{

char lower(char c)
{
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

} // namespace

std::size_t edits(std::string_view a, std::string_view b)
{
    std::vector<std::size_t> row(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j)
        row[j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i)
    {
        std::size_t diagonal = row[0];
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j)
        {
            std::size_t const kept = row[j];
            row[j] = std::min({row[j] + 1, row[j - 1] + 1, diagonal + (lower(a[i - 1]) == lower(b[j - 1]) ? 0 : 1)});
            diagonal = kept;
        }
    }
    return row[b.size()];
}

std::size_t character_length(std::string_view text)
{
    auto byte = [&](std::size_t i) { return i < text.size() ? static_cast<unsigned char>(text[i]) : 0U; };
    auto follows = [&](std::size_t i) { return (byte(i) & 0xC0U) == 0x80U; };
    unsigned const first = byte(0);
    if (first < 0x80)
        return text.empty() ? 0 : 1;
    if (first >= 0xC2 && first < 0xE0)
        return follows(1) ? 2 : 0;
    if (first >= 0xE0 && first < 0xF0)
    {
        bool const overlong = first == 0xE0 && byte(1) < 0xA0;
        bool const surrogate = first == 0xED && byte(1) >= 0xA0;
        return follows(1) && follows(2) && !overlong && !surrogate ? 3 : 0;
    }
    if (first >= 0xF0 && first < 0xF5)
    {
        bool const overlong = first == 0xF0 && byte(1) < 0x90;
        bool const beyond = first == 0xF4 && byte(1) >= 0x90;
        return follows(1) && follows(2) && follows(3) && !overlong && !beyond ? 4 : 0;
    }
    return 0;
}

bool is_control(std::string_view text)
{
    if (text.empty())
        return false;
    auto const first = static_cast<unsigned char>(text[0]);
    bool const upper = first == 0xC2 && text.size() > 1 && static_cast<unsigned char>(text[1]) < 0xA0;
    return first < 0x20 || first == 0x7f || upper;
}

std::string fit_to_show(std::string_view text, std::size_t most)
{
    std::string out;
    std::size_t count = 0;
    while (!text.empty())
    {
        if (count++ == most)
            return out + "…";
        std::size_t const length = character_length(text);
        if (text.front() == '\t')
            out += ' ';
        else if (length == 0 || is_control(text))
            out += '?';
        else
            out += text.substr(0, length);
        text.remove_prefix(length == 0 ? 1 : length);
    }
    return out;
}

} // namespace padwalk::units
