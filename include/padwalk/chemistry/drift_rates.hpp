#pragma once
/// How fast pool water changes by itself: carbon dioxide through its surface, chlorine to sun and warmth.

#include "padwalk/chemistry/equilibria.hpp"
#include "padwalk/reference/sources.hpp"

#include <optional>
#include <vector>

namespace padwalk::chemistry
{

/// What stirs the surface.
enum class Aeration
{
    none,      ///< no exchange at all: a closed vessel
    sheltered, ///< between houses and fences, circulation only
    open,      ///< wind reaches the water
    features,  ///< a waterfall, deck jets, or the bubbles of a salt cell
    jets       ///< a spa with its jets and air on
};

/// How much sun reaches the water, of a clear summer day on the whole surface.
enum class Sun
{
    none, ///< indoors
    shade,
    part,
    full
};

struct TransferRow
{
    Aeration aeration = Aeration::none;
    units::Velocity velocity{}; ///< at a Schmidt number of 600
    units::Number spread{};     ///< standard uncertainty of its natural logarithm
    reference::Cited source;
    static fields::Record<TransferRow> const& declaration();
};

struct SunRow
{
    Sun sun = Sun::none;
    units::Fraction share{};
    reference::Cited source;
    static fields::Record<SunRow> const& declaration();
};

/// What cyanurate leaves of the loss to sun.
struct ShieldRow
{
    units::AsCyanuricAcid cyanurate{};
    units::Number factor{};
    reference::Cited source;
    static fields::Record<ShieldRow> const& declaration();
};

/// Sun on chlorine without cyanurate.
struct Sunlight
{
    units::Number hypochlorous_per_second{}; ///< at noon at the surface
    units::Number hypochlorite_per_second{};
    reference::Cited source;
    units::Duration day_length{};
    units::Length light_depth{}; ///< over which ultraviolet falls to 1/e
    units::Number spread{};      ///< standard uncertainty of the logarithm of the loss
    reference::Cited depth_source;
    std::vector<SunRow> sun;
    std::vector<ShieldRow> shield;
    static fields::Record<Sunlight> const& declaration();
};

/// Chlorine that a clean, dark pool without bathers uses up: a share of what there is, more in warm water.
struct StandingLoss
{
    units::Number per_day{};
    units::Temperature at{};
    units::TemperatureDifference doubling{};
    units::Number spread{}; ///< standard uncertainty of its natural logarithm
    reference::Cited source;
    static fields::Record<StandingLoss> const& declaration();
};

/// What a floating cover lets through.
struct Cover
{
    units::Fraction gas{};
    units::Fraction light{};
    reference::Cited source;
    static fields::Record<Cover> const& declaration();
};

struct DriftTable
{
    units::GasFraction carbon_dioxide{}; ///< in the air
    reference::Cited carbon_dioxide_source;
    std::vector<TransferRow> transfer;
    units::Number wind_factor{}; ///< cm/h per (m/s)2, wind at 10 m, Schmidt number 660
    reference::Cited wind_source;
    Sunlight sunlight;
    StandingLoss standing_loss;
    Cover cover;
    fields::Named<reference::Source> sources;
    static fields::Record<DriftTable> const& declaration();
};

/// data/chemistry/drift.yaml; throws reference::DataProblems.
[[nodiscard]] DriftTable drift_table(reference::Data const& data);

/// Velocity at which carbon dioxide crosses the surface.
///
///     k = k600 (Sc/600)^-1/2,   k600 of the row, or of the wind where that is more: 0.251 U10^2 (600/660)^-1/2 cm/h
///     Sc = 600 (nu/nu20)(mu/mu20)(293.15 K/T): viscosity over diffusivity, the latter going as T/mu
///
/// Valid:  0 to 45 °C; within 3 % of the polynomial of 1992 in common use from 10 to 30 °C (that one from memory)
/// Source: [wanninkhof-2014-reprint] for wind; rows as marked, most of them judgement
[[nodiscard]] units::Velocity transfer_velocity(Aeration aeration, std::optional<units::Velocity> wind,
                                                units::Temperature water, DriftTable const& table);

/// log10 of the pressure of carbon dioxide in the air at sea level, atm.
[[nodiscard]] double air_carbon_dioxide(DriftTable const& table);

/// Share of free chlorine that noon sun destroys at the surface, without cyanurate's help or hindrance beyond holding
/// chlorine: hypochlorous acid and hypochlorite by their own rates, held chlorine not at all.
///
/// Source: [nowell-hoigne-1992]
[[nodiscard]] units::Frequency surface_photolysis(State const& water, DriftTable const& table);

/// The same averaged over day and night and over the depth:
/// surface x (2/pi)(day length/24 h) x (1 - exp(-d/D))/(d/D), D the depth of light.
[[nodiscard]] units::Frequency mean_photolysis(State const& water, units::Length depth, DriftTable const& table);

/// What cyanurate leaves of bare chlorine's loss to sun, by the published rows: straight lines of its logarithm; the
/// last row holds above.
[[nodiscard]] double published_shielding(units::AsCyanuricAcid cyanurate, DriftTable const& table);

/// Loss of free chlorine to sun: only what cyanurate does not hold suffers (lean 0), or the published losses (lean 1).
/// The two disagree: the published are tenfold more at 35 mg/L of cyanurate and fivefold less at 138. Other leans
/// weight the logarithms, below 0 away from the published; never more than bare chlorine's loss. A forecast takes 0
/// with a standard uncertainty of 0.5 (judgement).
[[nodiscard]] units::Frequency sun_loss(State const& water, units::Length depth, Sun sun, units::Fraction lean,
                                        DriftTable const& table);

/// Loss of free chlorine in the dark: per_day x 2^((T - at)/doubling).
[[nodiscard]] units::Frequency standing_loss(units::Temperature water, DriftTable const& table);

} // namespace padwalk::chemistry

template <> struct padwalk::fields::words_of<padwalk::chemistry::Aeration>
{
    static std::vector<std::string> words() { return {"none", "sheltered", "open", "features", "jets"}; }
};
template <> struct padwalk::fields::words_of<padwalk::chemistry::Sun>
{
    static std::vector<std::string> words() { return {"none", "shade", "part", "full"}; }
};
