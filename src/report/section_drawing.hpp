#pragma once
#include "page.hpp"

namespace padwalk::report
{

/// The shell's wall in section with what goes through it, each at its depth with its chance, and the level on it: where
/// it was first and last marked, where it would stop, and whether it still falls. Empty where no depth was measured.
/// `id` is unique on the page.
[[nodiscard]] Drawing section_drawing(assess::LevelEntry const& level, units::System system, std::string const& id);

} // namespace padwalk::report
