#include "catch_compat.hpp"

#include "drift_waters.hpp"

#include <cmath>

using namespace padwalk;
using namespace padwalk::drift_tests;
using chemistry::Aeration;
using chemistry::DriftRequest;
using chemistry::Followed;
using chemistry::Forecast;
using chemistry::Sun;

namespace
{

/// 40 m2 and 60 m3, nothing going on: no air, no sun, no loss, one sample.
DriftRequest still(WaterReadings const& r, double days)
{
    DriftRequest q;
    q.start = state(r).composition();
    q.area = units::of_si<units::Area>(40);
    q.volume = units::of_si<units::Volume>(60);
    q.fill = water(7.8, 120, 150, 0, 0, 50, 20);
    q.sun = Sun::none;
    q.aeration = Aeration::none;
    q.length = units::of_si<units::Duration>(days * day);
    q.samples = 1;
    return q;
}

/// An ordinary outdoor pool in summer: 6 mm and 300 L a day, sun, a salt cell.
DriftRequest summer(double days)
{
    DriftRequest q = still(water(7.5, 100, 300, 40, 3), days);
    q.evaporation = {units::of_si<units::Velocity>(6e-3 / day), units::of_si<units::Velocity>(1.5e-3 / day), ""};
    q.liquid_loss = {units::of_si<units::VolumeFlow>(0.3 / day), units::of_si<units::VolumeFlow>(0.1 / day), ""};
    q.sun = Sun::full;
    q.aeration = Aeration::sheltered;
    q.added_per_day = chemistry::salt_cell(chlorine(1.5));
    q.doubts.ph = units::of_si<units::PhDifference>(0.1);
    q.doubts.alkalinity = hardness(5);
    q.doubts.calcium = hardness(10);
    q.doubts.cyanurate = units::of_si<units::AsCyanuricAcid>(5e-3);
    q.doubts.free_chlorine = chlorine(0.2);
    q.doubts.salt = units::of_si<units::AsSodiumChloride>(0.1);
    q.samples = 63;
    return q;
}

Forecast forecast(DriftRequest const& q)
{
    return chemistry::forecast(equilibria(), q, table());
}

chemistry::StandingLoss no_standing_loss()
{
    auto s = table().standing_loss;
    s.per_day = {};
    return s;
}

/// The table without the dark loss of chlorine.
chemistry::DriftTable without_standing_loss()
{
    auto t = table();
    t.standing_loss = no_standing_loss();
    return t;
}

} // namespace

TEST_CASE("drift: nothing happens when all rates are zero")
{
    auto const q = still(water(7.2, 80, 250, 40, 3), 30);
    auto const f = chemistry::forecast(equilibria(), q, without_standing_loss());
    REQUIRE(f.days.size() == 31);
    CHECK(f.ended_because.empty());
    for (auto const& d : f.days)
    {
        CHECK(std::abs(d.ph.median.value() - 7.2) < 1e-6);
        CHECK(std::abs(d.alkalinity.median.value() - 80e-3) < 1e-12);
        CHECK(std::abs(d.calcium.median.value() - 250e-3) < 1e-12);
        CHECK(std::abs(d.free_chlorine.median.value() - 3e-3) < 1e-12);
        CHECK(std::abs(d.salt.median.value() - 1) < 1e-9);
        CHECK(d.ph.low == d.ph.high);
    }
}

TEST_CASE("drift: hardness climbs by fill x evaporated share a day and ends at fill (E + L)/L, derived mass balance")
{
    auto q = still(water(7.5, 100, 300, 0, 0), 400);
    q.volume = units::of_si<units::Volume>(10); // shallow, so that 400 days are many times its turnover
    q.evaporation.value = units::of_si<units::Velocity>(6e-3 / day);
    q.liquid_loss.value = units::of_si<units::VolumeFlow>(0.3 / day);
    auto const f = forecast(q);
    REQUIRE(f.days.size() == 401);
    double const e = 0.24 / 10, o = 0.3 / 10; // shares a day
    for (std::size_t n : {1U, 10U, 100U, 400U})
    {
        double const t = static_cast<double>(n), end = 150 * (e + o) / o;
        CHECK(std::abs(f.days[n].calcium.median.value() * 1e3 - (end + (300 - end) * std::exp(-o * t))) < 1e-6);
    }
    auto const end = chemistry::plateau(hardness(150), q.evaporation.value * q.area, q.liquid_loss.value);
    CHECK(std::abs(end.value() * 1e3 - 270) < 1e-9); // 150 x (0.24 + 0.30)/0.30
    CHECK(std::abs(f.days[400].calcium.median.value() - end.value()) < 1e-6);

    q.liquid_loss.value = {};
    auto const up = forecast(q); // nothing leaves but vapour: a straight line
    CHECK(std::abs(up.days[100].calcium.median.value() * 1e3 - (300 + 100 * e * 150)) < 1e-6);
    CHECK_THROWS_AS(chemistry::plateau(hardness(150), q.evaporation.value * q.area, {}), figures::NotComputed);
}

TEST_CASE("drift: calcium in is calcium there, rain runs over and dilutes")
{
    auto q = still(water(7.5, 100, 300, 0, 0), 50);
    q.rain = units::of_si<units::Velocity>(10e-3 / day);
    auto const f = forecast(q);
    double const share = 10e-3 * 40 / 60;
    CHECK(std::abs(f.days[50].calcium.median.value() * 1e3 - 300 * std::exp(-share * 50)) < 1e-6);
    // as much rain as evaporates: nothing is filled, nothing runs over
    q.evaporation.value = q.rain;
    CHECK(std::abs(forecast(q).days[50].calcium.median.value() * 1e3 - 300) < 1e-6);
}

TEST_CASE("drift: published pH in balance with air, facts COMPUTED with PHREEQC for 420 ppm, from both sides")
{
    struct Row
    {
        double alkalinity, cyanurate, ph;
    };
    // 8.41 for alkalinity 100, calcium 300 at 80 degF; 7.95, 8.70 and 8.35 with the cyanurate named; printed to 0.01.
    for (auto const& row : {Row{100, 0, 8.41}, Row{50, 50, 7.95}, Row{200, 0, 8.70}, Row{100, 40, 8.35}})
        for (double const from : {7.2, 9.0})
        {
            INFO("alkalinity " << row.alkalinity << " cyanurate " << row.cyanurate << " from " << from);
            auto q = still(water(from, row.alkalinity, 300, row.cyanurate, 0, 500, 26.67), 400);
            q.aeration = Aeration::features;
            auto const f = forecast(q);
            auto const& end = f.days.back();
            CHECK(std::abs(end.ph.median.value() - row.ph) < 0.05);
            auto const balance = equilibria().at_co2(q.start, chemistry::air_carbon_dioxide(table()));
            CHECK(std::abs(end.ph.median.value() - balance.ph().value()) < 0.002);
            double before = from;
            for (auto const& d : f.days)
            {
                CHECK(std::abs(d.alkalinity.median.value() * 1e3 - row.alkalinity) < 1e-9); // untouched by gas
                double const way = (row.ph - from) * (d.ph.median.value() - before);
                CHECK(way > -1e-6); // no turning back
                before = d.ph.median.value();
            }
        }
}

TEST_CASE("drift: water with no carbonate at all takes it up from the air")
{
    auto q = still(water(8.5, 20, 0, 0, 0), 300);
    q.start.totals.carbonate = {};
    q.aeration = Aeration::features;
    auto const f = forecast(q);
    INFO(f.ended_because);
    REQUIRE(f.days.size() == 301);
    CHECK(f.days[0].ph.median.value() > 10); // caustic
    auto const balance = equilibria().at_co2(q.start, chemistry::air_carbon_dioxide(table()));
    CHECK(std::abs(f.days[300].ph.median.value() - balance.ph().value()) < 0.005);
    CHECK(!f.days[0].saturation_index);
}

TEST_CASE("drift: carbon dioxide leaves as k (CO2 - balance)/depth in the first hours")
{
    auto q = still(water(7.2, 100, 300, 0, 0), 1);
    q.aeration = Aeration::sheltered;
    q.steps_per_day = 1000;
    // through pH after a day against a plain Euler sum of the same law, 2000 steps
    chemistry::Composition w = q.start;
    double const k = chemistry::transfer_velocity(q.aeration, std::nullopt, w.temperature, table()).value();
    double const log_air = chemistry::air_carbon_dioxide(table());
    int const steps = 2000;
    for (int n = 0; n < steps; ++n)
    {
        auto const s = equilibria().of(w);
        double const co2 = s.molality("CO2").value();
        double const out = k / 1.5 * co2 * (1 - std::pow(10, log_air - s.log_co2_pressure()));
        w.totals.carbonate = units::of_si<units::Molality>(w.totals.carbonate.value() - out * day / steps);
    }
    CHECK(std::abs(forecast(q).days[1].ph.median.value() - equilibria().of(w).ph().value()) < 1e-4);
}

TEST_CASE("drift: each chlorine spent leaves a chloride and takes an equivalent of alkalinity")
{
    auto q = still(water(7.5, 100, 300, 30, 4), 40);
    q.sun = Sun::full;
    auto const f = forecast(q);
    double const gone = chemistry::molality(f.days[0].free_chlorine.median - f.days[40].free_chlorine.median).value();
    CHECK(f.days[40].free_chlorine.median.value() < 0.01e-3);
    CHECK(std::abs(chemistry::equivalents(f.days[0].alkalinity.median - f.days[40].alkalinity.median).value() - gone) <
          1e-12);
    CHECK(std::abs(chemistry::molality(f.days[40].salt.median - f.days[0].salt.median).value() - gone) < 1e-12);
    CHECK(f.days[40].ph.median < f.days[0].ph.median);
}

TEST_CASE(
    "drift: a salt cell that just meets the losses holds everything, a constant demand empties the pool and stops")
{
    auto q = still(water(7.5, 100, 300, 30, 2, 3200), 20);
    q.demand_per_day = chlorine(0.5);
    auto const bare = chemistry::forecast(equilibria(), q, without_standing_loss());
    CHECK(std::abs(bare.days[2].free_chlorine.median.value() * 1e3 - 1) < 1e-6);
    CHECK(bare.days[4].free_chlorine.median.value() * 1e3 < 1e-6);
    CHECK(bare.days[20].free_chlorine.median.value() == 0);
    q.added_per_day = chemistry::salt_cell(chlorine(0.5));
    auto const held = chemistry::forecast(equilibria(), q, without_standing_loss());
    CHECK(std::abs(held.days[20].free_chlorine.median.value() * 1e3 - 2) < 1e-6);
    CHECK(std::abs(held.days[20].alkalinity.median.value() * 1e3 - 100) < 1e-6);
    CHECK(std::abs(held.days[20].salt.median.value() * 1e3 - 3200) < 1e-5);
    CHECK(std::abs(held.days[20].ph.median.value() - 7.5) < 1e-6);
}

TEST_CASE("drift: a dose goes in at its hour, after the reading of that moment, and mass is kept")
{
    auto q = still(water(7.5, 100, 300, 0, 0), 10);
    chemistry::Totals calcium;
    calcium.calcium = chemistry::molality(hardness(50));
    calcium.chloride = calcium.calcium * 2;
    q.schedule = {{units::of_si<units::Duration>(3 * day), calcium},
                  {units::of_si<units::Duration>(5.4 * day), calcium},
                  {units::of_si<units::Duration>(99 * day), calcium}};
    auto const f = forecast(q);
    double const expected[] = {300, 300, 300, 300, 350, 350, 400, 400, 400, 400, 400};
    for (std::size_t n = 0; n <= 10; ++n)
        CHECK(std::abs(f.days[n].calcium.median.value() * 1e3 - expected[n]) < 1e-9);
}

TEST_CASE("drift: halving the step moves pH by less than 0.01 and chlorine by less than 1 %")
{
    auto const converges = [](DriftRequest q)
    {
        q.samples = 1;
        auto const coarse = forecast(q);
        q.steps_per_day *= 2;
        auto const fine = forecast(q);
        REQUIRE(coarse.days.size() == fine.days.size());
        double ph = 0, chlorine = 0;
        for (std::size_t n = 0; n < fine.days.size(); ++n)
        {
            ph = std::max(ph, std::abs(coarse.days[n].ph.median.value() - fine.days[n].ph.median.value()));
            double const scale = std::max(fine.days[n].free_chlorine.median.value(), 0.1e-3);
            chlorine = std::max(chlorine, std::abs(coarse.days[n].free_chlorine.median.value() -
                                                   fine.days[n].free_chlorine.median.value()) /
                                              scale);
        }
        INFO("pH " << ph << " chlorine " << chlorine);
        CHECK(ph < 0.01);
        CHECK(chlorine < 0.01);
    };
    converges(summer(60));
    auto windy = summer(30);
    windy.aeration = Aeration::features;
    windy.wind = units::of_si<units::Velocity>(5);
    converges(windy);
    auto spa = summer(14); // 2 m2 and 1.5 m3, hot, jets on: carbon dioxide leaves within hours
    spa.start = state(water(7.2, 120, 200, 20, 4, 500, 39)).composition();
    spa.area = units::of_si<units::Area>(2);
    spa.volume = units::of_si<units::Volume>(1.5);
    spa.liquid_loss.value = units::of_si<units::VolumeFlow>(0.03 / day);
    spa.aeration = Aeration::jets;
    converges(spa);
    auto bare = summer(10); // no cyanurate: chlorine lives hours
    bare.start = state(water(7.5, 100, 300, 0, 3)).composition();
    converges(bare);
    auto dosed = summer(21); // by hand, every third day
    dosed.added_per_day = {};
    for (int n = 0; n < 7; ++n)
        dosed.schedule.push_back(
            {units::of_si<units::Duration>((3 * n + 0.4) * day), chemistry::salt_cell(chlorine(4))});
    converges(dosed);
    auto borated = still(water(7.4, 120, 300, 60, 3), 60);
    borated.start.totals.boron = chemistry::molality(units::of_si<units::AsBoron>(0.05));
    borated.aeration = Aeration::open;
    converges(borated);
}

TEST_CASE("drift: more air raises pH sooner, a cover slows it, acid brings it back")
{
    auto q = still(water(7.4, 100, 300, 40, 0), 10);
    double before = 7.4;
    for (auto const a : {Aeration::sheltered, Aeration::open, Aeration::features, Aeration::jets})
    {
        q.aeration = a;
        double const now = forecast(q).days[3].ph.median.value();
        CHECK(now > before);
        before = now;
    }
    q.aeration = Aeration::open;
    auto covered = q;
    covered.covered = units::Fraction::from_value(0.9);
    CHECK(forecast(covered).days[10].ph.median < forecast(q).days[10].ph.median);
    auto sour = q;
    chemistry::Totals acid;
    acid.chloride = units::of_si<units::Molality>(0.2e-3);
    acid.alkalinity = -acid.chloride;
    sour.schedule = {{units::of_si<units::Duration>(5 * day), acid}};
    CHECK(forecast(sour).days[6].ph.median < forecast(q).days[6].ph.median);
    CHECK(std::abs((forecast(q).days[6].alkalinity.median - forecast(sour).days[6].alkalinity.median).value() * 1e3 -
                   10.01) < 0.01);
}

TEST_CASE("drift: intervals hold the median, widen with time, and the same request gives the same bytes")
{
    auto q = summer(30);
    auto const f = forecast(q), again = forecast(q);
    REQUIRE(f.days.size() == 31);
    for (std::size_t n = 0; n <= 30; ++n)
    {
        auto const& d = f.days[n];
        CHECK((d.ph.low <= d.ph.median && d.ph.median <= d.ph.high));
        CHECK((d.calcium.low <= d.calcium.median && d.calcium.median <= d.calcium.high));
        CHECK((d.free_chlorine.low <= d.free_chlorine.median && d.free_chlorine.median <= d.free_chlorine.high));
        CHECK(d.ph.median == again.days[n].ph.median);
        CHECK(d.free_chlorine.high == again.days[n].free_chlorine.high);
    }
    CHECK(std::abs(f.days[0].ph.median.value() - 7.5) < 1e-6);
    CHECK(std::abs((f.days[0].ph.high - f.days[0].ph.low).value() - 0.4) < 0.03); // 4 x 0.1
    CHECK(std::abs((f.days[0].calcium.high - f.days[0].calcium.low).value() * 1e3 - 40) < 3);
    double const width = (f.days[30].calcium.high - f.days[30].calcium.low).value();
    CHECK(width > (f.days[0].calcium.high - f.days[0].calcium.low).value());
}

TEST_CASE("drift: when a band is left")
{
    auto const reading = [](auto value) { return units::Reading::exact(value); };
    auto q = still(water(7.5, 100, 300, 0, 0), 100);
    q.evaporation.value = units::of_si<units::Velocity>(6e-3 / day); // 0.6 mg/L of calcium hardness a day
    q.bands = {{Followed::calcium, std::nullopt, reading(hardness(330))},
               {Followed::calcium, reading(hardness(310)), std::nullopt},
               {Followed::calcium, reading(hardness(100)), reading(hardness(1000))}};
    auto const f = forecast(q);
    REQUIRE(f.exits.size() == 3);
    REQUIRE(f.exits[0].likely);
    CHECK(std::abs(units::in_si(*f.exits[0].likely) / day - 50) < 1e-6);
    CHECK(f.exits[0].above);
    CHECK(chemistry::exit_in_words(f.exits[0], q.length) == "above from day 50 (50 to 50)");
    CHECK(units::in_si(*f.exits[1].likely) == 0);
    CHECK(chemistry::exit_in_words(f.exits[1], q.length) == "already below");
    CHECK(!f.exits[2].early);
    CHECK(f.exits[2].share.value() == 0);
    CHECK(chemistry::exit_in_words(f.exits[2], q.length) == "not within 100 days");

    auto doubtful = summer(60);
    doubtful.bands = {{Followed::ph, std::nullopt, reading(units::of_si<units::Ph>(7.8))}};
    auto const g = forecast(doubtful);
    auto const& e = g.exits[0];
    REQUIRE((e.early && e.likely));
    CHECK(*e.early < *e.likely);
    CHECK((!e.late || *e.late > *e.likely));
    INFO(chemistry::exit_in_words(e, doubtful.length));
    // the median water crosses where the median of the exits says
    for (std::size_t n = 1; n < g.days.size(); ++n)
        if (g.days[n].ph.median.value() > 7.8)
        {
            CHECK(std::abs(static_cast<double>(n) - 0.5 - units::in_si(*e.likely) / day) < 1.01);
            break;
        }
}

TEST_CASE("drift: a forecast ends where there is no such water, and says why, refusals")
{
    auto q = still(water(7.5, 60, 300, 0, 0), 30);
    chemistry::Totals acid;
    acid.chloride = units::of_si<units::Molality>(0.3e-3);
    acid.alkalinity = -acid.chloride;
    q.added_per_day = acid; // 15 mg/L of alkalinity a day: gone on the fourth
    q.aeration = Aeration::jets;
    auto const f = forecast(q);
    INFO(f.ended_because << " " << f.days.size());
    CHECK(f.days.size() >= 4);
    if (f.days.size() < 31)
        CHECK(!f.ended_because.empty());
    else
        CHECK(f.days.back().ph.median.value() < 5);

    auto const why = [](DriftRequest const& r)
    {
        try
        {
            (void)forecast(r);
        }
        catch (figures::NotComputed const& e)
        {
            return std::string(e.what());
        }
        return std::string("computed");
    };
    auto bad = still(water(7.5, 60, 300, 0, 0), 30);
    bad.area = {};
    CHECK(why(bad) == "a forecast needs the pool's area and volume");
    bad = still(water(7.5, 60, 300, 0, 0), 0.5);
    CHECK(why(bad) == "a forecast goes over 1 to 400 days");
    bad = still(water(7.5, 60, 300, 0, 0), 3);
    bad.schedule = {{units::of_si<units::Duration>(-1), {}}};
    CHECK(why(bad) == "a dose is not given before the start");
}
