#pragma once
/// The marks of a loop's drawing, as the trade draws them: a circle with a triangle for a pump, a tank for a filter, a
/// bow tie for a valve, a triangle over lines for a water's surface. Water runs downwards through all of them.

#include "svg.hpp"

#include "padwalk/assess/assessment.hpp"

namespace padwalk::report
{

inline constexpr double symbol_half = 17.0; ///< half the height that any of them takes up

/// What stands at a place, its outline dashed where it is assumed.
void draw_symbol(SvgSheet& sheet, assess::LoopPlace place, Spot centre, bool assumed);

/// A water with its surface, open to where the pipe leaves or comes back.
void draw_water(SvgSheet& sheet, Spot centre);

/// A solid arrow head that points down, its tip at `tip`.
void draw_arrow(SvgSheet& sheet, Spot tip);

/// An instrument: a circle with the letter of what it measures, or with a needle.
void draw_instrument(SvgSheet& sheet, Spot centre, units::Measure measure);

/// A pennant on its pole: something is wrong here.
void draw_flag(SvgSheet& sheet, Spot foot);

/// How far off a reading is: a scale with the range that the doubts allow shaded, low to the left, and on it a dot, a
/// wedge that points away from the middle, or the lozenge of the odd one out.
void draw_scale(SvgSheet& sheet, Box const& box, double off, bool odd);

} // namespace padwalk::report
