#include "warming_drawing.hpp"

#include "axis.hpp"
#include "label_places.hpp"
#include "plain.hpp"

#include "padwalk/units/print.hpp"
#include "padwalk/units/unit_table.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::report
{
namespace
{

using units::Measure;
using Points = std::vector<heating::HeatUpPoint>;

constexpr double sheet_width = 360, sheet_height = 330;
constexpr Box plot{40, 34, 346, 282};
constexpr Lettering axis_type{12, false, "word quiet"};
constexpr Lettering word_type{12.5, false, "word haloed"};
constexpr Lettering strong_type{12.5, true, "word haloed"};
constexpr Lettering alert_type{12.5, true, "word alert haloed"};

/// A point in the units of the axes.
struct Reached
{
    double time = 0.0, degrees = 0.0;
};

std::string_view degree(units::System system)
{
    return system == units::System::us ? "degF" : "degC";
}

double degrees(units::Temperature t, units::System system)
{
    return units::in_unit(Measure::temperature, units::in_si(t), degree(system));
}

std::string shown(units::Temperature t, units::System system)
{
    constexpr double as_read = 1.0; // K: no more digits than a thermometer has
    return glued(units::show(Measure::temperature, units::in_si(t), as_read, {system, {}, {}}));
}

std::string shown(units::Duration t, units::System system)
{
    constexpr double as_told = 0.05; // of it: no more digits than anyone waits by
    return glued(units::show(Measure::duration, units::in_si(t), as_told * units::in_si(t), {system, "h", "h"}));
}

class WarmingPicture
{
public:
    WarmingPicture(assess::WarmingEntry const& warming, units::System system, std::string id)
        : warming_(warming), system_(system), sheet_(std::move(id), sheet_width),
          labels_({plot.left + 4, plot.top, plot.right - 2, plot.bottom - 4})
    {
        likely_ = in_units(warming.likely), fast_ = in_units(warming.fast), slow_ = in_units(warming.slow);
        constexpr double beyond = 1.35; // as much of the slow run as this lets in, in the likely one's time
        double const own = longest(likely_);
        double const end = std::max({own, longest(fast_), std::min(longest(slow_), beyond * own)});
        // Days where hours would be too many to read.
        constexpr double many = 96, hours_a_day = 24;
        if (in_days_ = end > many; in_days_)
            for (auto* run : {&likely_, &fast_, &slow_})
                for (auto& point : *run)
                    point.time /= hours_a_day;
        time_ = axis_between(0, in_days_ ? end / hours_a_day : end, 5);
        degrees_ = degree_axis();
    }

    [[nodiscard]] std::string drawn(std::string const& title, std::vector<std::string> const& says)
    {
        band();
        axes();
        auto const wanted = level(warming_.to, "edge broken");
        std::vector<Spot> stops;
        if (warming_.stops_at)
            stops = level(*warming_.stops_at, "edge alert broken");
        auto const line = spots_of(likely_);
        sheet_.curve(line, "line");
        labels_.keep_off(filled_in(line, 4));
        auto const start = start_mark();
        label("now " + shown(warming_.from, system_), start, strong_type);
        if (warming_.stops_at)
            label("stops at about " + shown(*warming_.stops_at, system_), stops, alert_type);
        else
            label("likely after " + shown(warming_.likely.back().time, system_), end_mark(), strong_type);
        label("wanted " + shown(warming_.to, system_), wanted, word_type);
        name_edges();
        return sheet_.svg(sheet_height, title, says);
    }

private:
    assess::WarmingEntry const& warming_;
    units::System system_;
    SvgSheet sheet_;
    LabelPlaces labels_;
    std::vector<Reached> likely_, fast_, slow_;
    Axis time_, degrees_;
    bool in_days_ = false;

    [[nodiscard]] std::vector<Reached> in_units(Points const& points) const
    {
        std::vector<Reached> out;
        for (auto const& point : points)
        {
            Reached const r{units::in_unit(Measure::duration, units::in_si(point.time), "h"),
                            degrees(point.water, system_)};
            if (std::isfinite(r.time) && std::isfinite(r.degrees))
                out.push_back(r);
        }
        return out;
    }
    static double longest(std::vector<Reached> const& run) { return run.empty() ? 0.0 : run.back().time; }

    [[nodiscard]] Axis degree_axis() const
    {
        double low = degrees(warming_.from, system_), high = degrees(warming_.to, system_);
        for (auto const* run : {&likely_, &fast_, &slow_})
            for (auto const& point : *run)
                if (point.time <= time_.end)
                    low = std::min(low, point.degrees), high = std::max(high, point.degrees);
        double const room = 0.14 * (high - low); // above and below, for names
        return axis_between(low - room, high + room, 6);
    }

    [[nodiscard]] Spot at(double time, double warm) const
    {
        return {plot.left + (plot.right - plot.left) * time / time_.end,
                plot.bottom - (plot.bottom - plot.top) * (warm - degrees_.start) / (degrees_.end - degrees_.start)};
    }
    [[nodiscard]] static Spot inside(Spot s)
    {
        return {std::clamp(s.x, plot.left, plot.right), std::clamp(s.y, plot.top, plot.bottom)};
    }

    // As far as it lies on the paper.
    [[nodiscard]] std::vector<Reached> cut(std::vector<Reached> const& run, double end) const
    {
        std::vector<Reached> out;
        for (auto const& point : run)
        {
            if (point.time <= end || out.empty())
            {
                out.push_back(point);
                continue;
            }
            Reached const before = out.back();
            double const share = (end - before.time) / (point.time - before.time);
            out.push_back({end, before.degrees + share * (point.degrees - before.degrees)});
            break;
        }
        return out;
    }
    [[nodiscard]] std::vector<Spot> spots_of(std::vector<Reached> const& run) const
    {
        std::vector<Spot> out;
        for (auto const& point : cut(run, time_.end))
            out.push_back(inside(at(point.time, point.degrees)));
        return out;
    }

    // Between the fast and the slow run; a run that has ended goes on level until the other has.
    void band()
    {
        if (fast_.size() < 2 || slow_.size() < 2)
            return;
        double const to = degrees(warming_.to, system_);
        auto const arrives = [to](std::vector<Reached> const& run) { return run.back().degrees >= to - 0.01; };
        double const end = arrives(fast_) && arrives(slow_)
                               ? std::min(time_.end, std::max(longest(fast_), longest(slow_)))
                               : time_.end;
        std::vector<Spot> outline;
        auto const add = [&](std::vector<Reached> run)
        {
            run = cut(run, end);
            run.push_back({end, run.back().degrees});
            std::vector<Spot> edge;
            for (auto const& point : run)
                edge.push_back(inside(at(point.time, point.degrees)));
            return edge;
        };
        outline = add(fast_);
        auto const slow = add(slow_);
        outline.insert(outline.end(), slow.rbegin(), slow.rend());
        sheet_.area(outline, "band", Layer::ground);
        for (auto const* run : {&fast_, &slow_})
        {
            auto const edge = spots_of(*run);
            sheet_.curve(edge, "fine", Layer::ground);
            labels_.keep_off(filled_in(edge, 4));
        }
    }

    void name_edges()
    {
        if (fast_.size() < 2 || slow_.size() < 2)
            return;
        constexpr std::size_t from_end = 3; // a run's names crowd where it meets the others
        for (auto const& [run, name] : {std::pair{&fast_, "fast"}, std::pair{&slow_, "slow"}})
        {
            auto edge = filled_in(spots_of(*run), 8);
            if (edge.size() > 2 * from_end)
                edge.erase(edge.begin(), edge.begin() + static_cast<std::ptrdiff_t>(edge.size() / from_end));
            label(name, edge, axis_type);
        }
    }

    void axes()
    {
        int const rows = static_cast<int>(std::lround((degrees_.end - degrees_.start) / degrees_.step));
        for (int i = 0; i <= rows; ++i)
        {
            double const value = degrees_.start + i * degrees_.step;
            Spot const tick = at(0, value);
            sheet_.line(tick, {plot.right, tick.y}, i == 0 ? "edge" : "grid", Layer::ground);
            sheet_.write({plot.left - 6, tick.y + 4}, units::show_number(value, degrees_.decimals), axis_type,
                         Anchor::end);
        }
        int const columns = static_cast<int>(std::lround(time_.end / time_.step));
        for (int i = 0; i <= columns; ++i)
        {
            Spot const tick = at(i * time_.step, degrees_.start);
            sheet_.line(tick, {tick.x, i == 0 ? plot.top : plot.bottom + 5}, "edge", Layer::ground);
            sheet_.write({tick.x, plot.bottom + 19}, units::show_number(i * time_.step, time_.decimals), axis_type,
                         Anchor::middle);
        }
        sheet_.write({8, 18}, "water, " + units::printed(degree(system_)), axis_type);
        sheet_.write({plot.right, plot.bottom + 37}, in_days_ ? "days of heating" : "hours of heating", axis_type,
                     Anchor::end);
    }

    std::vector<Spot> level(units::Temperature t, std::string_view kind)
    {
        double const y = inside(at(0, degrees(t, system_))).y;
        std::vector<Spot> const line{{plot.left, y}, {plot.right, y}};
        sheet_.curve(line, kind);
        auto spots = filled_in(line, 4);
        labels_.keep_off(spots);
        return spots;
    }

    std::vector<Spot> start_mark()
    {
        Spot const s = inside(at(0, degrees(warming_.from, system_)));
        sheet_.circle(s, 4.5, "part");
        labels_.keep_off(Box{s.x - 5, s.y - 5, s.x + 5, s.y + 5});
        return {s};
    }

    std::vector<Spot> end_mark()
    {
        Spot const s = inside(at(likely_.back().time, likely_.back().degrees));
        sheet_.circle(s, 4.5, "solid");
        labels_.keep_off(Box{s.x - 5, s.y - 5, s.x + 5, s.y + 5});
        return {s};
    }

    void label(std::string const& text, std::vector<Spot> const& of, Lettering const& type)
    {
        write_label(sheet_, labels_, text, of, type);
    }
};

// A few points of the likely run, and between which times it gets there.
std::vector<std::string> run_in_words(assess::WarmingEntry const& w, units::System system)
{
    std::vector<std::string> out;
    auto const& run = w.likely;
    std::string text = "Likely: " + shown(run.front().water, system) + " now";
    for (std::size_t const part : {2U, 4U})
    {
        auto const& point = run[(run.size() - 1) * part / 4];
        text += ", " + shown(point.water, system) + " after " + shown(point.time, system);
    }
    out.push_back(text + (w.stops_at ? ", and never more than " + shown(*w.stops_at, system) + "." : "."));
    auto const end = [&](Points const& points, char const* name)
    {
        if (points.size() > 1)
            out.push_back(std::string(name) + ": " + shown(points.back().water, system) + " after " +
                          shown(points.back().time, system) + ".");
    };
    end(w.fast, "Where all that is not known speeds it up");
    end(w.slow, "Where it slows it down");
    return out;
}

} // namespace

Drawing warming_drawing(assess::Assessment const& a, assess::WarmingEntry const& warming, units::System system,
                        std::string const& id)
{
    Drawing out;
    auto const whole = [](heating::HeatUpPoint const& p)
    { return std::isfinite(units::in_si(p.time)) && std::isfinite(units::in_si(p.water)); };
    if (warming.likely.size() < 2 || !std::all_of(warming.likely.begin(), warming.likely.end(), whole) ||
        !std::isfinite(units::in_si(warming.from)) || !std::isfinite(units::in_si(warming.to)))
        return out;
    out.in_words = run_in_words(warming, system);
    std::string const water =
        warming.water < a.items.size() && warming.water > 0 ? a.items[warming.water].name : std::string("the water");
    out.svg = WarmingPicture(warming, system, id).drawn("Heat-up of " + water, out.in_words);
    out.caption = "The water's temperature while the heater runs at full input." +
                  std::string(warming.fast.empty() || warming.slow.empty()
                                  ? ""
                                  : " The shaded part is where it may run, 19 times in 20.") +
                  (warming.shortest ? " Losses are left out, so it takes longer than this." : "");
    return out;
}

} // namespace padwalk::report
