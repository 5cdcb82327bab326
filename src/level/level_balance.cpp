#include "padwalk/level/level_balance.hpp"

#include "level_budget.hpp"
#include "rate_integral.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

namespace padwalk::level
{
namespace
{

constexpr double log_2_pi = 1.8378770664093454836;
constexpr std::array both_forms{EvaporationForm::ashrae, EvaporationForm::smith};

double dot(std::vector<double> const& a, std::vector<double> const& b)
{
    return std::inner_product(a.begin(), a.end(), b.begin(), 0.0);
}

/// Along one line of rates, (off, on) = q·(a, b): the log likelihood is peak - (q - mean)²/2 spread².
struct Ray
{
    double peak, mean, spread;
};

/// The log likelihood of leak rates with the pump off and on, of one form and one share of unknown times:
/// top - 1/2 (c - 2 b·q + q·M q).
class Account
{
public:
    Account(LevelRecord const& record, LevelBudget const& budget, numerics::Whitening const& whiten, double unknown);

    [[nodiscard]] double none() const { return top_ - c_ / 2; }
    [[nodiscard]] double chi_squared() const { return c_; }
    [[nodiscard]] Ray ray(double off, double on) const
    {
        double const a = off * off * m_[0] + 2 * off * on * m_[1] + on * on * m_[2];
        double const mean = (off * b_[0] + on * b_[1]) / a;
        return {none() + a * mean * mean / 2, mean, 1 / std::sqrt(a)};
    }
    [[nodiscard]] bool ray_seen(double off, double on) const
    {
        return off * off * m_[0] + 2 * off * on * m_[1] + on * on * m_[2] > 0;
    }
    [[nodiscard]] double determinant() const { return m_[0] * m_[2] - m_[1] * m_[1]; }
    /// Both states of the pump bear on the marks, and not in one fixed proportion.
    [[nodiscard]] bool parts_states() const
    {
        constexpr double one_direction = 1e-9;
        return determinant() > one_direction * m_[0] * m_[2];
    }
    /// Of one rate, the other one at zero or above.
    [[nodiscard]] RateLikelihood marginal(bool on) const;
    [[nodiscard]] double best_chi_squared() const;

private:
    double top_ = 0, c_ = 0;
    std::array<double, 2> b_{};
    std::array<double, 3> m_{}; ///< off off, off on, on on
};

Account::Account(LevelRecord const& record, LevelBudget const& budget, numerics::Whitening const& whiten,
                 double unknown)
{
    std::vector<double> off, on;
    for (std::size_t k = 0; k < record.stretches.size(); ++k)
    {
        double const share = record.stretches[k].pump ? record.stretches[k].pump->value() : unknown;
        off.push_back(budget.durations[k] * (1 - share));
        on.push_back(budget.durations[k] * share);
    }
    std::vector<double> const nothing(off.size(), 0.0);
    auto const rest = whiten(budget.rest);
    auto const by_off = whiten(summed(record, off, nothing)), by_on = whiten(summed(record, on, nothing));
    top_ = whiten.log_peak();
    c_ = dot(rest, rest);
    b_ = {dot(by_off, rest), dot(by_on, rest)};
    m_ = {dot(by_off, by_off), dot(by_off, by_on), dot(by_on, by_on)};
}

RateLikelihood Account::marginal(bool on) const
{
    double const det = determinant();
    std::array const mean{(m_[2] * b_[0] - m_[1] * b_[1]) / det, (m_[0] * b_[1] - m_[1] * b_[0]) / det};
    std::array const spread{std::sqrt(m_[2] / det), std::sqrt(m_[0] / det)};
    std::size_t const which = on ? 1 : 0, other = 1 - which;
    // The other rate, given this one: its own spread is 1/sqrt(M), its mean goes by -M12/M22.
    double const alone = 1 / std::sqrt(m_[on ? 0 : 2]), slope = -m_[1] * alone * alone;
    double const peak = top_ - best_chi_squared() / 2;
    return {peak + log_2_pi - std::log(det) / 2, mean.at(which), spread.at(which),
            RateLikelihood::Cut{slope / alone, mean.at(other) / alone}};
}

double Account::best_chi_squared() const
{
    if (parts_states())
        return c_ - (m_[2] * b_[0] * b_[0] - 2 * m_[1] * b_[0] * b_[1] + m_[0] * b_[1] * b_[1]) / determinant();
    double const a = m_[0] + 2 * m_[1] + m_[2], b = b_[0] + b_[1];
    return c_ - b * b / a;
}

std::vector<Account> accounts_of(LevelRecord const& record, std::vector<LevelBudget> const& budgets)
{
    bool const unknown = std::any_of(record.stretches.begin(), record.stretches.end(),
                                     [](auto const& s) { return !s.pump.has_value(); });
    std::vector<Account> out;
    for (auto const& budget : budgets)
    {
        numerics::Whitening const whiten(budget.doubt);
        for (double const share : unknown ? std::vector{0.0, 0.25, 0.5, 0.75, 1.0} : std::vector{0.0})
            out.emplace_back(record, budget, whiten, share);
    }
    return out;
}

std::vector<LevelBudget> budgets_of(LevelRecord const& record, BalanceFacts const& facts)
{
    std::vector<LevelBudget> out;
    for (auto const form : both_forms)
        out.push_back(level_budget(record, form, facts));
    return out;
}

std::vector<RateLikelihood> same_rate(std::vector<Account> const& accounts)
{
    std::vector<RateLikelihood> out;
    for (auto const& account : accounts)
    {
        Ray const ray = account.ray(1, 1);
        out.push_back({ray.peak + log_2_pi / 2 + std::log(ray.spread), ray.mean, ray.spread, std::nullopt});
    }
    return out;
}

std::vector<RateLikelihood> one_state(std::vector<Account> const& accounts, bool on)
{
    std::vector<RateLikelihood> out;
    for (auto const& account : accounts)
        if (account.parts_states())
            out.push_back(account.marginal(on));
    return out;
}

/// ln of the mean likelihood over a place's rates, and over how much of it is left in the pump's other state.
double log_likelihood(Account const& account, LeakPlace place, BalanceTable const& table)
{
    constexpr int rests = 9;
    double const most = place == LeakPlace::pressure_side ? table.pressure_rest.si() : table.suction_rest.si();
    std::vector<double> logs;
    for (int i = 0; i < (place == LeakPlace::shell ? 1 : rests); ++i)
    {
        double const rest = place == LeakPlace::shell ? 1 : most * i / (rests - 1);
        double const off = place == LeakPlace::pressure_side ? rest : 1,
                     on = place == LeakPlace::suction_side ? rest : 1;
        if (!account.ray_seen(off, on)) // such a leak did not run while the level was watched
        {
            logs.push_back(account.none());
            continue;
        }
        Ray const ray = account.ray(off, on);
        logs.push_back(ray.peak + log_mean_normal(table.least_leak.si(), table.most_leak.si(), ray.mean, ray.spread));
    }
    return numerics::log_mean(logs);
}

double mean_over(std::vector<Account> const& accounts, std::function<double(Account const&)> const& log)
{
    std::vector<double> logs;
    for (auto const& account : accounts)
        logs.push_back(log(account));
    return numerics::log_mean(logs);
}

void weigh_places(LevelBalance& out, std::vector<Account> const& accounts, BalanceTable const& table)
{
    double const none = mean_over(accounts, [](Account const& a) { return a.none(); });
    std::array const before{table.chance_shell.si(), table.chance_pressure.si(), table.chance_suction.si()};
    std::vector<double> weighted;
    for (auto const place : {LeakPlace::shell, LeakPlace::pressure_side, LeakPlace::suction_side})
    {
        double const log =
            mean_over(accounts, [&](Account const& a) { return log_likelihood(a, place, table); }) - none;
        out.places.push_back({place, log, {}});
        weighted.push_back(log + std::log(before.at(static_cast<std::size_t>(place))));
    }
    double const all = numerics::log_mean(weighted) + std::log(static_cast<double>(weighted.size()));
    for (std::size_t i = 0; i < weighted.size(); ++i)
        out.places[i].chance = units::Fraction::from_value(std::exp(weighted[i] - all));
    double const leaks = table.chance_of_leak.si();
    out.odds.log_ratio = all;
    out.odds.none = units::Fraction::from_value(1 / (1 + std::exp(all) * leaks / (1 - leaks)));
}

/// Mean of what both forms foretell; their difference is a doubt of it.
std::vector<Foretold> foretold(LevelRecord const& record, std::vector<LevelBudget> const& budgets)
{
    std::vector<Foretold> out{{record.marks.front().at, {units::Length(), units::Length(), "computed"}}};
    std::vector<double> sums(budgets.size(), 0.0);
    for (std::size_t k = 0; k < record.stretches.size(); ++k)
    {
        double mean = 0, square = 0, variance = 0;
        for (std::size_t f = 0; f < budgets.size(); ++f)
        {
            sums[f] += budgets[f].gone[k];
            mean += sums[f] / static_cast<double>(budgets.size());
            square += sums[f] * sums[f] / static_cast<double>(budgets.size());
            variance += std::pow(budgets[f].foretold_doubt[k], 2) / static_cast<double>(budgets.size());
        }
        double const doubt = std::sqrt(variance + std::max(0.0, square - mean * mean));
        out.push_back({record.marks[k + 1].at,
                       {units::of_si<units::Length>(mean), units::of_si<units::Length>(doubt), "computed"}});
    }
    return out;
}

/// The leak's spread by this record: all that watching on can bring down.
double spread_of(LevelRecord const& record, BalanceFacts const& facts)
{
    return units::in_si(leak_estimate(same_rate(accounts_of(record, budgets_of(record, facts)))).doubt);
}

LevelRecord watched_on(LevelRecord record, double seconds)
{
    LevelStretch stretch = record.stretches.back();
    stretch.fill = FillState::shut;
    stretch.filled = std::nullopt;
    stretch.rain = {};
    stretch.backwash = {};
    stretch.bather_time = {};
    auto const& last = record.marks.back();
    LevelMark mark = last;
    mark.at = last.at + units::of_si<units::Duration>(seconds);
    // Where the new mark stands changes only what an error of its time does: it falls on as before.
    double const on = seconds / units::in_si(record.length());
    mark.fall.value = last.fall.value * (1 + on);
    if (mark.bucket_fall)
        mark.bucket_fall->value = last.bucket_fall->value * (1 + on);
    record.stretches.push_back(std::move(stretch));
    record.marks.push_back(std::move(mark));
    return record;
}

} // namespace

LevelBalance level_balance(LevelRecord const& record, BalanceFacts const& facts)
{
    auto const budgets = budgets_of(record, facts);
    auto const accounts = accounts_of(record, budgets);
    LevelBalance out;
    out.leak = leak_rate(same_rate(accounts));
    if (auto const off = one_state(accounts, false); !off.empty())
    {
        out.off = leak_rate(off);
        out.on = leak_rate(one_state(accounts, true));
    }
    out.least_shown = least_leak_shown(out.leak.estimate.doubt);
    weigh_places(out, accounts, facts.table);
    out.foretold = foretold(record, budgets);
    auto const best = std::min_element(accounts.begin(), accounts.end(),
                                       [](auto const& a, auto const& b) { return a.chi_squared() < b.chi_squared(); });
    out.chi_squared = best->chi_squared();
    out.chi_squared_with_leak = HUGE_VAL;
    for (auto const& account : accounts)
        out.chi_squared_with_leak = std::min(out.chi_squared_with_leak, account.best_chi_squared());
    out.degrees = static_cast<int>(budgets.front().rest.size());
    return out;
}

std::optional<units::Duration> watch_longer(LevelRecord const& record, units::Velocity leak, BalanceFacts const& facts)
{
    double const wanted = units::in_si(leak) / units::in_si(least_leak_shown(units::of_si<units::Velocity>(1)));
    auto const shows = [&](double seconds) { return spread_of(watched_on(record, seconds), facts) <= wanted; };
    if (spread_of(record, facts) <= wanted)
        return units::Duration();
    // Doubled from an hour on, as the doubt falls; then halved to a quarter of an hour.
    constexpr double hour = 3600, close = hour / 4;
    double too_short = 0, enough = hour;
    double const longest = facts.table.longest_watch.si();
    while (!shows(enough))
    {
        if (enough >= longest)
            return std::nullopt;
        too_short = enough;
        enough = std::min(2 * enough, longest);
    }
    while (enough - too_short > close)
    {
        double const middle = (too_short + enough) / 2;
        (shows(middle) ? enough : too_short) = middle;
    }
    return units::of_si<units::Duration>(enough);
}

} // namespace padwalk::level
