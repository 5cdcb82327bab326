#include "catch_compat.hpp"

#include "drift_waters.hpp"

#include <cmath>

using namespace padwalk;
using namespace padwalk::drift_tests;
using chemistry::Aeration;
using chemistry::Sun;

namespace
{

double per_day(units::Frequency rate)
{
    return units::in_si(rate) * day;
}

} // namespace

TEST_CASE("drift: half-lives of bare chlorine at the surface at noon, Nowell & Hoigné 1992 abstract")
{
    // 12 min at pH 8; 60 min at pH 5, printed in tens. The rate of the acid has one digit: 46 to 77 min.
    auto const minutes = [](double ph)
    {
        auto w = water(ph, 100, 0, 0, 1, 0, 25);
        if (ph < 6)
            w.alkalinity = hardness(5);
        return std::log(2) / units::in_si(chemistry::surface_photolysis(state(w), table())) / 60;
    };
    CHECK(std::abs(minutes(8) - 12) < 1);
    CHECK(std::abs(minutes(5) - 60) < 5);
    CHECK(std::abs(minutes(7.5) - 17) < 1.5); // 'strong sunlight, 17 min', a school's notes, pH not given
}

TEST_CASE("drift: sun behind cyanurate, the published rows and the other view")
{
    units::Length const depth = units::of_si<units::Length>(1.5);
    auto const loss = [&](double cyanurate, double lean)
    {
        return per_day(chemistry::sun_loss(state(water(7.5, 120, 300, cyanurate, 3)), depth, Sun::full,
                                           units::Fraction::from_value(lean), table()));
    };
    CHECK(std::abs(loss(0, 0) / loss(0, 1) - 1) < 1e-9);     // without cyanurate there is one view
    CHECK(std::abs(loss(35, 1) / loss(0, 1) - 0.25) < 0.01); // abstract: about 4 times slower
    CHECK(std::abs(loss(25, 1) / loss(0, 1) - 0.333) < 0.01);
    CHECK((loss(138, 1) > 0.01 && loss(138, 1) < 0.02)); // abstract: 1 to 2 % a day
    CHECK(loss(35, 0) < loss(35, 0.5));
    CHECK(loss(35, 0.5) < loss(35, 1));
    CHECK(loss(138, 0) > loss(138, 1)); // where the views cross is the doubt
    double before = 1e9;
    for (double cyanurate = 0; cyanurate <= 200; cyanurate += 10)
    {
        CHECK(loss(cyanurate, 0.5) < before);
        before = loss(cyanurate, 0.5);
    }
    CHECK(per_day(chemistry::sun_loss(state(water(7.5, 120, 300, 40, 3)), depth, Sun::none, {}, table())) == 0);
    CHECK(per_day(chemistry::sun_loss(state(water(7.5, 120, 300, 40, 0)), depth, Sun::full, {}, table())) == 0);
}

TEST_CASE("drift: loss in the dark doubles every 5 K and makes 14 % a day with sun at 138 mg/L, abstract")
{
    double const warm = per_day(chemistry::standing_loss(celsius(32), table()));
    CHECK(std::abs(per_day(chemistry::standing_loss(celsius(37), table())) / warm - 2) < 1e-9);
    CHECK(std::abs(per_day(chemistry::standing_loss(celsius(27), table())) / warm - 0.5) < 1e-9);
    double const sun =
        per_day(chemistry::sun_loss(state(water(7.5, 120, 300, 138, 3, 1000, 32)), units::of_si<units::Length>(1.5),
                                    Sun::full, units::Fraction::from_value(1), table()));
    CHECK(std::abs(warm + sun - 0.14) < 0.01);
}

TEST_CASE("drift: transfer velocity against wind and temperature")
{
    auto const k = [](Aeration a, std::optional<double> wind, double degrees)
    {
        std::optional<units::Velocity> w;
        if (wind)
            w = units::of_si<units::Velocity>(*wind);
        return chemistry::transfer_velocity(a, w, celsius(degrees), table()).value() * 100 * 3600; // cm/h
    };
    CHECK(std::abs(k(Aeration::sheltered, {}, 20) - 3) < 1e-9);
    CHECK(k(Aeration::none, 5, 20) == 0);
    // 0.251 x 6^2 (Sc/660)^-1/2 with Sc 600: 9.48
    CHECK(std::abs(k(Aeration::open, 6, 20) - 0.251 * 36 * std::sqrt(1.1)) < 1e-6);
    CHECK(std::abs(k(Aeration::open, 1, 20) - 7) < 1e-9); // never below the row's own
    // the polynomial in common use for fresh water, from memory, has Sc 911, 600, 360 at 10, 20 and 30 °C
    auto const schmidt = [](double t) { return 1911.1 - 118.11 * t + 3.4527 * t * t - 0.04132 * t * t * t; };
    for (double const t : {10.0, 20.0, 30.0})
        CHECK(std::abs(k(Aeration::sheltered, {}, t) / (3 * std::sqrt(600 / schmidt(t))) - 1) < 0.03);
    CHECK(std::abs(chemistry::air_carbon_dioxide(table()) - -3.377) < 0.001);
}
