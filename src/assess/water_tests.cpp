// What the water tests of a pool or spa say: limits, chlorine, balance, metals, and where they contradict each other.
#include "water_bench.hpp"

#include "padwalk/chemistry/saturation_handbook.hpp"
#include "padwalk/numerics/number_text.hpp"
#include "padwalk/units/definitions.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::assess
{
namespace
{

using units::Measured;
using P = chemistry::Parameter;
using chemistry::Stabilizer;

constexpr double ppm = 1e-3;             ///< kg/m3
constexpr double too_little_salt = 1000; ///< ppm; cells want about three times that; judgement
constexpr double salty = 2500;           ///< ppm, from which the hand table reads too high (its valid range)
constexpr double cold_degF = 70;         ///< below which the hand table reads too low (its valid range)
// 95 %, from the hand method's valid range: up to 0.35 and 0.18 off, and its usual 0.1; judgement
constexpr double cold_doubt = 0.4, salty_doubt = 0.2;

/// Findings for either side of a band, and the reading they share with others.
struct Sides
{
    std::string low, high;
    std::string reading = {};
    bool only_if_so = false; ///< a reading that may be wrong is not taken for its "not so"
};

chemistry::WorkingBand const* band_of(WaterBench const& b, P parameter, Stabilizer stabilizer)
{
    auto const venue = b.spa() ? chemistry::Venue::spa : chemistry::Venue::pool;
    return chemistry::working_band(b.bands, parameter, venue, stabilizer);
}

// A value against the band's ends: two findings, one for each side.
template <class Q>
void against_band(WaterBench& b, visit::Taken<Q> const& value, P parameter, Sides const& sides,
                  Stabilizer stabilizer = Stabilizer::either)
{
    auto const* band = band_of(b, parameter, stabilizer);
    if (!value || band == nullptr)
        return;
    std::string const whose = " [" + band->source.key + "]";
    auto say = [&](std::optional<units::Reading> const& bound, std::string const& id, bool above)
    {
        auto const limit = chemistry::Bounds::as<Q>(bound);
        if (!limit || id.empty())
            return;
        Measured<Q> const edge{*limit, {}, "limit"};
        double const over = probability_above(*value, edge), p = above ? over : 1 - over;
        if (p > 0.5 || !sides.only_if_so)
            b.w.computed(b.item, id, p,
                         b.w.show(*value) + ", limit " + (above ? "at most " : "at least ") + b.w.show(edge) + whose,
                         sides.reading);
    };
    say(band->bounds.low, sides.low, false);
    say(band->bounds.high, sides.high, true);
}

// ---- what can't be true together

/// Which readings of the test can be used.
struct Trust
{
    bool ph = true, chlorine = true, salt = true;
};

template <class Q> bool beyond_doubt(Measured<Q> const& larger, Measured<Q> const& smaller)
{
    return units::in_si(larger.value) - units::in_si(smaller.value) >
           units::coverage * std::hypot(units::in_si(larger.doubt), units::in_si(smaller.doubt));
}

void ask(WaterBench& b, std::string note, std::string why)
{
    b.w.out.questions.push_back({b.item, std::move(note), std::move(why), {}});
}

// Another test of the day whose pH is another.
void compare_ph(WaterBench& b, Trust& trust)
{
    auto const& t = *b.test;
    if (!t.on || !t.ph)
        return;
    for (auto const& other : b.v.tests)
    {
        bool const same_day = other.on && other.on->text.substr(0, 10) == t.on->text.substr(0, 10);
        if (&other == &t || !same_day || !other.ph ||
            !(beyond_doubt(*t.ph, *other.ph) || beyond_doubt(*other.ph, *t.ph)))
            continue;
        trust.ph = false;
        std::string const note =
            "pH " + b.w.show(*t.ph) + " and pH " + b.w.show(*other.ph) + " on " + t.on->text.substr(0, 10);
        ask(b, note,
            "two tests of one day disagree by more than their doubt: test pH again with fresh reagents, unless "
            "something was added in between; until then neither pH nor the saturation index is judged");
        b.w.computed(b.item, "water_readings_disagree", 1, note);
        return;
    }
}

Trust contradictions(WaterBench& b)
{
    auto const& t = *b.test;
    Trust trust;
    if (t.total_chlorine && t.free_chlorine && beyond_doubt(*t.free_chlorine, *t.total_chlorine))
    {
        trust.chlorine = false;
        std::string const note =
            "free chlorine " + b.w.show(*t.free_chlorine) + ", total chlorine " + b.w.show(*t.total_chlorine);
        ask(b, note,
            "total chlorine counts the free too, so it can't be less: test both again with fresh reagents and a clean "
            "cell; until then combined chlorine is not judged, and free chlorine only where both readings say the "
            "same");
        b.w.computed(b.item, "water_readings_disagree", 1, note);
    }
    compare_ph(b, trust);
    if (t.salt && b.v.salt_system.value_or(false) &&
        units::in_si(t.salt->value) + units::coverage * units::in_si(t.salt->doubt) < too_little_salt * ppm)
    {
        trust.salt = false;
        ask(b, "salt " + b.w.show(*t.salt) + ", chlorine made from salt",
            "a salt system makes hardly any chlorine with so little (about 3000 ppm is usual, judgement): test salt "
            "again with another kit, and ask whether the system is in use");
    }
    return trust;
}

// ---- against published limits

Stabilizer stabilizer_of(WaterBench& b)
{
    auto const& acid = b.test->cyanurate;
    if (acid)
        return units::in_si(acid->value) > units::coverage * units::in_si(acid->doubt) ? Stabilizer::present
                                                                                       : Stabilizer::none;
    bool const differs =
        band_of(b, P::free_chlorine, Stabilizer::present) != band_of(b, P::free_chlorine, Stabilizer::none);
    if (b.test->free_chlorine && differs)
        b.w.out.assumptions.push_back({"the stricter limit of free chlorine for " + b.w.name(b.item),
                                       "cyanurate was not tested; water with it needs more chlorine"});
    return Stabilizer::either; // the stricter of both
}

std::string in_ppm(double kg_per_m3)
{
    return numerics::number_text(kg_per_m3 / ppm) + " ppm";
}

// The models' own words go by the limits for pools; where a spa's are others, they are said here.
void say_of_spa(WaterBench& b, std::string text)
{
    if (b.spa())
        b.w.meaning("limits for a spa decide: " + std::move(text));
}

void combined_chlorine(WaterBench& b, Trust const& trust)
{
    auto const& t = *b.test;
    figures::Inputs in;
    in.add("total_chlorine", t.total_chlorine).add("free_chlorine", t.free_chlorine);
    auto const bound = b.w.figure(b.item, "combined_chlorine", in, "combined chlorine of " + b.w.name(b.item));
    auto const combined = bound.get<units::AsChlorine>("combined");
    if (!combined || !trust.chlorine)
        return;
    if (auto const* band = band_of(b, P::combined_chlorine, Stabilizer::either); band != nullptr && band->bounds.high)
        say_of_spa(b, "combined chlorine at most " + in_ppm(band->bounds.high->value));
    against_band(b, combined, P::combined_chlorine, {"", "combined_chlorine_high"});
}

void chlorine_to_cyanurate(WaterBench& b, Trust const& trust)
{
    auto const& t = *b.test;
    if (!trust.chlorine)
        return;
    figures::Inputs in;
    in.add("free_chlorine", t.free_chlorine).add("cyanurate", t.cyanurate);
    auto const held =
        b.w.figure(b.item, "chlorine_to_cyanurate", in, "cyanurate to free chlorine of " + b.w.name(b.item));
    auto const ratio = held.get<units::Number>("ratio");
    if (!ratio)
        return;
    auto const* chlorine = band_of(b, P::free_chlorine, Stabilizer::either);
    auto const* most = band_of(b, P::cyanurate_to_chlorine, Stabilizer::either);
    if (chlorine != nullptr && chlorine->bounds.low && most != nullptr && most->bounds.high)
        say_of_spa(b, "free chlorine at least " + in_ppm(chlorine->bounds.low->value) + ", ratio at most " +
                          numerics::number_text(most->bounds.high->value));
    against_band(b, ratio, P::cyanurate_to_chlorine, {"", "chlorine_to_cyanurate_low", "free chlorine"});
}

void chlorine(WaterBench& b, Trust const& trust)
{
    auto const& t = *b.test;
    auto const stabilizer = stabilizer_of(b);
    if (trust.chlorine)
        against_band(b, t.free_chlorine, P::free_chlorine, {"free_chlorine_low", "free_chlorine_high", "free chlorine"},
                     stabilizer);
    else
    { // what both readings say: the larger is too low, or the smaller too high
        against_band(b, t.free_chlorine, P::free_chlorine, {"free_chlorine_low", "", "free chlorine", true},
                     stabilizer);
        against_band(b, t.total_chlorine, P::free_chlorine, {"", "free_chlorine_high", "free chlorine", true},
                     stabilizer);
    }
    combined_chlorine(b, trust);
    chlorine_to_cyanurate(b, trust);
}

void limits(WaterBench& b, Trust const& trust)
{
    auto const& t = *b.test;
    if (trust.ph)
        against_band(b, t.ph, P::ph, {"ph_low", "ph_high", "balance"});
    chlorine(b, trust);
    against_band(b, t.alkalinity, P::alkalinity, {"alkalinity_low", "alkalinity_high"});
    against_band(b, t.calcium, P::calcium, {"hardness_low", "hardness_high"});
    against_band(b, t.cyanurate, P::cyanurate, {"", "cyanurate_high"});
    against_band(b, t.copper, P::copper, {"", "copper_high"});
    against_band(b, t.iron, P::iron, {"", "iron_high"});
    if (t.phosphate)
        b.w.out.not_tested.push_back({b.item, "phosphate, by its reading of " + b.w.show(*t.phosphate),
                                      "recorded, not judged: no limit for it is held here"});
    if (t.conductivity)
        b.w.out.not_tested.push_back({b.item, "conductivity, by its reading of " + b.w.show(*t.conductivity),
                                      "recorded, not judged: no limit for it is held here"});
}

// ---- balance

// Dissolved solids for the hand method, from a salt reading where they were not tested.
visit::Taken<units::AsItself> solids(WaterBench& b, Trust const& trust)
{
    auto const& t = *b.test;
    if (t.dissolved_solids || !t.salt || !trust.salt)
        return t.dissolved_solids;
    return Measured<units::AsItself>{units::of_si<units::AsItself>(units::in_si(t.salt->value)),
                                     units::of_si<units::AsItself>(units::in_si(t.salt->doubt)), t.salt->method};
}

// The hand table is further off in cold and in salty water; nothing is shifted, its doubt grows.
void widen_table(WaterBench& b, visit::Taken<units::AsItself> const& dissolved, figures::Inputs& in,
                 std::string const& label)
{
    double const cold_si = (cold_degF + units::exact::fahrenheit_zero) * units::exact::fahrenheit_degree;
    bool const cold = b.temperature && units::in_si(b.temperature->value) < cold_si;
    bool const salt = dissolved && units::in_si(dissolved->value) >= salty * ppm;
    if (!cold && !salt)
        return;
    double const doubt = std::hypot(cold ? cold_doubt : 0, salt ? salty_doubt : 0) / units::coverage;
    units::Reading const table{units::Measure::ph_difference, 0, doubt, "assumed", false};
    in.add("table_doubt", table);
    std::string because = cold ? "below 70 °F the hand method lies 0.1 to 0.35 too low" : "";
    if (salt)
        because += std::string(cold ? "; " : "") + "from 2500 ppm of salt it lies up to 0.18 too high";
    b.w.out.assumptions.push_back({"table_doubt of " + b.w.show(table) + " for " + label, because + " (judgement)"});
}

void saturation(WaterBench& b, Trust const& trust)
{
    auto const& t = *b.test;
    if (!trust.ph)
        return;
    std::string const label = "saturation index of " + b.w.name(b.item) + " (hand method)";
    figures::Inputs in;
    in.add("ph", t.ph)
        .add("alkalinity", t.alkalinity)
        .add("calcium", t.calcium)
        .add("cyanurate", t.cyanurate)
        .add("borate", t.borate);
    auto const dissolved = solids(b, trust);
    in.add("water_temperature", b.temperature).add("dissolved_solids", dissolved);
    if (!t.ph || !t.alkalinity || !t.calcium || !b.temperature)
        return; // no index, so nothing to assume for it
    widen_table(b, dissolved, in, label);
    if (dissolved && !t.dissolved_solids)
        b.w.out.assumptions.push_back({"the salt reading stands for all dissolved solids of " + b.w.name(b.item),
                                       "dissolved solids were not tested; what else is dissolved comes on top"});
    auto const figure = b.w.figure(b.item, "saturation_handbook", in, label);
    auto const index = figure.get<units::Number>("handbook_index");
    if (!index)
        return;
    auto const table = chemistry::handbook_table(b.w.engine.data());
    Measured<units::Number> const low{table.band.low, {}, {}}, high{table.band.high, {}, {}};
    std::string const of = "saturation index " + b.w.show(*index), whose = " (" + table.band.body + ")";
    b.w.computed(b.item, "index_low", 1 - probability_above(*index, low),
                 of + ", corrosive below " + b.w.show(low) + whose, "balance");
    b.w.computed(b.item, "index_high", probability_above(*index, high),
                 of + ", scaling above " + b.w.show(high) + whose, "balance");
}

} // namespace

void assess_water_tests(WaterBench& b)
{
    if (b.test == nullptr)
        return;
    Trust const trust = contradictions(b);
    limits(b, trust);
    saturation(b, trust);
}

} // namespace padwalk::assess
