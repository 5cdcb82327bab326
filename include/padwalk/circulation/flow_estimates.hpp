#pragma once
/// Ways to know the flow without a flow meter, and what several of them say together.

#include "padwalk/circulation/network.hpp"
#include "padwalk/circulation/plant.hpp"
#include "padwalk/units/reading.hpp"

#include <optional>
#include <string>
#include <vector>

namespace padwalk::circulation
{

/// Where a gauge on the pressure side sits.
enum class GaugePlace
{
    filter_inlet,
    behind_filter
};

/// A gauge on the pressure side, on the bore of the return pipe.
struct ReturnGauge
{
    units::GaugePressure reading{};
    units::Length height{}; ///< of the gauge above the pool's water; below it is negative
    units::Temperature water{};
};

/// What lies between the gauge and the water that it returns to.
struct ReturnPath
{
    std::optional<FilterLoss> filter; ///< none: the gauge sits behind it
    units::Number heater{};           ///< loss coefficient on the pipe's bore
    Pipe pipe;                        ///< minor_loss: its fittings and valves, the outlets not among them
    units::Number openings{};         ///< through which the water comes back, all alike
    units::Length opening{};          ///< diameter of each
    units::Number discharge_coefficient{};
    units::Length outlet_height{}; ///< of openings in the air above the pool's water; of those under water zero
};

/// Loss of a filter by medium and area, loaded so far: data/circulation/plant.yaml, as the plant has it.
///
/// Throws: figures::NotComputed for no area or a medium not in the table; physics::OutOfRange
[[nodiscard]] FilterLoss filter_loss_of(std::vector<FilterKind> const& kinds, FilterMedium medium, units::Area area,
                                        units::Fraction loading, units::Temperature water);

/// Flow at which the path takes what the gauge shows: the root of
///
///     p/(rho g) + z + v2/2g - z_out = filter(Q) + (f l/d + K + K_heater + K_out) v2/2g,   K_out = (A/(n a c))2
///
/// A, v: of the pipe's bore; n openings of area a and discharge coefficient c. f is Darcy's.
///
/// Valid:  one path, no roof collector in it, nothing turned off to a spillover or cleaner
/// Accuracy: as good as the losses, of which a published one is known to tens of per cent [hydraulic-institute]; the
///         flow goes with their root
/// Throws: figures::NotComputed where the gauge shows no more than the height of the water, for no bore or no opening,
///         and where the openings are so wide that the path holds nothing back; physics::OutOfRange
[[nodiscard]] units::VolumeFlow flow_by_pressure(ReturnGauge const& gauge, ReturnPath const& path);

/// A number of the trade with its standard doubt.
struct JudgedNumber
{
    units::Number value{};
    units::Number doubt{};
    std::string meaning;
    reference::Cited source;
    static fields::Record<JudgedNumber> const& declaration();
};

/// data/circulation/pump_power.yaml: a small pump and its motor where nothing is printed of them. Judgement.
struct PumpPowerTable
{
    JudgedNumber no_flow_share, best_efficiency, motor_efficiency, motor_speed_exponent, form;
    static fields::Record<PumpPowerTable> const& declaration();
};

/// Throws reference::DataProblems where the file is not as declared.
[[nodiscard]] PumpPowerTable pump_power_table(reference::Data const& data);

/// Shaft power of a pump over its curve, from its power at the flow of best efficiency.
///
///     P(Q) = P_b (k + (1 - k) Q/Q_b),   P_b = rho g Q_b H(Q_b) / eta_b
///
/// k is the share at no flow. Then eta(Q) = eta_b (Q H)/(Q_b H_b) / (k + (1 - k) Q/Q_b) is zero at no flow and has its
/// best at Q_b exactly where d ln H / d ln Q = -k: so the curve itself says where Q_b is, as the greatest of Q^k H(Q).
/// The power rises all the way, so that one power has one flow at most; a parabola for eta would put a pole of the
/// power where it reaches zero again. At another speed all of it follows the affinity laws, as the curve does.
///
/// Source: straight line and k: judgement (shaft power of small radial pumps rises with flow, and is at no flow 0.4 to
///         0.6 of that at the best)
class PumpPower
{
public:
    /// `best_flow` at the speed of `curve`; none: found from the curve.
    ///
    /// Throws: figures::NotComputed where the curve ends before the best flow, or doesn't reach to a given one;
    ///         physics::OutOfRange
    PumpPower(PumpCurve const& curve, units::Fraction no_flow_share, units::Fraction best_efficiency,
              units::Temperature water, std::optional<units::VolumeFlow> best_flow = std::nullopt);

    [[nodiscard]] units::VolumeFlow best_flow() const { return best_flow_; }
    [[nodiscard]] units::Power shaft_at(units::VolumeFlow flow) const;
    /// The flow at this shaft power. Throws figures::NotComputed, in words, where none on the curve fits.
    [[nodiscard]] units::VolumeFlow flow_at(units::Power shaft) const;

private:
    double no_flow_share_;
    units::VolumeFlow least_{}, greatest_{}; ///< of the curve
    units::VolumeFlow best_flow_{};
    units::Power best_power_{};
};

/// Shaft power over electric power at a share of the speed: eta = eta_1 s^e below full speed, eta_1 above it.
[[nodiscard]] units::Fraction motor_efficiency_at(units::Fraction at_full_speed, units::Fraction speed,
                                                  units::Number exponent);

/// One way to know a flow, with the standard doubt that it has by itself.
struct FlowEstimate
{
    std::string way; ///< 'flow meter', 'head on the pump's curve'
    units::Measured<units::VolumeFlow> flow;
};

struct JointFlow
{
    units::Measured<units::VolumeFlow> flow; ///< of all of them, the odd one too
    double chi_square = 0;
    int degrees = 0;                ///< estimates less one
    std::vector<double> off;        ///< each against the joint of the others, in units of both doubts; 0 if alone
    std::optional<std::size_t> odd; ///< without it the others agree
    bool disagree = false;          ///< by chance they would lie so far apart in less than one case of 20
};

/// Least squares of independent estimates.
///
///     w = 1/u2,   Q = sum(w q)/sum(w),   chi2 = sum(w (q - Q)2),   u = 1/sqrt(sum w) max(1, sqrt(chi2/degrees))
///
/// The second factor of u is Birge's ratio. They disagree where chi2 is passed by chance in less than 5 %. Then the odd
/// one is sought: without it the rest do not disagree, and without any other one they do; where several could go, the
/// one without which chi2 is least by more than 3.84, the 95 % point of one degree. It takes three estimates: of two
/// that disagree either may be wrong.
///
/// Valid:  estimates that share no reading. Two from one gauge are one piece of knowledge, and count for too much here
/// Source: [gum-2008] for the weights; Birge's ratio from memory, common in the adjustment of constants
/// Throws: figures::NotComputed for no estimates, a flow not finite, and a doubt not above zero
[[nodiscard]] JointFlow joint_flow(std::vector<FlowEstimate> const& estimates);

/// What they say together, and which is odd.
[[nodiscard]] std::string joint_in_words(JointFlow const& joint, std::vector<FlowEstimate> const& estimates);

} // namespace padwalk::circulation

template <> struct padwalk::fields::words_of<padwalk::circulation::GaugePlace>
{
    static std::vector<std::string> words() { return {"filter_inlet", "behind_filter"}; }
};
