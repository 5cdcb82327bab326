#pragma once
/// Published limits of pool and spa water, by body, and the ones that an assessment uses unless told otherwise.

#include "padwalk/reference/sources.hpp"
#include "padwalk/units/reading.hpp"

#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

namespace padwalk::chemistry
{

enum class Parameter
{
    ph,
    free_chlorine,
    combined_chlorine,
    bromine,
    alkalinity,
    calcium,
    cyanurate,
    cyanurate_to_chlorine,
    dissolved_solids,
    copper,
    iron,
    sulfate,
    water_temperature,
    saturation_index
};

/// What a parameter is measured as; bromine, metals, sulfate and solids are plain concentrations.
[[nodiscard]] units::Measure measure_of(Parameter parameter);

enum class Venue
{
    all,
    pool,
    spa,
    other ///< wading, therapy, slides, sprays …
};

/// When a row holds.
enum class Stabilizer
{
    either,
    none, ///< no cyanurate in the water
    present
};

/// Numbers of one row, each a reading of its parameter's measure. Nothing where the body sets none.
struct Bounds
{
    std::optional<units::Reading> low; ///< below is not allowed
    std::optional<units::Reading> ideal_low;
    std::optional<units::Reading> ideal_high;
    std::optional<units::Reading> high; ///< above is not allowed

    /// A bound as its quantity; std::logic_error if it is of another measure.
    template <units::Quantity Q> [[nodiscard]] static std::optional<Q> as(std::optional<units::Reading> const& bound)
    {
        if (!bound)
            return std::nullopt;
        if (bound->measure != units::measure_of<Q>::value)
            throw std::logic_error("a limit is of another measure");
        return units::of_si<Q>(bound->value);
    }
};

/// One published limit.
struct Limit
{
    Parameter parameter = Parameter::ph;
    Venue venue = Venue::all;
    Stabilizer stabilizer = Stabilizer::either;
    std::string set;  ///< id of the set it belongs to: 'new_york'
    std::string body; ///< who says so
    Bounds bounds;
    std::string note;        ///< narrower venue, condition, doubt about the row
    reference::Cited source; ///< seen: memory is not confirmed, to be said wherever the row is shown
};

/// Rows of one body that may lead.
struct LimitSet
{
    std::string id;   ///< 'new_york'
    std::string name; ///< 'New York'
};

/// What an assessment holds a reading against by default. `source` is for low and high, `ideal_source` for the ideal.
struct WorkingBand
{
    Parameter parameter = Parameter::ph;
    Venue venue = Venue::pool;
    Stabilizer stabilizer = Stabilizer::either;
    Bounds bounds;
    std::string because; ///< why this row and not another
    reference::Cited source;
    std::optional<reference::Cited> ideal_source;
};

/// Every row of data/chemistry/limits.yaml, in its order. Throws reference::DataProblems for a bound that is no reading
/// of its parameter, or bounds out of order.
[[nodiscard]] std::vector<Limit> published_limits(reference::Data const& data);
[[nodiscard]] std::vector<WorkingBand> working_bands(reference::Data const& data);

/// The sets that may be chosen to lead: those that limit pH and free chlorine, of a pool or a spa, on some side.
/// In the order of the data. Throws as published_limits.
[[nodiscard]] std::vector<LimitSet> limit_sets(reference::Data const& data);

/// The published rows of a parameter that hold at a venue (rows for all venues included).
[[nodiscard]] std::vector<Limit> limits_for(std::vector<Limit> const& limits, Parameter parameter, Venue venue);

/// The band to use; nullptr where there is none. `stabilizer` is none or present; either: not known, the stricter
/// holds.
[[nodiscard]] WorkingBand const* working_band(std::vector<WorkingBand> const& bands, Parameter parameter, Venue venue,
                                              Stabilizer stabilizer = Stabilizer::either);

enum class Standing
{
    within,
    below, ///< of what is allowed
    above
};

/// What one published row says of a reading.
struct LimitCompared
{
    Limit limit;
    Standing standing = Standing::within;
};

/// A reading against every row that limits it there, in the order of the data. Rows that only recommend a range are
/// left out, and rows for water with, or without, cyanurate where it is known that they do not hold. The reading is
/// taken at its value, without its doubt; on a limit is within.
///
/// Throws: std::logic_error for a reading that is not of the parameter's measure
[[nodiscard]] std::vector<LimitCompared> compared(std::vector<Limit> const& limits, Parameter parameter, Venue venue,
                                                  units::Reading const& reading,
                                                  Stabilizer stabilizer = Stabilizer::either);

/// One end of what is allowed, and whose it is.
struct LeadingBound
{
    units::Reading bound;
    std::string body;
    reference::Cited source;
    bool chosen = false; ///< by the set that leads; else from the working band
};

struct LeadingBand
{
    std::optional<LeadingBound> low, high;
};

/// The limits to judge by where `set` leads: each end from the set where it has one, else from the working band. Of
/// several rows of a set, one that was seen goes before one from memory, one for the venue before one for all, then the
/// first; where it is not known whether there is cyanurate, the row that asks for more. Without a set (empty) or with
/// one that has no row, this is the working band.
[[nodiscard]] LeadingBand leading_band(std::vector<Limit> const& limits, std::vector<WorkingBand> const& bands,
                                       std::string const& set, Parameter parameter, Venue venue,
                                       Stabilizer stabilizer = Stabilizer::either);

} // namespace padwalk::chemistry

template <> struct padwalk::fields::words_of<padwalk::chemistry::Parameter>
{
    static std::vector<std::string> words()
    {
        return {"ph",      "free_chlorine", "combined_chlorine",     "bromine",          "alkalinity",
                "calcium", "cyanurate",     "cyanurate_to_chlorine", "dissolved_solids", "copper",
                "iron",    "sulfate",       "water_temperature",     "saturation_index"};
    }
};
template <> struct padwalk::fields::words_of<padwalk::chemistry::Venue>
{
    static std::vector<std::string> words() { return {"all", "pool", "spa", "other"}; }
};
template <> struct padwalk::fields::words_of<padwalk::chemistry::Stabilizer>
{
    static std::vector<std::string> words() { return {"either", "none", "present"}; }
};
