// A gas heater's readings held against a sound one on a visit, and its heat balance. The readings come from the
// simulated heater with one thing wrong.
#include "assessed.hpp"
#include "catch_compat.hpp"
#include "padwalk/heating/fired_faults.hpp"
#include "padwalk/heating/heat.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

using namespace padwalk;
using heating::HeaterFaultKind;
using tests::assessed;
using tests::engine;

namespace
{

heating::FiredHeaterTable const& table()
{
    static auto const the_table = heating::fired_heater_table(engine().data());
    return the_table;
}

/// 400 kBtu/h at 82 %, 45 gpm, air and water at 70 and 80 degF: what the visit says too.
heating::FiredHeater sound_heater()
{
    heating::FiredHeater h;
    h.plate_input = units::of_si<units::Power>(400e3 * 0.29307107);
    h.plate_efficiency = units::of_si<units::Fraction>(0.82);
    h.air = units::of_si<units::Temperature>((70 + 459.67) / 1.8);
    h.inlet = units::of_si<units::Temperature>((80 + 459.67) / 1.8);
    h.flow = units::of_si<units::VolumeFlow>(45 * 6.30901964e-5);
    return h;
}

std::string number(double value)
{
    char text[40];
    std::snprintf(text, sizeof text, "%.6g", value);
    return text;
}

/// What instruments show of that heater.
struct Shown
{
    double rise, input, flue, oxygen, monoxide;
};

Shown shown(std::optional<HeaterFaultKind> fault, double severity)
{
    auto h = sound_heater();
    if (fault)
        h = heating::with_heater_fault(h, *fault, units::of_si<units::Fraction>(severity), table());
    auto const s = heating::fire(h, table());
    return {units::in_si(s.rise_shown) * 1.8, units::in_si(s.clocked) / 293.07107, units::in_si(s.flue) * 1.8 - 459.67,
            s.oxygen.value() * 100, s.monoxide.value() * 1e6};
}

std::string flue_of(Shown const& s)
{
    return "flue: {oxygen: " + number(s.oxygen) + " %, temperature: " + number(s.flue) +
           " degF, carbon_monoxide: " + number(s.monoxide) + " ppm}";
}

std::string heater_of(Shown const& s, std::string const& more)
{
    double const seconds = 3600 * 2 * 1030 / (s.input * 1000);
    return "loop: main, energy: natural_gas, stands: outdoors, input: 400 kBtu/h, efficiency: 82 %, fires: yes, "
           "inlet_temperature: 80 degF, outlet_temperature: " +
           number(80 + s.rise) + " degF, meter: {dial: 2 ft3, elapsed: " + number(seconds) +
           " s, heating_value: 1030 Btu/ft3}, vent: {kind: fan}" + (more.empty() ? "" : ", " + more);
}

std::string visit_of(std::string const& heater, std::string const& loop = "flow: 45 gpm ± 3 gpm")
{
    return "air_temperature: 70 degF\nwaters:\n  pool: {kind: pool}\nloops:\n  main: {serves: [pool], " + loop +
           "}\nheaters:\n  h: {" + heater + "}\n";
}

double likely(assess::Assessment const& a, std::string const& id)
{
    for (auto const& cause : a.causes)
        if (cause.id == id)
            return cause.probability;
    return 0;
}

assess::FindingEntryOf const* finding(assess::Assessment const& a, std::string const& id)
{
    for (auto const& f : a.findings)
        if (f.id == id && f.computed)
            return &f;
    return nullptr;
}

assess::ReadingAgainstSound const* reading(assess::Assessment const& a, std::string const& label)
{
    for (auto const& r : a.heaters.at(0).readings)
        if (r.label == label)
            return &r;
    return nullptr;
}

std::string strongest(assess::Assessment const& a)
{
    auto const best = std::max_element(a.causes.begin(), a.causes.end(),
                                       [](auto const& x, auto const& y) { return x.probability < y.probability; });
    return best == a.causes.end() ? std::string() : best->id;
}

} // namespace

TEST_CASE("heater readings: those of a sound heater name no cause, and its balance closes", "[assess]")
{
    auto const s = shown(std::nullopt, 0);
    auto const a = assessed(visit_of(heater_of(s, flue_of(s))));
    REQUIRE(a.heaters.size() == 1);
    for (auto const& r : a.heaters[0].readings)
    {
        INFO(r.label << " " << r.reading.value << " where " << r.expected.value);
        CHECK(std::abs(r.off) < 1);
        CHECK(r.expected.doubt > 0);
    }
    REQUIRE(finding(a, "heater_readings_depart"));
    CHECK(finding(a, "heater_readings_depart")->state != assess::FindingState::seen);
    for (auto const& cause : a.causes)
        CHECK(a.items[cause.item].kind != "heater");
    REQUIRE(a.heaters[0].balance);
    auto const& b = *a.heaters[0].balance;
    REQUIRE(b.apart);
    CHECK(std::abs(b.apart->value()) < units::coverage);
    CHECK(b.side == heating::BalanceSide::nothing);
    CHECK_FALSE(a.heaters[0].balance_words.empty());
    double const parts =
        units::in_si(*b.water) + units::in_si(*b.stack) + units::in_si(*b.jacket) + units::in_si(*b.unexplained);
    CHECK(std::abs(parts / units::in_si(*b.input) - 1) < 1e-9);
}

TEST_CASE("heater readings: a simulated fault raises the causes that it stands for above all others", "[assess]")
{
    struct Case
    {
        HeaterFaultKind fault;
        double severity;
        std::vector<std::string> causes;
    };
    for (auto const& c : {
             Case{HeaterFaultKind::scaled_exchanger, 0.9, {"heater_scaled", "heater_bypass_stuck", "heater_sooted"}},
             Case{HeaterFaultKind::sooted_exchanger, 0.9, {"heater_sooted"}},
             Case{HeaterFaultKind::gas_pressure_low, 0.8, {"heater_gas_pressure_low", "heater_wrong_gas_setup"}},
             Case{HeaterFaultKind::orifice_large, 0.9, {"heater_wrong_gas_setup"}},
             Case{HeaterFaultKind::vent_blocked,
                  0.9,
                  {"vent_blocked", "vent_air_short", "vent_fan_dead", "vent_end_smothered"}},
         })
    {
        auto const s = shown(c.fault, c.severity);
        auto const a = assessed(visit_of(heater_of(s, flue_of(s))));
        INFO(fields::words_of<HeaterFaultKind>::words()[static_cast<std::size_t>(c.fault)]
             << " rise " << s.rise << " input " << s.input << " flue " << s.flue << " oxygen " << s.oxygen << " CO "
             << s.monoxide << " strongest " << strongest(a) << " " << likely(a, strongest(a)));
        REQUIRE(finding(a, "heater_readings_depart"));
        CHECK(finding(a, "heater_readings_depart")->state != assess::FindingState::not_seen);
        CHECK(std::find(c.causes.begin(), c.causes.end(), strongest(a)) != c.causes.end());
        CHECK(likely(a, strongest(a)) > 0.3);
    }
}

TEST_CASE("heater readings: short of air and full of carbon monoxide is unsafe before all else", "[assess]")
{
    auto const s = shown(HeaterFaultKind::vent_blocked, 1.0);
    REQUIRE(s.monoxide > 1000);
    auto const a = assessed(visit_of(heater_of(s, flue_of(s))));
    CHECK(a.outcome == assess::Outcome::unsafe);
    REQUIRE_FALSE(a.alarms.empty());
    CHECK(a.findings[a.alarms[0].finding].id == "flue_co_high");
    REQUIRE_FALSE(a.referrals.empty());
    CHECK(a.referrals[0].trade == "combustion_technician");
}

TEST_CASE("heater readings: a rise that the loop's gauges were weighed with does not count again", "[assess]")
{
    auto const s = shown(std::nullopt, 0);
    auto const alone = assessed(visit_of(heater_of(s, flue_of(s))));
    // A flow meter alone is a reading of the loop too: the rise goes with it.
    REQUIRE(alone.loops.size() == 1);
    CHECK(reading(alone, "rise") == nullptr);
    auto const no_meter = assessed(visit_of(heater_of(s, flue_of(s)), "pump: {rated_power: 1.5 hp}"));
    bool const in_loop =
        !no_meter.loops.empty() && std::any_of(no_meter.loops[0].readings.begin(), no_meter.loops[0].readings.end(),
                                               [](auto const& r) { return r.label == "rise in the heater"; });
    CHECK((reading(no_meter, "rise") != nullptr) == !in_loop);
}

TEST_CASE("heater readings: of two heaters, those of one say nothing of the other", "[assess]")
{
    auto const bad = shown(HeaterFaultKind::scaled_exchanger, 1.0), good = shown(std::nullopt, 0);
    auto const a = assessed("air_temperature: 70 degF\nwaters:\n  pool: {kind: pool}\nloops:\n  main: {serves: [pool], "
                            "flow: 45 gpm ± 3 gpm}\nheaters:\n  first: {" +
                            heater_of(bad, flue_of(bad)) + "}\n  second: {" + heater_of(good, flue_of(good)) + "}\n");
    REQUIRE(a.heaters.size() == 2);
    for (auto const& cause : a.causes)
    {
        INFO(cause.id << " of " << a.items[cause.item].name << " " << cause.probability);
        CHECK(a.items[cause.item].name != "second");
    }
    CHECK(likely(a, "heater_scaled") > 0.3);
}

TEST_CASE("heater readings: water side and gas side of a balance that does not close", "[assess]")
{
    auto const s = shown(std::nullopt, 0);
    SECTION("the water shows far less than the gas gives: flow or thermometers")
    {
        auto less = s;
        less.rise *= 0.6;
        auto const a = assessed(visit_of(heater_of(less, flue_of(s))));
        REQUIRE(a.heaters.at(0).balance);
        CHECK(a.heaters[0].balance->side == heating::BalanceSide::flow_or_thermometers);
        CHECK(a.heaters[0].balance->unexplained->value() > 0);
    }
    SECTION("half the gas and half the rise: it closes, and the gas is short")
    {
        auto const half = shown(HeaterFaultKind::gas_pressure_low, 1.0);
        auto const a = assessed(visit_of(heater_of(half, flue_of(half))));
        REQUIRE(a.heaters.at(0).balance);
        CHECK(std::abs(a.heaters[0].balance->apart->value()) < units::coverage);
        CHECK(a.heaters[0].balance->side == heating::BalanceSide::gas);
    }
    SECTION("more heat in the water than in the gas: a reading is wrong, and the rise is not used further")
    {
        auto more = s;
        more.rise *= 1.6;
        auto const a = assessed(visit_of(heater_of(more, flue_of(s))));
        REQUIRE_FALSE(a.heaters.empty());
        CHECK(reading(a, "rise") == nullptr);
        CHECK_FALSE(a.questions.empty());
    }
}

TEST_CASE("heater readings: what can't be used is said, and loses nothing", "[assess]")
{
    auto const s = shown(std::nullopt, 0);
    auto const not_tested = [](assess::Assessment const& a, std::string const& what)
    {
        return std::any_of(a.not_tested.begin(), a.not_tested.end(),
                           [&](auto const& n) { return n.what.find(what) != std::string::npos; });
    };
    SECTION("a flue colder than the air")
    {
        auto const a =
            assessed(visit_of(heater_of(s, "flue: {oxygen: 6 %, temperature: 60 degF, carbon_monoxide: 20 ppm}")));
        CHECK(not_tested(a, "heat balance"));
        CHECK_FALSE(a.readings.empty());
    }
    SECTION("a flue full of air")
    {
        auto const a = assessed(visit_of(heater_of(s, "flue: {oxygen: 20.9 %, temperature: 350 degF}")));
        CHECK(std::any_of(a.questions.begin(), a.questions.end(),
                          [](auto const& q) { return q.why.find("thinned with air") != std::string::npos; }));
        CHECK(reading(a, "oxygen in the flue") == nullptr);
    }
    SECTION("a plate that would have to condense")
    {
        std::string heater = heater_of(s, flue_of(s));
        heater.replace(heater.find("82 %"), 4, "97 %");
        auto const a = assessed(visit_of(heater));
        CHECK(not_tested(a, "readings against a sound heater"));
    }
    SECTION("it does not fire: there is no balance")
    {
        std::string heater = heater_of(s, flue_of(s));
        heater.replace(heater.find("fires: yes"), 10, "fires: no");
        CHECK(assessed(visit_of(heater)).heaters.empty());
    }
    SECTION("one reading alone is told by its own limit")
    {
        auto const a = assessed(visit_of(
            "loop: main, energy: natural_gas, input: 400 kBtu/h, flue: {carbon_monoxide: 30 ppm, oxygen: 6 %}"));
        CHECK((a.heaters.empty() || a.heaters[0].readings.size() != 1));
    }
}

TEST_CASE("heater readings: carbon dioxide serves where oxygen was not read", "[assess]")
{
    auto const s = shown(std::nullopt, 0);
    auto const a = assessed(visit_of(heater_of(s, "flue: {carbon_dioxide: 8.8 %, temperature: " + number(s.flue) +
                                                      " degF, carbon_monoxide: 25 ppm}")));
    REQUIRE(a.heaters.size() == 1);
    CHECK(reading(a, "carbon dioxide in the flue") != nullptr);
    CHECK(reading(a, "oxygen in the flue") == nullptr);
    CHECK(a.heaters[0].balance->stack);
    auto const both = assessed(
        visit_of(heater_of(s, "flue: {carbon_dioxide: 8.8 %, oxygen: 5 %, temperature: " + number(s.flue) + " degF}")));
    CHECK(reading(both, "carbon dioxide in the flue") == nullptr);
    CHECK(reading(both, "oxygen in the flue") != nullptr);
}
