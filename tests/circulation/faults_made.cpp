#include "faults_made.hpp"

#include "padwalk/circulation/head.hpp"
#include "padwalk/figures/model.hpp"
#include "padwalk/physics/water.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace padwalk::tests
{
using namespace padwalk::circulation;
namespace
{

constexpr double inch = 0.0254, foot = 0.3048, psi = 6894.757, inhg = 3386.389, hp = 745.7;

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
    std::size_t pick(std::size_t n)
    {
        return std::min(n - 1, static_cast<std::size_t>(uniform(0, 1) * static_cast<double>(n)));
    }

private:
    std::mt19937 engine_;
};

Pipe pipe(double bore, double length, double k)
{
    return {si<units::Length>(bore), si<units::Length>(length), si<units::Number>(k), si<units::Length>(1.5e-6),
            si<units::Number>(150)};
}

/// A loop as someone would take it to be from a walk round it: power, bores, filter.
struct Walked
{
    LoopAsKnown known;
    Plant truth;
    double heat = 0;
};

void doubt(LoopAsKnown& known, Unsure what, double spread)
{
    known.doubts.push_back({what, si<units::Number>(spread)});
}

Walked house(Chance& chance, bool curve_known, std::vector<GenericPump> const& pumps)
{
    Walked w;
    Plant p;
    bool const big = chance.uniform(0, 1) < 0.5;
    double const bore = big ? 2.058 * inch : 1.601 * inch;
    double const power = (big ? chance.uniform(1.0, 2.5) : chance.uniform(0.5, 1.25)) * hp;
    p.suctions = {{"suction", SuctionKind::skimmer, 0, pipe(bore, 40 * foot, 5), {}}};
    p.suction_trunk = pipe(bore, 3 * foot, 1);
    PlantPump pump;
    pump.name = "pump";
    pump.curve = generic_curve(si<units::Power>(power), pumps);
    p.pumps = {pump};
    FilterMedium const medium =
        std::array{FilterMedium::sand, FilterMedium::cartridge, FilterMedium::precoat}[chance.pick(3)];
    double const area = (medium == FilterMedium::sand        ? 4.0
                         : medium == FilterMedium::cartridge ? 200.0
                                                             : 48.0) *
                        foot * foot * (big ? 1.0 : 0.6);
    p.filter = PlantFilter{medium, si<units::Area>(area), si<units::Fraction>(0.1), {}};
    p.heater = PlantHeater{};
    p.heater->loss = si<units::Number>(16);
    p.return_trunk = pipe(bore, 15 * foot, 3);
    PlantReturn r;
    r.name = "returns";
    r.pipe = pipe(bore, 45 * foot, 6);
    r.nozzle = si<units::Length>(0.75 * inch);
    r.nozzles = big ? 4 : 2;
    p.returns = {r};
    p.pad_height = si<units::Length>(0.5);
    p.water = si<units::Temperature>(300.15);
    w.known.plant = p;

    // What it really is: pipes, fittings, filter, openings, height and pump of its own.
    Plant t = p;
    double const s = chance.factor(0.4), ret = chance.factor(0.4);
    auto stretch = [](Pipe& q, double f)
    {
        q.length = q.length * f;
        q.minor_loss = q.minor_loss * f;
    };
    stretch(t.suctions[0].pipe, s);
    stretch(t.suction_trunk, s);
    stretch(t.return_trunk, ret);
    stretch(t.returns[0].pipe, ret);
    t.returns[0].nozzle = *t.returns[0].nozzle * chance.factor(0.08);
    t.filter->loss_factor = si<units::Number>(chance.factor(0.3));
    t.filter->loading = si<units::Fraction>(chance.uniform(0, 0.25));
    t.heater->loss = *t.heater->loss * chance.factor(0.4);
    t.pad_height = si<units::Length>(0.5 + 0.4 * chance.normal());
    double const h = chance.factor(curve_known ? 0.03 : 0.12), q = chance.factor(curve_known ? 0.03 : 0.18);
    for (auto& point : t.pumps[0].curve)
        point = {point.flow * q, point.head * h};
    w.truth = t;
    doubt(w.known, Unsure::pump_head, curve_known ? 0.04 : 0.15);
    doubt(w.known, Unsure::pump_flow, curve_known ? 0.04 : 0.22);
    doubt(w.known, Unsure::suction_loss, 0.45);
    doubt(w.known, Unsure::return_loss, 0.5);
    doubt(w.known, Unsure::filter_loss, 0.35);
    doubt(w.known, Unsure::filter_loading, 0.1);
    doubt(w.known, Unsure::heater_loss, 0.45);
    doubt(w.known, Unsure::pump_height, 0.5);
    w.heat = chance.uniform(150e3, 400e3) * 0.293071 * 0.8;
    return w;
}

/// The truth with its fault, which is a little other than the model's own.
struct Sick
{
    std::string name;
    Plant plant;
    double heat_left = 1;
    std::optional<LoopGauge> stuck;
};

Sick fall_ill(Walked const& w, Chance& chance, std::size_t which)
{
    auto const& list = suspicions();
    if (which >= list.size())
    {
        bool const filter = which == list.size();
        return {filter ? "filter gauge broken" : "vacuum gauge broken", w.truth, 1,
                filter ? LoopGauge::filter : LoopGauge::suction};
    }
    auto const& s = list[which].suspicion;
    double const severity = chance.uniform(s.least.value(), s.most.value());
    Sick out{list[which].name, w.truth, 1 - s.heat_lost.value() * severity, std::nullopt};
    if (s.fault)
        out.plant = with_fault(w.truth, {*s.fault, si<units::Fraction>(severity)});
    // No two faults are alike: some more wear or air than the model's fault has.
    for (auto& pump : out.plant.pumps)
        for (auto& point : pump.curve)
            point = {point.flow * chance.factor(0.03), point.head * chance.factor(0.03)};
    auto& curve = out.plant.pumps[0].curve;
    std::sort(curve.begin(), curve.end(), [](auto const& a, auto const& b) { return a.flow < b.flow; });
    return out;
}

void read(std::vector<GaugeRead>& to, LoopGauge gauge, units::Measure measure, double value, double doubt,
          Chance& chance)
{
    units::Reading r;
    r.measure = measure;
    r.value = value + doubt * chance.normal();
    r.doubt = doubt;
    to.push_back({gauge, r});
}

double gauge_doubt(double pascal)
{
    return std::max(1.0 * psi, 0.02 * std::abs(pascal));
}

std::optional<std::vector<GaugeRead>> readings(Walked const& w, Sick const& sick, RankQuestion const& question,
                                               PlantTable const& plants, Chance& chance)
{
    std::vector<GaugeRead> out;
    PlantState const now = solve(sick.plant, plants);
    Plant clean = w.truth;
    clean.filter->loading = {};
    PlantState const then = solve(sick.name == "undersized pipe" ? sick.plant : clean, plants);
    if (now.boils_at_pump)
        return std::nullopt; // no loop runs so
    double const filter =
        sick.stuck == LoopGauge::filter ? chance.uniform(0, 35) * psi : units::in_si(*now.gauges.filter_in);
    double const suction =
        sick.stuck == LoopGauge::suction ? chance.uniform(-20, 0) * inhg : units::in_si(*now.gauges.pump_suction);
    if (question.clean_known)
    {
        double const v = units::in_si(*then.gauges.filter_in);
        read(out, LoopGauge::filter_when_clean, units::Measure::gauge_pressure, v, gauge_doubt(v), chance);
    }
    read(out, LoopGauge::filter, units::Measure::gauge_pressure, filter, gauge_doubt(filter), chance);
    if (question.gauges != GaugeSet::filter_only)
        read(out, LoopGauge::suction, units::Measure::gauge_pressure, suction, 1 * inhg, chance);
    if (question.gauges == GaugeSet::gauges_and_rise)
    {
        double const capacity = units::in_si(physics::density(w.truth.water)) *
                                units::in_si(physics::specific_heat(w.truth.water)) * units::in_si(now.through_heater);
        double const rise = w.heat * chance.factor(0.06) * sick.heat_left / capacity;
        read(out, LoopGauge::heater_rise, units::Measure::temperature_difference, rise, 0.16, chance);
    }
    return out;
}

struct Scored
{
    std::string name;
    double score;
};

/// A pump that draws air is as weak as a worn one, and shows it at the same gauges.
std::string place_of(std::string const& name)
{
    for (auto const& s : suspicions())
        if (s.name == name)
            return s.place;
    return "gauge";
}

std::vector<Scored> score(LoopComparison& comparison)
{
    std::vector<Scored> out;
    for (auto const& s : suspicions())
        if (auto const account = comparison.with(s.suspicion))
            out.push_back({s.name, account->log_likelihood});
    for (std::size_t i = 0; i < comparison.read().size(); ++i)
    {
        LoopGauge const g = comparison.read()[i].gauge;
        if (g == LoopGauge::filter || g == LoopGauge::suction)
            out.push_back({g == LoopGauge::filter ? "filter gauge broken" : "vacuum gauge broken",
                           comparison.log_likelihood_if_broken(i)});
    }
    std::stable_sort(out.begin(), out.end(), [](Scored const& a, Scored const& b) { return a.score > b.score; });
    return out;
}

} // namespace

std::vector<NamedSuspicion> const& suspicions()
{
    auto one = [](PlantFaultKind kind, double least, double most) {
        return Suspicion{kind, si<units::Fraction>(least), si<units::Fraction>(most), {}, false};
    };
    static std::vector<NamedSuspicion> const list = [&]
    {
        using K = PlantFaultKind;
        std::vector<NamedSuspicion> out{
            {"clogged basket", one(K::clogged_basket, 0.6, 1), "suction"},
            {"suction valve part shut", one(K::suction_valve_part_shut, 0.45, 0.8), "suction"},
            {"undersized suction pipe", one(K::undersized_pipe, 0.5, 1), "suction"},
            {"air on the suction", one(K::suction_air, 0.3, 1), "pump"},
            {"dirty filter", one(K::dirty_filter, 0.5, 1), "filter"},
            {"filter bypassed", one(K::filter_bypassed, 0.4, 1), "filter"},
            {"return valve part shut", one(K::return_valve_shut, 0.45, 0.8), "returns"},
            {"impeller clogged", one(K::impeller_clogged, 0.3, 1), "pump"},
            {"impeller worn", one(K::worn_impeller, 0.4, 1), "pump"},
            {"wrong rotation", one(K::wrong_rotation, 1, 1), "pump"},
            {"speed too low", one(K::wrong_speed, 0.2, 0.8), "pump"},
            {"heater bypass stuck", one(K::bypass_stuck_open, 0.5, 1), "heater"}};
        out[2].suspicion.always_was = true;
        out.push_back(
            {"heater scaled",
             {K::heater_scaled, si<units::Fraction>(0.4), si<units::Fraction>(1), si<units::Fraction>(0.3), false},
             "heater"});
        return out;
    }();
    return list;
}

RankTable rank_faults(int loops, RankQuestion const& question, PlantTable const& plants,
                      std::vector<GenericPump> const& pumps, SoundLoopTable const& table)
{
    RankTable out;
    std::size_t const kinds = suspicions().size() + (question.gauges == GaugeSet::filter_only ? 1 : 2);
    for (unsigned seed = 1; out.loops < loops; ++seed)
    {
        Chance chance(seed);
        try
        {
            Walked w = house(chance, question.curve_known, pumps);
            Sick const sick = fall_ill(w, chance, seed % kinds);
            auto const read = readings(w, sick, question, plants, chance);
            if (!read)
                continue;
            if (question.gauges == GaugeSet::gauges_and_rise)
            {
                w.known.heat = si<units::Power>(w.heat);
                doubt(w.known, Unsure::heat, 0.07);
            }
            LoopComparison comparison(w.known, *read, plants, table);
            auto const ranked = score(comparison);
            double const sound_fits = comparison.sound().log_likelihood;
            out.place_first += place_of(ranked.front().name) == place_of(sick.name);
            int rank = 1;
            for (auto const& s : ranked)
            {
                if (s.name == sick.name)
                    break;
                ++rank;
            }
            ++out.loops;
            out.first += rank == 1;
            out.in_three += rank <= 3;
            out.in_five += rank <= 5;
            out.called_sound += sound_fits >= ranked.front().score;
            out.mean_rank += rank;
            auto& f = out.by_fault[sick.name];
            ++f.first;
            f.second += rank == 1;
        }
        catch (figures::NotComputed const&)
        {
        }
    }
    out.mean_rank /= std::max(1, out.loops);
    return out;
}

} // namespace padwalk::tests
