#pragma once
#include "padwalk/figures/model.hpp"
#include "padwalk/reference/data.hpp"

namespace padwalk::level
{

/// The room's models: bucket_test, level_loss, level_leak, evaporation, orifice_flow, fill_valve_flow, fill_valve_rest,
/// water_hammer, dilution, air_gap.
[[nodiscard]] std::vector<figures::Model> models(reference::Data const& data);

} // namespace padwalk::level
