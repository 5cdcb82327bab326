#pragma once
/// What a pump does: its curve, the affinity laws, and the power in the water.

#include "padwalk/fields/record.hpp"
#include "padwalk/numerics/interpolation.hpp"
#include "padwalk/units/quantity.hpp"

#include <optional>
#include <variant>
#include <vector>

namespace padwalk::circulation
{

/// Head at a flow, and how steeply the curve falls there.
struct HeadAndSlope
{
    units::Head head{};
    double slope = 0; ///< dH/dQ, m per m3/s; 0 or below
};

/// Head against flow of one pump at one speed.
///
/// Exactly three points, the first at no flow, make the power curve through them:
///
///     h = h0 - b q^n,   n = ln((h0 - h2)/(h0 - h1)) / ln(q2/q1),   b = (h0 - h1)/q1^n
///
/// Any other number of points, or a first point with flow, makes a smooth falling curve through them
/// (numerics::MonotoneCurve); two points make a straight line. At another speed both follow the affinity laws:
/// at a share s of the curve's speed H(Q) = s2 h(Q/s).
///
/// Valid:  from the first point to the last; nothing is read off beyond them
/// Source: power curve: the form in which [circ-epanet] reads three points; affinity: [hydraulic-institute] 1.B.6
class PumpCurve
{
public:
    /// Points in any order. Throws figures::NotComputed for fewer than two, for two points at one flow, and where the
    /// head does not fall from point to point (then one head has two flows).
    explicit PumpCurve(std::vector<fields::CurvePoint> points,
                       units::Fraction speed = units::Fraction{units::Dimensionless{1.0}});

    /// Throws figures::NotComputed with advice where the flow lies outside the curve.
    [[nodiscard]] units::Head head_at(units::VolumeFlow flow) const;
    /// The same with the slope of the curve, for solvers.
    [[nodiscard]] HeadAndSlope head_and_slope_at(units::VolumeFlow flow) const;
    /// Throws figures::NotComputed with advice where the head lies outside the curve.
    [[nodiscard]] units::VolumeFlow flow_at(units::Head head) const;

    [[nodiscard]] units::VolumeFlow least_flow() const { return first_.flow * speed_; }
    [[nodiscard]] units::VolumeFlow greatest_flow() const { return last_.flow * speed_; }
    [[nodiscard]] units::Head greatest_head() const { return first_.head * (speed_ * speed_); }
    [[nodiscard]] units::Head least_head() const { return last_.head * (speed_ * speed_); }

private:
    struct Power ///< SI, at the curve's own speed
    {
        double h0, b, n;
    };

    /// Flow on the curve as given, m3/s; throws as head_at.
    [[nodiscard]] double place_on_curve(units::VolumeFlow flow) const;
    [[nodiscard]] double head_m(double flow_m3s) const;
    [[nodiscard]] double flow_m3s(double head_m) const;

    fields::CurvePoint first_, last_;
    double speed_;
    std::variant<Power, numerics::MonotoneCurve> shape_;
};

struct Duty
{
    units::VolumeFlow flow{};
    units::Head head{};
    std::optional<units::Power> power{};
};

/// The duty at another speed, on the same system of friction only.
///
///     Q ~ n,   H ~ n2,   P ~ n3
///
/// Valid:  same pump, same water, nothing to lift. Lift (a roof collector, a spillover) breaks the laws; measured input
///         power falls less than n3 says, since motor and drive lose efficiency at low speed.
/// Source: [hydraulic-institute] equations 1.B.6 and 1.B.7
[[nodiscard]] Duty at_speed(Duty const& duty, units::RotationSpeed speed, units::RotationSpeed new_speed);

/// Power that the water gains: P = rho g Q H.
///
/// Source: [hydraulic-institute] equation 1.B.4, which writes it as Q H s / 3960 hp (gpm, ft)
/// Throws: physics::OutOfRange
[[nodiscard]] units::Power hydraulic_power(units::VolumeFlow flow, units::Head head, units::Temperature water);

/// The curve carried on beyond its last point, to a tenth of its first head, as makers seldom print it.
///
/// Three points, the first at no flow: the same power law, its last point moved. Others: one point more, on
/// H = Hl + s x (1 + x/Ql) with the slope s of the last two points and x the flow beyond the last.
///
/// Accuracy: a guess; a real pump falls off faster where it starves. Judgement
/// Throws:   figures::NotComputed as PumpCurve
[[nodiscard]] std::vector<fields::CurvePoint> carried_on(std::vector<fields::CurvePoint> points);

} // namespace padwalk::circulation
