#pragma once
/// Published limits and rules of circulation, from data/circulation/. They bind where and when their rule says, mostly
/// public pools; for a home they are a yardstick. Local code and the maker's instructions decide.

#include "padwalk/reference/sources.hpp"

#include <optional>
#include <string>
#include <vector>

namespace padwalk::circulation
{

/// Whose water a limit speaks of.
enum class WaterKind
{
    public_pool,
    public_spa,
    wading_pool,
    residential_pool
};

/// How long one turnover may take: data/circulation/turnover.yaml.
struct TurnoverLimit
{
    std::string where;
    WaterKind water = WaterKind::public_pool;
    std::optional<units::Duration> longest;
    std::optional<units::Duration> longest_per_foot;      ///< per foot of mean depth, `longest` being the cap
    std::optional<units::Duration> shortest;              ///< an energy rule: filtering faster is not allowed …
    std::optional<units::VolumeFlow> flow_always_allowed; ///< … unless the flow is no more than this
    std::string note;
    reference::Cited source;
    static fields::Record<TurnoverLimit> const& declaration();
};

/// Longest turnover under one limit; none where it sets no longest or needs a mean depth that is not given.
[[nodiscard]] std::optional<units::Duration> longest_turnover(TurnoverLimit const& limit,
                                                              std::optional<units::Length> mean_depth);

/// How fast water may run in pipes and through drain grates: data/circulation/velocity.yaml.
struct VelocityLimit
{
    std::string where;
    bool residential = false;
    std::optional<units::Velocity> suction;
    std::optional<units::Velocity> discharge;
    std::optional<units::Velocity> copper;
    std::optional<units::Velocity> grate;
    std::string note;
    reference::Cited source;
    static fields::Record<VelocityLimit> const& declaration();
};

enum class FilterMedium
{
    sand,
    cartridge,
    precoat ///< diatomaceous earth and its like
};

/// Flow that a filter's area may carry: data/circulation/filters.yaml. Written there as the flow through one square
/// foot.
struct FilterRateLimit
{
    FilterMedium medium = FilterMedium::sand;
    std::string kind;
    std::string where;
    bool residential = false;
    units::VolumeFlow greatest_per_square_foot{};
    std::optional<units::VolumeFlow> backwash_per_square_foot;
    std::string note;
    reference::Cited source;
    static fields::Record<FilterRateLimit> const& declaration();
    [[nodiscard]] units::Velocity greatest() const; ///< as filter_rate gives it
};

/// Pressure rise over the clean reading, at the same pump speed, from which a filter wants cleaning.
struct CleaningRise
{
    std::string where;
    std::optional<FilterMedium> medium; ///< none: any pressure filter
    units::Pressure low{};
    units::Pressure high{};
    std::string note;
    reference::Cited source;
    static fields::Record<CleaningRise> const& declaration();
};

/// Full-load currents for sizing wire, not for judging a motor: data/circulation/motor_currents.yaml.
struct FullLoadCurrent
{
    units::Power shaft{};
    units::Current at_115_volt{};
    units::Current at_200_volt{};
    units::Current at_208_volt{};
    units::Current at_230_volt{};
    static fields::Record<FullLoadCurrent> const& declaration();
};

/// Bore of a plastic pipe by its trade size: data/circulation/pipes.yaml.
struct PipeBore
{
    units::Length nominal{};
    units::Length schedule_40{};
    units::Length schedule_80{};
    static fields::Record<PipeBore> const& declaration();
};

/// A fitting by its length in bores: K = (L/D) fT.
struct Fitting
{
    std::optional<units::Number> bores;       ///< L/D, times fT of the pipe's size
    std::optional<units::Number> coefficient; ///< or K itself, whatever the size
    reference::Cited source;
    static fields::Record<Fitting> const& declaration();
};

/// fT of one pipe size.
struct TurbulentFactor
{
    units::Length nominal{};
    units::Number factor{};
    static fields::Record<TurbulentFactor> const& declaration();
};

/// A number of the trade with its source: data/circulation/rules.yaml.
struct Rule
{
    units::Number value{};
    std::string meaning;
    reference::Cited source;
    static fields::Record<Rule> const& declaration();
};

struct Rules
{
    Rule kidney_factor;
    Rule good_suction_ratio;
    Rule light_motor_load;
    static fields::Record<Rules> const& declaration();
};

struct Pipes
{
    std::vector<PipeBore> bores;
    reference::Cited bores_source;
    std::vector<TurbulentFactor> turbulent_factors;
    reference::Cited turbulent_factors_source;
    fields::Named<Fitting> fittings;
    static fields::Record<Pipes> const& declaration();

    /// Bore of the trade size; none where the table has no such size.
    [[nodiscard]] std::optional<units::Length> bore(units::Length nominal, int schedule = 40) const;
    /// Trade size in the table whose schedule 40 bore comes nearest to this one. Throws std::logic_error for no sizes.
    [[nodiscard]] units::Length nearest_nominal(units::Length bore) const;
    /// Loss coefficient of one fitting in a trade size; none where fitting or size is not in the table.
    [[nodiscard]] std::optional<units::Number> loss_coefficient(std::string_view fitting, units::Length nominal) const;
};

/// A pipe by what its velocity limit goes by.
enum class PipeSide
{
    suction,
    discharge,
    copper
};

/// How a figure stands to every published limit of its sort, each with the place whose it is: 'Nevada public pools: 6
/// ft/s (kept)'. Rows from memory say so. Rows that need a mean depth that is not given say that.
[[nodiscard]] std::string turnover_in_words(units::Duration turnover, WaterKind water,
                                            std::optional<units::Length> mean_depth, units::VolumeFlow flow,
                                            std::vector<TurnoverLimit> const& limits);
[[nodiscard]] std::string velocity_in_words(units::Velocity velocity, PipeSide side,
                                            std::vector<VelocityLimit> const& limits);
[[nodiscard]] std::string filter_rate_in_words(units::Velocity rate, FilterMedium medium,
                                               std::vector<FilterRateLimit> const& limits);

/// Each reads its file once; all throw reference::DataProblems where it is not as declared.
[[nodiscard]] std::vector<TurnoverLimit> turnover_limits(reference::Data const& data);
[[nodiscard]] std::vector<VelocityLimit> velocity_limits(reference::Data const& data);
[[nodiscard]] std::vector<FilterRateLimit> filter_rate_limits(reference::Data const& data);
[[nodiscard]] std::vector<CleaningRise> cleaning_rises(reference::Data const& data);
[[nodiscard]] std::vector<FullLoadCurrent> full_load_currents(reference::Data const& data);
[[nodiscard]] Pipes pipes(reference::Data const& data);
[[nodiscard]] Rules rules(reference::Data const& data);

} // namespace padwalk::circulation

template <> struct padwalk::fields::words_of<padwalk::circulation::WaterKind>
{
    static std::vector<std::string> words() { return {"public_pool", "public_spa", "wading_pool", "residential_pool"}; }
};

template <> struct padwalk::fields::words_of<padwalk::circulation::PipeSide>
{
    static std::vector<std::string> words() { return {"suction", "discharge", "copper"}; }
};

template <> struct padwalk::fields::words_of<padwalk::circulation::FilterMedium>
{
    static std::vector<std::string> words() { return {"sand", "cartridge", "precoat"}; }
};
