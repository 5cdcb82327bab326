#pragma once
/// Published forms of a pool's evaporation, as their authors print them: facts for the level and the heating room
/// alike.

#include "padwalk/reference/data.hpp"
#include "padwalk/reference/sources.hpp"
#include "padwalk/units/quantity.hpp"

#include <vector>

namespace padwalk::reference
{

/// Which published form is used.
enum class EvaporationForm
{
    ashrae, ///< W = (95 + 0.425 v)(pw - pa)/Y, times the factor of the activity
    smith   ///< measured on a quiet outdoor pool; the factor of the activity is then relative to a quiet pool
};

/// What goes on in the water.
enum class Activity
{
    still,   ///< nobody in it, no jets
    jets,    ///< jets, falls or bubbles stir the surface
    use,     ///< 15 to 20 swimmers per 1000 ft2
    equation ///< the form as printed: factor 1 of the ashrae form
};

struct ActivityFactor
{
    Activity activity = Activity::still;
    units::Number factor{}; ///< of the ashrae form
    Cited source;
    static fields::Record<ActivityFactor> const& declaration();
};

/// data/level/evaporation.yaml
struct EvaporationTable
{
    units::Number ashrae_still{}; ///< 95, Btu/(h ft2 inHg)
    units::Number ashrae_wind{};  ///< 0.425, the same per ft/min
    Cited ashrae_source;
    units::Number smith_still{}; ///< 30.6, kJ/(h m2 mmHg)
    units::Number smith_wind{};  ///< 32.1, the same per m/s
    Cited smith_source;
    std::vector<ActivityFactor> activity;
    fields::Named<Source> sources;
    static fields::Record<EvaporationTable> const& declaration();

    /// Relative to the form: of the ashrae equation, or of the quiet pool for smith.
    [[nodiscard]] double factor(EvaporationForm form, Activity doing) const;
};

/// Throws DataProblems.
[[nodiscard]] EvaporationTable evaporation_table(Data const& data);

} // namespace padwalk::reference

template <> struct padwalk::fields::words_of<padwalk::reference::EvaporationForm>
{
    static std::vector<std::string> words() { return {"ashrae", "smith"}; }
};
template <> struct padwalk::fields::words_of<padwalk::reference::Activity>
{
    static std::vector<std::string> words() { return {"still", "jets", "use", "equation"}; }
};
