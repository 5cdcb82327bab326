#include "padwalk/chemistry/equilibria.hpp"

#include "solver.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/numerics/root.hpp"
#include "padwalk/physics/range.hpp"
#include "padwalk/units/definitions.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace padwalk::chemistry
{
namespace
{

constexpr double ln10 = 2.302585092994046;
constexpr double lowest_ph = 2.0, highest_ph = 13.0; ///< searched; what a caller may give is narrower
constexpr double most_salt = 1.0;                    ///< mol/kg of ionic strength, beyond what the activity laws know

void require_sound(Composition const& water, bool carbonate_given)
{
    double const celsius = water.temperature.value() - units::exact::celsius_zero;
    physics::require_within({0, 90, "°C", "plummer-busenberg-1982"}, celsius, "water temperature");
    auto const& t = water.totals;
    auto at_least_none = [](units::Molality m, char const* name)
    {
        if (!(m.value() >= 0) || !std::isfinite(m.value()))
            throw figures::NotComputed("there can't be less than no " + std::string(name) + " in a water");
    };
    at_least_none(t.calcium, "calcium");
    at_least_none(t.magnesium, "magnesium");
    at_least_none(t.sodium, "sodium (what salt, alkalinity and sulfate bring)");
    at_least_none(t.chloride, "chloride");
    at_least_none(t.sulfate, "sulfate");
    at_least_none(t.boron, "borate");
    at_least_none(t.cyanurate, "cyanurate");
    at_least_none(t.chlorine, "free chlorine");
    if (carbonate_given)
        at_least_none(t.carbonate, "carbonate");
    if (!std::isfinite(t.alkalinity.value()))
        throw figures::NotComputed("the alkalinity is no number");
}

void require_ph(units::Ph ph)
{
    physics::require_within({3, 12, "", {}}, ph.value(), "pH");
}

// From a solution near by, where that leads there; else from a guess.
Solution solved(Solver& solver, Closure const& closure, Solution const* near)
{
    if (near != nullptr)
        if (auto s = solver.solve(closure, *near); s.converged)
            return s;
    return solver.solve(closure);
}

[[noreturn]] void no_solution()
{
    throw figures::NotComputed("the equations of this water did not converge; please check its readings");
}

} // namespace

// ---- State

namespace
{

std::size_t place_of(SpeciesTable const& table, std::string_view name)
{
    std::size_t const found = table.find(name);
    if (found == SpeciesTable::absent)
        throw std::out_of_range("no species '" + std::string(name) + "' in this set");
    return found;
}

} // namespace

double State::saturation(Mineral mineral) const
{
    Reaction const& r = table_->minerals[static_cast<std::size_t>(mineral)];
    double sum =
        r.makeup.water * std::log(water_activity_) - r.log_k.at(TemperatureTerms(composition_.temperature.value()));
    for (std::size_t c = 0; c < component_count; ++c)
        if (r.makeup.nu[c] != 0)
            sum += r.makeup.nu[c] * (std::log(molality_[c]) + log_gamma_[c]);
    return sum / ln10;
}

double State::log_co2_pressure() const
{
    std::size_t const s = table_->dissolved_co2;
    double const log_k = table_->carbon_dioxide_gas.log_k.at(TemperatureTerms(composition_.temperature.value()));
    return (std::log(molality_[s]) + log_gamma_[s] - log_k) / ln10;
}

units::Molality State::molality(std::string_view species) const
{
    return units::Molality::from_value(molality_[place_of(*table_, species)]);
}

double State::activity_coefficient(std::string_view species) const
{
    return std::exp(log_gamma_[place_of(*table_, species)]);
}

std::vector<std::string> State::species() const
{
    std::vector<std::string> out;
    for (auto const& s : table_->species)
        out.push_back(s.name);
    return out;
}

units::Molality State::hypochlorous_acid() const
{
    return units::Molality::from_value(molality_[chemistry::hypochlorous_acid]);
}

units::Molality State::hypochlorite() const
{
    return units::Molality::from_value(molality_[table_->hypochlorite]);
}

units::Molality State::held_chlorine() const
{
    double sum = 0;
    for (std::size_t s = 0; s < table_->species.size(); ++s)
        if (table_->species[s].makeup.nu[cyanuric_acid] > 0)
            sum += table_->species[s].makeup.nu[chemistry::hypochlorous_acid] * molality_[s];
    return units::Molality::from_value(sum);
}

double State::share_of_alkalinity(std::size_t component) const
{
    double sum = 0;
    for (std::size_t s = 0; s < table_->species.size(); ++s)
        if (table_->species[s].makeup.nu[component] > 0)
            sum += table_->species[s].makeup.alkalinity() * molality_[s];
    return sum;
}

units::Molality State::cyanurate_alkalinity() const
{
    return units::Molality::from_value(share_of_alkalinity(cyanuric_acid));
}

units::Molality State::borate_alkalinity() const
{
    return units::Molality::from_value(share_of_alkalinity(boric_acid));
}

units::Molality State::hypochlorite_alkalinity() const
{
    return units::Molality::from_value(molality_[table_->hypochlorite]);
}

units::Molality State::carbonate_alkalinity() const
{
    return composition_.totals.alkalinity - cyanurate_alkalinity() - borate_alkalinity() - hypochlorite_alkalinity();
}

// ---- Equilibria

Equilibria::Equilibria(reference::Data const& data, CarbonateSet carbonate, CyanurateSet cyanurate)
    : Equilibria(carbonate, cyanurate,
                 std::make_shared<SpeciesTable const>(species_tables(data, {{carbonate, cyanurate}}).front()))
{
}

Equilibria::Equilibria(CarbonateSet carbonate, CyanurateSet cyanurate, std::shared_ptr<SpeciesTable const> table)
    : carbonate_(carbonate), cyanurate_(cyanurate), table_(std::move(table))
{
}

std::vector<Equilibria> Equilibria::of_all_sets(reference::Data const& data)
{
    std::vector<std::pair<CarbonateSet, CyanurateSet>> sets;
    for (auto const carbonate : {CarbonateSet::plummer_busenberg, CarbonateSet::phreeqc})
        for (auto const cyanurate : {CyanurateSet::obrien, CyanurateSet::wahman})
            sets.emplace_back(carbonate, cyanurate);
    auto tables = species_tables(data, sets);
    std::vector<Equilibria> out;
    for (std::size_t i = 0; i < sets.size(); ++i)
        out.push_back(
            Equilibria(sets[i].first, sets[i].second, std::make_shared<SpeciesTable const>(std::move(tables[i]))));
    return out;
}

State Equilibria::state(Composition const& water, Solution const& s) const
{
    if (!(s.ionic_strength <= most_salt))
        throw figures::NotComputed(
            "the water is too salty for these activity laws, which end at an ionic strength of 1 "
            "mol/kg (about 45,000 ppm of salt)");
    State out;
    out.composition_ = water;
    out.log_hydrogen_ = s.log_activity[hydrogen];
    out.ph_ = units::Ph::from_value(-s.log_activity[hydrogen] / ln10);
    out.ionic_strength_ = units::Molality::from_value(s.ionic_strength);
    out.water_activity_ = std::exp(s.log_water);
    out.molality_ = s.molality;
    out.log_gamma_ = s.log_gamma;
    out.table_ = table_;
    return out;
}

Solution Equilibria::solution_of(State const& state)
{
    Solution s;
    for (std::size_t c = 0; c < component_count; ++c)
        if (state.molality_[c] > 0) // the components are the first species
            s.log_activity[c] = std::log(state.molality_[c]) + state.log_gamma_[c];
    s.ionic_strength = state.ionic_strength_.value();
    s.log_water = std::log(state.water_activity_);
    return s;
}

State Equilibria::at_ph(Composition const& water, units::Ph ph) const
{
    return at_ph(water, ph, nullptr);
}

State Equilibria::at_ph(Composition const& water, units::Ph ph, State const& near) const
{
    Solution const start = solution_of(near);
    return at_ph(water, ph, &start);
}

State Equilibria::at_ph(Composition const& water, units::Ph ph, Solution const* near) const
{
    require_sound(water, false);
    require_ph(ph);
    Solver solver(*table_, water.totals, water.temperature.value());
    auto const s = solved(solver, {Closure::Kind::ph_alkalinity, -ln10 * ph.value()}, near);
    if (s.carbonate_vanished)
        throw figures::NotComputed(
            "cyanurate, borate, chlorine and hydroxide alone make more alkalinity at this pH than "
            "was read, so less than nothing is left for carbonate; test alkalinity, pH and "
            "cyanurate again");
    if (!s.converged)
        no_solution();
    Composition whole = water;
    whole.totals.carbonate = units::Molality::from_value(s.held[carbonate]);
    return state(whole, s);
}

State Equilibria::of(Composition const& water) const
{
    require_sound(water, true);
    Solver solver(*table_, water.totals, water.temperature.value());
    auto s = solver.solve({Closure::Kind::totals, 0});
    if (!s.converged)
    { // slower and surer: the pH at which the carbonate there is makes the alkalinity there is
        auto excess = [&](double ph)
        {
            auto const at = solver.solve({Closure::Kind::ph_carbonate, -ln10 * ph});
            return at.converged ? at.alkalinity() - water.totals.alkalinity.value() : std::nan("");
        };
        try
        {
            double const ph = numerics::bracketed_root(excess, lowest_ph, highest_ph, 1e-13);
            s = solver.solve({Closure::Kind::ph_carbonate, -ln10 * ph});
        }
        catch (numerics::NoRoot const&)
        {
            no_solution();
        }
    }
    if (!s.converged)
        no_solution();
    return state(water, s);
}

State Equilibria::of(Composition const& water, State const& near) const
{
    require_sound(water, true);
    Solver solver(*table_, water.totals, water.temperature.value());
    auto const s = solver.solve({Closure::Kind::totals, 0}, solution_of(near));
    return s.converged ? state(water, s) : of(water);
}

State Equilibria::at_co2(Composition const& water, double log_pressure) const
{
    return at_co2(water, log_pressure, nullptr);
}

State Equilibria::at_co2(State const& water, double log_pressure) const
{
    Solution const start = solution_of(water);
    return at_co2(water.composition(), log_pressure, &start);
}

State Equilibria::at_co2(Composition const& water, double log_pressure, Solution const* near) const
{
    require_sound(water, false);
    physics::require_within({-7, 0.1, "", {}}, log_pressure, "log10 of the carbon dioxide pressure in atm");
    Solver solver(*table_, water.totals, water.temperature.value());
    double const log_k = table_->carbon_dioxide_gas.log_k.at(TemperatureTerms(water.temperature.value()));
    auto const s = solved(solver, {Closure::Kind::gas, ln10 * log_pressure + log_k}, near);
    if (!s.converged)
        no_solution();
    Composition whole = water;
    whole.totals.carbonate = units::Molality::from_value(s.held[carbonate]);
    return state(whole, s);
}

State Equilibria::at_calcite(Composition const& water, double index) const
{
    return at_calcite(water, index, nullptr);
}

State Equilibria::at_calcite(State const& water, double index) const
{
    Solution const start = solution_of(water);
    return at_calcite(water.composition(), index, &start);
}

State Equilibria::at_calcite(Composition const& water, double index, Solution const* near) const
{
    require_sound(water, true);
    auto const log_k = table_->minerals[static_cast<std::size_t>(Mineral::calcite)].log_k.at(
        TemperatureTerms(water.temperature.value()));
    auto after = [&](double formed)
    {
        Composition c = water;
        auto const x = units::Molality::from_value(formed);
        c.totals.calcium = c.totals.calcium - x;
        c.totals.carbonate = c.totals.carbonate - x;
        c.totals.alkalinity = c.totals.alkalinity - 2.0 * x;
        return c;
    };
    Solver solver(*table_, water.totals, water.temperature.value());
    auto const s = solved(solver, {Closure::Kind::calcite, log_k + ln10 * index}, near);
    if (s.converged)
        return state(after(water.totals.calcium.value() - s.held[calcium]), s);
    // slower and surer: the amount formed at which nothing more would
    try
    {
        double const most = std::min(water.totals.calcium.value(), water.totals.carbonate.value());
        auto excess = [&](double formed)
        { return std::clamp(of(after(formed)).saturation(Mineral::calcite) - index, -1e3, 1e3); };
        double const formed = numerics::bracketed_root(excess, -0.05, most * (1 - 1e-9), 1e-12);
        return of(after(formed));
    }
    catch (numerics::NoRoot const&)
    {
        no_solution();
    }
}

State Equilibria::titrated(Composition const& water, units::Ph ph) const
{
    require_sound(water, true);
    require_ph(ph);
    Solver solver(*table_, water.totals, water.temperature.value());
    auto const s = solver.solve({Closure::Kind::ph_carbonate, -ln10 * ph.value()});
    if (!s.converged)
        no_solution();
    Composition after = water;
    auto const acid = water.totals.alkalinity - units::Molality::from_value(s.alkalinity());
    after.totals.alkalinity = water.totals.alkalinity - acid;
    if (acid.value() > 0)
        after.totals.chloride = after.totals.chloride + acid;
    else
        after.totals.sodium = after.totals.sodium - acid;
    return state(after, s);
}

units::AsCalciumCarbonate precipitation_potential(Equilibria const& equilibria, Composition const& water, double index)
{
    return hardness(water.totals.calcium - equilibria.at_calcite(water, index).composition().totals.calcium);
}

units::AsCalciumCarbonate precipitation_potential(Equilibria const& equilibria, State const& water, double index)
{
    return hardness(water.composition().totals.calcium -
                    equilibria.at_calcite(water, index).composition().totals.calcium);
}

} // namespace padwalk::chemistry
