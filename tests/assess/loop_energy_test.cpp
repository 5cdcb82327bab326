// What a pump takes from the wire, on a visit: figures held against sums done by hand.
#include "assessed.hpp"
#include "catch_compat.hpp"

#include <algorithm>
#include <cmath>

using namespace padwalk;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using tests::assessed;

namespace
{

constexpr double kwh = 3.6e6;
constexpr double gpm = 3.785411784e-3 / 60;

struct Written
{
    std::string pump = "variable_speed: no, ";
    std::string motor = "power: 1500 W ± 60 W";
    std::string price = "electricity_price: 0.20\n";
    std::string more = {}; ///< of the loop
    std::string volume = "15000 gal ± 500 gal";
};

/// A pool of 15,000 gal turned over in 4 h by 62.5 gpm against some 49 ft.
assess::Assessment pool_visit(Written const& w)
{
    return assessed(w.price + "waters:\n  pool: {kind: pool, temperature: 82 degF, volume: " + w.volume +
                    "}\nloops:\n  main:\n    serves: [pool]\n    flow: 62.5 gpm ± 2 gpm\n    suction_gauge: -5 inHg ± "
                    "0.5 inHg\n    filter: {media: sand, area: 4.9 ft2, gauge: 18 psi ± 0.5 psi}\n" +
                    w.more + "    pump: {runs: yes, " + w.pump + "motor: {" + w.motor + "}}\n");
}

assess::FigureEntry const* figure(assess::Assessment const& a, std::string const& model)
{
    assess::FigureEntry const* found = nullptr;
    for (auto const& f : a.figures)
        if (f.figure.model->name == model)
        {
            CHECK(found == nullptr); // none is laid twice
            found = &f;
        }
    return found;
}

double value(assess::Assessment const& a, std::string const& model, std::string const& output)
{
    auto const* f = figure(a, model);
    REQUIRE(f != nullptr);
    INFO(f->figure.why_not);
    REQUIRE(f->figure.computed());
    REQUIRE(f->figure.output(output).value);
    return *f->figure.output(output).value;
}

bool doubtful(assess::Assessment const& a, std::string const& model, std::string const& output)
{
    auto const& out = figure(a, model)->figure.output(output);
    return out.low < *out.value && *out.value < out.high;
}

bool says(std::string const& text, std::string const& part)
{
    return text.find(part) != std::string::npos;
}

bool not_tested(assess::Assessment const& a, std::string const& what, std::string const& because)
{
    return std::any_of(a.not_tested.begin(), a.not_tested.end(),
                       [&](auto const& n) { return says(n.what, what) && says(n.because, because); });
}

bool assumed(assess::Assessment const& a, std::string const& what)
{
    return std::any_of(a.assumptions.begin(), a.assumptions.end(), [&](auto const& x) { return says(x.what, what); });
}

} // namespace

TEST_CASE("loop energy: wire to water is rho g Q H over the motor's power, one figure with the plate's share")
{
    auto const a = pool_visit({.pump = "rated_power: 1.5 hp, "});
    double const head = value(a, "total_dynamic_head", "total_dynamic_head");
    // 82 °F: 996.3 kg/m3, any table
    auto const share = [&](assess::Assessment const& of)
    { return 996.3 * 9.80665 * units::in_si(of.loops.at(0).flow->value) * head / 1500; };
    CHECK_THAT(value(a, "water_power", "efficiency"), WithinRel(share(a), 3e-4));
    // A usual pump of the plate's power adds little to what the meter says.
    CHECK_THAT(units::in_si(a.loops.at(0).flow->value), WithinRel(62.5 * gpm, 0.01));
    CHECK(doubtful(a, "water_power", "efficiency"));
    CHECK(says(figure(a, "water_power")->meaning, "nameplate"));
    CHECK(says(figure(a, "water_power")->meaning, "from wire to water"));
    auto const no_plate = pool_visit({});
    CHECK_THAT(value(no_plate, "water_power", "efficiency"), WithinRel(share(no_plate), 3e-4));
    CHECK_THAT(units::in_si(no_plate.loops.at(0).flow->value), WithinRel(62.5 * gpm, 1e-12));
    auto const no_power = pool_visit({.pump = "rated_power: 1.5 hp, ", .motor = ""});
    CHECK(!figure(no_power, "water_power")->figure.output("efficiency").value);
}

TEST_CASE("loop energy: a motor that takes less than the water gains is asked about")
{
    auto const a = pool_visit({.pump = "rated_power: 1.5 hp, ", .motor = "power: 300 W ± 10 W"});
    CHECK(std::any_of(a.questions.begin(), a.questions.end(),
                      [](auto const& q) { return says(q.why, "more power than the motor takes"); }));
    CHECK(figure(a, "water_power")->figure.computed()); // what the water gains still stands
}

TEST_CASE("loop energy: without power volts times amps times 0.85 ± 0.1, and that is said")
{
    auto const a = pool_visit({.motor = "voltage: 230 V ± 2 V, current: 8 A ± 0.2 A"});
    CHECK_THAT(value(a, "pump_energy", "energy_hour") / kwh, WithinRel(0.230 * 8 * 0.85, 1e-9));
    CHECK(assumed(a, "power factor 0.85 ± 0.1"));
    // Twice the standard doubt: the factor's 11.8 %, the amps' 2.5 %, the volts' 0.9 %.
    auto const& out = figure(a, "pump_energy")->figure.output("energy_hour");
    CHECK_THAT((out.high - out.low) / 2 / *out.value,
               WithinRel(std::sqrt(0.1176 * 0.1176 + 0.025 * 0.025 + 8e-5), 0.03));
    auto const drive = pool_visit({.pump = "variable_speed: yes, ", .motor = "voltage: 230 V, current: 8 A"});
    CHECK(assumed(drive, "power factor 0.85 ± 0.2"));
    auto const measured = pool_visit({.motor = "power: 1500 W, voltage: 230 V, current: 8 A"});
    CHECK_THAT(value(measured, "pump_energy", "energy_hour") / kwh, WithinRel(1.5, 1e-9));
    CHECK(!assumed(measured, "power factor"));
}

TEST_CASE("loop energy: cost of 1500 W for 8 h a day at 0.20 by hand, and what is missing is said, not made up")
{
    auto const a = pool_visit({.pump = "daily_run: 8 h, "});
    CHECK_THAT(value(a, "pump_running_cost", "energy_year") / kwh, WithinRel(1.5 * 8 * 365.25, 1e-9));
    CHECK_THAT(value(a, "pump_running_cost", "cost_year"), WithinRel(1.5 * 8 * 365.25 * 0.20, 1e-9));
    CHECK(figure(a, "pump_energy") == nullptr);
    CHECK(!not_tested(a, "costs", ""));

    auto const no_price = pool_visit({.pump = "daily_run: 8 h, ", .price = ""});
    CHECK(figure(no_price, "pump_running_cost") == nullptr);
    CHECK_THAT(value(no_price, "pump_energy", "energy_hour") / kwh, WithinRel(1.5, 1e-9));
    CHECK_THAT(value(no_price, "pump_energy", "energy_year") / kwh, WithinRel(1.5 * 8 * 365.25, 1e-9));
    CHECK(not_tested(no_price, "what a year of pump of main costs", "electricity_price"));
    CHECK(!not_tested(no_price, "costs", "daily_run"));

    auto const no_hours = pool_visit({});
    CHECK(figure(no_hours, "pump_running_cost") == nullptr);
    CHECK(!figure(no_hours, "pump_energy")->figure.output("energy_year").value);
    CHECK(not_tested(no_hours, "costs", "daily_run"));
    CHECK(!not_tested(no_hours, "costs", "electricity_price"));

    auto const neither = pool_visit({.price = ""});
    CHECK(not_tested(neither, "costs", "'daily_run') and 'electricity_price'"));
}

TEST_CASE("loop energy: with no power known nothing is said of energy or cost")
{
    for (auto const* motor : {"", "voltage: 230 V", "current: 8 A", "voltage: 0 V, current: 0 A", "power: 0 W"})
    {
        INFO(motor);
        auto const a = pool_visit({.pump = "daily_run: 8 h, ", .motor = motor});
        for (auto const* name : {"pump_running_cost", "pump_energy", "pump_lower_speed"})
            CHECK(figure(a, name) == nullptr);
        CHECK(!not_tested(a, "costs", ""));
    }
    auto const off = assessed("electricity_price: 0.2\nloops:\n  main:\n    pump: {runs: no, daily_run: 8 h, motor: "
                              "{power: 1500 W}}\n");
    CHECK(figure(off, "pump_running_cost") == nullptr);
}

TEST_CASE("loop energy: a turnover of 4 h may go to 6 h, the strictest limit held: two thirds of the speed by hand")
{
    // Same water at s = 4/6: power s^2.6, hours 1/s, so s^1.6 of the energy.
    double const share = 4.0 / 6;
    auto const a = pool_visit({.pump = "variable_speed: yes, speed: 3450 rpm, daily_run: 8 h, "});
    CHECK_THAT(value(a, "pump_lower_speed", "saved_share"), WithinRel(1 - std::pow(share, 1.6), 1e-9));
    CHECK(doubtful(a, "pump_lower_speed", "saved_share"));
    double const saved = 1.5 * 8 * 365.25 * (1 - std::pow(share, 1.6));
    CHECK_THAT(value(a, "pump_lower_speed", "saved_energy_year") / kwh, WithinRel(saved, 1e-9));
    CHECK_THAT(value(a, "pump_lower_speed", "saved_year"), WithinRel(0.2 * saved, 1e-9));
    CHECK_THAT(value(a, "pump_lower_speed", "turnover"), WithinRel(6 * 3600, 1e-9));
    CHECK_THAT(value(a, "pump_lower_speed", "lower_hours_per_day"), WithinRel(12 * 3600, 1e-9));
    auto const* f = figure(a, "pump_lower_speed");
    CHECK(says(f->label, "lower speed of pump of main"));
    CHECK(says(f->meaning, "2300 rpm"));
    CHECK(says(f->meaning, "California energy code: no faster than 6 h"));
    CHECK(says(f->meaning, "(kept)"));
    CHECK(says(f->meaning, "turnover-codes"));

    auto const one_speed = pool_visit({.pump = "variable_speed: no, daily_run: 8 h, "});
    CHECK(says(figure(one_speed, "pump_lower_speed")->meaning, "a pump with a drive that moves the same water"));
    CHECK(value(one_speed, "pump_lower_speed", "saved_share") == value(a, "pump_lower_speed", "saved_share"));
    auto const no_price = pool_visit({.pump = "daily_run: 8 h, ", .price = ""});
    CHECK(!figure(no_price, "pump_lower_speed")->figure.output("saved_year").value);
    CHECK(value(no_price, "pump_lower_speed", "saved_energy_year") ==
          value(a, "pump_lower_speed", "saved_energy_year"));
}

TEST_CASE("loop energy: the day and half the speed bound the lower one, and what is not well above need is left alone")
{
    auto const long_day = pool_visit({.pump = "daily_run: 18 h, "}); // 18/24 is more than 4/6
    CHECK_THAT(value(long_day, "pump_lower_speed", "lower_hours_per_day"), WithinRel(24 * 3600, 1e-9));
    CHECK_THAT(value(long_day, "pump_lower_speed", "saved_share"), WithinRel(1 - std::pow(0.75, 1.6), 1e-9));
    auto const small = pool_visit({.volume = "4000 gal ± 100 gal"}); // needs far less than half
    CHECK_THAT(value(small, "pump_lower_speed", "saved_share"), WithinRel(1 - std::pow(0.5, 1.6), 1e-9));
    CHECK(figure(pool_visit({.volume = "21000 gal ± 500 gal"}), "pump_lower_speed") == nullptr); // 5.6 h already
    CHECK(figure(pool_visit({.pump = "daily_run: 24 h, "}), "pump_lower_speed") == nullptr);
}

TEST_CASE("loop energy: no saving where the speed is not known or water is lifted to a roof, and why is said")
{
    auto const unknown = pool_visit({.pump = "variable_speed: yes, daily_run: 8 h, "});
    CHECK(figure(unknown, "pump_lower_speed") == nullptr);
    CHECK(not_tested(unknown, "lower speed of pump of main", "speed was not recorded"));
    auto const roof = pool_visit({.pump = "daily_run: 8 h, ", .more = "    roof_height: 14 ft\n"});
    CHECK(figure(roof, "pump_lower_speed") == nullptr);
    CHECK(not_tested(roof, "lower speed of pump of main", "roof"));
}

TEST_CASE("loop energy: a pump's curve is put on the reference curves, a made-up one on C at 73.5 gpm by hand")
{
    // tests/reference/circulation/pool_pump_rule.csv, row 4: a made-up pump set equal to curve C by hand
    auto const a = assessed("loops:\n  main:\n    pump: {curve: [0 gpm at 80 ft, 55 gpm at 60 ft, 110 gpm at 0 ft]}\n");
    CHECK_THAT(value(a, "reference_system_curves", "flow_c") / gpm, WithinAbs(73.5, 0.05));
    CHECK(!assumed(a, "speed_ratio"));
    auto const short_curve =
        assessed("loops:\n  main:\n    pump: {curve: [0 gpm at 80 ft, 5 gpm at 79 ft, 10 gpm at 78 ft]}\n");
    CHECK(figure(short_curve, "reference_system_curves") == nullptr);
}
