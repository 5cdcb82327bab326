#include "assessed.hpp"
#include "catch_compat.hpp"

#include "padwalk/assess/water_sheet.hpp"
#include "padwalk/units/definitions.hpp"

#include <algorithm>
#include <cmath>

using namespace padwalk;
using tests::engine;

namespace
{

assess::WaterReport sheet(std::string const& yaml, double days = 30)
{
    return assess::assess_water(visit::read_visit(yaml, engine().instruments()), engine(), units::System::us,
                                units::Duration::from_value(days * units::exact::day));
}

std::string pool(std::string const& test, std::string const& water = {})
{
    return "waters:\n  pool:\n    kind: pool\n    volume: 16000 gal\n    area: 450 ft2\n    temperature: 84 degF\n" +
           water + "    tests:\n      - {" + test + "}\n";
}

std::string const balanced =
    "kit: laboratory, ph: 7.5, free_chlorine: 4 ppm, total_chlorine: 4.1 ppm, alkalinity: 95 ppm, "
    "calcium: 300 ppm, cyanurate: 40 ppm, salt: 700 ppm, magnesium: 40 ppm, sulfate: 50 ppm";

bool says(std::vector<std::string> const& texts, std::string const& part)
{
    return std::any_of(texts.begin(), texts.end(), [&](auto const& t) { return t.find(part) != std::string::npos; });
}

figures::Figure const* figure(assess::Assessment const& a, std::string const& model)
{
    for (auto const& f : a.figures)
        if (f.figure.model->name == model)
            return &f.figure;
    return nullptr;
}

std::string meaning(assess::Assessment const& a, std::string const& model)
{
    for (auto const& f : a.figures)
        if (f.figure.model->name == model)
            return f.meaning;
    return {};
}

double probability(assess::Assessment const& a, std::string const& id)
{
    for (auto const& f : a.findings)
        if (f.id == id)
            return f.probability;
    return -1;
}

} // namespace

TEST_CASE("water sheet: a balanced water has nothing to do, can be swum in, and a forecast")
{
    auto const r = sheet(pool(balanced));
    REQUIRE(r.waters.size() == 1);
    auto const& s = r.waters.front();
    REQUIRE(s.plan);
    CHECK(s.plan->outcome == chemistry::Outcome::nothing_to_do);
    CHECK_FALSE(r.something_to_do);
    CHECK(s.swim.now);
    CHECK(says(s.doing, "balanced"));
    REQUIRE(s.forecast);
    CHECK(s.forecast->days.size() == 31);
    CHECK_FALSE(s.forecast->exits.empty());
}

TEST_CASE("water sheet: scaling, corrosive, and neither with these tests but with a better one")
{
    auto const scaling =
        sheet(pool("ph: 8.2, free_chlorine: 4 ppm, alkalinity: 200 ppm, calcium: 600 ppm, cyanurate: 0 ppm"));
    CHECK(meaning(scaling.assessment, "saturation").starts_with("scaling"));
    CHECK(probability(scaling.assessment, "index_high") > 0.9);
    auto const corrosive =
        sheet(pool("ph: 7.0, free_chlorine: 4 ppm, alkalinity: 40 ppm, calcium: 80 ppm, cyanurate: 0 ppm"));
    CHECK(meaning(corrosive.assessment, "saturation").starts_with("corrosive"));
    CHECK(probability(corrosive.assessment, "index_low") > 0.9);
    // pH by a strip is good to ± 0.5, so the index near the band's end can't be told; a better pH would tell
    auto const strip =
        sheet(pool("kit: strip, ph: 7.7, free_chlorine: 4 ppm, alkalinity: 110 ppm ± 5 ppm, calcium: 300 "
                   "ppm ± 10 ppm, cyanurate: 30 ppm ± 4 ppm"));
    CHECK(meaning(strip.assessment, "saturation").find("can't tell with these tests") == 0);
    CHECK(meaning(strip.assessment, "saturation").find("a better test of pH would settle it") != std::string::npos);
    // the same with a good pH is settled
    auto const better = sheet(pool("kit: strip, ph: 7.7 ± 0.1, free_chlorine: 4 ppm, alkalinity: 110 ppm ± 5 ppm, "
                                   "calcium: 300 ppm ± 10 ppm, cyanurate: 30 ppm ± 4 ppm"));
    CHECK(meaning(better.assessment, "saturation").find("balanced") == 0);
}

TEST_CASE("water sheet: conductivity raises the salt until it fits, and a salt reading alone is kept")
{
    auto salt_used = [](assess::WaterReport const& r)
    { return *figure(r.assessment, "saturation")->output("salt_used").value * 1e3; };
    std::string const test = "ph: 7.5, alkalinity: 100 ppm, calcium: 250 ppm, cyanurate: 30 ppm";
    CHECK(std::abs(salt_used(sheet(pool(test + ", salt: 3000 ppm"))) - 3000) < 1e-6);
    double const fitted = salt_used(sheet(pool(test + ", conductivity: 7000 uS/cm")));
    CHECK(fitted > 3000);
    CHECK(fitted < 4200);
    // about half a gram of salt to a millisiemens: conductivity twice as high, salt about twice
    CHECK(salt_used(sheet(pool(test + ", conductivity: 14000 uS/cm"))) > 1.8 * fitted);
}

TEST_CASE("water sheet: the heater's hot wall scales before the pool does, the more the longer the rise")
{
    auto visit = [](std::string const& out)
    {
        return pool("ph: 7.8, free_chlorine: 4 ppm, alkalinity: 130 ppm, calcium: 400 ppm, cyanurate: 30 ppm") +
               "loops:\n  loop: {serves: pool}\nheaters:\n  heater: {loop: loop, energy: natural_gas, "
               "inlet_temperature: 84 degF, outlet_temperature: " +
               out + "}\n";
    };
    auto const slow = sheet(visit("120 degF")), usual = sheet(visit("94 degF"));
    auto wall = [](assess::WaterReport const& r)
    { return *figure(r.assessment, "heated_water")->output("wall_calcite").value; };
    double const in_pool = *figure(usual.assessment, "saturation")->output("saturation_calcite").value;
    CHECK(wall(usual) > in_pool);
    CHECK(wall(slow) > wall(usual));
    CHECK(probability(slow.assessment, "heater_wall_scaling") > 0.8);
    CHECK(says(slow.waters.front().doing, "hot wall"));
}

TEST_CASE("water sheet: a spa without a test of its own on the pool's loop is judged at its temperature")
{
    auto const r =
        sheet(pool(balanced) + "  spa: {kind: spa, temperature: 102 degF}\nloops:\n  loop: {serves: [pool, spa]}\n");
    bool found = false;
    for (auto const& f : r.assessment.figures)
        found = found || (f.figure.model->name == "heated_water" && r.assessment.items[f.item].name == "spa" &&
                          f.meaning.find("same water") != std::string::npos);
    CHECK(found);
}

TEST_CASE("water sheet: what is missing is named instead of a plan")
{
    auto const without = sheet(pool("ph: 7.5, free_chlorine: 3 ppm"));
    CHECK_FALSE(without.waters.front().plan);
    CHECK(without.waters.front().no_plan == "it needs total alkalinity, calcium hardness");
    CHECK_FALSE(without.waters.front().forecast);
    auto const no_volume = sheet("waters:\n  pool: {kind: pool, temperature: 84 degF, tests: [{" + balanced + "}]}\n");
    CHECK(no_volume.waters.front().no_plan.find("volume") != std::string::npos);
    auto const none = sheet("waters:\n  pool: {kind: pool}\n");
    CHECK(none.waters.front().no_plan == "there is no water test");
    CHECK_FALSE(none.waters.front().swim.now);
}

TEST_CASE("water sheet: only what is at hand is planned with, prices count, and a wrong name is a question")
{
    std::string const low =
        "ph: 7.4, free_chlorine: 4 ppm, total_chlorine: 4 ppm, alkalinity: 50 ppm, calcium: 300 ppm, "
        "cyanurate: 40 ppm";
    auto const r =
        sheet(pool(low, "    care: {at_hand: [baking_soda, soda_ash, muriatic_acid_31, backing_soda], prices: "
                        "{baking_soda: {paid: 12, weighs: 12 lb}, soda_ash: {paid: 9, weighs: 5 lb}, "
                        "muriatic_acid_31: {paid: 10, holds: 1 gal}}}\n"));
    REQUIRE(r.waters.front().plan);
    auto const& plan = *r.waters.front().plan;
    REQUIRE_FALSE(plan.products.empty());
    for (auto const& id : plan.products)
        CHECK((id == "baking_soda" || id == "soda_ash" || id == "muriatic_acid_31"));
    REQUIRE(plan.cost);
    CHECK(*plan.cost > 0);
    CHECK(std::any_of(r.assessment.questions.begin(), r.assessment.questions.end(),
                      [](auto const& q) { return q.why.find("baking_soda") != std::string::npos; }));
}

TEST_CASE("water sheet: hard fill water and evaporation make hardness climb, repeated doses enter the forecast")
{
    auto const hard = sheet(pool(balanced, "    fill_water: {ph: 8, alkalinity: 200 ppm, calcium: 350 ppm}\n    care: "
                                           "{evaporation: 0.4 in/day, splash: 0 gal/day}\n"),
                            180);
    REQUIRE(hard.waters.front().forecast);
    auto const& days = hard.waters.front().forecast->days;
    CHECK(days.back().calcium.median > days.front().calcium.median);
    auto const dosed = sheet(
        pool(balanced, "    care: {doses: [{product: liquid_chlorine_10, holds: 64 fl oz, every: 1 day}]}\n"), 10);
    auto const left = sheet(pool(balanced), 10);
    REQUIRE(dosed.waters.front().forecast);
    CHECK(dosed.waters.front().forecast->days.back().free_chlorine.median >
          left.waters.front().forecast->days.back().free_chlorine.median);
}

TEST_CASE("water sheet: unsafe water keeps swimmers out and says when")
{
    auto const r =
        sheet(pool("ph: 7.5, free_chlorine: 0.2 ppm, total_chlorine: 0.3 ppm, alkalinity: 95 ppm, calcium: 300 ppm, "
                   "cyanurate: 40 ppm"));
    auto const& s = r.waters.front();
    CHECK_FALSE(s.swim.now);
    CHECK(says(s.swim.against, "free chlorine"));
    CHECK(s.swim.when.find("fresh test") != std::string::npos);
    CHECK(r.something_to_do);
    // chlorine within limits by itself, and far too little for the cyanurate
    auto const held =
        sheet(pool("kit: photometer, ph: 7.4, free_chlorine: 3 ppm, alkalinity: 100 ppm, calcium: 300 ppm, "
                   "cyanurate: 250 ppm"));
    CHECK_FALSE(held.waters.front().swim.now);
    REQUIRE(held.waters.front().plan);
    CHECK(held.waters.front().plan->outcome == chemistry::Outcome::replace_water);
}

TEST_CASE("water sheet: the same visit gives the same sheet")
{
    auto const a = sheet(pool(balanced)), b = sheet(pool(balanced));
    REQUIRE(a.waters.front().forecast);
    CHECK(a.waters.front().forecast->days.back().ph.median == b.waters.front().forecast->days.back().ph.median);
    CHECK(a.waters.front().doing == b.waters.front().doing);
}

TEST_CASE("water sheet: the visit's words and the chemistry's are the same, in the same order")
{
    CHECK(fields::words_of<visit::Sanitizer>::words() == fields::words_of<chemistry::Sanitizer>::words());
    CHECK(fields::words_of<visit::Sunshine>::words() == fields::words_of<chemistry::Sun>::words());
    CHECK(fields::words_of<visit::Stirred>::words() == fields::words_of<chemistry::Aeration>::words());
    CHECK(fields::words_of<visit::Surface>::words() == fields::words_of<chemistry::Finish>::words());
}

TEST_CASE("water sheet: a conductivity that the other readings alone exceed is asked for again, and no harm done")
{
    auto const r =
        sheet(pool("ph: 8.1, free_chlorine: 2 ppm, alkalinity: 240 ppm, calcium: 380 ppm, hardness: 470 ppm, "
                   "cyanurate: 0 ppm, conductivity: 600 uS/cm"));
    CHECK(std::any_of(r.assessment.questions.begin(), r.assessment.questions.end(),
                      [](auto const& q) { return q.note.find("conductivity") != std::string::npos; }));
    CHECK(figure(r.assessment, "saturation") != nullptr);
}

TEST_CASE("water sheet: the newest test decides whether to swim, and one that may be bleached never says yes")
{
    std::string const good = "ph: 7.5, free_chlorine: 4 ppm, total_chlorine: 4 ppm, cyanurate: 40 ppm";
    auto const two = [](std::string const& first, std::string const& second)
    {
        return sheet(
            "waters:\n  pool:\n    kind: pool\n    temperature: 84 degF\n    tests:\n      - {on: 2026-07-02 08:00, " +
            first + "}\n      - {on: 2026-07-01 08:00, " + second + "}\n");
    };
    CHECK(two(good, "ph: 7.5").waters.front().swim.now); // the older one lacks chlorine and stands last
    CHECK_FALSE(two("ph: 7.5", good).waters.front().swim.now);
    auto const bleached = sheet(pool("kit: comparator, ph: 7.5, free_chlorine: 0.2 ppm, total_chlorine: 14 ppm, "
                                     "alkalinity: 95 ppm, calcium: 300 ppm, cyanurate: 40 ppm"));
    CHECK_FALSE(bleached.waters.front().swim.now);
    // what is dangerous elsewhere keeps swimmers out too
    auto const drain =
        sheet(pool(balanced) + "loops:\n  loop: {serves: [pool], drains: {main drain: {noticed: [cover missing]}}}\n");
    CHECK_FALSE(drain.waters.front().swim.now);
    // what a spa is, is decided in one place: 2.5 ppm does for a pool and not for a tub
    std::string const tub = "kit: laboratory, ph: 7.5, free_chlorine: 2.5 ppm ± 0.1 ppm, alkalinity: 95 ppm, calcium: "
                            "250 ppm, cyanurate: 0 ppm";
    auto const hot = sheet("waters:\n  hot tub: {volume: 400 gal, temperature: 101 degF, tests: [{" + tub + "}]}\n");
    REQUIRE(hot.waters.front().plan);
    CHECK(says(hot.waters.front().plan->outside, "free chlorine"));
    auto const cold =
        sheet("waters:\n  pond: {kind: pool, volume: 400 gal, temperature: 80 degF, tests: [{" + tub + "}]}\n");
    REQUIRE(cold.waters.front().plan);
    CHECK_FALSE(says(cold.waters.front().plan->outside, "free chlorine"));
}
