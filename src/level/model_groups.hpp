#pragma once
/// The room's models by file.

#include "padwalk/figures/model.hpp"
#include "padwalk/reference/data.hpp"

namespace padwalk::level
{

[[nodiscard]] std::vector<figures::Model> loss_models(reference::Data const& data); ///< bucket_test, level_loss
[[nodiscard]] figures::Model evaporation_model(reference::Data const& data);
[[nodiscard]] figures::Model leak_model(reference::Data const& data); ///< level_leak
[[nodiscard]] figures::Model fill_valve_rest_model(reference::Data const& data);
[[nodiscard]] figures::Model water_hammer_model(reference::Data const& data);
[[nodiscard]] std::vector<figures::Model> flow_models(); ///< orifice_flow, fill_valve_flow
[[nodiscard]] figures::Model dilution_model();
[[nodiscard]] figures::Model air_gap_model(reference::Data const& data);

} // namespace padwalk::level
