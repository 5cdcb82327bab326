#pragma once
#include "padwalk/venting/carbon_monoxide.hpp"
#include "padwalk/venting/clearance.hpp"
#include "padwalk/venting/combustion_air.hpp"
#include "padwalk/venting/stack.hpp"
#include "padwalk/venting/vent_rules.hpp"

#include "padwalk/figures/model.hpp"

namespace padwalk::venting
{

/// combustion_air and vent_clearance.
[[nodiscard]] std::vector<figures::Model> room_models(CombustionAirRules const& air,
                                                      std::vector<ClearanceRule> const& clearances);

/// carbon_monoxide_air_free, stack_draft and stack_loss.
[[nodiscard]] std::vector<figures::Model> flue_models(std::vector<CarbonMonoxideLimit> const& limits,
                                                      StackFacts const& stack);

/// vent_category, vent_run and available_draft.
[[nodiscard]] std::vector<figures::Model> run_models(VentRules const& rules, FlueFlowFacts const& facts);

/// carbon_monoxide_action.
[[nodiscard]] figures::Model carbon_monoxide_action_model(CarbonMonoxideActions const& actions);

inline constexpr char const* rules_decide = "; the maker's instructions and local code rule";

} // namespace padwalk::venting
