#pragma once
/// Figures and readings in one line.

#include "padwalk/assess/assessment.hpp"

namespace padwalk::report
{

/// The first two outputs that have a doubt, or the first two where none has; and what is said in words.
[[nodiscard]] std::vector<figures::OutputValue const*> worth_showing(figures::Figure const& figure);
/// '6.4 h (5.9 to 7)', or its words.
[[nodiscard]] std::string output_text(figures::OutputValue const& out, units::System system);
/// The values of a figure that was computed: '6.4 h (5.9 to 7); turnovers a day 3.7 (3.4 to 4.1)'.
[[nodiscard]] std::string values_text(assess::FigureEntry const& entry, units::System system);

/// Its quantities alone, and what it says in words alone.
[[nodiscard]] std::string numbers_text(assess::FigureEntry const& entry, units::System system);
[[nodiscard]] std::string words_text(assess::FigureEntry const& entry);

/// '18 ± 1 psi', or what stands there in words.
[[nodiscard]] std::string reading_text(assess::ReadingTaken const& taken, units::System system);
/// The instrument, or that the doubt was written with it; empty where neither is known.
[[nodiscard]] std::string instrument_of(assess::ReadingTaken const& taken);

} // namespace padwalk::report
