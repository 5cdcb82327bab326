#pragma once
#include <string_view>
#include <utility>
#include <vector>

namespace padwalk::reference
{

/// Path and packed tree of each file of data/; the definition is generated at build from the files themselves.
[[nodiscard]] std::vector<std::pair<std::string_view, std::string_view>> const& built_in_files();

} // namespace padwalk::reference
