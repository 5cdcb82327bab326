// A folder of visits as a log.

#include "assessed.hpp"
#include "catch_compat.hpp"

#include "padwalk/assess/history.hpp"
#include "padwalk/units/definitions.hpp"

#include <algorithm>
#include <cmath>

using namespace padwalk;
using namespace padwalk::assess;

namespace
{

using Files = std::vector<std::pair<std::string, std::string>>;

History of(Files files)
{
    return history(std::move(files), tests::engine());
}

std::string at(std::string const& date, std::string const& rest, std::string const& property = "here")
{
    return (date.empty() ? std::string() : "on: " + date + "\n") +
           (property.empty() ? std::string() : "property: " + property + "\n") + rest;
}

std::string gauge(std::string const& reading)
{
    return "loops:\n  l:\n    filter: {gauge: " + reading + "}\n";
}

Series const* series(PropertyLog const& log, std::string const& label)
{
    auto const found =
        std::find_if(log.series.begin(), log.series.end(), [&](Series const& s) { return s.label == label; });
    return found == log.series.end() ? nullptr : &*found;
}

bool happened(PropertyLog const& log, EventKind kind, std::string const& words, std::size_t visit)
{
    return std::any_of(log.events.begin(), log.events.end(),
                       [&](HistoryEvent const& e)
                       { return e.kind == kind && e.visit == visit && e.words.find(words) != std::string::npos; });
}

} // namespace

TEST_CASE("history: a trend by hand, told only where its interval excludes zero")
{
    // 1 psi a week, each ± 0.2 psi; weeks 0, 1, 2, 3: spread 5, so the slope's doubt is 0.1/root 5
    auto const log = of({{"a.yaml", at("2026-05-01", gauge("10 psi ± 0.2 psi"))},
                         {"b.yaml", at("2026-05-08", gauge("11 psi ± 0.2 psi"))},
                         {"c.yaml", at("2026-05-15", gauge("12 psi ± 0.2 psi"))},
                         {"d.yaml", at("2026-05-22", gauge("13 psi ± 0.2 psi"))}})
                         .properties.at(0);
    auto const* s = series(log, "gauge");
    REQUIRE(s != nullptr);
    REQUIRE(s->trend);
    double const week = 7 * units::exact::day / units::exact::psi;
    CHECK(std::abs(s->trend->per_second * week - 1) < 1e-9);
    CHECK(std::abs(s->trend->half_width * week - 1.959964 * 0.1 / std::sqrt(5.0)) < 1e-6);
    CHECK(s->trend->shows());
    CHECK_FALSE(s->trend->by_scatter);
    auto const flat = of({{"a.yaml", at("2026-05-01", gauge("10 psi ± 2 psi"))},
                          {"b.yaml", at("2026-05-08", gauge("10.5 psi ± 2 psi"))},
                          {"c.yaml", at("2026-05-15", gauge("10.2 psi ± 2 psi"))}})
                          .properties.at(0);
    CHECK_FALSE(series(flat, "gauge")->trend->shows());
    auto const up_and_down = of({{"a.yaml", at("2026-05-01", gauge("10 psi ± 0.2 psi"))},
                                 {"b.yaml", at("2026-05-08", gauge("20 psi ± 0.2 psi"))},
                                 {"c.yaml", at("2026-05-15", gauge("10 psi ± 0.2 psi"))},
                                 {"d.yaml", at("2026-05-22", gauge("21 psi ± 0.2 psi"))}})
                                 .properties.at(0);
    CHECK(series(up_and_down, "gauge")->trend->by_scatter);
    CHECK_FALSE(series(up_and_down, "gauge")->trend->shows());
}

TEST_CASE("history: a reading not taken is a gap, one value is no series, the same values are steady")
{
    auto const log = of({{"a.yaml", at("2026-05-01", gauge("10 psi"))},
                         {"b.yaml", at("2026-05-08", "loops:\n  l: {flow: 40 gpm}\n")},
                         {"c.yaml", at("2026-05-15", gauge("10 psi"))}})
                         .properties.at(0);
    auto const* s = series(log, "gauge");
    REQUIRE(s != nullptr);
    CHECK(s->points.size() == 2);
    CHECK(s->gaps == std::vector<std::size_t>{1});
    CHECK(s->steady);
    CHECK(series(log, "flow") == nullptr);
}

TEST_CASE("history: without a date in no trend, the same moment said, one visit only said")
{
    auto const log = of({{"a.yaml", at("2026-05-01", gauge("10 psi"))},
                         {"b.yaml", at("", gauge("90 psi"))},
                         {"c.yaml", at("2026-05-01", gauge("12 psi"))}})
                         .properties.at(0);
    CHECK(log.visits.size() == 3);
    CHECK_FALSE(log.visits.back().on);
    auto const* s = series(log, "gauge");
    REQUIRE(s != nullptr);
    CHECK(s->points.size() == 2);
    CHECK_FALSE(s->trend);
    CHECK(s->why_no_trend == "all values are of one moment");
    CHECK(log.notes.size() == 2);
    CHECK(log.notes[0].find("the same moment") != std::string::npos);
    CHECK(log.notes[1].find("b.yaml has no date") != std::string::npos);
    auto const one = of({{"a.yaml", at("2026-05-01", gauge("10 psi"))}}).properties.at(0);
    CHECK(one.series.empty());
    CHECK(one.notes.at(0).find("one dated visit only") != std::string::npos);
}

TEST_CASE("history: by property, whatever its letters, what can't be read is named and the others go on")
{
    auto const all = of({{"a.yaml", at("2026-05-01", gauge("10 psi"), "Here")},
                         {"b.yaml", at("2026-05-02", gauge("11 psi"), "there")},
                         {"c.yaml", at("2026-05-03", gauge("12 psi"), "here")},
                         {"d.yaml", at("2026-05-03", gauge("12 psi"), "")},
                         {"bad.yaml", "loops: {l: {pumpe: {}}}\n"}});
    REQUIRE(all.properties.size() == 3);
    CHECK(all.properties[0].name == "Here");
    CHECK(all.properties[0].visits.size() == 2);
    CHECK(all.properties[1].name == "there");
    CHECK(all.properties[2].name.empty());
    REQUIRE(all.not_read.size() == 1);
    CHECK(all.not_read[0].file == "bad.yaml");
    CHECK(all.not_read[0].error.find("pumpe") != std::string::npos);
    CHECK(of({}).properties.empty());
}

TEST_CASE("history: water tests by their own dates, one that is carried on counts once, with the band that was chosen")
{
    auto const water = [](std::string const& tests, std::string const& limits = "")
    { return "waters:\n  pool: {kind: pool, " + limits + "tests: [" + tests + "]}\n"; };
    std::string const first = "{on: 2026-05-01, ph: 7.4 ± 0.1}", second = "{on: 2026-05-08, ph: 8.3 ± 0.1}";
    auto const log =
        of({{"a.yaml", at("2026-05-01", water(first))}, {"b.yaml", at("2026-05-09", water(first + ", " + second))}})
            .properties.at(0);
    auto const* s = series(log, "ph");
    REQUIRE(s != nullptr);
    REQUIRE(s->points.size() == 2);
    CHECK(s->points[1].at.text == "2026-05-08");
    REQUIRE(s->band);
    REQUIRE(s->band->high);
    CHECK(s->points[0].side == BandSide::within);
    CHECK(s->points[1].side == BandSide::above);
    CHECK(s->points[1].surely);
    auto const chosen = of({{"a.yaml", at("2026-05-01", water(first))},
                            {"b.yaml", at("2026-05-09", water(second, "limits: new_york, "))}})
                            .properties.at(0);
    auto const band =
        chemistry::leading_band(tests::engine().water_tables().limits, tests::engine().water_tables().bands, "new_york",
                                chemistry::Parameter::ph, chemistry::Venue::pool);
    REQUIRE(band.low);
    CHECK(*series(chosen, "ph")->band->low == band.low->bound.value);
    CHECK(series(chosen, "ph")->band->low_body == band.low->body);
}

TEST_CASE("history: alarms raised, gone, and not looked at again, verdicts, what was found, notes, doses, not tested")
{
    auto const visit = [](std::string const& drain, std::string const& pump)
    { return "loops:\n  l:\n    drains: {main: {noticed: [" + drain + "]}}\n    pump: {" + pump + "}\n"; };
    auto const log =
        of({{"1.yaml", at("2026-05-01", visit("cover missing", "runs: yes, noticed: [grinding noise]"))},
            {"2.yaml", at("2026-05-08", "notes: windy\n" + visit("{not_seen: cover missing}",
                                                                 "runs: yes, noticed: [{not_seen: grinding noise}], "
                                                                 "found: [{was: motor bearings worn}]"))},
            {"3.yaml",
             at("2026-05-15", visit("cover missing", "not_tested: [{what: motor current, because: locked}]"))},
            {"4.yaml", at("2026-05-22", "waters:\n  pool: {care: {doses: [{product: trichlor, weighs: 1 lb, every: 7 "
                                        "day}]}}\nloops:\n  l: {flow: 40 gpm}\n")}})
            .properties.at(0);
    CHECK(happened(log, EventKind::alarm, "cover missing", 0));
    CHECK(happened(log, EventKind::alarm_gone, "cover missing", 1));
    CHECK(happened(log, EventKind::alarm, "cover missing", 2));
    CHECK(happened(log, EventKind::found, "found: motor bearings worn", 1));
    CHECK(happened(log, EventKind::verdict, "from 'works, with a fault' to 'works'", 1));
    CHECK(happened(log, EventKind::note, "windy", 1));
    CHECK(happened(log, EventKind::not_tested, "motor current: locked", 2));
    CHECK(happened(log, EventKind::dose, "trichlor 1 lb every 7 day", 3));
    REQUIRE_FALSE(log.alarms.empty());
    CHECK(log.alarms.front().visit == 2);
    CHECK_FALSE(log.alarms.front().looked_at);
    CHECK(log.unsafe);
    for (auto const& event : log.events)
        CHECK(event.number == event.visit + 1); // something happened at each
}

TEST_CASE("history: the same log whatever the order in which the folder is listed")
{
    Files files{{"a.yaml", at("2026-05-01", gauge("10 psi"))},
                {"b.yaml", at("2026-05-08", gauge("11 psi"))},
                {"c.yaml", at("", gauge("12 psi"), "elsewhere")},
                {"d.yaml", at("2026-05-08", gauge("13 psi"))},
                {"e.yaml", "{"}};
    auto const said = [](History const& h)
    {
        std::string out;
        for (auto const& log : h.properties)
        {
            out += log.name + ":";
            for (auto const& v : log.visits)
                out += v.file + " ";
            for (auto const& s : log.series)
                for (auto const& p : s.points)
                    out += s.label + std::to_string(p.value) + " ";
            for (auto const& n : log.notes)
                out += n;
        }
        return out;
    };
    std::string const first = said(of(files));
    std::reverse(files.begin(), files.end());
    CHECK(said(of(files)) == first);
    std::rotate(files.begin(), files.begin() + 2, files.end());
    CHECK(said(of(files)) == first);
}
