#pragma once
/// Short forms for the tests of reading: what must be read, and what must be refused.

#include "catch_compat.hpp"
#include "padwalk/units/reading.hpp"

#include <string>

namespace padwalk::tests
{

inline units::Reading must_read(std::string_view text, units::Measure measure)
{
    auto const read = units::read_quantity(text, measure, "field");
    if (auto const* bad = std::get_if<units::TextProblem>(&read))
        FAIL("'" << text << "' was refused: " << bad->message);
    return std::get<units::Reading>(read);
}

inline units::TextProblem must_refuse(std::string_view text, units::Measure measure, std::string_view field = "field")
{
    auto const read = units::read_quantity(text, measure, field);
    if (auto const* good = std::get_if<units::Reading>(&read))
        FAIL("'" << text << "' was read as " << good->value);
    return std::get<units::TextProblem>(read);
}

} // namespace padwalk::tests
