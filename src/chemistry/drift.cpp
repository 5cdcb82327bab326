#include "padwalk/chemistry/drift.hpp"

#include "drift_step.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/numerics/number_text.hpp"
#include "padwalk/numerics/quasi_random.hpp"
#include "padwalk/numerics/statistics.hpp"
#include "padwalk/physics/range.hpp"
#include "padwalk/units/definitions.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace padwalk::chemistry
{
namespace
{

constexpr double day = units::exact::day;
constexpr double never = std::numeric_limits<double>::infinity();
constexpr std::size_t followed_count = 7;
using Readings = std::array<double, followed_count>; // SI, by Followed

/// What is drawn for a sample, in the order of the sequence's coordinates.
enum Drawn : std::size_t
{
    start_ph,
    start_alkalinity,
    start_calcium,
    start_salt,
    start_cyanurate,
    start_chlorine,
    evaporation,
    loss,
    transfer,
    sun,
    shielding,
    standing,
    drawn_count
};

struct Sample
{
    std::vector<Readings> days;
    std::string ended_because;
};

/// What holds for all samples.
struct Setting
{
    Equilibria const& equilibria;
    DriftRequest const& request;
    DriftTable const& table;
    State start;
    Totals fill;
    double in_balance;         ///< carbon dioxide of the start, were it so with the air
    std::vector<double> stops; ///< seconds: whole days and doses
};

Readings readings(State const& s)
{
    auto const r = readings_of(s.composition(), s.ph());
    return {r.ph.value(),
            units::in_si(r.alkalinity),
            units::in_si(r.calcium),
            units::in_si(r.cyanurate),
            units::in_si(r.free_chlorine),
            units::in_si(r.salt),
            s.saturation(Mineral::calcite)};
}

void require(bool holds, std::string const& why)
{
    if (!holds)
        throw figures::NotComputed(why);
}

void check(DriftRequest const& r)
{
    require(units::in_si(r.area) > 0 && units::in_si(r.volume) > 0, "a forecast needs the pool's area and volume");
    require(units::in_si(r.length) >= day && units::in_si(r.length) <= 400 * day, "a forecast goes over 1 to 400 days");
    require(r.samples >= 1 && r.samples <= 4096, "a forecast takes 1 to 4096 samples");
    require(r.steps_per_day >= 1 && r.steps_per_day <= 1000, "a forecast takes 1 to 1000 steps a day");
    require(r.covered.value() >= 0 && r.covered.value() <= 1, "a cover is on for a share of the time, 0 to 100 %");
    for (double const part : {units::in_si(r.evaporation.value), units::in_si(r.liquid_loss.value),
                              units::in_si(r.rain), units::in_si(r.demand_per_day)})
        require(part >= 0, "evaporation, loss, rain and demand are not below zero");
}

/// For a single sample, which is the middle of every doubt; cut at zero, that is not quite the reading.
DriftRequest without_doubt(DriftRequest r)
{
    r.doubts = {};
    r.evaporation.doubt = {};
    r.liquid_loss.doubt = {};
    return r;
}

bool fills(DriftRequest const& r)
{
    return units::in_si(r.evaporation.value) + units::in_si(r.evaporation.doubt) > 0 ||
           units::in_si(r.liquid_loss.value) + units::in_si(r.liquid_loss.doubt) > 0;
}

Totals fill_totals(Equilibria const& equilibria, DriftRequest const& r)
{
    if (!fills(r))
        return {};
    return equilibria.at_ph(composition_of(r.fill), r.fill.ph).composition().totals;
}

std::vector<double> stops_of(DriftRequest const& r)
{
    std::vector<double> stops;
    auto const days = static_cast<int>(std::floor(units::in_si(r.length) / day + 1e-9));
    for (int n = 0; n <= days; ++n)
        stops.push_back(n * day);
    for (auto const& dose : r.schedule)
    {
        require(units::in_si(dose.at) >= 0, "a dose is not given before the start");
        if (units::in_si(dose.at) < days * day)
            stops.push_back(units::in_si(dose.at));
    }
    std::sort(stops.begin(), stops.end());
    stops.erase(std::unique(stops.begin(), stops.end()), stops.end());
    return stops;
}

template <class Q> Q shifted(double p, Q value, units::Difference<Q> doubt, double low = 0)
{
    double const v = units::in_si(value), u = units::in_si(doubt);
    return u > 0 ? units::of_si<Q>(numerics::truncated_normal_quantile(p, v, u, std::min(low, v), never)) : value;
}

/// The start as its readings might really be; sodium and chloride go with them as composition_of has it.
State start_of(Setting const& setting, std::vector<double> const& p)
{
    StartDoubts const& d = setting.request.doubts;
    WaterReadings const read = readings_of(setting.start.composition(), setting.start.ph());
    WaterReadings real = read;
    real.ph = shifted(p[start_ph], read.ph, d.ph);
    real.alkalinity = shifted(p[start_alkalinity], read.alkalinity, d.alkalinity);
    real.calcium = shifted(p[start_calcium], read.calcium, d.calcium);
    real.salt = shifted(p[start_salt], read.salt, d.salt);
    real.cyanurate = shifted(p[start_cyanurate], read.cyanurate, d.cyanurate);
    real.free_chlorine = shifted(p[start_chlorine], read.free_chlorine, d.free_chlorine);
    Composition water = setting.start.composition();
    water.totals = water.totals + (composition_of(real).totals - composition_of(read).totals);
    bool const as_given = water.totals == setting.start.composition().totals && real.ph == read.ph;
    return as_given ? setting.start : setting.equilibria.at_ph(water, real.ph);
}

DriftRates rates_of(Setting const& setting, std::vector<double> const& p)
{
    DriftRequest const& r = setting.request;
    DriftTable const& table = setting.table;
    auto const z = [&](Drawn which) { return numerics::standard_normal_quantile(p[which]); };
    double const volume = units::in_si(r.volume), area = units::in_si(r.area);
    double const gone = units::in_si(shifted(p[evaporation], r.evaporation.value, r.evaporation.doubt)) * area / volume;
    double const lost = units::in_si(shifted(p[loss], r.liquid_loss.value, r.liquid_loss.doubt)) / volume;
    double const rained = units::in_si(r.rain) * area / volume;
    double const covered = r.covered.value();
    auto const through = [&](units::Fraction share) { return 1 - covered + covered * share.value(); };

    DriftRates out;
    out.fill = setting.fill;
    out.filled = std::max(gone + lost - rained, 0.0);
    out.runs_off = out.filled + rained - gone;
    out.added = r.added_per_day * (1 / day);
    out.demand = units::in_si(molality(r.demand_per_day)) / day;
    out.depth = units::of_si<units::Length>(volume / area);
    double spread = 0;
    for (auto const& row : table.transfer)
        if (row.aeration == r.aeration)
            spread = row.spread.value();
    out.gas = units::in_si(transfer_velocity(r.aeration, r.wind, setting.start.composition().temperature, table)) /
              units::in_si(out.depth) * through(table.cover.gas) * std::exp(spread * z(transfer));
    out.log_air = air_carbon_dioxide(table);
    out.in_balance = setting.in_balance;
    out.sun = r.sun;
    // The published losses lie about tenfold above and fivefold below those of chlorine that is not held: two standard
    // uncertainties, either way.
    out.lean = units::Fraction::from_value(z(shielding) / 2);
    out.sun_factor = through(table.cover.light) * std::exp(table.sunlight.spread.value() * z(sun));
    out.standing = units::in_si(standing_loss(setting.start.composition().temperature, table)) *
                   std::exp(table.standing_loss.spread.value() * z(standing));
    return out;
}

/// With the doses of this moment.
State dosed(Setting const& setting, State const& water, double at)
{
    Composition with = water.composition();
    bool any = false;
    for (auto const& dose : setting.request.schedule)
        if (units::in_si(dose.at) == at)
            with.totals = with.totals + dose.added, any = true;
    return any ? setting.equilibria.of(with, water) : water;
}

bool whole_day(double seconds)
{
    return std::fmod(seconds, day) == 0;
}

Sample run(Setting const& setting, std::vector<double> const& p)
{
    Sample out;
    DriftRates const rates = rates_of(setting, p);
    State water = start_of(setting, p);
    out.days.push_back(readings(water));
    double const longest = day / setting.request.steps_per_day;
    try
    {
        for (std::size_t i = 0; i + 1 < setting.stops.size(); ++i)
        {
            water = dosed(setting, water, setting.stops[i]);
            double const span = setting.stops[i + 1] - setting.stops[i];
            auto const steps = static_cast<int>(std::ceil(span / longest - 1e-9));
            for (int n = 0; n < steps; ++n)
                water = advanced(setting.equilibria, water, rates, span / steps, setting.table);
            if (whole_day(setting.stops[i + 1]))
                out.days.push_back(readings(water));
        }
    }
    catch (figures::NotComputed const& e)
    {
        out.ended_because = e.what();
    }
    catch (physics::OutOfRange const& e)
    {
        out.ended_because = e.what();
    }
    return out;
}

/// Position of the share p among n ordered samples: the k-th stands for k/(n + 1), as the points of the sequence do.
double position(std::size_t n, double p)
{
    auto const last = static_cast<double>(n - 1);
    return std::clamp(p * (last + 2) - 1, 0.0, last);
}

template <units::Quantity Q> Spread<Q> spread(std::vector<Sample> const& samples, std::size_t at, Followed which)
{
    std::vector<double> values;
    for (auto const& sample : samples)
        values.push_back(sample.days[at][static_cast<std::size_t>(which)]);
    double const low = numerics::standard_normal_cdf(-units::coverage);
    auto const share = [&](double p)
    {
        auto const last = static_cast<double>(values.size() - 1);
        return units::of_si<Q>(numerics::quantile(values, last > 0 ? position(values.size(), p) / last : 0.5));
    };
    return {share(0.5), share(low), share(1 - low)};
}

DriftDay day_of(std::vector<Sample> const& samples, std::size_t at)
{
    DriftDay out;
    out.at = units::of_si<units::Duration>(static_cast<double>(at) * day);
    out.ph = spread<units::Ph>(samples, at, Followed::ph);
    out.alkalinity = spread<units::AsCalciumCarbonate>(samples, at, Followed::alkalinity);
    out.calcium = spread<units::AsCalciumCarbonate>(samples, at, Followed::calcium);
    out.cyanurate = spread<units::AsCyanuricAcid>(samples, at, Followed::cyanurate);
    out.free_chlorine = spread<units::AsChlorine>(samples, at, Followed::free_chlorine);
    out.salt = spread<units::AsSodiumChloride>(samples, at, Followed::salt);
    bool const has_index =
        std::all_of(samples.begin(), samples.end(),
                    [&](Sample const& s)
                    { return std::isfinite(s.days[at][static_cast<std::size_t>(Followed::saturation_index)]); });
    if (has_index)
        out.saturation_index = spread<units::Number>(samples, at, Followed::saturation_index);
    return out;
}

struct Exit
{
    double at = never;
    bool above = false;
};

/// Straight lines between the days.
Exit exit_of(Sample const& sample, std::size_t days, DriftBand const& band)
{
    auto const index = static_cast<std::size_t>(band.reading);
    for (std::size_t n = 0; n < days; ++n)
    {
        double const now = sample.days[n][index], before = n > 0 ? sample.days[n - 1][index] : now;
        for (bool const above : {false, true})
        {
            auto const& limit = above ? band.high : band.low;
            if (!limit || !(above ? now > limit->value : now < limit->value))
                continue;
            if (n == 0)
                return {0, above};
            return {(static_cast<double>(n - 1) + (limit->value - before) / (now - before)) * day, above};
        }
    }
    return {};
}

BandExit exit_of(std::vector<Sample> const& samples, std::size_t days, DriftBand const& band)
{
    std::vector<double> times;
    std::size_t above = 0, out = 0;
    for (auto const& sample : samples)
    {
        Exit const e = exit_of(sample, days, band);
        times.push_back(e.at);
        out += e.at < never ? 1 : 0;
        above += e.above ? 1 : 0;
    }
    std::sort(times.begin(), times.end());
    auto const at = [&](double p) -> std::optional<units::Duration>
    {
        double const time = times[static_cast<std::size_t>(std::lround(position(times.size(), p)))];
        if (time == never)
            return std::nullopt;
        return units::of_si<units::Duration>(time);
    };
    double const low = numerics::standard_normal_cdf(-units::coverage);
    BandExit result{band, at(low), at(0.5), at(1 - low), {}, 2 * above > out};
    result.share = units::Fraction::from_value(static_cast<double>(out) / static_cast<double>(samples.size()));
    return result;
}

} // namespace

Forecast forecast(Equilibria const& equilibria, DriftRequest const& asked, DriftTable const& table)
{
    check(asked);
    DriftRequest const request = asked.samples > 1 ? asked : without_doubt(asked);
    State const in_balance = equilibria.at_co2(request.start, air_carbon_dioxide(table));
    Setting const setting{equilibria,
                          request,
                          table,
                          equilibria.of(request.start),
                          fill_totals(equilibria, request),
                          units::in_si(in_balance.molality("CO2")),
                          stops_of(request)};
    numerics::QuasiRandom sequence(drawn_count);
    std::vector<Sample> samples;
    Forecast out;
    std::size_t days = std::numeric_limits<std::size_t>::max();
    for (int n = 0; n < request.samples; ++n)
    {
        samples.push_back(run(setting, sequence.next()));
        if (samples.back().days.size() < days)
        {
            days = samples.back().days.size();
            out.ended_because = samples.back().ended_because;
        }
    }
    for (std::size_t n = 0; n < days; ++n)
        out.days.push_back(day_of(samples, n));
    for (auto const& band : request.bands)
        out.exits.push_back(exit_of(samples, days, band));
    return out;
}

} // namespace padwalk::chemistry
