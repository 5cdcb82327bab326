// What the water tests of a pool or spa say: limits, chlorine, balance, metals.
#include "water_doubts.hpp"

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

constexpr double ppm = 1e-3; ///< kg/m3

/// Findings for either side of a band, and the reading they share with others.
struct Sides
{
    std::string low, high;
    std::string reading = {};
    bool only_if_so = false; ///< a reading that may be wrong is not taken for its "not so"
};

// A value against the band's ends: two findings, one for each side.
template <class Q>
void against_band(WaterBench& b, visit::Taken<Q> const& value, P parameter, Sides const& sides,
                  Stabilizer stabilizer = Stabilizer::either, Known known = Known::exactly)
{
    if (!value)
        return;
    auto const band = band_of(b, parameter, stabilizer);
    say_of_defaults(b, parameter, band);
    auto say = [&](std::optional<chemistry::LeadingBound> const& lead, std::string const& id, bool above)
    {
        if (!lead || id.empty())
            return;
        auto const limit = chemistry::Bounds::as<Q>(lead->bound);
        Measured<Q> const edge{*limit, {}, "limit"};
        double const over = probability_above(*value, edge), p = above ? over : 1 - over;
        if ((p > 0.5 || !sides.only_if_so) && may_be_said(known, above, p))
            b.w.computed(b.item, id, p,
                         known_text(b, units::Reading::of(*value), known) + ", limit " +
                             (above ? "at most " : "at least ") + b.w.show(edge) + whose(b, *lead),
                         sides.reading);
    };
    say(band.low, sides.low, false);
    say(band.high, sides.high, true);
}

// The same, and what every published limit says of it.
template <class Q>
void against_limits(WaterBench& b, visit::Taken<Q> const& value, P parameter, Sides const& sides,
                    Stabilizer stabilizer = Stabilizer::either, Known known = Known::exactly)
{
    against_band(b, value, parameter, sides, stabilizer, known);
    if (value)
        against_published(b, parameter, units::Reading::of(*value), stabilizer, known);
}

// ---- against published limits

Stabilizer stabilizer_of(WaterBench& b, Trust const& trust)
{
    auto const& acid = b.test->cyanurate;
    if (acid && trust.cyanurate_known == Known::at_least)
        return Stabilizer::present;
    // Some of it, and too little to be measured, is in doubt as well.
    bool const too_little = acid && trust.cyanurate_known == Known::at_most && units::in_si(acid->value) > 0;
    if (acid && trust.use_cyanurate && !too_little)
        return units::in_si(acid->value) > units::coverage * units::in_si(acid->doubt) ? Stabilizer::present
                                                                                       : Stabilizer::none;
    auto const least = [&](Stabilizer s)
    {
        auto const low = band_of(b, P::free_chlorine, s).low;
        return low ? low->bound.value : 0.0;
    };
    if (b.test->free_chlorine && least(Stabilizer::present) != least(Stabilizer::none))
        b.w.out.assumptions.push_back({"the stricter limit of free chlorine for " + b.w.name(b.item),
                                       acid ? "its cyanurate is in doubt; water with it needs more chlorine"
                                            : "cyanurate was not tested; water with it needs more chlorine"});
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
    if (!combined || !trust.use_chlorine)
        return;
    if (auto const most = band_of(b, P::combined_chlorine).high)
        say_of_spa(b, "combined chlorine at most " + in_ppm(most->bound.value));
    against_limits(b, combined, P::combined_chlorine, {"", "combined_chlorine_high"});
}

void chlorine_to_cyanurate(WaterBench& b, Trust const& trust)
{
    auto const& t = *b.test;
    if (!trust.use_chlorine || !trust.use_cyanurate)
        return;
    figures::Inputs in;
    in.add("free_chlorine", t.free_chlorine).add("cyanurate", t.cyanurate);
    auto const held =
        b.w.figure(b.item, "chlorine_to_cyanurate", in, "cyanurate to free chlorine of " + b.w.name(b.item));
    auto const ratio = held.get<units::Number>("ratio");
    if (!ratio)
        return;
    auto const least = band_of(b, P::free_chlorine).low;
    auto const most = band_of(b, P::cyanurate_to_chlorine).high;
    if (least && most)
        say_of_spa(b, "free chlorine at least " + in_ppm(least->bound.value) + ", ratio at most " +
                          numerics::number_text(most->bound.value));
    against_limits(b, ratio, P::cyanurate_to_chlorine, {"", "chlorine_to_cyanurate_low", "free chlorine"},
                   Stabilizer::either, trust.cyanurate_known);
}

void chlorine(WaterBench& b, Trust const& trust)
{
    auto const& t = *b.test;
    if (trust.bleached)
        return;
    auto const stabilizer = stabilizer_of(b, trust);
    if (trust.use_chlorine)
        against_limits(b, t.free_chlorine, P::free_chlorine,
                       {"free_chlorine_low", "free_chlorine_high", "free chlorine"}, stabilizer);
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

// Readings for which no finding is held.
void recorded_only(WaterBench& b)
{
    auto const& t = *b.test;
    auto say = [&](std::string const& name, auto const& reading, std::string because)
    {
        if (reading)
            b.w.out.not_tested.push_back(
                {b.item, name + ", by its reading of " + b.w.show(*reading), std::move(because)});
    };
    std::string const no_limit = "recorded, not judged: no limit for it is held here";
    std::string const listed = "recorded, compared with published limits only: no cause is held here for it";
    say("bromine", t.bromine, listed);
    say("sulfate", t.sulfate, listed);
    say("phosphate", t.phosphate, no_limit);
    say("conductivity", t.conductivity, no_limit);
    say("magnesium hardness", t.magnesium, no_limit);
    say("total hardness", t.hardness, no_limit);
    auto published = [&](auto const& reading, P parameter)
    {
        if (reading)
            against_published(b, parameter, units::Reading::of(*reading));
    };
    published(t.bromine, P::bromine);
    published(t.sulfate, P::sulfate);
}

void limits(WaterBench& b, Trust const& trust)
{
    auto const& t = *b.test;
    if (trust.use_ph)
        against_limits(b, trust.ph, P::ph, {"ph_low", "ph_high", "balance"}, Stabilizer::either, trust.ph_known);
    chlorine(b, trust);
    if (trust.use_alkalinity)
        against_limits(b, t.alkalinity, P::alkalinity, {"alkalinity_low", "alkalinity_high"});
    if (trust.use_calcium)
        against_limits(b, t.calcium, P::calcium, {"hardness_low", "hardness_high"});
    if (trust.use_cyanurate)
        against_limits(b, trust.cyanurate, P::cyanurate, {"", "cyanurate_high"}, Stabilizer::either,
                       trust.cyanurate_known);
    against_limits(b, t.copper, P::copper, {"", "copper_high"});
    against_limits(b, t.iron, P::iron, {"", "iron_high"});
    if (trust.use_solids && t.dissolved_solids)
        against_published(b, P::dissolved_solids, units::Reading::of(*t.dissolved_solids));
    recorded_only(b);
}

} // namespace

void assess_water_tests(WaterBench& b)
{
    if (b.test == nullptr)
        return;
    visit::WaterTest const* const written = b.test;
    visit::WaterTest doubted = *written;
    Trust trust;
    look_for_failing_tests(b, doubted, trust);
    b.test = &doubted;
    look_for_contradictions(b, trust);
    limits(b, trust);
    if (!assess_balance(b, trust)) // which tells of chlorine too
        assess_chlorine_at_work(b, trust);
    b.test = written;
}

} // namespace padwalk::assess
