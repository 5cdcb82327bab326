#include "padwalk/venting/vent_rules.hpp"

#include "padwalk/reference/sources.hpp"
#include "padwalk/units/definitions.hpp"

#include "catch_compat.hpp"
#include "data_folder.hpp"

#include <algorithm>
#include <cmath>

using namespace padwalk;
using venting::Category;
using venting::Keeps;
using venting::MovedBy;
using venting::PipeKind;

namespace
{

venting::VentRules const& rules()
{
    static venting::VentRules const all = venting::vent_rules(tests::data_from_folder());
    return all;
}

units::Measured<units::Length> feet(double value, double doubt = 0.01)
{
    return {units::of_si<units::Length>(value * units::exact::foot),
            units::of_si<units::Length>(doubt * units::exact::foot), "tape"};
}
units::Measured<units::Fraction> percent(double value, double doubt = 0.0)
{
    return {units::Fraction::from_value(value / 100), units::Fraction::from_value(doubt / 100), "level"};
}
units::Measured<units::Number> count(double value)
{
    return {units::Number::from_value(value), {}, "counted"};
}
units::Measured<units::GaugePressure> inches_of_water(double value)
{
    return {units::of_si<units::GaugePressure>(value * units::exact::inch_water),
            units::of_si<units::Pressure>(0.005 * units::exact::inch_water), "gauge"};
}

std::optional<venting::JudgedRule> judged(venting::VentAsFound const& found, std::string const& id)
{
    for (auto const& rule : venting::judge(found, rules()))
        if (rule.id == id)
            return rule;
    return std::nullopt;
}

Keeps keeps(venting::VentAsFound const& found, std::string const& id)
{
    auto const rule = judged(found, id);
    REQUIRE(rule.has_value());
    return rule->keeps;
}

double in_feet(std::optional<units::Reading> const& reading)
{
    REQUIRE(reading.has_value());
    return reading->value / units::exact::foot;
}

venting::VentAsFound hood()
{
    venting::VentAsFound out;
    out.moved_by = MovedBy::draft_hood;
    out.pipes = {PipeKind::single_wall};
    return out;
}

} // namespace

TEST_CASE("vent rules: every row names its edition and a source of the bibliography, and says where it is from memory",
          "[venting]")
{
    auto const works = reference::bibliography(tests::data_from_folder());
    for (auto const& [id, rule] : rules().rules)
    {
        INFO(id);
        CHECK_FALSE(rule.edition.empty());
        CHECK(works.count(rule.source.key) == 1);
        bool const says_memory = works.at(rule.source.key).seen.find("from memory") != std::string::npos;
        if (says_memory)
            CHECK(rule.source.seen == reference::Seen::memory);
    }
    for (auto const& rule : rules().clearances)
    {
        INFO(rule.id);
        CHECK_FALSE(rule.edition.empty());
    }
    for (auto const& row : rules().pipes)
        CHECK(works.count(row.source.key) == 1);
    CHECK(rules().pipes.size() + 1 == fields::words_of<PipeKind>::words().size());
}

TEST_CASE("vent category: I to IV by pressure and condensing (IFGC definitions as quoted), condensing above 83 % "
          "(trade article, read)",
          "[venting][ifgc-vent-categories-as-quoted][chimney-science-trade-article-2]")
{
    CHECK(venting::category_of(false, false) == Category::I);
    CHECK(venting::category_of(false, true) == Category::II);
    CHECK(venting::category_of(true, false) == Category::III);
    CHECK(venting::category_of(true, true) == Category::IV);
    CHECK_FALSE(venting::condenses(units::Fraction::from_value(0.83), rules()));
    CHECK(venting::condenses(units::Fraction::from_value(0.831), rules()));
}

TEST_CASE("roof height by slope: the 2018 IRC gas vent table, 1.0 ft to 6 in 12 up to 8.0 ft at 21 in 12, and 2 ft "
          "near a wall (web copies, read)",
          "[venting][irc-2018-roof-table-web-copy]")
{
    struct Row
    {
        double to, feet;
    };
    for (auto const& [to, least] : {Row{6, 1.0}, Row{7, 1.25}, Row{8, 1.5}, Row{9, 2.0}, Row{10, 2.5}, Row{11, 3.25},
                                    Row{12, 4.0}, Row{14, 5.0}, Row{16, 6.0}, Row{18, 7.0}, Row{20, 7.5}, Row{21, 8.0}})
    {
        INFO(to << " in 12");
        auto const* rule = venting::roof_rule(units::Number::from_value(to), true, rules());
        REQUIRE(rule != nullptr);
        CHECK(std::abs(units::in_si(rule->least) / units::exact::foot - least) < 1e-9);
        auto const* steeper = venting::roof_rule(units::Number::from_value(to + 0.01), true, rules());
        if (to < 21)
            CHECK(steeper->least > rule->least);
        else
            CHECK(steeper == nullptr);
    }
    auto const* flat = venting::roof_rule(units::Number::from_value(0), true, rules());
    CHECK(std::abs(units::in_si(flat->least) / units::exact::foot - 1.0) < 1e-9);
    auto const* near_wall = venting::roof_rule(units::Number::from_value(4), false, rules());
    CHECK(std::abs(units::in_si(near_wall->least) / units::exact::foot - 2.0) < 1e-9);
}

TEST_CASE("level run: 75 % of the height single wall, 100 % double wall (NFPA 54 and IFGC 503.10.9, from memory)",
          "[venting]")
{
    auto v = hood();
    v.height = feet(8), v.run = feet(5.9);
    CHECK(keeps(v, "run_single_wall") == Keeps::holds);
    CHECK(std::abs(in_feet(judged(v, "run_single_wall")->limit) - 6.0) < 1e-9);
    CHECK(judged(v, "run_single_wall")->from_memory());
    v.run = feet(6.1);
    CHECK(keeps(v, "run_single_wall") == Keeps::fails);
    CHECK(std::abs(in_feet(judged(v, "run_single_wall")->margin) + 0.1) < 1e-9);
    v.run = feet(6.01);
    CHECK(keeps(v, "run_single_wall") == Keeps::too_close);
    v.pipes = {PipeKind::double_wall};
    CHECK(keeps(v, "run_double_wall") == Keeps::holds);
    v.run = feet(8.2);
    CHECK(keeps(v, "run_double_wall") == Keeps::fails);
    v.run.reset();
    CHECK(keeps(v, "run_double_wall") == Keeps::not_known);
    v.moved_by = MovedBy::fan;
    CHECK_FALSE(judged(v, "run_double_wall"));
    CHECK_FALSE(judged(v, "run_single_wall"));
}

TEST_CASE("slope: a quarter inch in each foot (IFGC 503.10.8, from memory), a fall fails, a fan's vent is its maker's",
          "[venting]")
{
    auto v = hood();
    v.run = feet(4);
    CHECK(keeps(v, "slope") == Keeps::not_known);
    v.slope = percent(100 * 0.25 / 12);
    CHECK(keeps(v, "slope") == Keeps::holds);
    v.slope = percent(1.5);
    CHECK(keeps(v, "slope") == Keeps::fails);
    v.slope = percent(1.8, 0.5);
    CHECK(keeps(v, "slope") == Keeps::too_close);
    v.slope = percent(-2);
    CHECK(keeps(v, "slope") == Keeps::fails);
    v.moved_by = MovedBy::fan;
    CHECK(keeps(v, "slope") == Keeps::not_known);
}

TEST_CASE("bends: 45 degrees and one of 60 (an old UMC as summarised), a few right angles can't be told", "[venting]")
{
    auto v = hood();
    CHECK_FALSE(judged(v, "bends"));
    v.elbows_60 = count(1);
    CHECK(keeps(v, "bends") == Keeps::holds);
    v.elbows_60 = count(2);
    CHECK(keeps(v, "bends") == Keeps::not_known);
    v.elbows_90 = count(2);
    CHECK(keeps(v, "bends") == Keeps::not_known);
    v.elbows_90 = count(3);
    CHECK(keeps(v, "bends") == Keeps::fails);
}

TEST_CASE("kind of pipe: duct and bare masonry never, plastic never behind a hood, double wall never under pressure",
          "[venting]")
{
    auto v = hood();
    v.pipes = {PipeKind::flexible};
    CHECK(keeps(v, "pipe") == Keeps::fails);
    v.pipes = {PipeKind::masonry};
    CHECK(keeps(v, "pipe") == Keeps::fails);
    v.pipes = {PipeKind::plastic};
    CHECK(keeps(v, "pipe") == Keeps::fails);
    v.moved_by = MovedBy::fan;
    CHECK(keeps(v, "pipe") == Keeps::not_known); // some heaters do take it
    v.category = Category::IV;
    CHECK(keeps(v, "pipe") == Keeps::holds);
    v.category = Category::III;
    CHECK(keeps(v, "pipe") == Keeps::fails);
    v.pipes = {PipeKind::stainless, PipeKind::double_wall};
    CHECK(keeps(v, "pipe") == Keeps::fails);
    v.pipes = {PipeKind::other};
    CHECK(keeps(v, "pipe") == Keeps::not_known);
    v.pipes.clear();
    CHECK(keeps(v, "pipe") == Keeps::not_known);
}

TEST_CASE("category: the plate against pressure and efficiency, what is not measured is not known", "[venting]")
{
    venting::VentAsFound v;
    CHECK(keeps(v, "category") == Keeps::not_known);
    v.category = Category::I;
    CHECK(keeps(v, "category") == Keeps::not_known);
    v.outlet_pressure = inches_of_water(0.05);
    CHECK(keeps(v, "category") == Keeps::fails);
    v.outlet_pressure = inches_of_water(0.004); // within the gauge's doubt
    CHECK(keeps(v, "category") == Keeps::not_known);
    v.outlet_pressure = inches_of_water(-0.03);
    v.efficiency = percent(82);
    CHECK(keeps(v, "category") == Keeps::holds);
    v.efficiency = percent(88);
    CHECK(keeps(v, "category") == Keeps::fails);
    v.category = Category::II;
    CHECK(keeps(v, "category") == Keeps::holds);
}

TEST_CASE("clearance to what burns: 6 in single wall, 1 in double wall (labels and NFPA 54, from memory)", "[venting]")
{
    auto v = hood();
    v.combustibles = feet(0.4);
    CHECK(keeps(v, "combustibles_single_wall") == Keeps::fails);
    v.pipes = {PipeKind::double_wall};
    CHECK(keeps(v, "combustibles_double_wall") == Keeps::holds);
    v.pipes = {PipeKind::double_wall, PipeKind::single_wall}; // the harder one
    CHECK(keeps(v, "combustibles_single_wall") == Keeps::fails);
    v.pipes = {PipeKind::stainless};
    CHECK_FALSE(judged(v, "combustibles_single_wall"));
}

TEST_CASE("the end: 5 ft above the hood, openings by any one of three, the wrong side fails (NYC 804.2, read)",
          "[venting][nyc-mechanical-804-2]")
{
    auto v = hood();
    v.height = feet(4.5);
    CHECK(keeps(v, "draft_hood_rise") == Keeps::fails);
    v.distances = {{"opening_beside", feet(2)}, {"opening_above", feet(0.5)}, {"walkway_above", feet(7.5)}};
    CHECK(keeps(v, "opening_beside") == Keeps::fails);
    CHECK(keeps(v, "opening_above") == Keeps::fails);
    CHECK(keeps(v, "walkway_above") == Keeps::holds);
    v.distances[1].second = feet(1.5);
    CHECK(keeps(v, "opening_beside") == Keeps::holds);
    CHECK(keeps(v, "opening_above") == Keeps::holds);
    v.distances = {{"walkway_above", feet(-1)}, {"no such rule", feet(1)}};
    CHECK(keeps(v, "walkway_above") == Keeps::fails);
    CHECK_FALSE(judged(v, "no such rule"));
    v.above_roof = feet(1.1), v.roof_slope = count(4), v.from_wall = feet(10), v.capped = true, v.bore = feet(0.5);
    CHECK(keeps(v, "roof_to_6_in_12") == Keeps::holds);
    v.from_wall = feet(6);
    CHECK(keeps(v, "roof_other") == Keeps::fails);
    v.from_wall = feet(8), v.roof_slope = count(9);
    CHECK(keeps(v, "roof_to_9_in_12") == Keeps::fails);
    v.capped = false;
    CHECK(keeps(v, "roof_other") == Keeps::fails);
}

TEST_CASE("the pit: propane without a way out for gas fails, what was not looked at is not known", "[venting]")
{
    venting::VentAsFound v;
    CHECK_FALSE(judged(v, "pit_drained"));
    v.in_pit = true;
    CHECK_FALSE(judged(v, "propane_below_grade"));
    CHECK(keeps(v, "pit_drained") == Keeps::not_known);
    CHECK(keeps(v, "pit_way_out") == Keeps::not_known);
    v.propane = true;
    CHECK(keeps(v, "propane_below_grade") == Keeps::not_known);
    v.gas_way_out = false;
    CHECK(keeps(v, "propane_below_grade") == Keeps::fails);
    v.gas_way_out = true;
    CHECK(keeps(v, "propane_below_grade") == Keeps::holds);
    v.person_way_out = true;
    CHECK(keeps(v, "pit_way_out") == Keeps::not_known);
    v.shut_lid = true;
    CHECK(keeps(v, "pit_way_out") == Keeps::fails);
    v.service_space = feet(2);
    CHECK(keeps(v, "service_space") == Keeps::fails);
}
