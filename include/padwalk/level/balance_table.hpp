#pragma once
/// What is thought of levels and leaks before a history is read.

#include "padwalk/level/stated.hpp"
#include "padwalk/reference/evaporation_table.hpp"

namespace padwalk::level
{

/// data/level/balance.yaml: its rows say what each is.
struct BalanceTable
{
    Stated<units::Number> form_spread, hour_spread, day_spread, day_spread_by_stretch, usual_spread, bucket_spread,
        stirred_spread, cover_cut, cover_spread, rain_spread, bather_spread;
    Stated<units::Velocity> usual_evaporation, least_leak, most_leak, target_leak;
    Stated<units::Volume> bather_loss;
    Stated<units::VolumeFlow> most_fill;
    Stated<units::Fraction> chance_of_leak, chance_shell, chance_pressure, chance_suction, pressure_rest, suction_rest;
    Stated<units::Duration> longest_watch;
    Stated<units::Length> deepest;
    fields::Named<reference::Source> sources;
    static fields::Record<BalanceTable> const& declaration();
};

/// All that a balance of the level asks of data/.
struct BalanceFacts
{
    BalanceTable table;
    reference::EvaporationTable evaporation;
};

/// Throws reference::DataProblems.
[[nodiscard]] BalanceFacts balance_facts(reference::Data const& data);

} // namespace padwalk::level
