#pragma once
#include "padwalk/chemistry/models.hpp"

namespace padwalk::chemistry
{

/// saturation, heated_water, dosed_water
[[nodiscard]] std::vector<figures::Model> water_models(reference::Data const& data);
/// hypochlorous, equal_chlorine, contact_time, giardia_inactivation, conductivity_salt
[[nodiscard]] std::vector<figures::Model> sanitizer_models(reference::Data const& data);

} // namespace padwalk::chemistry
