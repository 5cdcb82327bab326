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

/// The state whose licence classes are named at each trade sent: data/licences.
enum class LicencesOf
{
    california
};

/// What the price of natural gas is for.
enum class GasSold
{
    therm,
    megajoule,
    kilowatt_hour
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
    Taken<units::Fraction> cloud; ///< share of the sky
    std::string weather;
    std::optional<bool> freezing_winters, expansive_soil;
    Taken<units::Number> electricity_price; ///< in any money, for 1 kWh
    Taken<units::Number> gas_price;
    std::optional<GasSold> gas_price_per;
    Taken<units::Number> propane_price; ///< for 1 US gallon
    std::optional<LicencesOf> licences;
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
template <> struct words_of<visit::LicencesOf>
{
    static std::vector<std::string> words() { return {"california"}; }
};
template <> struct words_of<visit::GasSold>
{
    static std::vector<std::string> words() { return {"therm", "MJ", "kWh"}; }
};
} // namespace padwalk::fields
