#include "catch_compat.hpp"

#include "run_model.hpp"

#include <cmath>

using namespace padwalk;
using namespace padwalk::chemistry_tests;

namespace
{

figures::Figure combined(std::string const& total, std::string const& free)
{
    return figure("combined_chlorine", {{"total_chlorine", total}, {"free_chlorine", free}});
}

figures::Figure ratio(std::string const& free, std::string const& cyanurate)
{
    return figure("chlorine_to_cyanurate", {{"free_chlorine", free}, {"cyanurate", cyanurate}});
}

} // namespace

TEST_CASE("combined chlorine: the difference of two readings, with the doubt of both")
{
    auto const f = combined("3.0 ± 0.4 ppm", "2.2 ± 0.3 ppm");
    REQUIRE(f.computed());
    CHECK(std::abs(*f.output("combined").value - 0.8e-3) <= 1e-12);
    // two independent halves add in square: sqrt(0.4² + 0.3²) = 0.5 mg/L; 256 quasi-random points give ends to 5 %
    CHECK(std::abs(f.output("combined").high - 1.3e-3) <= 0.025e-3);
    CHECK(std::abs(f.output("combined").low - 0.3e-3) <= 0.025e-3);
}

TEST_CASE("combined chlorine: below zero is not clamped, and the words follow the limits of 0.2 and 0.5 mg/L")
{
    CHECK(std::abs(*combined("2.8 ppm", "3.0 ppm").output("combined").value - -0.2e-3) <= 1e-12);
    CHECK(combined("2.8 ppm", "3.0 ppm").output("in_words").words == "none to be seen");
    CHECK(combined("1 ppm", "3 ppm").output("in_words").words ==
          "free reads above total, which can't be: test both again with fresh reagent");
    CHECK(combined("3.15 ppm", "3 ppm").output("in_words").words == "little: at most 0.2 ppm");
    CHECK(combined("3.4 ppm", "3 ppm").output("in_words").words ==
          "some: above the ideal 0.2 ppm, within the limit of 0.5 ppm");
    CHECK(combined("5 ppm", "3 ppm").output("in_words").words ==
          "much: above the limit of 0.5 ppm; it smells, stings the eyes and disinfects poorly");
}

TEST_CASE("cyanurate to chlorine: against the 45 to 1 of the 2023 model code announcement (read)")
{
    CHECK(std::abs(*ratio("4 ppm", "80 ppm").output("ratio").value - 20) <= 1e-12);
    CHECK(ratio("3 ppm", "40 ppm").output("in_words").words ==
          "the ratio is at most 45 to 1, above which the model code closes a public pool");
    CHECK(ratio("1 ppm", "46 ppm").output("in_words").words ==
          "the ratio is above 45 to 1, above which the model code closes a public pool; free chlorine is below the 2 "
          "ppm asked for with cyanurate");
    CHECK(ratio("1.5 ppm", "0 ppm").output("in_words").words ==
          "the ratio is at most 45 to 1, above which the model code closes a public pool");
    CHECK(ratio("0.5 ppm", "0 ppm").output("in_words").words ==
          "the ratio is at most 45 to 1, above which the model code closes a public pool; free chlorine is below the 1 "
          "ppm asked for without cyanurate");
    CHECK(ratio("3 ppm", "80 ppm").output("in_words").words ==
          "the ratio is at most 45 to 1, above which the model code closes a public pool; cyanurate is above the "
          "recommended 50 ppm, and several bodies "
          "set a limit below 100 ppm");
    CHECK(ratio("3 ppm", "120 ppm").output("in_words").words ==
          "the ratio is at most 45 to 1, above which the model code closes a public pool; cyanurate is above the "
          "laxest published limit of 100 ppm");
    CHECK(ratio("0 ppm", "40 ppm").why_not == "there is no free chlorine, so no ratio; such water is not disinfected");
}
