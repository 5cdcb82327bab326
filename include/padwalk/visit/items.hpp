#pragma once
/// The things that are met on a walk, each declared once. Everything may be left out; nothing left out is taken to be
/// fine.

#include "padwalk/visit/heater_items.hpp"
#include "padwalk/visit/water_items.hpp"

namespace padwalk::visit
{

enum class FillKind
{
    float_valve,
    level_sensor,
    by_hand
};

/// How a fill valve can be reached.
enum class FillAccess
{
    open_box, ///< under a lid that lifts
    buried,   ///< under soil or planting
    cast_in,  ///< in the deck, no lid
    hidden    ///< not found
};

/// How a deck stands to the shell beside it.
enum class DeckPour
{
    apart,    ///< a joint shows that they were poured apart
    one_piece ///< no joint: a line runs on through both
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
    Taken<units::VolumeFlow> flow_when_shut;
    Taken<units::Length> bore, seat, travel, below_wanted, air_gap;
    Taken<units::Volume> day_volume;
    Taken<units::Fraction> run_share;
    Taken<units::Number> starts;
    std::optional<FillAccess> access;
    std::optional<DeckPour> deck;
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
PADWALK_WORDS(FillAccess, "open_box", "buried", "cast_in", "hidden");
PADWALK_WORDS(DeckPour, "apart", "one_piece");
#undef PADWALK_WORDS
} // namespace padwalk::fields
