#include "catch_compat.hpp"
#include "padwalk/circulation/motor.hpp"
#include "written.hpp"

using namespace padwalk;
using namespace padwalk::circulation;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using tests::in;
using tests::number;
using tests::q;

TEST_CASE("1.5 hp, 230 V, power factor 0.90, efficiency 0.75: 7.2 A and 1.49 kW, computed by hand", "[circulation]")
{
    auto const out = motor_current(q<units::Power>("1.5 hp"), q<units::Voltage>("230 V"), q<units::Fraction>("90 %"),
                                   q<units::Fraction>("75 %"));
    CHECK_THAT(in(out.current, "A"), WithinAbs(7.2, 0.05)); // as printed
    CHECK_THAT(in(out.power, "kW"), WithinAbs(1.49, 0.005));
    CHECK_THAT(in(out.power, "W"), WithinRel(230 * 0.9 * in(out.current, "A"), 1e-14));
}

TEST_CASE("motor load against the plate, in numbers and words", "[circulation]")
{
    auto const plate = q<units::Current>("10 A");
    auto const half = q<units::Fraction>("50 %");
    auto const words = [&](char const* measured, double factor)
    { return load_in_words(motor_load(q<units::Current>(measured), plate, number(factor)), half); };
    auto const load = motor_load(q<units::Current>("11 A"), plate, number(1.1));
    CHECK_THAT(load.of_rated.value(), WithinRel(1.1, 1e-14));
    CHECK_THAT(load.of_greatest.value(), WithinRel(1.0, 1e-14));
    CHECK(words("8 A", 1) == "within the nameplate");
    CHECK(words("4 A", 1) == "well below the rated current: a slow speed, or a pump that moves little water");
    CHECK(words("10.5 A", 1.1) ==
          "above the rated current but within the service factor: no reserve is left; note the voltage under load");
    CHECK(words("10.5 A", 1) == "above what the nameplate allows even with its service factor: the motor overheats; "
                                "stop it and have an electrician or pump technician "
                                "find out why");
}
