#pragma once
/// Newton's method on the logarithms of the components' activities and on ionic strength.
///
/// What is asked of carbonate and hydrogen differs (measured pH, known totals, a carbon dioxide pressure, saturation
/// with calcite, a titration); what is asked of every other total is its mass balance. Doubles here are mol per kg of
/// water and natural logarithms.

#include "species_table.hpp"

namespace padwalk::chemistry
{

/// What closes the equations beside the mass balances.
struct Closure
{
    enum class Kind
    {
        ph_alkalinity, ///< hydrogen given, alkalinity kept: carbonate follows
        ph_carbonate,  ///< hydrogen given, carbonate kept: alkalinity follows, acid or caustic made up the difference
        totals,        ///< alkalinity and carbonate kept: hydrogen follows
        gas,           ///< alkalinity kept, fugacity of carbon dioxide given
        calcite        ///< calcite just saturated; alkalinity - 2 carbonate and calcium - carbonate kept
    };
    Kind kind = Kind::totals;
    double given = 0.0; ///< ln activity of hydrogen, or ln activity of dissolved carbon dioxide
};

struct Solution
{
    std::array<double, component_count> log_activity{};
    std::array<double, most_species> molality{};
    std::array<double, most_species> log_gamma{};
    double ionic_strength = 0.0;
    double log_water = 0.0; ///< ln activity of water
    /// Sums over the species of each component: what the water holds of it in all.
    std::array<double, component_count> held{};
    bool converged = false;
    bool carbonate_vanished = false; ///< no carbonate above zero fits

    [[nodiscard]] double alkalinity() const { return 2 * held[carbonate] - held[hydrogen]; }
};

class Solver
{
public:
    Solver(SpeciesTable const& table, Totals const& totals, double kelvin);

    /// Starts from a guess of its own.
    [[nodiscard]] Solution solve(Closure const& closure);
    /// Starts from another solution of nearly the same water.
    [[nodiscard]] Solution solve(Closure const& closure, Solution const& near);

private:
    static constexpr std::size_t most_unknowns = component_count + 1; ///< ionic strength is the last
    using Row = std::array<double, most_unknowns + 1>;                ///< the residual stands at its end

    void guess(Closure const& closure);
    void guess_hydrogen(Closure const& closure);
    void guess_chlorine();
    [[nodiscard]] double guessed_alkalinity(double h, Closure const& closure) const;
    [[nodiscard]] double guessed_carbonate(double h, Closure const& closure) const;
    [[nodiscard]] double per_activity(std::size_t species) const;
    void choose_unknowns(Closure const& closure);
    void activities();
    void speciate();
    void lay_rows(Closure const& closure);
    [[nodiscard]] bool eliminate();
    [[nodiscard]] double step();
    [[nodiscard]] Solution newton(Closure const& closure);
    [[nodiscard]] Row combined(double of_carbonate, double of_hydrogen, double of_calcium, double wanted) const;

    // Arrays without initial values are filled before they are read; a state is too short a time to clear them all.
    SpeciesTable const& table_;
    std::array<double, component_count> total_{};
    double alkalinity_ = 0.0;
    double celsius_ = 0.0;
    double a_ = 0.0, b_ = 0.0;
    TemperatureTerms terms_;
    std::array<double, most_species> log_k_;
    std::array<bool, component_count> there_{};
    std::array<std::size_t, most_species> present_;
    std::size_t present_count_ = 0;
    std::array<double, most_laws> law_log_gamma_, law_slope_;

    std::array<std::size_t, component_count> unknown_;
    std::size_t unknowns_ = 0; ///< components; ionic strength is one more
    /// Sums over species of count_j molality, their derivatives by ln activity and, last, by ionic strength.
    std::array<Row, component_count> sums_;
    Row strength_;
    std::array<Row, most_unknowns> rows_;
    Row delta_;
    double added_acid_ = 0.0;
    Solution now_;
};

} // namespace padwalk::chemistry
