#include "catch_compat.hpp"

#include "csv.hpp"
#include "run_model.hpp"

#include "padwalk/level/air_gap.hpp"
#include "padwalk/level/dilution.hpp"
#include "padwalk/level/orifice.hpp"
#include "padwalk/physics/constants.hpp"
#include "padwalk/physics/water.hpp"
#include "padwalk/units/definitions.hpp"

#include <cmath>

using namespace padwalk;
using namespace padwalk::level_tests;
using namespace padwalk::units::exact;

namespace
{

double fraction(std::string const& text)
{
    auto const slash = text.find('/');
    return tests::csv_number(text.substr(0, slash)) / tests::csv_number(text.substr(slash + 1));
}

double gallons_a_day(units::VolumeFlow flow)
{
    return flow.value() / (us_gallon / day);
}

units::VolumeFlow hole(double bore_in, double pascal)
{
    auto const room_water = physics::density(units::of_si<units::Temperature>(20 + celsius_zero));
    return level::orifice_flow(units::of_si<units::Length>(bore_in * inch), units::of_si<units::Pressure>(pascal),
                               units::of_si<units::Number>(0.62), room_water);
}

double ppm(units::AsItself c)
{
    return c.value() * 1e3;
}

} // namespace

TEST_CASE("orifice: every cell of leak_orifice_gpd.csv")
{
    // Whole gallons: 0.5. The density used there is not said: 998 or 1000 kg/m3, 0.1 % in the flow under a pressure. A
    // head is of the water itself and needs no density.
    double const head_Pa = units::in_si(physics::density(units::of_si<units::Temperature>(20 + celsius_zero))) *
                           units::in_si(physics::standard_gravity);
    struct Column
    {
        char const* name;
        double pascal;
        double share;
    };
    int cells = 0;
    for (auto const& row : tests::reference_csv("level/leak_orifice_gpd.csv"))
        for (auto const& c : {Column{"gpd_10psi", 10 * psi, 0.001}, Column{"gpd_20psi", 20 * psi, 0.001},
                              Column{"gpd_40psi", 40 * psi, 0.001}, Column{"gpd_60psi", 60 * psi, 0.001},
                              Column{"gpd_head_0.3m", 0.3 * head_Pa, 0.0}, Column{"gpd_head_1m", head_Pa, 0.0},
                              Column{"gpd_head_2m", 2 * head_Pa, 0.0}})
        {
            INFO(row.place() << " " << c.name);
            double const printed = row.number(c.name);
            CHECK(std::abs(gallons_a_day(hole(fraction(row.text("hole_in")), c.pascal)) - printed) <=
                  0.5 + c.share * printed);
            ++cells;
        }
    CHECK(cells == 49);
}

TEST_CASE("orifice: a city's printed leak table (read): over 800, 3200 and 13 000 gallons a day at 60 psi")
{
    CHECK(gallons_a_day(hole(1.0 / 16, 60 * psi)) > 800);
    CHECK(std::abs(gallons_a_day(hole(1.0 / 8, 60 * psi)) / 3200 - 1) <= 0.016);  // printed to two digits
    CHECK(std::abs(gallons_a_day(hole(1.0 / 4, 60 * psi)) / 13000 - 1) <= 0.039); // printed to two digits
    auto const f = figure("orifice_flow", {{"bore", "1/8 in"}, {"pressure", "60 psi"}});
    REQUIRE(f.computed());
    CHECK(std::abs(gallons_a_day(units::of_si<units::VolumeFlow>(*f.output("flow").value)) - 3226) <=
          3.5);                                            // as the cell above
    CHECK(f.output("flow").high > f.output("flow").value); // the coefficient's ± 0.06
}

TEST_CASE("orifice: twice the bore passes four times, four times the pressure twice, nothing without a pressure")
{
    CHECK(std::abs(hole(0.5, 1e5).value() / hole(0.25, 1e5).value() - 4) <= 1e-12);
    CHECK(std::abs(hole(0.5, 4e5).value() / hole(0.5, 1e5).value() - 2) <= 1e-12);
    CHECK(hole(0.5, 0).value() == 0);
}

TEST_CASE("fill valve: 3 gpm is 17 inches a day on 400 square feet (arithmetic of the facts), so it hides any leak")
{
    // the bore that passes 3 gpm at 50 psi, by the law's own square root
    double const one_inch = hole(1, 50 * psi).value();
    double const bore = std::sqrt(3 * us_gallon / minute / one_inch);
    auto const f = figure("fill_valve_flow", {{"supply_pressure", "50 psi"},
                                              {"bore", std::to_string(bore) + " in"},
                                              {"area", "400 ft2"},
                                              {"lost", "360 gal"}});
    REQUIRE(f.computed());
    CHECK(std::abs(*f.output("flow").value / (us_gallon / minute) - 3) <=
          0.003); // density at 15 instead of 20 degC, bore to 6 digits
    CHECK(std::abs(*f.output("level_rate").value / (inch / day) - 17) <= 0.5); // 4320 gal/day; printed to whole inches
    CHECK(std::abs(*f.output("time_to_fill").value / hour - 2) <= 0.002);
    auto const alone = figure("fill_valve_flow", {{"supply_pressure", "50 psi"}, {"bore", "1/4 in"}});
    CHECK(!alone.output("level_rate").value);
    CHECK(!alone.output("time_to_fill").value);
}

TEST_CASE("dilution: two changes in a row are the product of both, many small ones drained first become flow through")
{
    auto const share = [](double s) { return units::of_si<units::Fraction>(s); };
    auto const times = [](double n) { return units::of_si<units::Number>(n); };
    using level::Exchange;
    for (auto how : {Exchange::drained_first, Exchange::flow_through})
    {
        double const once = level::old_water_left(share(0.3), times(1), how).value();
        CHECK(std::abs(level::old_water_left(share(0.3), times(2), how).value() - once * once) <= 1e-15);
    }
    auto const conc = [](double c) { return units::of_si<units::AsItself>(c * 1e-3); };
    auto const left = level::old_water_left(share(0.3), times(1), Exchange::drained_first);
    auto const first = level::diluted(conc(2000), conc(400), left);
    CHECK(std::abs(ppm(first) - 1520) <= 1e-9); // 0.7 x 2000 + 0.3 x 400, mass balance by hand
    auto const second = level::diluted(first, conc(400), left);
    CHECK(std::abs(ppm(second) -
                   ppm(level::diluted(conc(2000), conc(400),
                                      level::old_water_left(share(0.3), times(2), Exchange::drained_first)))) <= 1e-9);
    // (1 - s/n)^n goes to exp(-s) as n grows; at n = 1000 the difference is s²/2n
    CHECK(std::abs(level::old_water_left(share(1e-3), times(1000), Exchange::drained_first).value() - std::exp(-1.0)) <=
          std::exp(-1.0) * 0.5e-3 * 1.01);
    CHECK(level::old_water_left(share(0.5), times(1), Exchange::flow_through) >
          level::old_water_left(share(0.5), times(1), Exchange::drained_first));
}

TEST_CASE("model dilution: volume and replaced, share, and what is missing or too much")
{
    auto const f =
        figure("dilution", {{"volume", "20000 gal"}, {"replaced", "5000 gal"}, {"old", "120 ppm"}, {"fill", "0 ppm"}});
    REQUIRE(f.computed());
    CHECK(std::abs(*f.output("new").value - 0.090) <= 1e-12);
    CHECK(std::abs(*f.output("old_left").value - 0.75) <= 1e-12);
    auto const through =
        figure("dilution", {{"share", "100 %"}, {"old", "120 ppm"}, {"fill", "0 ppm"}, {"how", "flow_through"}});
    CHECK(std::abs(*through.output("old_left").value - std::exp(-1.0)) <= 1e-12);
    auto const why = [](std::vector<std::pair<std::string, std::string>> in)
    {
        in.emplace_back("old", "120 ppm");
        in.emplace_back("fill", "0 ppm");
        return figure("dilution", in).why_not;
    };
    CHECK(why({}) == "needs replaced (with volume) or share: how much water is changed each time");
    CHECK(why({{"replaced", "100 gal"}}) == "needs volume: water in the pool or spa");
    CHECK(why({{"share", "20 %"}, {"replaced", "100 gal"}}) == "give either replaced or share, not both");
    CHECK(why({{"share", "120 %"}}) ==
          "more water than the pool holds can't be drained at one time; give the number of times, or flow_through");
}

TEST_CASE("air gap: published rules, air_gap.csv")
{
    auto const rules = level::air_gap_rules(data());
    for (auto const& row : tests::reference_csv("level/air_gap.csv"))
    {
        INFO(row.place() << " " << row.text("source"));
        auto const r = level::air_gap(units::of_si<units::Length>(row.number("opening_in") * inch),
                                      units::of_si<units::Length>(1.25 * inch), row.text("near_wall") == "yes", rules);
        bool const pool = row.text("rule") == "pool";
        CHECK(std::abs((pool ? r.required_at_pool : r.required).value() / inch - row.number("required_in")) <= 1e-9);
        CHECK(std::abs((pool ? r.shortfall_at_pool : r.shortfall).value() / inch -
                       (row.number("required_in") - 1.25)) <= 1e-9);
    }
}

TEST_CASE("model air_gap: words for each case, both rules shown")
{
    auto const gap = [](char const* size, char const* wall) {
        return figure("air_gap", {{"bore", "3/4 in"}, {"gap", size}, {"near_wall", wall}});
    };
    CHECK(gap("2 in", "no").output("in_words").words == "enough by the general plumbing rule, too small where six "
                                                        "inches are asked for at a pool spout; the local code decides");
    CHECK(gap("2 in", "yes").output("in_words").words ==
          "too small by the plumbing rule as well as by the rule for pool spouts; a plumber must see it");
    CHECK(gap("6 in", "yes").output("in_words").words == "enough by both published rules");
    CHECK(gap("-1 in", "no").output("in_words").words == "no air gap: the opening can be under water, and pool water "
                                                         "can be drawn into the drinking water; a plumber must see it");
    CHECK(std::abs(*gap("2 in", "no").output("shortfall").value / inch - -0.5) <= 1e-9);
    CHECK(std::abs(*gap("2 in", "no").output("shortfall_at_pool").value / inch - 4) <= 1e-9);
}
