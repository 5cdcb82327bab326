#include "padwalk/level/level_record.hpp"

#include "padwalk/figures/model.hpp"

#include <cmath>

namespace padwalk::level
{

using figures::NotComputed;

units::Duration LevelRecord::length() const
{
    return marks.empty() ? units::Duration() : marks.back().at - marks.front().at;
}

bool unmetered(LevelStretch const& stretch)
{
    return stretch.fill != FillState::shut && !stretch.filled;
}

namespace
{

bool is_share(units::Fraction share)
{
    return share.value() >= 0 && share.value() <= 1;
}

void require_weighable(LevelStretch const& s, bool has_area)
{
    if (!is_share(s.covered.value) || !is_share(s.activity_share) || (s.pump && !is_share(*s.pump)))
        throw NotComputed("a share of time or of surface lies between 0 and 100 %");
    bool const volumes = unmetered(s) || s.filled || s.falling_area > units::Area() ||
                         s.bather_time > units::Duration() || s.backwash.value > units::Volume();
    if (volumes && !has_area)
        throw NotComputed("needs area: water that came in or was let out, and bathers, count by volume");
}

} // namespace

void require_weighable(LevelRecord const& record)
{
    if (record.marks.size() < 2)
        throw NotComputed("there is one mark only; a second one, a day later, would tell");
    if (record.stretches.size() + 1 != record.marks.size())
        throw NotComputed("between every two marks lies one stretch");
    for (std::size_t i = 0; i < record.marks.size(); ++i)
    {
        auto const& mark = record.marks[i];
        if (i > 0 && !(mark.at > record.marks[i - 1].at))
            throw NotComputed("marks must follow each other in time");
        if (!(mark.fall.doubt > units::Length()) || !std::isfinite(units::in_si(mark.fall.value)))
            throw NotComputed("every mark needs a doubt above zero");
        if (mark.bucket_fall && !(mark.bucket_fall->doubt > units::Length()))
            throw NotComputed("every mark on the bucket needs a doubt above zero");
    }
    bool const has_area = record.area && *record.area > units::Area();
    for (auto const& stretch : record.stretches)
        require_weighable(stretch, has_area);
}

} // namespace padwalk::level
