/// A small picture of one reading over the dates of a log.

#include "history_drawing.hpp"

#include "axis.hpp"
#include "change_words.hpp"
#include "label_places.hpp"
#include "plain.hpp"
#include "wording.hpp"

#include "padwalk/units/print.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::report
{
namespace
{

using assess::BandSide;
using assess::HistoryPoint;

constexpr double sheet_width = 360, sheet_height = 224;
constexpr double plot_top = 52, plot_bottom = 188, plot_right = 348;
constexpr double from_edge = 10; ///< of the first and the last date
constexpr Lettering axis_type{12, false, "word quiet"};
constexpr Lettering word_type{12, false, "word haloed"};
constexpr Lettering mark_type{12, true, "word"};

class HistoryPicture
{
public:
    HistoryPicture(assess::PropertyLog const& log, assess::Series const& series, units::System system, std::string id)
        : log_(log), series_(series), sheet_(std::move(id), sheet_width)
    {
        style_ = series.shape != nullptr ? series.shape->style(system) : units::Style{system, {}, {}};
        double largest = 0.0;
        for (auto const& point : series.points)
            largest = std::abs(point.value) > std::abs(largest) ? point.value : largest;
        unit_ = units::unit_for(series.measure, largest, style_);
        first_ = series.points.front().at.hours;
        last_ = series.points.back().at.hours;
        for (auto const& visit : log.visits)
            if (visit.on)
                first_ = std::min(first_, visit.on->hours), last_ = std::max(last_, visit.on->hours);
        values_ = value_axis();
        double widest = 0.0;
        for (int i = 0; i <= values_.steps(); ++i)
            widest = std::max(widest, text_width(tick_text(i), axis_type));
        left_ = std::max(34.0, widest + 12);
    }

    [[nodiscard]] std::string drawn(std::string const& title, std::vector<std::string> const& says,
                                    std::vector<std::pair<std::size_t, std::size_t>> const& marks)
    {
        LabelPlaces labels({left_ + 4, plot_top, plot_right - 2, plot_bottom - 3});
        auto const edges = band();
        axes();
        happened(marks, labels);
        for (auto const& point : series_.points)
            labels.keep_off(room_of(point));
        course(labels);
        trend(labels);
        for (auto const& point : series_.points)
            value(point);
        if (!edges.empty())
            write_label(sheet_, labels, "wanted", edges, word_type);
        return sheet_.svg(sheet_height, title, says);
    }

private:
    assess::PropertyLog const& log_;
    assess::Series const& series_;
    units::Style style_;
    std::string_view unit_;
    SvgSheet sheet_;
    Axis values_;
    double first_ = 0.0, last_ = 1.0, left_ = 40;

    [[nodiscard]] double told(double si) const { return units::in_unit(series_.measure, si, unit_); }

    // The wanted range counts as far as it does not flatten the values.
    [[nodiscard]] Axis value_axis() const
    {
        double low = 0.0, high = 0.0;
        bool first = true;
        for (auto const& point : series_.points)
        {
            double const doubt = units::coverage * point.doubt;
            low = first ? told(point.value - doubt) : std::min(low, told(point.value - doubt));
            high = first ? told(point.value + doubt) : std::max(high, told(point.value + doubt));
            first = false;
        }
        if (series_.band)
        {
            double const room = 2 * (high - low);
            double const from = low, to = high;
            for (auto const& end : {series_.band->low, series_.band->high})
                if (end && told(*end) >= from - room && told(*end) <= to + room)
                    low = std::min(low, told(*end)), high = std::max(high, told(*end));
        }
        double const margin = 0.06 * (high - low);
        return axis_between(low - margin, high + margin, 4);
    }

    [[nodiscard]] std::string tick_text(int i) const
    {
        return units::show_number(values_.start + i * values_.step, values_.decimals);
    }
    [[nodiscard]] double x(double hours) const
    {
        double const share = last_ > first_ ? (hours - first_) / (last_ - first_) : 0.5;
        return left_ + from_edge + (plot_right - left_ - 2 * from_edge) * share;
    }
    [[nodiscard]] double y(double number) const
    {
        double const share = (number - values_.start) / (values_.end - values_.start);
        return std::clamp(plot_bottom - (plot_bottom - plot_top) * share, plot_top, plot_bottom);
    }

    // The edges that lie on the paper, for its name.
    std::vector<Spot> band()
    {
        std::vector<Spot> edges;
        if (!series_.band)
            return edges;
        double const top = series_.band->high ? y(told(*series_.band->high)) : plot_top;
        double const bottom = series_.band->low ? y(told(*series_.band->low)) : plot_bottom;
        if (bottom - top < 1)
            return edges;
        sheet_.rectangle({left_, top, plot_right, bottom}, 0, "band", Layer::ground);
        for (auto const& [there, at] :
             {std::pair{series_.band->high.has_value(), top}, std::pair{series_.band->low.has_value(), bottom}})
            if (there && at > plot_top && at < plot_bottom)
                sheet_.line({left_, at}, {plot_right, at}, "fine", Layer::ground);
        for (double const at : {top + 9, bottom - 9})
            for (auto const& spot : filled_in({{left_ + 30, at}, {plot_right - 30, at}}, 12))
                edges.push_back(spot);
        return edges;
    }

    void axes()
    {
        for (int i = 0; i <= values_.steps(); ++i)
        {
            double const at = y(values_.start + i * values_.step);
            sheet_.line({left_, at}, {plot_right, at}, i == 0 ? "edge" : "grid", Layer::ground);
            sheet_.write({left_ - 6, at + 4}, tick_text(i), axis_type, Anchor::end);
        }
        for (auto const& visit : log_.visits)
            if (visit.on)
                sheet_.line({x(visit.on->hours), plot_bottom}, {x(visit.on->hours), plot_bottom + 5}, "edge",
                            Layer::ground);
        sheet_.write({left_, plot_bottom + 20}, day(first_, true), axis_type);
        if (last_ > first_)
            sheet_.write({plot_right, plot_bottom + 20}, day(last_, false), axis_type, Anchor::end);
        std::string told_in(units::printed(unit_));
        if (auto const basis = units::info(series_.measure).basis; !basis.empty())
            told_in += (told_in.empty() ? "as " : " as ") + std::string(basis);
        if (!told_in.empty())
            sheet_.write({8, 16}, "in " + told_in, axis_type);
    }

    [[nodiscard]] std::string day(double hours, bool earliest) const
    {
        constexpr std::size_t date = 10; // '2026-05-14'
        for (auto const& visit : log_.visits)
            if (visit.on && visit.on->hours == hours)
                return visit.on->text.substr(0, date);
        auto const& point = earliest ? series_.points.front() : series_.points.back();
        return point.at.text.substr(0, date);
    }

    // Numbers that would touch become a range.
    void happened(std::vector<std::pair<std::size_t, std::size_t>> const& marks, LabelPlaces& labels)
    {
        struct Group
        {
            std::size_t from, to;
            double left, right;
        };
        std::vector<Group> groups;
        for (auto const& [number, visit] : marks)
        {
            double const at = x(log_.visits[visit].on->hours);
            sheet_.line({at, plot_top - 8}, {at, plot_bottom}, "fine broken", Layer::ground);
            labels.keep_off(filled_in({{at, plot_top}, {at, plot_bottom}}, 8));
            double const half = text_width(std::to_string(number), mark_type) / 2 + 3;
            if (!groups.empty() && at - half < groups.back().right + 8)
                groups.back().to = number, groups.back().right = at + half;
            else
                groups.push_back({number, number, at - half, at + half});
        }
        for (auto const& group : groups)
        {
            std::string const text = group.from == group.to
                                         ? std::to_string(group.from)
                                         : std::to_string(group.from) + "–" + std::to_string(group.to);
            double const half = text_width(text, mark_type) / 2;
            double const middle = std::clamp((group.left + group.right) / 2, half + 2, sheet_width - half - 2);
            sheet_.write({middle, plot_top - 13}, text, mark_type, Anchor::middle);
        }
    }

    // From value to value, broken where a visit between them has none.
    void course(LabelPlaces& labels)
    {
        for (std::size_t i = 1; i < series_.points.size(); ++i)
        {
            auto const &before = series_.points[i - 1], &after = series_.points[i];
            bool const gap = std::any_of(series_.gaps.begin(), series_.gaps.end(),
                                         [&](std::size_t visit)
                                         {
                                             double const at = log_.visits[visit].on->hours;
                                             return at > before.at.hours && at < after.at.hours;
                                         });
            if (gap)
                continue;
            std::vector<Spot> const line{{x(before.at.hours), y(told(before.value))},
                                         {x(after.at.hours), y(told(after.value))}};
            sheet_.curve(line, "line taken");
            labels.keep_off(filled_in(line, 5));
        }
    }

    void trend(LabelPlaces& labels)
    {
        if (!series_.trend || !series_.trend->shows() || series_.points.size() < 3)
            return;
        constexpr double seconds_in_hour = 3600;
        auto const& fit = *series_.trend;
        auto const at = [&](double hours) {
            return Spot{x(hours), y(told(fit.at_centre + fit.per_second * (hours - fit.centre) * seconds_in_hour))};
        };
        std::vector<Spot> const line{at(series_.points.front().at.hours), at(series_.points.back().at.hours)};
        sheet_.curve(line, "edge broken");
        labels.keep_off(filled_in(line, 5));
        write_label(sheet_, labels, "trend", filled_in(line, 8), word_type);
    }

    [[nodiscard]] Box room_of(HistoryPoint const& point) const
    {
        constexpr double about = 5;
        Spot const at{x(point.at.hours), y(told(point.value))};
        double const doubt = units::coverage * point.doubt;
        return {at.x - about, std::min(y(told(point.value + doubt)), at.y - about), at.x + about,
                std::max(y(told(point.value - doubt)), at.y + about)};
    }

    void value(HistoryPoint const& point)
    {
        Spot const at{x(point.at.hours), y(told(point.value))};
        double const doubt = units::coverage * point.doubt;
        double const top = y(told(point.value + doubt)), bottom = y(told(point.value - doubt));
        constexpr double cap = 3.5, radius = 4;
        if (bottom - top > 2 * radius)
        {
            sheet_.line({at.x, top}, {at.x, bottom}, "edge");
            for (double const end : {top, bottom})
                sheet_.line({at.x - cap, end}, {at.x + cap, end}, "edge");
        }
        sheet_.circle(at, radius, point.side == BandSide::within ? "part" : "solid alert");
    }
};

} // namespace

std::string series_name(assess::PropertyLog const& log, assess::Series const& series)
{
    std::string const label = series.figure.empty() ? plain_name(series.label) : series.label;
    return series.item == 0 || !series.figure.empty() ? label : label + " (" + log.items.at(series.item) + ")";
}

std::string point_text(assess::Series const& series, HistoryPoint const& point, units::System system)
{
    units::Style const style = series.shape != nullptr ? series.shape->style(system) : units::Style{system, {}, {}};
    return glued(units::show_with_doubt(series.measure, point.value, point.doubt, style));
}

std::string side_in_words(assess::Series const& series, HistoryPoint const& point)
{
    if (!series.band)
        return {};
    if (point.side == BandSide::within)
        return "within";
    std::string const side = point.side == BandSide::above ? "above" : "below";
    return point.surely ? side : side + ", within its doubt";
}

std::vector<std::pair<std::size_t, std::size_t>> marks_for(assess::PropertyLog const& log, assess::Series const& series)
{
    std::vector<std::pair<std::size_t, std::size_t>> out;
    for (auto const& event : log.events)
    {
        bool const concerns = event.item == series.item || event.item == 0 || event.kind == assess::EventKind::alarm ||
                              event.kind == assess::EventKind::found;
        if (event.number > 0 && concerns && (out.empty() || out.back().first != event.number))
            out.emplace_back(event.number, event.visit);
    }
    return out;
}

Drawing history_drawing(assess::PropertyLog const& log, assess::Series const& series, units::System system,
                        std::string const& id)
{
    Drawing out;
    bool const whole =
        std::all_of(series.points.begin(), series.points.end(),
                    [](HistoryPoint const& p) { return std::isfinite(p.value) && std::isfinite(p.doubt); });
    if (series.points.size() < 2 || !whole || !(series.points.front().at.hours < series.points.back().at.hours))
        return out;
    std::vector<std::string> says;
    for (auto const& point : series.points)
    {
        std::string const side = side_in_words(series, point);
        says.push_back(point.at.text + ": " + point_text(series, point, system) + (side.empty() ? "" : ", " + side) +
                       ".");
    }
    says.push_back("Trend: " + trend_in_words(series, system) + ".");
    auto const marks = marks_for(log, series);
    out.svg = HistoryPicture(log, series, system, id)
                  .drawn(capitalised(series_name(log, series)) + " over time", says, marks);
    out.caption = capitalised(series_name(log, series)) + "; the bars are its doubt, 19 times in 20.";
    if (series.band)
        out.caption += " Wanted: " + band_in_words(series, system) + "; a filled point lies outside.";
    if (!marks.empty())
        out.caption += " The numbers are those of what happened.";
    return out;
}

} // namespace padwalk::report
