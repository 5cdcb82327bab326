#include "wrapped_label.hpp"

#include <algorithm>

namespace padwalk::report
{

void write_wrapped_label(SvgSheet& sheet, LabelPlaces& labels, std::string const& text, std::vector<Spot> const& of,
                         Lettering const& type, std::vector<double> const& widths)
{
    constexpr double near = 9, ascent = 0.95;
    std::vector<std::vector<std::string>> wraps;
    std::vector<Spot> shapes;
    for (double const widest : widths)
    {
        wraps.push_back(lines_within(text, widest, type));
        double width = 0.0;
        for (auto const& line : wraps.back())
            width = std::max(width, text_width(line, type));
        shapes.push_back({width, type.line_height() * static_cast<double>(wraps.back().size())});
    }
    auto const [box, shape] = labels.place(shapes, of);
    Spot const anchor = nearest(of, box);
    if (distance(anchor, box) > near)
        sheet.line(anchor,
                   {std::clamp(anchor.x, box.left + 4, box.right - 4), std::clamp(anchor.y, box.top, box.bottom)},
                   "fine");
    // The lines lean to where what they name is.
    bool const leans_right = anchor.x > (box.left + box.right) / 2;
    double base = box.top + ascent * type.size;
    for (auto const& line : wraps[shape])
    {
        sheet.write({leans_right ? box.right : box.left, base}, line, type, leans_right ? Anchor::end : Anchor::start);
        base += type.line_height();
    }
}

} // namespace padwalk::report
