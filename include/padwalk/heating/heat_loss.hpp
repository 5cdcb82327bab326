#pragma once
/// Heat that a pool or spa loses: evaporation, convection, long-wave radiation, the cover, the shell; less the sun.
/// Facts from data/heating/heat_loss.yaml and, for evaporation, data/level/evaporation.yaml.

#include "padwalk/heating/constant.hpp"
#include "padwalk/physics/evaporation.hpp"
#include "padwalk/reference/evaporation_table.hpp"

#include <string>
#include <vector>

namespace padwalk::heating
{

using reference::Activity;
using reference::EvaporationForm;
using reference::EvaporationTable;

enum class Shell
{
    in_ground,
    insulated_cabinet,
    bare
};

/// Heat through each square metre of a kind of shell for each kelvin.
struct ShellRow
{
    Shell shell = Shell::in_ground;
    units::Number conductance{}; ///< W/(m2 K)
    std::optional<units::Number> doubt;
    std::string meaning;
    reference::Cited source;
    static fields::Record<ShellRow> const& declaration();
};

/// data/heating/heat_loss.yaml
struct LossTable
{
    Constant bowen, thin_air, emissivity, sky_clear, sky_dew, cloud_1, cloud_2, cloud_3, sun_absorbed, cover_cut,
        outer_film;
    std::vector<ShellRow> shells;
    fields::Named<reference::Source> sources;
    static fields::Record<LossTable> const& declaration();
};

struct LossFacts
{
    LossTable table;
    EvaporationTable evaporation;
};

/// Throws reference::DataProblems.
[[nodiscard]] LossFacts loss_facts(reference::Data const& data);

/// Air, sky and sun over the water.
struct Surroundings
{
    units::Temperature air_temperature{};
    units::Fraction humidity{};
    units::Velocity wind{}; ///< at the water
    units::Length altitude{};
    units::Fraction sky_share{};                    ///< of what the water sees; the rest is as warm as the air
    units::Fraction cloud{};                        ///< share of the sky covered
    std::optional<units::Temperature> sky_measured; ///< instead of the model's
    units::HeatFlux sun{};                          ///< on a level square metre
};

/// The water's surface, what lies over it and what holds it.
struct WaterBody
{
    units::Area area{};
    units::Area falling_area{}; ///< both faces of falling sheets: stirred water that no cover hides
    Activity activity = Activity::still;
    EvaporationForm form = EvaporationForm::ashrae;
    units::Number evaporation_scale = units::Number::from_value(1.0); ///< how far off the form may be
    units::Fraction covered{};                                        ///< share of the surface
    units::Number cover_r{};                                          ///< ft2 h degF/Btu
    Shell shell = Shell::in_ground;
    units::Area shell_area{};
    units::Temperature behind_shell{}; ///< soil, or the air of a cabinet
};

/// Each part above zero leaves the water; the sun enters.
struct HeatLoss
{
    units::Power evaporation{}; ///< of the surface, covered and open
    units::Power falling_water{};
    units::Power convection{};
    units::Power radiation{};
    units::Power cover{};
    units::Power shell{};
    units::Power sun{};
    units::MassFlow water{}; ///< that evaporates, falling sheets too

    /// What the heater has to make good: all parts less the sun.
    [[nodiscard]] units::Power total() const;
};

/// Temperature at which a black sky would send down as much as the real one:
///
///     T = Ta ε^(1/4),   ε = (0.787 + 0.764 ln(Td/273 K)) (1 + 0.0224 N - 0.0035 N2 + 0.00028 N3)
///
/// Ta air, Td its dew point, N tenths of the sky under cloud.
///
/// Valid:    air -40 to 60 °C near the ground; ε is not let above 1
/// Source:   [clark-allen-1978] clear sky, [walton-1983] cloud, both from memory
/// Throws:   OutOfRange, also in air too dry to have a dew point above -40 °C
[[nodiscard]] units::Temperature sky_temperature(units::Temperature air, units::Fraction humidity,
                                                 units::Fraction cloud, LossTable const& table);

/// Wetted shell of a water, taken as a square box: area + 4 √area · volume/area.
///
/// Throws:   figures::NotComputed without area
[[nodiscard]] units::Area shell_area(units::Volume volume, units::Area area);

/// Heat lost by the water, part by part:
///
///     evaporation  f · s · (h0 + h1 v)(pw - pa) · (p0/p)^0.25 · open,    open = 1 - covered · 0.95
///     convection   f · s · (h0 + h1 v) · 66 Pa/K · (p/p0)^0.75 · (Tw - Ta) · (1 - covered)     (Bowen's ratio)
///     radiation    ε σ (Tw⁴ - F Tsky⁴ - (1 - F) Ta⁴) · (1 - covered)
///     cover        (Tw - Ta)/(R + 0.04 m2 K/W) · covered
///     shell        U · shell area · (Tw - T behind)
///     sun          0.8 · sun · (1 - covered)
///
/// f factor of the activity, s scale, p the pressure of the air at the altitude. Falling sheets evaporate and convect
/// as stirred water does, by their own area. Where vapour condenses on the water evaporation is below zero: the same
/// law backwards, for which no form was made.
///
/// Valid:    water 0 to 60 °C; wind as measured to 2.2 m/s. Left out: rain, fresh water added, the sky's pull on a
///           cover, sun through a cover, radiation of falling sheets
/// Accuracy: evaporation about 15 % (one standard uncertainty, judged); 0.5 % of the worked example
/// Source:   [ashrae-trans-1998-pools], [smith-lof-jones-1994], Bowen's law and the rest by the rows of the table
/// Throws:   OutOfRange
[[nodiscard]] HeatLoss heat_loss(units::Temperature water, WaterBody const& body, Surroundings const& around,
                                 LossFacts const& facts);

} // namespace padwalk::heating

template <> struct padwalk::fields::words_of<padwalk::heating::Shell>
{
    static std::vector<std::string> words() { return {"in_ground", "insulated_cabinet", "bare"}; }
};
