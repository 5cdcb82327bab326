#pragma once

#include <cmath>
#include <cstddef>
#include <locale>
#include <sstream>
#include <string>
#include <vector>

/// Pieces of the sentences in which this room reports problems.
namespace padwalk::diagnosis
{

/// "1.2", whatever the locale of the program
inline std::string in_digits(double value)
{
    auto text = std::ostringstream{};
    text.imbue(std::locale::classic());
    text << value;
    return text.str();
}

/// "is not a number", "is 1.2, outside 0 to 1"
inline std::string not_a_probability(double value)
{
    return std::isnan(value) ? std::string{"is not a number"} : "is " + in_digits(value) + ", outside 0 to 1";
}

/// "there is 1 cause", "there are 3 causes"
inline std::string how_many(std::size_t count, std::string const& noun)
{
    return count == 1 ? "there is 1 " + noun : "there are " + std::to_string(count) + " " + noun + "s";
}

inline std::string in_lines(std::vector<std::string> const& sentences)
{
    auto text = std::string{};
    for (auto const& sentence : sentences)
    {
        text += (text.empty() ? "" : "\n") + sentence;
    }
    return text;
}

} // namespace padwalk::diagnosis
