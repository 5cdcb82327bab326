#pragma once
/// How far a filter has loaded since it was clean, by its gauge.

#include "padwalk/circulation/limits.hpp"

namespace padwalk::circulation
{

/// The gauge on the filter, clean and now, and the pump's speed at either.
struct FilterGauge
{
    units::GaugePressure clean{};
    units::GaugePressure now{};
    std::optional<units::RotationSpeed> clean_speed{};
    std::optional<units::RotationSpeed> speed{};
};

struct FilterLoad
{
    units::Pressure rise{};                ///< now less clean, as read
    units::Pressure rise_at_clean_speed{}; ///< what it would be at the speed of the clean reading
    units::Fraction of_cleaning_rise{};    ///< the second over the rise from which the filter wants cleaning
};

/// Rise of the gauge since clean, brought to the speed of the clean reading.
///
///     rise = p - p0,   at the clean speed: p (n0/n)^e - p0,   share = that / cleaning rise
///
/// Valid:    both readings on the same gauge, same valves; without both speeds the speed is taken as the same. e is 2
///           on a loop of friction only (affinity); lift under the gauge doesn't follow it
/// Source:   affinity [hydraulic-institute] 1.B.6; that a bed's own loss goes with e between 1 and 2 is our judgement
/// Throws:   figures::NotComputed for a clean reading of no pressure, one speed without the other, and speeds more
///           than a factor of 2 apart
[[nodiscard]] FilterLoad filter_loading(FilterGauge const& gauge, units::Pressure cleaning_rise,
                                        units::Number exponent);

/// What the rise means, and who cleans.
[[nodiscard]] std::string filter_load_in_words(FilterLoad const& load);

/// 'US federal advice: 5 to 10 psi (over the clean reading …); …'
[[nodiscard]] std::string cleaning_in_words(std::vector<CleaningRise> const& rises);

} // namespace padwalk::circulation
