#include "label_places.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace padwalk::report
{
namespace
{

constexpr double margin = 4.0; ///< between a label and anything else

Box wider(Box const& box, double by)
{
    return {box.left - by, box.top - by, box.right + by, box.bottom + by};
}

bool holds(Box const& box, Spot s)
{
    return s.x > box.left && s.x < box.right && s.y > box.top && s.y < box.bottom;
}

double shared_area(Box const& a, Box const& b)
{
    double const width = std::min(a.right, b.right) - std::max(a.left, b.left);
    double const height = std::min(a.bottom, b.bottom) - std::max(a.top, b.top);
    return width > 0 && height > 0 ? width * height : 0.0;
}

} // namespace

Spot nearest(std::vector<Spot> const& spots, Box const& box)
{
    return *std::min_element(spots.begin(), spots.end(),
                             [&](Spot a, Spot b) { return distance(a, box) < distance(b, box); });
}

std::vector<Spot> filled_in(std::vector<Spot> const& line, double step)
{
    std::vector<Spot> out;
    for (std::size_t i = 0; i + 1 < line.size(); ++i)
    {
        double const x = line[i + 1].x - line[i].x, y = line[i + 1].y - line[i].y;
        int const parts = std::max(1, static_cast<int>(std::ceil(std::sqrt(x * x + y * y) / step)));
        for (int k = 0; k < parts; ++k)
            out.push_back({line[i].x + x * k / parts, line[i].y + y * k / parts});
    }
    if (!line.empty())
        out.push_back(line.back());
    return out;
}

// Stops counting where it is more than `enough`.
double LabelPlaces::cost(Box const& box, std::vector<Spot> const& spots, double enough) const
{
    constexpr double per_label = 50.0, per_spot = 25.0; // judgement: far is better than crossed, crossed than hidden
    Box const around = wider(box, margin);
    double out = 0.0;
    for (auto const& other : taken_)
        out += per_label * shared_area(around, other);
    for (std::size_t i = 0; i < drawn_.size() && out < enough; ++i)
        out += holds(around, drawn_[i]) ? per_spot : 0.0;
    return out < enough ? out + distance(nearest(spots, box), box) : out;
}

LabelPlaces::Choice LabelPlaces::place(std::vector<Spot> const& shapes, std::vector<Spot> const& spots)
{
    constexpr double step = 6.0;
    Choice best{{room_.left, room_.top, room_.left + shapes.front().x, room_.top + shapes.front().y}, 0};
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < shapes.size(); ++i)
        for (double y = room_.top; y + shapes[i].y <= room_.bottom; y += step)
            // One that is too wide for the room still has its best height.
            for (double x = room_.left; x == room_.left || x + shapes[i].x <= room_.right; x += step)
            {
                Box const box{x, y, x + shapes[i].x, y + shapes[i].y};
                double const price = cost(box, spots, least);
                if (price < least)
                {
                    least = price;
                    best = {box, i};
                }
            }
    taken_.push_back(best.box);
    return best;
}

void write_label(SvgSheet& sheet, LabelPlaces& labels, std::string const& text, std::vector<Spot> const& of,
                 Lettering const& type)
{
    constexpr double near = 12, ascent = 0.95;
    auto const [box, shape] = labels.place({{text_width(text, type), type.line_height()}}, of);
    Spot const anchor = nearest(of, box);
    if (distance(anchor, box) > near)
        sheet.line(anchor,
                   {std::clamp(anchor.x, box.left + 4, box.right - 4), std::clamp(anchor.y, box.top, box.bottom)},
                   "fine");
    bool const leans_right = anchor.x > (box.left + box.right) / 2;
    sheet.write({leans_right ? box.right : box.left, box.top + ascent * type.size}, text, type,
                leans_right ? Anchor::end : Anchor::start);
}

} // namespace padwalk::report
