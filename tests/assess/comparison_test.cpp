// Two visits held against each other.

#include "assessed.hpp"
#include "catch_compat.hpp"

#include "padwalk/assess/comparison.hpp"
#include "padwalk/units/definitions.hpp"

#include <algorithm>
#include <cmath>

using namespace padwalk;
using namespace padwalk::assess;
using tests::assessed;

namespace
{

std::string on(std::string const& date, std::string const& rest, std::string const& property = "a place")
{
    return (date.empty() ? std::string() : "on: " + date + "\n") +
           (property.empty() ? std::string() : "property: " + property + "\n") + rest;
}

std::string gauge(std::string const& reading)
{
    return "loops:\n  l:\n    filter: {gauge: " + reading + "}\n";
}

std::string pump(std::string const& rest)
{
    return "loops:\n  l:\n    pump: {" + rest + "}\n";
}

Comparison compared(std::string const& then, std::string const& now)
{
    return compare(assessed(then), assessed(now));
}

Comparison of_bodies(std::string const& then, std::string const& now)
{
    return compared(on("2026-05-01", then), on("2026-06-01", now));
}

ReadingCompared const& reading(Comparison const& c, std::string const& label)
{
    auto const found =
        std::find_if(c.readings.begin(), c.readings.end(), [&](auto const& r) { return r.label == label; });
    REQUIRE(found != c.readings.end());
    return *found;
}

CauseCompared const* cause(Comparison const& c, std::string const& id)
{
    auto const found = std::find_if(c.causes.begin(), c.causes.end(), [&](auto const& r) { return r.id == id; });
    return found == c.causes.end() ? nullptr : &*found;
}

bool names(std::vector<Matter> const& list, std::string const& what)
{
    return std::any_of(list.begin(), list.end(),
                       [&](Matter const& m) { return m.what.find(what) != std::string::npos; });
}

bool says(std::vector<std::string> const& notes, std::string const& what)
{
    return std::any_of(notes.begin(), notes.end(),
                       [&](std::string const& note) { return note.find(what) != std::string::npos; });
}

} // namespace

TEST_CASE("compare: a difference by hand, on the edge it agrees, beyond it does not")
{
    auto const edge = difference(10, 1.5, 15, 2); // root of 2.25 + 4 is 2.5, and 5 is twice that
    CHECK(edge.by == 5);
    CHECK(std::abs(edge.doubt - 2.5) < 1e-14);
    CHECK(std::abs(*edge.doubts - 2) < 1e-14);
    CHECK(edge.changed == Changed::agrees);
    CHECK(difference(10, 1.5, 15.001, 2).changed == Changed::changed);
    CHECK(difference(15.001, 2, 10, 1.5).changed == Changed::changed);
    CHECK(difference(7, 0, 7, 0).changed == Changed::agrees);
    CHECK_FALSE(difference(7, 0, 7, 0).doubts);
    CHECK(difference(7, 0, 7.1, 0).changed == Changed::changed);
}

TEST_CASE("compare: readings of one field in different units, with the edge where the units put it")
{
    // 3 and 4 psi of doubt make 5 psi together
    auto const within = of_bodies(gauge("12 psi ± 3 psi"), gauge("117.2 kPa ± 27.58 kPa")); // 17.0 psi
    auto const& r = reading(within, "gauge");
    CHECK(r.changed == Changed::agrees);
    REQUIRE(r.difference);
    CHECK(std::abs(r.difference->by / units::exact::psi - 4.998) < 0.002);
    CHECK(std::abs(r.difference->doubt / units::exact::psi - 2.5) < 0.001);
    CHECK(reading(of_bodies(gauge("12 psi ± 3 psi"), gauge("118.6 kPa ± 27.58 kPa")), "gauge").changed ==
          Changed::changed); // 17.2 psi
    CHECK_FALSE(r.other_instrument);
    CHECK(reading(of_bodies(gauge("12 psi"), gauge("12 psi ± 1 psi")), "gauge").other_instrument);
    CHECK(reading(of_bodies(gauge("12 psi ± 1 psi"), "loops:\n  l: {filter: {}}\n"), "gauge").changed ==
          Changed::only_then);
    CHECK(reading(of_bodies("loops:\n  l: {filter: {}}\n", gauge("12 psi")), "gauge").changed == Changed::only_now);
}

TEST_CASE("compare: words of a field, and of several water tests the newest that has the field")
{
    CHECK(reading(of_bodies(pump("runs: yes"), pump("runs: no")), "runs").changed == Changed::changed);
    CHECK(reading(of_bodies(pump("runs: yes"), pump("runs: yes")), "runs").changed == Changed::agrees);
    auto const water = [](std::string const& tests) { return "waters:\n  pool:\n    tests: [" + tests + "]\n"; };
    auto const c = of_bodies(water("{on: 2026-04-30, ph: 7.9, cyanurate: 40 ppm}, {on: 2026-04-20, ph: 7.1}"),
                             water("{on: 2026-06-01, ph: 7.4}, {on: 2026-05-15, ph: 8.2, cyanurate: 60 ppm}"));
    auto const& ph = reading(c, "ph");
    CHECK(std::abs(ph.then->reading.value - 7.9) < 1e-9);
    CHECK(ph.then->taken_at == "2026-04-30");
    CHECK(std::abs(ph.now->reading.value - 7.4) < 1e-9);
    CHECK(reading(c, "cyanurate").now->taken_at == "2026-05-15");
    CHECK(std::count_if(c.readings.begin(), c.readings.end(), [](auto const& r) { return r.label == "ph"; }) == 1);
}

TEST_CASE("compare: confirmed, ruled out, something else")
{
    auto const c =
        of_bodies(pump("runs: yes, noticed: [grinding noise, water drips between pump and motor]"),
                  pump("runs: yes, noticed: [{not_seen: grinding noise}, {not_seen: water drips between "
                       "pump and motor}], found: [{was: motor bearings worn}, {was_not: shaft seal leaking}, "
                       "{was: a sprinkler wetted it}]"));
    auto const* bearings = cause(c, "pump_bearings_worn");
    REQUIRE(bearings != nullptr);
    CHECK(bearings->found == FoundAs::confirmed);
    CHECK(bearings->rank_then >= 1);
    CHECK(*bearings->then > 0.5);
    REQUIRE(bearings->now);
    CHECK(*bearings->now < *bearings->then);
    CHECK(cause(c, "pump_shaft_seal_leaking")->found == FoundAs::ruled_out);
    REQUIRE(c.other.size() == 1);
    CHECK(c.other[0].words == "a sprinkler wetted it");
    CHECK(c.resolved.size() == 2);
    CHECK(c.open.empty());
    CHECK(c.fresh.empty());
    CHECK(c.left == Left::nothing);
    CHECK(c.items.at(2).standing == Standing::resolved); // the pump behind its loop
}

TEST_CASE("compare: what was seen and nobody looked for again is open, and never resolved")
{
    auto const c = of_bodies(pump("runs: yes, noticed: [grinding noise]"), pump("runs: yes"));
    CHECK(names(c.open, "grinding"));
    CHECK(c.resolved.empty());
    CHECK(c.left == Left::something);
    auto const again = of_bodies(pump("noticed: [grinding noise]"), pump("noticed: [grinding noise]"));
    CHECK(names(again.open, "grinding"));
    auto const fresh = of_bodies(pump("noticed: [{not_seen: grinding noise}]"), pump("noticed: [grinding noise]"));
    CHECK(names(fresh.fresh, "grinding"));
    CHECK(fresh.open.empty());
}

TEST_CASE("compare: an alarm stands until somebody looks and does not see it")
{
    auto const drain = [](std::string const& noticed)
    { return "loops:\n  l:\n    drains: {main: {noticed: [" + noticed + "]}}\n"; };
    auto const stands = of_bodies(drain("cover missing"), drain("cover missing"));
    REQUIRE_FALSE(stands.alarms.empty());
    CHECK(stands.alarms.front().state == AlarmNow::stands);
    CHECK(stands.left == Left::unsafe);
    auto const unseen = of_bodies(drain("cover missing"), "loops:\n  l: {flow: 40 gpm}\n");
    REQUIRE_FALSE(unseen.alarms.empty());
    CHECK(unseen.alarms.front().state == AlarmNow::not_looked_at);
    CHECK(unseen.left == Left::unsafe);
    REQUIRE_FALSE(unseen.open.empty());
    CHECK(unseen.open.front().danger);
    auto const gone = of_bodies(drain("cover missing"), drain("{not_seen: cover missing}"));
    CHECK(gone.alarms.front().state == AlarmNow::gone);
    CHECK(gone.left != Left::unsafe);
    CHECK(of_bodies(drain("{not_seen: cover missing}"), drain("cover missing")).alarms.front().state ==
          AlarmNow::fresh);
}

TEST_CASE("compare: what a technician found and stops use stays unsafe until it is settled")
{
    auto const vent = [](std::string const& rest)
    { return "heaters:\n  h:\n    energy: natural_gas\n    vent: {" + rest + "}\n"; };
    std::string dangerous; // a cause of a vent that stops use, whatever it is called
    for (auto const& [id, entry] : tests::engine().knowledge().causes)
        if (entry.item == "vent" && entry.hazard == diagnosis::Hazard::people && entry.urgency == Urgency::stop_use &&
            dangerous.empty())
            dangerous = id;
    REQUIRE_FALSE(dangerous.empty());
    auto const left = of_bodies(vent("found: [{was: " + dangerous + "}]"), vent(""));
    CHECK(left.left == Left::unsafe);
    CHECK(left.open.front().danger);
    auto const ruled_out =
        of_bodies(vent("found: [{was: " + dangerous + "}]"), vent("found: [{was_not: " + dangerous + "}]"));
    CHECK(cause(ruled_out, dangerous)->found == FoundAs::ruled_out);
}

TEST_CASE("compare: figures by model and label, with their intervals")
{
    auto const flow = [](std::string const& reading) {
        return "waters:\n  pool: {volume: 15000 gal ± 300 gal}\nloops:\n  l: {serves: [pool], flow: " + reading + "}\n";
    };
    auto const c = of_bodies(flow("40 gpm ± 2 gpm"), flow("60 gpm ± 2 gpm"));
    auto const found =
        std::find_if(c.figures.begin(), c.figures.end(), [](auto const& f) { return f.model == "turnover"; });
    REQUIRE(found != c.figures.end());
    REQUIRE(found->difference);
    CHECK(found->changed == Changed::changed);
    // 15000 gal at 40 and at 60 gpm: 6.25 h and 4.17 h
    CHECK(std::abs(found->difference->by / 3600 - (15000.0 / 60 / 60 - 15000.0 / 40 / 60)) < 0.05);
    auto const same = of_bodies(flow("40 gpm ± 2 gpm"), flow("41 gpm ± 2 gpm"));
    auto const again =
        std::find_if(same.figures.begin(), same.figures.end(), [](auto const& f) { return f.model == "turnover"; });
    CHECK(again->changed == Changed::agrees);
}

TEST_CASE("compare: what is odd about a pair is said, and nothing is lost")
{
    auto const a = gauge("12 psi"), b = gauge("18 psi");
    CHECK(says(compared(on("2026-06-01", a), on("2026-05-01", b)).notes, "is the later one by its date"));
    CHECK(compared(on("2026-06-01", a), on("2026-05-01", b)).readings.size() == 1);
    CHECK(says(compared(on("", a), on("2026-05-01", b)).notes, "the first visit has no date"));
    CHECK(says(compared(on("", a), on("", b)).notes, "neither visit has a date"));
    CHECK(says(compared(on("2026-05-01", a), on("2026-05-01 10:00", b)).notes, "of one day"));
    CHECK(says(compared(on("2026-05-01", a), on("2026-05-01", b)).notes, "the same moment"));
    CHECK(compared(on("2026-05-01", a), on("2026-05-02", b)).notes.empty());
    CHECK(says(compared(on("2026-05-01", a), on("2026-05-02", b, "elsewhere")).notes, "different properties"));
    CHECK(says(compared(on("2026-05-01", a), on("2026-05-02", b, "")).notes, "only one of the visits"));
    CHECK(compared(on("2026-05-01", a, "A Place"), on("2026-05-02", b, "a place")).notes.empty());
    auto const apart = compared(on("2026-05-01", a), on("2026-05-02", "waters:\n  pool: {temperature: 80 degF}\n"));
    CHECK(says(apart.notes, "nothing stands in both"));
    CHECK(apart.readings.size() == 2);
    auto const then_only =
        std::count_if(apart.items.begin(), apart.items.end(), [](ItemCompared const& i) { return i.then && !i.now; });
    CHECK(then_only >= 2); // loop, pump or filter
}

TEST_CASE("compare: items by place, whatever the letters' size, the same comparison each time")
{
    auto const c = of_bodies("loops:\n  Pool Loop: {flow: 40 gpm}\n", "loops:\n  pool loop: {flow: 41 gpm}\n");
    CHECK(reading(c, "flow").then);
    CHECK(reading(c, "flow").now);
    auto const two = of_bodies("loops:\n  l: {flow: 40 gpm}\n", "loops:\n  l: {flow: 41 gpm}\n  L: {flow: 50 gpm}\n");
    CHECK(std::count_if(two.readings.begin(), two.readings.end(), [](auto const& r) { return r.label == "flow"; }) ==
          2);
    CHECK(of_bodies(gauge("12 psi"), gauge("12 psi")).left == Left::nothing);
}
