#pragma once
/// The file of one walk: reading it, and nothing else.

#include "padwalk/visit/items.hpp"

namespace padwalk::visit
{

enum class By
{
    inspector,
    technician,
    owner
};

struct Visit
{
    std::optional<By> by;
    std::optional<fields::Moment> on;
    std::string property;
    Taken<units::Length> altitude;
    Taken<units::Temperature> air_temperature;
    Taken<units::Fraction> humidity;
    Taken<units::Velocity> wind;
    std::string weather;
    std::optional<bool> freezing_winters, expansive_soil;
    Taken<units::Number> electricity_price; ///< in any money, for 1 kWh
    Named<Water> waters;
    Named<Loop> loops;
    Named<Heater> heaters;
    Named<FillValve> fill_valves;
    std::optional<Electrical> electrical;
    std::vector<Noticed> noticed;
    std::vector<NotTested> not_tested;
    std::vector<Photo> photos;
    std::string notes;
    static Record<Visit> const& declaration();
};

/// A visit that can be used, with what is odd in it.
struct ReadVisit
{
    Visit visit;
    std::vector<fields::Problem> oddities; ///< possible but unusual values
    std::vector<std::string> blanks;       ///< fields left empty on the sheet
};

/// Reads a visit. Doubt that is not written comes from the instruments.
///
/// Throws: fields::InputProblems, with every problem of the file
[[nodiscard]] ReadVisit read_visit(std::string_view text, fields::Instruments const& instruments);

} // namespace padwalk::visit

namespace padwalk::fields
{
template <> struct words_of<visit::By>
{
    static std::vector<std::string> words() { return {"inspector", "technician", "owner"}; }
};
} // namespace padwalk::fields
