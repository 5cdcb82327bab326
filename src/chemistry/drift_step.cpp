#include "drift_step.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace padwalk::chemistry
{
namespace
{

double phi1(double z) // (e^z - 1)/z
{
    return std::abs(z) < 1e-12 ? 1.0 : std::expm1(z) / z;
}

double phi2(double z) // (e^z - 1 - z)/z^2
{
    return std::abs(z) < 1e-3 ? 0.5 + z / 6 + z * z / 24 : (std::expm1(z) - z) / (z * z);
}

units::Molality mol(double value)
{
    return units::of_si<units::Molality>(value);
}

/// Carbon dioxide beyond what the air holds in balance, mol/kg.
double excess(State const& s, DriftRates const& r)
{
    double const co2 = units::in_si(s.molality("CO2"));
    return co2 > 0 ? co2 * (1 - std::pow(10.0, r.log_air - s.log_co2_pressure())) : -r.in_balance;
}

double buffer(units::Molality base, units::Molality total)
{
    double const b = units::in_si(base), t = units::in_si(total);
    return t > 0 ? std::max(b * (t - b) / t, 0.0) : 0.0;
}

/// How a water answers a little more carbonate or alkalinity, the other kept, for ideal species.
struct Answer
{
    double co2 = 1.0;               ///< d(carbon dioxide)/d(total carbonate)
    double co2_by_alkalinity = 0.0; ///< d(carbon dioxide)/d(alkalinity)
    double ph = 0.0;                ///< size of d(pH)/d(total carbonate), kg/mol
};

/// It only steers the step.
Answer answer(State const& s)
{
    Totals const& t = s.composition().totals;
    double const c = units::in_si(t.carbonate), co2 = units::in_si(s.molality("CO2"));
    if (!(c > 0) || !(co2 > 0))
        return {};
    double const alkalinity = std::clamp(units::in_si(s.carbonate_alkalinity()), c - co2, 2 * (c - co2));
    double const co3 = alkalinity - (c - co2), hco3 = c - co2 - co3;
    double const h = std::pow(10.0, -s.ph().value());
    double const beta = (co2 * hco3 + 4 * co2 * co3 + hco3 * co3) / c + h + 1e-14 / h +
                        buffer(s.borate_alkalinity(), t.boron) + buffer(s.cyanurate_alkalinity(), t.cyanurate) +
                        buffer(s.hypochlorite_alkalinity(), t.chlorine);
    return {std::min(co2 / c + co2 / c * alkalinity * alkalinity / (c * beta), 1.0), -co2 * alkalinity / (c * beta),
            alkalinity / c / (beta * std::numbers::ln10)};
}

/// Change of carbonate in a second.
double carbonate_rate(State const& s, DriftRates const& r)
{
    return r.filled * units::in_si(r.fill.carbonate) + units::in_si(r.added.carbonate) -
           r.runs_off * units::in_si(s.composition().totals.carbonate) - r.gas * excess(s, r);
}

/// Loss of chlorine, other than by running off, as a share a second. To sun it falls with the chlorine where cyanurate
/// holds most of it, as a power of the chlorine there is; and it drifts with pH through the step.
struct ChlorineLoss
{
    double standing = 0.0;
    double sun = 0.0; ///< at `chlorine`, at the start of the step
    double chlorine = 0.0;
    double power = 0.0;
    double growth = 0.0; ///< of its logarithm, 1/s
    [[nodiscard]] double at(double seconds, double now) const
    {
        double const drifted = sun * std::exp(growth * seconds);
        return standing + (power == 0 || !(now > 0) ? drifted : drifted * std::pow(now / chlorine, power));
    }
};

/// d ln(share not held)/d ln(chlorine) where each cyanurate holds at most one: held = C F/(K + F), F not held.
double power_of_share(State const& s)
{
    double const c = units::in_si(s.composition().totals.cyanurate), held = units::in_si(s.held_chlorine());
    double const all = units::in_si(s.composition().totals.chlorine), f = all - held;
    if (!(c > 0) || !(held > 0) || !(f > 0))
        return 0;
    double const k = f * std::max(c - held, 0.1 * c) / held;
    double const slope = 1 + c * k / ((k + f) * (k + f)); // of all chlorine over F
    return std::clamp(all / (f * slope) - 1, 0.0, 2.0);
}

ChlorineLoss chlorine_loss(State const& s, DriftRates const& r, DriftTable const& table)
{
    return {r.standing, units::in_si(sun_loss(s, r.depth, r.sun, r.lean, table)) * r.sun_factor,
            units::in_si(s.composition().totals.chlorine), (1 - r.lean.value()) * power_of_share(s), 0};
}

/// Through the waters at the start and in the middle of a step.
ChlorineLoss chlorine_loss(ChlorineLoss const& start, ChlorineLoss middle, double half)
{
    if (start.sun > 0 && middle.sun > 0)
    {
        double const before = start.sun * std::pow(middle.chlorine / start.chlorine, middle.power);
        middle.growth = std::log(middle.sun / before) / half;
        middle.sun = before;
    }
    return middle;
}

constexpr double none_to_speak_of = 1e-11; ///< chlorine, less than a thousand-millionth of a gram per kg

struct Chlorine
{
    double left = 0.0;
    double spent = 0.0;
};

/// dX/dt = inflow - demand - (loss + runs_off) X until none is left; then the demand takes what comes in.
Chlorine chlorine_after(double start, double inflow, double loss, DriftRates const& r, double seconds)
{
    double const net = inflow - r.demand, rate = loss + r.runs_off;
    double const end = start * std::exp(-rate * seconds) + net * seconds * phi1(-rate * seconds);
    double until = seconds;
    if (end < 0)
        until = rate > 0 ? std::log1p(-rate * start / net) / rate : -start / net;
    double const left = std::max(end, 0.0);
    double const integral = rate > 0 ? (start + net * until - left) / rate : 0.0;
    double const spent = start + inflow * seconds - left - r.runs_off * integral;
    if (left < none_to_speak_of) // the last of it is spent, lest it shrink for ever
        return {0, spent + left};
    return {left, spent};
}

/// The same with a loss that changes, by short steps with the loss of their middle.
Chlorine chlorine_after(double start, double inflow, ChlorineLoss const& loss, DriftRates const& r, double seconds)
{
    auto const parts = static_cast<int>(std::clamp(std::ceil(loss.at(0, start) * seconds * 16), 4.0, 256.0));
    double const part = seconds / parts;
    Chlorine out{start, 0};
    for (int n = 0; n < parts; ++n)
    {
        double const middle = chlorine_after(out.left, inflow, loss.at(n * part, out.left), r, part / 2).left;
        auto const next = chlorine_after(out.left, inflow, loss.at((n + 0.5) * part, middle), r, part);
        out = {next.left, out.spent + next.spent};
    }
    return out;
}

/// All but carbonate, which is left as it was.
Totals others_after(Totals const& from, DriftRates const& r, ChlorineLoss const& loss, double seconds)
{
    double const x = r.runs_off * seconds;
    Totals out = from * std::exp(-x) + (r.fill * r.filled + r.added) * (seconds * phi1(-x));
    auto const chlorine =
        chlorine_after(units::in_si(from.chlorine),
                       r.filled * units::in_si(r.fill.chlorine) + units::in_si(r.added.chlorine), loss, r, seconds);
    out.chlorine = mol(chlorine.left);
    units::Molality const spent = mol(chlorine.spent * std::exp(-x / 2)); // part of it has run off again
    out.chloride = out.chloride + spent;
    out.alkalinity = out.alkalinity - spent;
    out.carbonate = from.carbonate;
    return out;
}

State state_of(Equilibria const& equilibria, State const& like, Totals totals, double carbonate)
{
    totals.carbonate = mol(carbonate);
    return equilibria.of({totals, like.composition().temperature}, like);
}

/// A step that would do more is halved.
constexpr double ph_at_once = 0.05;      ///< by the bend of carbonate's course
constexpr double ph_in_half = 0.15;      ///< in its first half
constexpr double chlorine_at_once = 1.5; ///< factor
constexpr double little_chlorine = 3e-6; ///< 0.2 mg/L: changes far below don't count
constexpr int most_halvings = 6;

double factor(units::Molality one, units::Molality other)
{
    double const a = units::in_si(one) + little_chlorine, b = units::in_si(other) + little_chlorine;
    return std::max(a / b, b / a);
}

State advanced(Equilibria const& equilibria, State const& from, DriftRates const& rates, double seconds,
               DriftTable const& table, int halvings)
{
    Totals const& start = from.composition().totals;
    double const c0 = units::in_si(start.carbonate);
    Answer const a = answer(from);
    double const slope = -rates.runs_off - rates.gas * a.co2;
    double const f0 = carbonate_rate(from, rates);

    double const half = seconds / 2;
    ChlorineLoss const loss = chlorine_loss(from, rates, table);
    Totals const others = others_after(start, rates, loss, half);
    double const gained = units::in_si(others.alkalinity - start.alkalinity); // moves the balance that c is after
    double const c_half =
        c0 + half * (phi1(slope * half) * f0 - phi2(slope * half) * rates.gas * a.co2_by_alkalinity * gained);
    State const middle = state_of(equilibria, from, others, c_half);

    double const bend = carbonate_rate(middle, rates) - f0 - slope * (c_half - c0);
    double const bent = seconds * 2 * phi2(slope * seconds) * bend;
    double const c1 = c0 + seconds * phi1(slope * seconds) * f0 + bent;
    Totals const end =
        others_after(start, rates, chlorine_loss(loss, chlorine_loss(middle, rates, table), half), seconds);

    bool const too_much = std::abs(bent * a.ph) > ph_at_once ||
                          std::abs((middle.ph() - from.ph()).value()) > ph_in_half ||
                          factor(start.chlorine, end.chlorine) > chlorine_at_once;
    if (too_much && halvings < most_halvings)
        return advanced(equilibria, advanced(equilibria, from, rates, half, table, halvings + 1), rates, half, table,
                        halvings + 1);
    return state_of(equilibria, from, end, c1);
}

} // namespace

State advanced(Equilibria const& equilibria, State const& from, DriftRates const& rates, double seconds,
               DriftTable const& table)
{
    return advanced(equilibria, from, rates, seconds, table, 0);
}

} // namespace padwalk::chemistry
