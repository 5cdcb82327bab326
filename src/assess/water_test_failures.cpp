// Where the methods of a water test fail with the readings at hand: beyond a scale, bleached, end points that fade.
#include "water_doubts.hpp"

#include "padwalk/units/definitions.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>

namespace padwalk::assess
{
namespace
{

using units::Measured;
using visit::Kit;

constexpr double recent_hours = 7 * 24; ///< in which chlorine that was far too high may still be so; judgement

// A test without a kit counts as what its doubt was taken from: drops, a turbidity tube, a phenol red comparator.
bool one_of(std::optional<Kit> kit, std::initializer_list<Kit> kits)
{
    return !kit || std::find(kits.begin(), kits.end(), *kit) != kits.end();
}

template <class Q> double limit(WaterBench const& b, std::string const& rule)
{
    return units::in_si(b.w.rules.limit<Q>(rule).value);
}

template <class Q> bool above(WaterBench const& b, visit::Taken<Q> const& reading, std::string const& rule)
{
    return reading && probability_above(*reading, b.w.rules.limit<Q>(rule)) > 0.5;
}

template <class Q> void widen(visit::Taken<Q>& reading, double doubt)
{
    if (reading && units::in_si(reading->doubt) < doubt)
        reading->doubt = units::of_si<units::Difference<Q>>(doubt);
}

// Where it is told that such tests fail so, which then stands among the sources.
std::string as_told(WaterBench& b)
{
    constexpr char key[] = "test-methods-fail";
    b.w.cited.insert(key);
    return " [" + std::string(key) + "]";
}

void assume(WaterBench& b, std::string what, std::string because)
{
    b.w.out.assumptions.push_back({std::move(what), std::move(because)});
}

std::string lower(std::string text)
{
    std::transform(text.begin(), text.end(), text.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return text;
}

// Whether one of the words stands in a text and is not denied by the two words before it.
template <std::size_t N> bool speaks_of(std::string const& text, std::array<char const*, N> const& words)
{
    constexpr std::size_t reach = 12; // bytes, about two short words
    std::string const all = " " + lower(text);
    for (char const* word : words)
        for (std::size_t at = all.find(word); at != std::string::npos; at = all.find(word, at + 1))
        {
            std::size_t const from = at > reach ? at - reach : 0;
            std::string const before = all.substr(from, at - from);
            bool const denied = before.find(" no ") != std::string::npos || before.find("not ") != std::string::npos ||
                                before.find("never ") != std::string::npos ||
                                before.find("without ") != std::string::npos;
            if (!denied)
                return true;
        }
    return false;
}

// What was written down about this water; what was looked for and not seen does not count.
std::string words_about(WaterBench const& b)
{
    std::string all = b.test->notes + ". " + b.v.notes;
    for (auto const& noticed : b.v.noticed)
        all += ". " + noticed.seen;
    return all;
}

// ---- chlorine that may have bleached its own colour out

// The test before this one, if it is recent or neither has a date, read more chlorine than colours stand.
bool high_before(WaterBench const& b)
{
    return std::any_of(b.v.tests.begin(), b.v.tests.end(),
                       [&](visit::WaterTest const& other)
                       {
                           bool const dated = other.on && b.test->on;
                           double const gap = dated ? b.test->on->hours - other.on->hours : 0;
                           bool const counts = dated ? gap >= 0 && gap <= recent_hours : !other.on && !b.test->on;
                           return counts && (above(b, other.free_chlorine, "high_chlorine") ||
                                             above(b, other.total_chlorine, "high_chlorine"));
                       });
}

// What says that there is far more chlorine than was read; empty where nothing does.
std::string much_chlorine(WaterBench const& b, visit::WaterTest const& t, std::string const& words)
{
    static constexpr std::array<char const*, 4> doses{"shock", "superchlor", "overdos", "too much chlorine"};
    if (above(b, t.total_chlorine, "high_chlorine"))
        return "total chlorine " + b.w.show(*t.total_chlorine);
    if (high_before(b))
        return "far more in the test before";
    return speaks_of(words, doses) ? "the notes speak of a strong dose" : "";
}

// What says that chlorine is being fed.
std::string fed_chlorine(WaterBench const& b, std::string const& words)
{
    static constexpr std::array<char const*, 4> feeders{"feeder", "chlorinator", "floater", "salt cell"};
    if (b.v.salt_system.value_or(false))
        return "chlorine made from salt";
    return speaks_of(words, feeders) ? "the notes speak of a feeder" : "";
}

// Likely bleached, and not seen to be. Where the same sample holds so much chlorine in all, it may well be free.
void lay_bleached(WaterBench& b, visit::WaterTest const& t, std::string const& read, std::string const& high)
{
    double const likely = limit<units::Fraction>(b, "bleached_when_high");
    b.w.computed(b.item, "water_test_bleached", likely, read + ", " + high, "free chlorine");
    auto const most = band_of(b, chemistry::Parameter::free_chlorine).high;
    auto const allowed = most ? chemistry::Bounds::as<units::AsChlorine>(most->bound) : std::nullopt;
    if (!t.total_chlorine || !allowed)
        return;
    double const p = probability_above(*t.total_chlorine, {*allowed, {}, {}});
    if (p > 0.5)
        b.w.computed(b.item, "free_chlorine_high", likely * p,
                     read + ", which may be bleached, " + high + "; limit at most " + b.w.show(most->bound) +
                         whose(b, *most),
                     "free chlorine");
}

void bleached_chlorine(WaterBench& b, visit::WaterTest const& t, Trust& trust)
{
    if (!t.free_chlorine || above(b, t.free_chlorine, "bleached_below") ||
        !one_of(t.kit, {Kit::comparator, Kit::photometer}))
        return;
    std::string const words = words_about(b), read = "free chlorine " + b.w.show(*t.free_chlorine);
    std::string const high = much_chlorine(b, t, words), fed = fed_chlorine(b, words);
    if (high.empty() && fed.empty())
        return;
    std::string const with = t.kit ? "a colour (DPD) test" : "the test, if it was by colour (DPD),";
    std::string const why = with + " bleaches out above about 10 ppm of chlorine and may then read nothing" +
                            as_told(b) +
                            ": mix one part of the sample with nine of distilled water, test again at once and take "
                            "ten times that; until then ";
    if (high.empty())
    {
        ask(b, read + ", " + fed, why + "it counts as written: hardly any chlorine although it is being fed");
        return;
    }
    lay_bleached(b, t, read, high);
    trust.bleached = true;
    trust.use_chlorine = false;
    bool const by_total = above(b, t.total_chlorine, "high_chlorine");
    ask(b, read + ", " + high,
        why + (by_total ? "only the total is judged" : "free chlorine is not judged") +
            ", so keep out of the water, and add no chlorine");
    b.w.out.not_tested.push_back({b.item, "free chlorine, by its reading of " + b.w.show(*t.free_chlorine),
                                  "its colour may have bleached out in too much chlorine"});
}

// ---- readings at the end of a scale

void cyanurate_off_its_scale(WaterBench& b, visit::WaterTest& t, Trust& trust)
{
    static constexpr std::array<char const*, 1> diluted{"dilut"};
    if (!t.cyanurate || !one_of(t.kit, {Kit::drops, Kit::comparator}))
        return;
    using Q = units::AsCyanuricAcid;
    double const value = units::in_si(t.cyanurate->value), low = limit<Q>(b, "cyanurate_scale_low");
    std::string const name = "cyanurate of " + b.w.name(b.item);
    if (value >= limit<Q>(b, "cyanurate_scale_high") && !speaks_of(t.notes, diluted))
    {
        trust.cyanurate_known = Known::at_least;
        widen(t.cyanurate, limit<units::Fraction>(b, "off_scale_share") * value);
        assume(b,
               name + " is at least about " + b.w.show(Measured<Q>{t.cyanurate->value, {}, {}}) + ", with " +
                   b.w.show(*t.cyanurate) + " in what is worked out from it",
               "a turbidity tube can't be read from 100 ppm up" + as_told(b) +
                   ": mix the sample half and half with tap water, test "
                   "again, double the reading, and write 'diluted' in the notes of the test");
    }
    else if (value < low)
    {
        trust.cyanurate_known = Known::at_most;
        widen(t.cyanurate, low / 2);
        assume(b, name + " is less than " + b.w.show(Measured<Q>{units::of_si<Q>(low), {}, {}}),
               "a turbidity tube shows nothing below that" + as_told(b) + "; a photometer or a laboratory can");
    }
}

void ph_off_its_scale(WaterBench& b, visit::WaterTest& t, Trust& trust)
{
    if (!t.ph || !trust.use_ph || !one_of(t.kit, {Kit::drops, Kit::comparator}))
        return;
    double const value = units::in_si(t.ph->value), slack = 1e-9;
    bool const high = value >= limit<units::Ph>(b, "phenol_red_high") - slack;
    bool const low = value <= limit<units::Ph>(b, "phenol_red_low") + slack;
    if (!high && !low)
        return;
    trust.ph_known = high ? Known::at_least : Known::at_most;
    std::string const written = b.w.show(Measured<units::Ph>{t.ph->value, {}, {}});
    widen(t.ph, limit<units::PhDifference>(b, "off_scale_ph"));
    assume(b,
           "pH of " + b.w.name(b.item) + " is " + known_as(trust.ph_known) + "about " + written + ", with " +
               b.w.show(*t.ph) + " in what is worked out from it",
           "phenol red keeps one colour below 6.8 and above 8.2" + as_told(b) +
               ": a meter in calibration, or a dye made for that range, "
               "can tell");
}

// ---- reagents that fail in this water

std::string high_chlorine(WaterBench const& b, visit::WaterTest const& t)
{
    if (above(b, t.free_chlorine, "high_chlorine"))
        return "free chlorine " + b.w.show(*t.free_chlorine);
    return above(b, t.total_chlorine, "high_chlorine") ? "total chlorine " + b.w.show(*t.total_chlorine) : "";
}

void ph_in_high_chlorine(WaterBench& b, visit::WaterTest const& t, Trust& trust)
{
    std::string const high = high_chlorine(b, t);
    // A photometer's pH is by the same dye, a strip's mostly.
    if (high.empty() || !t.ph || !one_of(t.kit, {Kit::drops, Kit::comparator, Kit::photometer, Kit::strip}))
        return;
    trust.use_ph = false;
    ask(b, "pH " + b.w.show(*t.ph) + ", " + high,
        "phenol red takes a false colour in so much chlorine" + as_told(b) +
            ": put a drop of chlorine remover (thiosulfate) into "
            "the sample and test pH again, or use a meter; until then neither pH nor the saturation index is judged");
}

void alkalinity_in_high_halogen(WaterBench& b, visit::WaterTest& t)
{
    std::string high = high_chlorine(b, t);
    if (high.empty() && above(b, t.bromine, "high_bromine"))
        high = "bromine " + b.w.show(*t.bromine);
    if (high.empty() || !t.alkalinity || !one_of(t.kit, {Kit::drops}))
        return;
    widen(t.alkalinity, limit<units::Fraction>(b, "faded_end_point_share") * units::in_si(t.alkalinity->value));
    assume(b, "alkalinity of " + b.w.name(b.item) + " counts as " + b.w.show(*t.alkalinity),
           high + " turns the end point of the drop test yellow or colourless" + as_told(b) +
               ": put a drop of chlorine remover "
               "(thiosulfate) into the sample and test again");
}

void hardness_with_metals(WaterBench& b, visit::WaterTest& t)
{
    bool const copper = above(b, t.copper, "metal_fades_end_point");
    if ((!copper && !above(b, t.iron, "metal_fades_end_point")) || !one_of(t.kit, {Kit::drops}) ||
        (!t.calcium && !t.hardness && !t.magnesium))
        return;
    double const share = limit<units::Fraction>(b, "faded_end_point_share");
    for (auto* reading : {&t.calcium, &t.hardness, &t.magnesium})
        if (*reading)
            widen(*reading, share * units::in_si((*reading)->value));
    assume(b, "hardness of " + b.w.name(b.item) + " counts as known to two parts in five",
           (copper ? "copper " + b.w.show(*t.copper) : "iron " + b.w.show(*t.iron)) +
               " makes the end point of the drop test fade" + as_told(b) +
               ": a few drops of the titrant before the indicator help, a "
               "laboratory is surer");
}

void strip_is_coarse(WaterBench& b, visit::WaterTest const& t)
{
    if (t.kit == Kit::strip)
        assume(b, "the strip's readings of " + b.w.name(b.item) + " show the order of size only",
               "one block of colour spans much, and old strips fade: test with drops or a photometer before dosing by "
               "them");
}

} // namespace

void look_for_failing_tests(WaterBench& b, visit::WaterTest& test, Trust& trust)
{
    trust.ph = test.ph;
    trust.cyanurate = test.cyanurate;
    bleached_chlorine(b, test, trust);
    cyanurate_off_its_scale(b, test, trust);
    ph_in_high_chlorine(b, test, trust);
    ph_off_its_scale(b, test, trust);
    alkalinity_in_high_halogen(b, test);
    hardness_with_metals(b, test);
    strip_is_coarse(b, test);
}

} // namespace padwalk::assess
