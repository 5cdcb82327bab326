#include "level_drawing.hpp"

#include "axis.hpp"
#include "label_places.hpp"
#include "plain.hpp"

#include "padwalk/units/definitions.hpp"
#include "padwalk/units/print.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::report
{
namespace
{

using units::Measure;

constexpr double sheet_width = 360, sheet_height = 340;
constexpr Box plot{46, 34, 346, 276};
constexpr Lettering axis_type{12, false, "word quiet"};
constexpr Lettering word_type{12.5, false, "word haloed"};
constexpr Lettering strong_type{12.5, true, "word haloed"};

/// A level at a time, in the units of the axes: middle, and the ends of its doubt.
struct Stood
{
    double time = 0.0, fall = 0.0, high = 0.0, low = 0.0;
};

class LevelPicture
{
public:
    LevelPicture(assess::LevelEntry const& level, units::System system, std::string id)
        : level_(level), system_(system), sheet_(std::move(id), sheet_width),
          labels_({plot.left + 4, plot.top, plot.right - 2, plot.bottom - 16})
    {
        constexpr double many = 60; // hours that are told in days
        double const hours = units::in_si(level.record.length()) / units::exact::hour;
        in_days_ = hours > many;
        for (auto const& mark : level.record.marks)
            read_.push_back(stood(mark.at, mark.fall));
        for (auto const& point : level.balance.foretold)
            foretold_.push_back(stood(point.at, point.fall));
        double least = 0, most = 0, end = 0;
        for (auto const* list : {&read_, &foretold_})
            for (auto const& s : *list)
                least = std::min(least, s.high), most = std::max(most, s.low), end = std::max(end, s.time);
        time_ = axis_between(0, end, 5);
        fall_ = axis_between(least, most + 0.12 * (most - least), 6);
    }

    [[nodiscard]] std::string drawn(std::vector<std::string> const& says)
    {
        band();
        axes();
        states();
        auto const dry = line_of(foretold_), wet = line_of(read_);
        sheet_.curve(dry, "line taken");
        sheet_.curve(wet, "line");
        labels_.keep_off(filled_in(dry, 4));
        labels_.keep_off(filled_in(wet, 4));
        for (auto const& s : read_)
            mark(s);
        label("as read", filled_in(wet, 8), strong_type);
        label("without a leak", filled_in(dry, 8), word_type);
        return sheet_.svg(sheet_height, "The level over time", says);
    }

    [[nodiscard]] static std::string_view unit(units::System system)
    {
        return system == units::System::us ? "in" : "mm";
    }

private:
    assess::LevelEntry const& level_;
    units::System system_;
    SvgSheet sheet_;
    LabelPlaces labels_;
    bool in_days_ = false;
    std::vector<Stood> read_, foretold_;
    Axis time_, fall_;

    [[nodiscard]] double time_of(units::Duration t) const
    {
        return units::in_unit(Measure::duration, units::in_si(t), in_days_ ? "day" : "h");
    }
    [[nodiscard]] double fall_of(double metres) const { return units::in_unit(Measure::length, metres, unit(system_)); }
    [[nodiscard]] Stood stood(units::Duration at, units::Measured<units::Length> const& fall) const
    {
        double const value = units::in_si(fall.value), reach = units::coverage * units::in_si(fall.doubt);
        return {time_of(at), fall_of(value), fall_of(value - reach), fall_of(value + reach)};
    }
    /// The level falls on the paper as in the pool.
    [[nodiscard]] Spot at(double time, double fall) const
    {
        double const down = (fall - fall_.start) / (fall_.end - fall_.start);
        return {plot.left + (plot.right - plot.left) * time / time_.end,
                std::clamp(plot.top + (plot.bottom - plot.top) * down, plot.top, plot.bottom)};
    }
    [[nodiscard]] std::vector<Spot> line_of(std::vector<Stood> const& list) const
    {
        std::vector<Spot> out;
        for (auto const& s : list)
            out.push_back(at(s.time, s.fall));
        return out;
    }

    void band()
    {
        std::vector<Spot> outline;
        for (auto const& s : foretold_)
            outline.push_back(at(s.time, s.high));
        for (auto s = foretold_.rbegin(); s != foretold_.rend(); ++s)
            outline.push_back(at(s->time, s->low));
        sheet_.area(outline, "band", Layer::ground);
    }

    void axes()
    {
        for (int i = 0; i <= fall_.steps(); ++i)
        {
            double const value = fall_.start + i * fall_.step;
            Spot const tick = at(0, value);
            sheet_.line(tick, {plot.right, tick.y}, value == 0 ? "edge" : "grid", Layer::ground);
            sheet_.write({plot.left - 6, tick.y + 4}, units::show_number(value, fall_.decimals), axis_type,
                         Anchor::end);
        }
        for (int i = 0; i <= time_.steps(); ++i)
        {
            double const x = at(i * time_.step, fall_.start).x;
            sheet_.line({x, plot.bottom}, {x, i == 0 ? plot.top : plot.bottom + 5}, "edge", Layer::ground);
            sheet_.write({x, plot.bottom + 35}, units::show_number(i * time_.step, time_.decimals), axis_type,
                         Anchor::middle);
        }
        sheet_.write({8, 18}, "fall of the level, " + units::printed(unit(system_)), axis_type);
        sheet_.write({plot.right, plot.bottom + 53}, in_days_ ? "days" : "hours", axis_type, Anchor::end);
    }

    /// Below the picture, from mark to mark: where the pump ran, and where the fill was open.
    void states()
    {
        bool pump = false, fill = false;
        for (std::size_t i = 0; i < level_.record.stretches.size(); ++i)
        {
            auto const& s = level_.record.stretches[i];
            double const from = at(read_[i].time, 0).x, to = at(read_[i + 1].time, 0).x;
            if (s.pump && s.pump->value() > 0)
            {
                sheet_.line({from, plot.bottom + 10}, {to, plot.bottom + 10}, "line");
                pump = true;
            }
            if (s.fill != level::FillState::shut || s.filled)
            {
                sheet_.line({from, plot.bottom + 16}, {to, plot.bottom + 16}, "line broken");
                fill = true;
            }
        }
        std::string const names =
            std::string(pump ? "bar: pump on" : "") + (pump && fill ? "; " : "") + (fill ? "dots: water let in" : "");
        if (!names.empty())
            sheet_.write({8, plot.bottom + 53}, names, axis_type);
    }

    void mark(Stood const& s)
    {
        Spot const top = at(s.time, s.high), foot = at(s.time, s.low);
        sheet_.line(top, foot, "edge");
        for (Spot const end : {top, foot})
            sheet_.line({end.x - 4, end.y}, {end.x + 4, end.y}, "edge");
        sheet_.circle(at(s.time, s.fall), 3.5, "solid");
        labels_.keep_off(Box{top.x - 5, top.y - 2, top.x + 5, foot.y + 2});
    }

    void label(std::string const& text, std::vector<Spot> const& of, Lettering const& type)
    {
        write_label(sheet_, labels_, text, of, type);
    }
};

} // namespace

Drawing level_drawing(assess::LevelEntry const& level, units::System system, std::string const& id)
{
    Drawing out;
    if (level.record.marks.size() < 2 || level.balance.foretold.size() != level.record.marks.size())
        return out;
    auto const shown = [&](units::Measured<units::Length> const& m)
    {
        return glued(units::show_with_doubt(Measure::length, units::in_si(m.value), units::in_si(m.doubt),
                                            {system, "in", "mm"}));
    };
    out.in_words = {"At the last mark the level had fallen " + shown(level.record.marks.back().fall) +
                    "; without a leak it would have fallen " + shown(level.balance.foretold.back().fall) + "."};
    out.svg = LevelPicture(level, system, id).drawn(out.in_words);
    out.caption =
        "The level as it was read, with the doubt of each mark, and what evaporation, use and rain alone would "
        "have done, with the doubt of that.";
    return out;
}

} // namespace padwalk::report
