#pragma once
/// A circulation: pump, filter, pipes, drains, valves.

#include "padwalk/visit/item.hpp"

namespace padwalk::visit
{

struct Motor
{
    Taken<units::Voltage> nameplate_voltage, voltage;
    Taken<units::Current> nameplate_current, service_factor_current, current;
    Taken<units::Number> service_factor;
    Taken<units::Power> power; ///< that it takes in
    static Record<Motor> const& declaration();
};

struct Pump : Item
{
    std::optional<std::vector<fields::CurvePoint>> curve;
    Taken<units::Power> rated_power;
    Taken<units::RotationSpeed> speed, curve_speed;
    std::optional<bool> variable_speed, runs;
    Taken<units::Duration> daily_run;
    Taken<units::GaugePressure> discharge_gauge;
    Taken<units::Head> needs_suction_head;
    std::optional<Motor> motor;
    static Record<Pump> const& declaration();
};

enum class Media
{
    sand,
    cartridge,
    de
};

struct Filter : Item
{
    std::optional<Media> media;
    Taken<units::Area> area;
    Taken<units::GaugePressure> gauge, clean_gauge, outlet_gauge;
    Taken<units::RotationSpeed> clean_speed;
    Taken<units::Length> gauge_height;
    static Record<Filter> const& declaration();
};

struct Pipe
{
    Taken<units::Length> bore, length;
    Taken<units::Number> minor_loss;
    Named<units::Number> fittings;
    static Record<Pipe> const& declaration();
};

/// The openings through which the water comes back.
struct ReturnInlets
{
    Taken<units::Number> count;
    Taken<units::Length> opening; ///< of each
    static Record<ReturnInlets> const& declaration();
};

struct Drain : Item
{
    Taken<units::VolumeFlow> rating;
    std::optional<fields::Moment> expires;
    std::optional<bool> listed, unblockable, release_device;
    static Record<Drain> const& declaration();
};

enum class ValvePosition
{
    open,
    shut,
    part_open
};

struct Valve
{
    std::optional<ValvePosition> position;
    std::string where;
    static Record<Valve> const& declaration();
};

enum class Stands
{
    above_water,
    below_water
};

struct Loop : Item
{
    std::vector<std::string> serves;
    std::optional<Pump> pump;
    std::optional<Filter> filter;
    std::optional<Pipe> suction, discharge;
    Named<Drain> drains;
    Named<Valve> valves;
    Taken<units::GaugePressure> suction_gauge;
    Taken<units::Length> suction_gauge_height;
    Taken<units::VolumeFlow> flow;
    std::optional<Stands> equipment;
    Taken<units::Length> pump_height; ///< above the water, below it negative
    Taken<units::Number> skimmers, suction_outlets;
    std::optional<ReturnInlets> return_inlets;
    Taken<units::Length> roof_height; ///< of a collector above the water
    static Record<Loop> const& declaration();
};

} // namespace padwalk::visit
