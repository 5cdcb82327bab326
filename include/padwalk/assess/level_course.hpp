#pragma once
/// How a level that was watched goes on, and what goes through the shell below it.

#include "padwalk/level/level_settling.hpp"
#include "padwalk/visit/water_items.hpp"

namespace padwalk::assess
{

/// Where something goes through the shell, as it was measured.
struct FittingEntry
{
    visit::FittingKind kind = visit::FittingKind::skimmer;
    level::Fitting place;
};

enum class LevelTrend
{
    falling, ///< faster than without a leak
    stopped, ///< falling no faster than without a leak, and it did before
    no_loss, ///< never shown to fall faster than without a leak
    unclear
};

/// How a level went from the mark before the last to the last.
struct LevelCourse
{
    LevelTrend trend = LevelTrend::unclear;
    units::Duration time{};
    units::Measured<units::Length> fall, without_leak; ///< in this time
};

} // namespace padwalk::assess

template <> struct padwalk::fields::words_of<padwalk::assess::LevelTrend>
{
    static std::vector<std::string> words() { return {"falling", "stopped", "no_loss", "unclear"}; }
};
