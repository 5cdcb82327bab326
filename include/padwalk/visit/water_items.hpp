#pragma once
/// A pool or spa: its water, its level, its shell and deck, how it is kept.

#include "padwalk/visit/item.hpp"

namespace padwalk::visit
{

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

} // namespace padwalk::visit
