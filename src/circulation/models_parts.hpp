#pragma once
/// The models of this room by subject; models.cpp puts them together.

#include "padwalk/circulation/drain.hpp"
#include "padwalk/circulation/energy.hpp"
#include "padwalk/circulation/flow_estimates.hpp"
#include "padwalk/circulation/limits.hpp"
#include "padwalk/figures/model.hpp"

namespace padwalk::circulation
{

inline constexpr char const* usual_water = "80 degF ± 20 degF";
inline constexpr char const* usual_water_because =
    "most pools and spas lie between 60 and 100 °F; it moves this figure little";

/// What is published, as read from the data; the models put it into words.
struct Published
{
    std::vector<TurnoverLimit> turnovers;
    std::vector<FilterRateLimit> filter_rates;
    std::vector<VelocityLimit> velocities;
};

void add_water_models(std::vector<figures::Model>& models, Rules const& rules, Published const& published);
void add_head_models(std::vector<figures::Model>& models);
/// `curve_doubt`: what a pump's printed curve is worth, a standard share of the flow.
void add_pump_models(std::vector<figures::Model>& models, double curve_doubt);
void add_pipe_models(std::vector<figures::Model>& models, Published const& published);
void add_suction_models(std::vector<figures::Model>& models, Rules const& rules);
void add_motor_models(std::vector<figures::Model>& models, Rules const& rules);
void add_filter_models(std::vector<figures::Model>& models, std::vector<CleaningRise> const& rises);
void add_drain_models(std::vector<figures::Model>& models, std::vector<CoverRule> const& rules);
/// `curve_doubt` as for the pump's models.
void add_energy_models(std::vector<figures::Model>& models, PumpRule const& rule, double curve_doubt);
void add_flow_models(std::vector<figures::Model>& models, std::vector<FilterKind> const& filters,
                     PumpPowerTable const& power);

} // namespace padwalk::circulation
