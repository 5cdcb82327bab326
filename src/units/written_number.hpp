#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace padwalk::units
{

/// The number that a text starts with: its value, or why what looks like one is none, or neither.
struct WrittenNumber
{
    std::optional<double> value;
    std::size_t length = 0; ///< bytes that belong to it
    std::string problem;    ///< continues "'1,5' …"
    std::string advice;
};

/// '333,000', '.5', '1.5e-6'; unsigned. No locale, no hex, no 'inf'.
[[nodiscard]] WrittenNumber plain_number(std::string_view text);

/// The same, or a fraction '3/4', or a mixed number '1 1/2' or '1-1/2'.
[[nodiscard]] WrittenNumber written_amount(std::string_view text);

} // namespace padwalk::units
