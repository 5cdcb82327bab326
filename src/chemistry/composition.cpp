#include "padwalk/chemistry/composition.hpp"

#include "padwalk/physics/range.hpp"
#include "padwalk/units/definitions.hpp"

namespace padwalk::chemistry
{
namespace
{

namespace exact = units::exact;

constexpr double kg_per_m3 = 1000; ///< of water in a sample: one litre is taken for one kg

template <class Q> units::Molality amount(Q concentration, double molar_mass)
{
    return units::Molality::from_value(concentration.value() / kg_per_m3 / molar_mass);
}

template <class Q> Q concentration(units::Molality amount, double molar_mass)
{
    return Q::from_value(amount.value() * molar_mass * kg_per_m3);
}

template <class Change> Totals each(Change change)
{
    Totals out;
    for (auto member : {&Totals::carbonate, &Totals::alkalinity, &Totals::calcium, &Totals::magnesium, &Totals::sodium,
                        &Totals::chloride, &Totals::sulfate, &Totals::boron, &Totals::cyanurate, &Totals::chlorine})
        out.*member = change(member);
    return out;
}

} // namespace

Totals operator+(Totals a, Totals const& b)
{
    return each([&](auto m) { return a.*m + b.*m; });
}

Totals operator-(Totals a, Totals const& b)
{
    return each([&](auto m) { return a.*m - b.*m; });
}

Totals operator*(Totals a, double k)
{
    return each([&](auto m) { return a.*m * k; });
}

bool operator==(Totals const& a, Totals const& b)
{
    bool same = true;
    each(
        [&](auto m)
        {
            same = same && a.*m == b.*m;
            return a.*m;
        });
    return same;
}

units::Molality charge_imbalance(Totals const& t)
{
    return t.sodium + 2.0 * t.calcium + 2.0 * t.magnesium - t.chloride - 2.0 * t.sulfate - t.alkalinity;
}

Composition composition_of(WaterReadings const& r)
{
    auto const salt = molality(r.salt);
    Totals t;
    t.alkalinity = equivalents(r.alkalinity);
    t.calcium = molality(r.calcium);
    t.magnesium = molality(r.magnesium);
    t.sulfate = molality(r.sulfate);
    t.boron = molality(r.borate);
    t.cyanurate = molality(r.cyanurate);
    t.chlorine = molality(r.free_chlorine);
    t.sodium = salt + t.alkalinity + 2.0 * t.sulfate;
    t.chloride = salt + 2.0 * t.calcium + 2.0 * t.magnesium;
    return {t, r.temperature};
}

WaterReadings readings_of(Composition const& c, units::Ph ph)
{
    auto const& t = c.totals;
    WaterReadings r;
    r.temperature = c.temperature;
    r.ph = ph;
    r.alkalinity = alkalinity(t.alkalinity);
    r.calcium = hardness(t.calcium);
    r.magnesium = hardness(t.magnesium);
    r.sulfate = concentration<units::AsSulfate>(t.sulfate, exact::sulfate_molar_mass);
    r.borate = concentration<units::AsBoron>(t.boron, exact::boron_molar_mass);
    r.cyanurate = as_cyanuric_acid(t.cyanurate);
    r.free_chlorine = as_chlorine(t.chlorine);
    // What chloride is left when that of the hardness is taken off; composition_of has it so.
    r.salt = concentration<units::AsSodiumChloride>(t.chloride - 2.0 * t.calcium - 2.0 * t.magnesium,
                                                    exact::sodium_chloride_molar_mass);
    return r;
}

units::Molality molality(units::AsCalciumCarbonate hardness)
{
    return amount(hardness, exact::calcium_carbonate_molar_mass);
}
units::Molality equivalents(units::AsCalciumCarbonate alkalinity)
{
    return 2.0 * molality(alkalinity);
}
units::Molality molality(units::AsSodiumChloride salt)
{
    return amount(salt, exact::sodium_chloride_molar_mass);
}
units::Molality molality(units::AsSulfate sulfate)
{
    return amount(sulfate, exact::sulfate_molar_mass);
}
units::Molality molality(units::AsBoron borate)
{
    return amount(borate, exact::boron_molar_mass);
}
units::Molality molality(units::AsCyanuricAcid cyanurate)
{
    return amount(cyanurate, exact::cyanuric_acid_molar_mass);
}
units::Molality molality(units::AsChlorine chlorine)
{
    return amount(chlorine, exact::chlorine_molar_mass);
}
units::Molality molality(units::AsHydrogenChloride acid)
{
    return amount(acid, exact::hydrogen_chloride_molar_mass);
}
units::Molality molality(units::AsBicarbonate bicarbonate)
{
    return amount(bicarbonate, exact::sodium_bicarbonate_molar_mass);
}
units::Molality molality(units::AsCarbonate carbonate)
{
    return amount(carbonate, exact::sodium_carbonate_molar_mass);
}
units::Molality molality(units::AsCalciumChloride chloride)
{
    return amount(chloride, exact::calcium_chloride_molar_mass);
}

units::AsCalciumCarbonate hardness(units::Molality calcium_or_magnesium)
{
    return concentration<units::AsCalciumCarbonate>(calcium_or_magnesium, exact::calcium_carbonate_molar_mass);
}
units::AsCalciumCarbonate alkalinity(units::Molality equivalents)
{
    return hardness(0.5 * equivalents);
}
units::AsChlorine as_chlorine(units::Molality chlorine)
{
    return concentration<units::AsChlorine>(chlorine, exact::chlorine_molar_mass);
}
units::AsCyanuricAcid as_cyanuric_acid(units::Molality cyanurate)
{
    return concentration<units::AsCyanuricAcid>(cyanurate, exact::cyanuric_acid_molar_mass);
}

Composition mixed(Composition const& water, Composition const& other, double share)
{
    physics::require_within({0, 1, "", {}}, share, "share of the other water");
    auto const warmer = other.temperature - water.temperature;
    return {water.totals * (1 - share) + other.totals * share, water.temperature + warmer * share};
}

Composition evaporated(Composition const& water, double share)
{
    physics::require_within({0, 0.99, "", {}}, share, "share of the water evaporated");
    return {water.totals * (1 / (1 - share)), water.temperature};
}

} // namespace padwalk::chemistry
