#pragma once
#include "padwalk/fields/shape.hpp"
#include "padwalk/fields/tree.hpp"
#include "padwalk/figures/figure.hpp"

namespace padwalk::report
{

/// {"value", "unit", "basis", "plus_minus"}: the doubt as it would be written, 19 times in 20; no key without content.
[[nodiscard]] fields::Tree reading_tree(units::Reading const& reading, fields::FieldShape const* shape,
                                        units::System system);

/// {"value", "unit", "basis", "low", "high"}, the words of an output that is no quantity, or nothing.
[[nodiscard]] fields::Tree output_tree(figures::OutputValue const& output, units::System system);

} // namespace padwalk::report
