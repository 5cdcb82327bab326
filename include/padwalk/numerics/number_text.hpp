#pragma once
/// Numbers as text in the messages of this floor: no locale, no dependence on the stream they end up in.

#include <string>

namespace padwalk::numerics
{

/// 'digits' significant digits in the shorter of plain and exponent form, trailing zeros dropped: 0.1, 112, 1e-09.
[[nodiscard]] std::string number_text(double value, int digits = 6);

} // namespace padwalk::numerics
