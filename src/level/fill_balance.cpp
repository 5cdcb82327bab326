#include "padwalk/level/fill_balance.hpp"

#include "padwalk/figures/model.hpp"

#include <cmath>

namespace padwalk::level
{

FillSays fill_says(FillWatch const& watch, BalanceTable const& table)
{
    double const time = units::in_si(watch.elapsed);
    if (!(time > 0))
        throw figures::NotComputed("needs elapsed: the time between two looks at the level");
    if (watch.delivered && !(watch.area && *watch.area > units::Area()))
        throw figures::NotComputed("needs area: water that came in counts by volume");
    double leak = units::in_si(watch.fall.value) / time - units::in_si(watch.evaporation.value);
    double doubt = std::hypot(units::in_si(watch.fall.doubt) / time, units::in_si(watch.evaporation.doubt));
    if (watch.delivered)
    {
        double const depth = units::in_si(*watch.area) * time;
        leak += units::in_si(watch.delivered->value) / depth;
        doubt = std::hypot(doubt, units::in_si(watch.delivered->doubt) / depth);
    }
    if (!(doubt > 0))
        throw figures::NotComputed("a level that was read has a doubt above zero");
    FillSays out;
    out.leak = {units::of_si<units::Velocity>(leak), units::of_si<units::Velocity>(doubt), "computed"};
    out.rate = leak_rate({{0.0, leak, doubt, std::nullopt}});
    out.odds = leak_odds(out.leak, table);
    out.least_shown = least_leak_shown(out.leak.doubt);
    return out;
}

units::Measured<units::Volume> flow_over(units::Measured<units::VolumeFlow> const& flow,
                                         units::Measured<units::Duration> const& run)
{
    units::Volume const volume = flow.value * run.value;
    double const by_flow = units::in_si(flow.doubt) * units::in_si(run.value);
    double const by_run = units::in_si(flow.value) * units::in_si(run.doubt);
    return {volume, units::of_si<units::Volume>(std::hypot(by_flow, by_run)), "computed"};
}

} // namespace padwalk::level
