#include "padwalk/circulation/sound_loop.hpp"

#include "padwalk/circulation/head.hpp"
#include "padwalk/circulation/suction.hpp"
#include "padwalk/figures/model.hpp"
#include "padwalk/physics/water.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

namespace padwalk::circulation
{

using figures::NotComputed;

namespace
{

constexpr double no_heat_lost = 1.0;

units::Fraction fraction(double value)
{
    return units::of_si<units::Fraction>(value);
}

void multiply(Pipe& pipe, double factor)
{
    pipe.length = pipe.length * factor;
    pipe.minor_loss = pipe.minor_loss * factor;
}

void multiply_returns(Plant& plant, double factor)
{
    multiply(plant.return_trunk, factor);
    for (auto& r : plant.returns)
    {
        multiply(r.pipe, factor);
        if (r.nozzle)
            r.nozzle = *r.nozzle * std::pow(factor, -0.25); // its loss goes with the opening's fourth power
    }
}

void multiply_filter(Plant& plant, double factor)
{
    if (plant.filter)
        plant.filter->loss_factor = plant.filter->loss_factor * factor;
}

/// The plant with one doubt moved by so many standard deviations. Heat and the motor's losses are no part of it.
Plant moved(Plant plant, LoopDoubt const& doubt, double deviations)
{
    double const by = doubt.spread.value() * deviations, factor = std::exp(by);
    switch (doubt.what)
    {
    case Unsure::pump_head:
        for (auto& pump : plant.pumps)
            for (auto& p : pump.curve)
                p.head = p.head * factor;
        break;
    case Unsure::pump_flow:
        for (auto& pump : plant.pumps)
            for (auto& p : pump.curve)
                p.flow = p.flow * factor;
        break;
    case Unsure::speed:
        for (auto& pump : plant.pumps)
            pump.speed = pump.speed * factor;
        break;
    case Unsure::suction_loss:
        multiply(plant.suction_trunk, factor);
        for (auto& s : plant.suctions)
            multiply(s.pipe, factor);
        break;
    case Unsure::return_loss: multiply_returns(plant, factor); break;
    case Unsure::filter_loss: multiply_filter(plant, factor); break;
    case Unsure::filter_loading:
        if (plant.filter)
            plant.filter->loading = fraction(std::clamp(plant.filter->loading.value() + by, 0.0, 1.0));
        break;
    case Unsure::heater_loss:
        if (plant.heater)
            plant.heater->loss = plant.heater->loss.value_or(units::Number{}) * factor;
        break;
    case Unsure::pump_height: plant.pad_height = plant.pad_height + units::of_si<units::Length>(by); break;
    case Unsure::heat:
    case Unsure::motor_losses: break;
    }
    return plant;
}

bool in_the_plant(LoopDoubt const& doubt)
{
    return doubt.what != Unsure::heat && doubt.what != Unsure::motor_losses;
}

double shown_at(std::optional<units::GaugePressure> const& at_pad, units::Length height, units::Temperature water)
{
    if (!at_pad)
        throw NotComputed("a shut valve cuts a gauge off from all water");
    return units::in_si(*at_pad) - units::in_si(pressure_of_head(units::Head{height}, water));
}

double rise(PlantState const& state, LoopAsKnown const& loop, double heat_left)
{
    if (!loop.heat || !loop.plant.heater)
        throw NotComputed("a rise says nothing where the heat is not known");
    double const capacity = units::in_si(physics::density(loop.plant.water)) *
                            units::in_si(physics::specific_heat(loop.plant.water)) * units::in_si(state.through_heater);
    if (!(capacity > 0))
        throw NotComputed("no water passes the heater");
    return units::in_si(*loop.heat) * heat_left / capacity;
}

/// What the motor takes at the plant's flow: the pump's line of shaft power, whatever ails the pump.
double input_power(Plant const& plant, PlantState const& state, PumpPowerTable const& motors)
{
    double watts = 0;
    for (std::size_t i = 0; i < plant.pumps.size(); ++i)
    {
        auto const& pump = plant.pumps[i];
        PumpCurve const curve(pump.curve, pump.speed);
        auto const as_fraction = [](JudgedNumber const& n) { return fraction(n.value.value()); };
        PumpPower const power(curve, as_fraction(motors.no_flow_share), as_fraction(motors.best_efficiency),
                              plant.water);
        auto const motor =
            motor_efficiency_at(as_fraction(motors.motor_efficiency), pump.speed, motors.motor_speed_exponent.value);
        auto const flow = std::clamp(state.pumps[i].flow, curve.least_flow(), curve.greatest_flow());
        watts += units::in_si(power.shaft_at(flow)) / motor.value();
    }
    return watts;
}

double gauge_of(LoopGauge gauge, PlantState const& state, LoopAsKnown const& loop, double heat_left)
{
    auto const& g = state.gauges;
    units::Temperature const water = loop.plant.water;
    switch (gauge)
    {
    case LoopGauge::suction:
    {
        double const least = units::in_si(vacuum_at_boiling(water, loop.plant.altitude));
        return std::max(least, shown_at(g.pump_suction, loop.suction_gauge_height, water));
    }
    case LoopGauge::pump_outlet: return shown_at(g.pump_discharge, {}, water);
    case LoopGauge::filter:
    case LoopGauge::filter_when_clean:
        return shown_at(g.filter_in ? g.filter_in : g.pump_discharge, loop.filter_gauge_height, water);
    case LoopGauge::behind_filter: return shown_at(g.filter_out, loop.filter_gauge_height, water);
    case LoopGauge::flow_meter: return units::in_si(state.total);
    case LoopGauge::heater_rise: return rise(state, loop, heat_left);
    case LoopGauge::motor_power: break;
    }
    throw std::logic_error("the motor's power is no gauge of the plant");
}

} // namespace

/// What the gauges show in one state of the loop, and how one deviation of each doubt moves them.
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
        taken_.push_back(r.reading.value);
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
        out.push_back(shown_by(r.gauge));
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
                    move[i] = here[i] * std::sinh(doubt.spread.value());
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
        double const model = table_.model_error.value.value() * shown.values[i];
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
        out.shown.push_back({read_[i].reading.measure, shown.values[i], std::sqrt(v(i, i)), "computed", false});
        double const doubt = read_[i].reading.doubt;
        v.add_alone(i, doubt * doubt);
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
        sound_covariance_.add_alone(i, read_[i].reading.doubt * read_[i].reading.doubt);
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
    double sum = 0;
    for (double const l : logs)
        sum += std::exp(l - best->log_likelihood);
    best->log_likelihood += std::log(sum / static_cast<double>(logs.size()));
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

double LoopComparison::log_likelihood_if_broken(std::size_t reading) const
{
    auto v = sound_covariance_;
    double const reach = table_.broken(read_.at(reading).gauge, sound_values_[reading]);
    v.add_alone(reading, reach * reach);
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
        double const reach = table_.broken(read_[i].gauge, sound_values_[i]);
        v.add_alone(i, reach * reach);
        from_mean.push_back(taken_[i] - sound_values_[i]);
    }
    return numerics::departure(from_mean, v).log_density;
}

} // namespace padwalk::circulation
