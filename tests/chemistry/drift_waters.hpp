#pragma once
/// Waters and the table for the tests of drift.

#include "run_model.hpp"

#include "padwalk/chemistry/drift.hpp"
#include "padwalk/units/definitions.hpp"

namespace padwalk::drift_tests
{

using chemistry::WaterReadings;
using chemistry_tests::data;

inline constexpr double day = units::exact::day;

inline chemistry::DriftTable const& table()
{
    static chemistry::DriftTable const t = chemistry::drift_table(data());
    return t;
}

inline chemistry::Equilibria const& equilibria()
{
    static chemistry::Equilibria const e(data());
    return e;
}

inline units::AsCalciumCarbonate hardness(double mg_per_litre)
{
    return units::of_si<units::AsCalciumCarbonate>(mg_per_litre * 1e-3);
}

inline units::AsChlorine chlorine(double mg_per_litre)
{
    return units::of_si<units::AsChlorine>(mg_per_litre * 1e-3);
}

inline units::Temperature celsius(double value)
{
    return units::of_si<units::Temperature>(value + 273.15);
}

inline WaterReadings water(double ph, double alkalinity, double calcium, double cyanurate, double free,
                           double salt = 1000, double degrees = 27)
{
    WaterReadings r;
    r.temperature = celsius(degrees);
    r.ph = units::of_si<units::Ph>(ph);
    r.alkalinity = hardness(alkalinity);
    r.calcium = hardness(calcium);
    r.cyanurate = units::of_si<units::AsCyanuricAcid>(cyanurate * 1e-3);
    r.free_chlorine = chlorine(free);
    r.salt = units::of_si<units::AsSodiumChloride>(salt * 1e-3);
    return r;
}

inline chemistry::State state(WaterReadings const& r)
{
    return equilibria().at_ph(chemistry::composition_of(r), r.ph);
}

} // namespace padwalk::drift_tests
