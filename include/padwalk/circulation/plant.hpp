#pragma once
/// The circulation of one house: its suctions, pumps, filter, heater, roof collector and returns, built into a network
/// and solved, whole or with a fault.

#include "padwalk/circulation/limits.hpp"
#include "padwalk/circulation/network.hpp"

namespace padwalk::circulation
{

enum class ValveKind
{
    ball,
    butterfly,
    gate
};

struct Valve
{
    ValveKind kind = ValveKind::ball;
    units::Fraction opening = units::Fraction::from_value(1); ///< 0 shut, 1 open
};

/// A free surface: the pool is the first, a spa may stand higher.
struct PlantWater
{
    std::string name;
    units::Length level{}; ///< above the pool's
};

enum class SuctionKind
{
    skimmer,
    main_drain
};

struct PlantSuction
{
    std::string name;
    SuctionKind kind = SuctionKind::skimmer;
    std::size_t water = 0;
    Pipe pipe; ///< minor_loss: its fittings; entrance, cover and valve come on top
    Valve valve;
};

struct PlantPump
{
    std::string name;
    std::vector<fields::CurvePoint> curve; ///< at full speed
    units::Fraction speed = units::Fraction::from_value(1);
    bool check_valve = false; ///< behind it, as pumps side by side need
    // What is wrong with it, 0 to 1.
    units::Fraction air{};      ///< drawn with the water
    units::Fraction clogging{}; ///< of the impeller
    units::Fraction wear{};
    bool reversed = false; ///< turns the wrong way
};

struct PlantFilter
{
    FilterMedium medium = FilterMedium::sand;
    units::Area area{};
    units::Fraction loading{};                                ///< 0 clean, 1 due for cleaning
    std::optional<FilterLoss> clean;                          ///< where known; else by medium and area
    units::Number loss_factor = units::Number::from_value(1); ///< on the clean loss
    units::Fraction bypassed{}; ///< 0 to 1: of the water that finds a way round bed or cloth
};

struct PlantHeater
{
    std::optional<units::Number> loss; ///< on the discharge bore; else usual
    Valve bypass{ValveKind::ball, units::Fraction{}};
    units::Fraction scaling{}; ///< of its tubes, 0 to 1
};

/// A collector on a roof: up, through, down, beside a valve in the straight way that turns the flow there.
struct PlantSolar
{
    Pipe up;
    Pipe down;
    units::Number panels{}; ///< on the bore of `up`
    units::Length height{}; ///< of its highest place above the pool's water
    Valve branch;
    Valve straight{ValveKind::ball, units::Fraction{}};
};

enum class ReturnKind
{
    wall,
    spa_jets,
    waterfall ///< open to the air: nothing runs back
};

struct PlantReturn
{
    std::string name;
    ReturnKind kind = ReturnKind::wall;
    std::size_t water = 0;
    Pipe pipe; ///< minor_loss: its fittings; valve and outlet come on top
    Valve valve;
    std::optional<units::Length> nozzle; ///< diameter of each; none: the open pipe
    int nozzles = 1;
    units::Length outlet_height{}; ///< of a waterfall's lip above the pool's water
};

struct Plant
{
    std::vector<PlantWater> waters{{"pool", {}}};
    std::vector<PlantSuction> suctions;
    Pipe suction_trunk; ///< from where the suctions meet to the pump
    units::Fraction basket_clogging{};
    std::vector<PlantPump> pumps; ///< side by side
    std::optional<PlantFilter> filter;
    std::optional<PlantHeater> heater;
    std::optional<PlantSolar> solar; ///< between filter and heater
    Pipe return_trunk;               ///< from the heater to where the returns part
    bool check_valve = false;        ///< in it
    std::vector<PlantReturn> returns;
    units::Length pad_height{}; ///< of the pump and the gauges above the pool's water; below it is negative
    units::Length altitude{};
    units::Temperature water{};
    FrictionFormula formula = FrictionFormula::darcy_weisbach;
};

/// A valve's loss by its position: data/circulation/plant.yaml.
struct ValvePosition
{
    units::Fraction opening{};
    units::Number coefficient{};
    static fields::Record<ValvePosition> const& declaration();
};

struct ValveTable
{
    std::vector<ValvePosition> rows;
    reference::Cited source;
    static fields::Record<ValveTable> const& declaration();
};

struct ValveTables
{
    ValveTable ball, butterfly, gate;
    static fields::Record<ValveTables> const& declaration();
};

/// Loss of a filter by its kind at the flow that its area is meant for.
struct FilterKind
{
    FilterMedium medium = FilterMedium::sand;
    units::VolumeFlow at_per_square_foot{};
    units::Pressure linear{};
    units::Pressure quadratic{};
    units::Pressure dirty{}; ///< added at that flow by full loading, growing with flow
    reference::Cited source;
    static fields::Record<FilterKind> const& declaration();
};

/// One pump of the generic family: data/circulation/generic_pumps.yaml. No product's; its source says judgement.
struct GenericPump
{
    units::Power rated{};
    std::vector<fields::CurvePoint> curve;
    reference::Cited source;
    static fields::Record<GenericPump> const& declaration();
};

struct PlantTable
{
    ValveTables valves;
    std::vector<FilterKind> filters;
    Rule skimmer, main_drain, strainer, most_clogging, heater, check_valve, nozzle;
    Rule bypassed_loss, scaled_loss;
    Rule air_head, clogged_head, clogged_flow, worn_head, worn_flow, reversed_head, reversed_flow;
    static fields::Record<PlantTable> const& declaration();
};

/// Reads data/circulation/plant.yaml. Throws reference::DataProblems.
[[nodiscard]] PlantTable plant_table(reference::Data const& data);
/// Reads data/circulation/generic_pumps.yaml, the least power first. Throws reference::DataProblems.
[[nodiscard]] std::vector<GenericPump> generic_pumps(reference::Data const& data);

/// K of a valve at its position; none: shut. log K is a straight line between rows.
[[nodiscard]] std::optional<units::Number> valve_loss(Valve const& valve, ValveTables const& tables);

/// Curve of the generic family at a rated power, point by point between the rows. It is generic: say so beside the
/// figure. Throws figures::NotComputed outside the rows.
[[nodiscard]] std::vector<fields::CurvePoint> generic_curve(units::Power rated, std::vector<GenericPump> const& family);

struct BranchFlow
{
    std::string name;
    units::VolumeFlow flow{};
    units::Velocity velocity{};
};

/// What gauges would show at the pad, the bore's velocity head taken off; none where shut valves cut a place off from
/// all water or the plant has no such part.
struct PlantGauges
{
    std::optional<units::GaugePressure> pump_suction, pump_discharge, filter_in, filter_out, heater_in, heater_out,
        return_header, roof;
};

struct PlantState
{
    std::vector<BranchFlow> suctions, pumps, returns; ///< in the plant's order
    std::vector<units::Head> pump_heads;
    units::VolumeFlow total{};
    units::VolumeFlow through_heater{};
    units::VolumeFlow through_bypass{};
    units::VolumeFlow through_roof{};
    units::Velocity suction_velocity{}; ///< in the trunk
    units::Velocity return_velocity{};
    PlantGauges gauges;
    std::optional<units::Head> suction_available; ///< net positive suction head; none where the water would boil
    bool boils_at_pump = false;                   ///< the flow is then more than the pump can really draw
    bool pulses = false;                          ///< air: gauge and flow swing about these figures
};

/// The plant as a network.
struct BuiltPlant
{
    Network network;
    std::vector<std::size_t> suctions, pumps, returns; ///< links
    std::optional<std::size_t> heater, bypass, roof;
    std::size_t inlet = 0, outlet = 0, filter_out = 0, heater_in = 0, heater_out = 0, header = 0; ///< nodes
    std::optional<std::size_t> roof_node;
};

/// Throws figures::NotComputed for no suction, pump or return, a filter of no area and a part of no bore;
/// std::out_of_range for a water that is not there.
[[nodiscard]] BuiltPlant build(Plant const& plant, PlantTable const& table);

/// Flows, velocities and gauge readings of the plant.
///
/// Accuracy: as good as its losses, of which a published one is known to tens of per cent [hydraulic-institute]; parts
///           by judgement less. Compare states of one plant rather than read one off.
/// Throws:   as build and as solve of the network
[[nodiscard]] PlantState solve(Plant const& plant, PlantTable const& table);

enum class PlantFaultKind
{
    clogged_basket,
    suction_air,
    dirty_filter,
    return_valve_shut,
    impeller_clogged,
    wrong_rotation,
    wrong_speed,
    undersized_pipe,
    bypass_stuck_open,
    suction_valve_part_shut,
    worn_impeller,
    filter_bypassed,
    heater_scaled
};

struct PlantFault
{
    PlantFaultKind kind = PlantFaultKind::clogged_basket;
    units::Fraction severity{}; ///< 0 none to 1 as bad as it gets; wrong_rotation: any above 0
    std::string part = {};      ///< name of the suction, pump or return; empty: every one of them
};

/// The plant with the fault in it. For trying out what a fault does to the readings, never a thing to do to a pad.
/// Throws figures::NotComputed for a severity outside 0 to 1, a name that the plant hasn't, or a part it hasn't.
[[nodiscard]] Plant with_fault(Plant plant, PlantFault const& fault);

} // namespace padwalk::circulation

template <> struct padwalk::fields::words_of<padwalk::circulation::PlantFaultKind>
{
    static std::vector<std::string> words()
    {
        return {"clogged_basket", "suction_air",     "dirty_filter",    "return_valve_shut", "impeller_clogged",
                "wrong_rotation", "wrong_speed",     "undersized_pipe", "bypass_stuck_open", "suction_valve_part_shut",
                "worn_impeller",  "filter_bypassed", "heater_scaled"};
    }
};
