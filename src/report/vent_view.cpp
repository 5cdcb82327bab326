#include "vent_view.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::report
{
namespace
{

// What a heater is like where its size does not matter: for the eye only.
constexpr double heater_half = 0.38, heater_height = 0.9, usual_depth = 1.2;

double metres(std::optional<units::Measured<units::Length>> const& length, double otherwise)
{
    double const value = length ? units::in_si(length->value) : otherwise;
    return std::isfinite(value) ? value : otherwise;
}

/// A rule of the ground below the end, which tells where the ground is.
bool is_of_ground(venting::JudgedRule const& rule)
{
    return rule.id == "grade_above" || rule.id == "grade_new_york_city" || rule.id == "direct_vent_grade";
}

void lay_pipe(VentView& out, visit::Vent const& v)
{
    double const height = metres(v.height, 0.0), run = metres(v.run, 0.0);
    double const slope = v.slope ? v.slope->value.value() : 0.0;
    double const rise = std::isfinite(slope) ? slope * run : 0.0;
    out.pipe = {{0, 0}};
    if (run > 0)
    {
        double const before = std::clamp((height - rise) * 0.3, 0.0, std::max(0.0, height));
        if (before > 0)
            out.pipe.push_back({0, before});
        out.run_from = out.pipe.size() - 1;
        out.pipe.push_back({run, before + rise});
        if (std::abs(height - before - rise) > 1e-6)
            out.pipe.push_back({run, height});
        if (v.height && std::abs(height) > 0)
            out.taken.push_back("Where along its height the level run lies was not recorded; it is drawn low.");
        if (!v.slope)
            out.taken.push_back("The slope was not measured; the run is drawn level.");
    }
    else
    {
        out.pipe.push_back({0, height});
        out.run_from = out.pipe.size();
    }
}

void lay_ground(VentView& out, assess::VentEntry const& vent)
{
    out.heater = {-heater_half, 0, heater_half, -heater_height};
    out.ground = -heater_height;
    if (vent.in_pit)
        out.ground += metres(vent.room ? vent.room->depth : std::nullopt, usual_depth);
    bool measured = false;
    for (auto const& rule : vent.rules)
        if (is_of_ground(rule) && rule.measured && std::isfinite(rule.measured->value))
        {
            out.ground = out.end().y - rule.measured->value;
            measured = true;
        }
    out.sunk = out.ground > -heater_height + 0.05;
    out.taken.push_back("The heater's own size is not to scale.");
    if (vent.in_pit && !measured && !(vent.room && vent.room->depth))
        out.taken.push_back("The pit's depth was not measured; a usual one is drawn.");
}

void lay_roof(VentView& out, visit::Vent const& v)
{
    if (!v.above_roof)
        return;
    double const twelfths = v.roof_slope ? v.roof_slope->value.value() : 0.0;
    double const slope = std::isfinite(twelfths) ? twelfths / 12 : 0.0;
    double const at = out.end().y - metres(v.above_roof, 0.0), half = 0.8;
    out.roof = {{out.end().x - half, at - half * slope}, {out.end().x + half, at + half * slope}};
}

void lay_facing(VentView& out, assess::VentEntry const& vent)
{
    double const size = std::max({std::abs(out.end().x), std::abs(out.end().y), 1.2});
    for (auto const& rule : vent.rules)
    {
        bool const distance = rule.measured && !rule.where.empty() && rule.id != "draft_hood_rise" &&
                              rule.measured->measure == units::Measure::length && std::isfinite(rule.measured->value);
        if (!distance)
            continue;
        double const most = 1.5 * size;
        double const way = std::clamp(rule.measured->value, -most, most);
        Facing facing{&rule, out.end(), false, std::abs(rule.measured->value) > most};
        facing.level = rule.where != "upwards" && rule.where != "downwards";
        if (facing.level)
            facing.thing.x += way;
        else
            facing.thing.y += rule.where == "upwards" ? -way : way;
        out.facing.push_back(facing);
    }
}

} // namespace

std::optional<VentView> vent_view(assess::VentEntry const& vent)
{
    if (!vent.vent.height && !vent.vent.run)
        return std::nullopt;
    VentView out;
    lay_pipe(out, vent.vent);
    lay_ground(out, vent);
    lay_roof(out, vent.vent);
    lay_facing(out, vent);
    return out;
}

} // namespace padwalk::report
