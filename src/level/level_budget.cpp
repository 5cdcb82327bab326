#include "level_budget.hpp"
#include "still_water.hpp"

#include "padwalk/units/definitions.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace padwalk::level
{
namespace
{

using Values = std::vector<double>;

class Budgeting
{
public:
    Budgeting(LevelRecord const& record, EvaporationForm form, BalanceFacts const& facts)
        : record_(record), form_(form), facts_(facts), table_(facts.table)
    {
    }
    LevelBudget find();

private:
    void evaporate();
    void size();
    [[nodiscard]] double bucket_says() const;
    [[nodiscard]] bool any_weather() const;
    /// Of evaporation foretold, all the time.
    [[nodiscard]] double lasting_spread() const
    {
        return any_weather() ? table_.form_spread.si() : table_.usual_spread.si();
    }
    [[nodiscard]] double hour_spread(LevelStretch const& s) const
    {
        return record_.weather && !s.weather ? table_.hour_spread.si() : 0;
    }
    [[nodiscard]] double day_spread(LevelStretch const& s) const
    {
        return s.weather ? table_.day_spread_by_stretch.si() : table_.day_spread.si();
    }
    [[nodiscard]] double stirred_extra(LevelStretch const& s) const;
    void foretell();
    void observe();
    void add(Values const& pool, Values const& bucket) { out_.doubt.add_together(summed(record_, pool, bucket)); }
    void add_shares(Values const& shares, Values const& of_pool, Values const& of_bucket);
    void add_evaporation_doubt();
    void add_day_doubt();
    void add_use_doubt();
    void add_stretch_doubt();
    void add_mark_doubt();
    [[nodiscard]] double rate_at(std::size_t mark) const;
    [[nodiscard]] double area() const { return record_.area ? units::in_si(*record_.area) : 1; }
    [[nodiscard]] std::size_t stretches() const { return record_.stretches.size(); }

    LevelRecord const& record_;
    EvaporationForm form_;
    BalanceFacts const& facts_;
    BalanceTable const& table_;
    LevelBudget out_;
    std::vector<StillWater> still_; ///< of each stretch
    Values open_;                   ///< fall of still, open water over each stretch: the bucket's
    Values pool_;                   ///< the pool's by evaporation, for each metre of that
    Values extra_;                  ///< of it, because the water is stirred
    Values kept_;                   ///< what the cover keeps back, for each metre of that
    Values size_;                   ///< of the evaporation that spreads are shares of, as open_
    Values bathed_, rained_;
};

double Budgeting::stirred_extra(LevelStretch const& s) const
{
    auto const& table = facts_.evaporation;
    double const still = table.factor(form_, Activity::still);
    double const surface = table.factor(form_, s.activity) / still - 1;
    double const sheets = units::in_si(s.falling_area) / area() * table.factor(form_, Activity::jets) / still;
    return s.activity_share.value() * (surface + sheets);
}

void Budgeting::evaporate()
{
    LevelWeather const* last = nullptr;
    for (std::size_t k = 0; k < stretches(); ++k)
    {
        auto const& s = record_.stretches[k];
        auto const* weather = s.weather ? &*s.weather : record_.weather ? &*record_.weather : nullptr;
        if (weather == nullptr)
            still_.push_back({table_.usual_evaporation.si(), {}});
        else
            still_.push_back(weather == last ? still_.back() : still_water(*weather, form_, facts_.evaporation));
        last = weather;
        double const extra = stirred_extra(s), kept = s.covered.value.value() * table_.cover_cut.si();
        out_.durations.push_back(units::in_si(record_.marks[k + 1].at - record_.marks[k].at));
        open_.push_back(still_.back().rate * out_.durations[k]);
        extra_.push_back(extra * (1 - kept));
        kept_.push_back((1 + extra) * kept);
        pool_.push_back((1 + extra) * (1 - kept));
        rained_.push_back(units::in_si(s.rain.value));
    }
}

/// Spreads are shares of the evaporation that there was, not of the one foretold: the square of it is that foretold
/// and the variance of the weather, and where a bucket stood it knows better.
void Budgeting::size()
{
    double const length = units::in_si(record_.length()), more = bucket_says() / length;
    for (std::size_t k = 0; k < stretches(); ++k)
    {
        double square = std::pow(still_[k].rate + more, 2);
        if (more == 0)
            for (double const move : still_[k].moves)
                square += move * move;
        size_.push_back(std::sqrt(square) * out_.durations[k]);
    }
}

bool Budgeting::any_weather() const
{
    return record_.weather || std::any_of(record_.stretches.begin(), record_.stretches.end(),
                                          [](auto const& s) { return s.weather.has_value(); });
}

/// What the bucket's whole fall adds to the evaporation foretold, each counted by its doubt; 0 without a bucket.
double Budgeting::bucket_says() const
{
    std::vector<std::size_t> marked;
    for (std::size_t i = 0; i < record_.marks.size(); ++i)
        if (record_.marks[i].bucket_fall)
            marked.push_back(i);
    if (marked.size() < 2)
        return 0;
    auto const &first = *record_.marks[marked.front()].bucket_fall, &last = *record_.marks[marked.back()].bucket_fall;
    double foretold = 0, seen = units::in_si(last.value - first.value), square = 0;
    std::array<double, weather_readings> moves{};
    for (std::size_t k = marked.front(); k < marked.back(); ++k)
    {
        foretold += open_[k];
        seen += rained_[k];
        for (std::size_t i = 0; i < weather_readings; ++i)
            moves.at(i) += still_[k].moves.at(i) * out_.durations[k];
    }
    for (double const move : moves)
        square += move * move;
    auto const& stretch = record_.stretches[marked.front()];
    double const shares = std::hypot(lasting_spread(), std::hypot(hour_spread(stretch), day_spread(stretch)));
    square += std::pow(shares * foretold, 2);
    double const marks = std::hypot(units::in_si(first.doubt), units::in_si(last.doubt));
    double const bucket = marks * marks + std::pow(table_.bucket_spread.si() * seen, 2);
    auto const watched = record_.marks[marked.back()].at - record_.marks[marked.front()].at;
    double const share = units::in_si(record_.length()) / units::in_si(units::Duration(watched));
    return share * (seen - foretold) * square / (square + bucket);
}

void Budgeting::foretell()
{
    using units::exact::hour;
    for (std::size_t k = 0; k < stretches(); ++k)
    {
        auto const& s = record_.stretches[k];
        double volume = units::in_si(s.backwash.value);
        if (s.filled)
            volume -= units::in_si(s.filled->value);
        else if (unmetered(s))
            volume -= table_.most_fill.si() / 2 * out_.durations[k];
        bathed_.push_back(units::in_si(s.bather_time) / hour * table_.bather_loss.si() / area());
        out_.evaporated.push_back(open_[k] * pool_[k]);
        out_.gone.push_back(out_.evaporated[k] + bathed_[k] + volume / area() - rained_[k]);
    }
}

void Budgeting::observe()
{
    auto const& marks = record_.marks;
    Values observed, in_bucket;
    for (std::size_t i = 1; i < marks.size(); ++i)
        observed.push_back(units::in_si(marks[i].fall.value - marks.front().fall.value));
    std::optional<double> first;
    for (auto const& mark : marks)
        if (mark.bucket_fall)
        {
            double const fall = units::in_si(mark.bucket_fall->value);
            if (first)
                observed.push_back(fall - *first);
            else
                first = fall;
        }
    for (std::size_t k = 0; k < stretches(); ++k)
        in_bucket.push_back(open_[k] - rained_[k]);
    auto const foretold = summed(record_, out_.gone, in_bucket);
    for (std::size_t i = 0; i < observed.size(); ++i)
        out_.rest.push_back(observed[i] - foretold[i]);
    out_.marks = marks.size() - 1;
    out_.doubt = numerics::Covariance(out_.rest.size());
}

/// What strays as shares of the evaporation: share by share of the pool's and of the bucket's.
void Budgeting::add_shares(Values const& shares, Values const& of_pool, Values const& of_bucket)
{
    Values pool, bucket;
    for (std::size_t k = 0; k < stretches(); ++k)
    {
        pool.push_back(shares[k] * of_pool[k] * size_[k]);
        bucket.push_back(shares[k] * of_bucket[k] * size_[k]);
    }
    add(pool, bucket);
}

void Budgeting::add_evaporation_doubt()
{
    Values const none(stretches(), 0.0), all(stretches(), 1.0);
    auto const same = [&](double share) { return Values(stretches(), share); };
    add_shares(same(lasting_spread()), pool_, all);
    for (std::size_t reading = 0; reading < weather_readings; ++reading)
    {
        // One instrument, or one guess, all the time: its error persists.
        Values pool, bucket;
        for (std::size_t k = 0; k < stretches(); ++k)
        {
            bucket.push_back(still_[k].moves.at(reading) * out_.durations[k]);
            pool.push_back(bucket[k] * pool_[k]);
        }
        add(pool, bucket);
    }
    Values hour;
    for (auto const& s : record_.stretches)
        hour.push_back(hour_spread(s));
    add_shares(hour, pool_, all);
    add_shares(same(table_.bucket_spread.si()), none, all);
    add_shares(same(table_.stirred_spread.si()), extra_, none);
}

void Budgeting::add_day_doubt()
{
    using units::exact::day;
    double const start = units::in_si(record_.marks.front().at), length = units::in_si(record_.length());
    Values const all(stretches(), 1.0);
    for (int d = 0; d * day < length; ++d)
    {
        Values shares;
        for (std::size_t k = 0; k < stretches(); ++k)
        {
            double const from = std::max(d * day, units::in_si(record_.marks[k].at) - start);
            double const to = std::min((d + 1) * day, units::in_si(record_.marks[k + 1].at) - start);
            shares.push_back(day_spread(record_.stretches[k]) * std::max(0.0, to - from) / out_.durations[k]);
        }
        add_shares(shares, pool_, all);
    }
}

void Budgeting::add_use_doubt()
{
    Values const none(stretches(), 0.0);
    Values bathed, rained, cover, habit; // how long the cover lies there is a habit: it strays the same way every day
    for (std::size_t k = 0; k < stretches(); ++k)
    {
        bathed.push_back(bathed_[k] * table_.bather_spread.si());
        rained.push_back(rained_[k] * table_.rain_spread.si());
        cover.push_back(table_.cover_spread.si());
        habit.push_back((1 + extra_[k]) * table_.cover_cut.si() * record_.stretches[k].covered.doubt.value());
    }
    add(bathed, none);
    add(rained, none);
    add_shares(cover, kept_, none);
    add_shares(habit, Values(stretches(), 1.0), none);
}

void Budgeting::add_stretch_doubt()
{
    for (std::size_t k = 0; k < stretches(); ++k)
    {
        auto const& s = record_.stretches[k];
        Values pool(stretches(), 0.0), bucket = pool;
        double volume = units::in_si(s.backwash.doubt);
        if (s.filled)
            volume = std::hypot(volume, units::in_si(s.filled->doubt));
        else if (unmetered(s)) // uniform from nothing to the most
            volume = std::hypot(volume, table_.most_fill.si() * out_.durations[k] / std::sqrt(12.0));
        pool[k] = volume / area();
        if (pool[k] > 0)
            add(pool, bucket);
        pool[k] = bucket[k] = units::in_si(s.rain.doubt);
        if (pool[k] > 0)
            add(pool, bucket);
    }
}

/// Mean fall of the level about a mark, for what an error of its time does.
double Budgeting::rate_at(std::size_t mark) const
{
    auto const& marks = record_.marks;
    auto const &before = marks[mark == 0 ? 0 : mark - 1], &after = marks[std::min(mark + 1, marks.size() - 1)];
    return units::in_si((after.fall.value - before.fall.value) / units::Duration(after.at - before.at));
}

void Budgeting::add_mark_doubt()
{
    auto const& marks = record_.marks;
    double const open_rate = still_.front().rate;
    auto const on_pool = [&](std::size_t i)
    { return std::hypot(units::in_si(marks[i].fall.doubt), rate_at(i) * units::in_si(marks[i].at_doubt)); };
    auto const on_bucket = [&](std::size_t i)
    { return std::hypot(units::in_si(marks[i].bucket_fall->doubt), open_rate * units::in_si(marks[i].at_doubt)); };
    Values first_mark(out_.rest.size(), 0.0), first_in_bucket = first_mark;
    for (std::size_t i = 0; i < out_.marks; ++i)
    {
        first_mark[i] = -on_pool(0);
        out_.doubt.add_alone(i, std::pow(on_pool(i + 1), 2));
    }
    std::size_t at = out_.marks;
    std::optional<double> first;
    for (std::size_t i = 0; i < marks.size(); ++i)
    {
        if (!marks[i].bucket_fall)
            continue;
        if (first)
        {
            first_in_bucket[at] = -*first;
            out_.doubt.add_alone(at++, std::pow(on_bucket(i), 2));
        }
        else
            first = on_bucket(i);
    }
    out_.doubt.add_together(first_mark);
    out_.doubt.add_together(first_in_bucket);
}

LevelBudget Budgeting::find()
{
    evaporate();
    size();
    foretell();
    observe();
    add_evaporation_doubt();
    add_day_doubt();
    add_use_doubt();
    for (std::size_t i = 0; i < out_.marks; ++i)
        out_.foretold_doubt.push_back(std::sqrt(out_.doubt(i, i)));
    add_stretch_doubt();
    add_mark_doubt();
    return std::move(out_);
}

} // namespace

std::vector<double> summed(LevelRecord const& record, std::vector<double> const& pool,
                           std::vector<double> const& bucket)
{
    std::vector<double> out;
    double sum = 0;
    for (double const x : pool)
        out.push_back(sum += x);
    std::optional<double> first;
    sum = 0;
    for (std::size_t i = 0; i < record.marks.size(); ++i)
    {
        if (i > 0)
            sum += bucket[i - 1];
        if (!record.marks[i].bucket_fall)
            continue;
        if (first)
            out.push_back(sum - *first);
        else
            first = sum;
    }
    return out;
}

LevelBudget level_budget(LevelRecord const& record, EvaporationForm form, BalanceFacts const& facts)
{
    require_weighable(record);
    return Budgeting(record, form, facts).find();
}

} // namespace padwalk::level
