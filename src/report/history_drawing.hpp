#pragma once
#include "page.hpp"

#include "padwalk/assess/history.hpp"

namespace padwalk::report
{

/// One reading over the dates of a log: values with their doubt, the range that is wanted, the trend where it shows,
/// what happened as numbered marks. `id` is unique on the page. Empty where there are fewer than two dates.
[[nodiscard]] Drawing history_drawing(assess::PropertyLog const& log, assess::Series const& series,
                                      units::System system, std::string const& id);

/// 'pH', 'free chlorine': a series as a reader calls it, with its item.
[[nodiscard]] std::string series_name(assess::PropertyLog const& log, assess::Series const& series);

/// '7.9 ± 0.2'.
[[nodiscard]] std::string point_text(assess::Series const& series, assess::HistoryPoint const& point,
                                     units::System system);

/// 'within', 'above', 'below, within its doubt'; empty where nothing is wanted.
[[nodiscard]] std::string side_in_words(assess::Series const& series, assess::HistoryPoint const& point);

/// The visits at which something happened that concerns the series, by the numbers of their marks.
[[nodiscard]] std::vector<std::pair<std::size_t, std::size_t>> marks_for(assess::PropertyLog const& log,
                                                                         assess::Series const& series);

} // namespace padwalk::report
