#include "dose_plan_waters.hpp"

#include "padwalk/physics/range.hpp"

#include <map>

using namespace padwalk;
using namespace padwalk::chemistry_tests;
using namespace padwalk::chemistry;
using Catch::Matchers::WithinAbs;

TEST_CASE("dose plan: a water in its band asks for nothing, and so does one off by less than the test's doubt")
{
    auto one = request(water(7.5, 90, 275, 40, 3), 18500);
    auto const good = plan(one);
    CHECK(good.outcome == Outcome::nothing_to_do);
    CHECK(good.steps.empty());
    CHECK(good.products.empty());
    CHECK(good.answer == "Nothing to do: every reading is in its band.");

    one.now.alkalinity = ppm<units::AsCalciumCarbonate>(127);
    CHECK(plan(one).outcome == Outcome::doses);
    one.ignore.alkalinity = ppm<units::AsCalciumCarbonate>(10);
    CHECK(plan(one).outcome == Outcome::nothing_to_do);
    one.now.alkalinity = ppm<units::AsCalciumCarbonate>(131);
    CHECK(plan(one).outcome == Outcome::doses);
    // what is corrected lands in the band itself, not in one widened by what is ignored
    one.now.ph = units::Ph::from_value(8.0);
    one.now.alkalinity = ppm<units::AsCalciumCarbonate>(145);
    one.ignore.ph = units::PhDifference::from_value(0.1);
    auto const end = plan(one).end.readings;
    CHECK(end.ph.value() >= 7.2);
    CHECK(end.ph.value() <= 7.8);
    CHECK(end.alkalinity.value() <= 0.120 + 1e-9);
}

TEST_CASE("dose plan: one reading that is off takes the one product for it")
{
    auto const only = [](WaterReadings const& now, Venue venue = Venue::pool)
    {
        auto const got = plan(request(now, venue == Venue::spa ? 400 : 18500, venue));
        CHECK(got.outcome == Outcome::doses);
        REQUIRE(got.products.size() == 1);
        return table().product(got.products.front()).kind;
    };
    CHECK(only(water(7.95, 110, 250, 40, 3)) == "hydrochloric acid");
    CHECK(only(water(7.95, 110, 200, 0, 5), Venue::spa) == "sodium bisulfate");
    CHECK(only(water(7.6, 100, 150, 40, 3)) == "calcium chloride");
    CHECK(only(water(7.5, 90, 275, 40, 0)) == "liquid chlorine");
}

TEST_CASE("dose plan: acid for pH worked by hand, 7.9 to 7.45 takes 6 of 110 mg/L of alkalinity")
{
    // By hand at 28 °C, carbonate 97 mg/L as CaCO3 = 1.94 mmol/L, pK1 6.30 at this ionic strength: free carbon dioxide
    // is 1.94/10^(7.9-6.30) = 0.049 before and (1.94-x)/10^(7.45-6.30) after; their difference is x = 0.081 mmol/L but
    // for cyanurate, whose 0.31 mmol/L takes back 0.31 (share 0.913 - 0.788) = 0.039: x = 0.12 mmol/L = 6.0 mg/L.
    auto const got = plan(request(water(7.9, 110, 250, 40, 3), 18500, Venue::pool, Finish::vinyl));
    REQUIRE(got.steps.size() == 1);
    auto const& step = got.steps.front();
    CHECK_THAT(step.after.readings.ph.value(), WithinAbs(7.45, 0.02));
    double const taken = (step.before.readings.alkalinity - step.after.readings.alkalinity).value() * 1e3;
    CHECK_THAT(taken, WithinAbs(6.0, 0.5));
    CHECK(step.what == "Add 30 fl oz (3 3/4 cups), 890 mL, of muriatic acid, 31.45 %");
    CHECK(step.why ==
          "Acid takes alkalinity away and makes carbon dioxide of it, so both fall: pH from 7.9 to 7.4. With "
          "it comes alkalinity from 110 mg/L to 104 mg/L, salt from 500 mg/L to 507 mg/L, saturation index "
          "from 0.46 to -0.01.");
    CHECK(got.answer == "1 product in 1 dose leads into the band (1 step in all).");
    CHECK(got.outside == std::vector<std::string>{"pH 7.9 is above 7.8"});
    CHECK(got.assumptions.empty());
    CHECK(got.general.size() == 4);
}

TEST_CASE("dose plan: high alkalinity comes down by acid and air in turns, pH never under 7.0 by acid")
{
    auto const one = request(water(7.8, 190, 250, 40, 3), 18500);
    auto const got = plan(one);
    REQUIRE(got.outcome == Outcome::doses);
    CHECK(got.products.size() == 1);
    int acid = 0, air = 0;
    double least = 14.0;
    for (auto const& step : got.steps)
    {
        acid += step.kind == DoseStep::Kind::dose ? 1 : 0;
        air += step.kind == DoseStep::Kind::aerate ? 1 : 0;
        least = std::min(least, step.after.readings.ph.value());
        if (step.kind == DoseStep::Kind::aerate)
        {
            CHECK_THAT(step.after.readings.alkalinity.value(),
                       WithinAbs(step.before.readings.alkalinity.value(), 1e-12));
            CHECK(step.after.readings.ph > step.before.readings.ph);
        }
    }
    CHECK(acid >= 5);
    CHECK(air >= 3);
    CHECK(least >= 6.98);
    CHECK(got.end.readings.alkalinity.value() < 0.120);
}

TEST_CASE("dose plan: too much cyanurate, no dose gets there")
{
    auto one = request(water(7.5, 100, 300, 120, 5), 20000);
    one.fill_water = water(7.6, 90, 150, 0, 0);
    auto const got = plan(one);
    CHECK(got.outcome == Outcome::replace_water);
    // 120 (1 - s) = 80: s = 1/3, to a whole percent upwards
    CHECK_THAT(got.replace.value(), WithinAbs(0.34, 1e-9));
    CHECK(got.because == "cyanurate");
    CHECK(got.answer == "No dose gets there: replace 34 % of the water for its cyanurate. After that no product is "
                        "needed (1 step in all).");
    REQUIRE(got.steps.size() == 1);
    CHECK(got.steps.front().what == "Replace 34 % of the water, about 6800 gal (26 m³)");
    for (auto const& caution : got.steps.front().cautions)
        CHECK(!table().caution(caution).empty());
    CHECK(got.assumptions.size() == 1); // warmed again; the fill water was given
    one.may_drain = false;
    auto const kept = plan(one);
    CHECK(kept.outcome == Outcome::cannot);
    CHECK(kept.answer == "No dose gets there: replace 34 % of the water for its cyanurate.");
    one.may_drain = true;
    one.fill_water.reset();
    CHECK(plan(one).assumptions.size() == 2);
}

TEST_CASE("dose plan: a fill water that is itself too hard is said")
{
    auto one = request(water(7.5, 100, 550, 40, 3), 20000);
    one.fill_water = water(7.6, 90, 450, 0, 0);
    auto const got = plan(one);
    CHECK(got.outcome == Outcome::cannot);
    CHECK(got.answer ==
          "No dose gets there, and replacing the water does not either: the fill water itself has too much "
          "calcium hardness.");
    CHECK(got.steps.empty());
}

TEST_CASE("dose plan: with what the owner has")
{
    auto one = request(water(7.6, 150, 350, 60, 4), 18500);
    one.available = {"baking_soda", "liquid_chlorine_12"};
    auto const got = plan(one);
    CHECK(got.outcome == Outcome::replace_water);
    CHECK(got.answer.find("With the products at hand no dose gets there: replace ") == 0);
    CHECK(got.answer.find("With muriatic acid, 31.45 % no water need be replaced.") != std::string::npos);
    one.available = {"dry_acid", "dichlor"};
    one.now = water(7.5, 90, 275, 40, 0);
    CHECK(plan(one).products == std::vector<std::string>{"dichlor"});
    one.available = {"trichlor", "calcium_hypochlorite_65"}; // trichlor takes days
    CHECK(plan(one).products == std::vector<std::string>{"calcium_hypochlorite_65"});
    one.available = {"trichlor"};
    CHECK(plan(one).products == std::vector<std::string>{"trichlor"});
    one.available = {"baking_soda"};
    auto const none = plan(one);
    CHECK(none.outcome == Outcome::cannot);
    CHECK(none.answer.find("Missing: chlorine.") != std::string::npos);
    one.available = {"moonshine"};
    CHECK_THROWS_AS(plan(one), std::out_of_range);
}

TEST_CASE("dose plan: of one number of products the cheapest, and what it costs")
{
    auto one = request(water(7.95, 110, 250, 40, 3), 18500);
    auto const& liquid = table().product("muriatic_acid_31");
    one.prices = {{"muriatic_acid_31", 8.0, mass_of(liquid, units::of_si<units::Volume>(exact::us_gallon))},
                  {"dry_acid", 1.0, units::of_si<units::Mass>(5.0)}};
    auto const dry = plan(one);
    CHECK(dry.products == std::vector<std::string>{"dry_acid"});
    REQUIRE(dry.cost);
    CHECK_THAT(*dry.cost, WithinAbs(dry.steps.front().amount->mass.value() / 5.0, 1e-9));
    one.prices[1].paid = 100.0;
    auto const wet = plan(one);
    CHECK(wet.products == std::vector<std::string>{"muriatic_acid_31"});
    REQUIRE(wet.cost);
    CHECK_THAT(*wet.cost,
               WithinAbs(8.0 * volume_of(liquid, wet.steps.front().amount->mass).value() / exact::us_gallon, 1e-9));
    one.prices.clear();
    CHECK(!plan(one).cost);

    one.now = water(7.5, 90, 275, 40, 0); // the cheaper chlorine by what it does, not by its weight
    one.prices = {{"dichlor", 20.0, units::of_si<units::Mass>(5.0)},
                  {"liquid_chlorine_10", 3.0, units::of_si<units::Mass>(2.0)}};
    CHECK(plan(one).products == std::vector<std::string>{"dichlor"}); // 7.2 a kg of chlorine against 17
    one.prices[1].paid = 1.0;
    CHECK(plan(one).products == std::vector<std::string>{"liquid_chlorine_10"}); // 5.7
}

TEST_CASE("dose plan: too much chlorine falls by itself, and a reducer is dosed so low that none is left without")
{
    auto const some = plan(request(water(7.5, 100, 275, 40, 14), 15000));
    REQUIRE(!some.steps.empty());
    CHECK(some.steps.front().kind == DoseStep::Kind::let_chlorine_fall);
    CHECK_THAT(some.steps.front().after.readings.free_chlorine.value(), WithinAbs(9e-3, 1e-9));
    auto const one = request(water(7.5, 100, 275, 40, 30), 15000);
    auto const much = plan(one);
    REQUIRE(much.outcome == Outcome::doses);
    CHECK(much.products.front() == "sodium_thiosulfate");
    double by = 0.0;
    for (auto const& step : much.steps)
        if (step.product == "sodium_thiosulfate")
        {
            by += (step.before.readings.free_chlorine - step.after.readings.free_chlorine).value();
            CHECK(step.retest);
        }
    CHECK(by > 5e-3);
    // Were it twice as strong as taken, as it may be, chlorine would still be in its band.
    CHECK(30e-3 - 2 * by >= 2e-3);
    CHECK(much.assumptions.size() == 1);
}

TEST_CASE("dose plan: salt for a cell, borate where it is wanted")
{
    auto salty = request(water(7.5, 80, 300, 60, 4), 20000, Venue::pool, Finish::plaster, Sanitizer::salt_cell);
    salty.now.salt = ppm<units::AsSodiumChloride>(2000);
    auto const salt = plan(salty);
    REQUIRE(salt.products == std::vector<std::string>{"pool_salt"});
    // 1200 mg/L in 20,000 gal: 83.454 lb for 1000 mg/L in 10,000 gal (dose_stoichiometry.csv) is 200 lb
    double pounds = 0.0;
    for (auto const& step : salt.steps)
        pounds += step.amount->mass.value() / exact::pound;
    CHECK_THAT(pounds, WithinAbs(200.0, 5.0));

    auto one = request(water(7.5, 90, 275, 40, 3), 20000);
    one.targets = targets_for(data(), Venue::pool, Finish::plaster, Sanitizer::stabilized_chlorine, true);
    auto const borate = plan(one);
    REQUIRE(borate.outcome == Outcome::doses);
    CHECK(borate.products.front() == "boric_acid");
    CHECK(borate.end.readings.borate.value() > 30e-3);
    one.available = {"borax", "muriatic_acid_31"};
    auto const alkaline = plan(one);
    REQUIRE(alkaline.outcome == Outcome::doses);
    CHECK(alkaline.products == std::vector<std::string>{"borax", "muriatic_acid_31"});
    one.now.ph = units::of_si<units::Ph>(7.4);
    CHECK(plan(one).products == std::vector<std::string>{"borax", "muriatic_acid_31"});
}

TEST_CASE("dose plan: water without any calcium, alkalinity or salt is planned all the same")
{
    auto one = request(water(7.0, 5, 0, 0, 0), 12000);
    one.now.salt = ppm<units::AsSodiumChloride>(0);
    auto const got = plan(one);
    CHECK(got.outcome == Outcome::doses);
    CHECK(got.products.size() >= 4);
    CHECK(outside(one.targets, simulated(one, got, false)).empty());
}

TEST_CASE(
    "dose plan: cyanuric acid lowers pH, so it goes before pH is set where that is high and after it where it is low")
{
    auto const place = [](DosePlan const& got, char const* id)
    {
        auto const at =
            std::find_if(got.steps.begin(), got.steps.end(), [&](DoseStep const& step) { return step.product == id; });
        REQUIRE(at != got.steps.end());
        return at - got.steps.begin();
    };
    auto const low = plan(request(water(6.8, 60, 275, 0, 3), 12000));
    CHECK(place(low, "soda_ash") < place(low, "cyanuric_acid"));
    auto const high = plan(request(water(8.3, 150, 275, 0, 3), 12000));
    CHECK(place(high, "cyanuric_acid") < place(high, "muriatic_acid_31"));
    // and it does: 40 mg/L of it, two thirds given away at this pH, is 0.2 mmol/L of acid
    auto const& step = high.steps[static_cast<std::size_t>(place(high, "cyanuric_acid"))];
    CHECK(step.before.readings.ph - step.after.readings.ph > units::PhDifference::from_value(0.4));
    CHECK_THAT((step.before.readings.alkalinity - step.after.readings.alkalinity).value(), WithinAbs(0.0, 1e-12));
}

TEST_CASE("dose plan: bromine water keeps the chlorine it has")
{
    auto const got = plan(request(water(7.5, 100, 275, 0, 0), 400, Venue::spa, Finish::other, Sanitizer::bromine));
    CHECK(got.outcome == Outcome::nothing_to_do);
    CHECK(got.assumptions.size() == 1); // that the sanitizer is not in it
}

TEST_CASE("dose plan: a dose in parts does what the whole would")
{
    auto const one = request(water(7.6, 62, 120, 0, 0), 30000);
    auto const got = plan(one);
    REQUIRE(got.outcome == Outcome::doses);
    std::map<std::string, double> mass;
    int most_parts = 0;
    Composition whole = equilibria().at_ph(composition_of(one.now), one.now.ph).composition();
    for (auto const& step : got.steps)
    {
        REQUIRE(step.kind == DoseStep::Kind::dose);
        mass[step.product] += step.amount->mass.value();
        most_parts = std::max(most_parts, step.parts);
    }
    CHECK(most_parts > 1);
    for (auto const& [id, kg] : mass)
        whole.totals = whole.totals + added(table().product(id), units::of_si<units::Mass>(kg), one.volume);
    auto const end = equilibria().of(whole);
    CHECK_THAT(end.ph().value(), WithinAbs(got.end.readings.ph.value(), 1e-6));
    CHECK_THAT(end.saturation(Mineral::calcite), WithinAbs(got.end.saturation.value(), 1e-6));
}

TEST_CASE("dose plan: volumes from 150 gal to a million, and none below 50")
{
    for (double gallons : {150.0, 300.0, 1000.0, 12000.0, 90000.0, 1e6})
    {
        auto const one = request(water(7.0, 50, 120, 10, 0), gallons);
        auto const got = plan(one);
        INFO(gallons << " gal: " << got.answer);
        CHECK(got.outcome == Outcome::doses);
        check_rules(one, got);
        CHECK(outside(one.targets, simulated(one, got, false)).empty());
        CHECK(outside(one.targets, simulated(one, got, true)).empty());
    }
    CHECK_THROWS_AS(plan(request(water(7.0, 50, 120, 10, 0), 20)), physics::OutOfRange);
}

TEST_CASE("dose plan: readings that no water has are refused")
{
    // 200 mg/L of cyanurate alone has more alkalinity at this pH than 30 mg/L
    CHECK_THROWS_AS(plan(request(water(7.8, 30, 250, 200, 3), 20000)), figures::NotComputed);
}

namespace
{

template <class Q>
void check_within(Aim<Q> const& aim, std::vector<WorkingBand> const& bands, Parameter parameter, Venue venue,
                  Stabilizer stabilizer)
{
    auto const* band = working_band(bands, parameter, venue, stabilizer);
    REQUIRE(band != nullptr);
    INFO(band->because);
    if (aim.low && band->bounds.low)
        CHECK(aim.low->value() >= band->bounds.low->value - 1e-12);
    if (aim.high && band->bounds.high)
        CHECK(aim.high->value() <= band->bounds.high->value + 1e-12);
    if (aim.low && aim.aim)
        CHECK(*aim.low < *aim.aim);
    if (aim.aim && aim.high)
        CHECK(*aim.aim < *aim.high);
}

} // namespace

TEST_CASE("dose plan: no target is wider than the working bands of the published limits")
{
    auto const bands = working_bands(data());
    for (auto venue : {Venue::pool, Venue::spa})
        for (int f = 0; f < 6; ++f)
            for (auto sanitizer :
                 {Sanitizer::chlorine, Sanitizer::stabilized_chlorine, Sanitizer::salt_cell, Sanitizer::bromine})
            {
                auto const t = targets_for(data(), venue, static_cast<Finish>(f), sanitizer);
                auto const stabilizer = sanitizer == Sanitizer::chlorine ? Stabilizer::none : Stabilizer::present;
                INFO("finish " << f << " sanitizer " << static_cast<int>(sanitizer) << " spa "
                               << (venue == Venue::spa));
                check_within(t.ph, bands, Parameter::ph, venue, stabilizer);
                check_within(t.alkalinity, bands, Parameter::alkalinity, venue, stabilizer);
                check_within(t.calcium, bands, Parameter::calcium, venue, stabilizer);
                check_within(t.cyanurate, bands, Parameter::cyanurate, venue, stabilizer);
                check_within(t.free_chlorine, bands, Parameter::free_chlorine, venue, stabilizer);
                check_within(t.saturation, bands, Parameter::saturation_index, venue, stabilizer);
                check_within(t.cyanurate_to_chlorine, bands, Parameter::cyanurate_to_chlorine, venue, stabilizer);
                CHECK(t.ph.low.has_value());
                CHECK(t.calcium.low.has_value());
                CHECK(t.free_chlorine.low.has_value() == (sanitizer != Sanitizer::bromine));
                CHECK(t.salt.low.has_value() == (sanitizer == Sanitizer::salt_cell));
            }
    auto const works = reference::bibliography(data());
    for (auto const* key : {"montana-arm-37-115", "ny-10-nycrr-6-1-30", "california-22-ccr-65529", "pima-az-8-32-080"})
        CHECK(works.count(key) == 1);
}
