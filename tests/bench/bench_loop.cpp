// Operating points: time of one loop by its own way and as a network, of a house's network and of a whole plant,
// against the time of a plain exp() on the same machine in the same run. Medians of repeated batches.
#include "padwalk/circulation/loop.hpp"
#include "padwalk/circulation/plant.hpp"
#include "padwalk/physics/water.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <functional>

using namespace padwalk;
using namespace padwalk::circulation;

namespace
{

constexpr int batches = 31;

double volatile kept; ///< so that no result is thrown away before it was computed

/// Median seconds of one call, over batches of `calls`.
double median(std::size_t calls, std::function<double(std::size_t)> const& call)
{
    std::vector<double> seconds;
    for (int b = 0; b < batches; ++b)
    {
        auto const start = std::chrono::steady_clock::now();
        double sum = 0;
        for (std::size_t i = 0; i < calls; ++i)
            sum += call(i);
        kept = sum;
        std::chrono::duration<double> const took = std::chrono::steady_clock::now() - start;
        seconds.push_back(took.count() / static_cast<double>(calls));
    }
    std::nth_element(seconds.begin(), seconds.begin() + batches / 2, seconds.end());
    return seconds[batches / 2];
}

void tell(char const* what, double seconds, double exp_seconds)
{
    std::printf("%-40s %9.3f us %10.0f a second %8.0f exp()\n", what, seconds * 1e6, 1 / seconds,
                seconds / exp_seconds);
}

units::Length metre(double value)
{
    return units::of_si<units::Length>(value);
}

units::Number number(double value)
{
    return units::of_si<units::Number>(value);
}

Pipe pipe(double bore, double length, double k)
{
    return {metre(bore), metre(length), number(k), metre(1.5e-6), number(150)};
}

std::vector<fields::CurvePoint> points()
{
    auto const point = [](double q, double h) {
        return fields::CurvePoint{units::of_si<units::VolumeFlow>(q), units::of_si<units::Head>(h)};
    };
    return {point(0, 20), point(0.0045, 15.5), point(0.0083, 3.7)};
}

/// A loop whose filter differs a little from call to call.
Loop loop(std::size_t i, FrictionFormula formula)
{
    return {pipe(0.0523, 12, 6), pipe(0.0523, 25, 12), number(40 + static_cast<double>(i % 97)), number(16), formula};
}

Network as_network(Loop const& l, PumpCurve const& pump)
{
    Network n;
    auto const pool = n.water("pool", {});
    auto const in = n.junction("in"), out = n.junction("out"), mid = n.junction("mid");
    n.link("suction", pool, in, l.suction);
    n.link("pump", in, out, pump);
    n.link("filter and heater", out, mid, FixedLoss{l.discharge.bore, l.filter_loss + l.heater_loss});
    n.link("discharge", mid, pool, l.discharge);
    return n;
}

Plant house(std::size_t i)
{
    Plant p;
    p.suctions = {{"skimmer", SuctionKind::skimmer, 0, pipe(0.0523, 9, 3), {}},
                  {"drain 1", SuctionKind::main_drain, 0, pipe(0.0407, 12, 4), {}},
                  {"drain 2", SuctionKind::main_drain, 0, pipe(0.0407, 13, 4), {}}};
    p.suction_trunk = pipe(0.0523, 2, 2);
    PlantPump pump;
    pump.name = "pump";
    pump.curve = points();
    p.pumps = {pump};
    p.filter = PlantFilter{FilterMedium::sand, units::of_si<units::Area>(0.4), {}, {}};
    p.filter->loading = units::of_si<units::Fraction>(static_cast<double>(i % 97) / 97);
    p.heater = PlantHeater{};
    p.heater->bypass.opening = units::of_si<units::Fraction>(0.6);
    p.return_trunk = pipe(0.0523, 5, 4);
    for (auto const* name : {"return 1", "return 2"})
    {
        PlantReturn r;
        r.name = name;
        r.pipe = pipe(0.0407, 12, 4);
        p.returns.push_back(r);
    }
    p.water = units::of_si<units::Temperature>(300);
    return p;
}

} // namespace

int main()
{
    auto const table = plant_table(reference::Data::built_in());
    auto const water = units::of_si<units::Temperature>(300);
    auto const viscosity = physics::kinematic_viscosity(water);
    PumpCurve const pump(points());
    double const plain =
        median(100000, [](std::size_t i) { return std::exp(1e-6 * static_cast<double>(i) + kept * 0); });
    std::printf("exp(): %.2f ns\n", plain * 1e9);
    constexpr std::size_t count = 1000;
    for (auto const formula : {FrictionFormula::darcy_weisbach, FrictionFormula::hazen_williams})
    {
        bool const darcy = formula == FrictionFormula::darcy_weisbach;
        tell(darcy ? "loop, Darcy-Weisbach" : "loop, Hazen-Williams",
             median(count,
                    [&](std::size_t i) { return units::in_si(operating_point(loop(i, formula), pump, water).flow); }),
             plain);
        tell(darcy ? "  its water's viscosity known" : "  its water's viscosity known, H-W",
             median(count, [&](std::size_t i)
                    { return units::in_si(operating_point(loop(i, formula), pump, viscosity).flow); }),
             plain);
    }
    tell("viscosity of a water",
         median(count,
                [&](std::size_t i)
                {
                    return units::in_si(physics::kinematic_viscosity(
                        units::of_si<units::Temperature>(300 + 1e-3 * static_cast<double>(i))));
                }),
         plain);
    tell("one pipe's loss, Darcy-Weisbach",
         median(count,
                [&](std::size_t i)
                {
                    return pipe_loss(pipe(0.05, 12, 6),
                                     units::of_si<units::VolumeFlow>(0.003 + 1e-6 * static_cast<double>(i)),
                                     FrictionFormula::darcy_weisbach, units::of_si<units::KinematicViscosity>(9e-7))
                        .total()
                        .value();
                }),
         plain);
    tell("the same loop as a network",
         median(count,
                [&](std::size_t i)
                {
                    auto const n = as_network(loop(i, FrictionFormula::darcy_weisbach), pump);
                    return units::in_si(solve(n, water).flow[1]);
                }),
         plain);
    tell("a house: 3 suctions, bypass, 2 returns",
         median(count / 10, [&](std::size_t i) { return units::in_si(solve(house(i), table).total); }), plain);
}
