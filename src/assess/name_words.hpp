#pragma once
/// What the names that people give to waters, loops and valves say.

#include <string>
#include <string_view>

namespace padwalk::assess
{

/// A to Z in lower case; all else as it is.
[[nodiscard]] std::string lowered(std::string text);

/// Whether a name holds this lower-case word (or two) by itself or in the plural: 'spa' in 'Spa_1' and 'old spas', not
/// in 'space' or 'Spanish'.
[[nodiscard]] bool says(std::string const& name, std::string_view word);

} // namespace padwalk::assess
