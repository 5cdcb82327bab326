// From what a water is to what is wanted of it: losses, time, cost and curve, on a visit.
#include "assessed.hpp"
#include "catch_compat.hpp"

#include "padwalk/heating/fuel_price.hpp"
#include "padwalk/heating/heat_loss.hpp"

#include <algorithm>
#include <cmath>

using namespace padwalk;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using tests::assessed;

namespace
{

/// A spa under an element of 5.5 kW on a mild evening, but for what is added to the visit, to the water, to the heater.
assess::Assessment spa(std::string const& water, std::string const& more = {},
                       std::string const& air = "air_temperature: 60 degF\nhumidity: 50 %\nwind: 1 mph\n",
                       std::string const& heater = "energy: electric_element, input: 5.5 kW")
{
    return assessed(air + more + "waters:\n  spa: {kind: spa, volume: 400 gal, temperature: 80 degF" + water +
                    "}\nloops:\n  l: {serves: [spa]}\nheaters:\n  h: {loop: l, " + heater + "}\n");
}

assess::WarmingEntry const& only(assess::Assessment const& a)
{
    REQUIRE(a.warmings.size() == 1);
    return a.warmings.front();
}

double hours(assess::WarmingEntry const& w)
{
    return w.as_found.time.value().value.value() / 3600;
}

figures::Figure const* figure(assess::Assessment const& a, std::string const& model)
{
    for (auto const& entry : a.figures)
        if (entry.figure.model->name == model)
            return &entry.figure;
    return nullptr;
}

std::optional<double> cannot_reach(assess::Assessment const& a)
{
    for (auto const& finding : a.findings)
        if (finding.id == "heater_cannot_reach")
            return finding.probability;
    return std::nullopt;
}

bool says(std::vector<std::string> const& sentences, std::string const& part)
{
    return std::any_of(sentences.begin(), sentences.end(),
                       [&](std::string const& s) { return s.find(part) != std::string::npos; });
}

double fahrenheit(units::Temperature t)
{
    return units::in_si(t) * 1.8 - 459.67;
}

} // namespace

TEST_CASE("warming: a heater that was found to give less is taken as found, and that is said", "[assess]")
{
    auto const with_rise = [](std::string const& outlet)
    {
        return tests::assessed("waters:\n  pool: {kind: pool, volume: 15000 gal, temperature: 74 degF, "
                               "wanted_temperature: 82 degF}\nloops:\n  main: {serves: [pool], flow: 50 gpm ± 2 gpm}\n"
                               "heaters:\n  h: {loop: main, energy: natural_gas, input: 250 kBtu/h, efficiency: 82 %, "
                               "fires: yes, inlet_temperature: 74 degF, outlet_temperature: " +
                               outlet + " degF}\n");
    };
    auto const time = [](assess::Assessment const& a) { return *a.warmings.at(0).as_found.time->value; };
    auto const sound = with_rise("82.2"), weak = with_rise("79.2");
    // 15,000 gal by 8 degF at 250 kBtu/h: the time goes as one over what the water gets.
    CHECK(std::abs(time(weak) / time(sound) - 0.82 / (0.82 * 5.2 / 8.2)) < 0.05);
    auto const said = [](assess::Assessment const& a)
    {
        auto const& basis = a.warmings.at(0).basis;
        return std::any_of(basis.begin(), basis.end(),
                           [](auto const& text) { return text.find("as found") != std::string::npos; });
    };
    CHECK(said(weak));
    CHECK_FALSE(said(sound));
}

TEST_CASE("warming: an uncovered spa takes longer than a covered one, and each tells of the other", "[assess][warming]")
{
    auto const open = spa(", area: 40 ft2, covered: no"), covered = spa(", area: 40 ft2, covered: yes");
    CHECK(hours(only(open)) > 1.05 * hours(only(covered)));
    CHECK(only(open).as_found.loss->value.value() > 3 * only(covered).as_found.loss->value.value());
    REQUIRE(only(open).other_cover);
    REQUIRE(only(covered).other_cover);
    CHECK_THAT(only(open).other_cover->time->value.value(),
               WithinRel(only(covered).as_found.time->value.value(), 1e-9));
    CHECK_THAT(only(covered).other_cover->time->value.value(),
               WithinRel(only(open).as_found.time->value.value(), 1e-9));
    // A better cover loses less; wind takes more from open water.
    auto const loss = [](assess::Assessment const& a) { return only(a).as_found.loss->value.value(); };
    CHECK(loss(spa(", area: 40 ft2, covered: yes, cover_r: 14")) <
          loss(spa(", area: 40 ft2, covered: yes, cover_r: 2")));
    CHECK(loss(spa(", area: 40 ft2, covered: no", {}, "air_temperature: 60 degF\nhumidity: 50 %\nwind: 4 mph\n")) >
          1.3 * loss(open));
    CHECK(loss(spa(", area: 40 ft2, covered: no, care: {surface: jets}")) > 1.1 * loss(open));
    CHECK(loss(spa(", area: 40 ft2, covered: no, walls: bare")) > 1.05 * loss(open));
    CHECK(loss(spa(", area: 40 ft2, covered: no", "cloud: 0 %\n")) >
          loss(spa(", area: 40 ft2, covered: no", "cloud: 100 %\n")));
}

TEST_CASE("warming: without losses the time is V rho c dT over P eff, and is said to be the shortest",
          "[assess][warming]")
{
    // 400 gal = 1.514165 m3 at 92 °F: 995.0 kg/m3 and 4.178 kJ/(kg K) (steam tables, 33.3 °C); 24 °F = 13.333 K.
    auto const a = spa("", {}, "");
    auto const& w = only(a);
    double const heat = 1.514165 * 995.0 * 4178 * 13.3333;
    CHECK_THAT(hours(w), WithinRel(heat / (5500 * 1.0) / 3600, 2e-3));
    CHECK(w.shortest);
    CHECK(w.words.find("shortest") != std::string::npos);
    CHECK(says(w.basis, "not recorded: the water's surface, the air's temperature, its humidity"));
    CHECK_FALSE(w.as_found.loss);
    CHECK_FALSE(w.other_cover);
    CHECK_FALSE(cannot_reach(a));
    // The curve is then a straight line.
    auto const& middle = w.likely.at(w.likely.size() / 2);
    CHECK_THAT(units::in_si(middle.time), WithinRel(units::in_si(w.likely.back().time) / 2, 1e-9));
}

TEST_CASE("warming: the curve is the figure's own run, between a fast and a slow one", "[assess][warming]")
{
    // Strong enough to get there whatever the weather: the figure's interval knows only runs that do.
    auto const a =
        spa(", area: 40 ft2, covered: no, walls: insulated_cabinet", "altitude: 3000 ft\ncloud: 20 %\n",
            "air_temperature: 60 degF\nhumidity: 50 %\nwind: 1 mph\n", "energy: electric_element, input: 11 kW");
    auto const& w = only(a);
    REQUIRE(w.stops_short < 0.001);
    auto const* f = figure(a, "heat_up");
    REQUIRE(f != nullptr);
    auto const& time = f->output("time");
    REQUIRE(w.likely.size() > 4);
    CHECK_THAT(units::in_si(w.likely.back().time), WithinRel(time.value.value(), 1e-6));
    CHECK_THAT(units::in_si(w.likely.at(w.likely.size() / 2).time),
               WithinRel(f->output("half_time").value.value(), 1e-3));
    CHECK(w.likely.front().water == w.from);
    REQUIRE_FALSE(w.fast.empty());
    REQUIRE_FALSE(w.slow.empty());
    CHECK(w.fast.back().time < w.likely.back().time);
    CHECK(w.slow.back().time > w.likely.back().time);
    // Both ends lie where the figure's own interval has them, by another way: 255 points of all doubts.
    CHECK_THAT(units::in_si(w.fast.back().time), WithinRel(time.low, 0.08));
    CHECK_THAT(units::in_si(w.slow.back().time), WithinRel(time.high, 0.08));
}

TEST_CASE("warming: where it stops short it says where, closes the balance there and costs nothing",
          "[assess][warming]")
{
    auto const a = spa(", area: 40 ft2, covered: no", "electricity_price: 0.2\n",
                       "air_temperature: 40 degF\nhumidity: 40 %\nwind: 8 mph\n");
    auto const& w = only(a);
    REQUIRE(w.stops_at);
    CHECK(*w.stops_at < w.to);
    CHECK(w.words.find("never gets to 104") != std::string::npos);
    CHECK_FALSE(w.as_found.time);
    CHECK_FALSE(w.as_found.cost);
    CHECK_FALSE(w.as_found.month_cost); // it can't be held
    CHECK(w.other_cover->time);
    CHECK(w.other_cover->month_cost);
    CHECK(cannot_reach(a).value() > 0.75);
    CHECK(w.likely.back().water < w.to);
    // With that temperature wanted, the loss is what the heater gives.
    std::string const there = std::to_string(fahrenheit(*w.stops_at)) + " degF";
    auto const b = spa(", area: 40 ft2, covered: no, wanted_temperature: " + there, {},
                       "air_temperature: 40 degF\nhumidity: 40 %\nwind: 8 mph\n");
    auto const* loss = figure(b, "spa_heat_loss");
    REQUIRE(loss != nullptr);
    double const given = 5500 * figure(a, "heat_up")->inputs.at(4).reading.value;
    CHECK_THAT(loss->output("total").value.value(), WithinRel(given, 1e-4));
    // The causes it speaks for are named.
    CHECK(std::any_of(a.causes.begin(), a.causes.end(), [](auto const& c) { return c.id == "heater_undersized"; }));
}

TEST_CASE("warming: of a water that a cover may save nothing is concluded", "[assess][warming]")
{
    std::string const air = "air_temperature: 40 degF\nhumidity: 40 %\nwind: 8 mph\n";
    auto const unsaid = spa(", area: 40 ft2", {}, air);
    CHECK(only(unsaid).stops_at);
    CHECK_FALSE(cannot_reach(unsaid));
    CHECK(says(only(unsaid).basis, "Whether it is covered was not said"));
    CHECK(cannot_reach(spa(", area: 40 ft2, covered: no")).value() < 0.25);
    CHECK(cannot_reach(spa(", area: 40 ft2, covered: yes", {}, air)).value() < 0.25);
    // A pool that nobody wants warm is not too much for its heater.
    auto const pool = [&](std::string const& wanted)
    {
        return assessed("air_temperature: 30 degF\nhumidity: 40 %\nwind: 6 mph\nwaters:\n  pool: {kind: pool, volume: "
                        "20000 gal, area: 500 ft2, temperature: 50 degF, covered: no" +
                        wanted +
                        "}\nloops:\n  l: {serves: [pool]}\nheaters:\n  h: {loop: l, energy: natural_gas, "
                        "input: 100 kBtu/h}\n");
    };
    CHECK_FALSE(cannot_reach(pool("")));
    CHECK(cannot_reach(pool(", wanted_temperature: 84 degF")).value() > 0.75);
    // A burner that runs at a tenth of its plate is no small heater.
    auto const clocked =
        spa(", area: 40 ft2, covered: no", {}, air,
            "energy: natural_gas, input: 400 kBtu/h, efficiency: 80 %, meter: {dial: 1 ft3, elapsed: 180 s, "
            "heating_value: 1030 Btu/ft3}");
    CHECK(cannot_reach(clocked).value() < 0.25);
}

TEST_CASE("warming: near the edge the chance of stopping is said", "[assess][warming]")
{
    auto const a = spa(", area: 40 ft2, covered: no", {}, "air_temperature: 50 degF\nhumidity: 45 %\nwind: 3 mph\n",
                       "energy: electric_element, input: 5.5 kW");
    auto const& w = only(a);
    INFO(w.stops_short << " " << w.words);
    CHECK(w.stops_short > 0.025);
    CHECK(w.stops_short < 0.975);
    CHECK((w.stops_at || w.words.find("of 100 cases") != std::string::npos));
    CHECK(only(spa(", area: 40 ft2, covered: yes")).stops_short < 0.025);
}

TEST_CASE("warming: a cost only where a price of its own fuel was given", "[assess][warming]")
{
    std::string const water = ", area: 40 ft2, covered: yes";
    auto const none = spa(water);
    CHECK_FALSE(only(none).as_found.cost);
    CHECK_FALSE(only(none).as_found.month_cost);
    CHECK(only(none).as_found.month_energy);
    CHECK(figure(none, "heating_cost") == nullptr);
    CHECK(says(only(none).basis, "the price of its electricity was not"));

    auto const priced = spa(water, "electricity_price: 0.20\n");
    auto const& w = only(priced);
    REQUIRE(w.as_found.cost);
    CHECK_THAT(w.as_found.cost->value.value(), WithinRel(0.20 * w.as_found.energy->value.value() / 3.6e6, 1e-9));
    REQUIRE(w.as_found.month_cost);
    double const month = w.as_found.loss->value.value() * 365.25 / 12 * 86400;
    CHECK_THAT(w.as_found.month_cost->value.value(), WithinRel(0.20 * month / 3.6e6, 0.02)); // the element's own share

    // Gas by the therm where nothing else was said, by the kWh where it was; propane by the gallon.
    std::string const gas = "energy: natural_gas, input: 100 kBtu/h, efficiency: 80 %";
    std::string const air = "air_temperature: 60 degF\nhumidity: 50 %\nwind: 1 mph\n";
    auto const therm = spa(water, "gas_price: 1.50\n", air, gas);
    CHECK_THAT(only(therm).as_found.cost->value.value(),
               WithinRel(1.50 * only(therm).as_found.energy->value.value() / 105.5e6, 1e-3));
    CHECK(says(only(therm).basis, "as that of a therm"));
    auto const kwh = spa(water, "gas_price: 0.05\ngas_price_per: kWh\n", air, gas);
    CHECK_THAT(only(kwh).as_found.cost->value.value(),
               WithinRel(0.05 * only(kwh).as_found.energy->value.value() / 3.6e6, 1e-9));
    auto const propane = spa(water, "propane_price: 3\n", air, "energy: propane, input: 100 kBtu/h, efficiency: 80 %");
    CHECK_THAT(only(propane).as_found.cost->value.value(),
               WithinRel(3 * only(propane).as_found.energy->value.value() / (91500 * 1055.06), 1e-3));
    // The price of another fuel is compared with, but is not what this heater costs.
    auto const other = spa(water, "gas_price: 1.50\n");
    CHECK_FALSE(only(other).as_found.cost);
    CHECK_FALSE(only(other).as_found.month_cost);
    CHECK(figure(other, "heating_cost") != nullptr);
}

TEST_CASE("warming: a spa is warmed to the hottest that is safe at most, a pool to what is usual", "[assess][warming]")
{
    CHECK_THAT(fahrenheit(only(spa(", area: 40 ft2")).to), WithinAbs(104, 1e-6));
    CHECK_THAT(fahrenheit(only(spa(", area: 40 ft2, wanted_temperature: 99 degF")).to), WithinAbs(99, 1e-6));
    auto const hot = spa(", area: 40 ft2, wanted_temperature: 110 degF");
    CHECK_THAT(fahrenheit(only(hot).to), WithinAbs(104, 1e-6));
    CHECK(says(only(hot).basis, "nobody goes in hotter water"));
    auto const pool = assessed("waters:\n  pool: {kind: pool, volume: 15000 gal, temperature: 65 degF}\nloops:\n  l: "
                               "{serves: [pool]}\nheaters:\n  h: {loop: l, energy: natural_gas, input: 250 kBtu/h}\n");
    CHECK_THAT(fahrenheit(only(pool).to), WithinAbs(82, 1e-6));
    CHECK(says(only(pool).basis, "what its users want was not said"));
    // Water that is warm already has no heat-up, but a month of it may still be worth its cost.
    auto const warm = spa(", area: 40 ft2, covered: yes, wanted_temperature: 75 degF", "electricity_price: 0.2\n");
    CHECK(only(warm).likely.empty());
    CHECK_FALSE(only(warm).as_found.time);
    CHECK(only(warm).as_found.month_cost);
    CHECK(spa(", area: 40 ft2, covered: yes, wanted_temperature: 75 degF").warmings.empty());
    // Nor is there one over a difference that the thermometer can't tell: its doubt is 2 degF.
    CHECK(spa(", area: 40 ft2, covered: yes, wanted_temperature: 81.5 degF").warmings.empty());
    CHECK(spa(", area: 40 ft2, covered: yes, wanted_temperature: 83 degF").warmings.size() == 1);
}

TEST_CASE("warming: what can't be worked out is said, never made up", "[assess][warming]")
{
    // A storm is beyond the law of evaporation: the time without losses, and why.
    auto const storm =
        spa(", area: 40 ft2, covered: no", {}, "air_temperature: 60 degF\nhumidity: 50 %\nwind: 90 mph\n");
    CHECK(only(storm).shortest);
    CHECK(says(only(storm).basis, "Losses are left out: wind of 90 mph"));
    auto const dry = spa(", area: 40 ft2", {}, "air_temperature: 60 degF\nhumidity: 0 %\n");
    CHECK(only(dry).shortest);
    // Nothing without a size, a temperature, an input.
    CHECK(assessed("waters:\n  spa: {kind: spa, temperature: 80 degF}\nheaters:\n  h: {energy: electric_element, "
                   "input: 5 kW}\n")
              .warmings.empty());
    CHECK(spa("", {}, "air_temperature: 60 degF\n", "energy: electric_element").warmings.empty());
    CHECK(spa("", {}, "", "energy: heat_pump, input: 5 kW").warmings.empty()); // no COP
    // Frost and a gale on a small heater: it cools until it freezes, and no curve is drawn.
    auto const frozen =
        spa(", area: 200 ft2, covered: no", {}, "air_temperature: -30 degF\nhumidity: 60 %\nwind: 20 mph\n",
            "energy: electric_element, input: 0.5 kW");
    CHECK(frozen.warmings.empty());
    CHECK(cannot_reach(frozen).value() > 0.75);
}

TEST_CASE("warming: the loss of a water under two heaters is worked out once", "[assess][warming]")
{
    auto const a = assessed(
        "air_temperature: 60 degF\nhumidity: 50 %\nwaters:\n  spa: {kind: spa, volume: 400 gal, area: 40 ft2, "
        "temperature: 80 degF, covered: yes}\nloops:\n  l: {serves: [spa]}\nheaters:\n  one: {loop: l, energy: "
        "electric_element, input: 5.5 kW}\n  two: {loop: l, energy: natural_gas, input: 100 kBtu/h}\n");
    CHECK(a.warmings.size() == 2);
    CHECK(std::count_if(a.figures.begin(), a.figures.end(),
                        [](auto const& e) { return e.figure.model->name == "spa_heat_loss"; }) == 1);
    CHECK(a.warmings[0].as_found.loss->value == a.warmings[1].as_found.loss->value);
}

TEST_CASE("warming: the visit's words and heating's are the same, in the same order", "[assess][warming]")
{
    CHECK(fields::words_of<visit::Walls>::words() == fields::words_of<heating::Shell>::words());
    auto const sold = fields::words_of<heating::SoldUnit>::words();
    auto const gas = fields::words_of<visit::GasSold>::words();
    REQUIRE(gas.size() < sold.size());
    CHECK(std::equal(gas.begin(), gas.end(), sold.begin())); // propane has a price of its own
}
