#include "padwalk/venting/carbon_monoxide.hpp"

#include "padwalk/figures/model.hpp"

#include "catch_compat.hpp"
#include "data_folder.hpp"

#include <cmath>
#include <set>

using namespace padwalk;
using Catch::Matchers::Message;

namespace
{

units::GasFraction ppm(double value)
{
    return units::GasFraction::from_value(value * 1e-6);
}
units::Fraction percent(double value)
{
    return units::Fraction::from_value(value / 100);
}
double air_free_ppm(double measured, double oxygen)
{
    return venting::carbon_monoxide_air_free(ppm(measured), percent(oxygen)).value() * 1e6;
}

std::vector<venting::CarbonMonoxideLimit> const& limits()
{
    static std::vector<venting::CarbonMonoxideLimit> const read =
        venting::carbon_monoxide_limits(tests::data_from_folder());
    return read;
}

} // namespace

TEST_CASE("air-free carbon monoxide: 50 ppm at 7 % is 75 (trade article part 1, read, 75.2 computed)",
          "[venting][combustion-analysis-trade-article-1]")
{
    CHECK(std::abs(air_free_ppm(50, 7) - 75) <= 0.5); // printed without decimals
    CHECK(std::abs(air_free_ppm(50, 7) - 75.2) <= 0.05);
}

TEST_CASE("air-free carbon monoxide: 1200 ppm at 6 % is printed as 1680 (trade page, read, 1683 computed)", "[venting]")
{
    CHECK(std::abs(air_free_ppm(1200, 6) - 1680) <= 5); // printed to three digits
    CHECK(std::abs(air_free_ppm(1200, 6) - 1683) <= 0.5);
}

TEST_CASE("air-free carbon monoxide: thinning a sample with air doesn't change it", "[venting]")
{
    // Mixing a share s of air in: CO (1-s), O2 (1-s) + 20.9 s.
    for (double const s : {0.1, 0.3, 0.6})
        CHECK(std::abs(air_free_ppm(100 * (1 - s), 5 * (1 - s) + 20.9 * s) / air_free_ppm(100, 5) - 1) <= 1e-9);
    CHECK(air_free_ppm(80, 0) == 80);
}

TEST_CASE("a sample that is nearly all air is refused", "[venting]")
{
    CHECK_THROWS_MATCHES(
        air_free_ppm(5, 18.5), figures::NotComputed,
        Message("over 18 % oxygen: the sample is nearly all room air, not flue gas; nothing can be told from it"));
    CHECK_THROWS_AS(air_free_ppm(5, 20.9), figures::NotComputed);
}

TEST_CASE("limits of carbon monoxide as published: OSHA 50, NIOSH 35 and 200, EPA 9 and 35, WHO Europe 90, 50, 25, 10 "
          "ppm, flue 100, 200, 400",
          "[venting]")
{
    struct Row
    {
        char const* id;
        double ppm;
        double hours; ///< 0: a ceiling or an instant reading
    };
    for (auto const& row :
         {Row{"osha_pel", 50, 8}, Row{"niosh_rel", 35, 8}, Row{"niosh_ceiling", 200, 0}, Row{"acgih_tlv", 25, 8},
          Row{"california_pel", 25, 8}, Row{"epa_8_h", 9, 8}, Row{"epa_1_h", 35, 1}, Row{"immediate_danger", 1200, 0},
          Row{"who_europe_15_min", 90, 0.25}, Row{"who_europe_30_min", 50, 0.5}, Row{"who_europe_1_h", 25, 1},
          Row{"who_europe_8_h", 10, 8}, Row{"home_alarm", 70, 1}, Row{"stop_work", 35, 0}, Row{"leave", 70, 0},
          Row{"flue_good_practice", 100, 0}, Row{"flue_water_heater", 200, 0}, Row{"flue_vented_heating", 400, 0}})
    {
        INFO(row.id);
        auto const& limit = venting::limit_of(limits(), row.id);
        CHECK(std::abs(limit.limit.value() * 1e6 - row.ppm) <= 1e-9);
        CHECK(limit.averaged.has_value() == (row.hours > 0));
        if (limit.averaged)
            CHECK(std::abs(units::in_si(*limit.averaged) / 3600 - row.hours) <= 1e-9);
    }
}

TEST_CASE("limits in mg/m3 only come to ppm at 28.01 g/mol and 24.465 L/mol, and are marked as memory", "[venting]")
{
    struct Row
    {
        char const* id;
        double milligrams;
    };
    for (auto const& row : {Row{"who_indoor_15_min", 100}, Row{"who_indoor_1_h", 35}, Row{"who_indoor_8_h", 10},
                            Row{"who_indoor_24_h", 7}, Row{"who_2021_24_h", 4}})
    {
        INFO(row.id);
        auto const& limit = venting::limit_of(limits(), row.id);
        double const exact = row.milligrams * 24.465 / 28.01;
        CHECK(std::abs(limit.limit.value() * 1e6 / exact - 1) <= 0.015); // rounded to two digits
        CHECK(limit.source.seen == reference::Seen::memory);
    }
}

TEST_CASE("limits: ids are unique, flue ones are flue ones, a missing one is a programming error", "[venting]")
{
    std::set<std::string> ids;
    for (auto const& limit : limits())
    {
        CHECK(ids.insert(limit.id).second);
        CHECK((limit.where == venting::WhereBreathed::flue) == (limit.id.rfind("flue_", 0) == 0));
    }
    CHECK_THROWS_MATCHES(venting::limit_of(limits(), "nobody"), std::logic_error,
                         Message("venting/carbon_monoxide.yaml has no limit 'nobody'"));
}

TEST_CASE("words for a flue reading change at the listed limits", "[venting]")
{
    auto const words = [](double value) { return venting::flue_in_words(ppm(value), limits()); };
    CHECK(words(100) == "within good practice; it must also be steady, and the air people breathe is another reading");
    CHECK(words(101) == "above good practice: a combustion technician should look before it is used again");
    CHECK(words(201) == "below the limit listed for vented heaters but above that for water heaters and well above "
                        "good practice: a combustion technician must look before it is used");
    CHECK(words(401) == "above the limit listed for vented heaters: leave the heater off and have a combustion "
                        "technician find out why");
}
