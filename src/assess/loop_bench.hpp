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

    [[nodiscard]] bool variable_speed() const { return v.pump && v.pump->variable_speed.value_or(false); }
    /// A pump of one speed needs none recorded.
    [[nodiscard]] bool speed_known() const { return !variable_speed() || v.pump->speed; }
    /// The bound from which a computed finding counts as seen.
    [[nodiscard]] bool clearly(double probability) const { return probability > w.rules.act("clear_yes"); }
    /// Whether it would count as seen or as not seen, rather than unclear.
    [[nodiscard]] bool telling(double probability) const { return clearly(probability) || clearly(1 - probability); }
    void not_tested(std::size_t item, std::string what, std::string because) const
    {
        w.out.not_tested.push_back({item, std::move(what), std::move(because)});
    }
};

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

/// What the gauges say: filter, suction, total head, and the flow that the pump's curve gives there.
void loop_gauges(LoopBench& bench);
/// What follows from the flow: speeds and losses in the pipes.
void loop_pipes(LoopBench& bench);
/// How the valves stood, running or not.
void loop_valves(LoopBench& bench);

} // namespace padwalk::assess
