#include "read.hpp"

#include "padwalk/units/print.hpp"

#include <cmath>

using namespace padwalk::units;
using namespace padwalk::tests;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using M = Measure;

namespace
{

constexpr double psi = 0.45359237 * 9.80665 / (0.0254 * 0.0254);
constexpr double ft = 0.3048;
constexpr double gpm = 231 * 0.0254 * 0.0254 * 0.0254 / 60;
constexpr Style us{System::us, {}, {}};
constexpr Style si{System::si, {}, {}};

/// What one unit of the last printed digit of the first number in a text is worth: 0.1 for '48.4 ft', 1 for '18,500'.
/// Zeros at the end of a whole number count as digits, so for '120 ± 40' this asks more than is printed.
double last_digit(std::string_view text)
{
    std::size_t const end = text.find(' ') == std::string_view::npos ? text.size() : text.find(' ');
    std::size_t const point = text.substr(0, end).find('.');
    return point == std::string_view::npos ? 1.0 : std::pow(10.0, -static_cast<double>(end - point - 1));
}

} // namespace

TEST_CASE("the last digit printed stands no lower than the first digit of the doubt", "[units][print]")
{
    CHECK(show(M::head, 48.4321 * ft, 0.9 * ft, us) == "48.4 ft");
    CHECK(show(M::head, 48.4321 * ft, 1.0 * ft, us) == "48 ft");
    CHECK(show(M::head, 48.4321 * ft, 20 * ft, us) == "50 ft");
    CHECK(show(M::head, 48.4321 * ft, 200 * ft, us) == "0 ft");
    CHECK(show(M::head, 48.4321 * ft, 0.04 * ft, us) == "48.43 ft");
    CHECK(show(M::head, -0.01 * ft, 0.9 * ft, us) == "0.0 ft"); // no minus zero
    CHECK(show_with_doubt(M::head, 48.4321 * ft, 0.9 * ft, us) == "48.4 ± 1.8 ft");
    CHECK(show_with_doubt(M::head, 48.4321 * ft, 12 * ft, us) == "50 ± 20 ft");
    CHECK(show_with_doubt(M::head, 48.4321 * ft, 0, us) == "48.43 ft");
    CHECK(show_interval(M::head, 48.4321 * ft, 46.6 * ft, 50.2 * ft, us) == "48.4 ft (46.6 to 50.2)");
    CHECK(show_interval(M::head, 48.4321 * ft, 48.4321 * ft, 48.4321 * ft, us) == "48.43 ft");
}

TEST_CASE("without a doubt four digits are printed, idle zeros off, a whole part never cut", "[units][print]")
{
    CHECK(show(M::gauge_pressure, 18 * psi, 0, us) == "18 psi");
    CHECK(show(M::gauge_pressure, 18.123456 * psi, 0, us) == "18.12 psi");
    CHECK(show(M::volume, 18500 * 60 * gpm, 0, us) == "18,500 US gal");
    CHECK(show(M::volume, 18537 * 60 * gpm, 0, us) == "18,537 US gal");
    CHECK(show(M::number, 0, 0, us) == "0");
    CHECK(show(M::number, 0.99996, 0, us) == "1");
    CHECK(show(M::number, 1.23456e-12, 0, us) == "1.235e-12");
}

TEST_CASE("a unit always stands behind, with 'US' where gallons differ and the basis where there is one",
          "[units][print]")
{
    CHECK(show(M::volume_flow, 45 * gpm, 0, us) == "45 US gpm");
    CHECK(show(M::volume_flow, 45 * gpm, 0, si) == "10.22 m³/h");
    CHECK(show(M::volume_flow, 0.01 * gpm, 0, us) == "14.4 US gal/day");
    CHECK(show(M::as_calcium_carbonate, 0.090, 0, us) == "90 ppm as CaCO3");
    CHECK(show(M::as_calcium_carbonate, 0.090, 0, si) == "90 mg/L as CaCO3");
    CHECK(show_with_doubt(M::as_chlorine, 0.0031, 0.0002, us) == "3.1 ± 0.4 ppm as Cl2");
    CHECK(show(M::temperature, 313.15, 0, us) == "104 °F");
    CHECK(show(M::temperature, 313.15, 0.5, si) == "40.0 °C");
    CHECK(show(M::temperature_difference, 10, 0, us) == "18 °F");
    CHECK(show(M::area, 400 * ft * ft, 0, us) == "400 ft²");
    CHECK(show(M::conductivity, 0.15, 0, us) == "1500 µS/cm");
    CHECK(show(M::resistance, 20, 0, us) == "20 Ω");
    CHECK(show(M::fraction, 0.82, 0, us) == "82 %");
    CHECK(show(M::ph, 7.5, 0, us) == "7.5");
    CHECK(show(M::gauge_pressure, -20000, 0, us) == "-5.906 inHg"); // 20,000 Pa / 3386.389 Pa
    CHECK(show(M::duration, 9 * 365.25 * 86400, 0, us) == "9 year");
    CHECK(show(M::length, 0.5, 0, Style{System::us, "ft", {}}) == "1.64 ft");
    CHECK(show(M::velocity, 15 * gpm / (ft * ft), 0, Style{System::us, "gpm/ft2", {}}) == "15 US gpm/ft²");
}

TEST_CASE("a value near zero is told in the unit of its doubt, an interval in that of its largest number",
          "[units][print]")
{
    CHECK(show_with_doubt(M::gauge_pressure, 0, 1 * psi, us) == "0 ± 2 psi");
    CHECK(show_with_doubt(M::gauge_pressure, 0, 0.5 * psi, us) == "0.0 ± 1.0 psi");
    CHECK(show_with_doubt(M::gauge_pressure, 0, 5000, si) == "0 ± 10 kPa");
    CHECK(show_interval(M::gauge_pressure, 0.1 * psi, -3 * psi, 3.2 * psi, us) == "0 psi (-3 to 3)");
    CHECK(show_interval(M::power, 3400, 100, 7100, us) == "12 kBtu/h (0 to 24)");
}

TEST_CASE("a vacuum is told in inches of mercury in US units, a draft in inches of water", "[units][print]")
{
    double const in_hg = 3386.389;
    CHECK(show_with_doubt(M::gauge_pressure, -6 * in_hg, 0.5 * in_hg, us) == "-6.0 ± 1.0 inHg");
    CHECK(show_interval(M::gauge_pressure, -2 * in_hg, -7 * in_hg, 3 * in_hg, us) == "-2 inHg (-7 to 3)");
    CHECK(show(M::gauge_pressure, -10, 0, us) == "-0.04015 in water"); // 10 Pa / 249.089 Pa
    CHECK(show(M::gauge_pressure, -6 * in_hg, 0, si) == "-20.32 kPa");
    CHECK(show(M::pressure_difference, 6 * in_hg, 0, us) == "2.947 psi");
}

TEST_CASE("numbers: commas from 10,000 up, rounding above the point, no exponent between a millionth and 1e15",
          "[units][print]")
{
    CHECK(show_number(9999, 0) == "9999");
    CHECK(show_number(10000, 0) == "10,000");
    CHECK(show_number(-1234567.891, 2) == "-1,234,567.89");
    CHECK(show_number(1234567, -3) == "1,235,000");
    CHECK(show_number(-0.0001, 2) == "0.00");
    CHECK(show_number(INFINITY, 2) == "unlimited");
    CHECK(show_number(NAN, 2) == "none");
    CHECK(show_significant(0, 3) == "0");
    CHECK(show_significant(123456, 3) == "123,000");
    CHECK(show_significant(99996, 4) == "100,000");
    CHECK(show_significant(0.000123456, 3) == "0.000123");
    CHECK(show_significant(2.5, 4) == "2.5");
    CHECK(show_significant(1.23456e-9, 3) == "1.23e-09");
    CHECK(show_significant(1.23456e15, 3) == "1.23e+15");
}

TEST_CASE("what is printed can be read back within half of the last digit, for every measure and both systems",
          "[units][print][reading]")
{
    // A walk over sizes, with mantissas that don't come out even, and doubts from a thousandth to as much as the value.
    double const mantissas[] = {1.0, 1.7320508, 3.3333333, 9.9994, 9.9996};
    for (auto const& m : all_measures())
        for (System const system : {System::us, System::si})
            for (int exponent = -3; exponent <= 4; ++exponent)
                for (double const mantissa : mantissas)
                    for (double const share : {0.0, 0.001, 0.013, 0.07, 0.3, 1.0})
                    {
                        Style const style{system, {}, {}};
                        // The size is that of the number shown in the measure's last unit, so that every scale is met.
                        auto const choices = system == System::us ? m.us : m.si;
                        Unit const* base =
                            choices.back().symbol.empty() ? nullptr : find_unit(choices.back().symbol, m.dimension);
                        double const size = mantissa * std::pow(10.0, exponent);
                        double const value = base != nullptr ? (size + base->zero) * base->scale : size;
                        double const doubt = share * size * (base != nullptr ? base->scale : 1.0);
                        if (m.measure == M::fraction && value > 100)
                            continue; // a share of ten thousand per cent is no share
                        std::string const text = show_with_doubt(m.measure, value, doubt, style);
                        INFO(m.name << " printed '" << text << "'");
                        Reading const back = must_read(text, m.measure);
                        std::string_view const unit =
                            unit_for(m.measure, std::max(std::abs(value), coverage * doubt), style);
                        double const scale = unit.empty() ? 1.0 : find_unit(unit, m.dimension)->scale;
                        // Above the point the last digit printed is the doubt's first.
                        double const doubt_digit =
                            doubt > 0 ? std::pow(10.0, std::floor(std::log10(doubt / scale) + 1e-9)) : 0.0;
                        double const half = 0.5 * std::max(last_digit(text), doubt_digit) * scale * (1 + 1e-6);
                        REQUIRE_THAT(back.value, WithinAbs(value, half + 1e-9 * std::abs(value)));
                        REQUIRE_THAT(coverage * back.doubt, WithinAbs(coverage * doubt, half));
                        REQUIRE(back.doubt_written == (doubt > 0));
                        // The plain form too, which carries no doubt.
                        std::string const plain = show(m.measure, value, doubt, style);
                        REQUIRE_THAT(must_read(plain, m.measure).value,
                                     WithinAbs(value, half + 1e-9 * std::abs(value)));
                    }
}

TEST_CASE("a unit that a measure has not is a mistake of the program", "[units][print]")
{
    CHECK_THROWS_AS(in_unit(M::gauge_pressure, 1, "gpm"), std::logic_error);
    CHECK_THAT(in_unit(M::gauge_pressure, 18 * psi, "psi"), WithinRel(18.0, 1e-15));
}
