#include "assessed.hpp"
#include "catch_compat.hpp"

#include <algorithm>
#include <cmath>

using namespace padwalk;
using assess::FoundMeaning;
using tests::assessed;

namespace
{

assess::Assessment pump(std::string const& found)
{
    return assessed("loops:\n  l:\n    pump: {noticed: [grinding noise], found: " + found + "}\n");
}

} // namespace

TEST_CASE("found: a cause by its id, its name or words of it")
{
    for (auto const* words : {"pump_bearings_worn", "motor bearings worn", "Motor bearings worn", "worn bearings"})
    {
        INFO(words);
        auto const a = pump("[{was: " + std::string(words) + "}]");
        REQUIRE(a.found.size() == 1);
        auto const& found = a.found[0];
        CHECK(found.meaning == FoundMeaning::cause);
        CHECK(found.cause == "pump_bearings_worn");
        CHECK(found.words == words);
        CHECK(found.was);
        CHECK(found.rank == 1);
        CHECK(std::abs(found.prior - 0.07) < 1e-12); // its base rate
        REQUIRE(found.probability.has_value());
        CHECK(*found.probability > 0.5);
        CHECK(a.questions.empty());
    }
}

TEST_CASE("found: it changes no chance and no referral")
{
    auto const without = assessed("loops:\n  l:\n    pump: {noticed: [grinding noise]}\n");
    auto const with = pump("[{was: impeller clogged}, {was_not: motor bearings worn}]");
    REQUIRE(with.causes.size() == without.causes.size());
    for (std::size_t i = 0; i < with.causes.size(); ++i)
    {
        CHECK(with.causes[i].id == without.causes[i].id);
        CHECK(with.causes[i].probability == without.causes[i].probability);
    }
    REQUIRE(with.found.size() == 2);
    CHECK_FALSE(with.found[1].was);
    CHECK(with.found[1].probability > with.found[0].probability);
    CHECK(with.referrals.size() == without.referrals.size());
    CHECK(with.summary == without.summary);
}

TEST_CASE("found: words that fit several causes, or hedge, are asked back and never guessed")
{
    for (auto const* words : {"capacitor", "maybe motor bearings worn", "motor bearings worn?", "bearings shot"})
    {
        INFO(words);
        auto const a = pump("[{was: \"" + std::string(words) + "\"}]");
        REQUIRE(a.found.size() == 1);
        CHECK(a.found[0].meaning == FoundMeaning::unclear);
        CHECK(a.found[0].cause.empty());
        REQUIRE(a.questions.size() == 1);
        CHECK(a.questions[0].note == words);
        CHECK_FALSE(a.questions[0].may_mean.empty());
        CHECK(a.outcome == assess::Outcome::refer);
        CHECK(a.looked_into.empty());
    }
}

TEST_CASE("found: a denial under 'was' is not taken for the cause")
{
    auto const a = pump("[{was: not the motor bearings}]");
    REQUIRE(a.found.size() == 1);
    CHECK(a.found[0].meaning != FoundMeaning::cause);
}

TEST_CASE("found: a cause of another kind of item is asked back")
{
    auto const a = pump("[{was: scaled heat exchanger}]");
    REQUIRE(a.questions.size() == 1);
    CHECK(a.questions[0].why.find("of a heater, not of a pump") != std::string::npos);
    CHECK(a.found.at(0).cause.empty());
}

TEST_CASE("found: free words that fit no cause are kept as they are")
{
    auto const a = pump("[{was: mouse nest in the timer}]");
    REQUIRE(a.found.size() == 1);
    CHECK(a.found[0].meaning == FoundMeaning::not_known);
    CHECK(a.found[0].words == "mouse nest in the timer");
    CHECK(a.questions.empty());
    CHECK(a.looked_into.size() == 1); // somebody looked
}

TEST_CASE("found: the same cause there and not there is asked about, said twice it counts once")
{
    auto const contrary = pump("[{was: worn bearings, was_not: pump_bearings_worn}]");
    REQUIRE(contrary.questions.size() == 1);
    for (auto const& found : contrary.found)
        CHECK(found.meaning == FoundMeaning::unclear);
    CHECK(pump("[worn bearings, pump_bearings_worn]").found.size() == 1);
}

TEST_CASE("found: a cause that can't be at this item has no chance")
{
    auto const a = assessed("heaters:\n  h: {energy: natural_gas, found: [low refrigerant charge]}\n");
    REQUIRE(a.found.size() == 1);
    CHECK(a.found[0].cause == "heater_hp_charge_low");
    CHECK_FALSE(a.found[0].probability.has_value());
}

TEST_CASE("found: a danger that was there makes the visit unsafe, one that was not does not")
{
    auto const there = assessed("heaters:\n  h: {energy: natural_gas, found: [{was: hole in the heat exchanger}]}\n");
    CHECK(there.outcome == assess::Outcome::unsafe);
    CHECK(there.found.at(0).stops_use);
    CHECK(there.summary.find("hole in the heat exchanger") != std::string::npos);
    for (auto const& caution : there.found[0].cautions)
        CHECK(std::any_of(there.cautions.begin(), there.cautions.end(),
                          [&](auto const& said) { return said.first == caution; }));
    auto const ruled_out =
        assessed("heaters:\n  h: {energy: natural_gas, found: [{was_not: hole in the heat exchanger}]}\n");
    CHECK(ruled_out.outcome == assess::Outcome::nothing_found);
}

TEST_CASE("found: words of danger count where they fit no cause")
{
    auto const a = pump("[{was: gas leaking from a hose beside it}]");
    CHECK(a.outcome == assess::Outcome::unsafe);
    CHECK(a.danger_words.size() == 1);
}

TEST_CASE("found: a cause that was there as well does not stand before another")
{
    std::string const two = "loops:\n  l:\n    pump: {noticed: [grinding noise, drip between pump and motor], found: ";
    auto const both = assessed(two + "[motor bearings worn, shaft seal leaking]}\n");
    REQUIRE(both.found.size() == 2);
    CHECK(both.found[0].rank == 1);
    CHECK(both.found[1].rank == 1);
    auto const one = assessed(two + "[motor bearings worn]}\n"), other = assessed(two + "[shaft seal leaking]}\n");
    CHECK(one.found[0].rank + other.found[0].rank == 3); // first and second
}

TEST_CASE("found: the links of a confirmed cause are told, with what shows them anyway")
{
    auto const a = assessed("loops:\n  l:\n    pump:\n      noticed: [grinding noise, {not_seen: screeching noise}]\n"
                            "      found: [motor bearings worn]\n");
    REQUIRE(a.found.size() == 1);
    auto find = [&](std::string const& id)
    {
        auto const& shows = a.found[0].shows;
        auto const at = std::find_if(shows.begin(), shows.end(), [&](auto const& s) { return s.finding == id; });
        REQUIRE(at != shows.end());
        return *at;
    };
    CHECK(find("pump_noise_grinding").seen);
    CHECK_FALSE(find("pump_noise_screech").seen);
    auto const& finding = *tests::engine().knowledge().finding("pump_noise_grinding");
    CHECK(find("pump_noise_grinding").otherwise >= finding.leak.value());
    CHECK(find("pump_noise_grinding").otherwise < 0.5);
}
