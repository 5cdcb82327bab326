#pragma once
/// The insides of plan_doses: bands as numbers, the search for amounts, and their walk through the water.
/// Plain doubles are SI: kg, mol/kg, kg/m3 as the reading's kind, pH.

#include "padwalk/chemistry/dose_plan.hpp"

#include <array>
#include <cstddef>
#include <functional>

namespace padwalk::chemistry::planning
{

enum Reading : std::size_t
{
    ph,
    alkalinity,
    carbonate_alkalinity,
    calcium,
    cyanurate,
    free_chlorine,
    borate,
    salt,
    sulfate,
    saturation,
    reading_count
};

using Values = std::array<double, reading_count>;

[[nodiscard]] Values values_of(State const& state);

/// Targets as numbers, widened by what is ignored; infinite where there is no limit, aim not a number where none.
struct Bands
{
    Values low{}, aim{}, high{};
    double most_cyanurate = 0.0; ///< per free chlorine; infinite where no limit
    double aim_cyanurate = 0.0;

    [[nodiscard]] double low_of(Reading reading, Values const& values) const;
    [[nodiscard]] double aim_of(Reading reading, Values const& values) const;
    /// How far outside, as a share of what the reading's band is wide; 0 inside.
    [[nodiscard]] double outside(Reading reading, Values const& values) const;
    [[nodiscard]] double outside(Values const& values) const; ///< the sum of all
    [[nodiscard]] bool inside(Values const& values) const { return outside(values) <= 0.0; }
    /// 0 where everything is at its aim, rising faster near the edges.
    [[nodiscard]] double distance(Values const& values) const;
};

[[nodiscard]] Bands bands_of(Targets const& targets, IgnoreWithin const& ignore, Values const& now);

/// So many mol of active substance per kg of water.
struct Portion
{
    Product const* product = nullptr;
    double active = 0.0;
};

/// Amounts that lead into the band, before rounding. All but replacement and falling chlorine.
struct Recipe
{
    std::vector<Portion> portions;
    double carbon_out = 0.0; ///< by aeration
    bool aerate = false;
    bool spare = false; ///< the least that leads into the band, for where the aims take too much

    [[nodiscard]] int actions() const { return static_cast<int>(portions.size()) + (aerate ? 1 : 0); }
    [[nodiscard]] Composition onto(Composition water) const;
};

/// What every part of the planning needs to know.
struct Problem
{
    Equilibria const& equilibria;
    ProductTable const& table;
    PlanRequest const& request;
    Bands bands;
    std::vector<Product const*> products; ///< the best of each kind, in the order of preference
    State now;
    Composition fill;

    /// Price of one kg where it is given.
    [[nodiscard]] std::optional<double> price(Product const& product) const;
    [[nodiscard]] double rank(Product const& product) const;
    [[nodiscard]] double mass(Portion const& portion) const;
    [[nodiscard]] std::vector<Product const*> of(Purpose purpose) const;
    /// The state, or nothing where no such water exists.
    [[nodiscard]] std::optional<State> state(Composition const& water) const;
    [[nodiscard]] std::optional<State> state_at(Composition const& water, double at_ph) const;
};

[[nodiscard]] Problem problem_of(Equilibria const& equilibria, ProductTable const& table, PlanRequest const& request);

/// Log10 of the pressure of carbon dioxide in air, atm: aeration leads no further.
constexpr double air_pressure = -3.4;

/// What is dosed whatever happens to pH and alkalinity, in every way there is: chlorine of each kind that is at hand,
/// calcium to its aim or elsewhere in its band, cyanurate, borate, salt. The way to be tried first comes first.
[[nodiscard]] std::vector<Recipe> setups(Problem const& problem, Composition const& water);

/// The setup with so many levers on pH and alkalinity (0, 1 or 2 of acid, bicarbonate, soda ash, borax, aeration) that
/// leads into the band. For each set of levers the amounts that end nearest the aims, then those that weigh least.
[[nodiscard]] std::vector<Recipe> balanced(Problem const& problem, Composition const& water, Recipe const& setup,
                                           int levers);

/// Calls `accept` with recipes that lead into the band, fewest actions first, until it says yes; false if it never
/// does.
bool search(Problem const& problem, Composition const& water, std::function<bool(Recipe const&)> const& accept);

/// A step with states; words come later.
struct Move
{
    DoseStep::Kind kind = DoseStep::Kind::dose;
    Product const* product = nullptr;
    std::optional<MeasuredAmount> amount;
    double share = 0.0;
    int part = 1, parts = 1;
    State before, after;
};

/// Replacement of this share of the water and chlorine brought down; empty where neither is needed.
struct Start
{
    std::vector<Move> moves;
    State state;
};
[[nodiscard]] Start start(Problem const& problem, double share);

/// The recipe in measurable doses, walked through; nothing where they miss the band, by household measures or by
/// metric ones, or take too many parts.
[[nodiscard]] std::optional<std::vector<Move>> walk(Problem const& problem, State const& from, Recipe const& recipe);

/// Least share of the water that must be replaced whatever is dosed, and the reading that asks for it.
struct Replacement
{
    double share = 0.0; ///< 0: none; above 1: the fill water is itself too high
    Reading because = calcium;
};
[[nodiscard]] Replacement least_replacement(Problem const& problem);

/// Words.
[[nodiscard]] std::string name_of(Reading reading);
[[nodiscard]] std::string shown(Reading reading, double value);
[[nodiscard]] std::vector<std::string> outside_in_words(Problem const& problem, Values const& values);
[[nodiscard]] WaterAt water_at(State const& state);
[[nodiscard]] DoseStep step_in_words(Problem const& problem, Move const& move);
[[nodiscard]] std::vector<std::string> general_sentences();

} // namespace padwalk::chemistry::planning
