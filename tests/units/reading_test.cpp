#include "read.hpp"

#include "padwalk/units/definitions.hpp"

#include <cmath>

using namespace padwalk::units;
using namespace padwalk::tests;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using M = Measure;

// Expected values are worked from the definitions by hand: psi = 0.45359237 kg x 9.80665 m/s2 / (25.4 mm)2, and so on.
namespace
{

constexpr double psi = 0.45359237 * 9.80665 / (0.0254 * 0.0254);
constexpr double gpm = 231 * 0.0254 * 0.0254 * 0.0254 / 60;
constexpr double btu_per_hour = 1055.05585262 / 3600;
constexpr double grain_per_gallon = (0.45359237 / 7000) / (231 * 0.0254 * 0.0254 * 0.0254);

struct Row
{
    std::string_view text;
    Measure measure;
    double si;
};

} // namespace

TEST_CASE("what people write is read to its SI value", "[units][reading]")
{
    Row const rows[] = {
        {"18 psi", M::gauge_pressure, 18 * psi},
        {"18psi", M::gauge_pressure, 18 * psi},
        {"  18   psi ", M::gauge_pressure, 18 * psi},
        {"+18 psi", M::gauge_pressure, 18 * psi},
        {"18 psig", M::gauge_pressure, 18 * psi},
        {"14.7 psia", M::absolute_pressure, 14.7 * psi},
        {"-6 inHg", M::gauge_pressure, -6 * 13595.1 * 9.80665 * 0.0254},
        {"−6 inHg", M::gauge_pressure, -6 * 13595.1 * 9.80665 * 0.0254}, // the minus sign of typesetters
        {"-6 \"Hg", M::gauge_pressure, -6 * 13595.1 * 9.80665 * 0.0254},
        {"7 in w.c.", M::gauge_pressure, 7 * 1000 * 9.80665 * 0.0254},
        {"2.5 bar", M::gauge_pressure, 250000},
        {"45 gpm", M::volume_flow, 45 * gpm},
        {"45 gal/min", M::volume_flow, 45 * gpm},
        {"45 gal / min", M::volume_flow, 45 * gpm},
        {"10 m³/h", M::volume_flow, 10.0 / 3600},
        {"250 kBtu/h", M::power, 250000 * btu_per_hour},
        {"333,000 Btu/h", M::power, 333000 * btu_per_hour},
        {"1,234,567.5 Btu/h", M::power, 1234567.5 * btu_per_hour},
        {"1.5 hp (electric)", M::power, 1.5 * 746},
        {"104 degF", M::temperature, (104 + 459.67) / 1.8},
        {"104F", M::temperature, (104 + 459.67) / 1.8},
        {"104 °F", M::temperature, (104 + 459.67) / 1.8},
        {"40 °C", M::temperature, 313.15},
        {"40℃", M::temperature, 313.15},
        {"40 deg C", M::temperature, 313.15},
        {"-40 degF", M::temperature, 233.15},
        {"-40 degC", M::temperature, 233.15},
        {"20 degF", M::temperature_difference, 20 / 1.8},
        {"-20 °C", M::temperature_difference, -20},
        {"1 ft 6 in", M::length, 18 * 0.0254},
        {"-1 ft 6 in", M::length, -18 * 0.0254},
        {"3/4 in", M::length, 0.75 * 0.0254},
        {"1 1/2 in", M::length, 1.5 * 0.0254},
        {"1-1/2 in", M::length, 1.5 * 0.0254},
        {"1½ in", M::length, 1.5 * 0.0254},
        {"½ in", M::length, 0.5 * 0.0254},
        {"1 ft 6 1/2 in", M::length, 18.5 * 0.0254},
        {"5' 6\"", M::length, 66 * 0.0254},
        {"5'6\"", M::length, 66 * 0.0254},
        {"5'-6\"", M::length, 66 * 0.0254},
        {"5′ 6″", M::length, 66 * 0.0254},
        {"5’ 6”", M::length, 66 * 0.0254}, // what phones make of quotes
        {"48 ft", M::head, 48 * 0.3048},
        {"2 lb 3 oz", M::mass, 35.0 / 16 * 0.45359237},
        {"1 h 30 min", M::duration, 5400},
        {"400 ft²", M::area, 400 * 0.3048 * 0.3048},
        {"400 sq ft", M::area, 400 * 0.3048 * 0.3048},
        {"18,500 gal", M::volume, 18500 * 231 * 0.0254 * 0.0254 * 0.0254},
        {"90 ppm", M::as_calcium_carbonate, 0.090},
        {"90 mg/L as CaCO3", M::as_calcium_carbonate, 0.090},
        {"90 ppm as caco3", M::as_calcium_carbonate, 0.090},
        {"3 ppm as Cl2", M::as_chlorine, 0.003},
        {"40 ppm as cyanuric acid", M::as_cyanuric_acid, 0.040},
        {"5 gr/gal", M::as_calcium_carbonate, 5 * grain_per_gallon},
        {"5 gpg", M::as_calcium_carbonate, 5 * grain_per_gallon},
        {"2 mmol/L", M::as_calcium_carbonate, 2 * (40.078 + 12.011 + 3 * 15.999) / 1000},
        {"2 meq/L", M::as_calcium_carbonate, (40.078 + 12.011 + 3 * 15.999) / 1000},
        {"2 mmol/L", M::as_chlorine, 2 * 2 * 35.45 / 1000},
        {"50 ppm", M::gas_fraction, 50e-6},
        {"0.5 %", M::gas_fraction, 0.005},
        {"82 %", M::fraction, 0.82},
        {"0.82", M::fraction, 0.82},
        {"1/4 in/ft", M::fraction, 1.0 / 48},
        {"7.6", M::ph, 7.6},
        {".5", M::number, 0.5},
        {"5.", M::number, 5},
        {"1.5e-6", M::number, 1.5e-6},
        {"1.5E3", M::number, 1500},
        {"-3/4", M::number, -0.75},
        {"0e999999999999", M::number, 0},
        {"1500 µS/cm", M::conductivity, 0.15},
        {"2 Ω", M::resistance, 2},
        {"2 Mohm", M::resistance, 2e6},
        {"4.18 kJ/(kg K)", M::specific_heat, 4180},
    };
    for (auto const& row : rows)
    {
        INFO("text '" << row.text << "'");
        Reading const r = must_read(row.text, row.measure);
        CHECK(r.measure == row.measure);
        CHECK_THAT(r.value, WithinRel(row.si, 1e-15) || WithinAbs(row.si, 0));
        CHECK(r.doubt == 0);
        CHECK_FALSE(r.doubt_written);
    }
}

TEST_CASE("a written doubt is two standard uncertainties, in any of its forms", "[units][reading][doubt]")
{
    struct Doubted
    {
        std::string_view text;
        Measure measure;
        double si, doubt;
    };
    Doubted const rows[] = {
        {"18 ± 1 psi", M::gauge_pressure, 18 * psi, 0.5 * psi},
        {"18±1psi", M::gauge_pressure, 18 * psi, 0.5 * psi},
        {"18 +/- 1 psi", M::gauge_pressure, 18 * psi, 0.5 * psi},
        {"18 psi ± 1 psi", M::gauge_pressure, 18 * psi, 0.5 * psi},
        {"18 psi ± 1", M::gauge_pressure, 18 * psi, 0.5 * psi},
        {"18 psi ± 7 kPa", M::gauge_pressure, 18 * psi, 3500},
        {"-6 ± 1 inHg", M::gauge_pressure, -6 * 13595.1 * 9.80665 * 0.0254, 0.5 * 13595.1 * 9.80665 * 0.0254},
        {"-6 inHg ± 10 %", M::gauge_pressure, -6 * 13595.1 * 9.80665 * 0.0254, 0.3 * 13595.1 * 9.80665 * 0.0254},
        {"45 gpm ± 5 %", M::volume_flow, 45 * gpm, 45 * gpm * 0.025},
        {"104 ± 1 degF", M::temperature, (104 + 459.67) / 1.8, 0.5 / 1.8},
        {"104 degF ± 1", M::temperature, (104 + 459.67) / 1.8, 0.5 / 1.8},
        {"104 degF ± 1 degC", M::temperature, (104 + 459.67) / 1.8, 0.5},
        {"7.6 ± 0.1", M::ph, 7.6, 0.05},
        {"7.6 ± 1 %", M::ph, 7.6, 0.038},
        {"82 % ± 2 %", M::fraction, 0.82, 0.01},
        {"82 ± 2 %", M::fraction, 0.82, 0.01},
        {"0.82 ± 0.02", M::fraction, 0.82, 0.01},
        {"0.5 % ± 0.1 %", M::gas_fraction, 0.005, 0.0005},
        {"50 ppm ± 10 %", M::gas_fraction, 50e-6, 2.5e-6},
        {"90 ± 10 ppm as CaCO3", M::as_calcium_carbonate, 0.090, 0.005},
        {"90 ppm as CaCO3 ± 10 ppm", M::as_calcium_carbonate, 0.090, 0.005},
        {"2 mmol/L ± 0.2 mmol/L", M::as_chlorine, 2 * 2 * 35.45 / 1000, 0.1 * 2 * 35.45 / 1000},
        {"1 ft 6 in ± 1/2 in", M::length, 18 * 0.0254, 0.25 * 0.0254},
        {"18 ± 0 psi", M::gauge_pressure, 18 * psi, 0},
    };
    for (auto const& row : rows)
    {
        INFO("text '" << row.text << "'");
        Reading const r = must_read(row.text, row.measure);
        CHECK_THAT(r.value, WithinRel(row.si, 1e-15));
        CHECK_THAT(r.doubt, WithinRel(row.doubt, 1e-14) || WithinAbs(row.doubt, 0));
        CHECK(r.doubt_written);
        CHECK(r.method == "written");
    }
}

TEST_CASE("case is forgiven only where it can't change the meaning", "[units][reading][case]")
{
    CHECK(must_read("45 GPM", M::volume_flow).value == must_read("45 gpm", M::volume_flow).value);
    CHECK(must_read("18 PSI", M::gauge_pressure).value == must_read("18 psi", M::gauge_pressure).value);
    CHECK(must_read("-6 inhg", M::gauge_pressure).value == must_read("-6 inHg", M::gauge_pressure).value);
    CHECK(must_read("5 KW", M::power).value == 5000);
    CHECK(must_read("2 MPa", M::gauge_pressure).value == 2e6);
    CHECK_THAT(must_read("5 mL", M::volume).value, WithinRel(5e-6, 1e-15));
    CHECK(must_read("5 MJ", M::energy).value == 5e6);
    struct Refused
    {
        std::string_view text;
        Measure measure;
        std::string_view near;
    };
    // m is milli, M is mega; a single letter may be another unit in the other case
    Refused const rows[] = {
        {"2 mPa", M::gauge_pressure, "MPa"},
        {"2 mpa", M::gauge_pressure, "MPa"},
        {"5 ML", M::volume, "mL"},
        {"5 ML/min", M::volume_flow, "mL/min"},
        {"5 MW", M::power, "W"},
        {"5 mW", M::power, "W"},
        {"5 mJ", M::energy, "MJ"},
        {"5 MA", M::current, "mA"},
        {"5 MV", M::voltage, "mV"},
        {"5 Mm", M::length, "mm"},
        {"2 mohm", M::resistance, "Mohm"},
        {"5 MS/cm", M::conductivity, "mS/cm"},
    };
    for (auto const& row : rows)
    {
        INFO("text '" << row.text << "'");
        TextProblem const bad = must_refuse(row.text, row.measure);
        CHECK(bad.message == "'" + std::string(row.text.substr(row.text.find(' ') + 1)) + "' is not a unit of " +
                                 std::string(info(row.measure).noun).substr(info(row.measure).noun.find(' ') + 1));
        CHECK(bad.advice == "did you mean '" + std::string(row.near) + "'?");
    }
}

TEST_CASE("a number alone, without unit and doubt", "[units][reading]")
{
    auto number = [](std::string_view text) { return read_number(text, "count"); };
    CHECK(std::get<double>(number("333,000")) == 333000);
    CHECK(std::get<double>(number("1 1/2")) == 1.5);
    CHECK(std::get<TextProblem>(number("2 ± 1")).message == "count takes a number without a doubt");
    CHECK(std::get<TextProblem>(number("2 psi")).message == "count is a pure number, but 'psi' follows it");
    CHECK(std::get<TextProblem>(number("")).message == "count is empty");
}

TEST_CASE("decimal text becomes the double that the compiler makes of it, to one rounding", "[units][reading]")
{
    CHECK(std::get<double>(read_number("0.1", "x")) == 0.1);
    CHECK(std::get<double>(read_number("123456789012345", "x")) == 123456789012345.0);
    CHECK(std::get<double>(read_number("0.000123456789", "x")) == 0.000123456789);
    CHECK_THAT(std::get<double>(read_number("3.14159265358979323846264338327950288", "x")),
               WithinRel(3.141592653589793, 3e-16));
    CHECK_THAT(std::get<double>(read_number("1" + std::string(50, '0'), "x")), WithinRel(1e50, 1e-15));
    CHECK_THAT(std::get<double>(read_number("0." + std::string(50, '0') + "1", "x")), WithinRel(1e-51, 1e-15));
}
