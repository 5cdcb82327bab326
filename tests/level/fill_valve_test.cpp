#include "catch_compat.hpp"

#include "csv.hpp"
#include "run_model.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/level/balance_table.hpp"
#include "padwalk/level/fill_faults.hpp"
#include "padwalk/level/orifice.hpp"
#include "padwalk/units/definitions.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

using namespace padwalk;
using namespace padwalk::level_tests;
using namespace padwalk::units::exact;
using namespace padwalk::level;

namespace
{

constexpr double inch_a_day = inch / day, gpm = us_gallon / minute;

FillValveTable const& table()
{
    static FillValveTable const t = fill_valve_table(data());
    return t;
}

/// 3 gpm on 400 ft2 against a quarter of an inch a day.
FillValve valve(FillKind kind = FillKind::float_valve)
{
    FillValve v;
    v.kind = kind;
    v.flow = units::of_si<units::VolumeFlow>(3 * gpm);
    v.travel = kind == FillKind::float_valve ? table().float_travel.value : table().sensor_band.value;
    v.overflow = table().overflow.value;
    v.area = units::of_si<units::Area>(400 * square_foot);
    v.loss = units::of_si<units::Velocity>(0.25 * inch_a_day);
    v.supply = units::of_si<units::GaugePressure>(60 * psi);
    v.line_length = table().line_length.value;
    v.line_bore = table().line_bore.value;
    v.wave = units::of_si<units::Velocity>(600);
    v.closing = kind == FillKind::float_valve ? table().float_closing.value : table().sensor_closing.value;
    return v;
}

double inches(units::Length l)
{
    return units::in_si(l) / inch;
}

} // namespace

TEST_CASE("fill valve: 3 gpm is 4320 gallons a day, 17 inches on 400 square feet, leak_facts.csv")
{
    auto const value = [](std::string const& statement)
    {
        for (auto const& row : tests::reference_csv("level/leak_facts.csv"))
            if (row.text("statement") == statement)
                return row.number("value");
        throw std::runtime_error("no row '" + statement + "'");
    };
    FillValve v = valve();
    v.loss = units::of_si<units::Velocity>(100 * inch_a_day); // more than it can make up: it runs all day
    auto const rest = fill_at_rest(v, table());
    CHECK(std::abs(units::in_si(rest.day) / us_gallon - value("3 gpm covers")) <= 0.5);
    double const level = units::in_si(rest.day) / units::in_si(v.area) / inch;
    CHECK(std::abs(level - value("3 gpm covers on 400 ft2")) <= 0.5);
    CHECK(!rest.holds);
    CHECK(std::abs(units::in_si(rest.falls) / inch_a_day - (100 - level)) <= 1e-9);
    CHECK(std::abs(value("gallons per inch per ft2") - inch * square_foot / us_gallon) <= 5e-5);
    CHECK(std::abs(value("1/4 in on 400 ft2") - 0.25 * inch * 400 * square_foot / us_gallon) <= 0.5);
    // 6 gpm, the most of small float valves in the trade's data, is what an open fill of unknown flow is taken for.
    CHECK(std::abs(balance_facts(data()).table.most_fill.si() / gpm - value("typical small float valve at most")) <=
          1e-9);
}

TEST_CASE("fill valve: a float rests below its set level by its share of the loss, and hides all but that")
{
    double const q = 3 * gpm / (400 * square_foot) / inch_a_day; // 17.3 in/day
    double last = -1;
    for (double const loss : {0.0, 0.25, 2.0, 10.0})
    {
        FillValve v = valve();
        v.loss = units::of_si<units::Velocity>(loss * inch_a_day);
        auto const rest = fill_at_rest(v, table());
        if (loss > 0)
            CHECK(std::abs(inches(rest.below) - loss / q) <= 1e-9); // travel is one inch
        CHECK(std::abs(units::in_si(rest.day) / us_gallon - loss * 249.35) <= 0.01 * loss);
        CHECK(rest.holds);
        CHECK(rest.run.value() > last);
        last = rest.run.value();
    }
    // A leak of an inch a day moves the level by a sixteenth of an inch: no mark tells it.
    CHECK(1 / q < 1.0 / 16);
}

TEST_CASE("fill valve: time to make up, against steps of a second")
{
    for (auto const kind : {FillKind::float_valve, FillKind::level_sensor})
    {
        FillValve const v = valve(kind);
        double const q = units::in_si(v.flow) / units::in_si(v.area), loss = units::in_si(v.loss);
        double const travel = units::in_si(v.travel), near = inch / 8;
        double const rest = kind == FillKind::float_valve ? travel * loss / q : 0;
        double below = 3 * inch, seconds = 0;
        while (kind == FillKind::float_valve ? below - rest > near : below > 0)
        {
            below -= kind == FillKind::float_valve ? q * std::min(1.0, below / travel) - loss : q - loss;
            ++seconds;
        }
        auto const time = time_to_make_up(v, units::of_si<units::Length>(3 * inch), units::of_si<units::Length>(near));
        REQUIRE(time);
        CHECK(std::abs(units::in_si(*time) / seconds - 1) <= 1e-3);
    }
    FillValve weak = valve();
    weak.flow = weak.flow * 0.01;
    CHECK(!time_to_make_up(weak, units::of_si<units::Length>(inch), units::of_si<units::Length>(inch / 8)));
}

TEST_CASE("fill valve: a sensor's runs, against a level stepped through a week")
{
    FillValve const v = valve(FillKind::level_sensor);
    double const q = units::in_si(v.flow) / units::in_si(v.area), loss = units::in_si(v.loss);
    double below = 0, in = 0, sum = 0;
    int starts = 0;
    bool open = false;
    constexpr int weeks = 20, step = 10;
    for (int t = 0; t < weeks * 7 * 86400; t += step)
    {
        if (!open && below >= units::in_si(v.travel))
        {
            open = true;
            ++starts;
        }
        if (open && below <= 0)
            open = false;
        below += (loss - (open ? q : 0)) * step;
        in += open ? q * step : 0;
        sum += below * step;
    }
    auto const rest = fill_at_rest(v, table());
    double const days = weeks * 7;
    CHECK(std::abs(rest.starts.value() * days - starts) <= 1.5);
    CHECK(std::abs(units::in_si(rest.day) * days / units::in_si(v.area) / in - 1) <= 0.02);
    CHECK(std::abs(inches(rest.below) - sum / (days * day) / inch) <= 0.01);
}

TEST_CASE("fill valve: seat and line in a row, by the orifice law")
{
    auto const flow = [](double v) { return units::of_si<units::VolumeFlow>(v); };
    CHECK(wide_open_flow(flow(3e-4), std::nullopt) == flow(3e-4));
    // The pressure is spent on both: p = a Q², so two alike pass 1/sqrt 2 of one.
    CHECK(std::abs(units::in_si(wide_open_flow(flow(3e-4), flow(3e-4))) - 3e-4 / std::sqrt(2.0)) <= 1e-12);
    CHECK(std::abs(units::in_si(wide_open_flow(flow(3e-4), flow(4e-4))) - 2.4e-4) <= 1e-12);
}

TEST_CASE("water hammer: Joukowsky and Korteweg by hand, stiff pipe at the speed of sound (from memory of textbooks)")
{
    auto const density = units::of_si<units::Density>(998.2);
    auto const pascal = [](double p) { return units::of_si<units::Pressure>(p); };
    auto const length = [](double l) { return units::of_si<units::Length>(l); };
    // In a wall that can't give way the wave is sound in water: 1482 m/s at 20 degC.
    auto const sound = wave_speed(length(0.02), length(0.01), pascal(1e18), pascal(2.19e9), density);
    CHECK(std::abs(units::in_si(sound) - 1482) <= 2);
    // PVC of 3 GPa, bore nine walls: 1481/sqrt(1 + 0.73·9) = 538 m/s
    auto const plastic = wave_speed(length(0.018), length(0.002), pascal(3e9), pascal(2.19e9), density);
    CHECK(std::abs(units::in_si(plastic) - 538.5) <= 1);
    // 1000 kg/m3 · 1200 m/s · 1 m/s = 12 bar; closing in three times there and back: a third
    auto const at = [&](double closing)
    {
        return water_hammer(units::of_si<units::Velocity>(1), units::of_si<units::Velocity>(1200), length(30),
                            units::of_si<units::Duration>(closing), units::of_si<units::Density>(1000));
    };
    CHECK(std::abs(units::in_si(at(0).rise) - 1.2e6) <= 1e-6);
    CHECK(std::abs(units::in_si(at(0).there_and_back) - 0.05) <= 1e-12);
    CHECK(std::abs(units::in_si(at(0.15).rise) - 0.4e6) <= 1e-3);
    CHECK(units::in_si(at(0.04).rise) == units::in_si(at(0).rise));
}

TEST_CASE("fill faults: the signature of each, in numbers")
{
    std::printf("%-26s %9s %9s %7s %7s %9s %9s %9s\n", "at half severity", "below in", "gal/day", "run %", "starts",
                "down gpm", "up gpm", "peak psi");
    for (auto const kind : {FillKind::float_valve, FillKind::level_sensor})
    {
        auto const print = [](std::string const& name, FillAtRest const& r)
        {
            std::printf("%-26s %9.2f %9.0f %7.1f %7.2f %9.3f %9.3f %9.0f\n", name.c_str(), inches(r.below),
                        units::in_si(r.day) / us_gallon, 100 * r.run.value(), r.starts.value(),
                        units::in_si(r.held_down) / gpm, units::in_si(r.held_up) / gpm, units::in_si(r.peak) / psi);
        };
        print("sound", fill_at_rest(valve(kind), table()));
        for (auto const& rule : table().faults)
            print(rule.name,
                  fill_at_rest(with_fill_fault(valve(kind), rule.fault, units::Fraction::from_value(0.5), table()),
                               table()));
        auto const faulty = [&](FillFaultKind fault, double severity = 1) {
            return fill_at_rest(with_fill_fault(valve(kind), fault, units::Fraction::from_value(severity), table()),
                                table());
        };
        auto const sound = fill_at_rest(valve(kind), table());
        CHECK(std::abs(inches(faulty(FillFaultKind::dead).below) - 21 * 0.25) <= 1e-9);
        CHECK(units::in_si(faulty(FillFaultKind::dead).day) == 0);
        CHECK(!faulty(FillFaultKind::weak).holds);
        CHECK(faulty(FillFaultKind::weak, 0).holds);
        CHECK(std::abs(units::in_si(faulty(FillFaultKind::stuck_open).day) / us_gallon - 4320) <= 0.5);
        CHECK(std::abs(inches(faulty(FillFaultKind::stuck_open).below) + 2) <= 1e-9); // at the overflow
        CHECK(inches(faulty(FillFaultKind::set_too_high, 0).below) < inches(sound.below) - 0.9);
        CHECK(faulty(FillFaultKind::set_too_high, 0).day == sound.day);    // too high, and no more water for it
        CHECK(faulty(FillFaultKind::set_too_high).day > 10.0 * sound.day); // above the overflow it runs off all day
        CHECK(faulty(FillFaultKind::hammering).peak > sound.peak);
        CHECK(faulty(FillFaultKind::hammering).day == sound.day);
        CHECK(faulty(FillFaultKind::leaking_through, 0).day ==
              sound.day); // less than evaporates: it shows only held up
        CHECK(faulty(FillFaultKind::leaking_through, 0).held_up > sound.held_up);
        CHECK(faulty(FillFaultKind::leaking_through).day > 3.0 * sound.day);
        CHECK(faulty(FillFaultKind::hides_leak).holds);
        CHECK(inches(faulty(FillFaultKind::hides_leak).below) - inches(sound.below) < 0.3); // the level doesn't show it
        CHECK(faulty(FillFaultKind::hides_leak).day > 15.0 * sound.day);
    }
}

namespace
{

FillRead reading(FillGauge gauge, units::Measure measure, double value, double doubt)
{
    units::Reading r;
    r.measure = measure;
    r.value = value;
    r.doubt = doubt;
    return {gauge, r};
}

std::vector<FillRead> readings(double level_in, double gallons, double down_gpm, double up_gpm)
{
    return {reading(FillGauge::level, units::Measure::length, level_in * inch, inch / 8),
            reading(FillGauge::day_volume, units::Measure::volume, gallons * us_gallon, 5 * us_gallon),
            reading(FillGauge::flow_held_down, units::Measure::volume_flow, down_gpm * gpm, 0.1 * gpm),
            reading(FillGauge::flow_held_up, units::Measure::volume_flow, up_gpm * gpm, 0.005 * gpm)};
}

std::vector<FillOdds> odds(std::vector<FillRead> read)
{
    FillValveAsKnown known{valve(), units::of_si<units::Velocity>(0.07 * inch_a_day)};
    return FillComparison(known, std::move(read), table()).odds();
}

std::optional<FillFaultKind> likeliest(std::vector<FillOdds> const& odds)
{
    return std::max_element(odds.begin(), odds.end(), [](auto const& a, auto const& b) { return a.chance < b.chance; })
        ->fault;
}

} // namespace

TEST_CASE("fill faults: readings name the fault that made them")
{
    CHECK(likeliest(odds(readings(0, 62, 3, 0))) == std::nullopt);
    CHECK(likeliest(odds(readings(2, 0, 0, 0))) == FillFaultKind::dead);
    CHECK(likeliest(odds(readings(0.4, 60, 0.3, 0))) == FillFaultKind::weak);
    CHECK(likeliest(odds(readings(-2, 2200, 3, 1.5))) == FillFaultKind::stuck_open);
    CHECK(likeliest(odds(readings(-1.9, 62, 3, 0))) == FillFaultKind::set_too_high);
    CHECK(likeliest(odds(readings(0, 62, 3, 0.02))) == FillFaultKind::leaking_through);
    CHECK(likeliest(odds(readings(0.1, 400, 3, 0))) == FillFaultKind::hides_leak);
    auto blow = readings(0, 62, 3, 0);
    blow.push_back(reading(FillGauge::peak_pressure, units::Measure::gauge_pressure, 110 * psi, 3 * psi));
    CHECK(likeliest(odds(blow)) == FillFaultKind::hammering);
    double sum = 0;
    for (auto const& o : odds(blow))
        sum += o.chance.value();
    CHECK(std::abs(sum - 1) <= 1e-9);
}

TEST_CASE("fill faults: without a meter a sound valve and one that hides a leak can't be told apart")
{
    std::vector<FillRead> const level{reading(FillGauge::level, units::Measure::length, 0.02 * inch, inch / 8)};
    for (auto const& o : odds(level))
        if (o.fault == FillFaultKind::hides_leak)
            CHECK(std::abs(o.log_ratio) < 0.2);
    auto with_meter = level;
    with_meter.push_back(reading(FillGauge::day_volume, units::Measure::volume, 62 * us_gallon, 5 * us_gallon));
    for (auto const& o : odds(with_meter))
        if (o.fault == FillFaultKind::hides_leak)
            CHECK(o.log_ratio < -0.3);
}

TEST_CASE("fill faults: what fits nothing is told by the likelihood of anything")
{
    FillValveAsKnown const known{valve(), units::of_si<units::Velocity>(0.07 * inch_a_day)};
    FillComparison const odd(known, readings(-3, 0, 0, 0.4), table()); // overflows, and nothing comes in
    double best = odd.sound().log_likelihood;
    for (auto const& rule : table().faults)
        best = std::max(best, odd.with(rule.fault).log_likelihood);
    CHECK(odd.log_likelihood_of_anything() > best);
    FillComparison const usual(known, readings(0, 62, 3, 0), table());
    CHECK(usual.log_likelihood_of_anything() < usual.sound().log_likelihood);
    CHECK(usual.sound().chi_squared < 4);
}

TEST_CASE("fill valve: refusals")
{
    FillValve v = valve();
    v.flow = {};
    CHECK_THROWS_AS(fill_at_rest(v, table()), figures::NotComputed);
    v.dead_for = units::of_si<units::Duration>(day);
    CHECK_NOTHROW(fill_at_rest(v, table()));
    v.area = {};
    CHECK_THROWS_AS(fill_at_rest(v, table()), figures::NotComputed);
    CHECK_THROWS_AS(with_fill_fault(valve(), FillFaultKind::weak, units::Fraction::from_value(1.2), table()),
                    figures::NotComputed);
}
