#include "forecast_drawing.hpp"

#include "axis.hpp"
#include "label_places.hpp"
#include "plain.hpp"

#include "padwalk/units/definitions.hpp"
#include "padwalk/units/print.hpp"
#include "padwalk/units/unit_table.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::report
{
namespace
{

using chemistry::DriftDay;
using chemistry::Followed;
using units::Measure;

constexpr double sheet_width = 360, plot_left = 46, plot_right = 350, plot_height = 74;
constexpr Lettering axis_type{12, false, "word quiet"};
constexpr Lettering name_type{12.5, true, "word haloed"};
constexpr Lettering exit_type{12, false, "word haloed"};
constexpr Lettering alert_type{12, true, "word alert haloed"};

/// A reading on a day, in the units of the axis.
struct Point
{
    double day = 0.0, value = 0.0, low = 0.0, high = 0.0;
};

/// One reading over the days.
struct Panel
{
    std::string name;
    std::string_view unit; ///< empty for pure numbers
    std::vector<Point> points;
    std::optional<double> low, high; ///< wanted
    chemistry::BandExit const* exit = nullptr;
};

bool finite(Point const& p)
{
    return std::isfinite(p.value) && std::isfinite(p.low) && std::isfinite(p.high) && std::isfinite(p.day);
}

double days(units::Duration d)
{
    return units::in_si(d) / units::exact::day;
}

/// The panels of a forecast.
class Panels
{
public:
    Panels(assess::WaterSheet const& sheet, units::System system) : sheet_(sheet), system_(system)
    {
        constexpr double ppm = 1e-3;
        add("pH", Followed::ph, 0.05, [](DriftDay const& d) { return std::optional(d.ph); });
        add("free chlorine", Followed::free_chlorine, 0.1 * ppm,
            [](DriftDay const& d) { return std::optional(d.free_chlorine); });
        add("alkalinity", Followed::alkalinity, 10 * ppm,
            [](DriftDay const& d) { return std::optional(d.alkalinity); });
        add("calcium hardness", Followed::calcium, 10 * ppm,
            [](DriftDay const& d) { return std::optional(d.calcium); });
        add("stabilizer (cyanurate)", Followed::cyanurate, 10 * ppm,
            [](DriftDay const& d) { return std::optional(d.cyanurate); });
        add("salt", Followed::salt, 100 * ppm, [](DriftDay const& d) { return std::optional(d.salt); });
        add("saturation index", Followed::saturation_index, 0.05, [](DriftDay const& d) { return d.saturation_index; });
    }

    std::vector<Panel> take() { return std::move(out_); }

private:
    assess::WaterSheet const& sheet_;
    units::System system_;
    std::vector<Panel> out_;

    template <class Q> static chemistry::Spread<Q> of(std::optional<chemistry::Spread<Q>> const& s) { return *s; }

    /// `step` is what a good kit can tell apart: a reading that moves less, and stays in its band, is left out.
    template <class Read> void add(std::string name, Followed reading, double step, Read const& read)
    {
        using Q = decltype(of(read(DriftDay{})).median);
        constexpr Measure measure = units::measure_of<Q>::value;
        Panel panel;
        panel.name = std::move(name);
        double const usual = 0.1; // kg/m3, so that every concentration is told in the same unit
        panel.unit = units::unit_for(measure, usual, {system_, {}, {}});
        auto const in = [&](double si) { return units::in_unit(measure, si, panel.unit); };
        for (auto const& day : sheet_.forecast->days)
            if (auto const s = read(day))
                if (Point const p{days(day.at), in(units::in_si(s->median)), in(units::in_si(s->low)),
                                  in(units::in_si(s->high))};
                    finite(p))
                    panel.points.push_back(p);
        for (auto const& band : sheet_.bands)
            if (band.reading == reading)
            {
                if (band.low && std::isfinite(band.low->value))
                    panel.low = in(band.low->value);
                if (band.high && std::isfinite(band.high->value))
                    panel.high = in(band.high->value);
            }
        for (auto const& exit : sheet_.forecast->exits)
            if (exit.band.reading == reading)
                panel.exit = &exit;
        if (panel.points.size() > 1 && (leaves(panel) || moves(panel, in(step)-in(0.0))))
            out_.push_back(std::move(panel));
    }

    static bool leaves(Panel const& p) { return p.exit != nullptr && (p.exit->likely || p.exit->early); }
    static bool moves(Panel const& p, double step)
    {
        auto const [low, high] =
            std::minmax_element(p.points.begin(), p.points.end(), [](Point a, Point b) { return a.value < b.value; });
        return high->value - low->value > step;
    }
};

std::string printed_unit(Panel const& panel)
{
    std::string const unit = units::printed(panel.unit);
    return unit.substr(0, unit.find(" as "));
}

std::string wanted_text(Panel const& p)
{
    auto const number = [](double v) { return units::show_significant(v, 4); };
    if (p.low && p.high)
        return "wanted " + number(*p.low) + " to " + number(*p.high);
    return p.low ? "wanted from " + number(*p.low) : "wanted up to " + number(*p.high);
}

std::string exit_text(Panel const& p, units::Duration ahead)
{
    if (p.exit == nullptr)
        return "no band was planned for it";
    return "out of band: " + chemistry::exit_in_words(*p.exit, ahead);
}

class ForecastPicture
{
public:
    ForecastPicture(std::vector<Panel> panels, assess::WaterSheet const& sheet, std::string id)
        : panels_(std::move(panels)), sheet_of_(sheet), sheet_(std::move(id), sheet_width)
    {
        double end = 0;
        for (auto const& panel : panels_)
            end = std::max(end, panel.points.back().day);
        time_ = axis_between(0, end, 6);
        if (time_.step < 1)
            time_ = {0, 1, std::max(1.0, std::ceil(end)), 0};
    }

    [[nodiscard]] std::string drawn(std::vector<std::string> const& says)
    {
        double y = 0;
        for (std::size_t i = 0; i < panels_.size(); ++i)
            y = panel(panels_[i], y, i + 1 == panels_.size());
        bool const planned = sheet_of_.plan && !sheet_of_.plan->steps.empty();
        sheet_.write({plot_right, y + 14}, planned ? "days after the last step" : "days from now", axis_type,
                     Anchor::end);
        return sheet_.svg(y + 24, "The water in the days to come", says);
    }

private:
    std::vector<Panel> panels_;
    assess::WaterSheet const& sheet_of_;
    SvgSheet sheet_;
    Axis time_, value_;
    double top_ = 0.0; ///< of the plot of the panel at work

    [[nodiscard]] double bottom() const { return top_ + plot_height; }
    [[nodiscard]] Spot at(double day, double value) const
    {
        double const up = (value - value_.start) / (value_.end - value_.start);
        return {plot_left + (plot_right - plot_left) * day / time_.end,
                std::clamp(bottom() - plot_height * up, top_, bottom())};
    }

    double panel(Panel const& p, double y, bool last)
    {
        double base = y + 16;
        std::string const unit = printed_unit(p);
        sheet_.write({8, base}, p.name == "pH" ? p.name : capitalised(p.name) + (unit.empty() ? "" : ", " + unit),
                     name_type);
        wanted_words(p, base);
        base = sheet_.write_lines(
            {8, base + exit_type.line_height()},
            lines_within(capitalised(exit_text(p, sheet_of_.ahead)), plot_right - 8, exit_type, 3), exit_type);
        top_ = base - exit_type.size + 9;
        value_ = value_axis(p);
        LabelPlaces labels({plot_left + 4, top_ + 1, plot_right - 2, bottom() - 1});
        labels.keep_off(wanted(p));
        axes(last);
        auto const line = doubt_and_line(p);
        labels.keep_off(filled_in(line, 4));
        exit_mark(p, labels);
        return bottom() + (last ? 20 : 10);
    }

    static Axis value_axis(Panel const& p)
    {
        double low = p.points.front().low, high = p.points.front().high;
        for (auto const& point : p.points)
            low = std::min({low, point.low, point.value}), high = std::max({high, point.high, point.value});
        for (auto const& edge : {p.low, p.high})
            if (edge)
                low = std::min(low, *edge), high = std::max(high, *edge);
        double const room = 0.08 * (high - low);
        // What can't be below zero has no room there.
        return axis_between(low >= 0 ? std::max(0.0, low - room) : low - room, high + room, 3);
    }

    /// Shades it. Returns its edges.
    std::vector<Spot> wanted(Panel const& p)
    {
        std::vector<Spot> out;
        if (!p.low && !p.high)
            return out;
        double const foot = p.low ? at(0, *p.low).y : bottom(), top = p.high ? at(0, *p.high).y : top_;
        sheet_.rectangle({plot_left, top, plot_right, foot}, 0, "band", Layer::ground);
        for (double const y : {top, foot})
        {
            sheet_.line({plot_left, y}, {plot_right, y}, "fine", Layer::ground);
            for (double x = plot_left; x < plot_right; x += 6)
                out.push_back({x, y});
        }
        return out;
    }

    /// Beside the name: what is wanted, and how it is shaded.
    void wanted_words(Panel const& p, double base)
    {
        if (!p.low && !p.high)
            return;
        constexpr double width = 16, height = 9;
        double const swatch = plot_right - width;
        sheet_.write({swatch - 6, base}, wanted_text(p), axis_type, Anchor::end);
        sheet_.rectangle({swatch, base - height, plot_right, base}, 0, "band");
        for (double const y : {base - height, base})
            sheet_.line({swatch, y}, {plot_right, y}, "fine");
    }

    void axes(bool numbered)
    {
        for (int i = 0; i <= value_.steps(); ++i)
        {
            double const value = value_.start + i * value_.step;
            Spot const tick = at(0, value);
            sheet_.line(tick, {plot_right, tick.y}, i == 0 ? "edge" : "grid", Layer::ground);
            sheet_.write({plot_left - 6, tick.y + 4}, units::show_number(value, value_.decimals), axis_type,
                         Anchor::end);
        }
        sheet_.line({plot_left, top_}, {plot_left, bottom()}, "edge", Layer::ground);
        for (int i = 0; i <= time_.steps(); ++i)
        {
            double const x = at(i * time_.step, value_.start).x;
            sheet_.line({x, bottom()}, {x, bottom() + 4}, "edge", Layer::ground);
            if (numbered)
                sheet_.write({x, bottom() + 17}, units::show_number(i * time_.step, time_.decimals), axis_type,
                             i == time_.steps() ? Anchor::end : Anchor::middle);
        }
    }

    std::vector<Spot> doubt_and_line(Panel const& p)
    {
        std::vector<Spot> line, outline;
        for (auto const& point : p.points)
        {
            line.push_back(at(point.day, point.value));
            outline.push_back(at(point.day, point.high));
        }
        for (auto point = p.points.rbegin(); point != p.points.rend(); ++point)
            outline.push_back(at(point->day, point->low));
        sheet_.area(outline, "doubt", Layer::ground);
        sheet_.curve(line, "line");
        return line;
    }

    void exit_mark(Panel const& p, LabelPlaces& labels)
    {
        if (p.exit == nullptr || !p.exit->likely || !std::isfinite(units::in_si(*p.exit->likely)))
            return;
        double const day = std::clamp(days(*p.exit->likely), 0.0, time_.end);
        double const x = at(day, value_.start).x;
        std::vector<Spot> const mark{{x, top_}, {x, bottom()}};
        sheet_.curve(mark, "edge alert broken");
        auto const spots = filled_in(mark, 4);
        labels.keep_off(spots);
        write_label(sheet_, labels, "out from day " + units::show_number(std::round(day), 0), spots, alert_type);
    }
};

std::vector<std::string> said(std::vector<Panel> const& panels, units::Duration ahead)
{
    std::vector<std::string> out;
    for (auto const& p : panels)
    {
        auto const number = [](double v) { return units::show_significant(v, 3); };
        Point const &first = p.points.front(), &last = p.points.back();
        std::string const unit = printed_unit(p);
        out.push_back(capitalised(p.name) + ": " + number(first.value) + " at first, " + number(last.value) +
                      (unit.empty() ? "" : " " + unit) + " on day " + number(last.day) + "; " + exit_text(p, ahead) +
                      ".");
    }
    return out;
}

} // namespace

Drawing forecast_drawing(assess::WaterSheet const& sheet, units::System system, std::string const& id)
{
    Drawing out;
    if (!sheet.forecast || sheet.forecast->days.size() < 2)
        return out;
    auto panels = Panels(sheet, system).take();
    if (panels.empty())
        return out;
    out.svg = ForecastPicture(panels, sheet, id).drawn(said(panels, sheet.ahead));
    out.caption = "What the readings are likely to do by themselves. The line is the likeliest, the shade around it "
                  "where it may run, 19 times in 20. Between the two thin lines, as in the small box, is what is "
                  "wanted; dotted is the day on which that is likely left.";
    return out;
}

} // namespace padwalk::report
