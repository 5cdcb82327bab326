#include "histories_made.hpp"

#include "padwalk/physics/water.hpp"
#include "padwalk/units/definitions.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::tests
{
using namespace padwalk::level;
using namespace padwalk::units::exact;
namespace
{

constexpr double inch_a_day = inch / day;
constexpr double mark_spread = inch / 32; ///< a sixteenth of an inch, 95 %

template <class Q> Q si(double v)
{
    return units::of_si<Q>(v);
}
template <class Q> units::Measured<Q> read(double value, double spread)
{
    return {si<Q>(value), si<units::Difference<Q>>(spread), "made"};
}

struct Weather
{
    double water, air, humidity, wind; ///< K, K, share, m/s
};

/// Still, open water by the printed forms, m/s.
double still_evaporation(Weather const& w, bool smith)
{
    auto const pressure = [](double kelvin)
    { return units::in_si(physics::vapour_pressure(si<units::Temperature>(kelvin))); };
    double const drive = pressure(w.water) - w.humidity * pressure(w.air);
    double const latent = units::in_si(physics::latent_heat(si<units::Temperature>(w.water)));
    double const density = units::in_si(physics::density(si<units::Temperature>(w.water)));
    double const heat =
        smith ? (30.6 + 32.1 * w.wind) * 1000 / 3600 * drive / millimetre_mercury
              : 0.74 * (95 + 0.425 * w.wind / (foot / minute)) * btu / hour / square_foot * drive / inch_mercury;
    return std::max(0.0, heat / latent / density);
}

Weather made_weather(Chance& chance)
{
    Weather out{};
    do
    {
        out = {celsius_zero + chance.uniform(20, 31), celsius_zero + chance.uniform(12, 34), chance.uniform(0.2, 0.7),
               chance.uniform(0.3, 1.6)};
    } while (still_evaporation(out, false) < 0.08 * inch_a_day);
    return out;
}

/// A reading, by the doubts of data/instruments.yaml for a thermometer and for weather as reported.
LevelWeather weather_read(Weather const& w, Chance& chance)
{
    double const water = 1 * fahrenheit_degree, air = 5 * fahrenheit_degree, humidity = 0.08;
    double const wind = std::max(0.447, 0.3 * w.wind) / 2; // a local guess is better than a felt wind of anywhere
    return {read<units::Temperature>(w.water + water * chance.normal(), water),
            read<units::Temperature>(w.air + air * chance.normal(), air),
            read<units::Fraction>(std::clamp(w.humidity + humidity * chance.normal(), 0.0, 1.0), humidity),
            read<units::Velocity>(std::max(0.0, w.wind + wind * chance.normal()), wind)};
}

/// Everything that a history holds back from the one who reads it.
class Making
{
public:
    Making(Chance& chance, HistoryQuestion const& question, double off, double on, BalanceFacts const& facts)
        : chance_(chance), question_(question), table_(facts.table), off_(off), on_(on)
    {
    }
    MadeHistory make();

private:
    double spread(Stated<units::Number> const& row) { return 1 + row.value.value() * chance_.normal(); }
    void draw_truth();
    void watch(double from, double to);
    void happenings(LevelStretch& s, double& fall, double& bucket);
    void mark(double at);
    double evaporated(double from, double to) const;
    double reading(double truth)
    {
        double const read = truth + mark_spread * chance_.normal();
        return question_.other_laws ? std::round(read / (inch / 16)) * inch / 16 : read;
    }

    Chance& chance_;
    HistoryQuestion const& question_;
    BalanceTable const& table_;
    double off_, on_;
    Weather weather_{};
    std::vector<double> days_; ///< open evaporation of each day, m/s
    double bucket_share_ = 1, area_ = 0, fall_ = 0, bucket_ = 0;
    MadeHistory out_;
};

void Making::draw_truth()
{
    weather_ = made_weather(chance_);
    area_ = chance_.uniform(150, 800) * square_foot;
    double scale = spread(table_.form_spread) * spread(table_.hour_spread);
    if (question_.other_laws)
        scale = std::exp(0.2 * chance_.normal());
    bool const smith = chance_.happens(0.5);
    for (int d = 0; d <= static_cast<int>(question_.days); ++d)
        days_.push_back(scale * std::max(0.0, spread(table_.day_spread)) * still_evaporation(weather_, smith));
    bucket_share_ = spread(table_.bucket_spread);
    out_.record.area = si<units::Area>(area_);
    out_.record.weather = weather_read(weather_, chance_);
    out_.off = off_;
    out_.on = on_;
}

double Making::evaporated(double from, double to) const
{
    double sum = 0;
    constexpr double step = 0.5 * hour;
    for (double t = from; t < to - 1; t += step)
    {
        double const piece = std::min(step, to - t);
        auto const d = std::min(days_.size() - 1, static_cast<std::size_t>(t / day));
        // A fifth more by day and less by night, where the sun counts; the first mark is made in the morning.
        double const sun = question_.other_laws ? 1 + 0.2 * std::sin(6.283185307179586 * (t + piece / 2) / day) : 1;
        sum += piece * sun * days_[d];
    }
    return sum;
}

void Making::happenings(LevelStretch& s, double& fall, double& bucket)
{
    auto const spread_of = [&](auto const& row) { return std::max(0.0, spread(row)); };
    if (chance_.happens(0.1))
    {
        double const rain = chance_.uniform(0.002, 0.012), gauge = 0.0005;
        s.rain = read<units::Length>(rain + gauge * chance_.normal(), gauge);
        fall -= rain * spread_of(table_.rain_spread);
        bucket -= rain;
    }
    if (chance_.happens(0.2))
    {
        double const time = chance_.uniform(1, 10) * hour;
        s.bather_time = si<units::Duration>(time);
        fall += time / hour * units::in_si(table_.bather_loss.value) * spread_of(table_.bather_spread) / area_;
    }
    if (chance_.happens(0.1))
    {
        double const depth = chance_.uniform(0.003, 0.02), doubt = 0.02;
        s.fill = FillState::open;
        s.filled = read<units::Volume>(depth * area_ * (1 + doubt * chance_.normal()), doubt * depth * area_);
        fall -= depth;
    }
    if (chance_.happens(0.05))
    {
        double const volume = chance_.uniform(0.5, 1.5), doubt = 0.1;
        s.backwash = read<units::Volume>(volume * (1 + doubt * chance_.normal()), doubt * volume);
        fall += volume / area_;
    }
}

void Making::watch(double from, double to)
{
    LevelStretch s;
    bool const running = question_.pump_alternates ? out_.record.stretches.size() % 2 == 0 : false;
    s.pump = si<units::Fraction>(running ? 1 : 0);
    double const open = evaporated(from, to);
    double fall = open + (running ? on_ : off_) * (to - from), bucket = open * bucket_share_;
    if (chance_.happens(0.1)) // covered part of the time
    {
        double const share = chance_.uniform(0.3, 0.9);
        s.covered = read<units::Fraction>(share, 0);
        fall -= open * share * table_.cover_cut.value.value() * std::clamp(spread(table_.cover_spread), 0.0, 1.05);
    }
    happenings(s, fall, bucket);
    fall_ += fall;
    bucket_ += bucket;
    out_.record.stretches.push_back(s);
}

void Making::mark(double at)
{
    LevelMark m;
    m.at = si<units::Duration>(at);
    m.at_doubt = si<units::Duration>(5 * minute);
    m.fall = read<units::Length>(reading(fall_), mark_spread);
    if (question_.bucket)
        m.bucket_fall = read<units::Length>(reading(bucket_), mark_spread);
    out_.record.marks.push_back(m);
}

MadeHistory Making::make()
{
    draw_truth();
    mark(0);
    double const step = std::min(0.5, question_.days) * day;
    double last = 0;
    for (int i = 1; i * step <= question_.days * day + 1; ++i)
    {
        // Marks are made some hour about the planned one, and written down to five minutes.
        double const at = i * step + (i * step < question_.days * day ? chance_.uniform(-1, 1) * hour : 0);
        watch(last, at + 5 * minute * chance_.normal());
        mark(at);
        last = at;
    }
    auto& first = out_.record.marks.front().fall.value;
    for (auto it = out_.record.marks.rbegin(); it != out_.record.marks.rend(); ++it)
        it->fall.value = it->fall.value - first;
    return out_;
}

bool above_spread(units::Measured<units::Velocity> const& estimate)
{
    return estimate.value > estimate.doubt * 1.6448536269514722;
}

void count(Coverage& out, MadeHistory const& made, BalanceFacts const& facts)
{
    auto const balance = level_balance(made.record, facts);
    auto const& rate = balance.off ? *balance.off : balance.leak;
    double const low = units::in_si(rate.low), high = units::in_si(rate.high);
    ++out.histories;
    out.held += made.off >= low && made.off <= high;
    out.above += made.off > high;
    out.below += made.off < low;
    if (balance.on)
        out.held_on += made.on >= units::in_si(balance.on->low) && made.on <= units::in_si(balance.on->high);
    out.mean_width += high - low;
    out.chi_squared += std::pow((units::in_si(rate.estimate.value) - made.off) / units::in_si(rate.estimate.doubt), 2);
}

Coverage averaged(Coverage out)
{
    out.mean_width /= out.histories;
    out.chi_squared /= out.histories;
    return out;
}

} // namespace

double Chance::normal()
{
    double const u = uniform(0, 1), v = uniform(0, 1);
    return std::sqrt(-2 * std::log(u)) * std::cos(6.283185307179586 * v);
}

MadeHistory make_history(Chance& chance, HistoryQuestion const& question, double off, double on,
                         BalanceFacts const& facts)
{
    return Making(chance, question, off, on, facts).make();
}

Coverage coverage(int histories, HistoryQuestion const& question, double most, unsigned seed, BalanceFacts const& facts)
{
    Chance chance(seed);
    Coverage out;
    for (int i = 0; i < histories; ++i)
    {
        double const off = chance.uniform(0, most) * inch_a_day;
        double const on = question.pump_alternates ? chance.uniform(0, most) * inch_a_day : off;
        count(out, make_history(chance, question, off, on, facts), facts);
    }
    return averaged(out);
}

Coverage coverage_at(int histories, HistoryQuestion const& question, double leak, unsigned seed,
                     BalanceFacts const& facts)
{
    Chance chance(seed);
    Coverage out;
    for (int i = 0; i < histories; ++i)
        count(out, make_history(chance, question, leak * inch_a_day, leak * inch_a_day, facts), facts);
    return averaged(out);
}

Alarms alarms(int histories, HistoryQuestion const& question, double leak, unsigned seed, BalanceFacts const& facts)
{
    Chance chance(seed);
    Alarms out;
    std::vector<double> least;
    auto const called = [](LevelBalance const& b) { return b.odds.none.value() <= 0.05; };
    for (int i = 0; i < histories; ++i)
    {
        auto const made = make_history(chance, question, 0, 0, facts);
        auto const sound = level_balance(made.record, facts);
        ++out.sound;
        out.false_by_odds += called(sound);
        out.false_by_estimate += above_spread(sound.leak.estimate);
        least.push_back(units::in_si(sound.least_shown) / inch_a_day);
        auto const leaking =
            level_balance(make_history(chance, question, leak * inch_a_day, leak * inch_a_day, facts).record, facts);
        ++out.leaking;
        out.missed_by_odds += !called(leaking);
        out.missed_by_estimate += !above_spread(leaking.leak.estimate);
        // The same history with the least leak that it says it could have shown laid on it.
        auto record = made.record;
        for (auto& mark : record.marks)
            mark.fall.value = mark.fall.value + sound.least_shown * mark.at;
        ++out.least_leaking;
        out.least_missed += !above_spread(level_balance(record, facts).leak.estimate);
    }
    std::nth_element(least.begin(), least.begin() + static_cast<std::ptrdiff_t>(least.size() / 2), least.end());
    out.median_least = least[least.size() / 2];
    return out;
}

} // namespace padwalk::tests
