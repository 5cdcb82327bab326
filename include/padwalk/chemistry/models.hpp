#pragma once
#include "padwalk/figures/model.hpp"
#include "padwalk/reference/data.hpp"

namespace padwalk::chemistry
{

/// The room's models: saturation_handbook, carbonate_alkalinity, combined_chlorine, chlorine_to_cyanurate.
[[nodiscard]] std::vector<figures::Model> models(reference::Data const& data);

} // namespace padwalk::chemistry
