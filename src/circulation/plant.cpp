#include "padwalk/circulation/plant.hpp"

#include "padwalk/circulation/head.hpp"
#include "padwalk/circulation/suction.hpp"

#include <algorithm>

namespace padwalk::circulation
{
namespace
{

template <class Parts>
std::vector<BranchFlow> branches(Parts const& parts, std::vector<std::size_t> const& links, NetworkState const& state)
{
    std::vector<BranchFlow> out;
    for (std::size_t i = 0; i < parts.size(); ++i)
    {
        units::VolumeFlow const flow = state.flow[links[i]];
        out.push_back({parts[i].name, flow, pipe_velocity(flow, parts[i].pipe.bore)});
    }
    return out;
}

/// What a gauge at the node shows: the energy line less its height and the velocity head in the bore.
std::optional<units::GaugePressure> gauge(BuiltPlant const& built, NetworkState const& state, std::size_t node,
                                          units::Velocity velocity, units::Temperature water)
{
    if (!state.head[node])
        return std::nullopt;
    units::Head const above =
        *state.head[node] - units::Head{built.network.nodes[node].elevation} - velocity_head(velocity);
    return units::GaugePressure{pressure_of_head(above, water)};
}

PlantGauges gauges(Plant const& plant, BuiltPlant const& built, NetworkState const& state, PlantState const& out)
{
    auto const at = [&](std::size_t node, units::Velocity v) { return gauge(built, state, node, v, plant.water); };
    PlantGauges g;
    g.pump_suction = at(built.inlet, out.suction_velocity);
    g.pump_discharge = at(built.outlet, out.return_velocity);
    if (plant.filter)
    {
        g.filter_in = g.pump_discharge;
        g.filter_out = at(built.filter_out, out.return_velocity);
    }
    if (plant.heater)
    {
        g.heater_in = at(built.heater_in, out.return_velocity);
        g.heater_out = at(built.heater_out, out.return_velocity);
    }
    g.return_header = at(built.header, out.return_velocity);
    if (built.roof_node)
        g.roof = at(*built.roof_node, pipe_velocity(out.through_roof, plant.solar->up.bore));
    return g;
}

void judge_suction(Plant const& plant, PlantState& out)
{
    if (!out.gauges.pump_suction)
        return;
    out.boils_at_pump = *out.gauges.pump_suction <= vacuum_at_boiling(plant.water, plant.altitude);
    if (!out.boils_at_pump)
        out.suction_available =
            suction_head_available({*out.gauges.pump_suction, {}, out.suction_velocity, plant.water, plant.altitude});
}

} // namespace

PlantState solve(Plant const& plant, PlantTable const& table)
{
    BuiltPlant const built = build(plant, table);
    NetworkState const state = solve(built.network, plant.water);
    PlantState out;
    out.suctions = branches(plant.suctions, built.suctions, state);
    out.returns = branches(plant.returns, built.returns, state);
    for (std::size_t i = 0; i < plant.pumps.size(); ++i)
    {
        units::VolumeFlow const flow = state.flow[built.pumps[i]];
        out.pumps.push_back({plant.pumps[i].name, flow, pipe_velocity(flow, plant.suction_trunk.bore)});
        out.pump_heads.push_back(-state.drop[built.pumps[i]]);
        out.total = out.total + flow;
        out.pulses = out.pulses || plant.pumps[i].air > units::Fraction{};
    }
    auto const through = [&](std::optional<std::size_t> link)
    { return link ? state.flow[*link] : units::VolumeFlow{}; };
    out.through_heater = through(built.heater);
    out.through_bypass = through(built.bypass);
    out.through_roof = through(built.roof);
    out.suction_velocity = pipe_velocity(out.total, plant.suction_trunk.bore);
    out.return_velocity = pipe_velocity(out.total, plant.return_trunk.bore);
    out.gauges = gauges(plant, built, state, out);
    judge_suction(plant, out);
    return out;
}

} // namespace padwalk::circulation
