#include "faults_made.hpp"
#include "plant_made.hpp"

#include "padwalk/circulation/head.hpp"
#include "padwalk/figures/model.hpp"
#include "padwalk/physics/water.hpp"

#include <cmath>
#include <random>

using namespace padwalk;
using namespace padwalk::circulation;
using namespace padwalk::tests;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace
{

SoundLoopTable const& sound_table()
{
    static SoundLoopTable const table = sound_loop_table(tests::data_from_folder());
    return table;
}

LoopAsKnown known(std::vector<LoopDoubt> doubts = {})
{
    LoopAsKnown out;
    out.plant = house();
    out.doubts = std::move(doubts);
    return out;
}

GaugeRead gauge(LoopGauge which, std::optional<units::GaugePressure> const& shown, double doubt_psi = 1,
                double off_psi = 0)
{
    double const one = 6894.757;
    units::Reading r;
    r.measure = units::Measure::gauge_pressure;
    r.value = units::in_si(*shown) + off_psi * one;
    r.doubt = doubt_psi * one;
    return {which, r};
}

/// Both gauges of this state.
std::vector<GaugeRead> both(PlantState const& s, double filter_off_psi = 0)
{
    return {gauge(LoopGauge::suction, s.gauges.pump_suction, 0.5),
            gauge(LoopGauge::filter, s.gauges.filter_in, 1, filter_off_psi)};
}

std::vector<LoopDoubt> some_doubts()
{
    return {{Unsure::pump_head, number(0.05)},
            {Unsure::pump_flow, number(0.05)},
            {Unsure::suction_loss, number(0.15)},
            {Unsure::return_loss, number(0.15)},
            {Unsure::filter_loss, number(0.2)}};
}

Suspicion suspect(PlantFaultKind kind, double least = 0.05, double most = 1)
{
    return {kind, share(least), share(most), {}, false};
}

} // namespace

TEST_CASE("a loop that is known well shows what solve() of its plant gives, with no doubt of its own", "[circulation]")
{
    auto const s = state(house());
    LoopComparison const comparison(known(), both(s), tables().plant, sound_table());
    CHECK_THAT(comparison.sound().shown[0].value, WithinRel(units::in_si(*s.gauges.pump_suction), 1e-12));
    CHECK_THAT(comparison.sound().shown[1].value, WithinRel(units::in_si(*s.gauges.filter_in), 1e-12));
    // Only the error of the model is left.
    CHECK_THAT(comparison.sound().shown[1].doubt,
               WithinRel(sound_table().model_error.value.value() * units::in_si(*s.gauges.filter_in), 1e-9));
    CHECK_THAT(comparison.off(0), WithinAbs(0, 1e-9));
    CHECK_THAT(comparison.sound().chi_squared, WithinAbs(0, 1e-9));
}

TEST_CASE("the doubt of a sound loop's gauges is that of plants drawn at random with the same doubts", "[circulation]")
{
    auto const doubts = some_doubts();
    auto const s = state(house());
    LoopComparison const comparison(known(doubts), both(s), tables().plant, sound_table());
    std::mt19937 engine(7);
    std::normal_distribution<double> normal;
    constexpr int draws = 1500;
    double sum[2] = {}, squares[2] = {};
    for (int n = 0; n < draws; ++n)
    {
        Plant p = house();
        for (auto& point : p.pumps[0].curve)
            point = {point.flow, point.head};
        double const head = std::exp(0.05 * normal(engine)), flow = std::exp(0.05 * normal(engine));
        for (auto& point : p.pumps[0].curve)
            point = {point.flow * flow, point.head * head};
        double const in = std::exp(0.15 * normal(engine)), out = std::exp(0.15 * normal(engine));
        auto stretch = [](Pipe& q, double f)
        {
            q.length = q.length * f;
            q.minor_loss = q.minor_loss * f;
        };
        for (auto& one : p.suctions)
            stretch(one.pipe, in);
        stretch(p.suction_trunk, in);
        stretch(p.return_trunk, out);
        for (auto& one : p.returns)
        {
            stretch(one.pipe, out);
            one.nozzle = *one.nozzle * std::pow(out, -0.25);
        }
        p.filter->loss_factor = number(std::exp(0.2 * normal(engine)));
        auto const drawn = state(p);
        double const values[2] = {units::in_si(*drawn.gauges.pump_suction), units::in_si(*drawn.gauges.filter_in)};
        for (int i = 0; i < 2; ++i)
        {
            sum[i] += values[i];
            squares[i] += values[i] * values[i];
        }
    }
    for (int i = 0; i < 2; ++i)
    {
        auto const at = static_cast<std::size_t>(i);
        double const spread = std::sqrt(squares[i] / draws - std::pow(sum[i] / draws, 2));
        double const model = sound_table().model_error.value.value() * comparison.sound().shown[at].value;
        double const loop = std::sqrt(std::pow(comparison.sound().shown[at].doubt, 2) - model * model);
        INFO("gauge " << i);
        CHECK_THAT(loop, WithinRel(spread, 0.08)); // 1500 draws know a spread to 2 %; the rest is curvature
    }
}

TEST_CASE("readings of a loop with one fault are accounted for by that fault, at its severity", "[circulation]")
{
    using K = PlantFaultKind;
    for (K const kind : {K::clogged_basket, K::dirty_filter, K::return_valve_shut, K::impeller_clogged, K::wrong_speed})
        for (double const severity : {0.5, 0.8})
        {
            INFO("fault " << static_cast<int>(kind) << " severity " << severity);
            auto const sick = state(with_fault(house(), {kind, share(severity), {}}));
            LoopComparison comparison(known(some_doubts()), both(sick), tables().plant, sound_table());
            auto const account = comparison.with(suspect(kind, severity, severity));
            REQUIRE(account);
            CHECK_THAT(account->chi_squared, WithinAbs(0, 1e-6)); // the severities are on the grid
            auto const any = comparison.with(suspect(kind));
            CHECK_THAT(any->severity.value(), WithinAbs(severity, 0.101)); // the next may be as likely
            if (comparison.sound().chi_squared > 9)
                CHECK(account->log_likelihood > comparison.sound().log_likelihood);
        }
}

TEST_CASE("readings of a sound loop speak against every fault that moves a gauge", "[circulation]")
{
    LoopComparison comparison(known(some_doubts()), both(state(house())), tables().plant, sound_table());
    using K = PlantFaultKind;
    for (K const kind : {K::clogged_basket, K::dirty_filter, K::return_valve_shut, K::impeller_clogged, K::suction_air})
        CHECK(comparison.with(suspect(kind, 0.5, 1))->log_likelihood < comparison.sound().log_likelihood);
}

TEST_CASE("a gauge far off on a sound loop is a broken gauge, and the others say so", "[circulation]")
{
    auto const s = state(house());
    auto read = both(s, -12);
    units::Reading flow;
    flow.measure = units::Measure::volume_flow;
    flow.value = units::in_si(s.total);
    flow.doubt = 0.05 * flow.value;
    read.push_back({LoopGauge::flow_meter, flow});
    LoopComparison const comparison(known(some_doubts()), read, tables().plant, sound_table());
    CHECK(comparison.off(1) < -4);
    CHECK(comparison.log_likelihood_if_broken(1) > comparison.sound().log_likelihood + 5);
    CHECK(comparison.log_likelihood_if_broken(1) > comparison.log_likelihood_if_broken(0));
    CHECK(comparison.chi_squared_without(1) < 1);
    CHECK(comparison.chi_squared_without(0) > 9);
}

TEST_CASE("a clean reading takes away what is not known of the loop, but not a fault that came since", "[circulation]")
{
    std::vector<LoopDoubt> const wide{{Unsure::return_loss, number(0.8)}, {Unsure::pump_head, number(0.2)}};
    auto const sound = state(house()),
               dirty = state(with_fault(house(), {PlantFaultKind::dirty_filter, share(0.8), {}}));
    auto const now = gauge(LoopGauge::filter, dirty.gauges.filter_in);
    LoopComparison alone(known(wide), {now}, tables().plant, sound_table());
    LoopComparison with_clean(known(wide), {gauge(LoopGauge::filter_when_clean, sound.gauges.filter_in), now},
                              tables().plant, sound_table());
    auto const suspicion = suspect(PlantFaultKind::dirty_filter, 0.5, 1);
    double const weight_alone = alone.with(suspicion)->log_likelihood - alone.sound().log_likelihood;
    double const weight_clean = with_clean.with(suspicion)->log_likelihood - with_clean.sound().log_likelihood;
    CHECK(weight_clean > weight_alone + 1);
}

TEST_CASE("a fault as old as the loop stands in its clean reading too", "[circulation]")
{
    auto const small = state(with_fault(house(), {PlantFaultKind::undersized_pipe, share(0.8), {}}));
    std::vector<GaugeRead> read = both(small);
    read.push_back(gauge(LoopGauge::filter_when_clean, small.gauges.filter_in));
    LoopComparison comparison(known(some_doubts()), read, tables().plant, sound_table());
    auto since = suspect(PlantFaultKind::undersized_pipe), always = since;
    always.always_was = true;
    CHECK(comparison.with(always)->log_likelihood > comparison.with(since)->log_likelihood);
}

TEST_CASE("a rise measures the flow through the heater: P = rho c Q dT", "[circulation]")
{
    auto loop = known(some_doubts());
    loop.heat = q<units::Power>("80 kW");
    auto const s = state(house());
    double const expected =
        80e3 / (units::in_si(physics::density(loop.plant.water)) *
                units::in_si(physics::specific_heat(loop.plant.water)) * units::in_si(s.through_heater));
    units::Reading rise;
    rise.measure = units::Measure::temperature_difference;
    rise.value = expected;
    rise.doubt = 0.1;
    LoopComparison const comparison(loop, {{LoopGauge::heater_rise, rise}}, tables().plant, sound_table());
    CHECK_THAT(comparison.sound().shown[0].value, WithinRel(expected, 1e-9));
    CHECK_THROWS_AS(LoopComparison(known(), {{LoopGauge::heater_rise, rise}}, tables().plant, sound_table()),
                    figures::NotComputed);
}

TEST_CASE("random loops with one fault: more gauges rank the true cause better", "[circulation]")
{
    auto const rank = [](GaugeSet gauges) {
        return rank_faults(45, {gauges, true, false}, tables().plant, tables().pumps, sound_table());
    };
    auto const filter = rank(GaugeSet::filter_only), two = rank(GaugeSet::both_gauges),
               three = rank(GaugeSet::gauges_and_rise);
    CHECK(filter.mean_rank > two.mean_rank);
    CHECK(two.mean_rank > three.mean_rank);
    // By chance one in five would be among the first three of fifteen.
    CHECK(filter.in_three >= 0.5 * filter.loops);
    CHECK(two.in_three >= 0.6 * two.loops);
    CHECK(three.in_three >= 0.75 * three.loops);
    CHECK(two.place_first >= 0.5 * two.loops); // of six places
}
