#pragma once
/// What the drawing of chlorine and cyanurate says, in its picture and beside it.

#include "padwalk/assess/water_standing.hpp"
#include "padwalk/units/print.hpp"

namespace padwalk::report
{

[[nodiscard]] inline std::string_view concentration_unit(units::System system)
{
    return system == units::System::us ? "ppm" : "mg/L";
}

template <class Q> [[nodiscard]] double in_shown_unit(Q const& value, units::System system)
{
    return units::in_unit(units::measure_of<Q>::value, units::in_si(value), concentration_unit(system));
}

/// '3.5 ± 0.2 ppm': every kit reads its own basis, so it is not said.
[[nodiscard]] std::string free_chlorine_text(assess::ChlorineStanding const& c, units::System system);
/// 'at least 190 ppm' where the test ends there; the cyanurate is known.
[[nodiscard]] std::string cyanurate_text(assess::ChlorineStanding const& c, units::System system);
/// '2 to 10 ppm', 'at least 2 ppm'; one of the two is known.
[[nodiscard]] std::string bathing_text(assess::ChlorineStanding const& c, units::System system);

// How the readings stand to the limits, their doubt aside.
[[nodiscard]] bool short_of(assess::ChlorineStanding const& c);
[[nodiscard]] bool more_than(assess::ChlorineStanding const& c);
[[nodiscard]] bool held_too_much(assess::ChlorineStanding const& c);

/// What the picture shows, for those who can't see it.
[[nodiscard]] std::vector<std::string> chlorine_said(assess::ChlorineStanding const& c, units::System system);
[[nodiscard]] std::string chlorine_caption(assess::ChlorineStanding const& c, units::System system);

} // namespace padwalk::report
