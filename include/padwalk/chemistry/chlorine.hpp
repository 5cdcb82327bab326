#pragma once
/// Differences and ratios of what a chlorine test reads.

#include "padwalk/chemistry/limits.hpp"
#include "padwalk/units/quantity.hpp"

namespace padwalk::chemistry
{

/// combined = total - free. Two readings are subtracted, so it may come out below zero; it is not clamped.
[[nodiscard]] units::AsChlorine combined_chlorine(units::AsChlorine total, units::AsChlorine free);

/// What the difference says: contradiction, none, or how it stands to the working band of `bands`.
/// Readings may contradict each other by 0.5 mg/L before it is called so: what a legal kit may be off
/// [utah-r392-302-27].
[[nodiscard]] std::string combined_in_words(units::AsChlorine combined, std::vector<WorkingBand> const& bands);

/// Parts of cyanuric acid to one of free chlorine, by mass.
///
/// The share of free chlorine that is really free acid falls nearly with this ratio.
/// Throws: figures::NotComputed without free chlorine
[[nodiscard]] units::Number cyanurate_ratio(units::AsChlorine free, units::AsCyanuricAcid cyanurate);

/// The ratio, the free chlorine and the cyanurate against the published limits of `bands` for a pool.
[[nodiscard]] std::string ratio_in_words(units::AsChlorine free, units::AsCyanuricAcid cyanurate,
                                         std::vector<WorkingBand> const& bands);

} // namespace padwalk::chemistry
