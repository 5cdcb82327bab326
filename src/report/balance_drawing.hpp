#pragma once
#include "page.hpp"

namespace padwalk::report
{

/// Where the heat of a gas heater goes: one bar below the other, each where the one before ends, and last what is left
/// over. No svg where the balance has no input. `id` is unique on the page.
[[nodiscard]] Drawing balance_drawing(heating::HeatBalance const& balance, units::System system, std::string const& id);

} // namespace padwalk::report
