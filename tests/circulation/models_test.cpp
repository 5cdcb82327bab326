#include "catch_compat.hpp"
#include "data_folder.hpp"
#include "padwalk/circulation/models.hpp"
#include "padwalk/figures/catalogue.hpp"
#include "padwalk/reference/sources.hpp"
#include "padwalk/units/print.hpp"
#include "written.hpp"

#include <functional>

using namespace padwalk;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using tests::find;
using tests::in;
using tests::record;

namespace
{

std::vector<figures::Model> const& all()
{
    static std::vector<figures::Model> const models = circulation::models(tests::data_from_folder());
    return models;
}

figures::Figure run(std::string const& model, std::initializer_list<std::pair<std::string, std::string>> entries)
{
    return figures::run_written(find(all(), model), record(entries));
}

template <units::Quantity Q> double value(figures::Figure const& figure, char const* output, std::string const& unit)
{
    INFO(figure.why_not);
    REQUIRE(figure.computed());
    auto const measured = figure.get<Q>(output);
    REQUIRE(measured);
    return in(measured->value, unit);
}

} // namespace

TEST_CASE("the models of circulation, and that every source they name is in the bibliography", "[circulation]")
{
    auto const bibliography = reference::bibliography(tests::data_from_folder());
    std::vector<std::string> names;
    for (auto const& model : all())
    {
        names.push_back(model.name);
        CHECK(!model.sources.empty());
        for (auto const& key : model.sources)
        {
            INFO(model.name << " cites " << key);
            CHECK(bibliography.count(key) == 1);
        }
    }
    CHECK(names == std::vector<std::string>{"water_volume",
                                            "turnover",
                                            "filter_rate",
                                            "head_of_pressure",
                                            "pressure_of_head",
                                            "total_dynamic_head",
                                            "pump_flow",
                                            "pump_speed",
                                            "water_power",
                                            "pump_energy",
                                            "pump_lower_speed",
                                            "pipe_velocity",
                                            "pipe_friction",
                                            "operating_point",
                                            "suction_margin",
                                            "motor_current",
                                            "motor_load",
                                            "filter_loading",
                                            "drain_cover_flow",
                                            "pump_running_cost",
                                            "reference_system_curves",
                                            "weighted_energy_factor",
                                            "pressure_flow",
                                            "motor_flow",
                                            "joint_flow"});
    figures::Catalogue catalogue;
    CHECK_NOTHROW(catalogue.add(all()));
}

TEST_CASE("every row of data/circulation cites a source of the bibliography", "[circulation]")
{
    auto const data = tests::data_from_folder();
    auto const bibliography = reference::bibliography(data);
    int cited = 0;
    std::function<void(fields::Node const&)> const walk = [&](fields::Node const& node)
    {
        if (auto const* key = node.find("key"); key != nullptr && node.find("seen") != nullptr)
        {
            ++cited;
            INFO(key->text);
            CHECK(bibliography.count(key->text) == 1);
        }
        for (auto const& item : node.items)
            walk(item);
        for (auto const& entry : node.entries)
            walk(entry.value);
    };
    for (auto const& path : data.files("circulation/"))
        walk(data.file(path));
    CHECK(cited > 40);
}

TEST_CASE("every field's limits, assumption and printed units hold together", "[circulation]")
{
    for (auto const& model : all())
    {
        for (auto const& field : model.kernel->inputs().fields)
        {
            INFO(model.name << "/" << field.name);
            if (field.measure)
            {
                REQUIRE(field.low);
                REQUIRE(field.high);
                CHECK(*field.low < *field.high);
            }
            if (!field.otherwise.empty() && field.measure)
            {
                auto const read = units::read_quantity(field.otherwise, *field.measure, field.name);
                REQUIRE(std::holds_alternative<units::Reading>(read));
                CHECK(std::get<units::Reading>(read).value >= *field.low);
                CHECK(std::get<units::Reading>(read).value <= *field.high);
                CHECK(!field.because.empty());
            }
        }
        for (auto const& field : model.kernel->outputs().fields)
        {
            INFO(model.name << "/" << field.name);
            for (auto const system : {units::System::us, units::System::si})
                if (field.measure)
                    CHECK_NOTHROW(units::show(*field.measure, 1.0, 0.0, field.style(system)));
        }
    }
}

TEST_CASE("water_volume as written", "[circulation]")
{
    auto const figure = run("water_volume", {{"shape", "rectangle"},
                                             {"length", "32 ft"},
                                             {"width", "16 ft"},
                                             {"shallow_depth", "3 ft"},
                                             {"deep_depth", "8 ft"}});
    CHECK_THAT(value<units::Volume>(figure, "volume", "gal"), WithinRel(21065.1, 1e-5)); // 2816 ft3
    CHECK_THAT(value<units::Length>(figure, "mean_depth", "ft"), WithinRel(5.5, 1e-12));
    CHECK(figure.output("in_words").words ==
          "a rectangle of length and width; the floor slopes evenly from end to end");
    // 95 % interval of the 5 % that the outline itself is judged good for
    auto const& volume = figure.output("volume");
    CHECK_THAT(volume.high / *volume.value, WithinAbs(1.10, 0.01));
    CHECK(run("water_volume", {{"shape", "kidney"}, {"length", "30 ft"}, {"width", "15 ft"}, {"depth", "5 ft"}})
              .why_not == "a kidney needs length, width and second_width; second_width is missing");
}

TEST_CASE("turnover and filter_rate as written: flow = gal/(60 h)", "[circulation]")
{
    auto const turnover = run("turnover", {{"volume", "18000 gal"}, {"flow", "50 gpm"}});
    CHECK_THAT(value<units::Duration>(turnover, "turnover", "h"), WithinRel(6.0, 1e-12));
    auto const rate = run("filter_rate", {{"flow", "60 gpm"}, {"area", "4 ft2"}});
    CHECK_THAT(value<units::Velocity>(rate, "rate", "gpm/ft2"), WithinRel(15.0, 1e-12));
    CHECK_THAT(value<units::Velocity>(rate, "rate", "ft/min"), WithinRel(15.0 * 231 / 1728, 1e-12));
}

TEST_CASE("total_dynamic_head as written, with what is assumed", "[circulation]")
{
    auto const figure =
        run("total_dynamic_head",
            {{"discharge_gauge", "18 psi"}, {"suction_gauge", "-6 inHg"}, {"water_temperature", "20 degC"}});
    CHECK_THAT(value<units::Head>(figure, "total_dynamic_head", "ft"), WithinAbs(48.4, 0.05));
    CHECK(!figure.output("velocity_head_part").value);
    int assumed = 0;
    for (auto const& input : figure.inputs)
        assumed += input.assumed ? 1 : 0;
    CHECK(assumed == 2); // the two heights
    CHECK(run("total_dynamic_head", {{"discharge_gauge", "-6 inHg"}, {"suction_gauge", "18 psi"}}).why_not ==
          "by these readings the pump adds no head: is it running, are the gauges exchanged, and is the vacuum written "
          "with a minus?");
}

TEST_CASE("pump_flow carries the doubt of a published curve from the instruments, once", "[circulation]")
{
    auto const figure =
        run("pump_flow", {{"curve", "0 gpm:80 ft, 60 gpm:56 ft, 100 gpm:14 ft"}, {"head", "44.3 ft ± 0 ft"}});
    REQUIRE(figure.computed());
    auto const flow = figure.get<units::VolumeFlow>("flow");
    REQUIRE(flow);
    auto const row = reference::instruments(tests::data_from_folder())(units::Reading::of(*flow), "curve", {});
    CHECK_THAT(units::in_si(flow->doubt) / units::in_si(flow->value),
               WithinRel(0.04, 0.03)); // 255 points of a sequence
    CHECK_THAT(units::in_si(flow->doubt), WithinRel(row.doubt, 0.03));
}

TEST_CASE("pump_flow and operating_point as written", "[circulation]")
{
    std::string const curve = "0 gpm:80 ft, 60 gpm:56.1983471 ft, 100 gpm:13.8842975 ft";
    CHECK_THAT(value<units::VolumeFlow>(run("pump_flow", {{"curve", curve}, {"head", "44.3 ft"}}), "flow", "gpm"),
               WithinAbs(73.5, 0.05));
    CHECK_THAT(value<units::VolumeFlow>(
                   run("pump_flow", {{"curve", curve}, {"head", "11.075 ft"}, {"speed_ratio", "50 %"}}), "flow", "gpm"),
               WithinAbs(36.75, 0.025));
    auto const point = run("operating_point", {{"curve", curve},
                                               {"suction_bore", "2.058 in"},
                                               {"suction_length", "30 ft"},
                                               {"suction_minor_loss", "5"},
                                               {"discharge_bore", "2.058 in"},
                                               {"discharge_length", "60 ft"},
                                               {"discharge_minor_loss", "8"},
                                               {"filter_minor_loss", "20"},
                                               {"heater_minor_loss", "6"},
                                               {"water_temperature", "80 degF"}});
    double const pump = value<units::Head>(point, "pump_head", "ft");
    double const lost = value<units::Head>(point, "suction_loss", "ft") +
                        value<units::Head>(point, "discharge_loss", "ft") +
                        value<units::Head>(point, "filter_loss", "ft") + value<units::Head>(point, "heater_loss", "ft");
    CHECK_THAT(lost, WithinRel(pump, 1e-9));
    double const flow = value<units::VolumeFlow>(point, "flow", "gpm");
    CHECK_THAT(pump, WithinRel(80 * (1 - flow * flow / 12100), 1e-6));
    CHECK(run("operating_point", {{"curve", curve},
                                  {"suction_bore", "2.058 in"},
                                  {"suction_length", "30 ft"},
                                  {"discharge_bore", "2.058 in"},
                                  {"discharge_length", "60 ft"},
                                  {"formula", "hazen_williams"}})
              .why_not == "hazen_williams needs hazen_williams_c; smooth plastic pipe is usually given 150");
}

TEST_CASE("pump_speed, water_power and pipe_velocity as written", "[circulation]")
{
    auto const slow =
        run("pump_speed", {{"flow", "60 gpm"}, {"head", "48 ft"}, {"speed", "3450 rpm"}, {"new_speed", "1725 rpm"}});
    CHECK_THAT(value<units::VolumeFlow>(slow, "new_flow", "gpm"), WithinRel(30.0, 1e-12));
    CHECK(!slow.output("new_power").value);
    auto const power =
        run("water_power",
            {{"flow", "60 gpm"}, {"head", "48 ft"}, {"input_power", "1500 W"}, {"water_temperature", "20 degC"}});
    CHECK_THAT(value<units::Fraction>(power, "efficiency", "%"),
               WithinRel(100 * (60 * 48 / 3960.0) * 745.7 / 1500, 2e-3));
    CHECK(run("water_power", {{"flow", "60 gpm"}, {"head", "48 ft"}, {"input_power", "500 W"}}).why_not ==
          "the water would gain more power than the motor takes; flow, head or input_power is wrong");
    CHECK_THAT(
        value<units::Velocity>(run("pipe_velocity", {{"flow", "60 gpm"}, {"bore", "2.058 in"}}), "velocity", "ft/s"),
        WithinAbs(5.79, 0.005));
}

TEST_CASE("pipe_friction as written, both formulas", "[circulation]")
{
    auto const darcy =
        run("pipe_friction",
            {{"flow", "60 gpm"}, {"bore", "2.058 in"}, {"length", "100 ft"}, {"water_temperature", "20 degC"}});
    CHECK_THAT(value<units::Head>(darcy, "head_loss", "ft"), WithinAbs(5.60, 0.01));
    CHECK(darcy.output("friction_factor").value);
    auto const hazen = run("pipe_friction", {{"flow", "50 gpm"},
                                             {"bore", "2.067 in"},
                                             {"length", "100 ft"},
                                             {"formula", "hazen_williams"},
                                             {"hazen_williams_c", "150"}});
    CHECK_THAT(value<units::Head>(hazen, "head_loss", "ft"), WithinAbs(3.975, 0.0006));
    CHECK(!hazen.output("friction_factor").value);
    CHECK(run("pipe_friction", {{"flow", "1 gpm"},
                                {"bore", "2.067 in"},
                                {"length", "100 ft"},
                                {"formula", "hazen_williams"},
                                {"hazen_williams_c", "150"},
                                {"water_temperature", "20 degC"}})
              .why_not == "the flow is not turbulent (Reynolds number 1520, below 4000), where hazen_williams does not "
                          "hold; use darcy_weisbach");
}

TEST_CASE("suction_margin as written", "[circulation]")
{
    auto const figure = run("suction_margin", {{"suction_gauge", "-10 inHg"},
                                               {"water_temperature", "40 degC"},
                                               {"altitude", "1500 m"},
                                               {"required", "10 ft"}});
    CHECK_THAT(value<units::Head>(figure, "npsh_available", "m"), WithinAbs(4.45, 0.0056));
    CHECK_THAT(value<units::Head>(figure, "margin", "m"), WithinAbs(4.45 - 3.048, 0.0056));
    CHECK_THAT(value<units::GaugePressure>(figure, "vacuum_at_boiling", "inHg"), WithinAbs(-22.79, 0.0065));
    CHECK(figure.output("in_words").words == "more than the pump needs, with the usual margin");
    auto const moving = run("suction_margin", {{"suction_gauge", "-10 inHg"},
                                               {"water_temperature", "40 degC"},
                                               {"altitude", "1500 m"},
                                               {"flow", "60 gpm"},
                                               {"bore", "1.601 in"}});
    CHECK_THAT(value<units::Head>(moving, "npsh_available", "ft") - value<units::Head>(figure, "npsh_available", "ft"),
               WithinAbs(1.42, 0.005));
    CHECK(!moving.output("margin").value);
}

TEST_CASE("motor_current and motor_load as written", "[circulation]")
{
    auto const current =
        run("motor_current",
            {{"shaft_power", "1.5 hp"}, {"voltage", "230 V"}, {"power_factor", "90 %"}, {"efficiency", "75 %"}});
    CHECK_THAT(value<units::Current>(current, "current", "A"), WithinAbs(7.2, 0.05));
    CHECK_THAT(value<units::Power>(current, "input_power", "kW"), WithinAbs(1.49, 0.005));
    auto const load =
        run("motor_load", {{"current", "9.6 A"}, {"nameplate_current", "8 A"}, {"service_factor", "1.3"}});
    CHECK_THAT(value<units::Fraction>(load, "load_share", "%"), WithinRel(120.0, 1e-12));
    CHECK_THAT(value<units::Fraction>(load, "share_of_greatest", "%"), WithinRel(100 * 1.2 / 1.3, 1e-12));
}

TEST_CASE("doubt of a gauge is carried to the head", "[circulation]")
{
    auto const figure =
        run("total_dynamic_head",
            {{"discharge_gauge", "18 ± 1 psi"}, {"suction_gauge", "-6 inHg"}, {"water_temperature", "20 degC"}});
    auto const& head = figure.output("total_dynamic_head");
    CHECK_THAT((head.high - head.low) / 0.3048,
               WithinRel(2 * 2.311, 0.03)); // ± 1 psi, and 256 points find quantiles to some per cent
}
