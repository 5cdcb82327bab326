#include "loop_symbols.hpp"

#include "loop_words.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace padwalk::report
{
namespace
{

using assess::LoopPlace;

Box around(Spot c, double half_width, double half_height)
{
    return {c.x - half_width, c.y - half_height, c.x + half_width, c.y + half_height};
}

std::vector<Spot> wave(Spot from, double length, double height)
{
    constexpr int steps = 24;
    constexpr double waves = 3.0;
    std::vector<Spot> out;
    for (int i = 0; i <= steps; ++i)
    {
        double const share = static_cast<double>(i) / steps;
        out.push_back({from.x + share * length, from.y - height * std::sin(2 * std::numbers::pi * waves * share)});
    }
    return out;
}

// The mouth of the suction: wide where the water enters, with a grate.
void suction(SvgSheet& s, Spot c, std::string const& kind)
{
    s.area({{c.x - 17, c.y - 12}, {c.x + 17, c.y - 12}, {c.x + 7, c.y + 12}, {c.x - 7, c.y + 12}}, kind);
    for (double const x : {-10.0, -3.5, 3.5, 10.0})
        s.line({c.x + x, c.y - 12}, {c.x + 0.72 * x, c.y - 4}, "edge");
}

void strainer(SvgSheet& s, Spot c, std::string const& kind)
{
    s.rectangle(around(c, 14, 15), 3, kind);
    s.curve({{c.x - 8, c.y - 9}, {c.x - 8, c.y + 8}, {c.x + 8, c.y + 8}, {c.x + 8, c.y - 9}}, "edge mesh");
}

void pump(SvgSheet& s, Spot c, std::string const& kind)
{
    s.circle(c, symbol_half, kind);
    s.area({{c.x - 14.5, c.y - 8.5}, {c.x + 14.5, c.y - 8.5}, {c.x, c.y + 16.5}}, "solid");
}

void filter(SvgSheet& s, Spot c, std::string const& kind)
{
    s.rectangle(around(c, 15, symbol_half), 12, kind);
    s.line({c.x - 15, c.y - 3}, {c.x + 15, c.y - 3}, "edge");
    for (double const y : {3.0, 9.0})
        for (double const x : {-8.0, 0.0, 8.0})
            s.circle({c.x + x + (y > 5 ? 4.0 : 0.0) - 2.0, c.y + y}, 1.3, "solid");
}

// A tilted panel with its tubes.
void roof(SvgSheet& s, Spot c, std::string const& kind)
{
    s.area({{c.x - 6, c.y - 15}, {c.x + 15, c.y - 15}, {c.x + 6, c.y + 15}, {c.x - 15, c.y + 15}}, kind);
    for (double const x : {-5.0, 0.0, 5.0})
        s.line({c.x + x + 4, c.y - 11}, {c.x + x - 4, c.y + 11}, "edge");
}

void heater(SvgSheet& s, Spot c, std::string const& kind)
{
    s.rectangle(around(c, 16, symbol_half), 2, kind);
    s.curve({{c.x, c.y - 17},
             {c.x, c.y - 11},
             {c.x + 9, c.y - 7},
             {c.x - 9, c.y},
             {c.x + 9, c.y + 7},
             {c.x, c.y + 11},
             {c.x, c.y + 17}},
            "edge");
}

void valve(SvgSheet& s, Spot c, std::string const& kind)
{
    s.area({{c.x - 9, c.y - 12}, {c.x + 9, c.y - 12}, {c.x - 9, c.y + 12}, {c.x + 9, c.y + 12}}, kind);
}

// The suction's mouth turned round: the water leaves it spread out.
void returns(SvgSheet& s, Spot c, std::string const& kind)
{
    s.area({{c.x - 7, c.y - 12}, {c.x + 7, c.y - 12}, {c.x + 17, c.y + 12}, {c.x - 17, c.y + 12}}, kind);
    for (double const x : {-10.0, -3.5, 3.5, 10.0})
        s.line({c.x + 0.72 * x, c.y + 4}, {c.x + x, c.y + 12}, "edge");
}

std::string_view letter_of(units::Measure measure)
{
    using M = units::Measure;
    switch (measure)
    {
    case M::gauge_pressure:
    case M::pressure_difference:
    case M::absolute_pressure: return "P";
    case M::volume_flow: return "F";
    case M::temperature:
    case M::temperature_difference: return "T";
    default: return {};
    }
}

} // namespace

void draw_symbol(SvgSheet& sheet, LoopPlace place, Spot centre, bool assumed)
{
    std::string const kind = assumed ? "part assumed" : "part";
    switch (place)
    {
    case LoopPlace::suction: return suction(sheet, centre, kind);
    case LoopPlace::strainer: return strainer(sheet, centre, kind);
    case LoopPlace::pump: return pump(sheet, centre, kind);
    case LoopPlace::filter: return filter(sheet, centre, kind);
    case LoopPlace::roof: return roof(sheet, centre, kind);
    case LoopPlace::heater: return heater(sheet, centre, kind);
    case LoopPlace::bypass: return valve(sheet, centre, kind);
    case LoopPlace::returns: return returns(sheet, centre, kind);
    case LoopPlace::gauge: break;
    }
    sheet.circle(centre, 13, kind);
    sheet.line({centre.x - 3, centre.y + 5}, {centre.x + 6, centre.y - 8}, "edge");
}

void draw_water(SvgSheet& sheet, Spot c)
{
    sheet.curve({{c.x - 26, c.y - 12}, {c.x - 26, c.y + 12}, {c.x + 26, c.y + 12}, {c.x + 26, c.y - 12}}, "edge");
    sheet.curve(wave({c.x - 25, c.y - 4}, 50, 2.2), "edge");
    sheet.area({{c.x - 5, c.y - 15}, {c.x + 5, c.y - 15}, {c.x, c.y - 7}}, "part");
    sheet.line({c.x - 8, c.y + 2}, {c.x + 8, c.y + 2}, "edge");
    sheet.line({c.x - 4, c.y + 6}, {c.x + 4, c.y + 6}, "edge");
}

void draw_arrow(SvgSheet& sheet, Spot tip)
{
    sheet.area({{tip.x - 5.5, tip.y - 10}, {tip.x + 5.5, tip.y - 10}, tip}, "solid");
}

void draw_instrument(SvgSheet& sheet, Spot centre, units::Measure measure)
{
    sheet.circle(centre, 10, "part thin");
    if (auto const letter = letter_of(measure); !letter.empty())
        sheet.write({centre.x, centre.y + 4.3}, letter, {12, true}, Anchor::middle);
    else
        sheet.line({centre.x - 3, centre.y + 5}, {centre.x + 4, centre.y - 6}, "edge");
}

void draw_flag(SvgSheet& sheet, Spot foot)
{
    sheet.line(foot, {foot.x, foot.y - 22}, "edge alert");
    sheet.area({{foot.x, foot.y - 22}, {foot.x + 13, foot.y - 16.5}, {foot.x, foot.y - 11}}, "solid alert");
}

void draw_scale(SvgSheet& sheet, Box const& box, double off, bool odd)
{
    constexpr double furthest = 5.0; // doubts, at the end of the scale
    double const middle = (box.left + box.right) / 2, y = (box.top + box.bottom) / 2;
    double const one = (box.right - box.left) / (2 * furthest);
    sheet.rectangle({middle - doubts_allowed * one, box.top, middle + doubts_allowed * one, box.bottom}, 0, "allowed");
    sheet.line({box.left, y}, {box.right, y}, "fine");
    sheet.line({middle, box.top}, {middle, box.bottom}, "fine");
    if (!std::isfinite(off))
        return;
    double const x = middle + one * std::clamp(off, -furthest, furthest);
    double const away = off < 0 ? -1.0 : 1.0;
    if (odd)
        sheet.area({{x - 6, y}, {x, y - 6}, {x + 6, y}, {x, y + 6}}, "solid alert");
    else if (std::abs(off) > doubts_allowed)
        sheet.area({{x - 4 * away, y - 5.5}, {x - 4 * away, y + 5.5}, {x + 6 * away, y}}, "solid alert");
    else
        sheet.circle({x, y}, 4, "solid");
}

} // namespace padwalk::report
