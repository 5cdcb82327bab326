#include "padwalk/heating/heat_up.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/heating/heat.hpp"
#include "padwalk/numerics/root.hpp"
#include "padwalk/units/definitions.hpp"

#include <cmath>
#include <stdexcept>

namespace padwalk::heating
{
namespace
{

using Integrand = std::function<double(double)>;

constexpr double coldest_kelvin = units::exact::celsius_zero + 0.5; // nearer to ice the properties end
constexpr double integral_tolerance = 1e-11;                        // of the whole; the tests ask for 1e-9

// Gauss and Legendre's rule of five points: exact to the ninth power.
double five_points(Integrand const& f, double low, double high)
{
    constexpr double near = 0.538469310105683091, far = 0.906179845938663993;
    constexpr double at_middle = 0.568888888888888889, at_near = 0.478628670499366468, at_far = 0.236926885056189088;
    double const middle = (low + high) / 2, half = (high - low) / 2;
    return half * (at_middle * f(middle) + at_near * (f(middle - near * half) + f(middle + near * half)) +
                   at_far * (f(middle - far * half) + f(middle + far * half)));
}

// Halves the interval until both halves together say what the whole says.
double refined(Integrand const& f, double low, double high, double whole, double allowed, int depth)
{
    double const middle = (low + high) / 2;
    double const left = five_points(f, low, middle), right = five_points(f, middle, high);
    if (std::abs(left + right - whole) <= allowed)
        return left + right;
    if (depth == 0)
        throw figures::NotComputed("the water stops so near the temperature asked for that the time can't be told");
    return refined(f, low, middle, left, allowed / 2, depth - 1) +
           refined(f, middle, high, right, allowed / 2, depth - 1);
}

double integral(Integrand const& f, double low, double high)
{
    constexpr int most_halvings = 40;
    double const whole = five_points(f, low, high);
    return refined(f, low, high, whole, integral_tolerance * std::abs(whole), most_halvings);
}

// The kernel's plain numbers: K, W, J/K.
struct Balance
{
    double from, to, power, capacity;
    std::function<double(double)> loss;

    [[nodiscard]] double net(double kelvin) const { return power - loss(kelvin); }
    [[nodiscard]] double seconds(double low, double high) const
    {
        return integral([this](double t) { return capacity / net(t); }, low, high);
    }
};

Balance balance_of(Warming const& w, LossAt const& loss)
{
    if (w.to <= w.from)
        throw figures::NotComputed("the water is as warm as wanted already");
    if (units::in_si(w.from) < coldest_kelvin)
        throw figures::NotComputed("water about to freeze: losses are not worked out for it");
    // A flow of the volume in a second carries the capacity of the volume.
    auto const flow = w.volume / units::of_si<units::Duration>(1.0);
    units::Temperature const mean = w.from + (w.to - w.from) / 2.0;
    return {units::in_si(w.from), units::in_si(w.to), units::in_si(w.input) * w.efficiency.value(),
            units::in_si(heat_capacity_flow(flow, mean)),
            [&loss](double kelvin) { return units::in_si(loss(units::of_si<units::Temperature>(kelvin))); }};
}

// Where it loses what it is given, if that is at or below `to`.
std::optional<double> stop_of(Balance const& b)
{
    constexpr double tolerance = 1e-13; // K near 300: the curve asks how far it is from there
    if (b.net(b.to) > 0)
        return std::nullopt;
    auto const net = [&b](double kelvin) { return b.net(kelvin); };
    if (b.net(b.from) >= 0)
        return numerics::bracketed_root(net, b.from, b.to, tolerance);
    if (b.net(coldest_kelvin) <= 0)
        throw figures::NotComputed("the losses take all the heat: the water cools until it freezes");
    return numerics::bracketed_root(net, coldest_kelvin, b.from, tolerance);
}

} // namespace

WarmingRun warming_run(Warming const& warming, LossAt const& loss)
{
    Balance const b = balance_of(warming, loss);
    WarmingRun out;
    out.heat_needed = units::of_si<units::Energy>(b.capacity * (b.to - b.from));
    if (auto const stop = stop_of(b))
    {
        out.stops_at = units::of_si<units::Temperature>(*stop);
        return out;
    }
    double const quarter = (b.to - b.from) / 4;
    double seconds = 0;
    for (std::size_t i = 0; i < 4; ++i)
    {
        double const low = b.from + static_cast<double>(i) * quarter;
        seconds += b.seconds(low, i == 3 ? b.to : low + quarter);
        if (i < 3)
            out.quarter_times[i] = units::of_si<units::Duration>(seconds);
    }
    out.time = units::of_si<units::Duration>(seconds);
    out.energy_used = warming.input * out.time;
    auto const lost_per_kelvin = [&b](double kelvin) { return b.loss(kelvin) * b.capacity / b.net(kelvin); };
    if (b.loss(b.from) != 0 || b.loss(b.to) != 0)
        out.heat_lost = units::of_si<units::Energy>(integral(lost_per_kelvin, b.from, b.to));
    return out;
}

std::vector<HeatUpPoint> heat_up_curve(Warming const& warming, LossAt const& loss, int points)
{
    constexpr double last_share = 0.99; // of the way to where it stops, which takes for ever
    if (points < 2)
        throw std::invalid_argument("a curve has two points or more");
    Balance const b = balance_of(warming, loss);
    auto const stop = stop_of(b);
    double const end = stop ? b.from + last_share * (*stop - b.from) : b.to;
    std::vector<HeatUpPoint> out{{units::Duration(), warming.from}};
    double seconds = 0, kelvin = b.from;
    for (int i = 1; i < points; ++i)
    {
        double const next = b.from + (end - b.from) * i / (points - 1);
        if (next != kelvin)
            seconds += b.seconds(kelvin, next);
        kelvin = next;
        out.push_back({units::of_si<units::Duration>(seconds), units::of_si<units::Temperature>(kelvin)});
    }
    return out;
}

} // namespace padwalk::heating
