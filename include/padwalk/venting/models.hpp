#pragma once
#include "padwalk/figures/model.hpp"
#include "padwalk/reference/data.hpp"

namespace padwalk::venting
{

/// combustion_air, vent_clearance, carbon_monoxide_air_free, stack_draft, stack_loss, vent_category, vent_run,
/// available_draft and carbon_monoxide_action.
/// The tables are read once, here. Throws reference::DataProblems.
[[nodiscard]] std::vector<figures::Model> models(reference::Data const& data);

} // namespace padwalk::venting
