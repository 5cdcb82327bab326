#pragma once
/// The rows of data/chemistry/water_constants.yaml of one choice of sets, ready for the solver.

#include "padwalk/chemistry/equilibria.hpp"

#include <cmath>
#include <cstdint>
#include <limits>

namespace padwalk::chemistry
{

/// What species are made of. The first species of a table are these, in this order; water is not among them.
enum Component : std::size_t
{
    hydrogen,
    calcium,
    magnesium,
    sodium,
    chloride,
    sulfate,
    carbonate,
    boric_acid,
    cyanuric_acid,
    hypochlorous_acid,
    component_count
};

/// Powers of the temperature in kelvin that the expressions for log K use.
struct TemperatureTerms
{
    explicit TemperatureTerms(double kelvin)
        : terms{1.0, kelvin, 1 / kelvin, std::log10(kelvin), 1 / (kelvin * kelvin), kelvin * kelvin}
    {
    }
    std::array<double, 6> terms;
};

/// Coefficients of ln K (natural) over TemperatureTerms.
struct LogK
{
    std::array<double, 6> a{};
    [[nodiscard]] double at(TemperatureTerms const& t) const
    {
        return a[0] + a[1] * t.terms[1] + a[2] * t.terms[2] + a[3] * t.terms[3] + a[4] * t.terms[4] + a[5] * t.terms[5];
    }
    LogK& operator+=(LogK const& other);
};

/// Makeup of a species or mineral: components and water.
struct Makeup
{
    std::array<int, component_count> nu{};
    int water = 0;
    void add(Makeup const& other, int times);
    [[nodiscard]] int charge() const;
    /// Equivalents counted from carbon dioxide, water and the neutral acids.
    [[nodiscard]] int alkalinity() const { return 2 * nu[carbonate] - nu[hydrogen]; }
};

/// How an activity coefficient depends on ionic strength; species that share one share its value.
struct ActivityLaw
{
    int charge = 0;
    bool sized = false; ///< extended Debye-Hückel with size and slope; else Davies for ions
    double size = 0.0;  ///< angstrom
    double slope = 0.0; ///< kg/mol
    friend bool operator==(ActivityLaw const& x, ActivityLaw const& y)
    {
        return x.charge == y.charge && x.sized == y.sized && x.size == y.size && x.slope == y.slope;
    }
};

struct Species
{
    std::string name;
    Makeup makeup;
    LogK log_k;
    std::size_t law = 0; ///< in SpeciesTable::laws
    int charge = 0;
};

/// What the solver's innermost loop needs of a species, packed close: 64 bytes.
struct Walk
{
    std::array<double, 4> count{};           ///< of each part
    double half_square_charge = 0.0;         ///< its weight in ionic strength
    double water = 0.0;                      ///< count of water
    std::array<std::uint8_t, 4> component{}; ///< of each part
    std::uint8_t parts = 0;
    std::uint8_t law = 0;
};

inline constexpr std::size_t most_species = 48; ///< of any table; State holds as many
inline constexpr std::size_t most_laws = 24;

struct Reaction
{
    std::string name;
    Makeup makeup;
    LogK log_k;
};

struct SpeciesTable
{
    std::vector<Species> species; ///< the components first
    std::vector<Walk> walk;       ///< one for each species
    std::vector<ActivityLaw> laws;
    std::array<Reaction, 3> minerals; ///< by Mineral
    Reaction carbon_dioxide_gas;      ///< dissolved over fugacity in atm
    std::array<double, 3> debye_a{}, debye_b{};
    /// Places in species. Of the last two, absent() where a set has none.
    std::size_t hydroxide = 0, bicarbonate = 0, dissolved_co2 = 0, borate = 0, cyanurate = 0, hypochlorite = 0;

    static constexpr std::size_t absent = std::numeric_limits<std::size_t>::max();
    /// Place of a species by name, or absent.
    [[nodiscard]] std::size_t find(std::string_view name) const;

    [[nodiscard]] double debye_huckel_a(double celsius) const
    {
        return debye_a[0] + celsius * (debye_a[1] + celsius * debye_a[2]);
    }
    [[nodiscard]] double debye_huckel_b(double celsius) const
    {
        return debye_b[0] + celsius * (debye_b[1] + celsius * debye_b[2]);
    }
};

/// The tables of these choices of sets; the file is read once. Throws reference::DataProblems where a row names what is
/// not there or a set lacks what the solver needs.
[[nodiscard]] std::vector<SpeciesTable> species_tables(reference::Data const& data,
                                                       std::vector<std::pair<CarbonateSet, CyanurateSet>> const& sets);

} // namespace padwalk::chemistry
