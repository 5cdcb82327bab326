#include "padwalk/physics/combustion.hpp"

#include "padwalk/physics/range.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace padwalk::physics
{
namespace
{

/// Of dry air, by volume; argon and the rest count as nitrogen [cipm-2007].
constexpr double oxygen_of_air = 0.2095;
/// As combustion analysers take it [combustion-analysis-trade-article-1].
constexpr double analyser_oxygen = 0.209;
/// Siegert's oxygen of air, in %; A2 was fitted with it.
constexpr double siegert_oxygen_percent = 21.0;

/// Heat of one mole, J: net from the formation enthalpies, evaporation at 25 degC.
struct Molecule
{
    double carbon, hydrogen, net_heat;
    [[nodiscard]] double oxygen() const { return carbon + hydrogen / 4; }
    [[nodiscard]] double water() const { return hydrogen / 2; }
};
constexpr double evaporation = 44.0e3; // of water at 25 degC, J/mol [gri-mech-thermo]

Molecule molecule(Fuel fuel)
{
    return fuel == Fuel::natural_gas ? Molecule{1, 4, 802.3e3} : Molecule{3, 8, 2043.1e3};
}

double gross_heat(Molecule const& m)
{
    return m.net_heat + m.water() * evaporation;
}

/// H/R = a0 T + a1 T2/2 + a2 T3/3 + a3 T4/4 + a4 T5/5 + a5, below and above 1000 K [gri-mech-thermo].
using Polynomial = std::array<double, 6>;
struct Enthalpy
{
    Polynomial low, high;
};
constexpr double seam = 1000; // K

constexpr Enthalpy carbon_dioxide_enthalpy{
    {2.35677352, 8.98459677e-3, -7.12356269e-6, 2.45919022e-9, -1.43699548e-13, -4.83719697e4},
    {3.85746029, 4.41437026e-3, -2.21481404e-6, 5.23490188e-10, -4.72084164e-14, -4.87591660e4}};
constexpr Enthalpy water_enthalpy{
    {4.19864056, -2.03643410e-3, 6.52040211e-6, -5.48797062e-9, 1.77197817e-12, -3.02937267e4},
    {3.03399249, 2.17691804e-3, -1.64072518e-7, -9.70419870e-11, 1.68200992e-14, -3.00042971e4}};
constexpr Enthalpy oxygen_enthalpy{
    {3.78245636, -2.99673416e-3, 9.84730201e-6, -9.68129509e-9, 3.24372837e-12, -1.06394356e3},
    {3.28253784, 1.48308754e-3, -7.57966669e-7, 2.09470555e-10, -2.16717794e-14, -1.08845772e3}};
constexpr Enthalpy nitrogen_enthalpy{{3.298677, 1.4082404e-3, -3.963222e-6, 5.641515e-9, -2.444854e-12, -1.0208999e3},
                                     {2.926640, 1.4879768e-3, -5.684760e-7, 1.0097038e-10, -6.753351e-15, -9.227977e2}};

double enthalpy_of(Polynomial const& a, double t)
{
    return a[5] + t * (a[0] + t * (a[1] / 2 + t * (a[2] / 3 + t * (a[3] / 4 + t * a[4] / 5))));
}

double heat_capacity_of(Polynomial const& a, double t)
{
    return a[0] + t * (a[1] + t * (a[2] + t * (a[3] + t * a[4])));
}

/// Enthalpy of a mixture over R.
class Mixture
{
public:
    explicit Mixture(FlueGas const& gas)
    {
        add(carbon_dioxide_enthalpy, gas.carbon_dioxide.value());
        add(water_enthalpy, gas.water.value());
        add(oxygen_enthalpy, gas.oxygen.value());
        add(nitrogen_enthalpy, gas.nitrogen.value());
        // The two fits miss each other at the seam by a few J/mol; an inverse wants no step there.
        both_.high[5] += enthalpy_of(both_.low, seam) - enthalpy_of(both_.high, seam);
    }
    [[nodiscard]] double enthalpy(double t) const { return enthalpy_of(at(t), t); }
    [[nodiscard]] double heat_capacity(double t) const { return heat_capacity_of(at(t), t); }

private:
    void add(Enthalpy const& one, double moles)
    {
        for (std::size_t i = 0; i < one.low.size(); ++i)
        {
            both_.low[i] += moles * one.low[i];
            both_.high[i] += moles * one.high[i];
        }
    }
    [[nodiscard]] Polynomial const& at(double t) const { return t < seam ? both_.low : both_.high; }
    Enthalpy both_{};
};

constexpr Range gas_kelvin{250, 2500, "K", "gri-mech-thermo"};

double gas_temperature(units::Temperature t)
{
    require_within(gas_kelvin, units::in_si(t), "gas temperature");
    return units::in_si(t);
}

units::Number number(double value)
{
    return units::Number::from_value(value);
}

double dry_at_no_excess(Molecule const& m)
{
    return m.carbon + m.oxygen() * (1 / oxygen_of_air - 1);
}

} // namespace

FlueGas FlueGas::times(double factor) const
{
    return {carbon_dioxide * factor, water * factor, oxygen * factor, nitrogen * factor};
}

units::Number air_needed(Fuel fuel)
{
    return number(molecule(fuel).oxygen() / oxygen_of_air);
}

units::Fraction net_to_gross(Fuel fuel)
{
    Molecule const m = molecule(fuel);
    return units::Fraction::from_value(m.net_heat / gross_heat(m));
}

FlueGas flue_gas(Fuel fuel, units::Fraction excess_air)
{
    double const excess = excess_air.value();
    require_within({-100, 10000, "%", ""}, excess_air, "excess air");
    Molecule const m = molecule(fuel);
    double const burnt = std::min(1.0, 1 + excess);
    return {number(burnt * m.carbon), number(burnt * m.water()), number(std::max(0.0, excess) * m.oxygen()),
            number((1 + excess) * m.oxygen() * (1 / oxygen_of_air - 1))};
}

units::Fraction excess_air_of_oxygen(Fuel fuel, units::Fraction oxygen_dry)
{
    require_within({0, 18, "%", "judgement"}, oxygen_dry, "oxygen in the dry flue gas");
    Molecule const m = molecule(fuel);
    double const oxygen = oxygen_dry.value();
    return units::Fraction::from_value(oxygen * dry_at_no_excess(m) /
                                       (m.oxygen() / oxygen_of_air * (oxygen_of_air - oxygen)));
}

units::Fraction excess_air_of_carbon_dioxide(Fuel fuel, units::Fraction carbon_dioxide_dry)
{
    require_within({1, 15, "%", "judgement"}, carbon_dioxide_dry, "carbon dioxide in the dry flue gas");
    Molecule const m = molecule(fuel);
    return units::Fraction::from_value((m.carbon / carbon_dioxide_dry.value() - dry_at_no_excess(m)) * oxygen_of_air /
                                       m.oxygen());
}

units::Fraction heat_carried(Fuel fuel, FlueGas const& gas, units::Temperature from, units::Temperature to)
{
    Mixture const mixture(gas);
    double const taken = mixture.enthalpy(gas_temperature(to)) - mixture.enthalpy(gas_temperature(from));
    return units::Fraction::from_value(taken * molar_gas_constant / gross_heat(molecule(fuel)));
}

units::Temperature temperature_with(Fuel fuel, FlueGas const& gas, units::Fraction heat, units::Temperature from)
{
    Mixture const mixture(gas);
    double const wanted =
        mixture.enthalpy(gas_temperature(from)) + heat.value() * gross_heat(molecule(fuel)) / molar_gas_constant;
    require_within(gas_kelvin,
                   wanted < mixture.enthalpy(gas_kelvin.low)    ? gas_kelvin.low - 1
                   : wanted > mixture.enthalpy(gas_kelvin.high) ? gas_kelvin.high + 1
                                                                : gas_kelvin.low,
                   "gas temperature");
    double t = units::in_si(from);
    // Newton: the heat capacity is positive and changes slowly, so that this closes in from anywhere in the range.
    constexpr int most_steps = 30;
    constexpr double small_step = 1e-11;
    for (int i = 0; i < most_steps; ++i)
    {
        double const step = (wanted - mixture.enthalpy(t)) / mixture.heat_capacity(t);
        t = std::clamp(t + step, gas_kelvin.low, gas_kelvin.high);
        if (std::abs(step) < small_step * t)
            break;
    }
    return units::of_si<units::Temperature>(t);
}

StackLoss stack_loss_by_enthalpy(Fuel fuel, units::Fraction excess_air, units::Temperature flue, units::Temperature air)
{
    return {heat_carried(fuel, flue_gas(fuel, excess_air), air, flue),
            units::Fraction::from_value(1 - net_to_gross(fuel).value())};
}

units::Number air_free_factor(units::Fraction oxygen_dry)
{
    return number(analyser_oxygen / (analyser_oxygen - oxygen_dry.value()));
}

units::Fraction stack_loss_siegert(units::TemperatureDifference over_air, units::Fraction oxygen_dry, units::Number a2,
                                   units::Number b)
{
    double const percent =
        units::in_si(over_air) * (a2.value() / (siegert_oxygen_percent - 100 * oxygen_dry.value()) + b.value());
    return units::Fraction::from_value(percent / 100);
}

} // namespace padwalk::physics
