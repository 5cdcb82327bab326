// Carbon monoxide in the air that people breathe: the worst of all places speaks, and all are said.
#include "heater_bench.hpp"

#include "padwalk/venting/carbon_monoxide.hpp"

namespace padwalk::assess
{
namespace
{

using units::Measured;
using Reading = Measured<units::GasFraction>;

struct AtPlace
{
    std::string place; ///< empty: where people stand
    Reading reading;
};

std::vector<AtPlace> readings_in_air(HeaterBench const& b)
{
    std::vector<AtPlace> out;
    if (b.v.carbon_monoxide_in_air)
        out.push_back({{}, *b.v.carbon_monoxide_in_air});
    for (auto const& [place, reading] : b.v.carbon_monoxide_at)
        out.push_back({place, reading});
    std::stable_sort(out.begin(), out.end(),
                     [](AtPlace const& a, AtPlace const& c) { return a.reading.value > c.reading.value; });
    return out;
}

std::string said(HeaterBench const& b, AtPlace const& at)
{
    return b.w.show(at.reading) + (at.place.empty() ? " in the air" : " in the air (" + at.place + ")");
}

std::string others(HeaterBench const& b, std::vector<AtPlace> const& all)
{
    std::string out;
    for (std::size_t i = 1; i < all.size(); ++i)
        out += (i > 1 ? ", " : "") + said(b, all[i]);
    return out.empty() ? out : ", the highest of " + std::to_string(all.size()) + " places; also " + out;
}

std::string limits_reached(HeaterBench const& b, Reading const& reading)
{
    std::string out;
    for (auto const& limit : venting::carbon_monoxide_limits(b.w.engine.data()))
        if (limit.where == venting::WhereBreathed::ambient && reading.value >= limit.limit &&
            limit.source.seen != reference::Seen::memory)
            out += (out.empty() ? "; at or above " : ", ") + b.w.show(Reading{limit.limit, {}, {}}) + " " + limit.body;
    return out;
}

} // namespace

void assess_carbon_monoxide(HeaterBench& b)
{
    auto const all = readings_in_air(b);
    if (all.empty())
        return;
    Reading const& worst = all.front().reading;
    // The doubt is given to the people: one standard uncertainty above what was read.
    auto const actions = venting::carbon_monoxide_actions(b.w.engine.data());
    auto const& action = venting::action_at(worst.value + worst.doubt, actions);
    if (action.leave)
        b.w.at_once[{b.heater, "ambient_co_high"}] =
            action.say +
            " The heater stays off until the technician, who comes after them, has proven flue, vent and air supply "
            "with an analyser. So from " +
            b.w.show(Reading{action.from, {}, {}}) + " on: " + action.because + " [" + action.source.key + "].";
    std::string const from = said(b, all.front()) + others(b, all) + "; speaks above " + b.w.rules.cited("co_in_air") +
                             limits_reached(b, worst);
    b.w.computed(b.heater, "ambient_co_high",
                 probability_above(worst, b.w.rules.limit<units::GasFraction>("co_in_air")), from);
}

} // namespace padwalk::assess
