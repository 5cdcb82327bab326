#pragma once
/// Which readings of a water test can be used, and how far.

#include "water_bench.hpp"

namespace padwalk::assess
{

/// Which readings of the test can be used. What contradicts another reading is not judged, since it is not known which
/// of them is wrong.
struct Trust
{
    bool use_ph = true, use_chlorine = true, use_salt = true, use_alkalinity = true, use_calcium = true,
         use_cyanurate = true, use_solids = true;
    bool bleached = false; ///< the chlorine colour may have bleached out, so that its low reading says nothing
    Known ph_known = Known::exactly, cyanurate_known = Known::exactly;
    // As they were read, for limits: an 'at least' lies beyond a limit at least as surely as its reading does. Their
    // wider doubt in the test is for what is worked out from them.
    visit::Taken<units::Ph> ph;
    visit::Taken<units::AsCyanuricAcid> cyanurate;
};

/// Where the methods of this test fail with these readings, by its kit: off the scale, bleached, end points that fade.
/// Says so as an assumption or a question with what to do, widens the doubt of those readings in `test` (a copy of
/// b.test), and marks in `trust` what is not to be judged.
///
/// Source: [test-methods-fail] and judgement, in data/assess/rules.yaml
void look_for_failing_tests(WaterBench& b, visit::WaterTest& test, Trust& trust);

/// Readings of the test that can't be true together beyond their doubt: asks for what to test again, lays the finding
/// that readings disagree, and marks in `trust` what is not to be judged.
void look_for_contradictions(WaterBench& b, Trust& trust);

/// What the water does to calcium carbonate, where it stands, at its heaters and in a spa that shares it; and how much
/// of its chlorine is at work. False where its tests don't suffice.
bool assess_balance(WaterBench& b, Trust const& trust);
/// How much of the free chlorine is at work.
void assess_chlorine_at_work(WaterBench& b, Trust const& trust);

/// A question about readings, with the reason and what to do.
void ask(WaterBench& b, std::string note, std::string why);

} // namespace padwalk::assess
