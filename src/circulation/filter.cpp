#include "padwalk/circulation/filter.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/units/print.hpp"

#include <cmath>

namespace padwalk::circulation
{
namespace
{

constexpr double furthest_speeds = 2.0; // beyond it the lift that is always there spoils the square
constexpr double nearly = 0.7;          // of the cleaning rise, from where it is time to plan it: judgement

std::string psi(units::Pressure pressure)
{
    return units::show_significant(units::in_unit(units::Measure::pressure_difference, units::in_si(pressure), "psi"),
                                   3);
}

} // namespace

FilterLoad filter_loading(FilterGauge const& gauge, units::Pressure cleaning_rise, units::Number exponent)
{
    if (gauge.clean <= units::GaugePressure{})
        throw figures::NotComputed("a filter's gauge shows some pressure while the pump runs, clean too; the clean "
                                   "reading must be above zero");
    if (gauge.speed.has_value() != gauge.clean_speed.has_value())
        throw figures::NotComputed("one speed alone says nothing: give both speed and clean_speed, or neither if they "
                                   "were the same");
    double factor = 1;
    if (gauge.speed)
    {
        double const ratio = *gauge.clean_speed / *gauge.speed;
        if (ratio > furthest_speeds || ratio < 1 / furthest_speeds)
            throw figures::NotComputed("the two speeds are more than a factor of 2 apart; read the gauge again near "
                                       "the speed of the clean reading");
        factor = std::pow(ratio, exponent.value());
    }
    FilterLoad load;
    load.rise = gauge.now - gauge.clean;
    load.rise_at_clean_speed = gauge.now.from_zero() * factor - gauge.clean.from_zero();
    load.of_cleaning_rise = units::of_si<units::Fraction>(units::in_si(load.rise_at_clean_speed / cleaning_rise));
    return load;
}

std::string filter_load_in_words(FilterLoad const& load)
{
    double const share = load.of_cleaning_rise.value();
    if (share >= 1)
        return "due for cleaning; the pool service does that with the pump off, locked off and the pressure let off: "
               "never open or loosen a filter under pressure";
    if (share >= nearly)
        return "cleaning is near; plan it with the pool service, who opens the filter only with the pump off and the "
               "pressure let off";
    if (share < -0.1) // a tenth of the cleaning rise is no more than a gauge can be read
        return "lower than when it was clean, so less water comes to the filter: look at baskets, water level and "
               "suction side, and at the gauge itself; a channel through the bed or torn element shows so too";
    return "not due for cleaning by its gauge";
}

std::string cleaning_in_words(std::vector<CleaningRise> const& rises)
{
    std::string out;
    for (auto const& r : rises)
        out += (out.empty() ? "" : "; ") + r.where + ": " + psi(r.low) + " to " + psi(r.high) + " psi " + r.note +
               (r.source.seen == reference::Seen::memory ? " (from memory)" : "");
    return out;
}

} // namespace padwalk::circulation
