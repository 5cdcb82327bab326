#include "assessed.hpp"
#include "catch_compat.hpp"

#include <algorithm>
#include <set>

using namespace padwalk;
using tests::assessed;
using tests::engine;

namespace
{

double probability(assess::Assessment const& a, std::string const& cause, std::string const& item = {})
{
    double most = 0;
    for (auto const& c : a.causes)
        if (c.id == cause && (item.empty() || a.items[c.item].name == item))
            most = std::max(most, c.probability);
    return most;
}

bool alarmed(assess::Assessment const& a, std::string const& finding)
{
    return std::any_of(a.alarms.begin(), a.alarms.end(),
                       [&](auto const& x) { return a.findings[x.finding].id == finding; });
}

} // namespace

TEST_CASE("assess: three lines are a visit and give an answer")
{
    auto const a = assessed("loops:\n  spa loop:\n    pump: {noticed: [grinding noise]}\n");
    CHECK(a.outcome == assess::Outcome::refer);
    CHECK(probability(a, "pump_bearings_worn") > 0.5);
    CHECK_FALSE(a.next.empty());
}

TEST_CASE("assess: a visit that says nothing of use is not fine")
{
    auto const a = assessed("waters:\n  pool:\n");
    CHECK(a.outcome == assess::Outcome::nothing_found);
    CHECK(a.summary.find("Nothing was recorded that could be judged") == 0);
    for (auto const& verdict : a.verdicts)
        CHECK(verdict.condition == assess::Condition::not_tested);
    CHECK(a.not_tested.size() >= 2);
}

TEST_CASE("assess: a gauge well above clean makes the dirty filter likelier, one at clean less")
{
    auto const dirty = assessed("loops:\n  a loop:\n    noticed: [weak returns]\n    filter: {media: sand, gauge: 26 "
                                "psi, clean_gauge: 12 psi}\n");
    auto const clean = assessed("loops:\n  a loop:\n    noticed: [weak returns]\n    filter: {media: sand, gauge: 12 "
                                "psi, clean_gauge: 12 psi}\n");
    // A fouled medium or a return part shut shows the same: dirt is commonest.
    CHECK(probability(dirty, "filter_dirty") > 0.4);
    for (auto const& cause : dirty.causes)
        CHECK(cause.probability <= probability(dirty, "filter_dirty"));
    CHECK(probability(clean, "filter_dirty") < 0.3);
}

TEST_CASE("assess: the noise of one pump says nothing of the other")
{
    auto const a = assessed("loops:\n  one:\n    pump: {noticed: [grinding noise]}\n  two:\n    pump: {runs: yes}\n");
    CHECK(probability(a, "pump_bearings_worn", "pump of one") > 0.5);
    CHECK(probability(a, "pump_bearings_worn", "pump of two") == 0);
}

TEST_CASE("assess: smell of gas stops everything and comes first")
{
    auto const a = assessed("loops:\n  l:\n    pump: {noticed: [grinding noise]}\nheaters:\n  h: {energy: natural_gas, "
                            "noticed: [smell of gas]}\n");
    CHECK(a.outcome == assess::Outcome::unsafe);
    REQUIRE_FALSE(a.alarms.empty());
    CHECK(a.alarms.front().urgency == assess::Urgency::stop_use);
    CHECK(a.referrals.front().urgency == assess::Urgency::stop_use);
    bool const says =
        std::any_of(a.cautions.begin(), a.cautions.end(), [](auto const& c) { return c.first == "gas_smell"; });
    CHECK(says);
}

TEST_CASE("assess: carbon monoxide in the air by its reading alone")
{
    CHECK(
        alarmed(assessed("heaters:\n  h: {energy: natural_gas, carbon_monoxide_in_air: 40 ppm}\n"), "ambient_co_high"));
    CHECK_FALSE(
        alarmed(assessed("heaters:\n  h: {energy: natural_gas, carbon_monoxide_in_air: 0 ppm}\n"), "ambient_co_high"));
}

TEST_CASE("assess: a spa above 104 degF stops use, one at 99 degF does not (CPSC staff letter 1979)")
{
    CHECK(alarmed(assessed("waters:\n  spa: {temperature: 108 degF}\n"), "water_too_hot"));
    CHECK_FALSE(alarmed(assessed("waters:\n  spa: {temperature: 99 degF}\n"), "water_too_hot"));
}

TEST_CASE("assess: a note that fits nothing or hedges is a question, one that denies is 'not seen'")
{
    auto const a = assessed("loops:\n  l:\n    pump:\n      noticed:\n        - the gnome moved\n        - maybe "
                            "grinding noise\n        - no screeching\n");
    CHECK(a.questions.size() == 2);
    REQUIRE(a.findings.size() == 1);
    CHECK(a.findings.front().state == assess::FindingState::not_seen);
    CHECK(a.causes.empty());
    CHECK(a.outcome == assess::Outcome::refer); // open questions are not thereby fine
}

TEST_CASE("assess: a note about another part goes to the only part it can mean")
{
    auto const a = assessed("loops:\n  l:\n    filter: {noticed: [grinding noise]}\n");
    REQUIRE(a.findings.size() == 1);
    CHECK(a.items[a.findings[0].item].name == "pump of l");
}

TEST_CASE("assess: what is left out stands among what is not tested or assumed")
{
    auto const a = assessed("waters:\n  tub: {kind: spa}\nloops:\n  l: {flow: 40 gpm}\n");
    bool shell = false;
    for (auto const& entry : a.not_tested)
        shell = shell || a.items[entry.item].name == "shell of tub";
    CHECK(shell);
    CHECK_FALSE(a.assumptions.empty());
}

TEST_CASE("assess: a bucket test with the fill valve open says nothing")
{
    auto const a = assessed("waters:\n  pool: {area: 400 ft2, bucket_test: {pool_drop: 2 in, bucket_drop: 0.2 in, "
                            "elapsed: 24 h, fill: on}}\n");
    CHECK(a.findings.empty());
    bool said = false;
    for (auto const& entry : a.not_tested)
        said = said || entry.because.find("fill valve was open") != std::string::npos;
    CHECK(said);
}

TEST_CASE("assess: a loss well beyond the bucket's points at a leak, none argues against it (bucket test)")
{
    auto const leak = assessed("waters:\n  pool: {area: 400 ft2, bucket_test: {pool_drop: 1.5 in, bucket_drop: 0.25 "
                               "in, elapsed: 24 h, fill: off}}\n");
    bool sent = false;
    for (auto const& referral : leak.referrals)
        sent = sent || referral.trade == "leak_specialist";
    CHECK(sent); // no single place of the leak is likely, but that there is one is
    CHECK(leak.outcome == assess::Outcome::refer);
    auto const tight = assessed("waters:\n  pool: {area: 400 ft2, bucket_test: {pool_drop: 0.25 in, bucket_drop: 0.25 "
                                "in, elapsed: 24 h, fill: off}}\n");
    for (auto const& cause : tight.causes)
        CHECK(cause.id.find("leak") == std::string::npos);
}

TEST_CASE("assess: the same visit gives the same assessment, number by number")
{
    std::string const yaml = "waters:\n  spa: {temperature: 100 degF, tests: [{ph: 7.9, alkalinity: 140 ppm, calcium: "
                             "300 ppm, free_chlorine: 3 ppm, cyanurate: 60 ppm}]}\nloops:\n  l: {flow: 40 gpm, "
                             "suction_gauge: -8 inHg, filter: {gauge: 20 psi}}\n";
    auto const a = assessed(yaml);
    auto const b = assessed(yaml);
    REQUIRE(a.figures.size() == b.figures.size());
    for (std::size_t i = 0; i < a.figures.size(); ++i)
        for (std::size_t k = 0; k < a.figures[i].figure.outputs.size(); ++k)
        {
            CHECK(a.figures[i].figure.outputs[k].value == b.figures[i].figure.outputs[k].value);
            CHECK(a.figures[i].figure.outputs[k].low == b.figures[i].figure.outputs[k].low);
        }
    REQUIRE(a.causes.size() == b.causes.size());
    for (std::size_t i = 0; i < a.causes.size(); ++i)
        CHECK(a.causes[i].probability == b.causes[i].probability);
}

TEST_CASE("assess: context raises a cause")
{
    auto visit = [](std::string const& age)
    { return "loops:\n  l:\n    pump: {age: " + age + ", noticed: [grinding noise]}\n"; };
    CHECK(probability(assessed(visit("12 years")), "pump_bearings_worn") >
          probability(assessed(visit("1 year")), "pump_bearings_worn"));
}

TEST_CASE(
    "catalogue: every figure names its equation, range and sources, and each input is asked for, assumed or optional")
{
    CHECK(engine().catalogue().models().size() >= 25);
    for (auto const& model : engine().catalogue().models())
    {
        INFO(model.name);
        CHECK_FALSE(model.title.empty());
        CHECK_FALSE(model.equation.empty());
        CHECK_FALSE(model.valid.empty());
        CHECK_FALSE(model.sources.empty());
        for (auto const& key : model.sources)
        {
            INFO("source " << key);
            CHECK(engine().bibliography().contains(key));
        }
        for (auto const& caution : model.cautions)
            CHECK(engine().knowledge().caution(caution) != nullptr);
        for (auto const& output : model.kernel->outputs().fields)
            CHECK_FALSE(output.meaning.empty());
    }
}

TEST_CASE("catalogue: every figure answers its own examples")
{
    // These want one of several optional inputs, and say which.
    std::set<std::string> const wants_more{"water_volume", "dilution",      "pump_flow",  "operating_point",
                                           "heat_up",      "pressure_flow", "joint_flow", "flue_gas"};
    for (auto const& model : engine().catalogue().models())
    {
        INFO(model.name);
        fields::Node record = fields::Node::map();
        for (auto const& field : model.kernel->inputs().fields)
            if (field.required)
                record.entries.push_back({field.name, {}, fields::Node::scalar(field.sample())});
        auto const figure = figures::run_written(model, record);
        INFO(figure.why_not);
        if (!wants_more.contains(model.name))
            CHECK(figure.computed());
        for (auto const& out : figure.outputs)
            if (out.value)
                CHECK(out.low <= out.high);
    }
}

TEST_CASE("assess: contrary notes cancel and are asked about, and the rest is weighed all the same")
{
    auto const a =
        assessed("loops:\n  l:\n    pump:\n      noticed:\n        - grinding noise\n        - not_seen: grinding "
                 "noise\n        - water drips between pump and motor\n");
    CHECK(a.questions.size() == 1);
    CHECK(probability(a, "pump_shaft_seal_leaking") > 0.5);
    CHECK(probability(a, "pump_bearings_worn") < 0.5);
}

TEST_CASE("assess: a note goes before a reading that says the contrary, and that is said")
{
    auto const a =
        assessed("waters:\n  pool: {area: 400 ft2, noticed: [level drops fast], bucket_test: {pool_drop: 0.2 in, "
                 "bucket_drop: 0.2 in, elapsed: 48 h, fill: off}}\n");
    bool const noted = std::any_of(a.findings.begin(), a.findings.end(), [](auto const& f) { return !f.computed; });
    if (noted)
        CHECK_FALSE(a.conflict.empty());
    CHECK(a.outcome == assess::Outcome::refer);
}

TEST_CASE("assess: no check is proposed while people must leave, nor at what has just been called dangerous")
{
    CHECK(assessed("loops:\n  l:\n    pump: {noticed: [grinding noise]}\nheaters:\n  h: {energy: natural_gas, noticed: "
                   "[smell of gas]}\n")
              .next.empty());
    auto const vent = assessed("loops:\n  l:\n    pump: {noticed: [grinding noise]}\nheaters:\n  h: {energy: "
                               "natural_gas, vent: {noticed: [no cap on vent]}}\n");
    CHECK(vent.outcome == assess::Outcome::unsafe);
    for (auto const& check : vent.next)
        CHECK(vent.items[check.item].kind != "heater");
}

TEST_CASE("assess: dangers stand in the order of danger, not of the file")
{
    auto const a =
        assessed("waters:\n  pool: {tests: [{ph: 7.5, free_chlorine: 0.1 ppm}]}\nheaters:\n  h: {energy: natural_gas, "
                 "carbon_monoxide_in_air: 150 ppm}\n");
    REQUIRE(a.alarms.size() >= 2);
    CHECK(a.findings[a.alarms.front().finding].id == "ambient_co_high");
}
