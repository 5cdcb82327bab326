#pragma once
/// Flow through the covers of suction outlets, against what the covers are rated for.

#include "padwalk/reference/sources.hpp"

#include <optional>
#include <string>
#include <vector>

namespace padwalk::circulation
{

/// How the worst of the covers is found. Anything but the first closes the water.
enum class CoverState
{
    sound,
    missing,
    broken_or_loose,
    expired,
    not_listed
};

/// The outlets that one pump draws from at once.
struct DrainCovers
{
    units::VolumeFlow flow{}; ///< the largest they can be asked for together: all of the pump's, skimmers shut
    units::Number outlets{};  ///< in parallel, with no valve between them
    std::optional<units::VolumeFlow> rating{}; ///< of one cover; the smallest if they differ
};

struct CoverFlow
{
    units::VolumeFlow each{};
    std::optional<units::Fraction> of_rating{};
    std::optional<units::VolumeFlow> each_one_blocked{}; ///< none for a single outlet: then nothing else carries it
    std::optional<units::Fraction> of_rating_one_blocked{};
};

/// Flow through each cover, and with one of them blocked.
///
///     q = Q / n,   one blocked: Q / (n - 1),   share = q / rating
///
/// Valid:    equal pipes to every outlet; unequal ones share the flow unevenly, and the nearest takes more. Blocked,
/// the
///           pump's flow falls somewhat; taking it as unchanged errs to the safe side
/// Source:   arithmetic; that the rest carry all: [utah-r392-302] R392-302-21, [montana-37-115] 37.115.1007
/// Throws:   figures::NotComputed where outlets is not a whole number of one or more
[[nodiscard]] CoverFlow cover_flow(DrainCovers const& drains);

/// What it means, the worst first. `unblockable`: the outlet is too large for a body to block.
[[nodiscard]] std::string cover_flow_in_words(CoverFlow const& flow, std::optional<CoverState> state, bool unblockable);

/// What one published rule says of covers: data/circulation/drain_covers.yaml.
struct CoverRule
{
    std::string where;
    std::string says;
    reference::Cited source;
    static fields::Record<CoverRule> const& declaration();
};

/// Throws reference::DataProblems where the file is not as declared.
[[nodiscard]] std::vector<CoverRule> cover_rules(reference::Data const& data);
/// All rules in one text, those from memory marked.
[[nodiscard]] std::string cover_rules_in_words(std::vector<CoverRule> const& rules);

} // namespace padwalk::circulation

template <> struct padwalk::fields::words_of<padwalk::circulation::CoverState>
{
    static std::vector<std::string> words() { return {"sound", "missing", "broken_or_loose", "expired", "not_listed"}; }
};
