#include "chlorine_drawing.hpp"

#include "axis.hpp"
#include "chlorine_words.hpp"
#include "wrapped_label.hpp"

#include "padwalk/units/print.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::report
{
namespace
{

using assess::ChlorineStanding;
using assess::ScaleEnd;
using units::Measure;

constexpr double sheet_width = 360;
constexpr Lettering axis_type{12, false, "word quiet"};
constexpr Lettering quiet_type{12, false, "word quiet haloed"};
constexpr Lettering word_type{12.5, false, "word haloed"};
constexpr Lettering strong_type{12.5, true, "word haloed"};
constexpr Lettering alert_type{12.5, true, "word alert haloed"};

/// A reading in the units of the axes: middle, and the ends of its doubt.
struct Range
{
    double value = 0.0, low = 0.0, high = 0.0;
};

template <class Q> Range range(units::Measured<Q> const& m, units::System system)
{
    double const value = in_shown_unit(m.value, system), reach = units::coverage * in_shown_unit(m.doubt, system);
    return {value, std::max(0.0, value - reach), value + reach};
}

/// What is shaded and what crosses it, on the plane or, without cyanurate, on free chlorine alone.
class ChlorinePicture
{
public:
    ChlorinePicture(ChlorineStanding const& c, units::System system, std::string id)
        : c_(c), system_(system), sheet_(std::move(id), sheet_width),
          plot_(c.cyanurate ? Box{40, 48, 304, 304} : Box{40, 34, 96, 214}),
          labels_({plot_.left + 6, plot_.top + 2, c.cyanurate ? plot_.right - 4 : 350, plot_.bottom - 4}),
          free_(range(c.free_chlorine, system))
    {
        constexpr double head_room = 1.15;
        double most = std::max(free_.high, 1.0);
        for (auto const& end : {c.least, c.most})
            if (end)
                most = std::max(most, in_shown_unit(*end, system));
        up_ = axis_between(0, head_room * most, 6);
        if (!c.cyanurate)
            return;
        held_ = range(*c.cyanurate, system);
        double wide = std::max(100.0, head_room * held_.high); // as wide as pools go, so that they look alike
        if (c.cyanurate_is == ScaleEnd::at_least)
            wide = std::max(wide, 1.5 * held_.value);
        across_ = axis_between(0, wide, 5);
    }

    [[nodiscard]] std::string drawn(std::vector<std::string> const& says)
    {
        axes();
        band();
        limit_line();
        equal_work();
        auto const here = c_.cyanurate ? plane_mark() : bar_mark();
        name_band();
        std::string text = "here: " + free_chlorine_text(c_, system_);
        if (c_.cyanurate)
            text += ", stabilizer " + cyanurate_text(c_, system_);
        bool const alert = short_of(c_) || more_than(c_) || held_too_much(c_);
        label(text, here, alert ? alert_type : strong_type);
        double foot = plot_.bottom + 46;
        if (!c_.cyanurate)
            foot = sheet_.write_lines({8, plot_.bottom + 26},
                                      lines_within("Stabilizer (cyanurate) is not known. The more of it there is, the "
                                                   "less this chlorine does.",
                                                   sheet_width - 16, axis_type),
                                      axis_type);
        return sheet_.svg(foot, c_.cyanurate ? "Chlorine and stabilizer" : "Free chlorine", says);
    }

private:
    ChlorineStanding const& c_;
    units::System system_;
    SvgSheet sheet_;
    Box plot_;
    LabelPlaces labels_;
    Range free_, held_;
    Axis up_, across_;
    Box band_;
    std::vector<Box> ends_; ///< the words at the ends of lines of equal work

    [[nodiscard]] Spot at(double cyanurate, double free) const
    {
        return {std::clamp(plot_.left + (plot_.right - plot_.left) * cyanurate / across_.end, plot_.left, plot_.right),
                std::clamp(plot_.bottom - (plot_.bottom - plot_.top) * free / up_.end, plot_.top, plot_.bottom)};
    }

    void axes()
    {
        for (int i = 0; i <= up_.steps(); ++i)
        {
            Spot const tick = at(0, i * up_.step);
            sheet_.line(tick, {plot_.right, tick.y}, i == 0 ? "edge" : "grid", Layer::ground);
            sheet_.write({plot_.left - 6, tick.y + 4}, units::show_number(i * up_.step, up_.decimals), axis_type,
                         Anchor::end);
        }
        sheet_.line({plot_.left, plot_.bottom}, {plot_.left, plot_.top}, "edge", Layer::ground);
        std::string const in = ", " + units::printed(concentration_unit(system_));
        sheet_.write({8, 18}, "free chlorine" + in, axis_type);
        if (!c_.cyanurate)
            return;
        for (int i = 0; i <= across_.steps(); ++i)
        {
            Spot const tick = at(i * across_.step, 0);
            sheet_.line(tick, {tick.x, tick.y + 5}, "edge", Layer::ground);
            sheet_.write({tick.x, tick.y + 19}, units::show_number(i * across_.step, across_.decimals), axis_type,
                         Anchor::middle);
        }
        sheet_.write({plot_.right, plot_.bottom + 37}, "stabilizer (cyanurate)" + in, axis_type, Anchor::end);
    }

    void band()
    {
        if (!c_.least && !c_.most)
            return;
        double const low = c_.least ? in_shown_unit(*c_.least, system_) : 0.0;
        double const high = c_.most ? in_shown_unit(*c_.most, system_) : up_.end;
        Spot const foot = at(0, low), top = at(across_.end, high);
        sheet_.rectangle({plot_.left, top.y, plot_.right, foot.y}, 0, "band", Layer::ground);
        for (double const y : {top.y, foot.y})
        {
            sheet_.line({plot_.left, y}, {plot_.right, y}, "fine", Layer::ground);
            labels_.keep_off(filled_in({{plot_.left, y}, {plot_.right, y}}, 6));
        }
        band_ = {plot_.left, top.y, plot_.right, foot.y};
    }

    // In its upper edge away from the water's mark, where it is high enough; else beside it.
    void name_band()
    {
        if (!(band_.bottom > band_.top))
            return;
        constexpr double inset = 6, ascent = 0.95;
        std::string const text = "allowed for bathing: " + bathing_text(c_, system_);
        double const width = text_width(text, word_type), height = word_type.line_height();
        bool const fits =
            c_.cyanurate && band_.bottom - band_.top > height + 4 && width + 2 * inset < band_.right - band_.left;
        if (!fits)
        {
            label(text, filled_in({{band_.right, band_.bottom}, {band_.right, band_.top}}, 6), word_type);
            return;
        }
        bool const to_the_right = at(held_.value, 0).x < (plot_.left + plot_.right) / 2;
        double const left = to_the_right ? band_.right - inset - width : band_.left + inset;
        Box const box{left, band_.top + 3, left + width, band_.top + 3 + height};
        labels_.keep_off(box);
        sheet_.write({to_the_right ? box.right : box.left, box.top + ascent * word_type.size}, text, word_type,
                     to_the_right ? Anchor::end : Anchor::start);
    }

    // The part of a straight line from the left edge that lies on the paper.
    [[nodiscard]] std::vector<Spot> straight(double from, double slope) const
    {
        double const end = slope > 0 ? std::min(across_.end, (up_.end - from) / slope) : across_.end;
        return {at(0, from), at(end, from + slope * end)};
    }

    // Below it there is too little chlorine for the cyanurate; its words stand beside it.
    void limit_line()
    {
        if (!c_.cyanurate || !c_.most_cyanurate || !(c_.most_cyanurate->value() > 0))
            return;
        auto const line = straight(0, 1 / c_.most_cyanurate->value());
        sheet_.area({line[0], line[1], {plot_.right, line[1].y}, {plot_.right, plot_.bottom}}, "box alert",
                    Layer::ground);
        labels_.keep_off(filled_in(line, 4));
        constexpr Lettering type{12, false, "word alert"};
        double const height = type.line_height(), x = plot_.right + 4;
        double const middle = std::min((line[1].y + plot_.bottom) / 2, plot_.bottom - height - 2);
        sheet_.write({x, middle - 2}, "too", type);
        sheet_.write({x, middle - 2 + height}, "little", type);
        ends_.push_back({x, middle - 2 - type.size, sheet_width, middle - 2 + height + 3});
    }

    // As far as it lies on the paper; empty for numbers that are none.
    [[nodiscard]] std::vector<Spot> line_of(assess::EqualWork const& work) const
    {
        std::vector<Spot> out;
        double x0 = 0, y0 = 0;
        for (auto const& point : work.line)
        {
            double const x = in_shown_unit(point.cyanurate, system_), y = in_shown_unit(point.free_chlorine, system_);
            if (!std::isfinite(x) || !std::isfinite(y))
                return {};
            double share = 1.0;
            if (y > up_.end && y > y0)
                share = std::min(share, (up_.end - y0) / (y - y0));
            if (x > across_.end && x > x0)
                share = std::min(share, (across_.end - x0) / (x - x0));
            out.push_back(at(x0 + share * (x - x0), y0 + share * (y - y0)));
            if (share < 1)
                break;
            x0 = x, y0 = y;
        }
        return out;
    }

    // Each with its strength where it leaves the paper; those whose words would hide others' are left out.
    void equal_work()
    {
        for (auto const& work : c_.equal_work)
        {
            auto const spots = c_.cyanurate ? line_of(work) : std::vector<Spot>{};
            if (spots.size() < 2)
                continue;
            std::string const text = "like " + units::show_significant(in_shown_unit(work.bare, system_), 3);
            double const width = text_width(text, quiet_type), half = quiet_type.size / 2;
            Spot const end = spots.back();
            bool const above = end.y < plot_.top + 1 && end.x < plot_.right - 1;
            Spot const from = above ? Spot{std::min(end.x - width / 2, sheet_width - width - 2), plot_.top - 17}
                                    : Spot{plot_.right + 4, end.y - half};
            Box const box{from.x, from.y, from.x + width, from.y + quiet_type.size};
            if (box.left < plot_.left - 2 ||
                std::any_of(ends_.begin(), ends_.end(), [&](Box const& other) { return overlap(box, other); }))
                continue;
            ends_.push_back(box);
            sheet_.curve(spots, "line taken assumed");
            labels_.keep_off(filled_in(spots, 4));
            sheet_.write({box.left, box.top + 0.85 * quiet_type.size}, text, quiet_type);
        }
    }

    std::vector<Spot> plane_mark()
    {
        double const left = c_.cyanurate_is == ScaleEnd::at_most ? 0.0 : held_.low;
        double const right = c_.cyanurate_is == ScaleEnd::at_least  ? across_.end
                             : c_.cyanurate_is == ScaleEnd::at_most ? held_.value
                                                                    : held_.high;
        Spot const centre = at(held_.value, free_.value), low = at(left, free_.low), high = at(right, free_.high);
        sheet_.line({low.x, centre.y}, {high.x, centre.y}, "edge");
        sheet_.line({centre.x, low.y}, {centre.x, high.y}, "edge");
        for (double const y : {low.y, high.y})
            sheet_.line({centre.x - 4, y}, {centre.x + 4, y}, "edge");
        sheet_.line({low.x, centre.y - 4}, {low.x, centre.y + 4}, "edge");
        if (c_.cyanurate_is == ScaleEnd::at_least) // and on beyond the paper
            sheet_.curve({{high.x - 6, centre.y - 5}, {high.x, centre.y}, {high.x - 6, centre.y + 5}}, "edge");
        else
            sheet_.line({high.x, centre.y - 4}, {high.x, centre.y + 4}, "edge");
        sheet_.circle(centre, 5, "solid");
        labels_.keep_off(Box{low.x - 3, centre.y - 6, high.x + 3, centre.y + 6});
        labels_.keep_off(Box{centre.x - 6, high.y - 3, centre.x + 6, low.y + 3});
        return filled_in({{std::max(low.x, centre.x - 30), centre.y}, {std::min(high.x, centre.x + 30), centre.y}}, 4);
    }

    std::vector<Spot> bar_mark()
    {
        double const x = (plot_.left + plot_.right) / 2;
        double const y = at(0, free_.value).y, low = at(0, free_.low).y, high = at(0, free_.high).y;
        sheet_.line({x, low}, {x, high}, "edge");
        for (double const end : {low, high})
            sheet_.line({x - 5, end}, {x + 5, end}, "edge");
        sheet_.circle({x, y}, 5, "solid");
        labels_.keep_off(Box{plot_.left, plot_.top, plot_.right + 6, plot_.bottom});
        return {{x + 6, y}};
    }

    void label(std::string const& text, std::vector<Spot> const& of, Lettering const& type)
    {
        write_wrapped_label(sheet_, labels_, text, of, type, {150.0, 200.0, 130.0, 240.0});
    }
};

bool finite(double value)
{
    return std::isfinite(value);
}

bool whole(ChlorineStanding const& c)
{
    bool const free = finite(units::in_si(c.free_chlorine.value)) && finite(units::in_si(c.free_chlorine.doubt));
    return free &&
           (!c.cyanurate || (finite(units::in_si(c.cyanurate->value)) && finite(units::in_si(c.cyanurate->doubt))));
}

} // namespace

Drawing chlorine_drawing(ChlorineStanding const& c, units::System system, std::string const& id)
{
    Drawing out;
    if (!whole(c))
        return out;
    out.svg = ChlorinePicture(c, system, id).drawn(chlorine_said(c, system));
    out.caption = chlorine_caption(c, system);
    return out;
}

} // namespace padwalk::report
