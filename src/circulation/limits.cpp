#include "padwalk/circulation/limits.hpp"

#include "padwalk/units/definitions.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace padwalk::circulation
{

std::optional<units::Duration> longest_turnover(TurnoverLimit const& limit, std::optional<units::Length> mean_depth)
{
    if (!limit.longest_per_foot)
        return limit.longest;
    if (!mean_depth)
        return std::nullopt;
    units::Duration const by_depth = *limit.longest_per_foot * (units::in_si(*mean_depth) / units::exact::foot);
    return limit.longest ? std::min(by_depth, *limit.longest) : by_depth;
}

units::Velocity FilterRateLimit::greatest() const
{
    return greatest_per_square_foot / units::of_si<units::Area>(units::exact::square_foot);
}

namespace
{

bool same_size(units::Length a, units::Length b)
{
    constexpr double written_rounding = 1e-6; // '1.5 in' and '1 1/2 in' are one size
    return std::abs(units::in_si(a - b)) <= written_rounding;
}

} // namespace

std::optional<units::Length> Pipes::bore(units::Length nominal, int schedule) const
{
    if (schedule != 40 && schedule != 80)
        return std::nullopt;
    for (auto const& row : bores)
        if (same_size(row.nominal, nominal))
            return schedule == 40 ? row.schedule_40 : row.schedule_80;
    return std::nullopt;
}

units::Length Pipes::nearest_nominal(units::Length bore) const
{
    if (bores.empty())
        throw std::logic_error("the table of pipes has no sizes");
    auto off = [&](PipeBore const& row) { return std::abs(units::in_si(row.schedule_40 - bore)); };
    return std::min_element(bores.begin(), bores.end(),
                            [&](PipeBore const& a, PipeBore const& b) { return off(a) < off(b); })
        ->nominal;
}

std::optional<units::Number> Pipes::loss_coefficient(std::string_view fitting, units::Length nominal) const
{
    for (auto const& [name, row] : fittings)
    {
        if (name != fitting)
            continue;
        if (row.coefficient)
            return row.coefficient;
        for (auto const& size : turbulent_factors)
            if (row.bores && same_size(size.nominal, nominal))
                return *row.bores * size.factor.value();
    }
    return std::nullopt;
}

} // namespace padwalk::circulation
