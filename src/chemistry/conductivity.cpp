#include "padwalk/chemistry/conductivity.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/numerics/root.hpp"
#include "padwalk/physics/range.hpp"
#include "padwalk/units/definitions.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::chemistry
{

using fields::Record;

Record<IonRow> const& IonRow::declaration()
{
    static Record<IonRow> const record = Record<IonRow>("ion", "an ion's conductivity")
                                             .field("ion", &IonRow::ion, "its name")
                                             .required()
                                             .field("charge", &IonRow::charge, "size of its charge")
                                             .required()
                                             .within("1", "4")
                                             .field("limiting", &IonRow::limiting, "S cm2 per equivalent")
                                             .required()
                                             .within("1", "500")
                                             .field("source", &IonRow::source, "where it comes from")
                                             .required();
    return record;
}

Record<ConductivityTable> const& ConductivityTable::declaration()
{
    static Record<ConductivityTable> const record =
        Record<ConductivityTable>("conductivity", "how ions conduct")
            .field("ions", &ConductivityTable::ions, "by ion")
            .required()
            .field("exponent", &ConductivityTable::exponent, "of the activity coefficient, for charge 1")
            .required()
            .field("exponent_source", &ConductivityTable::exponent_source, "where it comes from")
            .required()
            .field("per_kelvin", &ConductivityTable::per_kelvin, "rise with temperature")
            .required()
            .field("per_kelvin_source", &ConductivityTable::per_kelvin_source, "where it comes from")
            .required()
            .field("sources", &ConductivityTable::sources, "works cited");
    return record;
}

ConductivityTable conductivity_table(reference::Data const& data)
{
    return reference::read_table<ConductivityTable>(data, "chemistry/conductivity.yaml");
}

namespace
{

constexpr double most_salt = 35; // kg/m3
/// S cm2/mol x mol/L = 1e-3 S/cm = 0.1 S/m
constexpr double siemens_per_metre = 0.1;

/// kg/mol; sodium from its chloride, borate and cyanurate as their acids
constexpr double sodium = 22.990e-3, calcium = 40.078e-3, magnesium = 24.305e-3, chloride = 35.45e-3;
constexpr double carbonate = 60.008e-3, boric_acid = 61.83e-3;

WaterReadings with_salt(WaterReadings readings, double kg_per_m3)
{
    readings.salt = units::of_si<units::AsSodiumChloride>(kg_per_m3);
    return readings;
}

} // namespace

units::Conductivity specific_conductance(State const& water, ConductivityTable const& table)
{
    auto const there = water.species();
    double sum = 0;
    for (auto const& row : table.ions)
    {
        if (std::find(there.begin(), there.end(), row.ion) == there.end())
            continue; // a pair of the other set of constants
        double const m = units::in_si(water.molality(row.ion));
        if (!(m > 0))
            continue;
        double const z = row.charge.value();
        sum += z * row.limiting.value() * m *
               std::pow(water.activity_coefficient(row.ion), table.exponent.value() / std::sqrt(z));
    }
    return units::of_si<units::Conductivity>(sum * siemens_per_metre);
}

units::Conductivity at_25(units::Conductivity measured, units::Temperature water, ConductivityTable const& table)
{
    physics::require_within({10, 45, "°C", table.per_kelvin_source.key}, water, "water temperature");
    double const rise = water.value() - (25 + units::exact::celsius_zero);
    return measured / (1 + table.per_kelvin.value() * rise);
}

units::AsSodiumChloride salt_to_fit(Equilibria const& equilibria, WaterReadings const& readings,
                                    units::Conductivity at_25, ConductivityTable const& table)
{
    auto const off = [&](double salt)
    {
        auto const r = with_salt(readings, salt);
        State const state = equilibria.at_ph(composition_of(r), r.ph);
        return (specific_conductance(state, table) / at_25).value() - 1;
    };
    if (!(units::in_si(at_25) > 0))
        throw figures::NotComputed("pool water conducts: a conductivity of zero is a fault of the meter");
    if (off(0) > 0)
        throw figures::NotComputed("the hardness, alkalinity and other readings alone would conduct more than was "
                                   "measured: retest conductivity, hardness, alkalinity");
    if (off(most_salt) < 0)
        throw figures::NotComputed("so high a conductivity is beyond 35000 mg/L of salt: retest it");
    return units::of_si<units::AsSodiumChloride>(numerics::bracketed_root(off, 0, most_salt, 1e-9));
}

units::AsItself dissolved_solids(WaterReadings const& readings)
{
    Totals const t = composition_of(readings).totals;
    auto const mol = [](units::Molality m) { return units::in_si(m); };
    double const per_kg = sodium * mol(t.sodium) + calcium * mol(t.calcium) + magnesium * mol(t.magnesium) +
                          chloride * (mol(t.chloride) + mol(t.chlorine)) +
                          units::exact::sulfate_molar_mass * mol(t.sulfate) + carbonate * mol(t.alkalinity) / 2 +
                          boric_acid * mol(t.boron) + units::exact::cyanuric_acid_molar_mass * mol(t.cyanurate);
    return units::of_si<units::AsItself>(per_kg * 1e3);
}

units::AsSodiumChloride salt_to_fit_solids(WaterReadings const& readings, units::AsItself solids)
{
    double const others = units::in_si(dissolved_solids(with_salt(readings, 0)));
    double const of_one = units::in_si(dissolved_solids(with_salt(readings, 1))) - others;
    double const salt = (units::in_si(solids) - others) / of_one;
    if (salt < 0)
        throw figures::NotComputed("the hardness, alkalinity and other readings alone hold more than was measured: "
                                   "retest dissolved solids, hardness, alkalinity");
    return units::of_si<units::AsSodiumChloride>(salt);
}

} // namespace padwalk::chemistry
