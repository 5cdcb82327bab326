// The water engine: time of a state in each direction, and of a water's assessment with doubt, against the time of a
// plain exp() on the same machine in the same run. Medians of repeated batches.
#include "padwalk/assess/assess.hpp"
#include "padwalk/numerics/quasi_random.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <functional>

using namespace padwalk;
using namespace padwalk::chemistry;

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

template <class Q> Q ppm(double value)
{
    return Q::from_value(value * 1e-3);
}

std::vector<WaterReadings> waters(std::size_t count, bool stabilized)
{
    numerics::QuasiRandom sequence(9);
    std::vector<WaterReadings> out;
    for (std::size_t i = 0; i < count; ++i)
    {
        auto const u = sequence.next();
        auto between = [&](std::size_t k, double low, double high) { return low + (high - low) * u[k]; };
        WaterReadings r;
        r.temperature = units::Temperature::from_value(between(0, 283, 315));
        r.ph = units::Ph::from_value(between(1, 7.0, 8.2));
        r.alkalinity = ppm<units::AsCalciumCarbonate>(between(2, 80, 200));
        r.calcium = ppm<units::AsCalciumCarbonate>(between(3, 50, 600));
        r.magnesium = ppm<units::AsCalciumCarbonate>(between(4, 10, 200));
        r.salt = ppm<units::AsSodiumChloride>(between(5, 100, 5000));
        r.sulfate = ppm<units::AsSulfate>(between(6, 20, 400));
        if (stabilized)
        {
            r.cyanurate = ppm<units::AsCyanuricAcid>(between(7, 10, 100));
            r.free_chlorine = ppm<units::AsChlorine>(between(8, 1, 8));
        }
        out.push_back(r);
    }
    return out;
}

void tell(char const* what, double seconds, double exp_seconds)
{
    std::printf("%-52s %9.2f us %9.0f exp()\n", what, seconds * 1e6, seconds / exp_seconds);
}

} // namespace

int main()
{
    auto const data = reference::Data::built_in();
    Equilibria const equilibria(data);
    double const plain =
        median(100000, [](std::size_t i) { return std::exp(1e-6 * static_cast<double>(i) + kept * 0); });
    std::printf("exp(): %.2f ns\n", plain * 1e9);

    constexpr std::size_t count = 2000;
    for (bool const stabilized : {false, true})
    {
        auto const readings = waters(count, stabilized);
        std::vector<Composition> compositions;
        for (auto const& r : readings)
            compositions.push_back(equilibria.at_ph(composition_of(r), r.ph).composition());
        char const* const kind = stabilized ? "with chlorine and cyanurate" : "without";
        std::printf("%s\n", kind);
        tell("  state from measured pH",
             median(count, [&](std::size_t i)
                    { return equilibria.at_ph(composition_of(readings[i]), readings[i].ph).ionic_strength().value(); }),
             plain);
        tell("  state from totals",
             median(count, [&](std::size_t i) { return equilibria.of(compositions[i]).ph().value(); }), plain);
        tell("  precipitation potential",
             median(count, [&](std::size_t i) { return precipitation_potential(equilibria, compositions[i]).value(); }),
             plain);
    }

    assess::Engine const engine(data);
    std::string const visit =
        "waters:\n  pool:\n    kind: pool\n    temperature: 84 degF\n    tests:\n      - kit: drops\n"
        "        ph: 7.6\n        free_chlorine: 3 ppm\n        total_chlorine: 3.2 ppm\n"
        "        alkalinity: 100 ppm\n        calcium: 300 ppm\n        cyanurate: 40 ppm\n"
        "        salt: 900 ppm\n";
    auto const read = visit::read_visit(visit, engine.instruments());
    auto const& model = engine.catalogue().at("saturation");
    auto const assessed = assess::assess(read, engine);
    for (auto const& f : assessed.figures)
        if (f.figure.model == &model)
        {
            figures::Inputs in;
            for (auto const& used : f.figure.inputs)
                used.shape->measure ? in.add(used.shape->name, used.reading)
                                    : in.add_words(used.shape->name, used.words);
            tell("saturation figure with doubt, 255 points",
                 median(5, [&](std::size_t) { return figures::run(model, in).output("saturation_calcite").high; }),
                 plain);
        }
    tell("whole assessment of one pool's water test",
         median(5, [&](std::size_t) { return static_cast<double>(assess::assess(read, engine).figures.size()); }),
         plain);
}
