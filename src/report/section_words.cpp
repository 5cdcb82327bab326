#include "section_words.hpp"

#include "plain.hpp"
#include "section_view.hpp"
#include "wording.hpp"

#include "padwalk/units/print.hpp"

#include <cmath>

namespace padwalk::report
{

using assess::LevelTrend;
using units::Measure;

namespace
{

/// 'fell 0.30 ± 0.18 in'
std::string went(units::Measured<units::Length> down, std::string const& fell, std::string const& rose,
                 units::System system)
{
    bool const up = units::in_si(down.value) < 0;
    if (up)
        down.value = -down.value;
    return (up ? rose : fell) + depth_with_doubt(down, system);
}

} // namespace

std::string depth_with_doubt(units::Measured<units::Length> const& m, units::System system)
{
    return glued(
        units::show_with_doubt(Measure::length, units::in_si(m.value), units::in_si(m.doubt), {system, "in", "cm"}));
}

std::string stop_text(level::Settling const& s, units::System system)
{
    double const low = depth_in(s.low, system), high = depth_in(s.high, system);
    bool const us = system == units::System::us;
    int const decimals = us && high - low < 1 ? 2 : high - low < 10 ? 1 : 0;
    return units::show_number(low, decimals) + " to " +
           glued(units::show_number(high, decimals) + (us ? " in" : " cm"));
}

bool shows_stop(assess::LevelEntry const& level)
{
    constexpr double hardly = -3; // log odds: one in twenty
    return level.settling && level.settling->log_stops > hardly;
}

std::string trend_sentence(assess::LevelEntry const& level, units::System system)
{
    if (!level.course)
        return "Still falling or stopped: not known, as water came in before the last mark.";
    auto const& c = *level.course;
    double const time = units::in_si(c.time);
    std::string const lately = glued(units::show(Measure::duration, time, 0.05 * time, {system, "h", "h"}));
    std::string const fell = "in the last " + lately + " it " + went(c.fall, "fell ", "rose ", system) +
                             "; without a leak it would have " + went(c.without_leak, "fallen ", "risen ", system) +
                             ".";
    switch (c.trend)
    {
    case LevelTrend::falling: return "Still falling: " + fell;
    case LevelTrend::stopped: return "Stopped, but for what evaporates: " + fell;
    case LevelTrend::no_loss: return "No loss beyond evaporation was shown: " + fell;
    case LevelTrend::unclear: break;
    }
    return "Still falling or stopped: can't be told; " + fell;
}

std::string chances_sentence(assess::LevelEntry const& level)
{
    if (!level.settling)
        return "How likely each is takes three marks or more.";
    return "Per cent: chance that the leak, if there is one, is there. Elsewhere: " +
           glued(percent(level.settling->elsewhere.chance.value())) +
           ". Never stopping: " + glued(percent(level.settling->never.chance.value())) + ".";
}

std::string depth_text(units::Measured<units::Length> const& depth, units::System system)
{
    double const si = units::in_si(depth.value);
    return units::show(Measure::length, std::abs(si), units::in_si(depth.doubt), {system, "in", "cm"}) +
           (si < 0 ? " above" : "");
}

std::vector<std::string> section_in_words(assess::LevelEntry const& level, units::System system)
{
    std::vector<std::string> places;
    for (std::size_t i = 0; i < level.fittings.size(); ++i)
    {
        auto const& f = level.fittings[i];
        std::string text = f.place.name + " " + glued(depth_text(f.place.depth, system));
        if (level.settling && i < level.settling->fittings.size())
            text += " (" + glued(percent(level.settling->fittings[i].chance.value())) + ")";
        places.push_back(std::move(text));
    }
    std::vector<std::string> out{trend_sentence(level, system)};
    if (shows_stop(level))
        out.push_back("If there is a leak that stops, it does at " + stop_text(*level.settling, system) +
                      " below the first mark, 19 times in 20.");
    else if (level.settling)
        out.emplace_back("The marks speak against a leak that stops at a depth.");
    out.push_back("Below the first mark: " + joined(places) + ".");
    return out;
}

} // namespace padwalk::report
