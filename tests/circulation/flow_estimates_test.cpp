#include "padwalk/circulation/flow_estimates.hpp"
#include "padwalk/numerics/gaussian.hpp"

#include "csv.hpp"
#include "padwalk/circulation/head.hpp"
#include "padwalk/circulation/models.hpp"
#include "padwalk/figures/figure.hpp"
#include "plant_made.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <sstream>

using namespace padwalk;
using namespace padwalk::circulation;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using tests::house;
using tests::in;
using tests::number;
using tests::q;
using tests::share;
using tests::tables;

namespace
{

figures::Model const& model(std::string const& name)
{
    static std::vector<figures::Model> const models = circulation::models(tests::data_from_folder());
    return tests::find(models, name);
}

figures::Figure run(std::string const& name, std::initializer_list<std::pair<std::string, std::string>> entries)
{
    return figures::run_written(model(name), tests::record(entries));
}

double out(figures::Figure const& figure, char const* output)
{
    INFO(figure.why_not);
    REQUIRE(figure.computed());
    REQUIRE(figure.output(output).value);
    return *figure.output(output).value;
}

bool says(std::string const& text, std::string const& part)
{
    return text.find(part) != std::string::npos;
}

/// The house with one return of the trunk's bore, so that what lies behind the pump is one path.
Plant one_path()
{
    Plant p = house();
    PlantReturn r;
    r.name = "return";
    r.pipe = tests::pipe("2.058 in", "40 ft", 4);
    r.nozzle = q<units::Length>("0.75 in");
    r.nozzles = 3;
    p.returns = {r};
    return p;
}

/// The same path for a gauge behind the filter.
ReturnPath path_of(Plant const& plant)
{
    auto const& r = plant.returns.front();
    auto const valve = valve_loss(r.valve, tables().plant.valves);
    REQUIRE(valve);
    ReturnPath path;
    path.heater = tables().plant.heater.value;
    path.pipe = plant.return_trunk;
    path.pipe.length = path.pipe.length + r.pipe.length;
    path.pipe.minor_loss = path.pipe.minor_loss + r.pipe.minor_loss + *valve;
    path.openings = number(r.nozzles);
    path.opening = r.nozzle.value_or(r.pipe.bore);
    path.discharge_coefficient = r.nozzle ? tables().plant.nozzle.value : number(1);
    path.outlet_height = r.outlet_height;
    return path;
}

FilterLoss filter_of(Plant const& plant)
{
    return filter_loss_of(tables().plant.filters, plant.filter->medium, plant.filter->area, plant.filter->loading,
                          plant.water);
}

/// A plain path: 20 mm hole at the end of a 52.5 mm pipe of no length.
ReturnPath hole()
{
    ReturnPath path;
    path.pipe = {q<units::Length>("52.5 mm"), {}, {}, {}, {}};
    path.openings = number(1);
    path.opening = q<units::Length>("20 mm");
    path.discharge_coefficient = number(0.62);
    return path;
}

ReturnGauge gauge(std::string const& pressure, std::string const& height = "0 ft")
{
    return {q<units::GaugePressure>(pressure), q<units::Length>(height), q<units::Temperature>("20 degC")};
}

FlowEstimate estimate(double gpm, double doubt_gpm, std::string way = "way")
{
    auto const one = units::in_si(q<units::VolumeFlow>("1 gpm"));
    return {std::move(way),
            {units::of_si<units::VolumeFlow>(gpm * one), units::of_si<units::VolumeFlow>(doubt_gpm * one), "test"}};
}

std::vector<double> numbers(std::string const& text)
{
    std::vector<double> out;
    std::istringstream words(text);
    for (std::string word; words >> word;)
        out.push_back(tests::csv_number(word));
    return out;
}

constexpr char const* usual_pump = "0 gpm:65 ft, 72 gpm:51 ft, 131 gpm:12 ft"; // 1.5 hp of the generic family

PumpCurve curve(double speed = 1)
{
    return PumpCurve(generic_curve(q<units::Power>("1.5 hp"), tables().pumps), share(speed));
}

} // namespace

TEST_CASE("flow by pressure against the network solution of the same house: to 1e-6, before and behind the filter, "
          "loaded or not, over and under the water, into the air",
          "[circulation]")
{
    for (auto const medium : {FilterMedium::sand, FilterMedium::cartridge, FilterMedium::precoat})
        for (double const loading : {0.0, 0.4, 1.0})
            for (auto const* height : {"-4 ft", "2 ft", "5 ft"})
            {
                Plant p = one_path();
                p.filter->medium = medium;
                p.filter->area = q<units::Area>(medium == FilterMedium::cartridge ? "200 ft2" : "4.9 ft2");
                p.filter->loading = share(loading);
                p.pad_height = q<units::Length>(height);
                if (height == std::string("5 ft"))
                {
                    p.returns[0].kind = ReturnKind::waterfall;
                    p.returns[0].outlet_height = q<units::Length>("3 ft");
                    p.returns[0].nozzle.reset();
                    p.returns[0].nozzles = 1;
                }
                auto const state = tests::state(p);
                INFO(height << ", loading " << loading << ", flow " << tests::gpm(state.total) << " gpm");
                REQUIRE(state.gauges.filter_in);
                REQUIRE(state.gauges.filter_out);
                ReturnPath path = path_of(p);
                CHECK_THAT(units::in_si(flow_by_pressure({*state.gauges.filter_out, p.pad_height, p.water}, path)),
                           WithinRel(units::in_si(state.total), 1e-6));
                path.filter = filter_of(p);
                CHECK_THAT(units::in_si(flow_by_pressure({*state.gauges.filter_in, p.pad_height, p.water}, path)),
                           WithinRel(units::in_si(state.total), 1e-6));
            }
}

TEST_CASE("flow by pressure is the textbook orifice at the end of a pipe: 2.2986 L/s computed by hand", "[circulation]")
{
    // Bernoulli from the pipe to the jet, p/rho + v1²/2 = v2²/2, with v1 A1 = c A2 v2 and no loss but what c says:
    // Q = c A2 sqrt((2 p/rho) / (1 - (c A2/A1)²)). 10 psi are 68947.57 Pa; rho 998.2 kg/m3 (water at 20 °C, any table).
    double const a1 = std::numbers::pi / 4 * 0.0525 * 0.0525, a2 = std::numbers::pi / 4 * 0.02 * 0.02;
    double const beta = 0.62 * a2 / a1;
    double const by_law = 0.62 * a2 * std::sqrt(2 * 68947.57 / 998.2 / (1 - beta * beta));
    CHECK_THAT(by_law, WithinAbs(2.2986e-3, 1e-7)); // 1.94779e-4 m2 x 11.8013 m/s
    CHECK_THAT(units::in_si(flow_by_pressure(gauge("10 psi"), hole())), WithinRel(by_law, 2e-5));
}

TEST_CASE("height of the gauge counts as pressure, and four holes of half the width as one", "[circulation]")
{
    auto const plain = units::in_si(flow_by_pressure(gauge("10 psi"), hole()));
    double const foot = units::in_si(pressure_of_head(q<units::Head>("1 ft"), q<units::Temperature>("20 degC")));
    auto lower = gauge("10 psi", "-1 ft");
    lower.reading = lower.reading + units::of_si<units::Pressure>(foot);
    CHECK_THAT(units::in_si(flow_by_pressure(lower, hole())), WithinRel(plain, 1e-9));
    ReturnPath four = hole();
    four.openings = number(4);
    four.opening = q<units::Length>("10 mm");
    CHECK_THAT(units::in_si(flow_by_pressure(gauge("10 psi"), four)), WithinRel(plain, 1e-9));
    ReturnPath poured = hole();
    poured.outlet_height = q<units::Length>("1 ft");
    CHECK_THAT(units::in_si(flow_by_pressure(gauge("10 psi", "1 ft"), poured)), WithinRel(plain, 1e-9));
}

TEST_CASE("flow by pressure rises with the gauge and falls with every loss on its way", "[circulation]")
{
    Plant const plant = one_path();
    ReturnPath path = path_of(plant);
    path.filter = filter_of(plant);
    double last = 0;
    for (int p = 1; p <= 60; ++p)
    {
        double const flow = units::in_si(flow_by_pressure(gauge(std::to_string(p) + " psi", "2 ft"), path));
        CHECK(flow > last);
        last = flow;
    }
    double const plain = units::in_si(flow_by_pressure(gauge("15 psi"), path));
    auto const with = [&](auto change)
    {
        ReturnPath changed = path;
        change(changed);
        return units::in_si(flow_by_pressure(gauge("15 psi"), changed));
    };
    CHECK(with([](ReturnPath& p) { p.heater = number(30); }) < plain);
    CHECK(with([](ReturnPath& p) { p.pipe.minor_loss = number(40); }) < plain);
    CHECK(with([](ReturnPath& p) { p.pipe.length = q<units::Length>("200 ft"); }) < plain);
    CHECK(with([](ReturnPath& p) { p.openings = number(2); }) < plain);
    CHECK(with([](ReturnPath& p) { p.filter->linear = 3 * p.filter->linear; }) < plain);
    CHECK(with([](ReturnPath& p) { p.filter.reset(); }) > plain);
}

TEST_CASE("a gauge that shows only the water's height, and a path that holds nothing back, are no flow",
          "[circulation]")
{
    CHECK_THROWS_AS(flow_by_pressure(gauge("0 psi"), hole()), figures::NotComputed);
    CHECK_THROWS_AS(flow_by_pressure(gauge("1 psi", "-3 ft"), hole()), figures::NotComputed);
    ReturnPath wide = hole();
    wide.opening = q<units::Length>("80 mm");
    CHECK_THROWS_AS(flow_by_pressure(gauge("10 psi"), wide), figures::NotComputed);
    ReturnPath none = hole();
    none.openings = number(0);
    CHECK_THROWS_AS(flow_by_pressure(gauge("10 psi"), none), figures::NotComputed);
    CHECK_THROWS_AS(filter_loss_of(tables().plant.filters, FilterMedium::sand, {}, {}, {}), figures::NotComputed);
}

TEST_CASE("the figure pressure_flow: its usual values are the plant's, and it says what it lacks", "[circulation]")
{
    auto const usual = [](char const* input, units::Measure measure)
    {
        for (auto const& f : model("pressure_flow").kernel->inputs().fields)
            if (f.name == input)
                return std::get<units::Reading>(units::read_quantity(f.otherwise, measure, input)).value;
        return std::numeric_limits<double>::quiet_NaN();
    };
    CHECK(usual("heater_loss", units::Measure::number) == tables().plant.heater.value.value());
    CHECK(usual("discharge_coefficient", units::Measure::number) == tables().plant.nozzle.value.value());

    auto const lacking = run("pressure_flow", {{"gauge_pressure", "14 psi"},
                                               {"return_bore", "2.067 in"},
                                               {"openings", "3"},
                                               {"opening_diameter", "0.75 in"}});
    CHECK(says(lacking.why_not, "filter_medium"));
    auto const behind = run("pressure_flow", {{"gauge_pressure", "14 psi"},
                                              {"gauge_at", "behind_filter"},
                                              {"return_bore", "2.067 in"},
                                              {"openings", "3"},
                                              {"opening_diameter", "0.75 in"}});
    auto const before = run("pressure_flow", {{"gauge_pressure", "14 psi"},
                                              {"filter_medium", "sand"},
                                              {"filter_area", "4.9 ft2"},
                                              {"return_bore", "2.067 in"},
                                              {"openings", "3"},
                                              {"opening_diameter", "0.75 in"}});
    CHECK(out(before, "flow") < out(behind, "flow"));
    // At the least its own 10 %, twice, either way.
    CHECK(behind.output("flow").high > 1.19 * out(behind, "flow"));
    CHECK(behind.output("flow").low < 0.81 * out(behind, "flow"));
}

TEST_CASE("best flow of a power curve of exponent n by its closed form b q^n = k h0/(n + k), and at any speed",
          "[circulation]")
{
    // d ln H/d ln Q = -n b q^n/(h0 - b q^n) = -k.
    double const n = std::log(53.0 / 14) / std::log(131.0 / 72);
    for (double const k : {0.4, 0.5, 0.6})
        for (double const speed : {1.0, 0.5, 1.2})
        {
            double const gpm = 72 * std::pow(k * 65 / (n + k) / 14, 1 / n) * speed;
            PumpPower const power(curve(speed), share(k), share(0.6), q<units::Temperature>("80 degF"));
            CHECK_THAT(in(power.best_flow(), "gpm"), WithinRel(gpm, 1e-6));
        }
}

TEST_CASE("shaft power: water's power over the best efficiency there, no efficiency anywhere above it, and rising",
          "[circulation]")
{
    auto const pump = curve();
    auto const water = q<units::Temperature>("80 degF");
    PumpPower const power(pump, share(0.5), share(0.6), water);
    auto const efficiency = [&](units::VolumeFlow flow)
    { return units::in_si(hydraulic_power(flow, pump.head_at(flow), water) / power.shaft_at(flow)); };
    CHECK_THAT(efficiency(power.best_flow()), WithinRel(0.6, 1e-12));
    units::Power last{};
    for (int i = 0; i <= 131; ++i)
    {
        auto const flow = q<units::VolumeFlow>(std::to_string(i) + " gpm");
        CHECK(efficiency(flow) <= 0.6 + 1e-9);
        CHECK(power.shaft_at(flow) > last);
        last = power.shaft_at(flow);
    }
    CHECK_THAT(units::in_si(power.shaft_at({})),
               WithinRel(0.5 * units::in_si(power.shaft_at(power.best_flow())), 1e-12));
    // The generic pumps' ratings were judged apart from this: the shaft power at the best flow is near their rating.
    CHECK_THAT(in(power.shaft_at(power.best_flow()), "hp"), WithinRel(1.5, 0.05));
}

TEST_CASE("motor_flow gives back the flow whose power was computed by hand, at any speed by affinity", "[circulation]")
{
    // P = rho g Q_b H_b/0.6 (0.5 + 0.5 Q/Q_b) / 0.75 at full speed; rho 996.6 kg/m3 at 80 °F, any table.
    double const n = std::log(53.0 / 14) / std::log(131.0 / 72);
    double const best = 72 * std::pow(0.5 * 65 / (n + 0.5) / 14, 1 / n), head = 65 * n / (n + 0.5);
    double const gpm = units::in_si(q<units::VolumeFlow>("1 gpm"));
    double const best_shaft = 996.6 * 9.80665 * best * gpm * head * 0.3048 / 0.6;
    for (double const at : {30.0, 60.0, 90.0, 120.0})
    {
        double const watt = best_shaft * (0.5 + 0.5 * at / best) / 0.75;
        auto const full = run(
            "motor_flow",
            {{"curve", usual_pump}, {"input_power", std::to_string(watt) + " W"}, {"water_temperature", "80 degF"}});
        CHECK_THAT(out(full, "flow") / gpm, WithinRel(at, 5e-4));
        // At 60 %: flow with the speed, shaft power with its cube, the motor's efficiency with its power 0.4.
        double const slow_watt = watt * std::pow(0.6, 3 - 0.4);
        auto const slow = run("motor_flow", {{"curve", usual_pump},
                                             {"input_power", std::to_string(slow_watt) + " W"},
                                             {"speed_ratio", "60 %"},
                                             {"water_temperature", "80 degF"}});
        CHECK_THAT(out(slow, "flow") / gpm, WithinRel(0.6 * at, 5e-4));
    }
}

TEST_CASE("a motor's power that fits no flow is told in words, and known efficiencies narrow the flow", "[circulation]")
{
    auto const little = run("motor_flow", {{"curve", usual_pump}, {"input_power", "300 W"}});
    CHECK(says(little.why_not, "no flow on the curve fits"));
    CHECK(says(little.why_not, "less than"));
    auto const much = run("motor_flow", {{"curve", usual_pump}, {"input_power", "4 kW"}});
    CHECK(says(much.why_not, "no flow on the curve fits"));
    CHECK(says(much.why_not, "more than"));
    auto const short_curve =
        run("motor_flow", {{"curve", "0 gpm:65 ft, 20 gpm:64 ft, 40 gpm:61 ft"}, {"input_power", "1200 W"}});
    CHECK(says(short_curve.why_not, "before the flow of the pump's best efficiency"));
    auto const printed =
        run("motor_flow",
            {{"curve", "0 gpm:65 ft, 20 gpm:64 ft, 40 gpm:61 ft"}, {"best_flow", "40 gpm"}, {"input_power", "800 W"}});
    CHECK(printed.computed());

    auto const vague = run("motor_flow", {{"curve", usual_pump}, {"input_power", "1500 W"}});
    auto const known = run("motor_flow", {{"curve", usual_pump},
                                          {"input_power", "1500 W"},
                                          {"motor_efficiency", "75 %"},
                                          {"best_efficiency", "60 %"},
                                          {"no_flow_share", "50 %"},
                                          {"motor_speed_exponent", "0.4"},
                                          {"water_temperature", "80 degF"}});
    CHECK(out(known, "flow") == out(vague, "flow"));
    // Near the best flow: the line's 10 % alone, twice; with the usual values 2 x 2 x 10.7 % more, by their squares.
    auto const width = [](figures::Figure const& f)
    { return (f.output("flow").high - f.output("flow").low) / 2 / *f.output("flow").value; };
    CHECK_THAT(width(known), WithinRel(0.2, 0.03));
    CHECK_THAT(width(vague), WithinRel(std::sqrt(0.2 * 0.2 + 0.43 * 0.43), 0.12));
}

TEST_CASE("what the figure motor_flow takes for usual is data/circulation/pump_power.yaml", "[circulation]")
{
    auto const table = pump_power_table(tests::data_from_folder());
    int held = 0;
    for (auto const& f : model("motor_flow").kernel->inputs().fields)
        for (auto const& [name, row] : {std::pair{"no_flow_share", &table.no_flow_share},
                                        {"best_efficiency", &table.best_efficiency},
                                        {"motor_efficiency", &table.motor_efficiency},
                                        {"motor_speed_exponent", &table.motor_speed_exponent}})
            if (f.name == name)
            {
                INFO(name);
                auto const read = std::get<units::Reading>(units::read_quantity(f.otherwise, *f.measure, name));
                CHECK_THAT(read.value, WithinRel(row->value.value(), 1e-12));
                CHECK_THAT(read.doubt, WithinRel(row->doubt.value(), 1e-12));
                ++held;
            }
    CHECK(held == 4);
    CHECK(model("motor_flow").own_doubt == table.form.doubt.value());
}

TEST_CASE("joint flows computed apart in exact fractions: tests/reference/circulation/joint_flow.csv", "[circulation]")
{
    double const gpm = units::in_si(q<units::VolumeFlow>("1 gpm"));
    auto const rows = tests::reference_csv("circulation/joint_flow.csv");
    REQUIRE(rows.size() == 15);
    for (auto const& row : rows)
    {
        INFO(row.place() << " " << row.text("id"));
        auto const values = numbers(row.text("values")), doubts = numbers(row.text("doubts")),
                   off = numbers(row.text("off"));
        std::vector<FlowEstimate> all;
        for (std::size_t i = 0; i < values.size(); ++i)
            all.push_back(estimate(values[i], doubts.at(i)));
        JointFlow const joint = joint_flow(all);
        CHECK_THAT(units::in_si(joint.flow.value) / gpm, WithinRel(row.number("flow"), 1e-12));
        CHECK_THAT(units::in_si(joint.flow.doubt) / gpm, WithinRel(row.number("doubt"), 1e-12));
        CHECK_THAT(joint.chi_square, WithinAbs(row.number("chi_square"), 1e-10));
        CHECK(joint.degrees == row.number("degrees"));
        CHECK(joint.disagree == (row.text("disagree") == "yes"));
        CHECK((joint.odd ? std::to_string(*joint.odd + 1) : std::string()) == row.text("odd"));
        REQUIRE(joint.off.size() == off.size());
        for (std::size_t i = 0; i < off.size(); ++i)
            CHECK_THAT(joint.off[i], WithinAbs(off[i], 1e-9));
    }
}

TEST_CASE("11 ± 1, 12 ± 1 and 10 ± 3 make 11.42 ± 0.69: Taylor, introduction to error analysis, chapter 7 (from "
          "memory)",
          "[circulation]")
{
    double const gpm = units::in_si(q<units::VolumeFlow>("1 gpm"));
    auto const joint = joint_flow({estimate(11, 1), estimate(12, 1), estimate(10, 3)});
    CHECK_THAT(units::in_si(joint.flow.value) / gpm, WithinAbs(11.42, 0.005));
    CHECK_THAT(units::in_si(joint.flow.doubt) / gpm, WithinAbs(0.69, 0.005));
    CHECK(!joint.disagree);
}

TEST_CASE("chance of chi-square: the 95 % and 99 % points of any table (from memory)", "[circulation]")
{
    std::vector<double> const at_95{3.8415, 5.9915, 7.8147, 9.4877, 11.0705, 12.5916};
    std::vector<double> const at_99{6.6349, 9.2103, 11.3449, 13.2767, 15.0863, 16.8119};
    for (int k = 1; k <= 6; ++k)
    {
        auto const i = static_cast<std::size_t>(k - 1);
        CHECK_THAT(numerics::chance_above(at_95[i], k), WithinAbs(0.05, 2e-6));
        CHECK_THAT(numerics::chance_above(at_99[i], k), WithinAbs(0.01, 1e-6));
        CHECK(numerics::chance_above(0, k) == 1);
    }
    CHECK_THROWS_AS(numerics::chance_above(1, 0), std::invalid_argument);
    CHECK_THROWS_AS(numerics::chance_above(-1, 2), std::invalid_argument);
}

TEST_CASE("a joint flow goes by no order, scales with its parts, and one estimate is itself", "[circulation]")
{
    std::vector<FlowEstimate> all{estimate(45, 1.5, "a"), estimate(46.5, 2, "b"), estimate(62, 2.5, "c"),
                                  estimate(44, 3, "d")};
    JointFlow const first = joint_flow(all);
    REQUIRE(first.odd);
    CHECK(all[*first.odd].way == "c");
    std::vector<std::size_t> order{0, 1, 2, 3};
    int orders = 0;
    do
    {
        std::vector<FlowEstimate> turned;
        for (auto const i : order)
            turned.push_back(all[i]);
        JointFlow const joint = joint_flow(turned);
        CHECK_THAT(units::in_si(joint.flow.value), WithinRel(units::in_si(first.flow.value), 1e-13));
        CHECK_THAT(units::in_si(joint.flow.doubt), WithinRel(units::in_si(first.flow.doubt), 1e-12));
        REQUIRE(joint.odd);
        CHECK(turned[*joint.odd].way == "c");
        for (std::size_t i = 0; i < order.size(); ++i)
            CHECK_THAT(joint.off[i], WithinRel(first.off[order[i]], 1e-11));
        ++orders;
    } while (std::next_permutation(order.begin(), order.end()));
    CHECK(orders == 24);

    for (auto& e : all)
    {
        e.flow.value = e.flow.value * 3.0;
        e.flow.doubt = e.flow.doubt * 3.0;
    }
    JointFlow const scaled = joint_flow(all);
    CHECK_THAT(units::in_si(scaled.flow.value), WithinRel(3 * units::in_si(first.flow.value), 1e-13));
    CHECK_THAT(units::in_si(scaled.flow.doubt), WithinRel(3 * units::in_si(first.flow.doubt), 1e-12));
    CHECK_THAT(scaled.chi_square, WithinRel(first.chi_square, 1e-12));
    CHECK(scaled.odd == first.odd);

    auto const alone = estimate(45, 3, "flow meter");
    JointFlow const one = joint_flow({alone});
    CHECK_THAT(units::in_si(one.flow.value), WithinRel(units::in_si(alone.flow.value), 1e-15));
    CHECK_THAT(units::in_si(one.flow.doubt), WithinRel(units::in_si(alone.flow.doubt), 1e-15));
    CHECK(one.degrees == 0);
    CHECK(one.off == std::vector<double>{0.0});
    CHECK(!one.disagree);
    CHECK(says(joint_in_words(one, {alone}), "flow meter alone"));
}

TEST_CASE("an odd flow among three is named, of two that disagree neither, and no doubt is no weight", "[circulation]")
{
    std::vector<FlowEstimate> const three{estimate(45, 2, "flow meter"), estimate(20, 3, "heater rise"),
                                          estimate(47, 3, "pump curve")};
    JointFlow const joint = joint_flow(three);
    REQUIRE(joint.odd);
    CHECK(*joint.odd == 1);
    CHECK(says(joint_in_words(joint, three), "heater rise"));
    std::vector<FlowEstimate> const two{three[0], three[1]};
    JointFlow const pair = joint_flow(two);
    CHECK(pair.disagree);
    CHECK(!pair.odd);
    CHECK(says(joint_in_words(pair, two), "two can't tell"));
    CHECK(units::in_si(pair.flow.doubt) > units::in_si(three[1].flow.doubt)); // Birge: more than either's own
    std::vector<FlowEstimate> const close{three[0], three[2]};
    CHECK(says(joint_in_words(joint_flow(close), close), "agree"));

    CHECK_THROWS_AS(joint_flow({}), figures::NotComputed);
    CHECK_THROWS_AS(joint_flow({estimate(45, 0)}), figures::NotComputed);
    CHECK_THROWS_AS(joint_flow({estimate(std::nan(""), 1)}), figures::NotComputed);
}

TEST_CASE("the figure joint_flow gives what the function gives, names the odd way, and wants each doubt",
          "[circulation]")
{
    auto const figure = run("joint_flow", {{"by_meter", "45 gpm"},
                                           {"by_meter_doubt", "2 gpm"},
                                           {"by_heat", "20 gpm"},
                                           {"by_heat_doubt", "3 gpm"},
                                           {"by_curve", "47 gpm"},
                                           {"by_curve_doubt", "3 gpm"}});
    auto const direct = joint_flow({estimate(45, 2), estimate(47, 3), estimate(20, 3)});
    CHECK_THAT(out(figure, "flow"), WithinRel(units::in_si(direct.flow.value), 1e-12));
    CHECK_THAT(out(figure, "doubt"), WithinRel(units::in_si(direct.flow.doubt), 1e-12));
    CHECK_THAT(out(figure, "chi_square"), WithinRel(direct.chi_square, 1e-12));
    CHECK(out(figure, "degrees") == 2);
    CHECK(figure.output("odd").words == "heater rise");
    CHECK(says(figure.output("in_words").words, "heater rise"));

    CHECK(says(run("joint_flow", {{"by_meter", "45 gpm"}}).why_not, "give both or neither"));
    CHECK(says(run("joint_flow", {}).why_not, "no flow is known"));
    auto const agreeing = run(
        "joint_flow",
        {{"by_meter", "45 gpm"}, {"by_meter_doubt", "2 gpm"}, {"by_power", "40 gpm"}, {"by_power_doubt", "10 gpm"}});
    CHECK(agreeing.output("odd").words.empty());
}

TEST_CASE("pump_energy and pump_lower_speed by hand: 1.5 kW 8 h a day, and 60 % of the speed", "[circulation]")
{
    auto const plain = run("pump_energy", {{"input_power", "1500 W"}, {"hours_per_day", "8 h"}});
    CHECK_THAT(out(plain, "energy_hour") / 3.6e6, WithinRel(1.5, 1e-12));
    CHECK_THAT(out(plain, "energy_year") / 3.6e6, WithinRel(1.5 * 8 * 365.25, 1e-12));
    auto const hour_only = run("pump_energy", {{"input_power", "1500 W"}});
    CHECK(!hour_only.output("energy_year").value);

    auto const slow = run("pump_lower_speed", {{"input_power", "1500 W"},
                                               {"flow", "60 gpm"},
                                               {"speed_share", "60 %"},
                                               {"exponent", "2.6"},
                                               {"volume", "15000 gal"},
                                               {"hours_per_day", "8 h"},
                                               {"tariff", "0.20"}});
    CHECK_THAT(out(slow, "lower_power"), WithinRel(1500 * std::pow(0.6, 2.6), 1e-12));
    CHECK_THAT(out(slow, "saved_share"), WithinRel(1 - std::pow(0.6, 1.6), 1e-12));
    CHECK_THAT(out(slow, "turnover") / 3600, WithinRel(15000.0 / 36 / 60, 1e-12));
    CHECK_THAT(out(slow, "lower_hours_per_day") / 3600, WithinRel(8 / 0.6, 1e-12));
    double const kwh = 1.5 * 8 * 365.25 * (1 - std::pow(0.6, 1.6));
    CHECK_THAT(out(slow, "saved_energy_year") / 3.6e6, WithinRel(kwh, 1e-12));
    CHECK_THAT(out(slow, "saved_year"), WithinRel(0.2 * kwh, 1e-12));
    auto const long_day =
        run("pump_lower_speed",
            {{"input_power", "1500 W"}, {"flow", "60 gpm"}, {"speed_share", "50 %"}, {"hours_per_day", "16 h"}});
    CHECK(!long_day.output("saved_energy_year").value);
    CHECK(says(long_day.output("in_words").words, "too short"));
}
