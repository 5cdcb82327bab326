#pragma once
/// How fast an open pool evaporates.

#include "padwalk/physics/evaporation.hpp"
#include "padwalk/reference/sources.hpp"
#include "padwalk/units/quantity.hpp"

#include <string>
#include <vector>

namespace padwalk::level
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
    reference::Cited source;
    static fields::Record<ActivityFactor> const& declaration();
};

/// data/level/evaporation.yaml
struct EvaporationTable
{
    units::Number ashrae_still{}; ///< 95, Btu/(h ft2 inHg)
    units::Number ashrae_wind{};  ///< 0.425, the same per ft/min
    reference::Cited ashrae_source;
    units::Number smith_still{}; ///< 30.6, kJ/(h m2 mmHg)
    units::Number smith_wind{};  ///< 32.1, the same per m/s
    reference::Cited smith_source;
    std::vector<ActivityFactor> activity;
    fields::Named<reference::Source> sources;
    static fields::Record<EvaporationTable> const& declaration();

    [[nodiscard]] physics::EvaporationCoefficients coefficients(EvaporationForm form) const;
    /// Relative to the form: of the ashrae equation, or of the quiet pool for smith.
    [[nodiscard]] double factor(EvaporationForm form, Activity doing) const;
};

[[nodiscard]] EvaporationTable evaporation_table(reference::Data const& data);

using physics::OpenWater;

/// Water leaving each square metre, kg/(m2 s).
///
///     flux = factor·(h0 + h1 v)(pw(water) - humidity·ps(air))/L(water)
///
/// pw, ps vapour pressures and L the latent heat by IAPWS-IF97; v the wind at the surface. Zero where both pressures
/// are equal.
///
/// Valid:    water 0 to 60 °C; forms made from pools with wind to 2.2 m/s at the surface, near sea level (no air
/// pressure
///           stands in either form; thin air evaporates more)
/// Accuracy: 0.5 % of values computed elsewhere from the printed form; the form itself is good to about 15 % (one
///           standard uncertainty, judged from the spread of published forms)
/// Source:   [ashrae-trans-1998-pools], [smith-lof-jones-1994]
/// Throws:   physics::OutOfRange; figures::NotComputed where vapour would condense on the water
[[nodiscard]] units::MassFlux evaporation_flux(OpenWater const& open, EvaporationForm form, Activity activity,
                                               EvaporationTable const& table);

} // namespace padwalk::level

template <> struct padwalk::fields::words_of<padwalk::level::EvaporationForm>
{
    static std::vector<std::string> words() { return {"ashrae", "smith"}; }
};
template <> struct padwalk::fields::words_of<padwalk::level::Activity>
{
    static std::vector<std::string> words() { return {"still", "jets", "use", "equation"}; }
};
