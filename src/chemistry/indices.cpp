#include "padwalk/chemistry/indices.hpp"

#include "padwalk/figures/model.hpp"

#include <cmath>
#include <vector>

namespace padwalk::chemistry
{
namespace
{

constexpr double mg_per_litre = 1e-3; // kg/m3
constexpr double dissolves_below = -0.3;
constexpr double scales_above = 0.5;

std::string listed(std::vector<std::string> const& parts)
{
    std::string text;
    for (std::size_t i = 0; i < parts.size(); ++i)
        text += (i == 0 ? "" : i + 1 == parts.size() ? " and " : ", ") + parts[i];
    return text;
}

} // namespace

units::Number ryznar(units::Ph ph, units::Number saturation)
{
    double const saturated = ph.value() - saturation.value();
    return units::Number::from_value(2 * saturated - ph.value());
}

units::Number ryznar(State const& water)
{
    double const saturation = water.saturation(Mineral::calcite);
    if (!std::isfinite(saturation))
        throw figures::NotComputed("there is no index without calcium and alkalinity");
    return ryznar(water.ph(), units::Number::from_value(saturation));
}

std::string ryznar_in_words(units::Number index)
{
    if (index.value() < 6)
        return "scaling: below 6";
    if (index.value() > 7)
        return "no scale: above 7; the lower the saturation index, the more such water dissolves";
    return "about neutral: 6 to 7";
}

std::string copper_risk_in_words(units::Ph ph, units::AsChlorine free_chlorine, units::AsCyanuricAcid cyanurate,
                                 units::AsCalciumCarbonate alkalinity, units::AsSodiumChloride salt)
{
    double const chlorine = units::in_si(free_chlorine) / mg_per_litre;
    double const acid = units::in_si(cyanurate) / mg_per_litre;
    bool const low_ph = ph.value() < 7.2;
    std::vector<std::string> causes;
    if (low_ph)
        causes.emplace_back(ph.value() < 7.0 ? "pH below 7.0, the worst of all" : "pH below 7.2");
    // a fifth of the cyanurate is more than any common advice; without cyanurate all of it works
    if (chlorine > 10 || (chlorine > 5 && chlorine > acid / 5))
        causes.emplace_back("much working chlorine");
    if (units::in_si(alkalinity) / mg_per_litre < 60)
        causes.emplace_back("little alkalinity, so that pH falls easily");
    if (units::in_si(salt) / mg_per_litre > 2500)
        causes.emplace_back("much salt");
    std::string const limits = "; fast flow and tight bends add to it and no test shows them. How fast pH attacks a "
                               "heater has not been found measured: look for blue or green stain and test copper";
    if (causes.empty())
        return "these readings name no cause for copper to dissolve" + limits;
    return std::string(low_ph ? "copper is at risk" : "copper may be at risk") + " from " + listed(causes) + limits;
}

std::string plaster_risk_in_words(units::Number low, units::Number high)
{
    if (low > high)
        throw std::invalid_argument("an interval's low end lies above its high end");
    bool const may_dissolve = low.value()<dissolves_below, may_scale = high.value()> scales_above;
    if (high.value() < dissolves_below)
        return "plaster and grout are being dissolved, slowly: the index is below -0.3 whatever the readings' doubt";
    if (low.value() > scales_above)
        return "plaster is safe; scale forms instead, first in the heater: the index is above +0.5 whatever the "
               "readings' doubt";
    if (may_dissolve && may_scale)
        return "the readings are too coarse to say: the index may lie on either side of its band";
    if (may_dissolve)
        return "plaster may be dissolving: part of the readings' doubt lies below -0.3";
    if (may_scale)
        return "plaster is safe; scale may form: part of the readings' doubt lies above +0.5";
    return "plaster is safe: sample pieces in water with an index near 0 lost nothing in six months";
}

} // namespace padwalk::chemistry
