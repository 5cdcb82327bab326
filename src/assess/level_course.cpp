#include "level_course.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::assess
{
namespace
{

using level::LevelRecord;
using units::Length;

/// The marks from one to another with what went on between them; the falls are counted from the first of them.
LevelRecord part_of(LevelRecord const& record, std::size_t from, std::size_t to)
{
    auto const at = [](std::size_t i) { return static_cast<std::ptrdiff_t>(i); };
    LevelRecord out = record;
    out.marks.assign(record.marks.begin() + at(from), record.marks.begin() + at(to) + 1);
    out.stretches.assign(record.stretches.begin() + at(from), record.stretches.begin() + at(to));
    auto const first = out.marks.front();
    for (auto& mark : out.marks)
    {
        mark.fall.value = mark.fall.value - first.fall.value;
        if (mark.bucket_fall && first.bucket_fall)
            mark.bucket_fall->value = mark.bucket_fall->value - first.bucket_fall->value;
    }
    // A bucket whose first mark is missing tells nothing of this part.
    if (!out.marks.front().bucket_fall)
        for (auto& mark : out.marks)
            mark.bucket_fall = std::nullopt;
    return out;
}

units::Measured<Length> between(units::Measured<Length> const& from, units::Measured<Length> const& to)
{
    double const doubt = std::hypot(units::in_si(from.doubt), units::in_si(to.doubt));
    return {to.value - from.value, units::of_si<Length>(doubt), to.method};
}

/// In the last stretch as in all before, as far as it was told.
bool same_pump(LevelRecord const& record, std::size_t last)
{
    auto const share = [&](std::size_t i) { return record.stretches[i].pump ? record.stretches[i].pump->value() : -1; };
    for (std::size_t i = 0; i < last; ++i)
        if (share(i) != share(last))
            return false;
    return true;
}

/// The settling has the leak end above the last mark.
bool settled(LevelEntry const& level)
{
    double const surely = std::log(19.0);
    return level.settling && level.settling->log_stops > surely &&
           units::in_si(level.settling->high) < units::in_si(level.record.marks[level.last_mark].fall.value);
}

LevelTrend trend_of(LevelEntry const& level, level::LevelBalance const& now, level::BalanceFacts const& facts)
{
    constexpr double surely = 2, hardly = 1.645, far = 3; // standard uncertainties; judgement
    double const rate = units::in_si(now.leak.estimate.value), doubt = units::in_si(now.leak.estimate.doubt);
    if (rate > surely * doubt)
        return LevelTrend::falling;
    if (rate < -far * doubt)
        return LevelTrend::unclear; // water came in that nobody noted
    if (level.balance.odds.log_ratio <= 0)
        return LevelTrend::no_loss;
    if (level.last_mark < 2 || rate > hardly * doubt || !same_pump(level.record, level.last_mark - 1))
        return LevelTrend::unclear;
    if (settled(level))
        return LevelTrend::stopped;
    auto const before = part_of(level.record, 0, level.last_mark - 1);
    if (std::all_of(before.stretches.begin(), before.stretches.end(),
                    [](auto const& s) { return level::unmetered(s); }))
        return LevelTrend::unclear;
    auto const earlier = level::level_balance(before, facts).leak.estimate;
    double const was = units::in_si(earlier.value);
    bool const lost_before = was > surely * units::in_si(earlier.doubt);
    bool const would_show = was >= units::in_si(now.least_shown);
    return lost_before && would_show ? LevelTrend::stopped : LevelTrend::unclear;
}

} // namespace

std::optional<LevelCourse> level_course(LevelEntry const& level, level::BalanceFacts const& facts)
{
    std::size_t const last = level.last_mark;
    if (last == 0 || level::unmetered(level.record.stretches[last - 1]))
        return std::nullopt;
    auto const stretch = part_of(level.record, last - 1, last);
    auto const now = level::level_balance(stretch, facts);
    LevelCourse out;
    out.time = stretch.length();
    out.fall = between(level.record.marks[last - 1].fall, level.record.marks[last].fall);
    out.without_leak = now.foretold.back().fall;
    out.trend = trend_of(level, now, facts);
    return out;
}

} // namespace padwalk::assess
