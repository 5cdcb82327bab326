#pragma once
/// A heater, its vent and where it stands.

#include "padwalk/visit/loop_items.hpp"

namespace padwalk::visit
{

enum class EnergyKind
{
    natural_gas,
    propane,
    electric_element,
    heat_pump
};
enum class HeaterPlace
{
    outdoors,
    room,
    pit
};
enum class AirSource
{
    outdoors_direct,
    outdoors_vertical_ducts,
    outdoors_horizontal_ducts,
    one_high_outdoor,
    indoors
};
enum class Louvre
{
    none,
    mesh,
    metal,
    wood
};

struct Meter
{
    Taken<units::Volume> dial;
    Taken<units::Duration> elapsed;
    Taken<units::HeatingValue> heating_value;
    Taken<units::GaugePressure> pressure;
    std::optional<bool> compensated;
    static Record<Meter> const& declaration();
};

struct Flue
{
    Taken<units::Fraction> oxygen, carbon_dioxide;
    Taken<units::GasFraction> carbon_monoxide;
    Taken<units::Temperature> temperature;
    static Record<Flue> const& declaration();
};

/// How the flue gas is moved out.
enum class VentKind
{
    draft_hood,
    fan,
    direct,
    outdoor_top
};

/// What a vent is made of, by kind of pipe.
enum class VentMaterial
{
    single_wall, ///< galvanised, bare
    double_wall, ///< type B, with an air gap
    stainless,   ///< special vent, sealed joints
    plastic,
    masonry,
    masonry_lined,
    flexible, ///< dryer duct, foil, connector hose
    other
};

/// Vent category on the heater's plate.
enum class VentCategory
{
    I,
    II,
    III,
    IV
};

struct Vent : Item
{
    std::optional<VentKind> kind;
    std::string material;
    std::vector<VentMaterial> made_of;
    std::optional<VentCategory> category;
    Taken<units::Length> height, run, bore, outlet_bore;
    Taken<units::Number> elbows, elbows_45, elbows_60;
    Taken<units::Fraction> slope; ///< of the level run, rising to the end; falling is negative
    std::optional<bool> buried, enclosed, under_deck, capped;
    Taken<units::Length> combustibles;
    Taken<units::GaugePressure> outlet_pressure;
    Taken<units::Number> roof_slope; ///< rise of the roof in 12 of run
    Taken<units::Length> above_roof, from_wall;
    Named<units::Measured<units::Length>> clearances;
    static Record<Vent> const& declaration();
};

/// What takes water out of a pit or sunken room.
enum class PitDrain
{
    none,
    floor_drain,
    sump_pump,
    not_working
};

/// What covers a pit.
enum class PitLid
{
    none,
    grating,
    vented,
    closed
};

/// The room, shed or pit that a heater stands in.
struct Room
{
    Taken<units::Volume> volume;
    Taken<units::Area> high_opening, low_opening;
    std::optional<AirSource> air_from;
    std::optional<Louvre> louvre;
    Taken<units::Power> other_input;
    Taken<units::Length> depth; ///< of its floor below the ground outside
    std::optional<PitDrain> drain;
    Taken<units::Length> water;         ///< standing on its floor
    std::optional<bool> gas_way_out;    ///< at the floor, for gas heavier than air
    std::optional<bool> person_way_out; ///< steps or a fixed ladder
    std::optional<PitLid> lid;
    Taken<units::Length> service_space; ///< free before the heater
    static Record<Room> const& declaration();
};

struct Heater : Item
{
    std::string loop;
    std::optional<EnergyKind> energy;
    std::optional<HeaterPlace> stands;
    Taken<units::Power> input, output;
    Taken<units::Fraction> efficiency;
    Taken<units::Number> cop;
    std::optional<bool> fires;
    Taken<units::Temperature> inlet_temperature, outlet_temperature;
    Taken<units::Temperature> set_temperature;      ///< at its thermostat
    Taken<units::Duration> runs_for;                ///< until it stops by itself
    Taken<units::VolumeFlow> least_flow, most_flow; ///< that its maker allows
    Taken<units::VolumeFlow> drip;                  ///< of water under it, while it burns
    Taken<units::Voltage> nameplate_voltage, supply_voltage;
    Taken<units::Current> current;
    std::optional<bool> three_phase;
    Taken<units::Temperature> air_in_temperature, air_out_temperature, least_air_temperature;
    std::optional<ValvePosition> bypass;
    std::optional<Meter> meter;
    std::optional<Flue> flue;
    Taken<units::GasFraction> carbon_monoxide_in_air;
    Named<units::Measured<units::GasFraction>> carbon_monoxide_at; ///< by place
    std::optional<Vent> vent;
    std::optional<Room> room;
    static Record<Heater> const& declaration();
};

} // namespace padwalk::visit
