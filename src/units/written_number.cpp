#include "written_number.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::units
{
namespace
{

bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

bool digit_at(std::string_view text, std::size_t i)
{
    return i < text.size() && is_digit(text[i]);
}

bool char_at(std::string_view text, std::size_t i, char c)
{
    return i < text.size() && text[i] == c;
}

// Whole digits, in groups of three where there are commas. False: a comma is misplaced.
bool whole_part(std::string_view text, std::size_t& pos, std::string& digits)
{
    std::size_t since_comma = 0;
    bool comma = false;
    while (digit_at(text, pos) || (char_at(text, pos, ',') && digit_at(text, pos + 1)))
    {
        if (text[pos] == ',')
        {
            bool const misplaced = comma ? since_comma != 3 : (digits.empty() || digits.size() > 3);
            if (misplaced)
                return false;
            comma = true;
            since_comma = 0;
        }
        else
        {
            digits += text[pos];
            ++since_comma;
        }
        ++pos;
    }
    return !(comma && since_comma != 3) && !char_at(text, pos, ',');
}

int exponent_part(std::string_view text, std::size_t& pos)
{
    if (!char_at(text, pos, 'e') && !char_at(text, pos, 'E'))
        return 0;
    std::size_t look = pos + 1;
    bool const minus = char_at(text, look, '-');
    if (minus || char_at(text, look, '+'))
        ++look;
    if (!digit_at(text, look))
        return 0;
    int exponent = 0;
    for (; digit_at(text, look); ++look)
        exponent = std::min(exponent * 10 + (text[look] - '0'), 100000);
    pos = look;
    return minus ? -exponent : exponent;
}

// All digits as one integer and a power of ten: correctly rounded for up to 15 digits and powers to 22.
double value_of(std::string const& digits, int exponent)
{
    double mantissa = 0;
    bool after_point = false;
    int significant = 0;
    for (char const c : digits)
    {
        if (c == '.')
            after_point = true;
        else if (significant < 17)
        {
            mantissa = mantissa * 10 + (c - '0');
            significant += (significant > 0 || c != '0') ? 1 : 0;
            exponent -= after_point ? 1 : 0;
        }
        else
            exponent += after_point ? 0 : 1;
    }
    if (mantissa == 0)
        return 0;
    return exponent < 0 ? mantissa / std::pow(10.0, -exponent) : mantissa * std::pow(10.0, exponent);
}

WrittenNumber wrong(std::string_view text, std::size_t pos, std::string problem, std::string advice)
{
    while (pos < text.size() && (is_digit(text[pos]) || text[pos] == ',' || text[pos] == '.'))
        ++pos;
    return {std::nullopt, pos, std::move(problem), std::move(advice)};
}

} // namespace

WrittenNumber plain_number(std::string_view text)
{
    std::size_t pos = 0;
    std::string digits;
    if (!whole_part(text, pos, digits))
        return wrong(text, pos, "is not a number: commas part thousands only",
                     "use a point for decimals, for example '1.5', and commas only like '333,000'");
    if (char_at(text, pos, '.'))
    {
        digits += '.';
        ++pos;
        while (digit_at(text, pos))
            digits += text[pos++];
        if (char_at(text, pos, '.') && digits != ".")
            return wrong(text, pos, "is not a number: it has more than one point",
                         "use one point for decimals, for example '1.5'");
    }
    if (digits.empty() || digits == ".")
        return {};
    double const value = value_of(digits, exponent_part(text, pos));
    if (!std::isfinite(value))
        return {std::nullopt, pos, "is too large a number", "check the number and its exponent"};
    return {value, pos, {}, {}};
}

WrittenNumber written_amount(std::string_view text)
{
    // 'numerator' ends at 'slash'; the fraction if one stands there, else nothing.
    auto fraction = [&](double numerator, std::size_t slash) -> WrittenNumber
    {
        if (!char_at(text, slash, '/') || !digit_at(text, slash + 1))
            return {};
        auto const below = plain_number(text.substr(slash + 1));
        if (!below.value)
            return {std::nullopt, slash + 1 + below.length, below.problem, below.advice};
        if (*below.value == 0)
            return {std::nullopt, slash + 1 + below.length, "is not a number: nothing can be divided by 0",
                    "write a fraction like '3/4'"};
        return {numerator / *below.value, slash + 1 + below.length, {}, {}};
    };
    auto const whole = plain_number(text);
    if (!whole.value)
        return whole;
    if (auto simple = fraction(*whole.value, whole.length); simple.length > 0)
        return simple;
    bool const joined = char_at(text, whole.length, ' ') || char_at(text, whole.length, '-');
    if (joined && digit_at(text, whole.length + 1) && *whole.value == std::floor(*whole.value))
    {
        auto const numerator = plain_number(text.substr(whole.length + 1));
        if (numerator.value)
            if (auto part = fraction(*numerator.value, whole.length + 1 + numerator.length); part.length > 0)
            {
                if (part.value)
                    *part.value += *whole.value;
                return part;
            }
    }
    return whole;
}

} // namespace padwalk::units
