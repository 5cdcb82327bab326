#pragma once
#include "page.hpp"

namespace padwalk::report
{

/// The vent from the side: run, height and end to scale, the ground and what the end faces, each judged rule numbered
/// where it sits. No svg where neither height nor run was measured. `id` is unique on the page.
[[nodiscard]] Drawing vent_drawing(assess::Assessment const& a, assess::VentEntry const& vent, units::System system,
                                   std::string const& id);

} // namespace padwalk::report
