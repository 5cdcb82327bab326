#include "padwalk/venting/combustion_air.hpp"

#include <algorithm>
#include <utility>

namespace padwalk::venting
{
namespace
{

/// What the openings come to against the rule, each as far as it was measured.
enum class Openings
{
    enough,
    short_,
    unknown
};

/// Conversions between units may leave a last digit: 100 in2 measured must pass a rule that comes to 100 in2.
constexpr double rounding = 1e-9;

bool two_needed(AirSource source)
{
    return source != AirSource::one_high_outdoor;
}

Openings openings_of(AirSupply const& supply, units::Area free_needed, double free_share)
{
    double const least = units::in_si(free_needed) * (1 - rounding);
    auto const is_short = [&](std::optional<units::Area> const& gross)
    { return gross && units::in_si(*gross) * free_share < least; };
    bool const high_short = is_short(supply.high_opening);
    bool const low_short = two_needed(supply.source) && is_short(supply.low_opening);
    if (high_short || low_short)
        return Openings::short_;
    bool const all_known = supply.high_opening && (supply.low_opening || !two_needed(supply.source));
    return all_known ? Openings::enough : Openings::unknown;
}

/// True or false as far as known.
std::optional<bool> holds(std::optional<units::Volume> const& volume, units::Volume needed)
{
    if (!volume)
        return std::nullopt;
    return units::in_si(*volume) >= units::in_si(needed) * (1 - rounding);
}

using Said = std::pair<std::string, std::string>;

Said large_room()
{
    return {"enough",
            "the room's own volume is enough by the indoor rule, if the building is an ordinary, not a tight one"};
}

Said from_indoors(AirSupply const& supply, Openings openings, units::Volume needed)
{
    auto const room = holds(supply.room_volume, needed);
    if (room.value_or(false))
        return large_room();
    auto const joined = holds(supply.joined_volume, needed);
    if (joined && !*joined)
        return {"short", "the rooms together hold too little air: it must come from outdoors"};
    if (openings == Openings::short_)
        return room ? Said{"short", "the room is too small alone, and its openings to other rooms are too small"}
                    : Said{"cannot tell", "the openings to other rooms are too small; measure the room, which may be "
                                          "large enough alone"};
    if (joined && openings == Openings::enough)
        return {"enough",
                "the openings join rooms that together hold enough, if the building is an ordinary, not a tight one"};
    if (!room && !joined)
        return {"cannot tell", "measure the room, and if it is too small the openings and the rooms they join"};
    if (openings == Openings::enough)
        return {"cannot tell", "the openings are large enough, but the rooms they join aren't measured"};
    return {"cannot tell",
            "the room is too small alone or not measured: measure both openings and the rooms they join"};
}

Said from_outdoors(AirSupply const& supply, Openings openings, units::Volume needed)
{
    std::string const which = two_needed(supply.source) ? "openings" : "high opening";
    std::string const is = two_needed(supply.source) ? " are " : " is ";
    if (openings == Openings::enough)
        return {"enough", "the " + which + is + "large enough by the published rule"};
    if (holds(supply.room_volume, needed).value_or(false))
        return large_room();
    if (openings == Openings::short_)
        return {"short", two_needed(supply.source) ? "an opening is smaller than the published rule asks"
                                                   : "the high opening is smaller than the published rule asks"};
    return {"cannot tell", two_needed(supply.source)
                               ? "two openings are needed, one high and one low, and not both were measured; one that "
                                 "was not found counts as 0 in2"
                               : "the high opening was not measured; one that was not found counts as 0 in2"};
}

} // namespace

AirVerdict judge(AirSupply const& supply, CombustionAirRules const& rules)
{
    AirVerdict out;
    out.volume_needed = volume_needed(supply.input, rules.room);
    out.opening_needed = opening_needed(supply.input, rules.opening(supply.source));
    bool const one_high = supply.source == AirSource::one_high_outdoor;
    if (one_high && supply.vent_connector_area)
        out.opening_needed = std::max(out.opening_needed, *supply.vent_connector_area);
    double const free_share = rules.louvre(supply.louvre).free.value();
    out.gross_needed = out.opening_needed / free_share;

    Openings const openings = openings_of(supply, out.opening_needed, free_share);
    auto [verdict, words] = supply.source == AirSource::indoors ? from_indoors(supply, openings, out.volume_needed)
                                                                : from_outdoors(supply, openings, out.volume_needed);
    bool const large = holds(supply.room_volume, out.volume_needed).value_or(false);
    if (one_high && openings == Openings::enough && !supply.vent_connector_area && !large)
    {
        verdict = "cannot tell";
        words += "; it must also be no smaller than all vent connectors together, which weren't measured";
    }
    out.verdict = std::move(verdict);
    out.in_words = std::move(words);
    return out;
}

} // namespace padwalk::venting
