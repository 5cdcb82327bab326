#pragma once
/// A steady network of pipes, fittings, filters and pumps between water surfaces: the flow that each of them settles
/// on.

#include "padwalk/circulation/pipe.hpp"
#include "padwalk/circulation/pump.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace padwalk::circulation
{

/// A place where links meet. With a level it is a free water surface, whose head the flow doesn't change.
struct NetworkNode
{
    std::string name;
    units::Length elevation{};          ///< of the place, above any level common to all
    std::optional<units::Length> level; ///< of the free water surface above the same
};

/// What takes K v2/2g at the velocity in its bore: a valve part open, a strainer, a heater.
struct FixedLoss
{
    units::Length bore{};
    units::Number coefficient{};
};

/// A bed or cloth, through which the flow creeps, in a shell, through which it does not:
///
///     h = linear (Q/Q0) + quadratic (Q/Q0)2
struct FilterLoss
{
    units::VolumeFlow at{}; ///< Q0
    units::Head linear{};
    units::Head quadratic{};
};

using NetworkElement = std::variant<Pipe, FixedLoss, FilterLoss, PumpCurve>;

/// One element between two nodes. Flow from `from` to `to` is positive; a pump pumps that way.
struct NetworkLink
{
    std::string name;
    std::size_t from = 0; ///< index in Network::nodes
    std::size_t to = 0;
    NetworkElement element;
    bool one_way = false; ///< a check valve in it: nothing runs from `to` to `from`
    bool shut = false;    ///< nothing runs at all
};

struct Network
{
    std::vector<NetworkNode> nodes;
    std::vector<NetworkLink> links;
    FrictionFormula formula = FrictionFormula::darcy_weisbach;

    /// Each adds one and returns its index.
    std::size_t water(std::string name, units::Length level);
    std::size_t junction(std::string name, units::Length elevation = {});
    std::size_t link(std::string name, std::size_t from, std::size_t to, NetworkElement element);
    std::size_t check_valve(std::string name, std::size_t from, std::size_t to, NetworkElement element);
};

struct NetworkState
{
    std::vector<units::VolumeFlow> flow;          ///< of each link; exactly zero where shut or held by a check valve
    std::vector<units::Head> drop;                ///< of the energy line along each link; below zero for a pump
    std::vector<std::optional<units::Head>> head; ///< energy line at each node; none where shut valves cut it off
    units::Head imbalance{};                      ///< the largest error of closure round a ring
    int steps = 0;                                ///< Newton steps taken in all
};

/// Flows and heads of the whole network.
///
/// The flows minimise the content  sum of integral h(q) dq  under the balance at every junction. Every h rises with
/// flow, so the content is convex and has one minimum [circ-content]. It is looked for in the flows round the
/// rings of a spanning tree, in which the balance holds by itself, by Newton's method; a step that goes too far or not
/// far enough along its own direction is cut or lengthened between brackets. Check valves are first given a small leak,
/// then shut where the leak runs back, until none that is shut would open and none that is open runs back.
///
/// Accuracy: mass to rounding; head round every ring to 1e-11 of the largest drop (at least of 1 m). Outside: in 24
///           houses with parallel drains, pumps and returns and a roof branch every flow lies within 0.25 % of the
///           largest from [circ-epanet-js]; its explicit friction factor and rounded constants make that difference.
/// Throws:   figures::NotComputed, naming the part, for a node tied to no water surface, a pump cut off by shut valves,
///           a ring without any loss, a pump off its curve or run through backwards, Hazen-Williams without turbulence,
///           and a ring that does not close; std::out_of_range for a link to a node that is not there;
///           physics::OutOfRange
[[nodiscard]] NetworkState solve(Network const& network, units::Temperature water);

} // namespace padwalk::circulation
