#include "faults_made.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/physics/range.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <random>

namespace padwalk::tests
{
using namespace padwalk::heating;
namespace
{

constexpr double kbtu_per_hour = 1055.05585262e3 / 3600, fahrenheit_degree = 1 / 1.8;

template <class Q> Q si(double v)
{
    return units::of_si<Q>(v);
}

/// The same numbers on every machine: the engine is fixed by the standard, the distributions are written out here.
class Chance
{
public:
    explicit Chance(unsigned seed) : engine_(seed) {}
    double uniform(double a, double b) { return a + (b - a) * (static_cast<double>(engine_()) + 0.5) / 4294967296.0; }
    double normal()
    {
        double const u = uniform(0, 1), v = uniform(0, 1);
        return std::sqrt(-2 * std::log(u)) * std::cos(6.283185307179586 * v);
    }
    double factor(double ln_spread) { return std::exp(ln_spread * normal()); }

private:
    std::mt19937 engine_;
};

double spread_of(HeaterUnsure what, FiredHeaterTable const& table)
{
    for (auto const& row : table.doubts)
        if (row.what == what)
            return row.spread.value();
    return 0;
}

/// A made-up heater and what is known of it.
struct MadeHeater
{
    HeaterAsKnown known;
    FiredHeater truth;
};

MadeHeater made(Chance& chance, FiredHeaterTable const& table)
{
    MadeHeater out;
    FiredHeater h;
    h.fuel = chance.uniform(0, 1) < 0.7 ? physics::Fuel::natural_gas : physics::Fuel::propane;
    h.draft = chance.uniform(0, 1) < 0.5 ? Draft::fan : Draft::natural;
    h.plate_input = si<units::Power>(chance.uniform(100, 400) * kbtu_per_hour);
    h.plate_efficiency = si<units::Fraction>(chance.uniform(0.78, 0.84));
    h.air = si<units::Temperature>(chance.uniform(285, 308));
    h.inlet = si<units::Temperature>(chance.uniform(293, 312));
    h.altitude = si<units::Length>(0);
    h.flow = plate_flow(h, table) * chance.uniform(0.7, 1.6);
    out.known.heater = h;
    out.known.doubts = usual_heater_doubts(table);

    // The truth strays by a little less than is granted.
    auto const stray = [&](HeaterUnsure what) { return chance.factor(0.9 * spread_of(what, table)); };
    FiredHeater t = h;
    t.orifice = si<units::Number>(stray(HeaterUnsure::input));
    t.gas_heat = si<units::Number>(stray(HeaterUnsure::gas_heat));
    t.plate_efficiency = h.plate_efficiency * stray(HeaterUnsure::efficiency);
    t.flow = h.flow * stray(HeaterUnsure::flow);
    t.rated_excess = si<units::Fraction>((1 + table.excess_air(h.draft)) * stray(HeaterUnsure::excess_air) - 1);
    t.jacket = si<units::Fraction>(table.jacket.value.value() * stray(HeaterUnsure::jacket));
    out.truth = t;
    return out;
}

/// The truth with its fault, which is a little other than the model's own: some soot with the scale, some less air.
FiredHeater fall_ill(FiredHeater const& truth, HeaterFaultRule const& rule, Chance& chance,
                     FiredHeaterTable const& table)
{
    auto const severity = si<units::Fraction>(chance.uniform(rule.mildest.value(), 1));
    FiredHeater out = with_heater_fault(truth, rule.fault, severity, table);
    out.scale = out.scale + si<units::Number>(chance.uniform(0, 0.03));
    out.soot = out.soot + si<units::Number>(chance.uniform(0, 0.03));
    out.air_way = out.air_way * chance.factor(0.02);
    out.bypass = si<units::Fraction>(std::clamp(
        out.bypass.value_or(si<units::Fraction>(table.bypass.value.value())).value() + 0.05 * chance.normal(), 0.0,
        0.9));
    return out;
}

/// Doubts as in data/instruments.yaml: a pair of thermometers 0.2 degF each, a meter's dial 1 % and a watch 0.5 s in
/// 40 s, a flue thermometer 5 degF, an analyser 0.3 % oxygen and the larger of 3 ppm and 5 %, a flow meter 5 %.
std::vector<HeaterRead> readings(FiredHeater const& sick, HeaterQuestion const& question, Chance& chance,
                                 FiredHeaterTable const& table)
{
    HeaterState const s = fire(sick, table);
    std::vector<HeaterRead> out;
    auto const read = [&](HeaterGauge gauge, units::Measure measure, double value, double doubt)
    {
        units::Reading r;
        r.measure = measure;
        r.value = value + doubt * chance.normal();
        r.doubt = doubt;
        out.push_back({gauge, r});
    };
    read(HeaterGauge::rise, units::Measure::temperature_difference, units::in_si(s.rise_shown),
         0.2 * std::sqrt(2.0) * fahrenheit_degree);
    if (question.flow_metered)
        read(HeaterGauge::flow_meter, units::Measure::volume_flow, units::in_si(sick.flow),
             0.05 * units::in_si(sick.flow));
    if (question.gauges == HeaterGaugeSet::thermometers)
        return out;
    read(HeaterGauge::clocked_input, units::Measure::power, units::in_si(s.clocked),
         std::hypot(0.01, 0.5 / 40) * units::in_si(s.clocked));
    if (question.gauges == HeaterGaugeSet::meter)
        return out;
    read(HeaterGauge::flue_temperature, units::Measure::temperature, units::in_si(s.flue), 5 * fahrenheit_degree);
    read(HeaterGauge::oxygen, units::Measure::fraction, s.oxygen.value(), 0.003);
    // No law of carbon monoxide is the flame's own.
    double const monoxide = s.monoxide.value() * chance.factor(0.9 * spread_of(HeaterUnsure::carbon_monoxide, table));
    read(HeaterGauge::carbon_monoxide, units::Measure::gas_fraction, monoxide, std::max(3e-6, 0.05 * monoxide));
    return out;
}

struct Scored
{
    HeaterFaultKind kind;
    HeaterSide side;
    double score;
};

std::vector<Scored> score(HeaterComparison& comparison, FiredHeaterTable const& table)
{
    std::vector<Scored> out;
    for (auto const& suspicion : heater_suspicions(table))
        if (auto const account = comparison.with(suspicion))
            out.push_back({suspicion.fault, table.fault(suspicion.fault).side, account->log_likelihood});
    std::stable_sort(out.begin(), out.end(), [](Scored const& a, Scored const& b) { return a.score > b.score; });
    return out;
}

HeaterSide likeliest_side(std::vector<Scored> const& ranked)
{
    std::map<HeaterSide, double> weight;
    for (auto const& s : ranked)
        weight[s.side] += std::exp(s.score - ranked.front().score);
    return std::max_element(weight.begin(), weight.end(),
                            [](auto const& a, auto const& b) { return a.second < b.second; })
        ->first;
}

void count(HeaterRanks& out, HeaterFaultRule const& truth, std::vector<Scored> const& ranked, double sound)
{
    auto const at = std::find_if(ranked.begin(), ranked.end(), [&](Scored const& s) { return s.kind == truth.fault; });
    int const rank = static_cast<int>(at - ranked.begin()) + 1;
    bool const side = likeliest_side(ranked) == truth.side;
    ++out.heaters;
    out.first += rank == 1;
    out.in_three += rank <= 3;
    out.side_first += side;
    out.called_sound += sound >= ranked.front().score;
    out.mean_rank += rank;
    auto const side_name = fields::words_of<HeaterSide>::words().at(static_cast<std::size_t>(truth.side));
    for (auto* one : {&out.by_fault[truth.name], &out.by_side[side_name]})
    {
        ++one->heaters;
        one->first += rank == 1;
        one->in_three += rank <= 3;
        one->side += side;
    }
}

/// What the judged figures might truly be.
FiredHeaterTable other_laws(FiredHeaterTable table, Chance& chance)
{
    auto const change = [&](HeaterRule& rule, double spread) { rule.value = rule.value * chance.factor(spread); };
    change(table.gas_exponent, 0.15);
    change(table.water_share, 0.4);
    table.bypass.value = si<units::Number>(chance.uniform(0.2, 0.6));
    change(table.soot_air, 0.4);
    auto& m = table.monoxide;
    for (auto* share : {&m.short_below, &m.short_tenfold, &m.recirculated_tenfold, &m.over_fired_tenfold})
        *share = *share * chance.factor(0.3);
    m.sound = m.sound * chance.factor(0.5);
    table.plate.rise = table.plate.rise * chance.factor(0.2);
    return table;
}

} // namespace

HeaterFalseAlarms heater_false_alarms(int heaters, HeaterQuestion const& question, FiredHeaterTable const& table)
{
    HeaterFalseAlarms out;
    for (unsigned seed = 1; out.heaters < heaters; ++seed)
    {
        Chance chance(seed);
        MadeHeater const m = made(chance, table);
        FiredHeaterTable const laws = question.other_laws ? other_laws(table, chance) : table;
        try
        {
            HeaterComparison comparison(m.known, readings(m.truth, question, chance, laws), table);
            double const over = score(comparison, table).front().score - comparison.sound().log_likelihood;
            ++out.heaters;
            out.even += over > 0;
            out.twenty += over > std::log(20.0);
        }
        catch (figures::NotComputed const&)
        {
            // This one would have to condense. The next seed.
        }
    }
    return out;
}

HeaterRanks rank_heater_faults(int heaters, HeaterQuestion const& question, FiredHeaterTable const& table)
{
    HeaterRanks out;
    out.kinds = static_cast<double>(table.faults.size());
    for (unsigned seed = 1; out.heaters < heaters; ++seed)
    {
        Chance chance(seed);
        auto const& truth = table.faults[seed % table.faults.size()];
        try
        {
            MadeHeater const m = made(chance, table);
            FiredHeaterTable const laws = question.other_laws ? other_laws(table, chance) : table;
            auto const read = readings(fall_ill(m.truth, truth, chance, laws), question, chance, laws);
            HeaterComparison comparison(m.known, read, table);
            count(out, truth, score(comparison, table), comparison.sound().log_likelihood);
        }
        catch (figures::NotComputed const&)
        {
            // This heater would boil or go out: nobody reads instruments on it. The next seed.
        }
    }
    out.mean_rank /= std::max(1, out.heaters);
    return out;
}

} // namespace padwalk::tests
