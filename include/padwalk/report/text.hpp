#pragma once
/// An assessment as text for a terminal or a letter. Renderers compute nothing.

#include "padwalk/assess/assessment.hpp"
#include "padwalk/assess/water_sheet.hpp"

namespace padwalk::report
{

/// How much of an assessment is told.
enum class Told
{
    all,
    next, ///< what is unsafe, what can't be told from here, and what to check next
    why   ///< what is unsafe, and the causes that were asked about
};

struct TextOptions
{
    units::System system = units::System::us;
    std::size_t columns = 80; ///< no line is wider, unless one word alone is; less than 32 is taken as 32
    bool colour = false;      ///< ANSI colours for headings and danger; nothing is said by colour alone
    Told told = Told::all;
};

/// What is unsafe first, then the answer, whom to call, each item, the likely causes with what speaks for and against
/// them, what to check next, and what all of it rests on. Sections without content are left out.
[[nodiscard]] std::string as_text(assess::Assessment const& assessment, TextOptions const& options = {});
/// The owner's sheet: what the water is doing, what to add and in what order, when to swim, what comes by itself.
[[nodiscard]] std::string as_text(assess::WaterReport const& report, TextOptions const& options = {});

/// The word for a probability; a footnote of the report gives the ranges.
///
///     almost certain 95 % and up | likely 70-95 | more likely than not 50-70 | possible 20-50 | less likely 5-20 |
///     unlikely below 5 %
[[nodiscard]] std::string_view probability_word(double probability);

} // namespace padwalk::report
