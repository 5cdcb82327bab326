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
    std::string body; ///< who says so
    Bounds bounds;
    std::string note; ///< narrower venue, condition, doubt about the row
    reference::Cited source;
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

/// The published rows of a parameter that hold at a venue (rows for all venues included).
[[nodiscard]] std::vector<Limit> limits_for(std::vector<Limit> const& limits, Parameter parameter, Venue venue);

/// The band to use; nullptr where there is none. `stabilizer` is none or present; either: not known, the stricter
/// holds.
[[nodiscard]] WorkingBand const* working_band(std::vector<WorkingBand> const& bands, Parameter parameter, Venue venue,
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
