#pragma once
#include "padwalk/figures/model.hpp"
#include "padwalk/reference/data.hpp"

namespace padwalk::venting
{

/// combustion_air, carbon_monoxide_air_free, stack_draft, stack_loss and vent_clearance.
/// The tables are read once, here. Throws reference::DataProblems.
[[nodiscard]] std::vector<figures::Model> models(reference::Data const& data);

} // namespace padwalk::venting
