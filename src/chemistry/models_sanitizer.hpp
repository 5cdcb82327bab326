#pragma once
/// The parts of sanitizer_models that have files of their own.

#include "padwalk/figures/model.hpp"
#include "padwalk/reference/data.hpp"

namespace padwalk::chemistry
{

[[nodiscard]] figures::Model contact_model(reference::Data const& data);
[[nodiscard]] figures::Model giardia_model();
[[nodiscard]] figures::Model conductivity_model(reference::Data const& data);

} // namespace padwalk::chemistry
