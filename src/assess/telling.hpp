#pragma once
#include "checks.hpp"

#include "padwalk/assess/telling.hpp"

namespace padwalk::assess
{

/// As judge, and what to ask next.
void judge(Workbench& bench, std::vector<Telling>& telling);
/// What is still open, in the order to ask; by what was judged.
[[nodiscard]] std::vector<Telling> what_tells(Workbench& w, Weighed& weighed);
/// The dangers of which nothing was said, where the things are that may have them.
[[nodiscard]] std::vector<FirstDanger> open_dangers(Workbench const& w);

} // namespace padwalk::assess
