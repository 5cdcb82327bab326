#include "curve_drawing.hpp"

#include "axis.hpp"
#include "label_places.hpp"
#include "loop_words.hpp"
#include "plain.hpp"

#include "padwalk/units/print.hpp"
#include "padwalk/units/unit_table.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace padwalk::report
{
namespace
{

using units::Measure;

constexpr double sheet_width = 360, sheet_height = 330;
constexpr Box plot{46, 34, 344, 282};
constexpr Lettering axis_type{12, false, "word quiet"};

std::string_view stable(Measure measure, units::System system)
{
    auto const& info = units::info(measure);
    return (system == units::System::us ? info.us : info.si).back().symbol;
}

class CurvePicture
{
public:
    CurvePicture(assess::LoopEntry const& loop, units::System system, std::string id)
        : loop_(loop), system_(system), sheet_(std::move(id), sheet_width), labels_({50, 38, 342, 278})
    {
        double flow = 0.0, head = 0.0;
        reach(flow, head);
        constexpr double head_room = 1.22; // above the curves, for their names
        flow_ = axis_between(0, flow, 5);
        head_ = axis_between(0, head * head_room, 6);
    }

    [[nodiscard]] std::string drawn(std::vector<std::string> const& says)
    {
        axes();
        pump_ = line_of(loop_.pump_curve);
        system_line_ = line_of(loop_.sound_system);
        sheet_.curve(pump_, loop_.pump_is_usual ? "line assumed" : "line");
        sheet_.curve(system_line_, "line taken");
        labels_.keep_off(filled_in(pump_, 4));
        labels_.keep_off(filled_in(system_line_, 4));
        std::vector<Spot> const measured = measured_mark(), sound = sound_mark();
        labels_.keep_off(filled_in(measured, 4));
        labels_.keep_off(sound);
        if (!measured.empty())
            label("measured: " + duty_text(*loop_.measured, system_), filled_in(measured, 4),
                  {12.5, true, "word alert haloed"});
        if (!sound.empty())
            label("a sound loop: " + duty_text(*loop_.sound, system_), sound, {12.5, true, "word haloed"});
        if (pump_.size() > 1)
            label(pump_name(), filled_in(pump_, 8), {12.5, false, "word haloed"});
        if (system_line_.size() > 1)
            label("what a sound loop takes", filled_in(system_line_, 8), {12.5, false, "word haloed"});
        return sheet_.svg(sheet_height, "Head over flow", says);
    }

    [[nodiscard]] std::string pump_name() const
    {
        return loop_.pump_is_usual ? "usual pump of this power, not its own curve" : "the pump's curve";
    }

private:
    assess::LoopEntry const& loop_;
    units::System system_;
    SvgSheet sheet_;
    LabelPlaces labels_;
    Axis flow_, head_;
    std::vector<Spot> pump_, system_line_;

    [[nodiscard]] double flow_of(units::VolumeFlow q) const
    {
        return units::in_unit(Measure::volume_flow, units::in_si(q), stable(Measure::volume_flow, system_));
    }
    [[nodiscard]] double head_of(units::Head h) const
    {
        return units::in_unit(Measure::head, units::in_si(h), stable(Measure::head, system_));
    }

    // How far the axes must go: the pump's curve and both points; the loop's curve only where there is no pump.
    void reach(double& flow, double& head) const
    {
        auto take = [&](units::VolumeFlow q, units::Head h)
        {
            flow = std::max(flow, flow_of(q));
            head = std::max(head, head_of(h));
        };
        for (auto const& point : loop_.pump_curve.empty() ? loop_.sound_system : loop_.pump_curve)
            take(point.flow, point.head);
        for (auto const* duty : {loop_.sound ? &*loop_.sound : nullptr, loop_.measured ? &*loop_.measured : nullptr})
        {
            if (duty != nullptr && is_known(duty->flow))
                take(duty->flow.value + units::coverage * duty->flow.doubt, {});
            if (duty != nullptr && is_known(duty->head))
                take({}, duty->head.value + units::coverage * duty->head.doubt);
        }
    }

    [[nodiscard]] Spot at(double flow, double head) const
    {
        return {plot.left + (plot.right - plot.left) * flow / flow_.end,
                plot.bottom - (plot.bottom - plot.top) * head / head_.end};
    }
    [[nodiscard]] Spot inside(Spot s) const
    {
        return {std::clamp(s.x, plot.left, plot.right), std::clamp(s.y, plot.top, plot.bottom)};
    }

    void axes()
    {
        for (int i = 0; i * head_.step <= head_.end * (1 + 1e-9); ++i)
        {
            Spot const tick = at(0, i * head_.step);
            sheet_.line(tick, {plot.right, tick.y}, i == 0 ? "edge" : "grid", Layer::ground);
            sheet_.write({plot.left - 6, tick.y + 4}, units::show_number(i * head_.step, head_.decimals), axis_type,
                         Anchor::end);
        }
        for (int i = 0; i * flow_.step <= flow_.end * (1 + 1e-9); ++i)
        {
            Spot const tick = at(i * flow_.step, 0);
            sheet_.line(tick, {tick.x, i == 0 ? plot.top : plot.bottom + 5}, "edge", Layer::ground);
            sheet_.write({tick.x, plot.bottom + 19}, units::show_number(i * flow_.step, flow_.decimals), axis_type,
                         Anchor::middle);
        }
        std::string const us = system_ == units::System::us ? "US " : "";
        sheet_.write({8, 18}, "head, " + units::printed(stable(Measure::head, system_)), axis_type);
        sheet_.write({plot.right, plot.bottom + 37},
                     "flow, " + us + units::printed(stable(Measure::volume_flow, system_)), axis_type, Anchor::end);
    }

    // The part of a curve that lies on the paper, cut where it leaves it.
    [[nodiscard]] std::vector<Spot> line_of(std::vector<fields::CurvePoint> const& curve) const
    {
        std::vector<Spot> out;
        for (std::size_t i = 0; i < curve.size(); ++i)
        {
            double const q = flow_of(curve[i].flow), h = head_of(curve[i].head);
            if (q <= flow_.end && h <= head_.end && h >= 0 && q >= 0)
            {
                out.push_back(at(q, h));
                continue;
            }
            if (i == 0 || out.empty())
                continue;
            double const q0 = flow_of(curve[i - 1].flow), h0 = head_of(curve[i - 1].head);
            double share = 1.0;
            if (q > flow_.end)
                share = std::min(share, (flow_.end - q0) / (q - q0));
            if (h > head_.end)
                share = std::min(share, (head_.end - h0) / (h - h0));
            if (h < 0)
                share = std::min(share, h0 / (h0 - h));
            out.push_back(at(q0 + share * (q - q0), h0 + share * (h - h0)));
            break;
        }
        return out;
    }

    // An ellipse where both are known, a band where one is.
    std::vector<Spot> measured_mark()
    {
        if (!loop_.measured)
            return {};
        auto const& m = *loop_.measured;
        double const q = flow_of(m.flow.value), dq = units::coverage * flow_of(m.flow.doubt);
        double const h = head_of(m.head.value), dh = units::coverage * head_of(m.head.doubt);
        bool const flow = is_known(m.flow), head = is_known(m.head);
        if (flow && head)
            return ellipse(q, dq, h, dh);
        if (!flow && !head)
            return {};
        Spot const low = flow ? inside(at(q - dq, 0)) : inside(at(0, h - dh));
        Spot const high = flow ? inside(at(q + dq, head_.end)) : inside(at(flow_.end, h + dh));
        sheet_.rectangle({low.x, high.y, high.x, low.y}, 0, "box alert", Layer::ground);
        std::vector<Spot> const middle =
            flow ? std::vector<Spot>{at(q, 0), at(q, head_.end)} : std::vector<Spot>{at(0, h), at(flow_.end, h)};
        sheet_.curve(middle, "edge alert");
        labels_.keep_off(filled_in(middle, 4));
        return {low, {low.x, high.y}, high, {high.x, low.y}, low};
    }

    std::vector<Spot> ellipse(double q, double dq, double h, double dh)
    {
        constexpr int steps = 48;
        constexpr double least = 5.0; // so small that it would not be seen
        Spot const centre = at(q, h), corner = at(q + dq, h + dh);
        double const across = std::max(least, corner.x - centre.x), up = std::max(least, centre.y - corner.y);
        std::vector<Spot> out;
        for (int i = 0; i <= steps; ++i)
        {
            double const angle = 2 * std::numbers::pi * i / steps;
            out.push_back(inside({centre.x + across * std::cos(angle), centre.y + up * std::sin(angle)}));
        }
        sheet_.area(out, "box alert", Layer::ground);
        for (double const way : {-1.0, 1.0})
            sheet_.line({centre.x - 5, centre.y - 5 * way}, {centre.x + 5, centre.y + 5 * way}, "edge alert");
        return out;
    }

    // A ring, with its doubt as bars.
    std::vector<Spot> sound_mark()
    {
        if (!loop_.sound || !is_known(loop_.sound->flow) || !is_known(loop_.sound->head))
            return {};
        auto const& s = *loop_.sound;
        double const q = flow_of(s.flow.value), dq = units::coverage * flow_of(s.flow.doubt);
        double const h = head_of(s.head.value), dh = units::coverage * head_of(s.head.doubt);
        Spot const centre = at(q, h);
        std::vector<Spot> const bars[] = {{inside(at(q - dq, h)), inside(at(q + dq, h))},
                                          {inside(at(q, h - dh)), inside(at(q, h + dh))}};
        for (auto const& bar : bars)
        {
            sheet_.curve(bar, "edge");
            labels_.keep_off(filled_in(bar, 4));
        }
        sheet_.circle(centre, 5.5, "part");
        std::vector<Spot> out;
        for (int i = 0; i < 8; ++i)
            out.push_back(
                {centre.x + 7 * std::cos(std::numbers::pi * i / 4), centre.y + 7 * std::sin(std::numbers::pi * i / 4)});
        return out;
    }

    void label(std::string const& text, std::vector<Spot> const& of, Lettering const& type)
    {
        constexpr double near = 9, ascent = 0.95;
        std::vector<std::vector<std::string>> wraps;
        std::vector<Spot> shapes;
        for (double const widest : {140.0, 120.0, 190.0})
        {
            wraps.push_back(lines_within(text, widest, type, 5));
            double width = 0.0;
            for (auto const& line : wraps.back())
                width = std::max(width, text_width(line, type));
            shapes.push_back({width, type.line_height() * static_cast<double>(wraps.back().size())});
        }
        auto const [box, shape] = labels_.place(shapes, of);
        auto const& lines = wraps[shape];
        Spot const anchor = nearest(of, box);
        if (distance(anchor, box) > near)
            sheet_.line(anchor, inside_of(box, anchor), "fine");
        // The lines lean to where what they name is.
        bool const leans_right = anchor.x > (box.left + box.right) / 2;
        double base = box.top + ascent * type.size;
        for (auto const& line : lines)
        {
            sheet_.write({leans_right ? box.right : box.left, base}, line, type,
                         leans_right ? Anchor::end : Anchor::start);
            base += type.line_height();
        }
    }

    // Where a pointer from there meets the box.
    static Spot inside_of(Box const& box, Spot from)
    {
        return {std::clamp(from.x, box.left + 4, box.right - 4), std::clamp(from.y, box.top, box.bottom)};
    }
};

std::string curve_text(assess::LoopEntry const& loop, units::System system)
{
    auto const& curve = loop.pump_curve;
    if (curve.size() < 2)
        return {};
    constexpr double as_read_off = 0.02; // of the value: no more digits than a curve is read to
    auto point = [&](fields::CurvePoint const& p)
    {
        return glued(units::show(Measure::head, units::in_si(p.head), as_read_off * units::in_si(p.head),
                                 {system, stable(Measure::head, system), stable(Measure::head, system)})) +
               " at " +
               glued(units::show(Measure::volume_flow, units::in_si(p.flow), as_read_off * units::in_si(p.flow),
                                 {system, stable(Measure::volume_flow, system), stable(Measure::volume_flow, system)}));
    };
    std::string const whose =
        loop.pump_is_usual ? "A usual pump of this power (not its own curve)" : "The pump's curve";
    return whose + ": " + point(curve.front()) + ", " + point(curve[curve.size() / 2]) + ", " + point(curve.back()) +
           ".";
}

} // namespace

Drawing curve_drawing(assess::LoopEntry const& loop, units::System system, std::string const& id)
{
    Drawing out;
    if (std::string text = curve_text(loop, system); !text.empty())
        out.in_words.push_back(std::move(text));
    if (loop.sound)
        if (std::string const text = duty_text(*loop.sound, system); !text.empty())
            out.in_words.push_back("A sound loop would run at " + text + ".");
    if (loop.measured)
        if (std::string const text = duty_text(*loop.measured, system); !text.empty())
            out.in_words.push_back("Measured: " + text + ".");
    bool const curves = loop.pump_curve.size() > 1 || loop.sound_system.size() > 1;
    if (!curves && out.in_words.empty())
        return out;
    out.svg = CurvePicture(loop, system, id).drawn(out.in_words);
    bool const measured = loop.measured && !duty_text(*loop.measured, system).empty();
    out.caption = "Head over flow." +
                  std::string(loop.pump_is_usual && loop.pump_curve.size() > 1
                                  ? " Dashed: the curve of a usual pump of this power, not its own."
                                  : "") +
                  (measured ? " The shaded part is where the measured point may be, 19 times in 20." : "");
    return out;
}

} // namespace padwalk::report
