#pragma once
/// Changes of quantities in plain words.

#include "padwalk/assess/comparison.hpp"
#include "padwalk/assess/history.hpp"

namespace padwalk::report
{

/// The measure of a difference of two values of a measure: a temperature's is a temperature difference.
[[nodiscard]] units::Measure difference_measure(units::Measure measure);

/// The style that tells a difference in the unit in which the value is told.
[[nodiscard]] units::Style difference_style(units::Measure measure, double value, fields::FieldShape const* shape,
                                            units::System system);

/// 'up by 6 ± 3 psi, 4.2 doubts'; for a vacuum 'deeper by'.
[[nodiscard]] std::string change_in_words(assess::Difference const& difference, units::Measure measure, double then,
                                          double now, fields::FieldShape const* shape, units::System system);

/// The instrument, or 'one with its doubt written'.
[[nodiscard]] std::string means_of(units::Reading const& reading);

/// 'falls by 3 ± 1 ppm a week', 'no trend that its doubt would show', or why there is none.
[[nodiscard]] std::string trend_in_words(assess::Series const& series, units::System system);

/// '7.4 to 7.8 (who says so)'.
[[nodiscard]] std::string band_in_words(assess::Series const& series, units::System system);

} // namespace padwalk::report
