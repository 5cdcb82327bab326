#pragma once
/// The things that are met on a walk, each declared once. Everything may be left out; nothing left out is taken to be
/// fine.

#include "padwalk/fields/record.hpp"

namespace padwalk::visit
{

using fields::Named;
using fields::Record;

/// A reading that may or may not have been taken.
template <class Q> using Taken = std::optional<units::Measured<Q>>;

/// One thing noticed, in plain words.
struct Noticed
{
    std::string seen;
    std::string not_seen;
    std::string where;
    static Record<Noticed> const& declaration();
};

/// Something that was not tested, with the reason.
struct NotTested
{
    std::string what;
    std::string because;
    static Record<NotTested> const& declaration();
};

struct Photo
{
    std::string file;
    std::string caption;
    static Record<Photo> const& declaration();
};

/// What every item has.
struct Item
{
    std::string where;
    Taken<units::Duration> age;
    std::vector<Noticed> noticed;
    std::vector<NotTested> not_tested;
    std::vector<Photo> photos;
    std::string notes;
};

enum class Shape
{
    round,
    rectangle,
    oval,
    kidney,
    free_form,
    spa_with_bench
};
enum class WaterKind
{
    pool,
    spa
};
enum class Surface
{
    plaster,
    vinyl,
    fiberglass,
    tile,
    paint,
    other
};
enum class Kit
{
    drops,
    comparator,
    strip,
    photometer,
    meter,
    laboratory
};
/// Whose published limits lead: the sets of data/chemistry/limits.yaml that limit pH and free chlorine.
enum class LimitsOf
{
    model_code,
    new_york,
    california,
    florida,
    montana_2010,
    anne_arundel,
    fishers,
    anchorage,
    cincinnati,
    logan,
    guildford,
    navy,
    industry,
    who
};
enum class Switch
{
    off,
    on
};

struct WaterTest
{
    std::optional<fields::Moment> on;
    std::optional<Kit> kit;
    Taken<units::Ph> ph;
    Taken<units::AsChlorine> free_chlorine, total_chlorine;
    Taken<units::AsItself> bromine;
    Taken<units::AsCalciumCarbonate> alkalinity, calcium, magnesium, hardness;
    Taken<units::AsCyanuricAcid> cyanurate;
    Taken<units::AsBoron> borate;
    Taken<units::AsSodiumChloride> salt;
    Taken<units::AsSulfate> sulfate;
    Taken<units::AsItself> dissolved_solids, copper, iron, phosphate;
    Taken<units::Conductivity> conductivity;
    Taken<units::Temperature> temperature;
    std::string notes;
    static Record<WaterTest> const& declaration();
};

struct BucketTest
{
    Taken<units::Length> pool_drop, bucket_drop;
    Taken<units::Duration> elapsed;
    std::optional<Switch> pump, fill;
    static Record<BucketTest> const& declaration();
};

/// One mark of the level's history: how far the water stands below the first mark.
struct LevelMark
{
    std::optional<fields::Moment> at;
    Taken<units::Length> drop;
    std::optional<Switch> pump, fill;
    Taken<units::Length> bucket; ///< fall of the water in a bucket that stands in it, from its own first mark
    Taken<units::Volume> filled, backwash;
    Taken<units::Length> rain;
    Taken<units::Duration> bathers; ///< persons times time
    std::optional<bool> covered;
    Taken<units::Temperature> air_temperature;
    Taken<units::Fraction> humidity;
    Taken<units::Velocity> wind;
    static Record<LevelMark> const& declaration();
};

/// What goes through the shell, by kind.
enum class FittingKind
{
    skimmer,
    tile_line,
    light,
    inlet,
    cleaner_line,
    step,
    drain
};

/// Where something goes through the shell: its lowest wetted point below the first level mark.
struct ShellFitting
{
    std::optional<FittingKind> kind;
    std::string name;
    Taken<units::Length> depth;
    static Record<ShellFitting> const& declaration();
};

struct Crack
{
    std::string where;
    Taken<units::Length> width, length;
    static Record<Crack> const& declaration();
};

struct Shell : Item
{
    std::optional<Surface> surface;
    Taken<units::Duration> plastered;
    std::vector<Crack> cracks;
    static Record<Shell> const& declaration();
};

struct Deck : Item
{
    static Record<Deck> const& declaration();
};

/// What keeps a water free of germs.
enum class Sanitizer
{
    chlorine, ///< without cyanurate
    stabilized_chlorine,
    salt_cell,
    bromine
};

/// How much sun reaches it.
enum class Sunshine
{
    none, ///< indoors
    shade,
    part,
    full
};

/// What stirs its surface.
enum class Stirred
{
    none,
    sheltered, ///< between houses and fences
    open,      ///< wind reaches the water
    features,  ///< a waterfall, deck jets, the bubbles of a salt cell
    jets
};

/// A package of a product as bought.
struct Package
{
    Taken<units::Number> paid;
    Taken<units::Mass> weighs;
    Taken<units::Volume> holds;
    static Record<Package> const& declaration();
};

/// A dose that is given again and again.
struct RepeatedDose
{
    std::string product;
    Taken<units::Mass> weighs;
    Taken<units::Volume> holds;
    Taken<units::Duration> every;
    static Record<RepeatedDose> const& declaration();
};

/// What stands behind the walls of a water.
enum class Walls
{
    in_ground,
    insulated_cabinet,
    bare
};

/// How a water is kept, for its dose plan and forecast.
struct Care
{
    std::optional<Sanitizer> sanitizer;
    std::vector<std::string> at_hand; ///< products, by their names in the data
    Named<Package> prices;            ///< the same names
    std::optional<bool> borate_wanted;
    std::optional<Sunshine> sun;
    std::optional<Stirred> surface;
    Taken<units::Velocity> evaporation;
    Taken<units::VolumeFlow> splash;
    Taken<units::AsChlorine> made_per_day, used_per_day;
    std::vector<RepeatedDose> doses;
    static Record<Care> const& declaration();
};

struct Water : Item
{
    std::optional<WaterKind> kind;
    std::optional<Shape> shape;
    Taken<units::Length> length, width, second_width, diameter, depth, shallow_depth, deep_depth, shallow_length,
        slope_length, deep_length, bench_depth, bench_width;
    Taken<units::Area> area;
    Taken<units::Volume> volume;
    std::optional<bool> covered, salt_system;
    std::optional<LimitsOf> limits;
    Taken<units::Number> cover_r; ///< R-value of its cover, ft2 h degF/Btu
    std::optional<Walls> walls;
    Taken<units::Temperature> temperature, wanted_temperature;
    std::vector<WaterTest> tests;
    std::optional<WaterTest> fill_water; ///< of the tap or well
    std::optional<Care> care;
    std::optional<BucketTest> bucket_test;
    std::vector<LevelMark> level_history;
    std::vector<ShellFitting> fittings;
    std::optional<Shell> shell;
    std::optional<Deck> deck;
    static Record<Water> const& declaration();
};

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

enum class FillKind
{
    float_valve,
    level_sensor,
    by_hand
};

/// What came in by a fill valve over some time, and what the level did.
struct FillWatch
{
    Taken<units::Duration> elapsed;
    Taken<units::Volume> delivered;
    Taken<units::Length> level_fell;
    static Record<FillWatch> const& declaration();
};

struct FillValve : Item
{
    std::string fills;
    std::optional<FillKind> kind;
    Taken<units::VolumeFlow> flow;
    Taken<units::GaugePressure> supply_pressure;
    Taken<units::Length> bore, air_gap;
    std::optional<bool> backflow_device;
    std::optional<FillWatch> watched;
    static Record<FillValve> const& declaration();
};

struct Electrical : Item
{
    static Record<Electrical> const& declaration();
};

} // namespace padwalk::visit

namespace padwalk::fields
{
#define PADWALK_WORDS(type, ...)                                                                                       \
    template <> struct words_of<visit::type>                                                                           \
    {                                                                                                                  \
        static std::vector<std::string> words() { return {__VA_ARGS__}; }                                              \
    }
PADWALK_WORDS(Shape, "round", "rectangle", "oval", "kidney", "free_form", "spa_with_bench");
PADWALK_WORDS(WaterKind, "pool", "spa");
PADWALK_WORDS(Surface, "plaster", "vinyl", "fiberglass", "tile", "paint", "other");
PADWALK_WORDS(Kit, "drops", "comparator", "strip", "photometer", "meter", "laboratory");
PADWALK_WORDS(LimitsOf, "model_code", "new_york", "california", "florida", "montana_2010", "anne_arundel", "fishers",
              "anchorage", "cincinnati", "logan", "guildford", "navy", "industry", "who");
PADWALK_WORDS(Switch, "off", "on");
PADWALK_WORDS(Sanitizer, "chlorine", "stabilized_chlorine", "salt_cell", "bromine");
PADWALK_WORDS(Sunshine, "none", "shade", "part", "full");
PADWALK_WORDS(Stirred, "none", "sheltered", "open", "features", "jets");
PADWALK_WORDS(Walls, "in_ground", "insulated_cabinet", "bare");
PADWALK_WORDS(Media, "sand", "cartridge", "de");
PADWALK_WORDS(ValvePosition, "open", "shut", "part_open");
PADWALK_WORDS(Stands, "above_water", "below_water");
PADWALK_WORDS(EnergyKind, "natural_gas", "propane", "electric_element", "heat_pump");
PADWALK_WORDS(HeaterPlace, "outdoors", "room", "pit");
PADWALK_WORDS(AirSource, "outdoors_direct", "outdoors_vertical_ducts", "outdoors_horizontal_ducts", "one_high_outdoor",
              "indoors");
PADWALK_WORDS(VentKind, "draft_hood", "fan", "direct", "outdoor_top");
PADWALK_WORDS(VentMaterial, "single_wall", "double_wall", "stainless", "plastic", "masonry", "masonry_lined",
              "flexible", "other");
PADWALK_WORDS(VentCategory, "I", "II", "III", "IV");
PADWALK_WORDS(PitDrain, "none", "floor_drain", "sump_pump", "not_working");
PADWALK_WORDS(PitLid, "none", "grating", "vented", "closed");
PADWALK_WORDS(Louvre, "none", "mesh", "metal", "wood");
PADWALK_WORDS(FittingKind, "skimmer", "tile_line", "light", "return", "cleaner_line", "step", "drain");
PADWALK_WORDS(FillKind, "float_valve", "level_sensor", "by_hand");
#undef PADWALK_WORDS
} // namespace padwalk::fields
