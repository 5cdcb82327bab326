#pragma once
/// The place in a visit file for what is found.

#include "padwalk/assess/assessment.hpp"

namespace padwalk::report
{

/// The YAML into which what is found at these items is written, each under its own keys, with an empty entry.
[[nodiscard]] std::string found_entries(assess::Assessment const& a, std::vector<std::size_t> const& items);

} // namespace padwalk::report
