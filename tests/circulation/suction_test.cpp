#include "catch_compat.hpp"
#include "csv.hpp"
#include "padwalk/circulation/head.hpp"
#include "padwalk/circulation/suction.hpp"
#include "padwalk/figures/model.hpp"
#include "padwalk/physics/air.hpp"
#include "written.hpp"

using namespace padwalk;
using namespace padwalk::circulation;
using Catch::Matchers::Message;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using tests::in;
using tests::q;

namespace
{

/// The gauge at the pump that a water surface so far above it, less these losses, would make; no velocity.
Inlet under_surface(char const* on_surface, char const* head, char const* water, char const* altitude)
{
    auto const temperature = q<units::Temperature>(water);
    auto const reading = q<units::GaugePressure>(on_surface) + pressure_of_head(q<units::Head>(head), temperature);
    return {reading, {}, {}, temperature, q<units::Length>(altitude)};
}

} // namespace

TEST_CASE("suction head by altitude and temperature: tests/reference/circulation/npsh_altitude.csv", "[circulation]")
{
    // Half the last printed digit, and vapour pressures that differ from ours by 0.004 kPa (0.4 mm of water, 0.001
    // inHg).
    for (auto const& row : tests::reference_csv("circulation/npsh_altitude.csv"))
    {
        INFO(row.place());
        auto const altitude = units::of_si<units::Length>(row.number("alt_m"));
        CHECK_THAT(in(physics::pressure_at_altitude(altitude), "kPa"), WithinAbs(row.number("p_atm_kPa"), 0.0051));
        for (std::string const celsius : {"20", "30", "40"})
        {
            INFO(celsius << " °C");
            auto const water = q<units::Temperature>(celsius + " degC");
            auto const available = suction_head_available({units::GaugePressure{}, {}, {}, water, altitude});
            CHECK_THAT(available.value(), WithinAbs(row.number("head_above_vapour_m_" + celsius + "C"), 0.0056));
            CHECK_THAT(-in(vacuum_at_boiling(water, altitude), "inHg"),
                       WithinAbs(row.number("vacuum_at_boiling_inHg_" + celsius + "C"), 0.0065));
        }
    }
}

TEST_CASE("suction head at a gauge of 10 inHg vacuum, 40 °C: 6.17 m at the sea, 4.45 m at 1500 m, computed from the "
          "same tables",
          "[circulation]")
{
    auto const reading = q<units::GaugePressure>("-10 inHg");
    auto const water = q<units::Temperature>("40 degC");
    CHECK_THAT(suction_head_available({reading, {}, {}, water, {}}).value(), WithinAbs(6.17, 0.0056));
    CHECK_THAT(suction_head_available({reading, {}, {}, water, q<units::Length>("1500 m")}).value(),
               WithinAbs(4.45, 0.0056));
}

TEST_CASE("Crane 7.32, second hand: 5 psig on the tank, level 25 ft below, 6 ft lost, 60 °F: 13.887 ft",
          "[circulation]")
{
    // It takes 14.7 psi (0.009 ft more than 14.696) and 62.364 lb/ft3.
    CHECK_THAT(in(suction_head_available(under_surface("5 psi", "-31 ft", "60 degF", "0 ft")), "ft"),
               WithinAbs(13.887, 0.02));
}

TEST_CASE("pump page of a civil engineering handbook, read: 33.9 + 6.0 - 0.839 - 2.0 - 2.0 = 35.061 ft",
          "[circulation]")
{
    // 0.839 ft is the vapour pressure at 70 °F, where the air makes 33.97 ft rather than the page's 33.9.
    CHECK_THAT(in(suction_head_available(under_surface("0 psi", "2 ft", "70 degF", "0 ft")), "ft"),
               WithinAbs(35.061, 0.1));
}

TEST_CASE("same page, at 7000 ft: air 26.2 ft, lift 8 ft, vapour 0.411 ft, losses 1 and 2 ft: 14.79 ft",
          "[circulation]")
{
    // 0.411 ft is the vapour pressure at 50 °F; the page gives the air to a tenth of a foot.
    CHECK_THAT(in(suction_head_available(under_surface("0 psi", "-11 ft", "50 degF", "7000 ft")), "ft"),
               WithinAbs(14.79, 0.1));
}

TEST_CASE("best-practice sheet 25, example 4, read: 2.4 psi on a gauge 1 ft above the pump, 10 ft/s, 68 °F: 41.27 ft",
          "[circulation]")
{
    // It takes 14.7 psi and 2.31 ft/psi (0.02 ft).
    Inlet const inlet{q<units::GaugePressure>("2.4 psi"),
                      q<units::Length>("1 ft"),
                      q<units::Velocity>("10 ft/s"),
                      q<units::Temperature>("68 degF"),
                      {}};
    CHECK_THAT(in(suction_head_available(inlet), "ft"), WithinAbs(41.27, 0.03));
}

TEST_CASE("at the boiling vacuum no suction head is left", "[circulation]")
{
    for (auto const* altitude : {"0 ft", "5000 ft", "10000 ft"})
        for (auto const* temperature : {"40 degF", "80 degF", "104 degF"})
        {
            auto const water = q<units::Temperature>(temperature);
            auto const height = q<units::Length>(altitude);
            CHECK_THAT(suction_head_available({vacuum_at_boiling(water, height), {}, {}, water, height}).value(),
                       WithinAbs(0.0, 1e-9));
        }
}

TEST_CASE("deeper vacuum, warmer water and thinner air each leave less", "[circulation]")
{
    Inlet inlet{
        q<units::GaugePressure>("-5 inHg"), {}, {}, q<units::Temperature>("80 degF"), q<units::Length>("500 ft")};
    auto const before = suction_head_available(inlet);
    Inlet vacuum = inlet, warm = inlet, high = inlet;
    vacuum.reading = q<units::GaugePressure>("-10 inHg");
    warm.water = q<units::Temperature>("104 degF");
    high.altitude = q<units::Length>("5000 ft");
    CHECK(suction_head_available(vacuum) < before);
    CHECK(suction_head_available(warm) < before);
    CHECK(suction_head_available(high) < before);
}

TEST_CASE("a vacuum deeper than the air is refused", "[circulation]")
{
    CHECK_THROWS_MATCHES(suction_head_available({q<units::GaugePressure>("-26 inHg"),
                                                 {},
                                                 {},
                                                 q<units::Temperature>("80 degF"),
                                                 q<units::Length>("5000 ft")}),
                         figures::NotComputed,
                         Message("no vacuum can be deeper than the air's own pressure, 24.9 inHg at this altitude; "
                                 "check the gauge and its zero"));
}

TEST_CASE("the margin in words", "[circulation]")
{
    auto const head = [](char const* text) { return q<units::Head>(text); };
    auto const ratio = tests::number(1.3);
    CHECK(suction_in_words(head("20 ft"), std::nullopt, ratio) ==
          "what the pump needs is not known; its maker's curve shows it as NPSHR at the flow");
    CHECK(suction_in_words(head("20 ft"), head("10 ft"), ratio) == "more than the pump needs, with the usual margin");
    CHECK(suction_in_words(head("12 ft"), head("10 ft"), ratio) ==
          "hardly more than the pump needs: noise and wear can come before the head falls");
    CHECK(suction_in_words(head("9 ft"), head("10 ft"), ratio) ==
          "less than the pump needs: it cavitates, loses head and wears; look for what holds the water back on the "
          "suction side");
    CHECK(suction_in_words(head("0 ft"), std::nullopt, ratio) ==
          "by these readings the water boils at the pump's inlet; a pump can't run so for long, so check the gauge "
          "first, then look for a blocked "
          "basket, skimmer or closed valve on the suction side");
}
