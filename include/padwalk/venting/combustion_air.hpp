#pragma once
/// Air for burners in a room or vault: the published rules of thumb in data/venting/combustion_air.yaml.

#include "padwalk/reference/sources.hpp"
#include "padwalk/units/quantity.hpp"

#include <optional>

namespace padwalk::venting
{

/// Where the air comes from, and so which opening rule holds.
enum class AirSource
{
    outdoors_direct,
    outdoors_vertical_ducts,
    outdoors_horizontal_ducts,
    one_high_outdoor,
    indoors
};

/// What stands in an opening. Without a maker's figure a usual share is taken for free.
enum class Louvre
{
    none,
    metal,
    wood,
    mesh
};

} // namespace padwalk::venting

template <> struct padwalk::fields::words_of<padwalk::venting::AirSource>
{
    static std::vector<std::string> words()
    {
        return {"outdoors_direct", "outdoors_vertical_ducts", "outdoors_horizontal_ducts", "one_high_outdoor",
                "indoors"};
    }
};
template <> struct padwalk::fields::words_of<padwalk::venting::Louvre>
{
    static std::vector<std::string> words() { return {"none", "metal", "wood", "mesh"}; }
};

namespace padwalk::venting
{

/// The room that counts as large enough: `volume` for each `per` of input.
struct VolumeRule
{
    units::Volume volume{};
    units::Power per{};
    reference::Cited source;
    static fields::Record<VolumeRule> const& declaration();
};

/// The same where the building's air changes are known: `natural` or `fan` over air changes an hour, for each `per`.
struct AirChangeRule
{
    units::Volume natural{}, fan{};
    units::Power per{};
    units::Number most{}; ///< air changes an hour above this don't count
    reference::Cited source;
    static fields::Record<AirChangeRule> const& declaration();
};

/// Free area of each opening: `area` for each `per` of input, and never less than `least`.
struct OpeningRule
{
    AirSource air = AirSource::outdoors_direct;
    units::Area area{};
    units::Power per{};
    std::optional<units::Area> least;
    std::string note;
    reference::Cited source;
    static fields::Record<OpeningRule> const& declaration();
};

/// Share of an opening that stays free.
struct LouvreShare
{
    Louvre louvre = Louvre::none;
    units::Fraction free{};
    std::string note;
    reference::Cited source;
    static fields::Record<LouvreShare> const& declaration();
};

/// A rule without a figure that a model needs: where openings stand, how ducts run.
struct WordedRule
{
    std::string rule;
    reference::Cited source;
    static fields::Record<WordedRule> const& declaration();
};

struct CombustionAirRules
{
    VolumeRule room;
    AirChangeRule air_changes;
    std::vector<OpeningRule> openings; ///< one for each AirSource
    std::vector<LouvreShare> louvres;  ///< one for each Louvre
    fields::Named<WordedRule> also;
    fields::Named<reference::Source> sources;
    static fields::Record<CombustionAirRules> const& declaration();

    [[nodiscard]] OpeningRule const& opening(AirSource air) const; ///< std::logic_error if the data has none
    [[nodiscard]] LouvreShare const& louvre(Louvre louvre) const;  ///< std::logic_error if the data has none
};

/// data/venting/combustion_air.yaml. Throws reference::DataProblems.
[[nodiscard]] CombustionAirRules combustion_air_rules(reference::Data const& data);

/// Room that needs no openings: 50 ft3 for each 1000 Btu/h of all fuel appliances in it.
///
/// Source:   [venting-code-check-summary]
[[nodiscard]] units::Volume volume_needed(units::Power input, VolumeRule const& rule);

/// The same by known air changes: 21 ft3 (natural draft) or 15 ft3 (fan) over air changes an hour, for each 1000 Btu/h.
///
/// Source:   [venting-ifgc-304-5-2], from memory
/// Throws:   figures::NotComputed for no air change at all
[[nodiscard]] units::Volume volume_needed(units::Power input, units::Number changes_an_hour, bool by_fan,
                                          AirChangeRule const& rule);

/// Free area of each opening, in2 per Btu/h by where the air comes from.
[[nodiscard]] units::Area opening_needed(units::Power input, OpeningRule const& rule);

/// A room as found; areas are those of the frames, before the louvre takes its part.
struct AirSupply
{
    units::Power input{}; ///< of all fuel appliances in the room
    AirSource source = AirSource::outdoors_direct;
    Louvre louvre = Louvre::none;
    std::optional<units::Volume> room_volume;   ///< of the heater's room alone
    std::optional<units::Volume> joined_volume; ///< with the rooms joined to it by openings
    std::optional<units::Area> high_opening;
    std::optional<units::Area> low_opening;
    std::optional<units::Area> vent_connector_area; ///< sum over all vent connectors
};

struct AirVerdict
{
    units::Volume volume_needed{};
    units::Area opening_needed{}; ///< free, each
    units::Area gross_needed{};   ///< of the frame, each
    std::string verdict;          ///< 'enough', 'short' or 'cannot tell'
    std::string in_words;
};

/// Whether the room has the air that the published rules ask for. What wasn't measured is never taken for fine.
///
/// Valid:    gas appliances that take air from the room, ordinary (not tight) buildings
[[nodiscard]] AirVerdict judge(AirSupply const& supply, CombustionAirRules const& rules);

} // namespace padwalk::venting
