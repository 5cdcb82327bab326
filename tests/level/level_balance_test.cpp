#include "catch_compat.hpp"

#include "run_model.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/level/level_balance.hpp"
#include "padwalk/physics/water.hpp"
#include "padwalk/units/definitions.hpp"

#include <cmath>

using namespace padwalk;
using namespace padwalk::level_tests;
using namespace padwalk::units::exact;
using level::LevelMark;
using level::LevelRecord;
using level::LevelStretch;

namespace
{

constexpr double inch_a_day = inch / day;

template <class Q> units::Measured<Q> measured(double value, double doubt)
{
    return {units::of_si<Q>(value), units::of_si<units::Difference<Q>>(doubt), "made"};
}

level::BalanceFacts const& facts()
{
    static level::BalanceFacts const f = level::balance_facts(data());
    return f;
}

constexpr double u = inch / 32;

LevelMark mark(double hours, double fall_in, std::optional<double> bucket_in = std::nullopt)
{
    LevelMark m;
    m.at = units::of_si<units::Duration>(hours * hour);
    m.fall = measured<units::Length>(fall_in * inch, u);
    if (bucket_in)
        m.bucket_fall = measured<units::Length>(*bucket_in * inch, u);
    return m;
}

LevelStretch pump(double share)
{
    LevelStretch s;
    s.pump = units::of_si<units::Fraction>(share);
    return s;
}

LevelRecord two_marks(double hours, double fall_in, std::optional<double> bucket_in = std::nullopt)
{
    LevelRecord r;
    r.marks = {mark(0, 0, bucket_in ? std::optional(0.0) : std::nullopt), mark(hours, fall_in, bucket_in)};
    r.stretches = {pump(0)};
    return r;
}

level::LevelWeather weather()
{
    return {measured<units::Temperature>(celsius_zero + 28, 0), measured<units::Temperature>(celsius_zero + 25, 0),
            measured<units::Fraction>(0.5, 0), measured<units::Velocity>(0.5, 0)};
}

double in_a_day(units::Velocity v)
{
    return units::in_si(v) / inch_a_day;
}

} // namespace

TEST_CASE("level balance: two marks without weather, by the closed form of its doubt")
{
    // Usual evaporation 0.25 in/day; spread 60 % persisting, 20 % a day.
    for (int const days : {1, 4})
    {
        auto const b = level::level_balance(two_marks(24.0 * days, 0.5 * days), facts());
        double const e = 0.25, marks = 2.0 / (32.0 * 32.0);
        double const s = std::sqrt(marks / (days * days) + e * e * (0.36 + 0.04 / days));
        CHECK(std::abs(in_a_day(b.leak.estimate.value) - 0.25) <= 1e-9);
        CHECK(std::abs(in_a_day(b.leak.estimate.doubt) - s) <= 1e-9);
        CHECK(std::abs(in_a_day(b.least_shown) - 2 * 1.6448536 * s) <= 1e-6);
        CHECK(!b.off); // one state of the pump only
        CHECK(b.degrees == 1);
        CHECK(std::abs(b.chi_squared - std::pow(0.25 / s, 2)) <= 1e-9);
        CHECK(std::abs(b.chi_squared_with_leak) <= 1e-9);
    }
}

TEST_CASE("level balance: a bucket measures the evaporation, by the least squares of two readings worked by hand")
{
    // Pool 0.6 in, bucket 0.4 in over a day; evaporation foretold 0.25 in.
    double const e = 0.25, z = 0.4, marks = 2.0 / (32.0 * 32.0);
    double const foretold = e * e * (0.36 + 0.04), seen = marks + 0.01 * z * z;
    double const size = e + (z - e) * foretold / (foretold + seen); // what spreads are shares of
    double const before = size * size * (0.36 + 0.04), bucket = marks + 0.01 * size * size;
    double const gain = before / (before + bucket);
    auto const b = level::level_balance(two_marks(24, 0.6, z), facts());
    CHECK(std::abs(in_a_day(b.leak.estimate.value) - (0.6 - (e + gain * (z - e)))) <= 1e-9);
    CHECK(std::abs(in_a_day(b.leak.estimate.doubt) - std::sqrt(marks + bucket * gain)) <= 1e-9);
}

TEST_CASE("level balance: a known fall is the sum of its parts")
{
    LevelRecord r = two_marks(48, 0.0);
    r.area = units::of_si<units::Area>(400 * square_foot);
    r.weather = weather();
    auto& s = r.stretches.front();
    s.rain = measured<units::Length>(0.3 * inch, 0);
    s.fill = level::FillState::open;
    s.filled = measured<units::Volume>(100 * us_gallon, 0);
    s.backwash = measured<units::Volume>(150 * us_gallon, 0);
    s.bather_time = units::of_si<units::Duration>(10 * hour);
    s.covered = measured<units::Fraction>(0.5, 0);
    auto const b = level::level_balance(r, facts());
    double evaporation = 0; // the mean of the two forms, by the room's own figure, half of it covered to 95 %
    for (auto const form : {level::EvaporationForm::ashrae, level::EvaporationForm::smith})
    {
        level::OpenWater const open{weather().water.value, weather().air.value, weather().humidity.value,
                                    weather().wind.value};
        evaporation += units::in_si(level::evaporation_flux(open, form, level::Activity::still, facts().evaporation) /
                                    physics::density(open.water_temperature)) /
                       2;
    }
    double const area = 400 * square_foot;
    double const expected =
        evaporation * 2 * day * (1 - 0.5 * 0.95) - 0.3 * inch + 50 * us_gallon / area + 10 * 4 * litre / area;
    CHECK(std::abs(units::in_si(b.foretold.back().fall.value) - expected) <= 1e-9);
    CHECK(b.foretold.front().fall.value == units::Length());
}

TEST_CASE("level balance: stirred water and falling sheets evaporate more, by the factors of the form")
{
    LevelRecord r = two_marks(24, 0.0);
    r.weather = weather();
    r.area = units::of_si<units::Area>(40);
    auto const evaporated = [&] { return units::in_si(level::level_balance(r, facts()).foretold.back().fall.value); };
    double const still = evaporated();
    r.stretches.front().activity = level::Activity::jets;
    r.stretches.front().activity_share = units::of_si<units::Fraction>(0.25);
    CHECK(std::abs(evaporated() / still - (1 + 0.25 * (1.15 / 0.74 - 1))) <= 1e-9);
    r.stretches.front().activity = level::Activity::still;
    r.stretches.front().falling_area = units::of_si<units::Area>(4);
    CHECK(std::abs(evaporated() / still - (1 + 0.25 * 0.1 * 1.15 / 0.74)) <= 1e-9);
}

TEST_CASE("level balance: the doubt of what is foretold, part by part")
{
    LevelRecord r = two_marks(24, 0.0);
    r.weather = weather();
    r.weather->wind.doubt = units::of_si<units::Velocity>(0.2);
    auto const expected = [](double persisting, double of_a_day)
    {
        double mean = 0, square = 0, variance = 0;
        for (auto const form : {level::EvaporationForm::ashrae, level::EvaporationForm::smith})
        {
            auto const fall = [&](double wind)
            {
                level::OpenWater const open{weather().water.value, weather().air.value, weather().humidity.value,
                                            units::of_si<units::Velocity>(wind)};
                return units::in_si(level::evaporation_flux(open, form, level::Activity::still, facts().evaporation) /
                                    physics::density(open.water_temperature)) *
                       day;
            };
            double const e = fall(0.5), move = (fall(0.7) - fall(0.3)) / 2;
            mean += e / 2;
            square += e * e / 2;
            variance += ((e * e + move * move) * (persisting * persisting + of_a_day * of_a_day) + move * move) / 2;
        }
        return std::sqrt(variance + square - mean * mean);
    };
    auto const doubt = [&] { return units::in_si(level::level_balance(r, facts()).foretold.back().fall.doubt); };
    CHECK(std::abs(doubt() / expected(std::hypot(0.15, 0.15), 0.2) - 1) <= 1e-9); // form, one weather, a day
    r.stretches.front().weather = r.weather;
    CHECK(std::abs(doubt() / expected(0.15, 0.1) - 1) <= 1e-9); // form, a day under its own weather
}

TEST_CASE("level balance: the more it falls the more it leaks and the surer, whenever the bucket came")
{
    double last_mean = -1, last_none = 2;
    for (double const fall : {0.1, 0.3, 0.5, 0.8, 1.5})
    {
        LevelRecord r;
        r.weather = weather();
        r.marks = {mark(0, 0), mark(12, fall / 4, 0), mark(48, fall, 0.45)};
        r.stretches = {pump(0), pump(0)};
        auto const b = level::level_balance(r, facts());
        CHECK(in_a_day(b.leak.mean) > last_mean);
        CHECK(b.odds.none.value() < last_none);
        last_mean = in_a_day(b.leak.mean);
        last_none = b.odds.none.value();
        CHECK(b.leak.low <= b.leak.median);
        CHECK(b.leak.median <= b.leak.high);
    }
    CHECK(last_none < 0.01);
}

TEST_CASE("level balance: when the clock starts and a mark that nobody could read change nothing")
{
    LevelRecord r;
    r.weather = weather();
    r.marks = {mark(0, 0), mark(20, 0.5), mark(47, 1.2)};
    r.stretches = {pump(1), pump(0)};
    auto const b = level::level_balance(r, facts());
    LevelRecord later = r;
    for (auto& m : later.marks)
        m.at = m.at + units::of_si<units::Duration>(1000 * hour);
    auto const c = level::level_balance(later, facts());
    CHECK(std::abs(in_a_day(b.leak.mean) - in_a_day(c.leak.mean)) <= 1e-9);
    CHECK(std::abs(b.odds.log_ratio - c.odds.log_ratio) <= 1e-9);
    LevelRecord split = r;
    split.marks.insert(split.marks.begin() + 1, mark(10, 0.25));
    split.marks[1].fall.doubt = units::of_si<units::Length>(1e3);
    split.stretches = {pump(1), pump(1), pump(0)};
    auto const d = level::level_balance(split, facts());
    CHECK(std::abs(in_a_day(b.leak.mean) - in_a_day(d.leak.mean)) <= 1e-4);
    CHECK(std::abs(in_a_day(b.on->mean) - in_a_day(d.on->mean)) <= 1e-4);
    CHECK(std::abs(b.odds.log_ratio - d.odds.log_ratio) <= 1e-3);
}

TEST_CASE("level balance: more lost with the pump on points to the pressure side, less to the suction, alike to the "
          "shell (the inferences of leak_facts)")
{
    auto const places = [](double on_in, double off_in)
    {
        LevelRecord r;
        r.weather = weather();
        double fall = 0;
        r.marks = {mark(0, 0, 0)};
        for (int i = 1; i <= 6; ++i)
        {
            fall += i % 2 == 1 ? on_in : off_in;
            r.marks.push_back(mark(12 * i, fall, 0.15 * i));
            r.stretches.push_back(pump(i % 2));
        }
        return level::level_balance(r, facts());
    };
    auto const likeliest = [](level::LevelBalance const& b)
    {
        auto best = b.places.front();
        for (auto const& p : b.places)
            if (p.chance > best.chance)
                best = p;
        return best;
    };
    auto const pressure = places(0.65, 0.15);
    CHECK(likeliest(pressure).place == level::LeakPlace::pressure_side);
    CHECK(likeliest(pressure).chance.value() > 0.95);
    CHECK(in_a_day(pressure.off->low) == 0);
    CHECK(in_a_day(pressure.on->low) < 1.0);
    CHECK(in_a_day(pressure.on->high) > 1.0);
    CHECK(pressure.odds.none.value() < 1e-6);
    CHECK(likeliest(places(0.15, 0.65)).place == level::LeakPlace::suction_side);
    CHECK(likeliest(places(0.65, 0.65)).place == level::LeakPlace::shell);
    auto const sound = places(0.15, 0.15);
    CHECK(sound.odds.none.value() > 0.8);
    double sum = 0;
    for (auto const& p : sound.places)
        sum += p.chance.value();
    CHECK(std::abs(sum - 1) <= 1e-9);
}

TEST_CASE("level balance: rates with the pump on and off, neither below zero, against a sum over both")
{
    // A day on, a day off; inches. Usual evaporation 0.25, 60 % persisting, 20 % each day; marks of 1/32.
    double const e = 0.25, mark_variance = 1.0 / (32 * 32), p = 0.36 * e * e, d = 0.04 * e * e;
    double const v11 = p + d + 2 * mark_variance, v12 = 2 * p + d + mark_variance;
    double const v22 = 4 * p + 2 * d + 2 * mark_variance, det = v11 * v22 - v12 * v12;
    for (double const last : {0.60, 0.85})
    {
        double sum = 0, on = 0, off = 0;
        constexpr double step = 0.004;
        for (double a = step / 2; a < 1.6; a += step)
            for (double b = step / 2; b < 1.6; b += step)
            {
                double const r1 = 0.35 - e - a, r2 = last - 2 * e - a - b;
                double const weight = std::exp(-(v22 * r1 * r1 - 2 * v12 * r1 * r2 + v11 * r2 * r2) / (2 * det));
                sum += weight;
                on += a * weight;
                off += b * weight;
            }
        LevelRecord r;
        r.marks = {mark(0, 0), mark(24, 0.35), mark(48, last)};
        r.stretches = {pump(1), pump(0)};
        auto const balance = level::level_balance(r, facts());
        REQUIRE(balance.on);
        CHECK(std::abs(in_a_day(balance.on->mean) - on / sum) <= 5e-4);
        CHECK(std::abs(in_a_day(balance.off->mean) - off / sum) <= 5e-4);
    }
}

TEST_CASE("level balance: a pump whose time is not known leaves the sides alike beforehand")
{
    LevelRecord r = two_marks(24, 1.5);
    r.stretches.front().pump = std::nullopt;
    auto const b = level::level_balance(r, facts());
    CHECK(!b.off);
    CHECK(std::abs(b.places[1].log_likelihood - b.places[2].log_likelihood) <= 0.2); // rests of 60 and 70 % differ
    CHECK(b.odds.none.value() < 0.1);
}

TEST_CASE("level balance: an open fill of unknown flow says next to nothing, a metered one all")
{
    LevelRecord r = two_marks(24, 0.3);
    r.area = units::of_si<units::Area>(400 * square_foot);
    auto const shut = level::level_balance(r, facts());
    r.stretches.front().fill = level::FillState::open;
    auto const open = level::level_balance(r, facts());
    CHECK(in_a_day(open.least_shown) > 20 * in_a_day(shut.least_shown));
    r.stretches.front().fill = level::FillState::unknown;
    CHECK(level::level_balance(r, facts()).least_shown == open.least_shown);
    // 124.7 gallons more in, half an inch less fall: the same balance
    r.stretches.front().fill = level::FillState::open;
    r.stretches.front().filled = measured<units::Volume>(0.5 * inch * 400 * square_foot, 0);
    r.marks.back().fall = measured<units::Length>((0.3 - 0.5) * inch, u);
    auto const metered = level::level_balance(r, facts());
    CHECK(std::abs(in_a_day(metered.leak.mean) - in_a_day(shut.leak.mean)) <= 1e-9);
    CHECK(std::abs(metered.odds.log_ratio - shut.odds.log_ratio) <= 1e-9);
}

TEST_CASE("watch longer: until the least leak shown is the one that is sought, by the closed form")
{
    auto const leak = units::of_si<units::Velocity>(1.0 * inch_a_day);
    auto const r = two_marks(2, 0.04);
    auto const more = level::watch_longer(r, leak, facts());
    REQUIRE(more);
    // Within the first day, as the two marks: 2u²/T² + E²(0.36 + 0.04) = (leak/3.29)², T in days
    double const e = 0.25, wanted = 1.0 / (2 * 1.6448536);
    double const t = std::sqrt(2.0 / (32.0 * 32.0) / (wanted * wanted - e * e * 0.4));
    // the middle mark of three helps a little; a quarter of an hour is the step
    CHECK(units::in_si(*more) / hour <= t * 24 - 2 + 0.25);
    CHECK(units::in_si(*more) / hour >= t * 24 - 2 - 1);
    CHECK(level::watch_longer(two_marks(48, 0.5), leak, facts()) == units::Duration());
    // 60 % of 0.25 in/day persist: no watching shows less than 0.49 in/day; with a bucket it does
    auto const small = units::of_si<units::Velocity>(0.2 * inch_a_day);
    CHECK(!level::watch_longer(two_marks(12, 0.1), small, facts()));
    auto const by_bucket = level::watch_longer(two_marks(12, 0.1, 0.1), small, facts());
    REQUIRE(by_bucket);
    CHECK(units::in_si(*by_bucket) > 12 * hour);
    CHECK(units::in_si(*by_bucket) < 4 * day);
}

TEST_CASE("level balance: what can't be weighed is refused with a reason")
{
    auto const why = [](LevelRecord const& r) -> std::string
    {
        try
        {
            (void)level::level_balance(r, facts());
        }
        catch (figures::NotComputed const& e)
        {
            return e.what();
        }
        return {};
    };
    LevelRecord one = two_marks(24, 0.3);
    one.marks.pop_back();
    one.stretches.clear();
    CHECK(why(one) == "there is one mark only; a second one, a day later, would tell");
    CHECK(why(two_marks(0, 0.3)) == "marks must follow each other in time");
    LevelRecord exact = two_marks(24, 0.3);
    exact.marks.back().fall.doubt = units::Length();
    CHECK(why(exact) == "every mark needs a doubt above zero");
    LevelRecord filled = two_marks(24, 0.3);
    filled.stretches.front().filled = measured<units::Volume>(0.1, 0);
    CHECK(why(filled) == "needs area: water that came in or was let out, and bathers, count by volume");
    LevelRecord odd = two_marks(24, 0.3);
    odd.stretches.push_back(pump(0));
    CHECK(why(odd) == "between every two marks lies one stretch");
    odd = two_marks(24, 0.3);
    odd.stretches.front().pump = units::of_si<units::Fraction>(1.5);
    CHECK(why(odd) == "a share of time or of surface lies between 0 and 100 %");
}

TEST_CASE("level balance: the share that a cover stops is the one that the heat losses know")
{
    auto const& other = data().file("heating/heat_loss.yaml").at("cover_cut").at("value").text;
    CHECK(facts().table.cover_cut.value.value() == std::stod(other));
}
