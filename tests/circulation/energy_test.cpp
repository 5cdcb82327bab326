#include "padwalk/circulation/energy.hpp"

#include "catch_compat.hpp"
#include "csv.hpp"
#include "data_folder.hpp"
#include "padwalk/circulation/models.hpp"
#include "padwalk/figures/catalogue.hpp"
#include "written.hpp"

#include <cmath>

using namespace padwalk;
using namespace padwalk::circulation;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using tests::in;
using tests::number;
using tests::q;

namespace
{

PumpRule const& rule()
{
    static PumpRule const read = pump_rule(tests::data_from_folder());
    return read;
}

ReferenceCurve curve(std::string const& name)
{
    for (auto const& c : rule().reference_curves)
        if (c.name == name)
            return c;
    throw std::out_of_range(name);
}

// The first part that the text does not hold, with the text; empty if it holds them all.
std::string missing(std::string const& text, std::initializer_list<char const*> parts)
{
    for (char const* part : parts)
        if (text.find(part) == std::string::npos)
            return std::string("'") + part + "' is not in '" + text + "'";
    return {};
}

figures::Figure run(std::string const& model, std::initializer_list<std::pair<std::string, std::string>> entries)
{
    static std::vector<figures::Model> const models = circulation::models(tests::data_from_folder());
    return figures::run_written(tests::find(models, model), tests::record(entries));
}

template <units::Quantity Q> double value(figures::Figure const& figure, char const* output, std::string const& unit)
{
    INFO(figure.why_not);
    REQUIRE(figure.computed());
    auto const measured = figure.get<Q>(output);
    REQUIRE(measured);
    return in(measured->value, unit);
}

double plain(figures::Figure const& figure, char const* output)
{
    INFO(figure.why_not);
    REQUIRE(figure.computed());
    REQUIRE(figure.output(output).value);
    return *figure.output(output).value;
}

constexpr char const* made_up_pump = "0 gpm:80 ft, 55 gpm:60 ft, 110 gpm:0 ft"; // 80 ft (1 - (Q/110)²)

} // namespace

TEST_CASE("curve C and the federal test points known apart from it: tests/reference/circulation/pool_pump_rule.csv",
          "[circulation]")
{
    int with_power = 0;
    for (auto const& row : tests::reference_csv("circulation/pool_pump_rule.csv"))
    {
        INFO(row.place());
        auto const flow = q<units::VolumeFlow>(row.text("flow_gpm") + " gpm");
        auto const head = curve("C").head_at(flow);
        CHECK_THAT(in(head, "ft"), WithinAbs(row.number("head_ft"), row.number("tolerance_ft")));
        if (row.text("hydraulic_hp").empty())
            continue;
        ++with_power;
        // 3956 or 3960 is water of some temperature; ours at 68 °F
        CHECK_THAT(in(hydraulic_power(flow, head, q<units::Temperature>("68 degF")), "hp"),
                   WithinRel(row.number("hydraulic_hp"), 2e-3));
    }
    CHECK(with_power == 1);
}

TEST_CASE("a made-up pump on the three curves, by the closed solution Q² = 80/(c + 80/110²)", "[circulation]")
{
    auto const figure = run("reference_system_curves", {{"curve", made_up_pump}});
    for (auto const& [letter, c] : {std::pair{"a", 0.0167}, std::pair{"b", 0.050}, std::pair{"c", 0.0082}})
    {
        INFO(letter);
        double const flow = std::sqrt(80 / (c + 80 / 12100.0));
        std::string const at = letter;
        CHECK_THAT(value<units::VolumeFlow>(figure, ("flow_" + at).c_str(), "gpm"), WithinRel(flow, 1e-6));
        CHECK_THAT(value<units::Head>(figure, ("head_" + at).c_str(), "ft"), WithinRel(c * flow * flow, 1e-6));
        CHECK_THAT(value<units::Power>(figure, ("hydraulic_power_" + at).c_str(), "hp"),
                   WithinRel(c * flow * flow * flow / 3960, 4e-3)); // water of 80 °F
    }
    CHECK_THAT(value<units::VolumeFlow>(figure, "flow_c", "gpm"), WithinAbs(73.5, 0.05)); // as worked by hand
    CHECK(missing(figure.output("in_words").words, {"from memory"}) == "");
    auto const half = run("reference_system_curves", {{"curve", made_up_pump}, {"speed_ratio", "50 %"}});
    CHECK_THAT(value<units::VolumeFlow>(half, "flow_c", "gpm"),
               WithinRel(value<units::VolumeFlow>(figure, "flow_c", "gpm") / 2, 1e-9));
    CHECK_THAT(value<units::Power>(half, "hydraulic_power_c", "W"),
               WithinRel(value<units::Power>(figure, "hydraulic_power_c", "W") / 8, 1e-9));
}

TEST_CASE("a pump's curve too short for one reference curve says so and gives the others", "[circulation]")
{
    auto const figure = run("reference_system_curves", {{"curve", "0 gpm:80 ft, 30 gpm:74 ft, 60 gpm:56.2 ft"}});
    REQUIRE(figure.computed());
    CHECK(figure.output("flow_b").value);
    CHECK(!figure.output("flow_c").value);
    CHECK(missing(figure.output("in_words").words, {"curve C meets the pump's beyond its last point, 60 US gpm"}) ==
          "");
    CHECK(missing(run("reference_system_curves", {{"curve", "0 gpm:80 ft, 10 gpm:79 ft, 20 gpm:77 ft"}}).why_not,
                  {"curve B meets the pump's beyond its last point"}) == "");
    CHECK(missing(run("reference_system_curves", {{"curve", "80 gpm:40 ft, 85 gpm:38 ft, 90 gpm:35 ft"}}).why_not,
                  {"curve C meets the pump's before its first point, 80 US gpm"}) == "");
}

TEST_CASE("weighted energy factor: 24.7 gpm 60 W and 56 gpm 600 W make 11.057 kgal/kWh, worked by hand",
          "[circulation]")
{
    auto const figure =
        run("weighted_energy_factor",
            {{"low_flow", "24.7 gpm"}, {"low_power", "60 W"}, {"high_flow", "56 gpm"}, {"high_power", "600 W"}});
    CHECK_THAT(plain(figure, "weighted_energy_factor"), WithinAbs(11.057, 0.0005));
    CHECK(!figure.output("minimum").value);
    // One speed: the older energy factor gpm x 60 / W, in thousands [as read in a data dictionary of building energy]
    auto const single = run("weighted_energy_factor",
                            {{"high_flow", "70 gpm"}, {"high_power", "1500 W"}, {"hydraulic_power", "0.711 hp"}});
    CHECK_THAT(plain(single, "weighted_energy_factor"), WithinRel(70 * 60 / 1500.0, 1e-9));
    CHECK_THAT(plain(single, "minimum"), WithinAbs(-2.30 * std::log(0.711) + 6.59, 1e-9)); // 7.37
    CHECK(missing(single.output("in_words").words, {"below the least"}) == "");
    CHECK(missing(single.output("in_words").words, {"read in a copy"}) == "");
    CHECK(run("weighted_energy_factor", {{"high_flow", "70 gpm"}, {"high_power", "1500 W"}, {"low_flow", "25 gpm"}})
              .why_not == "the low point needs both low_flow and low_power");
}

TEST_CASE("least factors of 10 CFR 431.465(f) - rows join where they should and end at 2.5 hp", "[circulation]")
{
    auto const least = [](PumpKind kind, char const* power) -> std::optional<double>
    {
        auto const* row = minimum_row(rule(), kind, q<units::Power>(power));
        if (row == nullptr)
            return std::nullopt;
        return minimum_factor(*row, q<units::Power>(power)).value();
    };
    using K = PumpKind;
    CHECK_THAT(*least(K::self_priming, "0.1 hp"), WithinRel(5.55, 1e-12));
    CHECK_THAT(*least(K::self_priming, "0.1301 hp"), WithinAbs(5.55, 0.005)); // the two rows meet within rounding
    CHECK_THAT(*least(K::not_self_priming, "0.13 hp"), WithinRel(4.60, 1e-12));
    CHECK_THAT(*least(K::not_self_priming, "0.1301 hp"), WithinAbs(4.60, 0.005));
    CHECK_THAT(*least(K::self_priming, "0.7109 hp"), WithinAbs(3.343, 0.001));
    CHECK_THAT(*least(K::self_priming, "0.711 hp"), WithinAbs(7.375, 0.001));
    CHECK_THAT(*least(K::self_priming, "1 hp"), WithinRel(6.59, 1e-12)); // ln 1 = 0
    CHECK_THAT(*least(K::cleaner_booster, "1 hp"), WithinRel(0.42, 1e-12));
    CHECK(!least(K::self_priming, "2.5 hp"));
    CHECK(missing(run("weighted_energy_factor",
                      {{"high_flow", "70 gpm"}, {"high_power", "1500 W"}, {"hydraulic_power", "3 hp"}})
                      .output("in_words")
                      .words,
                  {"no least factor"}) == "");
}

TEST_CASE("running cost: 1500 W for 8 h a day at 0.20 is 4383 kWh and 876.60 a year, computed by hand", "[circulation]")
{
    auto const figure =
        run("pump_running_cost", {{"input_power", "1500 W"}, {"hours_per_day", "8 h"}, {"tariff", "0.20"}});
    CHECK_THAT(value<units::Energy>(figure, "energy_year", "kWh"), WithinRel(1.5 * 8 * 365.25, 1e-12));
    CHECK_THAT(value<units::Energy>(figure, "energy_month", "kWh"), WithinRel(365.25, 1e-12));
    CHECK_THAT(plain(figure, "cost_year"), WithinRel(876.60, 1e-12));
    CHECK_THAT(plain(figure, "cost_month"), WithinRel(73.05, 1e-12));
    CHECK(!figure.output("saved_year").value);
}

TEST_CASE("a lower speed with the exact cube gives Crane's example 7.33, 17.5 hp at 3500 and 2.005 hp at 1700 rpm",
          "[circulation]")
{
    DailyRun const slow =
        at_lower_speed({q<units::Power>("17.5 hp"), q<units::Duration>("6 h")}, q<units::RotationSpeed>("3500 rpm"),
                       q<units::RotationSpeed>("1700 rpm"), number(3));
    CHECK_THAT(in(slow.power, "hp"), WithinAbs(2.0053, 0.0001));
    CHECK_THAT(in(slow.per_day, "h") * 194.29, WithinRel(6 * 400.0, 1e-4)); // its 194.29 gpm move the same volume
    CHECK_THROWS_AS(
        at_lower_speed(slow, q<units::RotationSpeed>("1700 rpm"), q<units::RotationSpeed>("1700 rpm"), number(3)),
        figures::NotComputed);
}

TEST_CASE("half speed for twice the hours saves 1 - 2^(1 - e), with the exponent's doubt carried", "[circulation]")
{
    auto const figure = run("pump_running_cost", {{"input_power", "1500 W"},
                                                  {"hours_per_day", "8 h"},
                                                  {"tariff", "0.20"},
                                                  {"speed", "3450 rpm"},
                                                  {"lower_speed", "1725 rpm"}});
    CHECK_THAT(value<units::Duration>(figure, "lower_hours_per_day", "h"), WithinRel(16.0, 1e-12));
    auto const& share = figure.output("saved_share");
    REQUIRE(share.value);
    CHECK_THAT(*share.value, WithinRel(1 - std::pow(2, -1.6), 1e-12));
    CHECK_THAT(share.low, WithinAbs(1 - std::pow(2, -1.3), 0.02));
    CHECK_THAT(share.high, WithinAbs(1 - std::pow(2, -1.9), 0.02));
    CHECK_THAT(plain(figure, "saved_year"), WithinRel(876.60 * (1 - std::pow(2, -1.6)), 1e-12));
    auto const too_long = run("pump_running_cost", {{"input_power", "1500 W"},
                                                    {"hours_per_day", "18 h"},
                                                    {"tariff", "0.20"},
                                                    {"speed", "3450 rpm"},
                                                    {"lower_speed", "1725 rpm"}});
    CHECK(!too_long.output("saved_year").value);
    CHECK(missing(too_long.output("in_words").words, {"the day is too short"}) == "");
    CHECK(run("pump_running_cost",
              {{"input_power", "1500 W"}, {"hours_per_day", "18 h"}, {"tariff", "0.20"}, {"speed", "3450 rpm"}})
              .why_not == "to compare speeds give both speed and lower_speed");
}
