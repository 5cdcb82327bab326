// What people write of suction outlets: what closes the water, and what must not.
#include "assessed.hpp"
#include "catch_compat.hpp"

#include <algorithm>

using namespace padwalk;
using assess::Assessment;
using tests::assessed;

namespace
{

Assessment noted(std::string const& note, std::string const& kind = "drain")
{
    std::string const list = "noticed: [\"" + note + "\"]";
    auto at = [&](std::string const& here) { return here == kind ? list : std::string("noticed: []"); };
    return assessed("on: 2026-05-14\nwaters: {pool: {kind: pool}}\nloops:\n  a:\n    serves: [pool]\n    " +
                    at("loop") + "\n    pump: {" + at("pump") + "}\n    drains: {main: {" + at("drain") + "}}\n");
}

bool suction_alarm(Assessment const& a)
{
    return std::any_of(
        a.alarms.begin(), a.alarms.end(),
        [](assess::Alarm const& one)
        { return std::find(one.cautions.begin(), one.cautions.end(), "suction_entrapment") != one.cautions.end(); });
}

} // namespace

TEST_CASE("drains: what people write of a bad outlet closes the water before anything else")
{
    for (char const* note : {"drain lid gone",
                             "drain cover is gone",
                             "lid missing",
                             "missing grate",
                             "cover has come off",
                             "cover popped off",
                             "cover laying on the bottom",
                             "bare hole where the grate should be",
                             "can see straight into the sump",
                             "drain hole wide open",
                             "there is no lid",
                             "grate cracked",
                             "cover has a crack",
                             "hairline cracks in cover",
                             "corner of the grate is broken off",
                             "cover chipped on one side",
                             "piece missing from the cover",
                             "busted grate",
                             "cover is split down the middle",
                             "smashed cover",
                             "cover is damaged",
                             "lid is loose",
                             "cover not fastened",
                             "cover lifts up by hand",
                             "cover not screwed down",
                             "grate moves when touched with pole",
                             "cover sitting crooked",
                             "cover not secured",
                             "2 screws missing",
                             "only one screw holding it",
                             "screws are stripped",
                             "cover expired in 2021",
                             "expired cover",
                             "past its expiration date",
                             "cover out of date",
                             "cover past its service life",
                             "no date on the cover",
                             "no markings on cover",
                             "not a listed cover",
                             "cover is not listed",
                             "cover not VGB compliant",
                             "non compliant cover",
                             "non VGB cover",
                             "cover has no stamp",
                             "no listing mark",
                             "homemade cover",
                             "old flat grate",
                             "flat drain grate, old style",
                             "cover rated for less than the pump",
                             "pump too big for the drain cover",
                             "flow exceeds the cover rating",
                             "only 1 drain",
                             "only one main drain",
                             "single main drain",
                             "just one drain",
                             "just one drain, no SVRS",
                             "single drain no svrs",
                             "no svrs",
                             "no safety vacuum release",
                             "only drain in the pool",
                             "one drain and nothing to break the suction",
                             "there is only a single drain"})
    {
        INFO(note);
        auto const a = noted(note);
        CHECK(a.outcome == assess::Outcome::unsafe);
        CHECK(suction_alarm(a));
    }
    for (char const* note : {"only one main drain", "single drain, no svrs", "single main drain and no release device",
                             "drain cover missing", "main drain grate broken", "just one drain"})
    {
        INFO("at the loop: " << note);
        CHECK(suction_alarm(noted(note, "loop")));
    }
}

TEST_CASE("drains: what people write of a sound outlet raises no alarm")
{
    for (char const* note : {"cover not broken",
                             "cover not cracked, not loose",
                             "no cracks in the cover",
                             "cover in place and tight",
                             "cover is not missing",
                             "grate not missing",
                             "cover not expired",
                             "no screws missing",
                             "all screws in place",
                             "not a flat grate",
                             "cover is listed",
                             "cover is VGB compliant",
                             "two drains",
                             "two main drains 4 ft apart",
                             "more than one drain",
                             "not just one drain",
                             "svrs fitted and works",
                             "cover isn't loose",
                             "cover secure",
                             "no damage to cover",
                             "cover dated 2030",
                             "one at each end"})
    {
        INFO(note);
        auto const a = noted(note);
        CHECK_FALSE(suction_alarm(a));
        CHECK(a.outcome != assess::Outcome::unsafe);
    }
}

TEST_CASE("drains: an outlet that was not described closes the water where it was noted")
{
    std::string const loops = "loops: {a: {serves: [pool], pump: {runs: yes}}}\n";
    for (char const* note : {"main drain cover missing", "drain grate is broken", "just one main drain"})
    {
        INFO(note);
        auto const at_pool = assessed("waters: {pool: {kind: pool, noticed: [" + std::string(note) +
                                      "]}, pond: {kind: pool}}\n" + loops);
        REQUIRE(suction_alarm(at_pool));
        REQUIRE(at_pool.alarms.front().closes.size() == 1);
        CHECK(at_pool.items[at_pool.alarms.front().closes.front()].name == "pool");
        auto const at_loop = assessed("waters: {pool: {kind: pool}}\nloops: {a: {serves: [pool], noticed: [" +
                                      std::string(note) + "]}}\n");
        REQUIRE(suction_alarm(at_loop));
        CHECK(at_loop.alarms.front().closes.size() == 1);
        auto const anywhere = assessed("waters: {pool: {kind: pool}, pond: {kind: pool}}\n" + loops + "noticed: [" +
                                       std::string(note) + "]\n");
        REQUIRE(suction_alarm(anywhere));
        CHECK(anywhere.outcome == assess::Outcome::unsafe);
    }
    auto const property = assessed("waters: {pool: {kind: pool}, pond: {kind: pool}}\n" + loops +
                                   "noticed: [main drain cover missing]\n");
    CHECK(property.alarms.front().closes.size() == 2); // it is not said which, so each
}

TEST_CASE("drains: a word of a cover is not good news by itself")
{
    // 'cover on' was once read as 'cover', and any unknown word beside it as good.
    for (char const* note : {"cover on the floor of the pool next to the drain", "cover purple", "cover melted"})
    {
        INFO(note);
        auto const a = noted(note);
        CHECK(a.outcome != assess::Outcome::nothing_found);
    }
}
