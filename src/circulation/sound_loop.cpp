#include "sound_loop_parts.hpp"

#include "padwalk/figures/model.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace padwalk::circulation
{

using figures::NotComputed;

/// What the gauges show in one state of the loop, and how one deviation of each doubt moves them, on their scales.
struct LoopComparison::Shown
{
    std::vector<double> values;
    Moves moves;
};

LoopComparison::LoopComparison(LoopAsKnown loop, std::vector<GaugeRead> read, PlantTable const& plants,
                               SoundLoopTable const& table)
    : loop_(std::move(loop)), read_(std::move(read)), plants_(plants), table_(table)
{
    if (loop_.plant.heater && !loop_.plant.heater->loss)
        loop_.plant.heater->loss = plants_.heater.value;
    for (auto const& r : read_)
    {
        taken_.push_back(to_scale(r.gauge, r.reading.value));
        taken_doubts_.push_back(change_to_scale(r.gauge, r.reading.value, r.reading.doubt));
        reads_clean_ = reads_clean_ || r.gauge == LoopGauge::filter_when_clean;
    }
    find_sound();
    find_duty_doubt();
}

double LoopComparison::when_clean(Plant plant) const
{
    if (!reads_clean_)
        return 0;
    if (plant.filter)
        plant.filter->loading = {};
    for (std::size_t i = 0; i < plant.pumps.size(); ++i)
        // What was set otherwise then: the speed. A doubt of the speed moves both.
        plant.pumps[i].speed = plant.pumps[i].speed * (loop_.clean_speed.value() / loop_.plant.pumps[i].speed.value());
    return gauge_of(LoopGauge::filter_when_clean, solve(plant, plants_), loop_, no_heat_lost);
}

std::vector<double> LoopComparison::values(Plant const& plant, Change const& change, double clean) const
{
    Plant faulty = plant;
    for (auto const& fault : change.faults)
        faulty = with_fault(std::move(faulty), fault);
    PlantState const state = solve(faulty, plants_);
    auto const shown_by = [&](LoopGauge gauge)
    {
        switch (gauge)
        {
        case LoopGauge::filter_when_clean: return change.always_was ? when_clean(faulty) : clean;
        case LoopGauge::motor_power: return input_power(faulty, state, table_.motors);
        default: return gauge_of(gauge, state, loop_, change.heat_left);
        }
    };
    std::vector<double> out;
    for (auto const& r : read_)
        out.push_back(to_scale(r.gauge, shown_by(r.gauge)));
    return out;
}

std::optional<std::vector<double>> LoopComparison::values_or_none(Plant const& plant, Change const& change,
                                                                  std::size_t clean) const
{
    try
    {
        return values(plant, change, clean_[clean]);
    }
    catch (NotComputed const&)
    {
        return std::nullopt; // this state can't be, or lies off the pump's curve
    }
}

LoopComparison::Moves LoopComparison::moves_of(Change const& change, std::vector<double> const& here) const
{
    Moves out;
    for (std::size_t k = 0; k < loop_.doubts.size(); ++k)
    {
        auto const& doubt = loop_.doubts[k];
        std::vector<double> move(read_.size(), 0.0);
        if (in_the_plant(doubt))
        {
            auto const up = values_or_none(moved(loop_.plant, doubt, 1), change, 2 * k + 1);
            auto const down = values_or_none(moved(loop_.plant, doubt, -1), change, 2 * k + 2);
            auto const &high = up ? *up : here, &low = down ? *down : here;
            double const over = up && down ? 2 : 1;
            for (std::size_t i = 0; i < read_.size(); ++i)
                move[i] = (high[i] - low[i]) / over;
        }
        else
        {
            LoopGauge const by = doubt.what == Unsure::heat ? LoopGauge::heater_rise : LoopGauge::motor_power;
            for (std::size_t i = 0; i < read_.size(); ++i)
                if (read_[i].gauge == by)
                {
                    double const si = from_scale(by, here[i]);
                    auto const moved_by = [&](double way)
                    { return to_scale(by, si * std::exp(way * doubt.spread.value())); };
                    move[i] = (moved_by(1) - moved_by(-1)) / 2;
                }
        }
        out.push_back(std::move(move));
    }
    return out;
}

numerics::Covariance LoopComparison::covariance(Shown const& shown) const
{
    numerics::Covariance out(read_.size());
    for (auto const& move : shown.moves)
        out.add_together(move);
    for (std::size_t i = 0; i < read_.size(); ++i)
    {
        auto const gauge = read_[i].gauge;
        double const si = from_scale(gauge, shown.values[i]);
        double const model = change_to_scale(gauge, si, table_.model_error.value.value() * si);
        double const shape =
            sound_values_.empty() ? 0 : table_.fault_shape.value.value() * (shown.values[i] - sound_values_[i]);
        out.add_alone(i, model * model + shape * shape);
    }
    return out;
}

LoopAccount LoopComparison::account(Shown const& shown, units::Fraction severity) const
{
    auto v = covariance(shown);
    LoopAccount out;
    std::vector<double> from_mean;
    for (std::size_t i = 0; i < read_.size(); ++i)
    {
        auto const gauge = read_[i].gauge;
        double const si = from_scale(gauge, shown.values[i]);
        out.shown.push_back(
            {read_[i].reading.measure, si, change_from_scale(gauge, si, std::sqrt(v(i, i))), "computed", false});
        v.add_alone(i, taken_doubts_[i] * taken_doubts_[i]);
        from_mean.push_back(taken_[i] - shown.values[i]);
    }
    auto const departure = numerics::departure(from_mean, v);
    out.log_likelihood = departure.log_density;
    out.chi_squared = departure.square;
    out.severity = severity;
    return out;
}

void LoopComparison::find_sound()
{
    clean_.push_back(when_clean(loop_.plant));
    for (auto const& doubt : loop_.doubts)
        for (double const way : {1.0, -1.0})
        {
            try
            {
                clean_.push_back(in_the_plant(doubt) ? when_clean(moved(loop_.plant, doubt, way)) : clean_.front());
            }
            catch (NotComputed const&)
            {
                clean_.push_back(clean_.front());
            }
        }
    sound_state_ = solve(loop_.plant, plants_);
    auto const here = values(loop_.plant, {}, clean_.front());
    Shown const sound{here, moves_of({}, here)};
    sound_ = account(sound, {});
    sound_values_ = sound.values;
    sound_covariance_ = covariance(sound);
    for (std::size_t i = 0; i < read_.size(); ++i)
        sound_covariance_.add_alone(i, taken_doubts_[i] * taken_doubts_[i]);
}

void LoopComparison::find_duty_doubt()
{
    double flow = 0, head = 0;
    for (auto const& doubt : loop_.doubts)
        try
        {
            auto const up = solve(moved(loop_.plant, doubt, 1), plants_);
            auto const down = solve(moved(loop_.plant, doubt, -1), plants_);
            flow += std::pow((units::in_si(up.total) - units::in_si(down.total)) / 2, 2);
            head += std::pow((up.pump_heads.front().value() - down.pump_heads.front().value()) / 2, 2);
        }
        catch (NotComputed const&)
        {
        }
    flow_doubt_ = units::of_si<units::VolumeFlow>(std::sqrt(flow));
    head_doubt_ = units::of_si<units::Head>(std::sqrt(head));
}

double LoopComparison::off(std::size_t reading) const
{
    return (taken_.at(reading) - sound_values_[reading]) / std::sqrt(sound_covariance_(reading, reading));
}

double LoopComparison::chi_squared_without(std::size_t reading) const
{
    std::vector<double> rest;
    for (std::size_t i = 0; i < taken_.size(); ++i)
        if (i != reading)
            rest.push_back(taken_[i] - sound_values_[i]);
    return numerics::departure(rest, sound_covariance_.without(reading)).square;
}

std::vector<LoopAccount> const& LoopComparison::along(Suspicion const& suspicion,
                                                      std::optional<PlantFault> const& beside)
{
    // Closer where valves and baskets nearly shut do most.
    constexpr std::array severities{0.05, 0.12, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.87, 0.93, 1.0};
    constexpr std::size_t middle = 5;
    Kind const kind{suspicion.fault ? static_cast<int>(*suspicion.fault) : -1, suspicion.heat_lost.value(),
                    suspicion.always_was, beside ? static_cast<int>(beside->kind) : -1,
                    beside ? beside->severity.value() : 0.0};
    auto const [known, fresh] = along_.try_emplace(kind);
    auto& out = known->second;
    if (!fresh)
        return out;
    auto const change_at = [&](double severity)
    {
        Change change{{}, 1 - suspicion.heat_lost.value() * severity, suspicion.always_was};
        if (beside)
            change.faults.push_back(*beside);
        if (suspicion.fault)
            change.faults.push_back({*suspicion.fault, fraction(severity)});
        return change;
    };
    std::optional<Moves> moves; // of one severity serve for all: they only spread the likelihood
    for (std::size_t i = 0; i < severities.size() && !moves; ++i)
    {
        auto const change = change_at(severities[(middle + i) % severities.size()]);
        if (auto const here = values_or_none(loop_.plant, change, 0))
            moves = moves_of(change, *here);
    }
    for (double const severity : severities)
        if (auto const here = values_or_none(loop_.plant, change_at(severity), 0))
            out.push_back(account({*here, *moves}, fraction(severity)));
    return out;
}

std::optional<LoopAccount> LoopComparison::average(Suspicion const& suspicion, std::optional<PlantFault> const& beside)
{
    // Severities are on a grid: the ends count where they are on it to rounding.
    constexpr double rounding = 1e-9;
    std::optional<LoopAccount> best;
    std::vector<double> logs;
    auto const& all = along(suspicion, beside);
    double const least = suspicion.least.value() - rounding, most = suspicion.most.value() + rounding;
    for (auto const& one : all)
        if (one.severity.value() >= least && one.severity.value() <= most)
        {
            logs.push_back(one.log_likelihood);
            if (!best || one.log_likelihood > best->log_likelihood)
                best = one;
        }
    if (!best)
        return best;
    best->log_likelihood = numerics::log_mean(logs);
    return best;
}

std::optional<LoopAccount> LoopComparison::with(Suspicion const& suspicion)
{
    return average(suspicion, std::nullopt);
}

std::optional<LoopAccount> LoopComparison::with_both(PlantFault const& first, Suspicion const& suspicion)
{
    return average(suspicion, first);
}

double LoopComparison::reach(std::size_t reading) const
{
    auto const gauge = read_.at(reading).gauge;
    double const si = from_scale(gauge, sound_values_[reading]);
    return change_to_scale(gauge, si, table_.broken(gauge, si));
}

double LoopComparison::log_likelihood_if_broken(std::size_t reading) const
{
    auto v = sound_covariance_;
    double const far = reach(reading);
    v.add_alone(reading, far * far);
    std::vector<double> from_mean;
    for (std::size_t i = 0; i < taken_.size(); ++i)
        from_mean.push_back(taken_[i] - sound_values_[i]);
    return numerics::departure(from_mean, v).log_density;
}

double LoopComparison::log_likelihood_of_anything() const
{
    auto v = sound_covariance_;
    std::vector<double> from_mean;
    for (std::size_t i = 0; i < taken_.size(); ++i)
    {
        double const far = reach(i);
        v.add_alone(i, far * far);
        from_mean.push_back(taken_[i] - sound_values_[i]);
    }
    return numerics::departure(from_mean, v).log_density;
}

} // namespace padwalk::circulation
