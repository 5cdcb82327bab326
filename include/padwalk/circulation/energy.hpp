#pragma once
/// What a pump's running costs, and the US rule's yardsticks for pool pumps.

#include "padwalk/circulation/limits.hpp"
#include "padwalk/circulation/pump.hpp"

namespace padwalk::circulation
{

/// A pump that takes this power for so long each day.
struct DailyRun
{
    units::Power power{};
    units::Duration per_day{};
};

struct RunningCost
{
    units::Energy energy_month{}, energy_year{};
    units::Number cost_month{}, cost_year{}; ///< in the money of the tariff
};

/// Energy and cost of a month and a year of 365.25 days.
///
///     E = P t (365.25/12 days),   cost = E x tariff (money per kWh)
///
/// Valid: the power of that speed as measured, or volts x amps x power factor; a nameplate is not what a motor takes
[[nodiscard]] RunningCost running_cost(DailyRun const& run, units::Number tariff);

/// The same volume a day at a lower speed.
///
///     t2 = t n/n2,   P2 = P (n2/n)^e
///
/// Valid:  a loop of friction only: lift makes the flow fall faster than the speed. t2 may come out above a day.
/// Source: flow and, for e = 3, shaft power: [hydraulic-institute] 1.B.6. That the measured input falls with a smaller
///         exponent, since motor and drive lose efficiency at low speed, is from memory; 2.6 ± 0.3 is our judgement
/// Throws: figures::NotComputed where the other speed is not lower
[[nodiscard]] DailyRun at_lower_speed(DailyRun const& run, units::RotationSpeed speed, units::RotationSpeed lower_speed,
                                      units::Number exponent);

/// One of the curves on which pool pumps are compared: H = c Q2.
struct ReferenceCurve
{
    std::string name;
    units::Number feet_per_gpm_squared{};
    std::string used_by;
    reference::Cited source;
    static fields::Record<ReferenceCurve> const& declaration();
    [[nodiscard]] units::Head head_at(units::VolumeFlow flow) const;
};

/// Where the pump's curve meets the reference curve, with the power that the water gains there.
///
///     root of H(Q) - c Q2;   P = rho g Q H
///
/// Source: coefficients [circ-dppp-rule], [circ-apsp-15], all from memory
/// Throws: figures::NotComputed with advice where they meet outside the pump's curve; physics::OutOfRange
[[nodiscard]] Duty duty_on(ReferenceCurve const& curve, PumpCurve const& pump, units::Temperature water);

/// How the US rule sorts pool pumps.
enum class PumpKind
{
    self_priming,
    not_self_priming,
    cleaner_booster
};

/// Least weighted energy factor of one kind and range: constant + slope ln(hhp).
struct FactorMinimum
{
    PumpKind kind = PumpKind::self_priming;
    units::Power up_to{};
    bool end_included = false;
    units::Number constant{};
    units::Number slope{};
    reference::Cited source;
    static fields::Record<FactorMinimum> const& declaration();
};

/// data/circulation/energy.yaml.
struct PumpRule
{
    std::vector<ReferenceCurve> reference_curves;
    Rule low_flow_weight;
    std::vector<FactorMinimum> minimums; ///< of one kind in rising order
    static fields::Record<PumpRule> const& declaration();
};

/// Throws reference::DataProblems where the file is not as declared.
[[nodiscard]] PumpRule pump_rule(reference::Data const& data);

/// Flow and electric input at one test point.
struct TestPoint
{
    units::VolumeFlow flow{};
    units::Power input{};
};

/// Weighted energy factor, thousand gallons per kWh.
///
///     WEF = sum(w Q 60/1000) / sum(w P/1000),   Q in gpm, P in W;   one speed: the high point alone
///
/// Source: [circ-dppp-rule] appendix C, from memory
[[nodiscard]] units::Number weighted_energy_factor(std::optional<TestPoint> const& low, TestPoint const& high,
                                                   units::Number low_weight);

/// The row of the rule that a pump of this kind and hydraulic power falls under; none beyond the rule's range.
[[nodiscard]] FactorMinimum const* minimum_row(PumpRule const& rule, PumpKind kind, units::Power hydraulic);
/// constant + slope ln(hydraulic power in hp).
[[nodiscard]] units::Number minimum_factor(FactorMinimum const& row, units::Power hydraulic);

} // namespace padwalk::circulation

template <> struct padwalk::fields::words_of<padwalk::circulation::PumpKind>
{
    static std::vector<std::string> words() { return {"self_priming", "not_self_priming", "cleaner_booster"}; }
};
