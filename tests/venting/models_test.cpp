#include "padwalk/venting/models.hpp"

#include "padwalk/figures/figure.hpp"
#include "padwalk/reference/sources.hpp"
#include "padwalk/reference/yaml.hpp"
#include "padwalk/units/definitions.hpp"
#include "padwalk/venting/carbon_monoxide.hpp"
#include "padwalk/venting/clearance.hpp"

#include "catch_compat.hpp"
#include "data_folder.hpp"

#include <algorithm>
#include <cmath>

using namespace padwalk;
using namespace padwalk::units::exact;
using Catch::Matchers::Message;

namespace
{

figures::Figure written(std::string const& name, std::string const& yaml)
{
    static std::vector<figures::Model> const all = venting::models(tests::data_from_folder());
    for (auto const& model : all)
        if (model.name == name)
            return figures::run_written(model, reference::read_yaml(yaml));
    throw std::logic_error("no model '" + name + "'");
}

double value(figures::Figure const& figure, std::string const& output, double unit)
{
    return figure.output(output).value.value() / unit;
}

} // namespace

TEST_CASE("every venting model says that the maker's instructions and local code rule, and warns of carbon monoxide",
          "[venting]")
{
    std::vector<std::string> names;
    for (auto const& model : venting::models(tests::data_from_folder()))
    {
        INFO(model.name);
        names.push_back(model.name);
        CHECK(model.valid.find("the maker's instructions and local code rule") != std::string::npos);
        REQUIRE_FALSE(model.cautions.empty());
        CHECK(model.cautions.front() == "carbon_monoxide");
        CHECK_FALSE(model.sources.empty());
    }
    CHECK(names == std::vector<std::string>{"combustion_air", "vent_clearance", "carbon_monoxide_air_free",
                                            "stack_draft", "stack_loss", "vent_category", "vent_run", "available_draft",
                                            "carbon_monoxide_action"});
}

TEST_CASE("every work that a venting model names stands in the bibliography", "[venting]")
{
    auto const works = reference::bibliography(tests::data_from_folder());
    for (auto const& model : venting::models(tests::data_from_folder()))
        for (auto const& key : model.sources)
        {
            INFO(model.name << ": " << key);
            CHECK(works.count(key) == 1);
        }
    for (auto const& rule : venting::clearance_rules(tests::data_from_folder()))
        CHECK(works.count(rule.source.key) == 1);
    for (auto const& limit : venting::carbon_monoxide_limits(tests::data_from_folder()))
        CHECK(works.count(limit.source.key) == 1);
}

TEST_CASE("the ids of clearances are those of the table, in its order", "[venting]")
{
    auto const rules = venting::clearance_rules(tests::data_from_folder());
    std::vector<std::string> ids;
    for (auto const& rule : rules)
        ids.push_back(rule.id);
    CHECK(ids == fields::words_of<venting::ClearanceId>::words());
    CHECK(venting::rule_of(rules, venting::ClearanceId::roof_other).id == "roof_other");
    CHECK_THROWS_MATCHES(venting::rule_of({}, venting::ClearanceId::opening_above), std::logic_error,
                         Message("venting/clearances.yaml has no rule 'opening_above'"));
}

TEST_CASE("clearances as published: NYC 804.2 (read), fuel gas code (quoted), 2018 IRC roof table (web copy, read)",
          "[venting]")
{
    auto const rules = venting::clearance_rules(tests::data_from_folder());
    struct Row
    {
        char const* id;
        double feet;
    };
    for (auto const& row :
         {Row{"forced_inlet_above", 3},  Row{"opening_below", 4},       Row{"opening_beside", 4},
          Row{"opening_above", 1},       Row{"walkway_above", 7},       Row{"inside_corner", 3},
          Row{"meter_beside", 4},        Row{"meter_new_york_city", 3}, Row{"grade_above", 1},
          Row{"grade_new_york_city", 3}, Row{"direct_vent_small", 0.5}, Row{"direct_vent_medium", 0.75},
          Row{"direct_vent_large", 1},   Row{"direct_vent_grade", 1},   Row{"draft_hood_rise", 5},
          Row{"roof_to_6_in_12", 1},     Row{"roof_to_7_in_12", 1.25},  Row{"roof_to_8_in_12", 1.5},
          Row{"roof_to_9_in_12", 2},     Row{"roof_to_10_in_12", 2.5},  Row{"roof_to_11_in_12", 3.25},
          Row{"roof_to_12_in_12", 4},    Row{"roof_to_14_in_12", 5},    Row{"roof_to_16_in_12", 6},
          Row{"roof_to_18_in_12", 7},    Row{"roof_to_20_in_12", 7.5},  Row{"roof_to_21_in_12", 8},
          Row{"roof_other", 2}})
    {
        INFO(row.id);
        auto const found =
            std::find_if(rules.begin(), rules.end(), [&](auto const& rule) { return rule.id == row.id; });
        REQUIRE(found != rules.end());
        CHECK(std::abs(units::in_si(found->least) / foot - row.feet) <= 1e-12);
        bool const known = found->direction == "upwards" || found->direction == "downwards" ||
                           found->direction == "sideways" || found->direction == "any way";
        CHECK(known);
    }
    CHECK_FALSE(venting::vent_rules_in_words(tests::data_from_folder()).empty());
}

TEST_CASE("vent_clearance: what is missing, in words", "[venting]")
{
    auto const near = written("vent_clearance", "{what: opening_beside, distance: 30 in}");
    CHECK(std::abs(value(near, "least", inch) - 48) <= 1e-9);
    CHECK(std::abs(value(near, "shortfall", inch) - 18) <= 1e-9);
    CHECK(near.output("in_words").words ==
          "too near: from a door, a window that opens or a gravity air inlet, sideways to the vent's end (one of "
          "opening_below, opening_beside and opening_above is enough)");
    auto const exactly = written("vent_clearance", "{what: roof_to_7_in_12, distance: 15 in}");
    CHECK(value(exactly, "shortfall", inch) == 0);
    CHECK(exactly.output("in_words").words.rfind("far enough by this rule", 0) == 0);
}

TEST_CASE("combustion_air: 400 kBtu/h behind metal louvres (published rules, computed)", "[venting]")
{
    auto const figure = written(
        "combustion_air",
        "{input: 400 kBtu/h, source: outdoors_direct, louvre: metal, high_opening: 150 in2, low_opening: 120 in2}");
    CHECK(std::abs(value(figure, "volume_needed", cubic_foot) - 20000) <= 1e-6);
    CHECK(std::abs(value(figure, "opening_needed", inch * inch) - 100) <= 1e-9);
    CHECK(std::abs(value(figure, "gross_needed", inch * inch) - 100 / 0.75) <= 1e-9);
    CHECK(figure.output("verdict").words == "short");
}

TEST_CASE("carbon_monoxide_air_free: 50 ppm at 7 % is 75.2 ppm and within good practice (trade article, read)",
          "[venting]")
{
    auto const figure = written("carbon_monoxide_air_free", "{carbon_monoxide: 50 ppm, oxygen: 7 %}");
    CHECK(std::abs(value(figure, "air_free", 1e-6) - 75.2) <= 0.05);
    CHECK(figure.output("in_words").words ==
          "within good practice; it must also be steady, and the air people breathe is another reading");
    auto const air = written("carbon_monoxide_air_free", "{carbon_monoxide: 5 ppm, oxygen: 20 %}");
    CHECK(air.why_not ==
          "over 18 % oxygen: the sample is nearly all room air, not flue gas; nothing can be told from it");
}

TEST_CASE("stack_draft: 10 ft at 350 F over 60 F air is 0.053 in water (equipment facts, computed)", "[venting]")
{
    auto const figure =
        written("stack_draft", "{height: 10 ft, outside_temperature: 60 degF, flue_temperature: 350 degF}");
    CHECK(std::abs(value(figure, "draft", inch_water) - 0.053) <= 0.0005);
}

TEST_CASE("stack_loss: loss and net efficiency make one, gross is lower", "[venting]")
{
    auto const figure = written("stack_loss", "{flue_temperature: 180 degC, air_temperature: 20 degC, oxygen: 4.5 %}");
    CHECK(std::abs(value(figure, "loss", 0.01) - 7.84) <= 0.005);
    CHECK(std::abs(value(figure, "loss", 1) + value(figure, "efficiency_net", 1) - 1) <= 1e-12);
    CHECK(std::abs(value(figure, "efficiency_gross", 1) / value(figure, "efficiency_net", 1) - 0.90) <= 1e-9);
    auto const propane =
        written("stack_loss", "{flue_temperature: 180 degC, air_temperature: 20 degC, oxygen: 4.5 %, fuel: propane}");
    CHECK(std::abs(value(propane, "loss", 0.01) - 7.39) <= 0.005);
}

TEST_CASE("vent_category: pressure and 88 % make category IV (IFGC definitions as quoted)", "[venting]")
{
    auto const figure = written("vent_category", "{outlet_pressure: 0.05 in water, efficiency: 88 %}");
    REQUIRE(figure.computed());
    CHECK(figure.output("category").words == "IV");
    CHECK(written("vent_category", "{outlet_pressure: -0.03 in water, efficiency: 82 %}").output("category").words ==
          "I");
}

TEST_CASE(
    "vent_run: 8 ft of height allow 6 ft of single wall and 8 ft of double wall (from memory), 5 ft above the hood "
    "(quoted)",
    "[venting]")
{
    auto const single = written("vent_run", "{height: 8 ft, run: 7 ft, slope: 2.1 %, roof_slope: 8}");
    REQUIRE(single.computed());
    CHECK(std::abs(value(single, "run_allowed", foot) - 6) < 1e-9);
    CHECK(std::abs(value(single, "run_to_spare", foot) + 1) < 1e-9);
    CHECK(std::abs(value(single, "rise_needed", inch) - 1.75) < 1e-3);
    CHECK(std::abs(value(single, "height_to_spare", foot) - 3) < 1e-9);
    CHECK(std::abs(value(single, "above_roof", foot) - 1.5) < 1e-9);
    CHECK(single.output("in_words").words.find("the level run is too long for the height") == 0);
    auto const wide = written("vent_run", "{height: 8 ft, run: 7 ft, wall: double_wall}");
    CHECK(std::abs(value(wide, "run_to_spare", foot) - 1) < 1e-9);
    CHECK(wide.output("in_words").words.find("the slope was not measured") != std::string::npos);
}

TEST_CASE("available_draft: the sunk heater of the equipment facts has less than nothing left", "[venting]")
{
    auto const figure =
        written("available_draft", "{input: 400 kBtu/h, height: 3 ft, run: 20 ft, bore: 8 in, elbows: 2, "
                                   "outside_temperature: 60 degF, flue_temperature: 350 degF}");
    REQUIRE(figure.computed());
    CHECK(std::abs(value(figure, "theoretical", inch_water) - 0.016) < 0.0005);
    CHECK(value(figure, "available", inch_water) < -0.03);
    CHECK(value(figure, "available_cold", inch_water) < 0);
    CHECK(value(figure, "carried", 1) < 0.6);
}

TEST_CASE("carbon_monoxide_action: the level reached speaks, and none asks anybody to go in", "[venting]")
{
    auto const at = [](std::string const& ppm)
    { return written("carbon_monoxide_action", "{carbon_monoxide: " + ppm + " ppm}"); };
    struct Row
    {
        std::string ppm;
        double level;
        std::string says;
    };
    for (auto const& row : {Row{"0", 0, "Nothing to do at once"}, Row{"8.9", 0, "Nothing to do at once"},
                            Row{"9", 9, "Everyone out to fresh air"}, Row{"34", 9, "Everyone out"},
                            Row{"35", 35, "Everyone out to fresh air now, and call emergency services"},
                            Row{"70", 70, "Everyone out now and call emergency services from outside"},
                            Row{"200", 200, "Out now"}, Row{"1200", 1200, "Out now"}, Row{"9000", 1200, "Out now"}})
    {
        INFO(row.ppm);
        auto const figure = at(row.ppm);
        CHECK(std::abs(value(figure, "level", 1e-6) - row.level) < 1e-6);
        CHECK(figure.output("in_words").words.find(row.says) == 0);
    }
    auto const actions = venting::carbon_monoxide_actions(tests::data_from_folder());
    for (auto const& action : actions)
    {
        INFO(action.id);
        CHECK(action.leave == (action.id != "none"));
        if (action.leave)
            CHECK((action.say.find("Nobody goes back in") != std::string::npos ||
                   action.say.find("Only rescuers with their own air go in") != std::string::npos));
        if (action.from > units::GasFraction::from_value(30e-6))
            CHECK(action.say.find("call emergency services from outside") != std::string::npos);
    }
}
