#include "catch_compat.hpp"

#include "csv.hpp"
#include "run_model.hpp"

#include "padwalk/chemistry/alkalinity.hpp"
#include "padwalk/chemistry/saturation_handbook.hpp"
#include "padwalk/physics/range.hpp"

#include <cmath>
#include <set>

using namespace padwalk;
using namespace padwalk::chemistry_tests;
using chemistry::handbook_index;
using chemistry::HandbookWater;

namespace
{

units::AsCalciumCarbonate hardness(double mg_per_litre)
{
    return units::of_si<units::AsCalciumCarbonate>(mg_per_litre * 1e-3);
}

units::Temperature fahrenheit(double degF)
{
    return units::of_si<units::Temperature>((degF + 459.67) / 1.8);
}

HandbookWater water(double ph, double degF, double alkalinity, double calcium, double solids = 800)
{
    return {units::of_si<units::Ph>(ph), fahrenheit(degF), hardness(alkalinity), hardness(calcium),
            units::of_si<units::AsItself>(solids * 1e-3)};
}

chemistry::HandbookTable const& table()
{
    static chemistry::HandbookTable const t = chemistry::handbook_table(data());
    return t;
}

double index_of(HandbookWater const& w)
{
    return handbook_index(w, table()).index.value();
}

} // namespace

TEST_CASE("saturation handbook: 10 NYCRR 6-1.30's own example and its parts, read in the code")
{
    // pH 7.8, 68 degF, calcium 200 x 0.70 = 140, alkalinity 20: 7.8 + 0.52 + 1.76 + 1.22 - 12.1 = -0.8.
    // The code prints its parts cut to 0.01, so 0.005 more than half a last digit.
    auto const r = handbook_index(water(7.8, 68, 20, 140), table());
    CHECK(std::abs(r.temperature_factor.value() - 0.52) <= 1e-9);
    CHECK(std::abs(r.calcium_factor.value() - 1.76) <= 1e-9);
    CHECK(std::abs(r.alkalinity_factor.value() - 1.22) <= 0.0051);
    CHECK(r.constant.value() == 12.1);
    CHECK(std::abs(r.index.value() - -0.8) <= 0.0051);
    CHECK(std::abs(r.saturation_ph.value() - 8.6) <= 0.0051);
}

TEST_CASE("saturation handbook: published worked examples, si_worked_examples.csv rows 1 to 7")
{
    // Answers are printed to 0.1: half of that. Row 1 is the state code; 2 to 7 are course and trade pages (arithmetic
    // checks). Row 6 takes the 84 degF row at 85 degF, worth 0.01.
    int compared = 0;
    for (auto const& row : tests::reference_csv("chemistry/si_worked_examples.csv"))
    {
        static std::set<std::string> const usable = {"1", "2", "3", "4", "5", "6", "7"};
        if (usable.count(row.text("id")) == 0)
            continue;
        INFO(row.place() << " " << row.text("source"));
        CHECK(row.text("status") == "READ");
        double const solids = row.text("TDS_mgL").empty() ? 800 : row.number("TDS_mgL");
        auto const w = water(row.number("pH"), row.number("temp_F"), row.number("TA_mgL_CaCO3"),
                             row.number("CH_mgL_CaCO3"), solids);
        CHECK(std::abs(index_of(w) - row.number("published_SI")) <= 0.05);
        ++compared;
    }
    CHECK(compared == 7);
}

TEST_CASE(
    "saturation handbook: an exam item whose option A is -0.2 with 12.2 above 1000 mg/L, question read, answer not")
{
    auto const r = handbook_index(water(7.6, 76, 75, 200, 1100), table());
    CHECK(r.constant.value() == 12.2);
    CHECK(std::abs(r.index.value() - -0.2) <= 1e-9); // all four readings are rows of the table
}

TEST_CASE("saturation handbook: stated accuracy against calcite by PHREEQC with both databases, 27 computed waters")
{
    for (auto const& row : tests::reference_csv("chemistry/calcite_reference.csv"))
    {
        INFO(row.place() << " " << row.text("case"));
        double const salt = row.number("NaCl_mgL");
        auto const w = water(row.number("pH"), row.number("temp_F"), row.number("carbonate_alk_mgL_CaCO3"),
                             row.number("CH_mgL_CaCO3"), salt);
        for (char const* program : {"SI_calcite_phreeqc_dat", "SI_calcite_wateq4f_dat"})
        {
            double const off = index_of(w) - row.number(program);
            // the limits are those that the header and the model state; reference values carry ±0.0005
            if (salt >= 2500)
                CHECK((off > 0.04 && off < 0.18));
            else if (row.number("temp_F") < 70)
                CHECK((off > -0.36 && off < -0.09));
            else
                CHECK(std::abs(off) < 0.105);
        }
    }
}

TEST_CASE("saturation handbook: the rows are the rounded logarithms, so no misprint came along")
{
    // Reprints carry 2.1 for calcium at 400 and 2.0 or 3.0 at 1000. Rows are rounded to 0.1.
    for (auto const& row : table().calcium)
        CHECK(std::abs(row.factor.value() - (std::log10(row.at.value() * 1e3) - 0.4)) <= 0.05);
    for (auto const& row : table().alkalinity)
        CHECK(std::abs(row.factor.value() - std::log10(row.at.value() * 1e3)) <= 0.05);
    CHECK(table().calcium.size() == 11);
    CHECK(table().alkalinity.size() == 11);
    CHECK(table().temperature.size() == 11);
}

TEST_CASE("saturation handbook: the index rises with pH, temperature, calcium and alkalinity, and falls with solids")
{
    double before[4] = {-100, -100, -100, -100};
    for (int i = 0; i <= 50; ++i)
    {
        double const x = i / 50.0;
        double const now[4] = {index_of(water(6.5 + 2.5 * x, 80, 100, 300)),
                               index_of(water(7.5, 32 + 96 * x, 100, 300)), index_of(water(7.5, 80, 5 + 995 * x, 300)),
                               index_of(water(7.5, 80, 100, 5 + 995 * x))};
        for (int k = 0; k < 4; ++k)
        {
            CHECK(now[k] > before[k]);
            before[k] = now[k];
        }
    }
    CHECK(index_of(water(7.5, 80, 100, 300, 1000)) - index_of(water(7.5, 80, 100, 300, 1001)) > 0.099);
    // one unit of pH is one unit of the index
    CHECK(std::abs(index_of(water(8.5, 80, 100, 300)) - index_of(water(7.5, 80, 100, 300)) - 1) <= 1e-12);
}

TEST_CASE("saturation handbook: at the saturation pH the index is zero")
{
    auto const r = handbook_index(water(7.2, 91, 85, 260), table());
    CHECK(std::abs(index_of(water(r.saturation_ph.value(), 91, 85, 260))) <= 1e-12);
}

TEST_CASE("saturation handbook: outside the table it refuses")
{
    auto const message = [](HandbookWater const& w) -> std::string
    {
        try
        {
            (void)handbook_index(w, table());
        }
        catch (physics::OutOfRange const& e)
        {
            return e.what();
        }
        return "computed";
    };
    CHECK(message(water(7.5, 130, 100, 300)) ==
          "water temperature 130 °F is outside 32 to 128 °F of [ny-10-nycrr-6-1-30]");
    CHECK(message(water(7.5, 80, 100, 1200)) ==
          "calcium hardness 1200 mg/L as CaCO3 is outside 5 to 1000 mg/L as CaCO3 of [ny-10-nycrr-6-1-30]");
    CHECK(message(water(7.5, 80, 4, 300)) ==
          "alkalinity 4 mg/L as CaCO3 is outside 5 to 1000 mg/L as CaCO3 of [ny-10-nycrr-6-1-30]");
    CHECK(message(water(7.5, 80, 100, 300, 6500)) ==
          "dissolved solids 6500 mg/L is outside 0 to 6000 mg/L of [montana-arm-37-115]");
    CHECK(message(water(7.5, 32, 5, 5)) == "computed");
    CHECK(message(water(7.5, 128, 1000, 1000, 6000)) == "computed");
}

TEST_CASE("model saturation_handbook: carbonate or total alkalinity, and what is assumed")
{
    auto const carbonate = figure("saturation_handbook", {{"ph", "7.6"},
                                                          {"water_temperature", "76 degF"},
                                                          {"alkalinity", "100 ppm"},
                                                          {"calcium", "200 ppm"},
                                                          {"cyanurate", "90 ppm"},
                                                          {"dissolved_solids", "800 ppm"},
                                                          {"table_doubt", "0"}});
    REQUIRE(carbonate.computed());
    // 100 - 0.33 x 90 = 70.3 by the published factor at pH 7.6; AF between 50 and 75: 1.7 + 0.2 x 20.3/25 = 1.8624
    CHECK(std::abs(*carbonate.output("carbonate_alkalinity").value - 70.3e-3) <= 1e-9);
    CHECK(std::abs(*carbonate.output("handbook_index").value - (7.6 + 0.6 + 1.9 + 1.8624 - 12.1)) <= 1e-9);
    CHECK(carbonate.output("in_words").words == "balanced: within the band -0.3 to +0.5");

    auto const total = figure("saturation_handbook", {{"ph", "7.6"},
                                                      {"water_temperature", "76 degF"},
                                                      {"alkalinity", "100 ppm"},
                                                      {"calcium", "200 ppm"},
                                                      {"cyanurate", "90 ppm"},
                                                      {"alkalinity_used", "total"}});
    REQUIRE(total.computed());
    CHECK(std::abs(*total.output("handbook_index").value - 0.0) <= 1e-9);
    CHECK(!total.output("carbonate_alkalinity").value);
    // the method's own ± 0.1, and K either 12.1 or 12.2 where solids are not known
    CHECK(total.output("handbook_index").high > 0.08);
    CHECK(total.output("handbook_index").low < -0.1);
}

TEST_CASE("model saturation_handbook: words by the band, and refusals")
{
    auto const words = [](char const* ph)
    {
        return figure("saturation_handbook",
                      {{"ph", ph}, {"water_temperature", "84 degF"}, {"alkalinity", "100 ppm"}, {"calcium", "300 ppm"}})
            .output("in_words")
            .words;
    };
    CHECK(words("6.8") == "corrosive: below the band -0.3 to +0.5; such water dissolves plaster and grout"); // -0.5
    CHECK(words("7.5") == "balanced: within the band -0.3 to +0.5");
    CHECK(words("8.2") == "scaling: above the band -0.3 to +0.5; scale comes first where the water is hottest");

    auto const lost = figure("saturation_handbook", {{"ph", "7.6"},
                                                     {"water_temperature", "84 degF"},
                                                     {"alkalinity", "50 ppm"},
                                                     {"calcium", "300 ppm"},
                                                     {"cyanurate", "200 ppm"}});
    CHECK(lost.why_not == "cyanurate adds 66 mg/L to an alkalinity of only 50 mg/L, so one of these readings is wrong: "
                          "retest alkalinity, cyanurate");
    auto const hot =
        figure("saturation_handbook",
               {{"ph", "7.6"}, {"water_temperature", "135 degF"}, {"alkalinity", "80 ppm"}, {"calcium", "300 ppm"}});
    CHECK(hot.why_not == "water temperature 135 °F is outside 32 to 128 °F of [ny-10-nycrr-6-1-30]");
}
