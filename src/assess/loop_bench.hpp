#pragma once
#include "workbench.hpp"

#include <cmath>

namespace padwalk::assess
{

/// One loop, its parts and what of it is known.
struct LoopBench
{
    Workbench& w;
    std::size_t loop, pump, filter;
    visit::Loop const& v;
    visit::Taken<units::VolumeFlow> flow;
    visit::Taken<units::Temperature> water;
    visit::Taken<units::GaugePressure> suction_gauge; ///< none where what was written can't be taken at its word
    visit::Taken<units::Head> head;
    visit::Taken<units::VolumeFlow> on_curve;  ///< flow of the pump's curve at that head
    std::vector<FlowBy> ways;                  ///< every way to know the flow
    std::string flow_words;                    ///< what they say together
    visit::Taken<units::VolumeFlow> most_flow; ///< that the pump may move, at full speed
    std::string most_flow_words;               ///< how it is known

    [[nodiscard]] bool variable_speed() const { return v.pump && v.pump->variable_speed.value_or(false); }
    /// A pump of one speed needs none recorded.
    [[nodiscard]] bool speed_known() const { return !variable_speed() || v.pump->speed; }
    [[nodiscard]] bool pump_off() const { return v.pump && v.pump->runs && !*v.pump->runs; }
    /// The bound from which a computed finding counts as seen.
    [[nodiscard]] bool clearly(double probability) const { return probability > w.rules.act("clear_yes"); }
    /// Whether it would count as seen or as not seen, rather than unclear.
    [[nodiscard]] bool telling(double probability) const { return clearly(probability) || clearly(1 - probability); }
    void not_tested(std::size_t item, std::string what, std::string because) const
    {
        w.out.not_tested.push_back({item, std::move(what), std::move(because)});
    }
};

inline constexpr char const* by_motor_power = "power of the motor"; ///< of the ways to know the flow
inline constexpr char const* speed_not_recorded = "the pump has a variable speed, and its speed was not recorded";

template <class Q>
[[nodiscard]] units::Measured<Q> share_of(units::Measured<Q> const& whole,
                                          units::Measured<units::Fraction> const& share)
{
    double const part = units::in_si(share.value);
    double const value = units::in_si(whole.value) * part;
    double const doubt =
        std::hypot(units::in_si(whole.doubt) * part, units::in_si(whole.value) * units::in_si(share.doubt));
    return {units::of_si<Q>(value), units::of_si<units::Difference<Q>>(doubt), "limit"};
}

/// A fitting's name as the table has it: 'Elbow 90' is elbow_90.
[[nodiscard]] std::string as_in_table(std::string name);

/// What the gauges say: filter, suction, total head, and the flow that the pump's curve gives there.
void loop_gauges(LoopBench& bench);
/// The flow by every way there is, made into one.
void loop_flow(LoopBench& bench);
/// The most that the pump may move: what a drain cover must bear.
void most_flow(LoopBench& bench);
/// A curve as a figure's input.
[[nodiscard]] fields::Node curve_node(std::vector<fields::CurvePoint> const& curve);
/// Speed of the readings as a share of the curve's; none where either is not known.
[[nodiscard]] std::optional<units::Fraction> speed_ratio(visit::Pump const& pump);
/// Why the pump's own curve can't be read at the speed of the readings; empty if it can.
[[nodiscard]] std::string curve_not_usable(LoopBench const& bench);
/// The fittings' loss coefficients together: as written, else by the table; none where one is not known.
[[nodiscard]] visit::Taken<units::Number> minor_loss(LoopBench& bench, visit::Pipe const& pipe,
                                                     std::string const& which);
/// What follows from the flow: speeds and losses in the pipes.
void loop_pipes(LoopBench& bench);
/// The readings against what a sound loop would show, all together.
void loop_readings(LoopBench& bench);
/// What the pump takes from the wire, what it costs, and what a lower speed would save.
void loop_energy(LoopBench& bench);
/// How the valves stood, running or not.
void loop_valves(LoopBench& bench);
/// What each drain cover shows of itself: its marks, its date, its load, running or not.
void loop_drains(LoopBench& bench);

} // namespace padwalk::assess
