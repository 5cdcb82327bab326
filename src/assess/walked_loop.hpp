#pragma once
#include "loop_bench.hpp"
#include "loop_tables.hpp"

namespace padwalk::assess
{

/// A loop as it was walked: the sound plant that it should be, what is not known of it, and what was read.
struct WalkedLoop
{
    circulation::LoopAsKnown known;
    std::vector<circulation::GaugeRead> read;
    std::vector<std::size_t> items;  ///< of each reading
    std::vector<std::string> labels; ///< the same
    std::vector<LoopPart> parts;
    std::vector<std::string> basis;
    bool pump_is_usual = false;
};

/// How fast its pump turns.
enum class At
{
    speed_of_readings,
    full_speed
};

/// The loop of the visit, with usual values where nothing was said. The pump's own curve is used where it can be read
/// at the speed of the readings; at full speed always, as the fastest that its maker printed.
[[nodiscard]] WalkedLoop walked_loop(LoopBench const& bench, At at = At::speed_of_readings);

} // namespace padwalk::assess
