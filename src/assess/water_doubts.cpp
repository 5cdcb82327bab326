// Readings of one water test that can't be true together.
#include "water_doubts.hpp"

#include "padwalk/chemistry/alkalinity.hpp"
#include "padwalk/physics/range.hpp"
#include "padwalk/units/definitions.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::assess
{
namespace
{

using units::Measured;

constexpr double ppm = 1e-3;             ///< kg/m3
constexpr double too_little_salt = 1000; ///< ppm; cells want about three times that; judgement
constexpr double uS_per_cm = 1e-4;       ///< S/m

// Larger by more than the doubt of both, values of one dimension in SI.
bool beyond(double larger, double larger_doubt, double smaller, double smaller_doubt)
{
    return larger - smaller > units::coverage * std::hypot(larger_doubt, smaller_doubt);
}

template <class Q, class R> bool beyond_doubt(Measured<Q> const& larger, Measured<R> const& smaller)
{
    return beyond(units::in_si(larger.value), units::in_si(larger.doubt), units::in_si(smaller.value),
                  units::in_si(smaller.doubt));
}

void disagree(WaterBench& b, std::string const& note, std::string why)
{
    ask(b, note, std::move(why));
    b.w.computed(b.item, "water_readings_disagree", 1, note);
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
        if (!same_day || !other.ph || !(beyond_doubt(*t.ph, *other.ph) || beyond_doubt(*other.ph, *t.ph)))
            continue;
        trust.use_ph = false;
        disagree(b, "pH " + b.w.show(*t.ph) + " and pH " + b.w.show(*other.ph) + " on " + t.on->text.substr(0, 10),
                 "two tests of one day disagree by more than their doubt: test pH again with fresh reagents, unless "
                 "something was added in between; until then neither pH nor the saturation index is judged");
        return;
    }
}

void compare_chlorine(WaterBench& b, Trust& trust)
{
    auto const& t = *b.test;
    if (!t.total_chlorine || !t.free_chlorine || !beyond_doubt(*t.free_chlorine, *t.total_chlorine))
        return;
    trust.use_chlorine = false;
    disagree(b, "free chlorine " + b.w.show(*t.free_chlorine) + ", total chlorine " + b.w.show(*t.total_chlorine),
             "total chlorine counts the free too, so it can't be less: test both again with fresh reagents and a clean "
             "cell; until then combined chlorine is not judged, and free chlorine only where both readings say the "
             "same");
}

// What cyanurate and borate alone put into an alkalinity test, with their doubt.
struct BesideCarbonate
{
    double by_acid = 0, by_borate = 0, doubt = 0; ///< kg/m3 as CaCO3
};

std::optional<BesideCarbonate> beside_carbonate(WaterBench const& b)
{
    auto const& t = *b.test;
    constexpr double usual_K = units::exact::celsius_zero + 25; // matters to borate's part only, by a hundredth or two
    auto const acid = t.cyanurate ? t.cyanurate->value : units::AsCyanuricAcid{};
    auto const borate = t.borate ? t.borate->value : units::AsBoron{};
    auto const water = b.temperature ? b.temperature->value : units::of_si<units::Temperature>(usual_K);
    auto const boundless = units::of_si<units::AsCalciumCarbonate>(1e3); // the parts do not depend on the whole
    auto share = [](double part, double value, double doubt) { return value > 0 ? part * doubt / value : 0.0; };
    try
    {
        auto const parts = chemistry::carbonate_alkalinity(boundless, t.ph->value, acid, borate, water,
                                                           chemistry::alkalinity_table(b.w.engine.data()));
        double const by_acid = units::in_si(parts.cyanurate), by_borate = units::in_si(parts.borate);
        return BesideCarbonate{
            by_acid, by_borate,
            std::hypot(t.cyanurate ? share(by_acid, units::in_si(acid), units::in_si(t.cyanurate->doubt)) : 0,
                       t.borate ? share(by_borate, units::in_si(borate), units::in_si(t.borate->doubt)) : 0)};
    }
    catch (physics::OutOfRange const&)
    {
        return std::nullopt; // at such a pH the parts are not known, and the index says so
    }
}

void compare_alkalinity(WaterBench& b, Trust& trust)
{
    auto const& t = *b.test;
    if (!t.ph || !trust.use_ph || !t.alkalinity || (!t.cyanurate && !t.borate))
        return;
    auto const beside = beside_carbonate(b);
    if (!beside || !beyond(beside->by_acid + beside->by_borate, beside->doubt, units::in_si(t.alkalinity->value),
                           units::in_si(t.alkalinity->doubt)))
        return;
    bool const acid = beside->by_acid > 0, borate = beside->by_borate > 0;
    trust.use_alkalinity = false;
    trust.use_cyanurate = !acid;
    std::string const what = acid && borate ? "cyanurate and borate" : acid ? "cyanurate" : "borate";
    std::string const note = "alkalinity " + b.w.show(*t.alkalinity) +
                             (acid ? ", cyanurate " + b.w.show(*t.cyanurate) : "") +
                             (borate ? ", borate " + b.w.show(*t.borate) : "") + ", pH " + b.w.show(*t.ph);
    Measured<units::AsCalciumCarbonate> const part{
        units::of_si<units::AsCalciumCarbonate>(beside->by_acid + beside->by_borate),
        units::of_si<units::AsCalciumCarbonate>(beside->doubt),
        {}};
    disagree(b, note,
             what + " alone would read as " + b.w.show(part) + " of alkalinity, more than there is: test alkalinity, " +
                 what + " and pH again with fresh reagents; until then neither alkalinity" +
                 (acid ? ", cyanurate" : "") + " nor the saturation index is judged");
}

void compare_hardness(WaterBench& b, Trust& trust)
{
    auto const& t = *b.test;
    if (!t.hardness || !t.calcium)
        return;
    if (beyond_doubt(*t.calcium, *t.hardness))
    {
        trust.use_calcium = false;
        disagree(b, "total hardness " + b.w.show(*t.hardness) + ", calcium hardness " + b.w.show(*t.calcium),
                 "total hardness counts the calcium too, so it can't be less: test both again with fresh reagents; "
                 "until then neither hardness nor the saturation index is judged");
        return;
    }
    if (!t.magnesium)
        return;
    double const sum = units::in_si(t.calcium->value) + units::in_si(t.magnesium->value);
    double const doubt = std::hypot(units::in_si(t.calcium->doubt), units::in_si(t.magnesium->doubt));
    double const total = units::in_si(t.hardness->value), total_doubt = units::in_si(t.hardness->doubt);
    if (!beyond(sum, doubt, total, total_doubt) && !beyond(total, total_doubt, sum, doubt))
        return;
    trust.use_calcium = false;
    disagree(b,
             "calcium hardness " + b.w.show(*t.calcium) + ", magnesium hardness " + b.w.show(*t.magnesium) +
                 ", total hardness " + b.w.show(*t.hardness),
             "calcium and magnesium together are the total hardness, and here they are not: test all three again, each "
             "as calcium carbonate; until then neither hardness nor the saturation index is judged");
}

void compare_salt(WaterBench& b, Trust& trust)
{
    auto const& t = *b.test;
    if (!t.salt)
        return;
    double const salt = units::in_si(t.salt->value), doubt = units::in_si(t.salt->doubt);
    if (t.dissolved_solids && beyond_doubt(*t.salt, *t.dissolved_solids))
    {
        trust.use_salt = trust.use_solids = false;
        disagree(b, "dissolved solids " + b.w.show(*t.dissolved_solids) + ", salt " + b.w.show(*t.salt),
                 "dissolved solids count the salt too, so they can't be less: test salt again with another kit and set "
                 "the meter by its reference; until then neither is used");
    }
    auto const least = b.w.rules.limit<units::Number>("conductivity_per_salt");
    if (!t.conductivity)
        return;
    double const per_ppm = uS_per_cm / ppm, conducts = units::in_si(least.value) * per_ppm * salt;
    double const conducts_doubt =
        per_ppm * std::hypot(units::in_si(least.value) * doubt, units::in_si(least.doubt) * salt);
    if (!beyond(conducts, conducts_doubt, units::in_si(t.conductivity->value), units::in_si(t.conductivity->doubt)))
        return;
    trust.use_salt = false;
    disagree(
        b, "conductivity " + b.w.show(*t.conductivity) + ", salt " + b.w.show(*t.salt),
        "so much salt conducts more than that, cold or warm: test salt again with another kit and set the meter by "
        "its reference; until then the salt reading is not used");
}

void salt_for_a_salt_system(WaterBench& b, Trust& trust)
{
    auto const& t = *b.test;
    if (!t.salt || !b.v.salt_system.value_or(false) ||
        !(units::in_si(t.salt->value) + units::coverage * units::in_si(t.salt->doubt) < too_little_salt * ppm))
        return;
    trust.use_salt = false;
    ask(b, "salt " + b.w.show(*t.salt) + ", chlorine made from salt",
        "a salt system makes hardly any chlorine with so little (about 3000 ppm is usual, judgement): test salt "
        "again with another kit, and ask whether the system is in use");
}

} // namespace

void ask(WaterBench& b, std::string note, std::string why)
{
    b.w.out.questions.push_back({b.item, std::move(note), std::move(why), {}});
}

void look_for_contradictions(WaterBench& b, Trust& trust)
{
    if (!trust.bleached)
        compare_chlorine(b, trust);
    compare_ph(b, trust);
    compare_alkalinity(b, trust);
    compare_hardness(b, trust);
    compare_salt(b, trust);
    salt_for_a_salt_system(b, trust);
}

} // namespace padwalk::assess
