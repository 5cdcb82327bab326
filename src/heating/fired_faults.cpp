#include "padwalk/heating/fired_faults.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/physics/range.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

namespace padwalk::heating
{

using figures::NotComputed;

namespace
{

/// Added to carbon monoxide before its logarithm: under this a meter can't tell readings apart; judgement.
constexpr double monoxide_floor = 10e-6;
/// Oxygen in dry air; what of it is missing in the flue is what an error of the air is a share of.
constexpr double oxygen_of_air = 0.209;

units::Fraction share(double value)
{
    return units::Fraction::from_value(value);
}

/// What is compared by its logarithm: added to it, so that what reads nothing has one; judgement. A rise and a clocked
/// input go with the flow and the orifice as ratios.
std::optional<double> least_of(HeaterGauge gauge)
{
    switch (gauge)
    {
    case HeaterGauge::carbon_monoxide: return monoxide_floor;
    case HeaterGauge::rise: return 0.2;            // K
    case HeaterGauge::clocked_input: return 100.0; // W
    case HeaterGauge::flow_meter: return 6e-5;     // m3/s
    default: return std::nullopt;
    }
}

double to_scale(HeaterGauge gauge, double si)
{
    auto const least = least_of(gauge);
    return least ? std::log(std::max(0.0, si) + *least) : si;
}

double from_scale(HeaterGauge gauge, double scaled)
{
    auto const least = least_of(gauge);
    return least ? std::exp(scaled) - *least : scaled;
}

double change_to_scale(HeaterGauge gauge, double si, double change)
{
    auto const least = least_of(gauge);
    return least ? change / (std::max(0.0, si) + *least) : change;
}

double gauge_of(HeaterGauge gauge, HeaterState const& s, FiredHeater const& h)
{
    switch (gauge)
    {
    case HeaterGauge::rise: return units::in_si(s.rise_shown);
    case HeaterGauge::clocked_input: return units::in_si(s.clocked);
    case HeaterGauge::flow_meter: return units::in_si(h.flow);
    case HeaterGauge::flue_temperature: return units::in_si(s.flue);
    case HeaterGauge::oxygen: return s.oxygen.value();
    case HeaterGauge::carbon_dioxide: return s.carbon_dioxide.value();
    case HeaterGauge::carbon_monoxide: return s.monoxide.value();
    }
    throw std::logic_error("a gauge of no kind");
}

/// What the model's error is a share of.
double size_of(HeaterGauge gauge, double value, FiredHeater const& h)
{
    if (gauge == HeaterGauge::flue_temperature)
        return value - units::in_si(h.air);
    if (gauge == HeaterGauge::oxygen)
        return oxygen_of_air - value;
    return gauge == HeaterGauge::carbon_monoxide ? 0 : value; // its law's own doubt is far larger
}

/// The heater with one doubt moved by so many standard deviations. Carbon monoxide is no part of it.
FiredHeater moved(FiredHeater h, HeaterDoubt const& doubt, double deviations, FiredHeaterTable const& table)
{
    double const factor = std::exp(doubt.spread.value() * deviations);
    switch (doubt.what)
    {
    case HeaterUnsure::input: h.orifice = h.orifice * factor; break;
    case HeaterUnsure::gas_heat: h.gas_heat = h.gas_heat * factor; break;
    case HeaterUnsure::efficiency: h.plate_efficiency = h.plate_efficiency * factor; break;
    case HeaterUnsure::flow: h.flow = h.flow * factor; break;
    case HeaterUnsure::excess_air:
        h.rated_excess = share((1 + h.rated_excess.value_or(share(table.excess_air(h.draft))).value()) * factor - 1);
        break;
    case HeaterUnsure::jacket:
        h.jacket = share(h.jacket.value_or(share(table.jacket.value.value())).value() * factor);
        break;
    case HeaterUnsure::carbon_monoxide: break;
    }
    return h;
}

} // namespace

FiredHeater with_heater_fault(FiredHeater h, HeaterFaultKind kind, units::Fraction severity,
                              FiredHeaterTable const& table)
{
    double const s = severity.value(), worst = table.fault(kind).worst.value();
    if (!(s >= 0 && s <= 1))
        throw NotComputed("a fault's severity lies between 0 and 1");
    double const factor = 1 + s * (worst - 1); // of what is 1 where it is sound
    double const bypass = h.bypass.value_or(share(table.bypass.value.value())).value();
    switch (kind)
    {
    case HeaterFaultKind::scaled_exchanger: h.scale = units::Number::from_value(s * worst); break;
    case HeaterFaultKind::sooted_exchanger:
        h.soot = units::Number::from_value(s * worst);
        h.soot_air = units::Number::from_value(1 - s * table.soot_air.value.value());
        break;
    case HeaterFaultKind::gas_pressure_low: h.gas_pressure = h.gas_pressure * factor; break;
    case HeaterFaultKind::orifice_small:
    case HeaterFaultKind::orifice_large: h.orifice = h.orifice * factor; break;
    case HeaterFaultKind::flow_low: h.flow = h.flow * factor; break;
    case HeaterFaultKind::bypass_stuck_open:
    case HeaterFaultKind::bypass_stuck_shut: h.bypass = share(bypass + s * (worst - bypass)); break;
    case HeaterFaultKind::thermometer_high:
    case HeaterFaultKind::thermometer_low:
        h.thermometers_off = units::of_si<units::TemperatureDifference>(s * worst);
        break;
    case HeaterFaultKind::vent_blocked: h.air_way = h.air_way * factor; break;
    case HeaterFaultKind::recirculation: h.recirculated = share(s * worst); break;
    }
    return h;
}

std::vector<HeaterSuspicion> heater_suspicions(FiredHeaterTable const& table)
{
    std::vector<HeaterSuspicion> out;
    for (auto const& row : table.faults)
        out.push_back({row.fault, row.mildest, share(1)});
    return out;
}

std::vector<HeaterDoubt> usual_heater_doubts(FiredHeaterTable const& table)
{
    std::vector<HeaterDoubt> out;
    for (auto const& row : table.doubts)
        out.push_back({row.what, row.spread});
    return out;
}

HeaterComparison::HeaterComparison(HeaterAsKnown known, std::vector<HeaterRead> read, FiredHeaterTable const& table)
    : known_(std::move(known)), read_(std::move(read)), table_(table)
{
    for (auto const& r : read_)
    {
        taken_.push_back(to_scale(r.gauge, r.reading.value));
        taken_doubts_.push_back(change_to_scale(r.gauge, r.reading.value, r.reading.doubt));
    }
    here_ = Based{known_.heater, heater_base(known_.heater, table_)};
    move_heaters();
    sound_state_ = fire(known_.heater, here_->base, table_);
    auto const here = values(*here_, std::nullopt);
    auto const moves = moves_of(std::nullopt, here);
    sound_ = account(here, moves, {});
    sound_covariance_ = covariance(here, moves);
    for (std::size_t i = 0; i < read_.size(); ++i)
        sound_covariance_.add_alone(i, taken_doubts_[i] * taken_doubts_[i]);
    sound_values_ = here;
}

void HeaterComparison::move_heaters()
{
    for (auto const& doubt : known_.doubts)
    {
        moved_.emplace_back();
        for (std::size_t way = 0; way < 2; ++way)
            try
            {
                FiredHeater const h = moved(known_.heater, doubt, way == 0 ? 1 : -1, table_);
                moved_.back().at(way) = Based{h, heater_base(h, table_)};
            }
            catch (NotComputed const&)
            {
                // No such heater can be: the doubt is then told by the other way alone.
            }
    }
}

HeaterComparison::Values HeaterComparison::values(Based const& sound, std::optional<Change> const& change) const
{
    FiredHeater const heater =
        change ? with_heater_fault(sound.heater, change->kind, change->severity, table_) : sound.heater;
    HeaterState const state = fire(heater, sound.base, table_);
    Values out;
    for (auto const& r : read_)
        out.push_back(to_scale(r.gauge, gauge_of(r.gauge, state, heater)));
    return out;
}

std::optional<HeaterComparison::Values> HeaterComparison::values_or_none(std::optional<Based> const& sound,
                                                                         std::optional<Change> const& change) const
{
    if (!sound)
        return std::nullopt;
    try
    {
        return values(*sound, change);
    }
    catch (NotComputed const&)
    {
        return std::nullopt; // this state can't be
    }
    catch (physics::OutOfRange const&)
    {
        return std::nullopt;
    }
}

std::vector<HeaterComparison::Values> HeaterComparison::moves_of(std::optional<Change> const& change,
                                                                 Values const& here) const
{
    std::vector<Values> out;
    for (std::size_t k = 0; k < known_.doubts.size(); ++k)
    {
        auto const& doubt = known_.doubts[k];
        Values move(read_.size(), 0.0);
        if (doubt.what == HeaterUnsure::carbon_monoxide)
        {
            for (std::size_t i = 0; i < read_.size(); ++i)
                if (read_[i].gauge == HeaterGauge::carbon_monoxide)
                    move[i] = doubt.spread.value();
        }
        else
        {
            auto const up = values_or_none(moved_[k][0], change);
            auto const down = values_or_none(moved_[k][1], change);
            auto const &high = up ? *up : here, &low = down ? *down : here;
            double const over = up && down ? 2 : 1;
            for (std::size_t i = 0; i < read_.size(); ++i)
                move[i] = (high[i] - low[i]) / over;
        }
        out.push_back(std::move(move));
    }
    return out;
}

numerics::Covariance HeaterComparison::covariance(Values const& here, std::vector<Values> const& moves) const
{
    numerics::Covariance out(read_.size());
    for (auto const& move : moves)
        out.add_together(move);
    for (std::size_t i = 0; i < read_.size(); ++i)
    {
        auto const gauge = read_[i].gauge;
        double const si = from_scale(gauge, here[i]);
        double const model =
            change_to_scale(gauge, si, table_.model_error.value.value() * size_of(gauge, si, known_.heater));
        double const shape =
            sound_values_.empty() ? 0 : table_.fault_shape.value.value() * (here[i] - sound_values_[i]);
        out.add_alone(i, model * model + shape * shape);
    }
    return out;
}

double HeaterComparison::log_density(numerics::Covariance const& covariance) const
{
    Values from_mean;
    for (std::size_t i = 0; i < taken_.size(); ++i)
        from_mean.push_back(taken_[i] - sound_values_[i]);
    return numerics::departure(from_mean, covariance).log_density;
}

HeaterAccount HeaterComparison::account(Values const& here, std::vector<Values> const& moves,
                                        units::Fraction severity) const
{
    auto v = covariance(here, moves);
    HeaterAccount out;
    Values from_mean;
    for (std::size_t i = 0; i < read_.size(); ++i)
    {
        double const value = from_scale(read_[i].gauge, here[i]);
        double const doubt = std::sqrt(v(i, i)) / change_to_scale(read_[i].gauge, value, 1.0);
        out.shown.push_back({read_[i].reading.measure, value, doubt, "computed", false});
        v.add_alone(i, taken_doubts_[i] * taken_doubts_[i]);
        from_mean.push_back(taken_[i] - here[i]);
    }
    auto const departure = numerics::departure(from_mean, v);
    out.log_likelihood = departure.log_density;
    out.chi_squared = departure.square;
    out.severity = severity;
    return out;
}

double HeaterComparison::off(std::size_t reading) const
{
    return (taken_.at(reading) - sound_values_[reading]) / std::sqrt(sound_covariance_(reading, reading));
}

std::vector<HeaterAccount> const& HeaterComparison::along(HeaterFaultKind kind)
{
    constexpr std::array severities{0.05, 0.12, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.87, 0.93, 1.0};
    constexpr std::size_t middle = 5;
    auto const [known, fresh] = along_.try_emplace(kind);
    auto& out = known->second;
    if (!fresh)
        return out;
    std::optional<std::vector<Values>> moves; // of one severity serve for all: they only spread the likelihood
    for (std::size_t i = 0; i < severities.size() && !moves; ++i)
    {
        Change const change{kind, share(severities[(middle + i) % severities.size()])};
        if (auto const here = values_or_none(here_, change))
            moves = moves_of(change, *here);
    }
    for (double const severity : severities)
        if (auto const here = values_or_none(here_, Change{kind, share(severity)}))
            out.push_back(account(*here, *moves, share(severity)));
    return out;
}

std::optional<HeaterAccount> HeaterComparison::with(HeaterSuspicion const& suspicion)
{
    // Severities are on a grid: the ends count where they are on it to rounding.
    constexpr double rounding = 1e-9;
    std::optional<HeaterAccount> best;
    std::vector<double> logs;
    auto const& all = along(suspicion.fault);
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

/// On the scale that the instrument is compared on.
double HeaterComparison::reach(std::size_t reading) const
{
    HeaterGauge const gauge = read_.at(reading).gauge;
    for (auto const& failure : table_.failures)
        if (failure.gauge == gauge)
        {
            double const si = from_scale(gauge, sound_values_[reading]);
            double const far = failure.share.value_or(share(0)).value();
            if (gauge == HeaterGauge::carbon_monoxide) // its share counts on the scale itself
                return far;
            return change_to_scale(gauge, si, failure.by ? units::in_si(*failure.by) : far * si);
        }
    throw std::logic_error("data/heating/fired_heater.yaml has no row for an instrument");
}

double HeaterComparison::log_likelihood_if_broken(std::size_t reading) const
{
    auto v = sound_covariance_;
    double const far = reach(reading);
    v.add_alone(reading, far * far);
    return log_density(v);
}

double HeaterComparison::log_likelihood_of_anything() const
{
    auto v = sound_covariance_;
    for (std::size_t i = 0; i < taken_.size(); ++i)
    {
        double const far = reach(i);
        v.add_alone(i, far * far);
    }
    return log_density(v);
}

} // namespace padwalk::heating
