#include "padwalk/fields/problems.hpp"

#include "padwalk/units/spelling.hpp"

#include <algorithm>

namespace padwalk::fields
{
namespace
{

std::size_t characters(std::string_view bytes)
{
    std::size_t count = 0;
    for (; !bytes.empty(); ++count)
        bytes.remove_prefix(std::max<std::size_t>(1, units::character_length(bytes)));
    return count;
}

std::string_view line_of(std::string_view source, std::size_t line)
{
    for (std::size_t i = 1; i < line; ++i)
    {
        std::size_t const end = source.find('\n');
        if (end == std::string_view::npos)
            return {};
        source.remove_prefix(end + 1);
    }
    std::string_view const found = source.substr(0, source.find('\n'));
    return found.substr(0, found.find('\r'));
}

constexpr std::size_t most_shown = 160; ///< characters of a line; what a phone shows without scrolling for ever

// Control bytes of a hostile file never reach the terminal.
std::string printable(std::string_view text)
{
    return units::fit_to_show(text, most_shown);
}

} // namespace

InputProblems::InputProblems(std::vector<Problem> problems)
    : std::runtime_error(problems.empty() ? "input problem" : problems.front().message), problems_(std::move(problems))
{
    std::stable_sort(problems_.begin(), problems_.end(),
                     [](Problem const& a, Problem const& b) {
                         return a.place.line != b.place.line ? a.place.line < b.place.line
                                                             : a.place.column < b.place.column;
                     });
}

std::string as_text(std::vector<Problem> const& problems, std::string_view file, std::string_view source,
                    std::string_view severity)
{
    if (source.starts_with("\xEF\xBB\xBF"))
        source.remove_prefix(3); // places are counted behind the mark that some editors put at the start
    std::string out;
    for (auto const& p : problems)
    {
        std::string_view const line = p.place.line > 0 ? line_of(source, p.place.line) : std::string_view{};
        std::size_t const before = p.place.column > 0 ? std::min(p.place.column - 1, line.size()) : 0;
        std::size_t const column = characters(line.substr(0, before)) + 1;
        out += std::string(file) + ":";
        if (p.place.line > 0)
            out += std::to_string(p.place.line) + ":" + std::to_string(column) + ":";
        out += " " + std::string(severity) + ": " + printable(p.message) + "\n";
        if (!line.empty())
        {
            std::string const number = std::to_string(p.place.line);
            std::size_t const shown =
                std::max<std::size_t>(1, std::min(characters(line.substr(before, p.length)), std::size_t{100}));
            if (column <= most_shown)
                out += std::string(5 - std::min<std::size_t>(number.size(), 5), ' ') + number + " | " +
                       printable(line) + "\n" + "      | " + std::string(column - 1, ' ') + std::string(shown, '^') +
                       "\n";
        }
        if (!p.advice.empty())
            out += "  " + printable(p.advice) + "\n";
    }
    return out;
}

} // namespace padwalk::fields
