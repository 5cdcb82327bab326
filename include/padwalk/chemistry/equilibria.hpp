#pragma once
/// Composition to state and back: pH, every species and its activity, saturation.
///
/// Ion pairs, activity coefficients and temperature dependence are rows of data/chemistry/water_constants.yaml, in
/// named sets.

#include "padwalk/chemistry/composition.hpp"
#include "padwalk/reference/data.hpp"

#include <array>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace padwalk::chemistry
{

/// Constants of carbonate, calcite, sulfate and their pairs.
enum class CarbonateSet
{
    plummer_busenberg, ///< Plummer & Busenberg 1982, measured to 90 °C, with the pairs of wateq4f.dat
    phreeqc            ///< phreeqc.dat as distributed with PHREEQC 3.8.8
};

/// Constants of cyanurate and its chlorinated forms.
enum class CyanurateSet
{
    obrien, ///< O'Brien, Morris & Butler 1974, six chlorinated forms, 25 °C whatever the water's temperature
    wahman  ///< Wahman 2018, Wahman & Alexander 2019, two chlorinated forms, 5-35 °C
};

enum class Mineral
{
    calcite,
    aragonite,
    gypsum
};

class Equilibria;

/// A water at equilibrium with itself. Plain data; the constants it was computed with are kept alive.
class State
{
public:
    [[nodiscard]] Composition const& composition() const { return composition_; }
    [[nodiscard]] units::Ph ph() const { return ph_; } ///< -log10 of the activity of hydrogen ion
    [[nodiscard]] units::Molality ionic_strength() const { return ionic_strength_; }
    [[nodiscard]] double water_activity() const { return water_activity_; }

    /// log10(ion activity product / K); minus infinity where an ion is missing.
    [[nodiscard]] double saturation(Mineral mineral) const;
    /// log10 of the fugacity of carbon dioxide over the water, atm.
    [[nodiscard]] double log_co2_pressure() const;

    /// Species by its name in the data: 'HCO3-', 'CaCO3', 'HOCl', 'HClCy-'. std::out_of_range for another name.
    [[nodiscard]] units::Molality molality(std::string_view species) const;
    [[nodiscard]] double activity_coefficient(std::string_view species) const;
    [[nodiscard]] std::vector<std::string> species() const;

    [[nodiscard]] units::Molality hypochlorous_acid() const;
    [[nodiscard]] units::Molality hypochlorite() const;
    /// Chlorine held by cyanurate, each Cl of a molecule counted.
    [[nodiscard]] units::Molality held_chlorine() const;
    /// What carbonate, hydroxide and hydrogen ions have of the alkalinity.
    [[nodiscard]] units::Molality carbonate_alkalinity() const;
    [[nodiscard]] units::Molality cyanurate_alkalinity() const;
    [[nodiscard]] units::Molality borate_alkalinity() const;
    [[nodiscard]] units::Molality hypochlorite_alkalinity() const;

private:
    friend class Equilibria;
    static constexpr std::size_t capacity = 48; ///< of species

    [[nodiscard]] double share_of_alkalinity(std::size_t component) const;

    Composition composition_;
    units::Ph ph_{};
    units::Molality ionic_strength_{};
    double water_activity_ = 1.0;
    std::array<double, capacity> molality_{};  ///< mol/kg
    std::array<double, capacity> log_gamma_{}; ///< natural log
    double log_hydrogen_ = 0.0;                ///< natural log of its activity
    std::shared_ptr<struct SpeciesTable const> table_;
};

/// A set of constants, ready to compute with. Pure: same water, same state.
///
/// Valid:    0 to 90 °C (cyanurate: see the sets), ionic strength to 0.7 mol/kg, pH 3 to 12
/// Accuracy: within 0.0005 in saturation index and pH of the same constants in PHREEQC 3.8.8 over 300 waters
/// Source:   the rows of data/chemistry/water_constants.yaml
/// Throws:   physics::OutOfRange; figures::NotComputed where no such water exists (carbonate alkalinity below zero,
///           say), naming what to retest
class Equilibria
{
public:
    explicit Equilibria(reference::Data const& data, CarbonateSet carbonate = CarbonateSet::plummer_busenberg,
                        CyanurateSet cyanurate = CyanurateSet::obrien);
    /// One for each choice of sets, by carbonate set and then by cyanurate set, sooner than one by one.
    [[nodiscard]] static std::vector<Equilibria> of_all_sets(reference::Data const& data);

    /// From measured pH and alkalinity: the total carbonate is found, what stands in `water` for it is not used.
    [[nodiscard]] State at_ph(Composition const& water, units::Ph ph) const;
    /// Each of these may be given the state of nearly the same water, by these constants or others, to start from: the
    /// answer is the same, sooner.
    [[nodiscard]] State at_ph(Composition const& water, units::Ph ph, State const& near) const;
    /// From totals: pH is found.
    [[nodiscard]] State of(Composition const& water) const;
    [[nodiscard]] State of(Composition const& water, State const& near) const;
    /// The water after carbon dioxide has come or gone until its pressure is this, log10 atm; all else stays.
    [[nodiscard]] State at_co2(Composition const& water, double log_pressure) const;
    [[nodiscard]] State at_co2(State const& water, double log_pressure) const;
    /// The water after calcite has formed or dissolved until its saturation index is this, in a closed vessel. The
    /// calcium lost until it is zero is the precipitation potential.
    [[nodiscard]] State at_calcite(Composition const& water, double index = 0) const;
    [[nodiscard]] State at_calcite(State const& water, double index = 0) const;
    /// The water after acid (as hydrogen chloride; below zero: caustic soda) has brought it to this pH.
    [[nodiscard]] State titrated(Composition const& water, units::Ph ph) const;

    [[nodiscard]] CarbonateSet carbonate_set() const { return carbonate_; }
    [[nodiscard]] CyanurateSet cyanurate_set() const { return cyanurate_; }

private:
    [[nodiscard]] State at_ph(Composition const& water, units::Ph ph, struct Solution const* near) const;
    [[nodiscard]] State at_co2(Composition const& water, double log_pressure, struct Solution const* near) const;
    [[nodiscard]] State at_calcite(Composition const& water, double index, struct Solution const* near) const;
    Equilibria(CarbonateSet carbonate, CyanurateSet cyanurate, std::shared_ptr<struct SpeciesTable const> table);
    [[nodiscard]] State state(Composition const& water, struct Solution const& solution) const;
    [[nodiscard]] static struct Solution solution_of(State const& state);

    CarbonateSet carbonate_;
    CyanurateSet cyanurate_;
    std::shared_ptr<struct SpeciesTable const> table_;
};

/// Calcium carbonate that would form (above zero) or dissolve until calcite has this index, closed vessel.
[[nodiscard]] units::AsCalciumCarbonate precipitation_potential(Equilibria const& equilibria, Composition const& water,
                                                                double index = 0);
[[nodiscard]] units::AsCalciumCarbonate precipitation_potential(Equilibria const& equilibria, State const& water,
                                                                double index = 0);

} // namespace padwalk::chemistry

template <> struct padwalk::fields::words_of<padwalk::chemistry::CarbonateSet>
{
    static std::vector<std::string> words() { return {"plummer_busenberg_1982", "phreeqc_3.8.8"}; }
};
template <> struct padwalk::fields::words_of<padwalk::chemistry::CyanurateSet>
{
    static std::vector<std::string> words() { return {"obrien_1974", "wahman_2019"}; }
};
