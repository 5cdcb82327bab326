#include "catch_compat.hpp"

#include "csv.hpp"
#include "run_model.hpp"

#include "padwalk/chemistry/products.hpp"
#include "padwalk/units/definitions.hpp"

#include <algorithm>
#include <cmath>

using namespace padwalk;
using namespace padwalk::chemistry_tests;
using namespace padwalk::chemistry;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
namespace exact = padwalk::units::exact;

namespace
{

ProductTable const& table()
{
    static ProductTable const one = product_table(data());
    return one;
}

units::Mass kilograms(double n)
{
    return units::of_si<units::Mass>(n);
}

} // namespace

TEST_CASE("measured amounts: words and mass of a few")
{
    auto const us = [](char const* id, double kg) { return measured(table().product(id), kilograms(kg)).us; };
    auto const metric = [](char const* id, double kg) { return measured(table().product(id), kilograms(kg)).metric; };
    // 1.16 kg/L: 26 fl oz is 0.892 kg, a quart 1.0978, a gallon 4.391
    CHECK(us("muriatic_acid_31", 0.892) == "26 fl oz (3 1/4 cups)");
    CHECK(us("muriatic_acid_31", 1.0978) == "1 qt");
    CHECK(us("muriatic_acid_31", 1.1664) == "1 qt 1/4 cup");
    CHECK(us("muriatic_acid_31", 6.6) == "1 gal 2 qt");
    CHECK(us("muriatic_acid_31", 0.0143) == "2 1/2 tsp");
    CHECK(us("muriatic_acid_31", 0.0343) == "2 tbsp");
    CHECK(metric("muriatic_acid_31", 0.892) == "770 mL");
    CHECK(metric("muriatic_acid_31", 4.391) == "3.8 L");
    CHECK(us("baking_soda", 0.021) == "0.74 oz (about 1 1/2 tbsp)");
    CHECK(metric("baking_soda", 0.021) == "21 g");
    CHECK(us("baking_soda", 0.1843) == "6 1/2 oz (about 3/4 cup)");
    CHECK(us("baking_soda", 1.0205) == "2 lb 4 oz (about 4 1/2 cups)");
    CHECK(metric("baking_soda", 1.0205) == "1 kg");
    CHECK(us("baking_soda", 5.67) == "12 1/2 lb (about 1 1/2 gal)");
    CHECK(us("baking_soda", 1e-9) == "0.04 oz (about 1/4 tsp)"); // a gram, never none
    CHECK_THROWS_AS(us("baking_soda", 0.0), std::invalid_argument);
    CHECK_THROWS_AS(us("baking_soda", std::nan("")), std::invalid_argument);
}

namespace
{

/// The mass that a text such as '1 gal 2 qt', '2 lb 4 oz (about 3 cups)' or '1.02 kg' names, kg.
double mass_in_words(Product const& product, std::string text)
{
    static std::map<std::string, double> const volumes = {{"tsp", exact::us_fluid_ounce / 6},
                                                          {"tbsp", exact::us_fluid_ounce / 2},
                                                          {"cup", exact::us_cup},
                                                          {"cups", exact::us_cup},
                                                          {"qt", exact::us_quart},
                                                          {"gal", exact::us_gallon},
                                                          {"fl", exact::us_fluid_ounce},
                                                          {"mL", 1e-6},
                                                          {"L", 1e-3}};
    static std::map<std::string, double> const masses = {
        {"oz", exact::ounce}, {"lb", exact::pound}, {"g", 1e-3}, {"kg", 1.0}};
    text = text.substr(0, text.find(" ("));
    std::istringstream words(text);
    double sum = 0.0, number = 0.0;
    for (std::string word; words >> word;)
    {
        if (volumes.count(word) == 1)
        {
            sum += number * volumes.at(word) * product.density.value(), number = 0.0;
            if (word == "fl")
                words >> word;
        }
        else if (masses.count(word) == 1)
            sum += number * masses.at(word), number = 0.0;
        else if (auto const slash = word.find('/'); slash != std::string::npos)
            number += tests::csv_number(word.substr(0, slash)) / tests::csv_number(word.substr(slash + 1));
        else
        {
            word.erase(std::remove(word.begin(), word.end(), ','), word.end());
            number += tests::csv_number(word);
        }
    }
    return sum;
}

} // namespace

TEST_CASE("measured amounts: household and metric words say the same mass as the amount, each to its printed rounding")
{
    for (auto const* id : {"muriatic_acid_31", "household_bleach_6", "dry_acid", "baking_soda", "pool_salt"})
    {
        auto const& product = table().product(id);
        for (double kg = 0.002; kg < 3000.0; kg *= 1.0137)
        {
            auto const amount = measured(product, kilograms(kg));
            INFO(id << " " << kg << " kg: " << amount.us << " = " << amount.metric);
            double const printed = 0.0051 * exact::ounce; // ounces below two are printed to a hundredth
            CHECK_THAT(mass_in_words(product, amount.us), WithinAbs(amount.mass.value(), printed));
            CHECK_THAT(mass_in_words(product, amount.metric), WithinRel(amount.metric_mass.value(), 1e-4));
            // half an eighth from what was asked, half a twentieth between the two; grams and quarter teaspoons are
            // coarser
            double const smallest = product.form == ProductForm::liquid ? 1.5e-3 : 0.6e-3;
            CHECK_THAT(amount.mass.value(), WithinAbs(kg, std::max(smallest, 0.0626 * kg)));
            CHECK_THAT(amount.metric_mass.value(), WithinAbs(amount.mass.value(), std::max(smallest, 0.026 * kg)));
        }
    }
}

TEST_CASE("measured amounts: rounding down and up stay on their side, and the next measure is the next")
{
    for (auto const* id : {"muriatic_acid_14", "soda_ash"})
    {
        auto const& product = table().product(id);
        for (double kg = 0.01; kg < 500.0; kg *= 1.37)
        {
            INFO(id << " " << kg);
            auto const down = measured(product, kilograms(kg), Rounding::down);
            auto const up = measured(product, kilograms(kg), Rounding::up);
            CHECK(down.mass.value() <= kg * (1 + 1e-9));
            CHECK(up.mass.value() >= kg * (1 - 1e-9));
            auto const after = next_measure(product, down, 1);
            REQUIRE(after);
            CHECK(after->mass.value() > down.mass.value());
            CHECK(after->mass.value() >= up.mass.value() * (1 - 1e-9));
            auto const back = next_measure(product, *after, -1);
            REQUIRE(back);
            CHECK_THAT(back->mass.value(), WithinRel(down.mass.value(), 1e-9));
        }
        auto const least = measured(product, kilograms(1e-9));
        CHECK(!next_measure(product, least, -1));
    }
}
