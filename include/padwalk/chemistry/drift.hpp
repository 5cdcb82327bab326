#pragma once
/// What the water will be in days to months if nothing or something is done: water evaporates and is made up, some is
/// lost as liquid, carbon dioxide leaves, chlorine is used up or added, doses go in. When each reading leaves its band.

#include "padwalk/chemistry/drift_rates.hpp"
#include "padwalk/chemistry/limits.hpp"

#include <string>

namespace padwalk::chemistry
{

/// Standard uncertainties of the readings that the start was made of.
struct StartDoubts
{
    units::PhDifference ph{};
    units::AsCalciumCarbonate alkalinity{};
    units::AsCalciumCarbonate calcium{};
    units::AsSodiumChloride salt{};
    units::AsCyanuricAcid cyanurate{};
    units::AsChlorine free_chlorine{};
};

/// Put in at once, all over the pool.
struct ScheduledDose
{
    units::Duration at{}; ///< after the start; a reading of the same moment is taken first
    Totals added;         ///< per kg of pool water
};

/// What the forecast reads each day.
enum class Followed
{
    ph,
    alkalinity,
    calcium,
    cyanurate,
    free_chlorine,
    salt,
    saturation_index
};

/// A value is outside below low or above high; either may be missing.
struct DriftBand
{
    Followed reading = Followed::ph;
    std::optional<units::Reading> low; ///< of the reading's measure
    std::optional<units::Reading> high;
};

struct DriftRequest
{
    Composition start; ///< with its carbonate (Equilibria::at_ph); its temperature stays
    StartDoubts doubts;
    units::Area area{};
    units::Volume volume{};
    units::Measured<units::Velocity> evaporation;   ///< fall of the level by it, cover included
    units::Measured<units::VolumeFlow> liquid_loss; ///< splash, backwash, leak
    units::Velocity rain{};                         ///< what goes in beyond evaporation and loss runs over
    WaterReadings fill;                             ///< keeps the level
    Sun sun = Sun::full;
    units::Fraction covered{}; ///< of the time
    Aeration aeration = Aeration::sheltered;
    std::optional<units::Velocity> wind; ///< at 10 m, for the open
    Totals added_per_day;                ///< salt cell, feeder: per kg of pool water
    units::AsChlorine demand_per_day{};  ///< chlorine that bathers and dirt use up, beside sun and warmth
    std::vector<ScheduledDose> schedule;
    units::Duration length{}; ///< at most 400 days; whole days are reported
    std::vector<DriftBand> bands;
    int samples = 63; ///< one short of a power of two is spread most evenly; 1: without any doubt
    int steps_per_day = 2;
};

template <units::Quantity Q> struct Spread
{
    Q median{};
    Q low{}; ///< 95 % of the samples lie between
    Q high{};
};

struct DriftDay
{
    units::Duration at{};
    Spread<units::Ph> ph;
    Spread<units::AsCalciumCarbonate> alkalinity;
    Spread<units::AsCalciumCarbonate> calcium;
    Spread<units::AsCyanuricAcid> cyanurate;
    Spread<units::AsChlorine> free_chlorine;
    Spread<units::AsSodiumChloride> salt; ///< salt as such, with the chloride of spent chlorine (readings_of)
    std::optional<Spread<units::Number>> saturation_index; ///< of calcite; none without calcium
};

/// When a reading leaves its band: early, likely and late are the 2.5, 50 and 97.5 % of the samples. Nothing: not
/// within the forecast.
struct BandExit
{
    DriftBand band;
    std::optional<units::Duration> early;
    std::optional<units::Duration> likely;
    std::optional<units::Duration> late;
    units::Fraction share{}; ///< of the samples that leave at all
    bool above = false;      ///< most of those leave it upwards
};

struct Forecast
{
    std::vector<DriftDay> days; ///< the start first
    std::vector<BandExit> exits;
    std::string ended_because; ///< empty, or why the days end before the length asked for
};

/// Forecasts by exact balances of what the water holds.
///
///     evaporation E, loss L, rain R as shares of the volume per day; fill F = max(E + L - R, 0), overflow O = F-E-L+R
///     each total c:  dc/dt = F c_fill - (L + O) c + added + spent;  steady c = c_fill (E + L)/L without rain
///     carbonate:     - (k/depth)(CO2 - CO2 in balance with air), alkalinity untouched
///     chlorine:      - (sun + standing) chlorine - demand; each mol spent makes a mol of chloride and takes an
///                    equivalent of alkalinity
///
/// Carbonate by an exponential Rosenbrock step of second order, chlorine with a loss that drifts through the step, the
/// rest in closed form; two equilibria a step, and steps that would do much are halved. The samples' start readings,
/// evaporation, loss, transfer velocity, sun and standing loss are spread by a Sobol sequence; same request, same
/// answer.
///
/// Valid:    where Equilibria are. Left out: scale that forms and plaster that dissolves (the index says that they
///           would), algae, combined chlorine, temperature that changes, day and night apart.
/// Accuracy: halving the step moves pH by less than 0.01 and chlorine by less than 1 % in the waters tested; the rates
///           are worth far less, which the intervals say.
/// Throws:   figures::NotComputed for a request without area, volume, days or samples, or no such water at the start
[[nodiscard]] Forecast forecast(Equilibria const& equilibria, DriftRequest const& request, DriftTable const& table);

/// 'above from day 6 (3 to 14)', 'already below', 'likely not within 30 days, at the earliest day 21 (above)', 'not
/// within 30 days'.
[[nodiscard]] std::string exit_in_words(BandExit const& exit, units::Duration length);

/// A salt cell's work: hypochlorite from chloride, and the alkalinity that goes with it until the chlorine is spent.
[[nodiscard]] Totals salt_cell(units::AsChlorine made);

/// What a total goes to when evaporation and loss go on for ever: c_fill (E + L)/L. Throws figures::NotComputed without
/// loss: then there is no end to it.
[[nodiscard]] units::AsCalciumCarbonate plateau(units::AsCalciumCarbonate fill, units::VolumeFlow evaporation,
                                                units::VolumeFlow loss);

} // namespace padwalk::chemistry

template <> struct padwalk::fields::words_of<padwalk::chemistry::Followed>
{
    static std::vector<std::string> words()
    {
        return {"ph", "alkalinity", "calcium", "cyanurate", "free_chlorine", "salt", "saturation_index"};
    }
};
