#pragma once
/// Other names for the saturation of calcite, and what a water may do to copper and plaster, in words.

#include "padwalk/chemistry/equilibria.hpp"

namespace padwalk::chemistry
{

/// Ryznar's stability index: 2 pHs - pH, pHs the pH at which calcite would be just saturated, pHs = pH - SI.
///
/// Meaning: about 6 neither scales nor dissolves, below 6 scales, above 7 does not (a web summary, read).
[[nodiscard]] units::Number ryznar(units::Ph ph, units::Number saturation);
/// The same of a water. Throws figures::NotComputed without calcium or carbonate.
[[nodiscard]] units::Number ryznar(State const& water);

[[nodiscard]] std::string ryznar_in_words(units::Number index);

/// What attacks a heater's copper, worst first: low pH, much working chlorine, little alkalinity, much salt, and what
/// no test shows: fast flow and tight bends. Qualitative: no measured curve of attack against pH was found.
///
/// Source: order of causes from a corrosion forum, read; the limits between words are judgement
[[nodiscard]] std::string copper_risk_in_words(units::Ph ph, units::AsChlorine free_chlorine,
                                               units::AsCyanuricAcid cyanurate, units::AsCalciumCarbonate alkalinity,
                                               units::AsSodiumChloride salt);

/// What an index that lies between these two does to plaster and grout. Coupons at an index near 0 lost nothing in six
/// months [trade-newspaper-index-band]; the limits are the band -0.3 to +0.5.
[[nodiscard]] std::string plaster_risk_in_words(units::Number low, units::Number high);

} // namespace padwalk::chemistry
