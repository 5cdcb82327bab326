#pragma once
/// Waters of the reference tables.

#include "csv.hpp"
#include "padwalk/chemistry/equilibria.hpp"
#include "padwalk/units/definitions.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::tests
{

/// mg/L to a concentration of any basis.
template <class Q> Q mg_per_litre(double value)
{
    return Q::from_value(value * 1e-3);
}

inline units::Temperature celsius(double value)
{
    return units::Temperature::from_value(value + units::exact::celsius_zero);
}

/// The columns temp_c, ph, ta_mgl, ch_mgl, mh_mgl, nacl_mgl, so4_mgl, b_mgl of the tables.
inline chemistry::WaterReadings water_of(CsvRow const& row)
{
    chemistry::WaterReadings r;
    r.temperature = celsius(row.number("temp_c"));
    r.ph = units::Ph::from_value(row.number("ph"));
    r.alkalinity = mg_per_litre<units::AsCalciumCarbonate>(row.number("ta_mgl"));
    r.calcium = mg_per_litre<units::AsCalciumCarbonate>(row.number("ch_mgl"));
    r.magnesium = mg_per_litre<units::AsCalciumCarbonate>(row.number("mh_mgl"));
    r.salt = mg_per_litre<units::AsSodiumChloride>(row.number("nacl_mgl"));
    r.sulfate = mg_per_litre<units::AsSulfate>(row.number("so4_mgl"));
    r.borate = mg_per_litre<units::AsBoron>(row.number("b_mgl"));
    return r;
}

/// The largest departure met, for the one line that says how good a table's match is.
class Worst
{
public:
    void see(double ours, double theirs) { worst_ = std::max(worst_, std::abs(ours - theirs)); }
    void see_relative(double ours, double theirs) { worst_ = std::max(worst_, std::abs(ours / theirs - 1)); }
    [[nodiscard]] double value() const { return worst_; }

private:
    double worst_ = 0;
};

} // namespace padwalk::tests
