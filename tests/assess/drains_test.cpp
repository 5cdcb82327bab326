// Suction outlets: what closes the water, what does not, and what is said of it.
#include "assessed.hpp"
#include "catch_compat.hpp"

#include <algorithm>

using namespace padwalk;
using assess::Assessment;
using assess::FindingState;
using assess::Urgency;
using tests::assessed;

namespace
{

std::string visit_with(std::string const& loop, std::string const& on = "2026-05-14")
{
    return (on.empty() ? "" : "on: " + on + "\n") +
           "waters: {pool: {kind: pool}, pond: {kind: pool}}\nloops:\n  a:\n    serves: [pool]\n" + loop;
}

Assessment with_drain(std::string const& fields, std::string const& more = "", std::string const& on = "2026-05-14")
{
    return assessed(visit_with(more + "    drains: {main: {" + fields + "}}\n", on));
}

Assessment noted(std::string const& note, std::string const& kind = "drain")
{
    std::string const list = "noticed: [\"" + note + "\"]";
    auto at = [&](std::string const& here) { return here == kind ? list : std::string("noticed: []"); };
    return assessed(visit_with("    " + at("loop") + "\n    pump: {" + at("pump") + "}\n    drains: {main: {" +
                               at("drain") + "}}\n"));
}

assess::Alarm const* alarm(Assessment const& a, std::string const& finding)
{
    for (auto const& one : a.alarms)
        if (a.findings[one.finding].id == finding)
            return &one;
    return nullptr;
}

bool suction_alarm(Assessment const& a)
{
    return std::any_of(
        a.alarms.begin(), a.alarms.end(),
        [](assess::Alarm const& one)
        { return std::find(one.cautions.begin(), one.cautions.end(), "suction_entrapment") != one.cautions.end(); });
}

std::string from(Assessment const& a, std::string const& finding)
{
    for (auto const& f : a.findings)
        if (f.id == finding)
            return f.from;
    return "";
}

bool untested(Assessment const& a, std::string const& item, std::string const& because)
{
    return std::any_of(a.not_tested.begin(), a.not_tested.end(),
                       [&](auto const& n)
                       { return a.items[n.item].name == item && n.because.find(because) != std::string::npos; });
}

bool asked(Assessment const& a, std::string const& part)
{
    return std::any_of(a.questions.begin(), a.questions.end(),
                       [&](auto const& q) { return q.why.find(part) != std::string::npos; });
}

bool assumed(Assessment const& a, std::string const& part)
{
    return std::any_of(a.assumptions.begin(), a.assumptions.end(),
                       [&](auto const& one) { return one.what.find(part) != std::string::npos; });
}

bool holds(std::string const& text, std::string const& part)
{
    return text.find(part) != std::string::npos;
}

assess::Verdict const& verdict(Assessment const& a, std::string const& item)
{
    for (auto const& v : a.verdicts)
        if (a.items[v.item].name == item)
            return v;
    throw std::logic_error("no verdict of " + item);
}

// Two covers rated 100 gpm each.
std::string pair_of(std::string const& more)
{
    return more + "    drains: {one: {rating: 100 gpm}, two: {rating: 100 gpm}}\n";
}

} // namespace

TEST_CASE("drains: a stamp before the day of the visit closes the water, the day itself does not")
{
    struct Row
    {
        char const *stamp, *on;
        bool past;
    };
    for (auto const& row : {Row{"2026-05-13", "2026-05-14", true}, Row{"2026-05-14", "2026-05-14", false},
                            Row{"2026-05-14", "2026-05-14 23:50", false}, Row{"2026-05-14", "2026-05-15 00:10", true},
                            Row{"2026-05-14 18:00", "2026-05-15", true}, Row{"2020-12-31", "2026-05-14", true},
                            Row{"2031-06-30", "2026-05-14", false}})
    {
        INFO(row.stamp << " visited " << row.on);
        auto const a = with_drain(std::string("expires: ") + row.stamp, "", row.on);
        CHECK((alarm(a, "drain_cover_expired") != nullptr) == row.past);
        CHECK((a.outcome == assess::Outcome::unsafe) == row.past);
        CHECK(holds(from(a, "drain_cover_expired"), "us-code-8003") == row.past);
    }
    auto const undated = with_drain("expires: 2020-12-31", "", "");
    CHECK(alarm(undated, "drain_cover_expired") == nullptr);
    CHECK(std::any_of(undated.questions.begin(), undated.questions.end(),
                      [](auto const& q) { return q.why.find("the visit has no date") != std::string::npos; }));
}

TEST_CASE("drains: a cover recorded as not listed closes the water, one that is listed does not")
{
    auto const no = with_drain("listed: no");
    auto const* one = alarm(no, "drain_marks_absent");
    REQUIRE(one != nullptr);
    CHECK(one->trade == "pool_service");
    CHECK(holds(from(no, "drain_marks_absent"), "15 USC 8003(b)"));
    auto const yes = with_drain("listed: yes, expires: 2031-01-01", "    suction_outlets: 2\n");
    CHECK(yes.alarms.empty());
    CHECK(yes.outcome == assess::Outcome::nothing_found);
    CHECK(from(yes, "drain_marks_absent") == "recorded: 'listed: yes'");
}

TEST_CASE("drains: the named water is closed, and no other")
{
    auto const a = with_drain("noticed: [cover missing]");
    auto const* one = alarm(a, "drain_cover_gone");
    REQUIRE(one != nullptr);
    REQUIRE(one->closes.size() == 1);
    CHECK(a.items[one->closes.front()].name == "pool");
    CHECK(verdict(a, "pool").condition == assess::Condition::unsafe);
    CHECK(holds(verdict(a, "pool").because, "closed: cover missing (main of a)"));
    CHECK(verdict(a, "pond").condition != assess::Condition::unsafe);
    auto const spark = assessed("electrical: {noticed: [got zapped by the ladder]}\nwaters: {pool: {}}\n");
    REQUIRE_FALSE(spark.alarms.empty());
    CHECK(spark.alarms.front().closes.empty()); // only suction closes by its loop
}

TEST_CASE("drains: load with all open and with one blocked is said beside the rating")
{
    // By hand: 150 gpm by two is 75 each and 150 through one; 90 is 45 and 90.
    auto const over = assessed(visit_with(pair_of("    flow: 150 gpm ± 4 gpm\n")));
    CHECK(alarm(over, "drain_flow_over_rating") != nullptr);
    std::string const said = from(over, "drain_flow_over_rating");
    for (char const* part : {"75", "with all open", "150", "with one blocked", "rated 100 US gpm", "as read", "±",
                             "[utah-r392-302]", "from memory"})
    {
        INFO(part << " in " << said);
        CHECK(holds(said, part));
    }
    CHECK(assumed(over, "all of the flow of a goes by its suction outlets"));
    CHECK_FALSE(assumed(assessed(visit_with(pair_of("    flow: 150 gpm\n    skimmers: 0\n"))), "all of the flow"));
    auto const figure = std::find_if(over.figures.begin(), over.figures.end(),
                                     [](auto const& f) { return f.figure.model->name == "drain_cover_flow"; });
    REQUIRE(figure != over.figures.end());
    CHECK(std::any_of(figure->figure.outputs.begin(), figure->figure.outputs.end(),
                      [](auto const& o) { return o.shape->name == "published" && !o.words.empty(); }));
    auto const under = assessed(visit_with(pair_of("    flow: 90 gpm ± 4 gpm\n")));
    CHECK_FALSE(suction_alarm(under));
    CHECK(under.outcome == assess::Outcome::nothing_found);
}

TEST_CASE("drains: outlets counted but not described share the flow, and that is said")
{
    auto const three = assessed(visit_with(pair_of("    flow: 150 gpm\n    suction_outlets: 3\n")));
    CHECK_FALSE(suction_alarm(three)); // 75 gpm through each of the two that are left
    CHECK(assumed(three, "the outlets of a that were not described share its flow"));
    CHECK(assumed(assessed(visit_with(pair_of("    flow: 90 gpm\n"))), "a has no other suction outlets"));
}

TEST_CASE("drains: an estimated flow enters with its doubt")
{
    std::string const pump = "    pump: {runs: yes, curve: [0 gpm:80 ft, 60 gpm:55 ft, 90 gpm:30 ft]}\n"
                             "    suction_gauge: -5 inHg\n    filter: {gauge: 18 psi}\n";
    auto const a = assessed(visit_with(pump + "    drains: {main: {rating: 20 gpm}}\n"));
    std::string const said = from(a, "drain_flow_over_rating");
    INFO(said);
    CHECK(alarm(a, "drain_flow_over_rating") != nullptr);
    CHECK(holds(said, "estimated"));
    CHECK(holds(said, "±"));
    double wide = 0, narrow = 0;
    for (auto const& f : assessed(visit_with(pair_of("    flow: 104 gpm ± 40 gpm\n"))).findings)
        wide = f.id == "drain_flow_over_rating" ? f.probability : wide;
    for (auto const& f : assessed(visit_with(pair_of("    flow: 104 gpm ± 1 gpm\n"))).findings)
        narrow = f.id == "drain_flow_over_rating" ? f.probability : narrow;
    CHECK(wide > 0.5);
    CHECK(wide < 0.7);
    CHECK(narrow > 0.95);
}

TEST_CASE("drains: what could not be held against the rating is said")
{
    CHECK(untested(with_drain("rating: 100 gpm"), "main of a", "no flow of the running loop"));
    CHECK(untested(with_drain("noticed: []", "    flow: 50 gpm\n"), "main of a", "no rating of its cover"));
    CHECK(untested(with_drain("rating: 100 gpm", "    pump: {runs: no}\n    flow: 90 gpm\n"), "main of a",
                   "no flow of the running loop"));
}

TEST_CASE("drains: a single outlet closes the water unless something lets go of a person held on it")
{
    struct Row
    {
        std::string outlets, drain, finding; ///< the finding that alarms, or none
    };
    for (auto const& row : {
             Row{"1", "release_device: no", "drain_lone_unprotected"},
             Row{"1", "release_device: no, unblockable: no", "drain_lone_unprotected"},
             Row{"1", "noticed: []", "drain_lone_unknown"},
             Row{"1", "unblockable: no", "drain_lone_unknown"},
             Row{"1", "release_device: yes", ""},
             Row{"1", "unblockable: yes", ""},
             Row{"1", "unblockable: yes, release_device: no", ""},
             Row{"", "release_device: no", "drain_lone_unknown"},
             Row{"", "noticed: []", ""},
             Row{"", "release_device: yes", ""},
             Row{"", "noticed: [only one main drain]", "drain_lone_unknown"},
             Row{"", "release_device: no, noticed: [only one main drain]", "drain_lone_unprotected"},
             Row{"", "noticed: [only one main drain, no svrs fitted]", "drain_lone_unprotected"},
             Row{"", "release_device: yes, noticed: [only one main drain]", ""},
             Row{"", "unblockable: yes, noticed: [only one main drain]", ""},
             Row{"", "noticed: [only one main drain, svrs fitted]", ""},
             Row{"2", "release_device: no", ""},
             Row{"2", "noticed: []", ""},
             Row{"2", "noticed: [only one main drain]", "drain_lone_unknown"},
         })
    {
        INFO(row.outlets << " / " << row.drain);
        auto const a = with_drain(row.drain, row.outlets.empty() ? "" : "    suction_outlets: " + row.outlets + "\n");
        CHECK(suction_alarm(a) == !row.finding.empty());
        CHECK((a.outcome == assess::Outcome::unsafe) == !row.finding.empty());
        if (row.finding.empty())
            continue;
        auto const* one = alarm(a, row.finding);
        REQUIRE(one != nullptr);
        CHECK(one->urgency == Urgency::stop_use);
        CHECK(holds(one->say, "15 USC 8003(c)"));
        CHECK(holds(one->say, "until someone has seen") == (row.finding == "drain_lone_unknown"));
        REQUIRE(one->closes.size() == 1);
    }
}

TEST_CASE("drains: one drain described is no proof that it is the only one, and what is relied on is said")
{
    auto const open = with_drain("listed: yes");
    CHECK(untested(open, "a", "no proof that it is the only one"));
    auto const held = with_drain("release_device: yes", "    suction_outlets: 1\n");
    CHECK(assumed(held, "the only suction outlet of a lets go"));
    CHECK(held.sources.end() != std::find_if(held.sources.begin(), held.sources.end(),
                                             [](auto const& s) { return s.first == "us-code-8003"; }));
    auto const bare = assessed(visit_with("    suction_outlets: 1\n")); // no drain described at all
    REQUIRE(alarm(bare, "drain_lone_unknown") != nullptr);
    CHECK(bare.items[alarm(bare, "drain_lone_unknown")->item].name == "a");
    CHECK(bare.outcome == assess::Outcome::unsafe);
}

TEST_CASE("drains: counts that contradict each other are asked about")
{
    auto const fewer = assessed(visit_with("    suction_outlets: 1\n    drains: {one: {}, two: {}}\n"));
    CHECK(asked(fewer, "2 are described under 'drains', more than that"));
    CHECK_FALSE(suction_alarm(fewer));
    CHECK(fewer.outcome == assess::Outcome::refer);
    auto const none = assessed(visit_with("    suction_outlets: 0\n    drains: {one: {release_device: no}}\n"));
    CHECK(asked(none, "1 are described under 'drains'"));
    CHECK_FALSE(suction_alarm(none));
    auto const noted_one = with_drain("noticed: [only one main drain]", "    suction_outlets: 2\n");
    CHECK(asked(noted_one, "until it is settled the worse is taken"));
}

TEST_CASE("drains: two outlets known need no release device")
{
    auto const a = assessed(visit_with(
        "    suction_outlets: 2\n    drains: {one: {listed: yes, release_device: no}, two: {noticed: [no svrs]}}\n"));
    CHECK_FALSE(suction_alarm(a));
    CHECK(a.outcome != assess::Outcome::unsafe);
}

TEST_CASE("drains: an open port in the wall or below the skimmer stops use as a missing cover does")
{
    for (char const* note : {"wall suction cap missing", "equalizer cover missing"})
    {
        INFO(note);
        auto const a = noted(note, "loop");
        CHECK(a.outcome == assess::Outcome::unsafe);
        REQUIRE(suction_alarm(a));
        CHECK(a.alarms.front().urgency == Urgency::stop_use);
        CHECK(holds(a.alarms.front().say, "[cpsc-leaflet]"));
        CHECK(a.alarms.front().closes.size() == 1);
    }
}

TEST_CASE("drains: every alarm of suction gets people out, stops the pump, keeps the water closed and names its basis")
{
    std::size_t met = 0;
    for (auto const& [id, finding] : tests::engine().knowledge().findings)
    {
        if (!finding.if_seen || finding.if_seen->urgency != Urgency::stop_use)
            continue;
        auto const& cautions = finding.if_seen->cautions;
        if (std::find(cautions.begin(), cautions.end(), "suction_entrapment") == cautions.end() ||
            (finding.item != "drain" && finding.item != "loop"))
            continue;
        ++met;
        INFO(id << ": " << finding.if_seen->say);
        std::string const& say = finding.if_seen->say;
        CHECK(holds(say, "Get everyone out of the water now and switch the pump off at its normal switch."));
        CHECK(holds(say, "Keep the water closed until"));
        CHECK(holds(say, "Basis: "));
        CHECK(finding.if_seen->trade == "pool_service");
        std::size_t const open = say.find('[', say.find("Basis: "));
        if (open == std::string::npos) // then it must say that it is nobody's rule
            CHECK(holds(say, "our judgement"));
        for (std::size_t at = open; at != std::string::npos; at = say.find('[', at + 1))
            CHECK(tests::engine().bibliography().count(say.substr(at + 1, say.find(']', at) - at - 1)) == 1);
    }
    CHECK(met >= 17);
}
