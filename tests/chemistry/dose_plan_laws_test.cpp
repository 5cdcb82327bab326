#include "dose_plan_waters.hpp"

#include <map>

using namespace padwalk;
using namespace padwalk::chemistry_tests;
using namespace padwalk::chemistry;
using Catch::Matchers::WithinAbs;

TEST_CASE(
    "dose plan: a thousand random waters land in their band when simulated from the rounded amounts, or say why not")
{
    std::map<Outcome, int> count;
    int no_water = 0, for_alkalinity = 0;
    std::size_t n = 0;
    for (auto const& one : thousand_waters())
    {
        INFO("water " << n++ << ", " << one.volume.value() / exact::us_gallon << " gal, pH " << one.now.ph.value()
                      << ", alkalinity " << one.now.alkalinity.value() * 1e3 << ", calcium "
                      << one.now.calcium.value() * 1e3 << ", cyanurate " << one.now.cyanurate.value() * 1e3
                      << ", chlorine " << one.now.free_chlorine.value() * 1e3);
        try
        {
            (void)equilibria().at_ph(composition_of(one.now), one.now.ph);
        }
        catch (figures::NotComputed const&) // more cyanurate than the alkalinity has room for
        {
            ++no_water;
            CHECK_THROWS_AS(plan(one), figures::NotComputed);
            continue;
        }
        auto const got = plan(one);
        ++count[got.outcome];
        for_alkalinity += got.outcome == Outcome::replace_water && got.because == "alkalinity" ? 1 : 0;
        INFO(got.answer);
        check_rules(one, got);
        auto const start = outside(one.targets, equilibria().at_ph(composition_of(one.now), one.now.ph));
        CHECK(start.empty() == (got.outcome == Outcome::nothing_to_do));
        if (got.outcome == Outcome::cannot)
        {
            CHECK(got.steps.empty());
            continue;
        }
        for (bool metric : {false, true})
        {
            auto const end = simulated(one, got, metric);
            auto const left = outside(one.targets, end);
            INFO((metric ? "metric: " : "household: ") << listed(left));
            CHECK(left.empty());
            if (!metric)
            {
                CHECK_THAT(end.ph().value(), WithinAbs(got.end.readings.ph.value(), 1e-4));
                CHECK_THAT(end.saturation(Mineral::calcite), WithinAbs(got.end.saturation.value(), 1e-3));
            }
        }
        CHECK((got.replace.value() > 0.0) == (got.outcome == Outcome::replace_water));
    }
    INFO("nothing " << count[Outcome::nothing_to_do] << ", doses " << count[Outcome::doses] << ", replace "
                    << count[Outcome::replace_water] << ", can't " << count[Outcome::cannot] << ", no such water "
                    << no_water);
    CHECK(for_alkalinity < 25); // only the highest, which would take more doses of acid than allowed
    CHECK(count[Outcome::doses] > 500);
    CHECK(count[Outcome::replace_water] > 100);
    CHECK(count[Outcome::cannot] < 5);
    CHECK(no_water < 100);
}

TEST_CASE("dose plan: replacing advice is the truth, a percent less and no dose gets there")
{
    int looked = 0;
    for (auto const& one : thousand_waters())
    {
        if (looked == 120)
            break;
        DosePlan got;
        try
        {
            got = plan(one);
        }
        catch (figures::NotComputed const&)
        {
            continue;
        }
        // where doses would do but take too many parts, rounding decides about a percent, and the words are others
        if (got.outcome != Outcome::replace_water || got.answer.find("No dose gets there: replace ") != 0)
            continue;
        ++looked;
        INFO(got.answer);
        auto const fill = one.fill_water.value_or(one.assumed_fill);
        auto const old_water = equilibria().at_ph(composition_of(one.now), one.now.ph).composition();
        auto const tap = equilibria().at_ph(composition_of(fill), fill.ph).composition();
        auto less = mixed(old_water, tap, std::max(0.0, got.replace.value() - 0.011));
        less.temperature = old_water.temperature;
        auto again = one;
        again.now = readings_of(less, equilibria().of(less).ph());
        again.may_drain = false;
        auto const without = plan(again);
        INFO(without.answer);
        CHECK(without.outcome == Outcome::cannot);
        CHECK(without.steps.empty());
        CHECK(without.replace.value() > 0.0);
        // and the share that is said then is what is left: 1.1 % of the whole, of the water that is still the old one
        CHECK(without.replace.value() < 0.011 / (1 - got.replace.value() + 0.011) + 0.0201);
    }
    CHECK(looked == 120);
}

TEST_CASE("dose plan: no plan has a product that it could do without")
{
    int looked = 0;
    for (auto one : thousand_waters())
    {
        if (looked == 100)
            break;
        DosePlan got;
        try
        {
            got = plan(one);
        }
        catch (figures::NotComputed const&)
        {
            continue;
        }
        if (got.outcome != Outcome::doses || got.products.empty())
            continue;
        ++looked;
        one.may_drain = false;
        for (auto const& left_out : got.products)
        {
            if (left_out == "sodium_thiosulfate") // waiting would do, for days
                continue;
            one.available = {"pool_salt"}; // never of use in the waters where it isn't asked for
            for (auto const& id : got.products)
                if (id != left_out && id != "pool_salt")
                    one.available.push_back(id);
            if (left_out == "pool_salt")
                one.available.erase(one.available.begin());
            if (one.available.empty())
                continue;
            auto const less = plan(one);
            INFO(got.answer << " Without " << left_out << ": " << less.answer);
            bool const air_instead =
                std::any_of(less.steps.begin(), less.steps.end(),
                            [](DoseStep const& step) { return step.kind == DoseStep::Kind::aerate; });
            CHECK((less.outcome == Outcome::cannot || air_instead)); // aeration counts as much as a product
        }
    }
    CHECK(looked == 100);
}
