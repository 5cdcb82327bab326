// Water tests that contradict themselves or fail in the water at hand.

#include "assessed.hpp"
#include "catch_compat.hpp"

#include <algorithm>

using namespace padwalk;
using tests::assessed;

namespace
{

assess::Assessment pool(std::string const& fields)
{
    return assessed("waters:\n  pool: {" + fields + "}\n");
}

assess::Assessment tested(std::string const& readings)
{
    return pool("temperature: 80 degF, tests: [{" + readings + "}]");
}

assess::FindingEntryOf const* finding(assess::Assessment const& a, std::string const& id)
{
    auto const found = std::find_if(a.findings.begin(), a.findings.end(), [&](auto const& f) { return f.id == id; });
    return found == a.findings.end() ? nullptr : &*found;
}

double probability(assess::Assessment const& a, std::string const& id)
{
    auto const* f = finding(a, id);
    REQUIRE(f != nullptr);
    return f->probability;
}

// The reason of the question whose note has this part; empty where none was asked.
std::string asked(assess::Assessment const& a, std::string const& note)
{
    for (auto const& q : a.questions)
        if (q.note.find(note) != std::string::npos)
            return q.why;
    return {};
}

// The reason of the assumption that has this part; empty where none was made.
std::string assumed(assess::Assessment const& a, std::string const& what)
{
    for (auto const& x : a.assumptions)
        if (x.what.find(what) != std::string::npos)
            return x.because;
    return {};
}

bool has(std::string const& text, std::string const& part)
{
    return text.find(part) != std::string::npos;
}

bool computed(assess::Assessment const& a, std::string const& model)
{
    return std::any_of(a.figures.begin(), a.figures.end(),
                       [&](auto const& f) { return f.figure.model->name == model && f.figure.computed(); });
}

double width(assess::Assessment const& a, std::string const& model, std::string const& output)
{
    for (auto const& f : a.figures)
        if (f.figure.model->name == model && f.figure.computed())
            return f.figure.output(output).high - f.figure.output(output).low;
    FAIL("no figure " << model);
    return 0;
}

std::string const rest = "alkalinity: 90 ppm, calcium: 250 ppm, dissolved_solids: 900 ppm";

} // namespace

TEST_CASE("water doubts: cyanurate that would be more than all alkalinity asks for both again")
{
    // 200 mg/L of cyanurate add some 0.3 of it at pH 7.5 to an alkalinity test: about 60 mg/L
    auto const a = tested("kit: laboratory, ph: 7.5, alkalinity: 30 ppm, cyanurate: 200 ± 10 ppm, calcium: 250 ppm");
    auto const why = asked(a, "alkalinity 30");
    CHECK(has(why, "test alkalinity, cyanurate and pH again"));
    CHECK(probability(a, "water_readings_disagree") > 0.9);
    for (auto const* id : {"alkalinity_low", "cyanurate_high", "index_low"})
        CHECK(finding(a, id) == nullptr);
    auto const fits = tested("kit: laboratory, ph: 7.5, alkalinity: 90 ppm, cyanurate: 200 ± 10 ppm, calcium: 250 ppm");
    CHECK(asked(fits, "alkalinity").empty());
    CHECK(finding(fits, "cyanurate_high") != nullptr);
    // within the doubt of a strip it is no contradiction
    CHECK(asked(tested("kit: strip, ph: 7.5, alkalinity: 30 ppm, cyanurate: 150 ppm"), "alkalinity").empty());
    auto const both =
        tested("kit: laboratory, ph: 8.0, alkalinity: 20 ppm, cyanurate: 90 ± 5 ppm, borate: 100 ± 5 ppm");
    CHECK(has(asked(both, "borate 100"), "cyanurate and borate alone"));
    auto const borate = tested("kit: laboratory, ph: 8.0, alkalinity: 10 ppm, borate: 150 ± 5 ppm");
    CHECK(has(asked(borate, "borate 150"), "test alkalinity, borate and pH again"));
}

TEST_CASE("water doubts: total hardness below calcium, or not their sum with magnesium")
{
    auto const less = tested("kit: drops, calcium: 400 ppm, hardness: 250 ppm, ph: 7.5, alkalinity: 90 ppm");
    CHECK(has(asked(less, "total hardness 250"), "test both again"));
    CHECK(finding(less, "hardness_low") == nullptr);
    CHECK_FALSE(computed(less, "saturation"));
    CHECK(probability(less, "water_readings_disagree") > 0.9);
    CHECK(asked(tested("kit: drops, calcium: 400 ppm, hardness: 390 ppm"), "hardness").empty());
    auto const sum = tested("kit: drops, calcium: 250 ppm, magnesium: 60 ppm, hardness: 450 ppm");
    CHECK(has(asked(sum, "magnesium hardness 60"), "test all three again"));
    CHECK(finding(sum, "hardness_low") == nullptr);
    CHECK_FALSE(
        asked(tested("kit: drops, calcium: 250 ppm, magnesium: 250 ppm, hardness: 300 ppm"), "magnesium").empty());
    CHECK(asked(tested("kit: drops, calcium: 250 ppm, magnesium: 60 ppm, hardness: 310 ppm"), "hardness").empty());
    CHECK(finding(tested("kit: drops, calcium: 250 ppm, magnesium: 60 ppm, hardness: 310 ppm"), "hardness_low") !=
          nullptr);
}

TEST_CASE("water doubts: dissolved solids or conductivity that can't hold the salt")
{
    auto const solids =
        tested("ph: 7.5, alkalinity: 90 ppm, calcium: 250 ppm, salt: 3200 ppm, dissolved_solids: 1500 ppm");
    CHECK(has(asked(solids, "dissolved solids 1500"), "can't be less"));
    CHECK(probability(solids, "water_readings_disagree") > 0.9);
    CHECK(asked(tested("salt: 3200 ppm, dissolved_solids: 3000 ppm"), "dissolved solids").empty()); // within doubt
    CHECK(asked(tested("salt: 3200 ppm, dissolved_solids: 4000 ppm"), "dissolved solids").empty());
    // 3200 mg/L conduct near 6000 uS/cm; a quarter of that is impossible, a cold meter's two thirds are not
    CHECK(has(asked(tested("salt: 3200 ppm, conductivity: 1500 uS/cm"), "conductivity"), "test salt again"));
    CHECK(asked(tested("salt: 3200 ppm, conductivity: 4000 uS/cm"), "conductivity").empty());
    CHECK(asked(tested("salt: 3200 ppm, conductivity: 6000 uS/cm"), "conductivity").empty());
    // a salt reading in doubt does not stand for the dissolved solids
    auto const doubted =
        tested("ph: 7.5, alkalinity: 90 ppm, calcium: 250 ppm, salt: 3200 ppm, conductivity: 1500 uS/cm");
    CHECK(assumed(doubted, "salt reading stands").empty());
}

TEST_CASE("water doubts: no chlorine by a colour test with much of it about may be bleached, and is not judged")
{
    std::string const none = "kit: comparator, free_chlorine: 0 ppm, ";
    auto const total = tested(none + "total_chlorine: 14 ppm, cyanurate: 40 ppm");
    auto const why = asked(total, "total chlorine 14");
    CHECK(has(why, "bleaches out"));
    CHECK(has(why, "[test-methods-fail]"));
    CHECK(std::any_of(total.sources.begin(), total.sources.end(),
                      [](auto const& s) { return s.first == "test-methods-fail"; }));
    CHECK(has(why, "distilled water"));
    CHECK(has(why, "keep out of the water"));
    for (auto const* id : {"free_chlorine_low", "combined_chlorine_high", "chlorine_to_cyanurate_low"})
        CHECK(finding(total, id) == nullptr);
    REQUIRE(finding(total, "water_test_bleached") != nullptr);
    CHECK(finding(total, "water_test_bleached")->state == assess::FindingState::unclear); // likely, and not seen
    CHECK(probability(total, "free_chlorine_high") > 0.6); // it may all be free: nobody is let in
    CHECK(total.outcome == assess::Outcome::unsafe);
    CHECK(std::any_of(total.not_tested.begin(), total.not_tested.end(),
                      [](auto const& n) { return has(n.because, "bleached out"); }));

    CHECK(finding(tested(none + "total_chlorine: 0.2 ppm, notes: owner shocked it"), "free_chlorine_high") == nullptr);
    CHECK(has(asked(tested(none + "notes: owner shocked it last night"), "free chlorine 0"), "bleaches out"));
    CHECK(asked(tested(none + "notes: never shocked"), "free chlorine 0").empty());
    auto const before = pool("tests: [{on: 2026-05-12, kit: drops, free_chlorine: 18 ppm}, {on: 2026-05-14, kit: "
                             "photometer, free_chlorine: 0.1 ppm}]");
    CHECK(has(asked(before, "test before"), "bleaches out"));
    CHECK(finding(before, "free_chlorine_low") == nullptr);
    auto const long_ago = pool("tests: [{on: 2026-04-12, kit: drops, free_chlorine: 18 ppm}, {on: 2026-05-14, kit: "
                               "photometer, free_chlorine: 0.1 ppm}]");
    CHECK(asked(long_ago, "free chlorine").empty());
    CHECK(probability(long_ago, "free_chlorine_low") > 0.9);
}

TEST_CASE("water doubts: with a salt cell or feeder no chlorine is a question, and still counts as little")
{
    auto const a = pool("salt_system: yes, tests: [{kit: photometer, free_chlorine: 0 ppm}]");
    CHECK(has(asked(a, "chlorine made from salt"), "counts as written"));
    CHECK(probability(a, "free_chlorine_low") > 0.9);
    CHECK(has(asked(pool("notes: tablet feeder runs, tests: [{kit: comparator, free_chlorine: 0 ppm}]"), "feeder"),
              "bleaches out"));
    CHECK(asked(pool("salt_system: yes, tests: [{kit: photometer, free_chlorine: 2 ppm}]"), "free chlorine").empty());
    CHECK(asked(pool("salt_system: no, tests: [{kit: photometer, free_chlorine: 0 ppm}]"), "free chlorine").empty());
}

TEST_CASE("water doubts: only colour tests bleach, drops, strips, meters and laboratories don't")
{
    for (auto const* kit : {"drops", "strip", "meter", "laboratory"})
    {
        INFO(kit);
        auto const a = pool("salt_system: yes, tests: [{kit: " + std::string(kit) +
                            ", free_chlorine: 0 ppm, total_chlorine: 14 ppm}]");
        CHECK(asked(a, "free chlorine").empty());
        CHECK(finding(a, "free_chlorine_low") != nullptr);
    }
    // where the kit was not written it may have been one
    CHECK(has(asked(tested("free_chlorine: 0 ppm, total_chlorine: 14 ppm"), "free chlorine"), "if it was by colour"));
}

TEST_CASE("water doubts: a turbidity tube at 100 says 'at least', and its doubt is wide")
{
    auto const a = tested("kit: drops, ph: 7.5, free_chlorine: 3 ppm, cyanurate: 110 ppm, " + rest);
    CHECK(has(assumed(a, "cyanurate of pool is at least"), "half and half"));
    REQUIRE(finding(a, "cyanurate_high") != nullptr);
    CHECK(has(finding(a, "cyanurate_high")->from, "at least 110 ppm"));
    auto const lab = tested("kit: photometer, ph: 7.5, free_chlorine: 3 ppm, cyanurate: 110 ppm, " + rest);
    CHECK(assumed(lab, "cyanurate of pool is").empty());
    CHECK(width(a, "saturation", "carbonate_alkalinity") > 2 * width(lab, "saturation", "carbonate_alkalinity"));
    // the ratio is 'at least' too, and chlorine is held against the limit for water with cyanurate
    CHECK(
        has(finding(tested("kit: drops, free_chlorine: 1 ppm, cyanurate: 110 ppm"), "chlorine_to_cyanurate_low")->from,
            "at least"));
    CHECK(probability(tested("kit: drops, free_chlorine: 1.5 ppm, cyanurate: 190 ppm"), "free_chlorine_low") > 0.9);
    // at least so much is no reason to say that a higher limit is kept
    CHECK(finding(tested("kit: drops, cyanurate: 100 ppm"), "cyanurate_high")->probability >= 0.5);
    // diluted as advised it is a measurement
    CHECK(
        assumed(tested("kit: drops, cyanurate: 110 ppm, notes: sample diluted by half"), "cyanurate of pool").empty());
    CHECK(assumed(tested("kit: drops, cyanurate: 60 ppm"), "cyanurate of pool").empty());
}

TEST_CASE("water doubts: an 'at most' breaks no upper limit, and an index that is 'at most' is not said to be not low")
{
    auto const spa = [](std::string const& kit)
    {
        auto const a = assessed("waters:\n  tub: {kind: spa, tests: [{kit: " + kit + ", cyanurate: 10 ppm}]}\n");
        for (auto const& reading : a.limits_broken)
            for (auto const& limit : reading.broken_by)
                if (limit.body == "Texas") // 25 TAC 265.193: none at all in a spa
                    return true;
        return false;
    };
    CHECK(spa("photometer"));
    CHECK_FALSE(spa("drops")); // may hold none
    std::string const water =
        "ph: 7.6, cyanurate: 110 ppm, alkalinity: 140 ppm, calcium: 300 ppm, dissolved_solids: 900 ppm";
    CHECK(probability(tested("kit: photometer, " + water), "index_low") < 0.25);
    CHECK(finding(tested("kit: drops, " + water), "index_low") == nullptr);
}

TEST_CASE("water doubts: a turbidity tube below 20 says 'less than', and the stricter limit of chlorine holds")
{
    auto const a = tested("kit: drops, ph: 7.5, free_chlorine: 1.4 ppm, cyanurate: 10 ppm");
    CHECK(has(assumed(a, "cyanurate of pool is less than 20 ppm"), "photometer"));
    CHECK(probability(a, "free_chlorine_low") > 0.75);
    CHECK(has(assumed(a, "stricter limit of free chlorine"), "in doubt"));
    // 'at most' can keep a ratio's limit, never break it
    CHECK(probability(tested("kit: drops, free_chlorine: 3 ppm, cyanurate: 10 ppm"), "chlorine_to_cyanurate_low") <
          0.1);
    CHECK(finding(tested("kit: drops, free_chlorine: 0.1 ppm, cyanurate: 19 ppm"), "chlorine_to_cyanurate_low") ==
          nullptr);
    CHECK(assumed(tested("kit: photometer, cyanurate: 10 ppm"), "cyanurate of pool is").empty());
}

TEST_CASE("water doubts: phenol red from 8.2 up says 'at least', from 6.8 down 'at most'")
{
    auto const high = tested("kit: comparator, ph: 8.2, " + rest);
    CHECK(has(assumed(high, "pH of pool is at least about 8.2"), "meter"));
    CHECK(probability(high, "ph_high") > 0.9);
    CHECK(has(finding(high, "ph_high")->from, "at least 8.2"));
    CHECK(probability(high, "ph_low") < 0.1);
    auto const low = tested("kit: comparator, ph: 6.8, " + rest);
    CHECK(has(assumed(low, "pH of pool is at most about 6.8"), "meter"));
    CHECK(probability(low, "ph_low") > 0.9);
    auto const meter = tested("kit: meter, ph: 8.2, " + rest);
    CHECK(assumed(meter, "pH of pool").empty());
    CHECK(width(high, "saturation", "saturation_calcite") > 1.5 * width(meter, "saturation", "saturation_calcite"));
    CHECK(assumed(tested("kit: comparator, ph: 8.0"), "pH of pool").empty());
    // the index is 'at least' as well: that it is not scaling can't be said of a pH that may be higher
    auto const soft =
        tested("kit: comparator, ph: 8.2, alkalinity: 40 ppm, calcium: 60 ppm, dissolved_solids: 900 ppm");
    CHECK(finding(soft, "index_high") == nullptr);
    CHECK(finding(tested("kit: meter, ph: 8.2, alkalinity: 40 ppm, calcium: 60 ppm, dissolved_solids: 900 ppm"),
                  "index_high") != nullptr);
}

TEST_CASE("water doubts: a dye's pH in more than 10 ppm of chlorine is not judged, a meter's is")
{
    auto const a = tested("kit: drops, free_chlorine: 15 ppm, ph: 6.9, " + rest);
    CHECK(has(asked(a, "pH 6.9"), "thiosulfate"));
    CHECK(finding(a, "ph_low") == nullptr);
    CHECK_FALSE(computed(a, "saturation"));
    CHECK(assumed(tested("kit: drops, free_chlorine: 15 ppm, ph: 6.7"), "pH of pool").empty()); // the more so
    CHECK(asked(tested("kit: meter, free_chlorine: 15 ppm, ph: 6.9"), "pH").empty());
    CHECK(asked(tested("kit: drops, free_chlorine: 8 ppm, ph: 6.9"), "pH").empty());
    CHECK(finding(tested("kit: drops, free_chlorine: 8 ppm, ph: 6.9"), "ph_low") != nullptr);
}

TEST_CASE("water doubts: end points that fade in chlorine, bromine and metals widen the doubt and say what helps")
{
    auto const chlorine = tested("kit: drops, free_chlorine: 15 ppm, alkalinity: 60 ppm");
    CHECK(has(assumed(chlorine, "alkalinity of pool counts as 60 ± 20"), "free chlorine 15"));
    CHECK(has(assumed(tested("kit: drops, bromine: 40 ppm, alkalinity: 60 ppm"), "alkalinity of pool"), "bromine 40"));
    CHECK(assumed(tested("kit: drops, bromine: 5 ppm, alkalinity: 60 ppm"), "alkalinity of pool").empty());
    CHECK(assumed(tested("kit: laboratory, free_chlorine: 15 ppm, alkalinity: 60 ppm"), "alkalinity of pool").empty());
    auto const metal = tested("kit: drops, copper: 1.2 ppm, calcium: 1050 ppm");
    CHECK(has(assumed(metal, "hardness of pool"), "copper 1.2"));
    CHECK(probability(metal, "hardness_high") <
          probability(tested("kit: drops, calcium: 1050 ppm"), "hardness_high") - 0.05);
    CHECK(assumed(tested("kit: drops, copper: 0.1 ppm, calcium: 1050 ppm"), "hardness of pool").empty());
    CHECK(assumed(tested("kit: laboratory, copper: 1.2 ppm, calcium: 1050 ppm"), "hardness of pool").empty());
}

TEST_CASE("water doubts: a strip's readings are said to be coarse, another kit's are not")
{
    CHECK(has(assumed(tested("kit: strip, ph: 7.4"), "strip's readings"), "before dosing"));
    CHECK(assumed(tested("kit: drops, ph: 7.4"), "strip's readings").empty());
}

TEST_CASE("water doubts: a sound test raises no question and no doubt")
{
    auto const a = tested("kit: photometer, ph: 7.5, free_chlorine: 3 ppm, total_chlorine: 3.2 ppm, cyanurate: 35 ppm, "
                          "magnesium: 60 ppm, hardness: 310 ppm, salt: 600 ppm, conductivity: 1800 uS/cm, " +
                          rest);
    CHECK(a.questions.empty());
    CHECK(finding(a, "water_readings_disagree") == nullptr);
    for (auto const* what : {"is at least", "is at most", "is less than", "counts as"})
        CHECK(assumed(a, what).empty());
}
