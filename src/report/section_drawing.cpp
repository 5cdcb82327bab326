#include "section_drawing.hpp"

#include "label_places.hpp"
#include "plain.hpp"
#include "section_view.hpp"
#include "section_words.hpp"

#include "padwalk/units/print.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::report
{
namespace
{

using visit::FittingKind;
using Sheet = SectionSheet;

constexpr Lettering axis_type{12, false, "word quiet"}, legend_type{12, false, "word quiet"};
constexpr Lettering level_type{12.5, false, "word haloed"}, strong_level{12.5, true, "word haloed"};
constexpr Lettering state_type{13, true, "word"};

class SectionPicture
{
public:
    SectionPicture(assess::LevelEntry const& level, units::System system, std::string id)
        : level_(level), system_(system), view_(section_view(level, system)), sheet_(std::move(id), Sheet::width),
          labels_({Sheet::axis + 20, 20, Sheet::face - 8, view_.break_at - 6})
    {
    }

    [[nodiscard]] std::string drawn(std::vector<std::string> const& says)
    {
        scale();
        deck();
        wall();
        floor();
        broken_off();
        for (auto const& f : view_.fittings)
            opening(f);
        for (auto const& f : view_.fittings)
            if (f.kind == FittingKind::drain)
                drain(f);
            else
                fitting(f);
        levels();
        return sheet_.svg(legend(), "The shell in section", says);
    }

private:
    assess::LevelEntry const& level_;
    units::System system_;
    SectionView view_;
    SvgSheet sheet_;
    LabelPlaces labels_;
    int drains_ = 0;
    struct Leader
    {
        double from, to, label; ///< y of what is named and of the label; where the label begins
    };
    std::vector<Leader> leaders_;

    void scale()
    {
        sheet_.write({6, 14}, std::string(system_ == units::System::us ? "inches" : "cm") + " below the first mark",
                     axis_type);
        sheet_.line({Sheet::axis, Sheet::scale_top}, {Sheet::axis, view_.axis_bottom}, "edge", Layer::ground);
        for (int i = 0; i <= view_.axis.steps(); ++i)
        {
            double const value = view_.axis.start + i * view_.axis.step, y = view_.at(value);
            sheet_.line({Sheet::axis - 5, y}, {Sheet::axis, y}, "edge", Layer::ground);
            sheet_.write({Sheet::axis - 8, y + 4}, units::show_number(value, view_.axis.decimals), axis_type,
                         Anchor::end);
        }
    }

    /// Its height above the first mark is not known.
    void deck()
    {
        constexpr double lip = 8, thick = 12;
        sheet_.line({Sheet::outside, Sheet::deck + 3}, {Sheet::right, Sheet::deck + 3}, "edge", Layer::ground);
        for (double x = Sheet::outside + 22; x < Sheet::right; x += 14)
            sheet_.line({x, Sheet::deck + 4}, {x - 6, Sheet::deck + 10}, "fine", Layer::ground);
        sheet_.rectangle({Sheet::face - lip, Sheet::deck, Sheet::outside + 4, Sheet::deck + thick}, 3, "part");
        sheet_.write({Sheet::right, Sheet::deck - 4}, "deck", axis_type, Anchor::end);
        labels_.keep_off(Box{Sheet::face - lip - 2, Sheet::deck - 2, Sheet::outside, Sheet::deck + thick + 2});
    }

    void wall()
    {
        constexpr double gap = 4, every = 9;
        double const top = Sheet::deck + 12;
        for (auto const& [from, to] :
             {std::pair{top, view_.break_at - gap}, std::pair{view_.break_at + gap, view_.floor}})
        {
            sheet_.line({Sheet::face, from}, {Sheet::face, to}, "pipe", Layer::ground);
            sheet_.line({Sheet::outside, from}, {Sheet::outside, to}, "edge", Layer::ground);
            for (double y = from + 14; y < to; y += every)
                sheet_.line({Sheet::face, y}, {Sheet::outside, y - 14}, "fine", Layer::ground);
        }
    }

    void floor()
    {
        constexpr double thick = 14;
        double const y = view_.floor, left = Sheet::axis + 4;
        sheet_.curve({{left, y}, {Sheet::face, y}}, "pipe", Layer::ground);
        sheet_.curve({{Sheet::outside, y}, {Sheet::outside, y + thick}, {left, y + thick}}, "edge", Layer::ground);
        for (double x = left + 12; x < Sheet::outside; x += 9)
            sheet_.line({x, y}, {x - 12, y + thick}, "fine", Layer::ground);
        sheet_.write({Sheet::axis + 10, y - 14}, "not to scale", axis_type);
    }

    /// Two jagged lines across wall and water.
    void broken_off()
    {
        constexpr double apart = 4, tooth = 3, every = 8;
        for (double const side : {-apart, apart})
        {
            std::vector<Spot> line;
            double up = tooth;
            for (double x = Sheet::axis - 4; x <= Sheet::outside + 6; x += every, up = -up)
                line.push_back({x, view_.break_at + side + up});
            sheet_.curve(line, "edge", Layer::ground);
        }
    }

    /// The way through the wall above its lowest wetted point.
    void opening(ShownFitting const& f)
    {
        double const in = Sheet::face, out = Sheet::outside, y = f.y;
        switch (f.kind)
        {
        case FittingKind::skimmer: sheet_.rectangle({in - 1, y - 18, out + 1, y}, 0, "part thin"); return;
        case FittingKind::inlet:
        case FittingKind::cleaner_line: sheet_.rectangle({in - 1, y - 7, out + 1, y}, 0, "part thin"); return;
        case FittingKind::light: sheet_.rectangle({in - 3, y - 18, in + 13, y}, 6, "part thin"); return;
        case FittingKind::tile_line:
            for (double const up : {12.0, 6.0})
                sheet_.rectangle({in - 4, y - up, in, y - up + 6}, 0, "part thin");
            return;
        case FittingKind::step: sheet_.rectangle({in - 20, y - 6, in, y}, 0, "part thin"); return;
        case FittingKind::drain: return;
        }
    }

    void fitting(ShownFitting const& f)
    {
        if (constexpr double least = 3; f.to_scale && view_.at(f.depth + f.reach) - f.y > least)
            whisker(Sheet::face - 13, view_.at(f.depth - f.reach), view_.at(f.depth + f.reach));
        sheet_.circle({Sheet::face, f.y}, 3.5, "solid");
        if (f.likeliest)
            sheet_.circle({Sheet::face, f.y}, 8, "edge");
        labels_.keep_off(Box{Sheet::face - 16, f.y - 8, Sheet::face, f.y + 8});
        sheet_.curve({{Sheet::outside + 1, f.y}, {Sheet::outside + 4, f.y}, {Sheet::label - 5, name_middle(f)}},
                     "fine");
        name(f);
    }

    /// In the floor; its line to the name runs below.
    void drain(ShownFitting const& f)
    {
        constexpr double thick = 14, wide = 18, between = 34;
        double const x = Sheet::face - 28 - between * (drains_ % 3), under = f.y + thick + 5 + 4 * drains_;
        ++drains_;
        sheet_.rectangle({x - wide / 2, f.y - 1, x + wide / 2, f.y + thick - 3}, 0, "part thin");
        sheet_.line({x - wide / 2, f.y + 3}, {x + wide / 2, f.y + 3}, "edge mesh");
        sheet_.circle({x, f.y}, 3.5, "solid");
        if (f.likeliest)
            sheet_.circle({x, f.y}, 8, "edge");
        double const turn = Sheet::outside + 3 + 3 * (drains_ % 3);
        sheet_.curve({{x, f.y + thick - 3}, {x, under}, {turn, under}, {Sheet::label - 5, name_middle(f)}}, "fine");
        name(f);
    }

    [[nodiscard]] static double name_middle(ShownFitting const& f) { return f.label_top + 8; }

    void name(ShownFitting const& f)
    {
        double const y = sheet_.write_lines({Sheet::label, f.label_top + 0.95 * name_type.size}, f.name_lines,
                                            f.likeliest ? likely_type : name_type);
        sheet_.write_lines({Sheet::label, y}, f.figure_lines, figure_type);
    }

    void whisker(double x, double top, double foot)
    {
        sheet_.line({x, top}, {x, foot}, "fine");
        for (double const y : {top, foot})
            sheet_.line({x - 3, y}, {x + 3, y}, "fine");
    }

    void levels()
    {
        auto const& last = level_.record.marks[level_.last_mark].fall;
        double const first_y = view_.at(0), last_y = view_.at(depth_in(last.value, system_));
        std::vector<Spot> const first_line{{Sheet::axis, first_y}, {Sheet::face, first_y}};
        std::vector<Spot> const last_line{{Sheet::axis, last_y}, {Sheet::face, last_y}};
        sheet_.curve(first_line, "line taken");
        sheet_.curve(last_line, "line");
        labels_.keep_off(filled_in(first_line, 4));
        labels_.keep_off(filled_in(last_line, 4));
        auto const stop = stop_band();
        surface(Sheet::face - 22, first_y, "part thin");
        surface(Sheet::face - 36, last_y, "solid");
        ripples(Sheet::face - 36, last_y);
        name_start(first_y, last_y < first_y);
        auto const name_last = [&] {
            label({"last mark", depth_with_doubt(last, system_)}, filled_in(last_line, 8), strong_level);
        };
        // The higher first, so that labels which find room below both stand in their order.
        bool const stops_deeper = !stop.empty() && stop.front().y > last_y;
        if (stops_deeper)
            name_last();
        bool const stopped = level_.course && level_.course->trend == assess::LevelTrend::stopped;
        if (!stop.empty())
            label({stopped ? "leak stopped at" : "it would stop at", stop_text(*level_.settling, system_)}, stop,
                  level_type);
        if (!stops_deeper)
            name_last();
        leaders();
    }

    /// Beside its line on the side away from the last mark, which the other labels are kept on.
    void name_start(double y, bool rose)
    {
        double const left = Sheet::axis + 20, high = level_type.line_height();
        double const top = rose ? y + 4 : y - 4 - high;
        sheet_.write({left, top + 0.95 * level_type.size}, "level at the start", level_type);
        labels_.keep_off(rose ? Box{Sheet::axis, y, Sheet::face, top + high} : Box{Sheet::axis, 0, Sheet::face, y});
    }

    /// Where it would stop, 19 times in 20, and its middle. Spots to name it by; empty where nothing was weighed.
    std::vector<Spot> stop_band()
    {
        if (!shows_stop(level_))
            return {};
        auto const& s = *level_.settling;
        double const deepest = view_.axis.end, low = depth_in(s.low, system_), middle = depth_in(s.depth, system_),
                     high = depth_in(s.high, system_);
        double const top = low < deepest ? view_.at(low) : view_.axis_bottom + 4;
        double const foot = high <= deepest ? view_.at(high) : view_.break_at - 8;
        sheet_.area({{Sheet::axis, top}, {Sheet::face, top}, {Sheet::face, foot}, {Sheet::axis, foot}}, "band",
                    Layer::ground);
        std::vector<Spot> spots;
        auto const edge = [&](double y, std::string_view kind)
        {
            std::vector<Spot> const line{{Sheet::axis, y}, {Sheet::face, y}};
            sheet_.curve(line, kind);
            labels_.keep_off(filled_in(line, 4));
            auto const near = filled_in(line, 8);
            spots.insert(spots.end(), near.begin(), near.end());
        };
        edge(top, "edge broken");
        if (high <= deepest)
            edge(foot, "edge broken");
        if (middle < deepest)
            edge(view_.at(middle), "fine");
        return spots;
    }

    /// The sign of a water's surface: a triangle that stands on it.
    void surface(double x, double y, std::string_view kind)
    {
        sheet_.area({{x - 6, y - 10}, {x + 6, y - 10}, {x, y - 1}}, kind);
        labels_.keep_off(Box{x - 6, y - 10, x + 6, y});
    }

    void ripples(double x, double y)
    {
        for (int i = 1; i <= 3; ++i)
            sheet_.line({x - 8 + 2 * i, y + 4 * i}, {x + 8 - 2 * i, y + 4 * i}, "fine");
        labels_.keep_off(Box{x - 8, y, x + 8, y + 13});
    }

    /// Beside what it names.
    void label(std::vector<std::string> const& lines, std::vector<Spot> const& of, Lettering const& type)
    {
        constexpr double near = 12;
        double wide = 0;
        for (auto const& line : lines)
            wide = std::max(wide, text_width(line, type));
        double const high = static_cast<double>(lines.size()) * type.line_height();
        auto const box = labels_.place({{wide, high}}, of).box;
        sheet_.write_lines({box.left, box.top + 0.95 * type.size}, lines, type);
        if (Spot const anchor = nearest(of, box); distance(anchor, box) > near)
            leaders_.push_back({anchor.y, (box.top + box.bottom) / 2, box.left});
    }

    /// Left of all labels, the longest outermost, so that none crosses a label or another.
    void leaders()
    {
        constexpr double lane = 5;
        std::sort(leaders_.begin(), leaders_.end(),
                  [](Leader const& a, Leader const& b) { return std::abs(a.to - a.from) > std::abs(b.to - b.from); });
        double x = Sheet::axis + lane;
        for (auto const& l : leaders_)
        {
            sheet_.curve({{x, l.from}, {x, l.to}, {l.label - 3, l.to}}, "fine");
            x += lane;
        }
    }

    /// Below the picture, in words; gives the sheet's height.
    double legend()
    {
        constexpr double left = 6;
        double y = view_.bottom + 22;
        y = sheet_.write_lines(
                {left, y}, lines_within(trend_sentence(level_, system_), Sheet::right - left, state_type), state_type) +
            2;
        y = sheet_.write_lines({left, y}, lines_within(chances_sentence(level_), Sheet::right - left, legend_type),
                               legend_type);
        if (view_.left_out > 0)
            y = sheet_.write_lines(
                {left, y},
                lines_within(std::to_string(view_.left_out) + " more were measured and are not drawn.",
                             Sheet::right - left, legend_type),
                legend_type);
        return y - 6;
    }
};

} // namespace

Drawing section_drawing(assess::LevelEntry const& level, units::System system, std::string const& id)
{
    Drawing out;
    if (level.fittings.empty() || level.last_mark >= level.record.marks.size())
        return out;
    out.in_words = section_in_words(level, system);
    out.svg = SectionPicture(level, system, id).drawn(out.in_words);
    out.caption =
        "The wall in section, to scale from the first mark down to the break; deck, floor and what lies below "
        "the break are not. A dot is the lowest wetted point of what goes through the shell. Open triangle: "
        "level at the start; solid one: at the last mark";
    out.caption += shows_stop(level) ? "; band: where a leak would stop, 19 times in 20." : ".";
    if (level.settling && std::any_of(level.settling->fittings.begin(), level.settling->fittings.end(), is_likeliest))
        out.caption += " Ringed, in bold: likelier than all else together.";
    return out;
}

} // namespace padwalk::report
