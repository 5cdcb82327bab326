#pragma once
#include "page.hpp"

#include "padwalk/report/history.hpp"

namespace padwalk::report
{

[[nodiscard]] Page history_page(assess::History const& history, units::System system);

} // namespace padwalk::report
