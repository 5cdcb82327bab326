#include "padwalk/chemistry/sanitizer.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/numerics/number_text.hpp"
#include "padwalk/numerics/root.hpp"

#include <cmath>

namespace padwalk::chemistry
{
namespace
{

constexpr double mg_per_litre = 1e-3; // kg/m3
constexpr double common_alkalinity = 100 * mg_per_litre;
constexpr double common_calcium = 250 * mg_per_litre;

units::Fraction share(units::AsChlorine part, double whole)
{
    return units::Fraction::from_value(units::in_si(part) / whole);
}

double hypochlorous_mol(Equilibria const& equilibria, ChlorineReadings const& readings)
{
    return units::in_si(chlorine_state(equilibria, readings).hypochlorous_acid());
}

std::string ppm(double si)
{
    return numerics::number_text(si / mg_per_litre, 2) + " ppm";
}

std::string percent(units::Fraction share)
{
    return numerics::number_text(share.value() * 100, 2) + " %";
}

} // namespace

State chlorine_state(Equilibria const& equilibria, ChlorineReadings const& r)
{
    WaterReadings water;
    water.temperature = r.temperature;
    water.ph = r.ph;
    water.calcium = units::of_si<units::AsCalciumCarbonate>(common_calcium);
    water.salt = r.salt;
    water.cyanurate = r.cyanurate;
    water.free_chlorine = r.free_chlorine;
    // cyanurate and hypochlorite are part of the alkalinity, so their most is laid on top: an equivalent for each
    water.alkalinity = units::of_si<units::AsCalciumCarbonate>(common_alkalinity) +
                       alkalinity(molality(r.cyanurate) + molality(r.free_chlorine));
    return equilibria.at_ph(composition_of(water), r.ph);
}

ChlorineForms chlorine_forms(State const& water)
{
    ChlorineForms out;
    out.hypochlorous = as_chlorine(water.hypochlorous_acid());
    out.hypochlorite = as_chlorine(water.hypochlorite());
    out.held = as_chlorine(water.held_chlorine());
    double const all = units::in_si(as_chlorine(water.composition().totals.chlorine));
    if (!(all > 0))
        throw figures::NotComputed("there is no free chlorine; such water is not disinfected");
    out.hypochlorous_share = share(out.hypochlorous, all);
    out.hypochlorite_share = share(out.hypochlorite, all);
    out.held_share = share(out.held, all);
    return out;
}

units::AsChlorine equivalent_chlorine(Equilibria const& equilibria, ChlorineReadings const& readings)
{
    if (!(units::in_si(readings.free_chlorine) > 0))
        throw figures::NotComputed("there is no free chlorine; such water is not disinfected");
    ChlorineReadings bare = readings;
    bare.cyanurate = {};
    // without cyanurate the acid goes with the chlorine, but for ionic strength
    double const ratio = hypochlorous_mol(equilibria, readings) / hypochlorous_mol(equilibria, bare);
    return readings.free_chlorine * ratio;
}

units::AsChlorine chlorine_needed(Equilibria const& equilibria, ChlorineReadings const& readings,
                                  units::AsChlorine wanted)
{
    if (!(units::in_si(wanted) > 0))
        throw figures::NotComputed("no chlorine is wanted, so none is needed");
    ChlorineReadings bare = readings;
    bare.cyanurate = {};
    bare.free_chlorine = wanted;
    double const acid = hypochlorous_mol(equilibria, bare);
    auto const off = [&](double free)
    {
        ChlorineReadings with = readings;
        with.free_chlorine = units::of_si<units::AsChlorine>(free);
        return hypochlorous_mol(equilibria, with) / acid - 1;
    };
    // a cyanurate holds at most three chlorines, 1.65 mg to the mg; the rest is room for ionic strength
    double const low = 0.9 * units::in_si(wanted);
    double const high = 1.1 * units::in_si(wanted) + 2 * units::in_si(readings.cyanurate);
    return units::of_si<units::AsChlorine>(numerics::bracketed_root(off, low, high, 1e-7));
}

std::string forms_in_words(ChlorineForms const& f)
{
    double const all = units::in_si(f.hypochlorous + f.hypochlorite + f.held);
    std::string text = "of " + ppm(all) + " free chlorine " + ppm(units::in_si(f.hypochlorous)) + " (" +
                       percent(f.hypochlorous_share) + ") is hypochlorous acid, which disinfects; ";
    if (f.held_share.value() < 1e-6)
        return text + "the rest is hypochlorite, which hardly does: less pH would turn it over";
    return text + ppm(units::in_si(f.hypochlorite)) + " is hypochlorite, which hardly does, and " +
           percent(f.held_share) +
           " is held by cyanurate in store, sheltered from the sun, let go as the rest is used up";
}

} // namespace padwalk::chemistry
