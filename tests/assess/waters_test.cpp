#include "assessed.hpp"
#include "catch_compat.hpp"

#include "padwalk/chemistry/limits.hpp"
#include "padwalk/units/definitions.hpp"

#include <algorithm>
#include <cmath>

using namespace padwalk;
using tests::assessed;
using tests::engine;

namespace
{

assess::Assessment pool(std::string const& fields)
{
    return assessed("waters:\n  pool: {" + fields + "}\n");
}

assess::FindingEntryOf const* finding(assess::Assessment const& a, std::string const& id, std::string const& item = {})
{
    for (auto const& f : a.findings)
        if (f.id == id && (item.empty() || a.items[f.item].name == item))
            return &f;
    return nullptr;
}

double probability(assess::Assessment const& a, std::string const& id)
{
    auto const* f = finding(a, id);
    REQUIRE(f != nullptr);
    return f->probability;
}

int times(assess::Assessment const& a, std::string const& id)
{
    return static_cast<int>(
        std::count_if(a.findings.begin(), a.findings.end(), [&](auto const& f) { return f.id == id; }));
}

figures::Figure const* figure(assess::Assessment const& a, std::string const& model)
{
    for (auto const& f : a.figures)
        if (f.figure.model->name == model)
            return &f.figure;
    return nullptr;
}

bool assumes(assess::Assessment const& a, std::string const& part)
{
    return std::any_of(a.assumptions.begin(), a.assumptions.end(),
                       [&](auto const& x)
                       { return x.what.find(part) != std::string::npos || x.because.find(part) != std::string::npos; });
}

bool says_untested(assess::Assessment const& a, std::string const& what, std::string const& because)
{
    return std::any_of(a.not_tested.begin(), a.not_tested.end(),
                       [&](auto const& x) {
                           return x.what.find(what) != std::string::npos &&
                                  x.because.find(because) != std::string::npos;
                       });
}

bool asks(assess::Assessment const& a, std::string const& note)
{
    return std::any_of(a.questions.begin(), a.questions.end(),
                       [&](auto const& q) { return q.note.find(note) != std::string::npos && !q.why.empty(); });
}

// Whether the finding speaks against the cause.
bool against(assess::Assessment const& a, std::string const& cause, std::string const& id)
{
    for (auto const& c : a.causes)
        if (c.id == cause)
            return std::any_of(c.speaks_against.begin(), c.speaks_against.end(),
                               [&](auto const& w) { return a.findings[w.finding].id == id; });
    FAIL("no cause " << cause);
    return false;
}

std::string refused(std::string const& yaml)
{
    try
    {
        static_cast<void>(visit::read_visit(yaml, engine().instruments()));
    }
    catch (fields::InputProblems const& bad)
    {
        return fields::as_text(bad.list(), "visit.yaml", yaml);
    }
    return {};
}

std::string const weather = "air_temperature: 80 degF\nhumidity: 40 %\nwind: 2 mph\n";
std::string const balance = "ph: 7.5, alkalinity: 90 ppm, calcium: 250 ppm, free_chlorine: 3 ppm, cyanurate: 40 ppm";

} // namespace

TEST_CASE("waters: a bucket test and a level history speak without the area")
{
    auto const a = pool("bucket_test: {pool_drop: 1.5 in, bucket_drop: 0.25 in, elapsed: 24 h, fill: off}");
    CHECK(probability(a, "loss_above_evaporation") > 0.9);
    REQUIRE(figure(a, "bucket_test") != nullptr);
    CHECK(figure(a, "bucket_test")->output("leak_drop_rate").value);
    CHECK_FALSE(figure(a, "bucket_test")->output("leak_rate").value);
    auto const marks = pool("level_history: [{at: 2026-05-14 08:00, drop: 0 in}, {at: 2026-05-15 08:00, drop: 2 in, "
                            "fill: off}]");
    CHECK(probability(marks, "loss_above_evaporation") > 0.9);
    auto const windy = assessed(weather + "waters:\n  pool: {temperature: 82 degF, level_history: [{at: 2026-05-14 "
                                          "08:00, drop: 0 in}, {at: 2026-05-15 08:00, drop: 2 in}]}\n");
    REQUIRE(figure(windy, "evaporation") != nullptr);
    CHECK(figure(windy, "evaporation")->computed());
}

TEST_CASE("waters: a bucket test or history that can't be worked out says what is missing")
{
    CHECK(says_untested(pool("area: 400 ft2, bucket_test: {pool_drop: 1 in, bucket_drop: 0.2 in}"),
                        "loss by the bucket test", "elapsed"));
    CHECK(says_untested(pool("area: 400 ft2, level_history: [{at: 2026-05-14, drop: 0 in}]"), "loss by the level",
                        "one mark only"));
}

TEST_CASE("waters: chlorine without a cyanurate test is held against the stricter limit, and that is said")
{
    auto const untested = pool("kind: pool, tests: [{free_chlorine: 1.4 ppm}]");
    CHECK(probability(untested, "free_chlorine_low") > 0.75);
    CHECK(assumes(untested, "cyanurate was not tested"));
    auto const none = pool("kind: pool, tests: [{free_chlorine: 1.4 ppm, cyanurate: 0 ppm}]");
    CHECK(probability(none, "free_chlorine_low") < 0.25);
    CHECK_FALSE(assumes(none, "cyanurate was not tested"));
}

TEST_CASE("waters: a spa's chlorine figures name the limits of a spa")
{
    auto const a = assessed("waters:\n  tub: {kind: spa, tests: [{free_chlorine: 2.5 ppm, total_chlorine: 3 ppm, "
                            "cyanurate: 30 ppm}]}\n");
    bool said = false;
    for (auto const& f : a.figures)
        said = said || (f.figure.model->name == "chlorine_to_cyanurate" &&
                        f.meaning.find("at least 3 ppm") != std::string::npos);
    CHECK(said);
}

TEST_CASE("waters: a cover leaves between none and all of the evaporation, so a loss can be seen at all")
{
    auto const visit = [](std::string const& covered)
    {
        return assessed(weather + "waters:\n  pool: {covered: " + covered +
                        ", area: 400 ft2, temperature: 84 degF, level_history: [{at: 2026-05-14 08:00, drop: 0 in}, "
                        "{at: 2026-05-15 08:00, drop: 0.5 in, fill: off}]}\n");
    };
    auto const covered = visit("yes"), open = visit("no");
    CHECK(probability(covered, "loss_above_evaporation") > probability(open, "loss_above_evaporation") + 0.1);
    CHECK(assumes(covered, "half ± half"));
    CHECK_FALSE(assumes(open, "half ± half"));
    CHECK(assumes(open, "weather of the visit"));
}

TEST_CASE("waters: a fill valve of which nothing was said is taken as shut, and that is said")
{
    CHECK(assumes(pool("bucket_test: {pool_drop: 1 in, bucket_drop: 0.2 in, elapsed: 24 h}"), "taken as shut"));
    CHECK_FALSE(assumes(pool("bucket_test: {pool_drop: 1 in, bucket_drop: 0.2 in, elapsed: 24 h, fill: off}"),
                        "taken as shut"));
    CHECK(
        assumes(pool("level_history: [{at: 2026-05-14, drop: 0 in}, {at: 2026-05-18, drop: 2 in}]"), "taken as shut"));
    CHECK_FALSE(assumes(pool("level_history: [{at: 2026-05-14, drop: 0 in}, {at: 2026-05-18, drop: 2 in, fill: off}]"),
                        "taken as shut"));
}

TEST_CASE("waters: level marks out of order are refused with both times and the place")
{
    auto const said =
        refused("waters:\n  pool:\n    level_history:\n      - {at: 2026-05-15 08:00, drop: 0 in}\n      - "
                "{at: 2026-05-14 08:00, drop: 1 in}\n");
    CHECK(said.find("visit.yaml:5:") != std::string::npos);
    CHECK(said.find("2026-05-15 08:00") != std::string::npos);
    CHECK(said.find("2026-05-14 08:00") != std::string::npos);
    CHECK_FALSE(
        refused("waters:\n  pool: {level_history: [{at: 2026-05-14, drop: 0 in}, {at: 2026-05-14, drop: 1 in}]}\n")
            .empty());
    CHECK(refused("waters:\n  pool: {level_history: [{at: 2026-05-14, drop: 0 in}, {at: 2026-05-15, drop: 1 in}]}\n")
              .empty());
}

TEST_CASE("waters: marks between the ends add no doubt, dates without a time of day do")
{
    auto const spread = [](std::string const& marks)
    {
        auto const a = pool("level_history: [" + marks + "]");
        REQUIRE(figure(a, "level_loss") != nullptr);
        auto const& rate = figure(a, "level_loss")->output("drop_rate");
        return rate.high - rate.low;
    };
    double const two = spread("{at: 2026-05-14 08:00, drop: 0 in}, {at: 2026-05-16 08:00, drop: 1 in}");
    double const three = spread("{at: 2026-05-14 08:00, drop: 0 in}, {at: 2026-05-15 08:00, drop: 0.4 in}, {at: "
                                "2026-05-16 08:00, drop: 1 in}");
    CHECK(three == two);
    CHECK(spread("{at: 2026-05-14, drop: 0 in}, {at: 2026-05-16, drop: 1 in}") > 1.3 * two);
}

TEST_CASE("waters: an open fill valve parts the history, and only the shut runs count")
{
    auto const a = pool("level_history: [{at: 2026-05-14 08:00, drop: 0 in}, {at: 2026-05-15 08:00, drop: 1 in, fill: "
                        "off}, {at: 2026-05-16 08:00, drop: 0 in, fill: on}, {at: 2026-05-17 08:00, drop: 1 in, fill: "
                        "off}]");
    double const rate = *figure(a, "level_loss")->output("drop_rate").value;
    CHECK(std::abs(rate / (units::exact::inch / units::exact::day) - 1) <= 1e-9); // 2 in over 2 days
}

TEST_CASE("waters: a level that rose says neither loss nor tightness")
{
    auto const a = pool("level_history: [{at: 2026-05-14 08:00, drop: 0 in}, {at: 2026-05-16 08:00, drop: -1 in}]");
    CHECK(finding(a, "level_holds") == nullptr);
    CHECK(says_untested(a, "loss by the level", "rose"));
}

TEST_CASE("waters: a loss with the pump on against off gives the finding that fits")
{
    auto const history = [](std::string const& on, std::string const& off)
    {
        return pool("level_history: [{at: 2026-05-14 08:00, drop: 0 in}, {at: 2026-05-15 08:00, drop: " + on +
                    ", pump: on, fill: off}, {at: 2026-05-16 08:00, drop: " + off + ", pump: off, fill: off}]");
    };
    auto const more = history("2 in", "2.5 in");
    CHECK(probability(more, "water_loss_more_on") > 0.9);
    CHECK(probability(more, "water_loss_more_off") < 0.1);
    CHECK(probability(more, "water_loss_same_on_off") < 0.1);
    CHECK(probability(history("0.5 in", "2.5 in"), "water_loss_more_off") > 0.9);
    // four days of each: an eighth of an inch at the marks is then little against the limit
    auto const same = pool("level_history: [{at: 2026-05-14 08:00, drop: 0 in}, {at: 2026-05-18 08:00, drop: 6 in, "
                           "pump: on, fill: off}, {at: 2026-05-22 08:00, drop: 12 in, pump: off, fill: off}]");
    CHECK(probability(same, "water_loss_same_on_off") > 0.7);
    CHECK(finding(history("0 in", "0.1 in"), "water_loss_same_on_off") == nullptr); // nothing is lost
    auto const bucket =
        pool("bucket_test: {pool_drop: 0.4 in, bucket_drop: 0.2 in, elapsed: 24 h, pump: off, fill: off}, "
             "level_history: [{at: 2026-05-14 08:00, drop: 0 in}, {at: 2026-05-15 08:00, drop: 2 in, pump: on, fill: "
             "off}]");
    CHECK(probability(bucket, "water_loss_more_on") > 0.9);
    CHECK(finding(pool("level_history: [{at: 2026-05-14 08:00, drop: 0 in}, {at: 2026-05-15 08:00, drop: 2 in, pump: "
                       "on}]"),
                  "water_loss_more_on") == nullptr);
}

TEST_CASE("waters: total chlorine below free is a question, and only what both readings say counts")
{
    auto const a = pool("tests: [{free_chlorine: 5 ppm, total_chlorine: 1 ppm, cyanurate: 40 ppm}]");
    CHECK(asks(a, "total chlorine"));
    for (auto const* id : {"free_chlorine_low", "combined_chlorine_high", "chlorine_to_cyanurate_low"})
        CHECK(finding(a, id) == nullptr);
    CHECK(probability(a, "water_readings_disagree") > 0.9);
    auto const both = pool("tests: [{free_chlorine: 0.6 ppm, total_chlorine: 0 ppm}]");
    CHECK(asks(both, "total chlorine"));
    CHECK(probability(both, "free_chlorine_low") > 0.9);
    CHECK_FALSE(asks(pool("tests: [{free_chlorine: 3 ppm, total_chlorine: 2.9 ppm}]"), "total chlorine"));
}

TEST_CASE("waters: two tests of one day with different pH are a question, of two days they are not")
{
    auto const tests = [](std::string const& second)
    {
        return pool("temperature: 80 degF, tests: [{on: 2026-05-14, ph: 8.4, alkalinity: 90 ppm, calcium: 250 ppm}, "
                    "{on: " +
                    second + ", ph: 7.4, alkalinity: 90 ppm, calcium: 250 ppm}]");
    };
    auto const same = tests("2026-05-14 16:00");
    CHECK(asks(same, "pH"));
    CHECK(finding(same, "ph_high") == nullptr);
    CHECK(finding(same, "index_high") == nullptr);
    auto const later = tests("2026-05-20");
    CHECK_FALSE(asks(later, "pH"));
    CHECK(finding(later, "ph_high") != nullptr);
}

TEST_CASE("waters: hardly any salt in a pool with a salt system is a question")
{
    CHECK(asks(pool("salt_system: yes, tests: [{salt: 300 ppm}]"), "salt"));
    CHECK_FALSE(asks(pool("salt_system: no, tests: [{salt: 300 ppm}]"), "salt"));
    CHECK_FALSE(asks(pool("salt_system: yes, tests: [{salt: 3000 ppm}]"), "salt"));
}

TEST_CASE("waters: the newest test counts by its date, the last where none has one")
{
    CHECK(probability(pool("tests: [{on: 2026-05-20, ph: 8.6}, {on: 2026-05-01, ph: 7.5}]"), "ph_high") > 0.9);
    CHECK(probability(pool("tests: [{ph: 8.6}, {ph: 7.5}]"), "ph_high") < 0.1);
    auto const mixed = pool("tests: [{on: 2026-05-20, ph: 8.6}, {ph: 7.5}]");
    CHECK(probability(mixed, "ph_high") > 0.9);
    CHECK(assumes(mixed, "newest dated test"));
}

TEST_CASE("waters: a floor in three parts reaches the volume (15 ft of 3 ft, 10 ft of slope, 7 ft of 8 ft, 16 ft wide)")
{
    auto const a = pool("shape: rectangle, length: 32 ft, width: 16 ft, shallow_depth: 3 ft, deep_depth: 8 ft, "
                        "shallow_length: 15 ft, slope_length: 10 ft, deep_length: 7 ft");
    REQUIRE(figure(a, "water_volume") != nullptr);
    INFO(figure(a, "water_volume")->why_not);
    REQUIRE(figure(a, "water_volume")->computed());
    double const cubic_feet = *figure(a, "water_volume")->output("volume").value / std::pow(units::exact::foot, 3);
    CHECK(std::abs(cubic_feet - (15 * 3 + 10 * 5.5 + 7 * 8) * 16) <= 1e-6);
}

TEST_CASE("waters: the hand method stands beside the index, and in cold and in salty water it is said why it differs")
{
    auto const said = [](assess::Assessment const& a)
    {
        auto const* f = figure(a, "saturation");
        REQUIRE(f != nullptr);
        INFO(f->why_not);
        REQUIRE(f->computed());
        REQUIRE(f->output("handbook_index").value);
        return f->output("hand_method").words;
    };
    auto const cold = pool("temperature: 50 degF, tests: [{" + balance + ", salt: 500 ppm}]");
    auto const salt = pool("temperature: 82 degF, tests: [{" + balance + ", salt: 4000 ppm}]");
    CHECK(said(cold).find("lower: its rows for cold water are too steep") != std::string::npos);
    CHECK(said(salt).find("higher: it takes salt water for fresh water") != std::string::npos);
    // nothing else of the water was tested, and what was taken in its place is said
    CHECK(assumes(cold, "magnesium hardness"));
    CHECK(assumes(cold, "sulfate"));
    CHECK_FALSE(assumes(cold, "salt 500"));
}

TEST_CASE("waters: a bucket test and a history lay each finding once, by the larger loss")
{
    auto const a = pool("bucket_test: {pool_drop: 0.25 in, bucket_drop: 0.25 in, elapsed: 24 h, fill: off}, "
                        "level_history: [{at: 2026-05-14 08:00, drop: 0 in}, {at: 2026-05-15 08:00, drop: 3 in, fill: "
                        "off}]");
    CHECK(times(a, "loss_above_evaporation") == 1);
    CHECK(times(a, "level_holds") == 1);
    CHECK(probability(a, "loss_above_evaporation") > 0.9);
    CHECK(std::abs(probability(a, "loss_above_evaporation") + probability(a, "level_holds") - 1) <= 1e-12);
}

TEST_CASE("waters: copper and iron above the published figures point at metal, phosphate and conductivity are said")
{
    auto const a = pool("tests: [{copper: 0.9 ppm, iron: 0.1 ppm, phosphate: 0.5 ppm, conductivity: 1500 uS/cm}]");
    CHECK(probability(a, "copper_high") > 0.9);
    CHECK(probability(a, "iron_high") < 0.1);
    CHECK(std::any_of(a.causes.begin(), a.causes.end(), [](auto const& c) { return c.id == "water_metals"; }));
    CHECK(says_untested(a, "phosphate", "not judged"));
    CHECK(says_untested(a, "conductivity", "not judged"));
}

TEST_CASE("waters: evidence points the way a client expects")
{
    auto const hot =
        assessed("waters:\n  pool: {kind: pool, temperature: 82 degF}\n  spa: {kind: spa, temperature: 108 "
                 "degF}\nloops:\n  l: {serves: [pool, spa]}\nheaters:\n  h: {energy: natural_gas, loop: "
                 "l}\n");
    CHECK(finding(hot, "water_too_hot", "spa") != nullptr);
    CHECK(finding(hot, "water_too_hot", "pool") == nullptr);
    auto const weak = pool("kind: pool, tests: [{free_chlorine: 0.3 ppm, total_chlorine: 2 ppm, cyanurate: 30 ppm}]");
    CHECK_FALSE(against(weak, "water_sanitizer_low", "combined_chlorine_high"));
    auto const hard = pool("kind: pool, temperature: 84 degF, tests: [{ph: 8.3, alkalinity: 140 ppm, calcium: 500 ppm, "
                           "cyanurate: 30 ppm, dissolved_solids: 900 ppm}]");
    CHECK_FALSE(against(hard, "water_scaling", "ph_high"));
}

TEST_CASE("waters: whoever is told to lower pH is warned of acid")
{
    for (auto const* id : {"water_ph_high", "water_alkalinity_high", "water_scaling", "water_hardness_high"})
    {
        auto const& causes = engine().knowledge().causes;
        auto const found = std::find_if(causes.begin(), causes.end(), [&](auto const& c) { return c.first == id; });
        REQUIRE(found != causes.end());
        auto const& cautions = found->second.cautions;
        CHECK(std::find(cautions.begin(), cautions.end(), "acid") != cautions.end());
    }
}

TEST_CASE("waters: the body that was chosen leads, by name and key, and what it leaves open is assumed")
{
    std::string const test = "tests: [{kit: meter, ph: 7.25 ± 0.02}]";
    CHECK(probability(pool(test), "ph_low") < 0.5);
    auto const a = pool("limits: new_york, " + test);
    CHECK(probability(a, "ph_low") > 0.9);
    REQUIRE(finding(a, "ph_low") != nullptr);
    CHECK(finding(a, "ph_low")->from.find("at least 7.4 of New York [ny-10-nycrr-6-1-30]") != std::string::npos);
    CHECK(
        std::any_of(a.sources.begin(), a.sources.end(), [](auto const& s) { return s.first == "ny-10-nycrr-6-1-30"; }));
    // New York's spas may be at 7.2
    CHECK(probability(assessed("waters:\n  tub: {kind: spa, limits: new_york, " + test + "}\n"), "ph_low") < 0.5);
    // it sets no upper end of free chlorine for pools; the usual one is taken, and that is said
    auto const open = pool("limits: new_york, tests: [{free_chlorine: 15 ppm, cyanurate: 40 ppm}]");
    CHECK(probability(open, "free_chlorine_high") > 0.9);
    CHECK(finding(open, "free_chlorine_high")->from.find("of California [") != std::string::npos);
    CHECK(assumes(open, "no limit of New York, chosen to lead"));
    CHECK(assumes(open, "free chlorine of pool at most 10 ppm as Cl2 of California [california-22-ccr-65529]"));
    CHECK_FALSE(assumes(a, "pH of pool at least")); // that one New York sets
    CHECK_FALSE(assumes(pool("tests: [{free_chlorine: 15 ppm}]"), "chosen to lead"));
}

TEST_CASE("waters: a limit from memory that leads says so and is not cited")
{
    auto const a = pool("limits: who, tests: [{free_chlorine: 5 ppm, cyanurate: 40 ppm}]");
    CHECK(probability(a, "free_chlorine_high") > 0.9);
    auto const& from = finding(a, "free_chlorine_high")->from;
    CHECK(from.find("from memory, not confirmed") != std::string::npos);
    CHECK(from.find("[") == std::string::npos);
    for (auto const& [key, source] : a.sources)
        CHECK(key.find("memory") == std::string::npos);
}

TEST_CASE("waters: every set that may lead can be chosen, and what can be chosen may lead")
{
    std::vector<std::string> ids;
    for (auto const& set : chemistry::limit_sets(engine().data()))
        ids.push_back(set.id);
    auto words = fields::words_of<visit::LimitsOf>::words();
    std::sort(ids.begin(), ids.end());
    std::sort(words.begin(), words.end());
    CHECK(ids == words);
    auto const said = refused("waters:\n  pool: {limits: new_yrok}\n");
    CHECK(said.find("new_york") != std::string::npos);
    CHECK(said.find("visit.yaml:2:") != std::string::npos);
}

TEST_CASE("waters: a reading outside some limits names them body by body, the chosen one first")
{
    auto const broken = [](assess::Assessment const& a, std::string const& parameter) -> assess::LimitsBroken const*
    {
        for (auto const& one : a.limits_broken)
            if (one.parameter == parameter)
                return &one;
        return nullptr;
    };
    auto const a = pool("tests: [{kit: meter, ph: 7.3, alkalinity: 100 ppm}]");
    REQUIRE(broken(a, "pH") != nullptr);
    auto const& ph = *broken(a, "pH");
    REQUIRE(ph.broken_by.size() == 2); // 10 NYCRR 6-1.30 and MIL-HDBK-1027/4A ask for 7.4
    CHECK(ph.broken_by[0].body == "New York");
    CHECK(ph.broken_by[0].key == "ny-10-nycrr-6-1-30");
    CHECK(ph.broken_by[0].bound == "7.4 to 7.8");
    CHECK(ph.kept_by >= 10);
    CHECK(ph.leading == "Montana, 2010");
    CHECK(ph.leading_verdict == "within");
    CHECK(
        std::any_of(a.sources.begin(), a.sources.end(), [](auto const& s) { return s.first == "ny-10-nycrr-6-1-30"; }));
    CHECK(broken(a, "alkalinity") == nullptr); // within every body's
    CHECK(pool("tests: [{kit: meter, ph: 7.5}]").limits_broken.empty());

    auto const led = pool("limits: navy, tests: [{kit: meter, ph: 7.3}]");
    REQUIRE(broken(led, "pH") != nullptr);
    CHECK(broken(led, "pH")->broken_by[0].body == "US Navy training pools");
    CHECK(broken(led, "pH")->broken_by[0].leads);
    CHECK(broken(led, "pH")->leading_verdict == "below");

    auto const hot = assessed("waters:\n  tub: {kind: spa, temperature: 106 degF, tests: [{bromine: 9 ppm, sulfate: "
                              "500 ppm}]}\n");
    REQUIRE(broken(hot, "water temperature") != nullptr);
    CHECK(broken(hot, "bromine") != nullptr);
    CHECK(broken(hot, "sulfate") == nullptr); // the one row is for pools
    REQUIRE(broken(pool("tests: [{sulfate: 500 ppm}]"), "sulfate") != nullptr);
    bool memory = false;
    for (auto const& limit : broken(hot, "water temperature")->broken_by)
        memory = memory || limit.from_memory;
    CHECK(memory);
    CHECK_FALSE(broken(hot, "water temperature")->broken_by[0].from_memory); // what was seen stands first
}

TEST_CASE("waters: the chosen body's index band and cooler limit of heat are used")
{
    auto const at = [](std::string const& set, std::string const& ph)
    {
        return pool(set + "temperature: 80 degF, tests: [{kit: meter, ph: " + ph +
                    ", alkalinity: 90 ppm, calcium: 250 ppm, dissolved_solids: 900 ppm}]");
    };
    auto const usual = at("", "7.2"), led = at("limits: new_york, ", "7.2"); // an index near -0.4
    CHECK(probability(led, "index_low") < probability(usual, "index_low") - 0.1);
    CHECK(finding(led, "index_low") != nullptr);
    auto const warm = pool("limits: montana_2010, temperature: 102 degF ± 0.5 degF"); // ARM 37.115.1308 stops at 100
    CHECK(probability(warm, "water_too_hot") > 0.9);
    CHECK(finding(warm, "water_too_hot")->from.find("of Montana, 2010") != std::string::npos);
    CHECK(probability(pool("temperature: 102 degF ± 0.5 degF"), "water_too_hot") < 0.1);
}
