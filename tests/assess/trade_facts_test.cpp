// Facts of the trade: common practice, no source. What the program must not get wrong, whatever its numbers.
#include "assessed.hpp"
#include "catch_compat.hpp"

#include <algorithm>

using namespace padwalk;
using tests::assessed;

namespace
{

double likely(assess::Assessment const& a, std::string const& id)
{
    for (auto const& cause : a.causes)
        if (cause.id == id)
            return cause.probability;
    return 0;
}

assess::Condition verdict(assess::Assessment const& a, std::string const& kind)
{
    for (auto const& v : a.verdicts)
        if (a.items[v.item].kind == kind)
            return v.condition;
    return assess::Condition::not_tested;
}

} // namespace

TEST_CASE("trade: a pump that grinds but runs is wearing out, not failed [common practice, no source]", "[assess]")
{
    auto const grinds = [](std::string const& runs)
    { return assessed("loops:\n  l: {pump: {" + runs + "noticed: [grinding noise from the motor]}}\n"); };
    auto const a = grinds("runs: yes, ");
    CHECK(verdict(a, "pump") == assess::Condition::works_with_fault);
    CHECK(likely(a, "pump_bearings_worn") > 0.5);
    CHECK(likely(a, "pump_bearings_worn") > 5 * likely(a, "pump_shaft_seized"));
    CHECK(verdict(grinds("runs: no, "), "pump") == assess::Condition::does_not_work);
}

TEST_CASE(
    "trade: a crack that runs on in one line through neighbouring parts shows one pour [common practice, no source]",
    "[assess]")
{
    auto const deck = [](std::string const& note)
    { return assessed("waters:\n  pool: {kind: pool, deck: {noticed: [" + note + "]}}\n"); };
    double const runs_on = likely(deck("{seen: deck_crack_in_line}"), "deck_one_pour");
    CHECK(runs_on > 0.2);
    CHECK(runs_on > 3 * likely(deck("{not_seen: deck_crack_in_line}, {seen: deck_crack_thin}"), "deck_one_pour"));
}

TEST_CASE("trade: a buried heater vent that ends in the open without a cap is unfinished [common practice, no source]",
          "[assess]")
{
    auto const vent = [](std::string const& fields)
    { return assessed("heaters:\n  h: {energy: natural_gas, vent: {" + fields + "}}\n"); };
    auto const bare = vent("buried: yes, capped: no");
    CHECK(verdict(bare, "vent") == assess::Condition::unsafe);
    CHECK(bare.outcome == assess::Outcome::unsafe);
    bool said = false;
    for (auto const& alarm : bare.alarms)
        said = said || bare.findings[alarm.finding].id == "vent_end_uncapped";
    CHECK(said);
    bool still = false;
    auto const capped = vent("capped: yes");
    for (auto const& alarm : capped.alarms)
        still = still || capped.findings[alarm.finding].id == "vent_end_uncapped";
    CHECK_FALSE(still);
}

TEST_CASE(
    "trade: a straight line on plaster alone alarms nobody and is told by feel and brush first [common practice, no "
    "source]",
    "[assess]")
{
    auto const a = assessed("by: inspector\nwaters:\n  pool: {shell: {surface: plaster, noticed: [{seen: "
                            "shell_line_straight}]}}\n");
    CHECK(std::none_of(a.referrals.begin(), a.referrals.end(),
                       [](auto const& r) { return r.trade == "structural_engineer"; }));
    REQUIRE(a.undecided.size() == 1);
    CHECK(a.undecided[0].decides.find("fingernail") != std::string::npos);
}
