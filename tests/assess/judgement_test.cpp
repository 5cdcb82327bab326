// What the judgement says of itself: what stands beside the causes, how firm the order is, a cause in full, what a
// check would decide.
#include "assessed.hpp"
#include "catch_compat.hpp"

#include <algorithm>
#include <cmath>

using namespace padwalk;
using tests::assessed;
using tests::engine;

namespace
{

assess::Assessment asked(std::string const& text, std::vector<std::string> about)
{
    return assess::assess(visit::read_visit(text, engine().instruments()), engine(), units::System::us,
                          std::move(about));
}

bool sent(assess::Assessment const& a, std::string const& trade)
{
    return std::any_of(a.referrals.begin(), a.referrals.end(), [&](auto const& r) { return r.trade == trade; });
}

std::string const worn = "loops:\n  l: {pump: {runs: yes, age: 12 years, noticed: [grinding noise from the motor, "
                         "{seen: water drips between pump and motor}]}}\n";
std::string const odd = "loops:\n  l: {pump: {runs: yes, noticed: [motor case too hot to keep a hand near, {seen: air "
                        "under the strainer lid}, {seen: pump or motor shakes}]}}\n";

} // namespace

TEST_CASE("judgement: nothing wrong and something else stand beside the causes", "[assess]")
{
    auto const a = assessed(worn);
    REQUIRE(a.explained.size() == 1);
    CHECK(a.items[a.explained[0].item].kind == "pump");
    // Two signs that hardly come by themselves leave little room for nothing.
    CHECK(a.explained[0].nothing_wrong < 0.02);
    CHECK(a.explained[0].something_else < 0.1);
    auto const b = assessed(odd);
    REQUIRE(b.explained.size() == 1);
    // Three that no one cause shows leave more room for what is not known than one does.
    auto const one = assessed("loops:\n  l: {pump: {runs: yes, noticed: [{seen: pump or motor shakes}]}}\n");
    REQUIRE(one.explained.size() == 1);
    CHECK(b.explained[0].something_else > one.explained[0].something_else);
    CHECK(one.explained[0].nothing_wrong > b.explained[0].nothing_wrong);
    CHECK(assessed("loops:\n  l: {pump: {runs: yes}}\n").explained.empty());
}

TEST_CASE("judgement: an order that rests on much is firm, one that rests on a hair is not", "[assess]")
{
    auto const firm = assessed(worn).robustness;
    CHECK(firm.tries == 20);
    CHECK(firm.first_trade == 20);
    auto const hair =
        assessed("loops:\n  l: {pump: {runs: yes, noticed: [{seen: pump or motor shakes}]}}\n").robustness;
    CHECK(hair.likeliest < 20);
    CHECK(hair.words.find("tries") != std::string::npos);
    CHECK(assessed("loops:\n  l: {pump: {runs: yes}}\n").robustness.tries == 0);
    CHECK(assessed(worn).robustness.words == assessed(worn).robustness.words); // the same tries each time
}

TEST_CASE("judgement: a cause that is asked about is explained in full, also where it is unlikely", "[assess]")
{
    auto const a = asked(worn, {"pump_bearings_worn", "pump_impeller_clogged", "water_leak_shell"});
    REQUIRE(a.asked.size() == 2); // there is no water here that could leak
    auto const& bearings = a.asked[0];
    CHECK(bearings.cause.id == "pump_bearings_worn");
    CHECK(bearings.base_rate > 0);
    CHECK_FALSE(bearings.why_rate.empty());
    CHECK(std::any_of(bearings.changed_by.begin(), bearings.changed_by.end(),
                      [](auto const& c) { return c.first.find("older than 8") != std::string::npos; }));
    // Each finding that it shows is there once for each item, what was noticed first, with what it does to the odds.
    CHECK(bearings.shows.size() >= engine().knowledge().cause("pump_bearings_worn")->shows.size());
    REQUIRE(bearings.shows[0].noticed);
    CHECK(bearings.shows[0].log_odds > 1);
    bool open = false;
    for (auto const& shown : bearings.shows)
    {
        CHECK_FALSE((open && shown.noticed));
        open = open || !shown.noticed;
    }
    CHECK(open);
    CHECK_FALSE(bearings.checks.empty());
    auto const& clogged = a.asked[1];
    CHECK(clogged.cause.probability < 0.1);
}

TEST_CASE("judgement: words find a cause by id, by name, or by some words of its name", "[assess]")
{
    using assess::causes_meant;
    CHECK(causes_meant(engine(), "pump_bearings_worn") == std::vector<std::string>{"pump_bearings_worn"});
    CHECK(causes_meant(engine(), "Motor bearings worn") == std::vector<std::string>{"pump_bearings_worn"});
    auto const bearings = causes_meant(engine(), "worn bearing");
    CHECK(std::find(bearings.begin(), bearings.end(), "pump_bearings_worn") != bearings.end());
    CHECK(causes_meant(engine(), "leak").size() > 5);
    CHECK(causes_meant(engine(), "purple elephants").empty());
    CHECK(causes_meant(engine(), "").empty());
}

TEST_CASE("judgement: a check is chosen by what it decides, and says what each outcome would change", "[assess]")
{
    auto const a = assessed("by: inspector\nloops:\n  l: {noticed: [weak flow at the returns], pump: {runs: yes}}\n");
    REQUIRE(!a.next.empty());
    for (auto const& check : a.next)
    {
        INFO(check.id);
        CHECK(check.changes.find("if seen: ") == 0);
        CHECK(check.otherwise.find("if not: ") == 0);
        CHECK_FALSE(check.if_so.empty());
        CHECK_FALSE(check.if_not.empty());
        CHECK(check.risk != diagnosis::Risk::licensed); // an inspector walks
    }
    for (std::size_t i = 1; i < a.next.size(); ++i) // best per minute first, two minutes to get to each
        CHECK(a.next[i - 1].gain / (a.next[i - 1].minutes + 2) >= a.next[i].gain / (a.next[i].minutes + 2) - 1e-12);
}

TEST_CASE("judgement: a dead fill valve does not hide that a leak must be looked for", "[assess]")
{
    std::string const bucket = "waters:\n  pool: {kind: pool, area: 450 ft2, bucket_test: {pool_drop: 1.2 in, "
                               "bucket_drop: 0.25 in, elapsed: 24 h, pump: off, fill: off}}\n";
    CHECK(sent(assessed(bucket), "leak_specialist"));
    auto const both =
        assessed(bucket + "fill_valves:\n  f: {kind: float_valve, noticed: [{seen: delivers nothing}]}\n");
    CHECK(sent(both, "leak_specialist"));
    CHECK(sent(both, "pool_service"));
    // What it is for it does not do.
    for (auto const& verdict : both.verdicts)
        if (both.items[verdict.item].kind == "fill_valve")
            CHECK(verdict.condition == assess::Condition::does_not_work);
}

TEST_CASE("judgement: the deciding check under what can't be told says what to mind", "[assess]")
{
    auto const a = assessed("heaters:\n  h: {energy: natural_gas, noticed: [{seen: heater_slow}]}\n");
    REQUIRE(a.undecided.size() == 1);
    CHECK(a.undecided[0].cautions == std::vector<std::string>{"carbon_monoxide"});
    // Whatever decides, its cautions are those of the knowledge.
    for (auto const* note : {"long straight line on the plaster", "hairline crack in the plaster"})
        for (auto const& entry :
             assessed(std::string("waters:\n  pool: {shell: {surface: plaster, noticed: [") + note + "]}}\n").undecided)
            for (auto const& [id, check] : engine().knowledge().checks)
                if (check.name == entry.decides)
                    CHECK(check.cautions == entry.cautions);
}

TEST_CASE("judgement: what does not fit together is said, with what would have to go", "[assess]")
{
    std::string const pump = "loops:\n  l: {pump: {runs: yes, noticed: [";
    auto const fits =
        assessed(pump + "grinding noise from the motor, {seen: screech or high whine from the motor}]}}\n");
    CHECK(fits.conflict.empty());
    // Three signs of a leak at the light, and no loss: what is denied is what does not fit.
    std::string const three = "waters:\n  pool: {kind: pool, noticed: [{seen: water_dye_light}, {seen: "
                              "water_loss_same_on_off}, {seen: water_level_stops_light}";
    CHECK(assessed(three + "]}\n").conflict.find("goes ill") == std::string::npos);
    auto const apart = assessed(three + ", {not_seen: loss_above_evaporation}]}\n").conflict;
    INFO(apart);
    CHECK(apart.find("\"level falls faster than evaporation explains\" (pool, not there) goes ill with the rest") !=
          std::string::npos);
    CHECK(apart.find("Without it the rest fits") != std::string::npos);
}
