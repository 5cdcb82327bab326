#include "read.hpp"

#include "padwalk/units/spelling.hpp"

using namespace padwalk::units;
using namespace padwalk::tests;
using M = Measure;

namespace
{

struct Row
{
    std::string text;
    Measure measure;
    std::size_t offset, length;
    std::string message, advice;
};

} // namespace

TEST_CASE("what is no reading is refused with one message, its place and what would pass", "[units][refusal]")
{
    std::string const like_psi = "write it like '18 psi'";
    std::string const psi_units = like_psi + " (psi, kPa, bar, inHg (vacuum is negative: -6 inHg))";
    std::string const one = "give one value, with its doubt behind ± if you like; " + like_psi;
    std::string const middle = "write the middle and half the width: 'value ± half'";
    Row const rows[] = {
        // the unit is missing or of something else
        {"18", M::gauge_pressure, 0, 2, "'18' has no unit; field is a pressure", psi_units},
        {"45 gpm", M::gauge_pressure, 0, 6, "'45 gpm' is a flow; field is a pressure", like_psi},
        {"42 gal/min", M::volume, 0, 10, "'42 gal/min' is a flow; field is a volume", "write it like '18500 gal'"},
        {"42 gal", M::volume_flow, 0, 6, "'42 gal' is a volume; field is a flow", "write it like '45 gpm'"},
        {"18 in water", M::length, 0, 11, "'18 in water' is a pressure; field is a length",
         "write it like '1 ft 6 in'"},
        {"18 psia", M::gauge_pressure, 0, 7, "'18 psia' is an absolute pressure; field is a gauge pressure", like_psi},
        {"18 psig", M::absolute_pressure, 0, 7, "'18 psig' is a gauge pressure; field is an absolute pressure",
         "write it like '14.7 psia'"},
        {"8 psig", M::pressure_difference, 0, 6, "'8 psig' is a gauge pressure; field is a pressure difference",
         "write it like '8 psi'"},
        {"40 ppm", M::volume_flow, 0, 6, "'40 ppm' is a concentration; field is a flow", "write it like '45 gpm'"},
        {"18 ± 1 gpm", M::gauge_pressure, 0, 11, "'18 ± 1 gpm' is a flow; field is a pressure", like_psi},
        {"18 psi ± 1 gpm", M::gauge_pressure, 7, 8, "'± 1 gpm' is a flow; field is a pressure", like_psi},
        {"18 ± 1", M::gauge_pressure, 0, 7, "'18 ± 1' has no unit; field is a pressure", psi_units},
        {"18 ± 5 %", M::gauge_pressure, 0, 8, "'18 ± 5' has no unit; field is a pressure", psi_units},
        {"18 psy", M::gauge_pressure, 3, 3, "'psy' is not a unit of pressure", "did you mean 'psi'?"},
        {"18 wombats", M::gauge_pressure, 3, 7, "'wombats' is not a unit of pressure", psi_units},
        {"7.6 pH", M::ph, 4, 2, "field is a pure number, but 'pH' follows it", "write it like '7.5'"},
        {"7.2-7.6", M::ph, 0, 7, "'7.2-7.6' is a range, not a reading", middle},
        {"5 ft 6", M::length, 5, 1, "'6' has no unit; field is a length",
         "write it like '1 ft 6 in' (in, ft, mm, cm, m)"},
        {"5 ft 6 ± 1 in", M::length, 5, 2, "'6' has no unit; field is a length",
         "write it like '1 ft 6 in' (in, ft, mm, cm, m)"},
        {"6 in 5 ft", M::length, 5, 4, "'5 ft' after 'in' is not understood",
         "units of one reading go from large to small: '1 ft 6 in'"},
        // the basis
        {"90 ppm as Cl2", M::as_calcium_carbonate, 7, 6, "field is read as CaCO3, not 'as Cl2'",
         "convert it first; '90 ppm' means as CaCO3 here"},
        {"90 ppm as Cl2 ± 5 ppm", M::as_calcium_carbonate, 7, 6, "field is read as CaCO3, not 'as Cl2'",
         "convert it first; '90 ppm' means as CaCO3 here"},
        {"800 ppm as NaCl", M::as_itself, 8, 7, "field takes no basis; 'as NaCl' stands behind it", "leave it out"},
        // no number, or one that is written wrongly
        {"", M::gauge_pressure, 0, 0, "field is empty", like_psi},
        {"   ", M::gauge_pressure, 3, 0, "field is empty", like_psi},
        {"abc", M::gauge_pressure, 0, 3, "'abc' does not start with a number", like_psi},
        {"-", M::gauge_pressure, 0, 1, "'-' does not start with a number", like_psi},
        {".", M::gauge_pressure, 0, 1, "'.' does not start with a number", like_psi},
        {"inf psi", M::gauge_pressure, 0, 7, "'inf psi' does not start with a number", like_psi},
        {"nan", M::number, 0, 3, "'nan' does not start with a number", "write it like '1.5'"},
        {"0x10", M::number, 1, 3, "field is a pure number, but 'x10' follows it", "write it like '1.5'"},
        {"1,5 psi", M::gauge_pressure, 0, 3, "'1,5' is not a number: commas part thousands only",
         "use a point for decimals, for example '1.5', and commas only like '333,000'"},
        {"1234,567 psi", M::gauge_pressure, 0, 8, "'1234,567' is not a number: commas part thousands only",
         "use a point for decimals, for example '1.5', and commas only like '333,000'"},
        {"12..3 psi", M::gauge_pressure, 0, 5, "'12..3' is not a number: it has more than one point",
         "use one point for decimals, for example '1.5'"},
        {"1.2.3 psi", M::gauge_pressure, 0, 5, "'1.2.3' is not a number: it has more than one point",
         "use one point for decimals, for example '1.5'"},
        {"3/0 in", M::length, 0, 3, "'3/0' is not a number: nothing can be divided by 0",
         "write a fraction like '3/4'"},
        {"1 1/0 in", M::length, 0, 5, "'1 1/0' is not a number: nothing can be divided by 0",
         "write a fraction like '3/4'"},
        {"1e400 psi", M::gauge_pressure, 0, 5, "'1e400' is too large a number", "check the number and its exponent"},
        {"1e999999999999999 psi", M::gauge_pressure, 0, 17, "'1e999999999999999' is too large a number",
         "check the number and its exponent"},
        {"1e308 GJ", M::energy, 0, 8, "'1e308 GJ' is too large a number", "check the number and its exponent"},
        {"1 psi ± 1e308 MPa", M::gauge_pressure, 0, 18, "'1 psi ± 1e308 MPa' is too large a number",
         "check the number and its exponent"},
        // limits, guesses, ranges, two readings
        {"<5 ppm", M::as_chlorine, 0, 6, "'<5 ppm' is a limit, not a reading",
         "write a value with its doubt: half a limit ± the other half, say"},
        {"~5", M::number, 0, 2, "'~5' does not start with a number", "leave '~' out and write the doubt with ±"},
        {"10-12 psi", M::gauge_pressure, 0, 9, "'10-12 psi' is a range, not a reading", middle},
        {"10 – 12 psi", M::gauge_pressure, 0, 13, "'10 – 12 psi' is a range, not a reading", middle},
        {"10 to 12 psi", M::gauge_pressure, 0, 12, "'10 to 12 psi' is a range, not a reading", middle},
        {"10 psi - 12 psi", M::gauge_pressure, 0, 15, "'10 psi - 12 psi' is a range, not a reading", middle},
        {"18 psi psi", M::gauge_pressure, 7, 3, "'psi' after the reading is not understood", one},
        {"18 psi 20 psi", M::gauge_pressure, 7, 6, "'20 psi' after the reading is not understood", one},
        {"5'-", M::length, 0, 3, "'5'-' is a range, not a reading", middle},
        // the doubt
        {"18 psi ±", M::gauge_pressure, 7, 2, "'±' does not start with a number", like_psi},
        {"18 psi ± -1 psi", M::gauge_pressure, 7, 9, "'± -1 psi' does not start with a number", like_psi},
        {"18 psi ± 1 psi ± 1 psi", M::gauge_pressure, 16, 8, "'± 1 psi' after the reading is not understood", one},
        {"104 degF ± 5 %", M::temperature, 9, 6, "'± 5 %' says nothing of a temperature: its zero is a convention",
         "write the doubt in degrees: '104 ± 1 degF'"},
        {"7.6 ± 0.1 ppm", M::ph, 11, 3, "field is a pure number, but 'ppm' follows it", "write it like '7.5'"},
        // what can't be
        {"-500 degF", M::temperature, 0, 9, "'-500 degF' is below absolute zero", "check the number and its unit"},
        {"-6 inHg", M::absolute_pressure, 0, 7, "'-6 inHg' is below zero; field is an absolute pressure",
         "an absolute pressure counts from vacuum: write it like '14.7 psia'"},
        {"82", M::fraction, 0, 2, "'82' is more than the whole; field is a share",
         "write '82 %', or a decimal from 0 to 1"},
    };
    for (auto const& row : rows)
    {
        INFO("text '" << row.text << "'");
        TextProblem const bad = must_refuse(row.text, row.measure);
        CHECK(bad.message == row.message);
        CHECK(bad.advice == row.advice);
        CHECK(bad.offset == row.offset);
        CHECK(bad.length == row.length);
    }
}

TEST_CASE("the name of the field stands in the message", "[units][refusal]")
{
    CHECK(must_refuse("45 gpm", M::gauge_pressure, "suction").message == "'45 gpm' is a flow; suction is a pressure");
}

TEST_CASE("hostile text is one short clean problem inside the text", "[units][refusal][hostile]")
{
    using namespace std::string_literals;
    std::vector<std::string> texts{
        std::string(10000, '9'),
        std::string(10000, '9') + " psi",
        "1." + std::string(10000, '9'),
        std::string(10000, 'x'),
        "18 " + std::string(10000, 'x'),
        "18 psi as " + std::string(10000, 'x'),
        "18 psi ± " + std::string(10000, '('),
        std::string(5000, '-') + "1 psi",
        "18\0psi"s,
        "\0"s,
        "18 p\x1b[31msi",
        "18 \x80\x80",
        "\xff\xfe",
        "18 psi \xc3",
        "18 \xc2\x9b psi",
        "1 ft " + std::string(10000, '1'),
        std::string(3000, '/'),
        "1/" + std::string(10000, '0'),
    };
    for (auto const& text : texts)
        for (auto const& measure : all_measures())
        {
            auto const read = read_quantity(text, measure.measure, "field");
            if (std::holds_alternative<Reading>(read))
            {
                CHECK(text == texts[2]); // many digits behind the point are a number
                continue;
            }
            auto const& bad = std::get<TextProblem>(read);
            CHECK(bad.offset <= text.size());
            CHECK(bad.offset + bad.length <= text.size());
            CHECK_FALSE(bad.message.empty());
            CHECK_FALSE(bad.advice.empty());
            CHECK(bad.message.size() < 250);
            for (std::size_t i = 0; i < bad.message.size();
                 i += character_length(std::string_view(bad.message).substr(i)))
            {
                REQUIRE(character_length(std::string_view(bad.message).substr(i)) > 0);
                REQUIRE_FALSE(is_control(std::string_view(bad.message).substr(i)));
            }
        }
}

TEST_CASE("every text of three odd characters is read or refused for every measure", "[units][refusal][hostile]")
{
    std::vector<std::string> const parts{"",  "1", "-",  "+", "/",  ".",   ",",   "%",    " ", "±",
                                         "e", "'", "\"", "½", "in", "psi", "as ", "\xff", "°", "to "};
    for (auto const& a : parts)
        for (auto const& b : parts)
            for (auto const& c : parts)
                for (auto const& measure : all_measures())
                {
                    std::string const text = a + b + c;
                    auto const read = read_quantity(text, measure.measure, "field");
                    if (auto const* bad = std::get_if<TextProblem>(&read))
                    {
                        REQUIRE(bad->offset + bad->length <= text.size());
                        REQUIRE_FALSE(bad->message.empty());
                    }
                }
}

TEST_CASE("edit distance, and characters that may be shown", "[units][spelling]")
{
    CHECK(edits("", "abc") == 3);
    CHECK(edits("kitten", "sitting") == 3);
    CHECK(edits("PSI", "psi") == 0);
    CHECK(character_length("a") == 1);
    CHECK(character_length("°") == 2);
    CHECK(character_length("½") == 2);
    CHECK(character_length("″") == 3);
    CHECK(character_length("") == 0);
    CHECK(character_length("\xc0\xaf") == 0);         // overlong '/'
    CHECK(character_length("\xed\xa0\x80") == 0);     // a surrogate
    CHECK(character_length("\xf4\x90\x80\x80") == 0); // beyond U+10FFFF
    CHECK(character_length("\xe2\x82") == 0);         // cut short
    CHECK(fit_to_show("a\tb\x01\xff°", 10) == "a b??°");
    CHECK(fit_to_show("\xc2\x9b"
                      "31m",
                      10) == "?31m");
    CHECK(fit_to_show("12345678901", 10) == "1234567890…");
    CHECK(fit_to_show("1234567890", 10) == "1234567890");
}
