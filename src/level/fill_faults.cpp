#include "padwalk/level/fill_faults.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace padwalk::level
{
namespace
{

double shown_by(FillGauge gauge, FillAtRest const& rest)
{
    switch (gauge)
    {
    case FillGauge::level: return units::in_si(rest.below);
    case FillGauge::day_volume: return units::in_si(rest.day);
    case FillGauge::run_share: return rest.run.value();
    case FillGauge::starts: return rest.starts.value();
    case FillGauge::flow_held_down: return units::in_si(rest.held_down);
    case FillGauge::flow_held_up: return units::in_si(rest.held_up);
    case FillGauge::peak_pressure: return units::in_si(rest.peak);
    }
    throw std::logic_error("a gauge of no kind");
}

FillValve moved(FillValve v, FillDoubtRule const& doubt, double deviations)
{
    double const factor = std::exp(doubt.spread.value() * deviations);
    switch (doubt.what)
    {
    case FillUnsure::flow: v.flow = v.flow * factor; break;
    case FillUnsure::travel: v.travel = v.travel * factor; break;
    case FillUnsure::closing: v.closing = v.closing * factor; break;
    case FillUnsure::overflow: v.overflow = v.overflow * factor; break;
    }
    return v;
}

} // namespace

FillComparison::FillComparison(FillValveAsKnown known, std::vector<FillRead> read, FillValveTable const& table)
    : known_(std::move(known)), read_(std::move(read)), table_(table)
{
    sound_values_ = values(known_.valve, std::nullopt);
    sound_ = account(std::nullopt);
}

FillComparison::Values FillComparison::values(FillValve const& valve, std::optional<Change> const& change) const
{
    FillAtRest const rest =
        fill_at_rest(change ? with_fill_fault(valve, change->kind, change->severity, table_) : valve, table_);
    Values out;
    for (auto const& r : read_)
        out.push_back(shown_by(r.gauge, rest));
    return out;
}

numerics::Covariance FillComparison::covariance(std::optional<Change> const& change, Values const& here) const
{
    numerics::Covariance out(read_.size());
    auto const add = [&](FillValve const& up, FillValve const& down)
    {
        auto high = values(up, change);
        auto const low = values(down, change);
        for (std::size_t i = 0; i < high.size(); ++i)
            high[i] = (high[i] - low[i]) / 2;
        out.add_together(high);
    };
    for (FillDoubtRule doubt : table_.doubts)
    {
        if (doubt.what == FillUnsure::flow && known_.flow_spread)
            doubt.spread = *known_.flow_spread;
        add(moved(known_.valve, doubt, 1), moved(known_.valve, doubt, -1));
    }
    FillValve more = known_.valve, less = known_.valve;
    more.loss = more.loss + known_.loss_doubt;
    less.loss = std::max(units::Velocity(), units::Velocity(less.loss - known_.loss_doubt));
    add(more, less);
    FillValve high = known_.valve, low = known_.valve;
    high.set_high = high.set_high + table_.level_doubt.value;
    low.set_high = low.set_high - table_.level_doubt.value;
    add(high, low);
    for (std::size_t i = 0; i < read_.size(); ++i)
    {
        double const model = table_.model_error.si() * here[i];
        double const shape = table_.fault_shape.si() * (here[i] - sound_values_[i]);
        out.add_alone(i, model * model + shape * shape);
    }
    return out;
}

FillAccount FillComparison::account(std::optional<Change> const& change) const
{
    auto const here = values(known_.valve, change);
    auto v = covariance(change, here);
    FillAccount out;
    Values from_mean;
    for (std::size_t i = 0; i < read_.size(); ++i)
    {
        auto const& reading = read_[i].reading;
        out.shown.push_back({reading.measure, here[i], std::sqrt(v(i, i)), "computed", false});
        v.add_alone(i, reading.doubt * reading.doubt);
        from_mean.push_back(reading.value - here[i]);
    }
    auto const departure = numerics::departure(from_mean, v);
    out.log_likelihood = departure.log_density;
    out.chi_squared = departure.square;
    out.severity = change ? change->severity : units::Fraction();
    return out;
}

FillAccount FillComparison::with(FillFaultKind kind) const
{
    constexpr int severities = 24;
    std::optional<FillAccount> best;
    std::vector<double> logs;
    for (int i = 0; i <= severities; ++i)
    {
        auto one = account(Change{kind, units::Fraction::from_value(static_cast<double>(i) / severities)});
        logs.push_back(one.log_likelihood);
        if (!best || one.log_likelihood > best->log_likelihood)
            best = std::move(one);
    }
    best->log_likelihood = numerics::log_mean(logs);
    return *best;
}

double FillComparison::log_likelihood_of_anything() const
{
    auto v = covariance(std::nullopt, sound_values_);
    Values from_mean;
    for (std::size_t i = 0; i < read_.size(); ++i)
    {
        double const far = table_.reach(read_[i].gauge);
        v.add_alone(i, read_[i].reading.doubt * read_[i].reading.doubt + far * far);
        from_mean.push_back(read_[i].reading.value - sound_values_[i]);
    }
    return numerics::departure(from_mean, v).log_density;
}

std::vector<FillOdds> FillComparison::odds() const
{
    std::vector<FillOdds> out{{std::nullopt, sound_, 0.0, {}}};
    std::vector<double> logs{0.0};
    for (auto const& rule : table_.faults)
    {
        auto account = with(rule.fault);
        logs.push_back(account.log_likelihood - sound_.log_likelihood);
        out.push_back({rule.fault, std::move(account), logs.back(), {}});
    }
    double const sum = numerics::log_mean(logs) + std::log(static_cast<double>(logs.size()));
    for (std::size_t i = 0; i < out.size(); ++i)
        out[i].chance = units::Fraction::from_value(std::exp(logs[i] - sum));
    return out;
}

} // namespace padwalk::level
