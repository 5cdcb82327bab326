#include "padwalk/chemistry/alkalinity.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/numerics/interpolation.hpp"
#include "padwalk/numerics/number_text.hpp"
#include "padwalk/physics/constants.hpp"
#include "padwalk/physics/range.hpp"
#include "padwalk/units/definitions.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::chemistry
{

using fields::Record;

Record<CyanurateFactor> const& CyanurateFactor::declaration()
{
    static Record<CyanurateFactor> const record =
        Record<CyanurateFactor>("cyanurate factor", "alkalinity of cyanurate at a pH")
            .field("ph", &CyanurateFactor::ph, "pH")
            .required()
            .field("factor", &CyanurateFactor::factor, "mg/L as CaCO3 per mg/L")
            .required()
            .field("source", &CyanurateFactor::source, "where it comes from")
            .required();
    return record;
}

Record<BorateConstant> const& BorateConstant::declaration()
{
    static Record<BorateConstant> const record =
        Record<BorateConstant>("borate constant", "acid constant of boric acid")
            .field("pk_at_25_degc", &BorateConstant::pk_at_25_degc, "pK at 25 °C")
            .required()
            .field("enthalpy_kj_per_mol", &BorateConstant::enthalpy_kj_per_mol, "reaction enthalpy, kJ/mol")
            .required()
            .field("activity_shift", &BorateConstant::activity_shift, "taken off pK for ordinary salt")
            .required()
            .field("source", &BorateConstant::source, "where it comes from")
            .required();
    return record;
}

Record<AlkalinityTable> const& AlkalinityTable::declaration()
{
    static Record<AlkalinityTable> const record =
        Record<AlkalinityTable>("alkalinity factors", "what cyanurate and borate add to an alkalinity test")
            .field("cyanurate", &AlkalinityTable::cyanurate, "by pH")
            .required()
            .field("borate", &AlkalinityTable::borate, "boric acid")
            .required()
            .field("sources", &AlkalinityTable::sources, "works cited");
    return record;
}

AlkalinityTable alkalinity_table(reference::Data const& data)
{
    return reference::read_table<AlkalinityTable>(data, "chemistry/alkalinity_factors.yaml");
}

units::Number cyanurate_factor(units::Ph ph, AlkalinityTable const& table)
{
    std::vector<double> at, factor;
    for (auto const& row : table.cyanurate)
    {
        at.push_back(row.ph.value());
        factor.push_back(row.factor.value());
    }
    physics::require_within({at.front(), at.back(), "", table.cyanurate.front().source.key}, ph.value(),
                            "pH for the share of cyanurate in alkalinity");
    double const inside = std::min(std::max(ph.value(), at.front()), at.back()); // moves the last digit at most
    return units::Number::from_value(numerics::linear_table(at, factor, inside));
}

units::Number borate_factor(units::Ph ph, units::Temperature water, BorateConstant const& constant)
{
    constexpr double t25_K = units::exact::celsius_zero + 25.0;
    constexpr double per_boron = units::exact::calcium_carbonate_molar_mass / (2 * units::exact::boron_molar_mass);
    physics::require_within({0.0, 60.0, "°C", constant.source.key}, water, "water temperature");
    physics::require_within({6.0, 9.0, "", constant.source.key}, ph.value(),
                            "pH for the share of borate in alkalinity");
    double const enthalpy = constant.enthalpy_kj_per_mol.value() * 1e3; // J/mol
    double const pk =
        constant.pk_at_25_degc.value() +
        enthalpy / (physics::molar_gas_constant * std::log(10.0)) * (1 / units::in_si(water) - 1 / t25_K) -
        constant.activity_shift.value();
    return units::Number::from_value(per_boron / (1 + std::pow(10.0, pk - ph.value())));
}

AlkalinityParts carbonate_alkalinity(units::AsCalciumCarbonate total, units::Ph ph, units::AsCyanuricAcid cyanurate,
                                     units::AsBoron borate, units::Temperature water, AlkalinityTable const& table)
{
    using units::AsCalciumCarbonate;
    AlkalinityParts parts;
    if (cyanurate.value() > 0)
        parts.cyanurate = AsCalciumCarbonate(cyanurate.plain() * cyanurate_factor(ph, table).value());
    if (borate.value() > 0)
        parts.borate = AsCalciumCarbonate(borate.plain() * borate_factor(ph, water, table.borate).value());
    parts.carbonate = total - parts.cyanurate - parts.borate;
    if (parts.carbonate.value() < 0)
    {
        auto const ppm = [](AsCalciumCarbonate c) { return numerics::number_text(c.value() * 1e3, 3); };
        bool const both = cyanurate.value() > 0 && borate.value() > 0;
        std::string const adds = both                    ? "cyanurate and borate add "
                                 : cyanurate.value() > 0 ? "cyanurate adds "
                                                         : "borate adds ";
        throw figures::NotComputed(adds + ppm(parts.cyanurate + parts.borate) + " mg/L to an alkalinity of only " +
                                   ppm(total) + " mg/L, so one of these readings is wrong: retest alkalinity, " +
                                   (both                    ? "cyanurate and borate"
                                    : cyanurate.value() > 0 ? "cyanurate"
                                                            : "borate"));
    }
    return parts;
}

} // namespace padwalk::chemistry
