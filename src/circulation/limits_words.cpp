// Figures beside the published limits, in words.
#include "padwalk/circulation/limits.hpp"
#include "padwalk/units/print.hpp"

namespace padwalk::circulation
{
namespace
{

constexpr double rounding = 1e-9; // a figure just at its limit keeps it

std::string shown(units::Measure measure, double si, std::string_view unit)
{
    return units::show(measure, si, 0, {units::System::us, unit, {}});
}

std::string shown(units::Duration time)
{
    bool const short_time = time < units::of_si<units::Duration>(3600);
    return shown(units::Measure::duration, units::in_si(time), short_time ? "min" : "h");
}

// 'where: limit (kept)', and whether it is from memory.
void append(std::string& out, std::string const& where, std::string const& limit, std::string const& kept,
            reference::Cited const& source)
{
    out += (out.empty() ? "" : "; ") + where + ": " + limit + " (" + kept +
           (source.seen == reference::Seen::memory ? ", from memory)" : ")");
}

std::string kept(bool within)
{
    return within ? "kept" : "not kept";
}

// An energy rule: no faster than `shortest`, unless the flow is small.
void append_shortest(std::string& out, TurnoverLimit const& limit, units::Duration turnover, units::VolumeFlow flow)
{
    bool const slow = units::in_si(turnover) >= units::in_si(*limit.shortest) * (1 - rounding);
    bool const small =
        limit.flow_always_allowed && units::in_si(flow) <= units::in_si(*limit.flow_always_allowed) * (1 + rounding);
    std::string text = "no faster than " + shown(*limit.shortest);
    if (limit.flow_always_allowed)
        text += ", or " + shown(units::Measure::volume_flow, units::in_si(*limit.flow_always_allowed), "gpm") +
                " where that is more";
    append(out, limit.where, text, kept(slow || small), limit.source);
}

} // namespace

std::string turnover_in_words(units::Duration turnover, WaterKind water, std::optional<units::Length> mean_depth,
                              units::VolumeFlow flow, std::vector<TurnoverLimit> const& limits)
{
    std::string out;
    for (auto const& limit : limits)
    {
        if (limit.water != water)
            continue;
        if (limit.shortest)
            append_shortest(out, limit, turnover, flow);
        if (auto const longest = longest_turnover(limit, mean_depth))
            append(out, limit.where, "at most " + shown(*longest),
                   kept(units::in_si(turnover) <= units::in_si(*longest) * (1 + rounding)), limit.source);
        else if (limit.longest_per_foot)
            append(out, limit.where, "goes by the mean depth", "not given", limit.source);
    }
    return out;
}

std::string velocity_in_words(units::Velocity velocity, PipeSide side, std::vector<VelocityLimit> const& limits)
{
    std::string out;
    for (auto const& limit : limits)
    {
        auto const most = side == PipeSide::suction     ? limit.suction
                          : side == PipeSide::discharge ? limit.discharge
                                                        : limit.copper;
        if (most)
            append(out, limit.where, shown(units::Measure::velocity, units::in_si(*most), "ft/s"),
                   kept(units::in_si(velocity) <= units::in_si(*most) * (1 + rounding)), limit.source);
    }
    return out;
}

std::string filter_rate_in_words(units::Velocity rate, FilterMedium medium, std::vector<FilterRateLimit> const& limits)
{
    std::string out;
    for (auto const& limit : limits)
        if (limit.medium == medium)
            append(out, limit.where + ", " + limit.kind,
                   shown(units::Measure::velocity, units::in_si(limit.greatest()), "gpm/ft2"),
                   kept(units::in_si(rate) <= units::in_si(limit.greatest()) * (1 + rounding)), limit.source);
    return out;
}

} // namespace padwalk::circulation
