#pragma once
#include "padwalk/chemistry/models.hpp"

namespace padwalk::chemistry
{

/// saturation, heated_water, dosed_water
[[nodiscard]] std::vector<figures::Model> water_models(reference::Data const& data);

} // namespace padwalk::chemistry
