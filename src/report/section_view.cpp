#include "section_view.hpp"

#include "section_words.hpp"
#include "wording.hpp"

#include "padwalk/units/definitions.hpp"
#include "padwalk/units/print.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::report
{
namespace
{

using units::Measure;
using visit::FittingKind;

constexpr std::size_t most_shown = 20, many = 10;

std::string_view unit(units::System system)
{
    return system == units::System::us ? "in" : "cm";
}

ShownFitting shown(assess::LevelEntry const& level, std::size_t i, units::System system)
{
    auto const& entry = level.fittings[i];
    ShownFitting out;
    out.kind = entry.kind;
    out.name = entry.place.name;
    out.depth = depth_in(entry.place.depth.value, system);
    out.reach = units::coverage * depth_in(entry.place.depth.doubt, system);
    out.depth_text = depth_text(entry.place.depth, system);
    if (!level.settling || i >= level.settling->fittings.size())
        return out;
    auto const& odds = level.settling->fittings;
    out.chance_text = percent(odds[i].chance.value());
    out.likeliest = is_likeliest(odds[i]);
    return out;
}

/// From the top, drains last; where there are too many, the likeliest of them.
std::vector<ShownFitting> shown_fittings(assess::LevelEntry const& level, units::System system)
{
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < level.fittings.size(); ++i)
        order.push_back(i);
    if (order.size() > most_shown)
    {
        auto const weight = [&](std::size_t i)
        { return level.settling ? level.settling->fittings.at(i).chance.value() : 0.0; };
        std::stable_sort(order.begin(), order.end(),
                         [&](std::size_t a, std::size_t b) { return weight(a) > weight(b); });
        order.resize(most_shown);
    }
    std::vector<ShownFitting> out;
    for (std::size_t const i : order)
        out.push_back(shown(level, i, system));
    std::stable_sort(out.begin(), out.end(),
                     [](auto const& a, auto const& b)
                     {
                         bool const floor_a = a.kind == FittingKind::drain, floor_b = b.kind == FittingKind::drain;
                         return floor_a != floor_b ? floor_b : a.depth < b.depth;
                     });
    return out;
}

/// Sets which fittings stand to scale, and gives how far the scale goes. What lies far deeper than all above it would
/// press the levels into a line.
double scale_reach(assess::LevelEntry const& level, std::vector<ShownFitting>& fittings, units::System system)
{
    constexpr double next = 3, in_all = 6; // times as deep; judgement
    double const usual = depth_in(units::of_si<units::Length>(0.1), system);
    auto const& last = level.record.marks[level.last_mark].fall;
    double const first = std::max(usual, depth_in(last.value + last.doubt * units::coverage, system));
    double reach = first;
    for (auto& f : fittings)
    {
        f.to_scale = f.kind != FittingKind::drain && f.depth <= next * reach && f.depth <= in_all * first;
        if (f.to_scale)
            reach = std::max(reach, f.depth + f.reach);
    }
    if (shows_stop(level))
        if (double const stop = depth_in(level.settling->high, system); stop <= next * reach)
            reach = std::max(reach, stop);
    return reach;
}

/// Tops of boxes below each other without meeting, as near as can be to where they are wanted, by least squares:
/// measured less all that stands above, the wanted places need only not fall (pooled means).
std::vector<double> stacked(std::vector<double> const& wanted, std::vector<double> const& heights, double top,
                            double bottom)
{
    struct Pool
    {
        double sum;
        std::size_t count;
        [[nodiscard]] double mean() const { return sum / static_cast<double>(count); }
    };
    std::vector<Pool> pools;
    double above = 0;
    for (std::size_t i = 0; i < wanted.size(); ++i)
    {
        pools.push_back({wanted[i] - above, 1});
        above += heights[i];
        while (pools.size() > 1 && pools[pools.size() - 2].mean() > pools.back().mean())
        {
            auto const last = pools.back();
            pools.pop_back();
            pools.back().sum += last.sum, pools.back().count += last.count;
        }
    }
    double const lowest = std::max(top, bottom - above);
    std::vector<double> out;
    above = 0;
    for (auto const& pool : pools)
        for (std::size_t k = 0; k < pool.count; ++k)
        {
            out.push_back(std::clamp(pool.mean(), top, lowest) + above);
            above += heights[out.size() - 1];
        }
    return out;
}

double label_height(ShownFitting const& f)
{
    constexpr double gap = 5;
    return static_cast<double>(f.name_lines.size()) * name_type.line_height() +
           static_cast<double>(f.figure_lines.size()) * figure_type.line_height() + gap;
}

void letter(std::vector<ShownFitting>& fittings)
{
    using Sheet = SectionSheet;
    std::size_t const lines = fittings.size() > many ? 1 : 2;
    for (auto& f : fittings)
    {
        f.name_lines = lines_within(f.name, Sheet::right - Sheet::label, f.likeliest ? likely_type : name_type, lines);
        f.figure_lines = lines_within(f.depth_text + (f.chance_text.empty() ? "" : ", " + f.chance_text),
                                      Sheet::right - Sheet::label, figure_type);
    }
}

void lay_below_break(SectionView& view)
{
    double const step = view.fittings.size() > many ? 16 : 26;
    double y = view.break_at + 8;
    for (auto& f : view.fittings)
        if (!f.to_scale && f.kind != FittingKind::drain)
            f.y = (y += step);
    view.floor = y + 34;
    for (auto& f : view.fittings)
        if (f.kind == FittingKind::drain)
            f.y = view.floor;
}

void lay_labels(SectionView& view)
{
    std::vector<double> wanted, heights;
    for (auto const& f : view.fittings)
    {
        wanted.push_back(f.y - 0.6 * name_type.line_height());
        heights.push_back(label_height(f));
    }
    auto const tops = stacked(wanted, heights, SectionSheet::labels_top, view.floor + 24);
    for (std::size_t i = 0; i < tops.size(); ++i)
        view.fittings[i].label_top = tops[i];
    constexpr double slab = 22;
    view.bottom = std::max(view.floor + slab, tops.empty() ? 0.0 : tops.back() + heights.back());
}

} // namespace

double SectionView::at(double depth) const
{
    double const part = (depth - axis.start) / (axis.end - axis.start);
    return SectionSheet::scale_top + (axis_bottom - SectionSheet::scale_top) * std::clamp(part, 0.0, 1.0);
}

bool is_likeliest(level::FittingOdds const& odds)
{
    return odds.chance.value() > 0.5;
}

double depth_in(units::Length depth, units::System system)
{
    return units::in_unit(Measure::length, units::in_si(depth), unit(system));
}

SectionView section_view(assess::LevelEntry const& level, units::System system)
{
    SectionView view;
    view.fittings = shown_fittings(level, system);
    view.left_out = level.fittings.size() - view.fittings.size();
    letter(view.fittings);
    double const reach = scale_reach(level, view.fittings, system);
    double highest = std::min(0.0, depth_in(level.record.marks[level.last_mark].fall.value, system));
    double beside = 0, tall = 250;
    for (auto const& f : view.fittings)
    {
        highest = std::min(highest, f.depth);
        beside += f.to_scale ? label_height(f) : 0.0;
    }
    constexpr double below = 0.12; // room for the names of levels
    view.axis = axis_between(highest, reach + below * (reach - highest), 6);
    view.axis_bottom = SectionSheet::scale_top + std::max(tall, beside - 20);
    view.break_at = view.axis_bottom + 16;
    lay_below_break(view);
    for (auto& f : view.fittings)
        if (f.to_scale)
            f.y = view.at(f.depth);
    lay_labels(view);
    return view;
}

} // namespace padwalk::report
