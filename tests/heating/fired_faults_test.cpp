#include "padwalk/heating/fired_faults.hpp"

#include "faults_made.hpp"

#include "padwalk/figures/model.hpp"

#include "catch_compat.hpp"
#include "data_folder.hpp"

#include <cmath>
#include <random>

using namespace padwalk;
using namespace padwalk::heating;
using namespace padwalk::tests;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace
{

FiredHeaterTable const& table()
{
    static FiredHeaterTable const t = fired_heater_table(tests::data_from_folder());
    return t;
}

units::Fraction share(double value)
{
    return units::Fraction::from_value(value);
}

HeaterAsKnown known(std::vector<HeaterDoubt> doubts = {})
{
    HeaterAsKnown out;
    auto& h = out.heater;
    h.draft = Draft::natural;
    h.plate_input = units::of_si<units::Power>(90e3);
    h.plate_efficiency = share(0.81);
    h.air = table().plate.air;
    h.inlet = table().plate.inlet;
    h.flow = plate_flow(h, table());
    out.doubts = std::move(doubts);
    return out;
}

std::vector<HeaterDoubt> some_doubts()
{
    auto const spread = [](double v) { return units::Number::from_value(v); };
    return {{HeaterUnsure::input, spread(0.03)},       {HeaterUnsure::gas_heat, spread(0.02)},
            {HeaterUnsure::efficiency, spread(0.015)}, {HeaterUnsure::flow, spread(0.05)},
            {HeaterUnsure::excess_air, spread(0.05)},  {HeaterUnsure::jacket, spread(0.3)}};
}

HeaterRead gauge(HeaterGauge which, units::Measure measure, double value, double doubt)
{
    units::Reading r;
    r.measure = measure;
    r.value = value;
    r.doubt = doubt;
    return {which, r};
}

std::vector<HeaterRead> all(HeaterState const& s, units::VolumeFlow flow)
{
    using M = units::Measure;
    return {gauge(HeaterGauge::rise, M::temperature_difference, units::in_si(s.rise_shown), 0.16),
            gauge(HeaterGauge::clocked_input, M::power, units::in_si(s.clocked), 0.015 * units::in_si(s.clocked)),
            gauge(HeaterGauge::flow_meter, M::volume_flow, units::in_si(flow), 0.05 * units::in_si(flow)),
            gauge(HeaterGauge::flue_temperature, M::temperature, units::in_si(s.flue), 2.8),
            gauge(HeaterGauge::oxygen, M::fraction, s.oxygen.value(), 0.003),
            gauge(HeaterGauge::carbon_monoxide, M::gas_fraction, s.monoxide.value(), 5e-6)};
}

} // namespace

TEST_CASE("a heater that is known well shows what fire() gives, with no doubt but the model's own", "[heating]")
{
    auto const k = known();
    auto const s = fire(k.heater, table());
    HeaterComparison const comparison(k, all(s, k.heater.flow), table());
    double const model = table().model_error.value.value();
    auto const& shown = comparison.sound().shown;
    CHECK_THAT(shown[0].value, WithinRel(units::in_si(s.rise), 1e-12));
    CHECK_THAT(shown[0].doubt, WithinRel(model * units::in_si(s.rise), 1e-9));
    CHECK_THAT(shown[3].value, WithinRel(units::in_si(s.flue), 1e-12));
    CHECK_THAT(shown[3].doubt, WithinRel(model * units::in_si(s.flue - k.heater.air), 1e-9));
    CHECK_THAT(shown[5].value, WithinRel(s.monoxide.value(), 1e-9));
    CHECK_THAT(comparison.sound().chi_squared, WithinAbs(0, 1e-9));
    for (std::size_t i = 0; i < shown.size(); ++i)
        CHECK_THAT(comparison.off(i), WithinAbs(0, 1e-9));
}

TEST_CASE("the doubt of a sound heater's readings is that of heaters drawn at random with the same doubts", "[heating]")
{
    auto const k = known(some_doubts());
    HeaterComparison const comparison(k, all(fire(k.heater, table()), k.heater.flow), table());
    std::mt19937 engine(5);
    std::normal_distribution<double> normal;
    constexpr int draws = 2000;
    std::vector<double> sum(4), squares(4);
    for (int n = 0; n < draws; ++n)
    {
        auto h = k.heater;
        auto const factor = [&](double spread) { return std::exp(spread * normal(engine)); };
        h.orifice = h.orifice * factor(0.03);
        h.gas_heat = h.gas_heat * factor(0.02);
        h.plate_efficiency = h.plate_efficiency * factor(0.015);
        h.flow = h.flow * factor(0.05);
        h.rated_excess = share((1 + table().excess_air(h.draft)) * factor(0.05) - 1);
        h.jacket = share(table().jacket.value.value() * factor(0.3));
        auto const s = fire(h, table());
        double const values[] = {units::in_si(s.rise), units::in_si(s.clocked), units::in_si(s.flue), s.oxygen.value()};
        for (std::size_t i = 0; i < 4; ++i)
        {
            sum[i] += values[i];
            squares[i] += values[i] * values[i];
        }
    }
    std::size_t const at[] = {0, 1, 3, 4};
    double const model = table().model_error.value.value();
    auto const& shown = comparison.sound().shown;
    double const own[] = {model * shown[0].value, model * shown[1].value,
                          model * (shown[3].value - units::in_si(k.heater.air)), model * (0.209 - shown[4].value)};
    for (std::size_t i = 0; i < 4; ++i)
    {
        INFO("instrument " << at[i]);
        double const spread = std::sqrt(squares[i] / draws - std::pow(sum[i] / draws, 2));
        double const heater = std::sqrt(std::pow(shown[at[i]].doubt, 2) - own[i] * own[i]);
        CHECK_THAT(heater, WithinRel(spread, 0.08)); // 2000 draws know a spread to 2 %; the rest is curvature
    }
}

TEST_CASE("readings of a heater with one fault are accounted for by that fault, at its severity", "[heating]")
{
    auto const k = known(some_doubts());
    for (auto const& row : table().faults)
        for (double const severity : {0.5, 0.8})
        {
            INFO(row.name << " severity " << severity);
            auto const h = with_heater_fault(k.heater, row.fault, share(severity), table());
            HeaterComparison comparison(k, all(fire(h, table()), h.flow), table());
            auto const account = comparison.with({row.fault, share(0.05), share(1)});
            REQUIRE(account);
            // The likeliest severity may lie one step lower than the true one: a milder fault grants less doubt of its
            // shape, and so a higher density at nearly the same fit.
            CHECK(account->chi_squared < 1);
            CHECK_THAT(account->severity.value(), WithinAbs(severity, 0.1 + 1e-9));
            if (comparison.sound().chi_squared > 15)
                CHECK(account->log_likelihood > comparison.sound().log_likelihood);
        }
}

TEST_CASE("the likelihood of a fault is the mean over its severities, and its shape grants doubt as it grows",
          "[heating]")
{
    auto const k = known(some_doubts());
    auto const h = with_heater_fault(k.heater, HeaterFaultKind::gas_pressure_low, share(0.55), table());
    HeaterComparison comparison(k, all(fire(h, table()), h.flow), table());
    auto const weak = [&](double least, double most) {
        return *comparison.with({HeaterFaultKind::gas_pressure_low, share(least), share(most)});
    };
    double const both =
        std::log((std::exp(weak(0.5, 0.5).log_likelihood) + std::exp(weak(0.6, 0.6).log_likelihood)) / 2);
    CHECK_THAT(weak(0.5, 0.6).log_likelihood, WithinRel(both, 1e-9));
    // A quarter of what the fault changes, of an input as a ratio, beside the doubts and the model's error, which the
    // fault leaves nearly alone.
    double const shown = weak(0.6, 0.6).shown[1].value, sound = comparison.sound().shown[1].value;
    double const shape = table().fault_shape.value.value() * std::log(sound / shown) * shown;
    double const rest = comparison.sound().shown[1].doubt * shown / sound;
    CHECK_THAT(weak(0.6, 0.6).shown[1].doubt, WithinRel(std::hypot(shape, rest), 0.03));
}

TEST_CASE("readings of a sound heater speak against every fault that moves an instrument", "[heating]")
{
    auto const k = known(some_doubts());
    HeaterComparison comparison(k, all(fire(k.heater, table()), k.heater.flow), table());
    for (auto const& suspicion : heater_suspicions(table()))
    {
        INFO(table().fault(suspicion.fault).name);
        auto const account = comparison.with({suspicion.fault, share(0.6), share(1)});
        REQUIRE(account);
        // The heater's own bypass moves what is read very little.
        bool const hidden = suspicion.fault == HeaterFaultKind::bypass_stuck_shut;
        CHECK(account->log_likelihood < comparison.sound().log_likelihood + (hidden ? 0.5 : 0));
    }
}

TEST_CASE("an instrument far off on a sound heater is a broken instrument, and the others say so", "[heating]")
{
    auto const k = known(some_doubts());
    auto read = all(fire(k.heater, table()), k.heater.flow);
    read[4].reading.value += 0.06; // air drawn in at the probe
    HeaterComparison const comparison(k, read, table());
    CHECK(comparison.off(4) > 4);
    CHECK(comparison.log_likelihood_if_broken(4) > comparison.sound().log_likelihood + 5);
    for (std::size_t i = 0; i < read.size(); ++i)
        if (i != 4)
            CHECK(comparison.log_likelihood_if_broken(4) > comparison.log_likelihood_if_broken(i));
    CHECK(comparison.log_likelihood_of_anything() > comparison.sound().log_likelihood);
}

TEST_CASE("a reading that is known to no doubt of the heater's tells nothing of the order it stands in", "[heating]")
{
    auto const k = known(some_doubts());
    auto const h = with_heater_fault(k.heater, HeaterFaultKind::sooted_exchanger, share(0.8), table());
    auto read = all(fire(h, table()), h.flow);
    HeaterComparison forward(k, read, table());
    std::reverse(read.begin(), read.end());
    HeaterComparison backward(k, read, table());
    HeaterSuspicion const soot{HeaterFaultKind::sooted_exchanger, share(0.3), share(1)};
    CHECK_THAT(forward.with(soot)->log_likelihood, WithinRel(backward.with(soot)->log_likelihood, 1e-9));
    CHECK_THAT(forward.sound().log_likelihood, WithinRel(backward.sound().log_likelihood, 1e-9));
}

TEST_CASE("a heater that can't be fired is refused, a fault that can't be is no account", "[heating]")
{
    auto dry = known();
    dry.heater.flow = {};
    CHECK_THROWS_AS(HeaterComparison(dry, {}, table()), figures::NotComputed);
    auto slow = known();
    slow.heater.flow = slow.heater.flow * 0.25; // at the worst bypass its tubes boil
    auto const s = fire(slow.heater, table());
    HeaterComparison comparison(slow, all(s, slow.heater.flow), table());
    CHECK_FALSE(comparison.with({HeaterFaultKind::bypass_stuck_open, share(1), share(1)}));
}

TEST_CASE("random heaters with one fault: more instruments rank fault and side better, and all beat chance",
          "[heating]")
{
    constexpr int heaters = 120;
    auto const rank = [](HeaterGaugeSet gauges) {
        return rank_heater_faults(heaters, {gauges, false, false}, table());
    };
    auto const thermometers = rank(HeaterGaugeSet::thermometers), meter = rank(HeaterGaugeSet::meter),
               analyser = rank(HeaterGaugeSet::analyser);
    CHECK(thermometers.mean_rank > meter.mean_rank);
    CHECK(meter.mean_rank > analyser.mean_rank);
    CHECK(thermometers.side_first < meter.side_first);
    CHECK(meter.side_first < analyser.side_first);
    // By chance one in four would be among the first three of twelve, and one in twelve first. Calling every heater's
    // side 'gas' would be right for one in three.
    CHECK(thermometers.in_three >= 0.45 * heaters);
    CHECK(meter.in_three >= 0.6 * heaters);
    CHECK(analyser.in_three >= 0.8 * heaters);
    CHECK(thermometers.first >= 0.15 * heaters);
    CHECK(analyser.first >= 0.5 * heaters);
    CHECK(meter.side_first >= 0.45 * heaters);
    CHECK(analyser.side_first >= 0.65 * heaters);
}

TEST_CASE("random heaters that follow other judged figures than the table's are ranked nearly as well", "[heating]")
{
    constexpr int heaters = 120;
    auto const analyser = rank_heater_faults(heaters, {HeaterGaugeSet::analyser, false, true}, table());
    CHECK(analyser.in_three >= 0.75 * heaters);
    CHECK(analyser.side_first >= 0.6 * heaters);
}

TEST_CASE("of random sound heaters few are fitted twenty times better by some fault", "[heating]")
{
    constexpr int heaters = 100;
    for (auto const gauges : {HeaterGaugeSet::thermometers, HeaterGaugeSet::analyser})
        CHECK(heater_false_alarms(heaters, {gauges, false, false}, table()).twenty <= 0.05 * heaters);
}
