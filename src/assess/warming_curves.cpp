#include "warming_curves.hpp"

#include "padwalk/physics/range.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace padwalk::assess
{
namespace
{

using heating::Surroundings;
using heating::Warming;
using heating::WaterBody;

using Set = std::function<void(WarmingCase&, double)>;

template <class Part, units::Quantity Q> Set sets(Part WarmingCase::*part, Q Part::*member)
{
    return [part, member](WarmingCase& c, double si) { c.*part.*member = units::of_si<Q>(si); };
}

std::map<std::string_view, Set> const& numbers()
{
    static std::map<std::string_view, Set> const map{
        {"volume", sets(&WarmingCase::warming, &Warming::volume)},
        {"from", sets(&WarmingCase::warming, &Warming::from)},
        {"to", sets(&WarmingCase::warming, &Warming::to)},
        {"input", sets(&WarmingCase::warming, &Warming::input)},
        {"efficiency", sets(&WarmingCase::warming, &Warming::efficiency)},
        {"area", sets(&WarmingCase::body, &WaterBody::area)},
        {"falling_area", sets(&WarmingCase::body, &WaterBody::falling_area)},
        {"evaporation_scale", sets(&WarmingCase::body, &WaterBody::evaporation_scale)},
        {"covered", sets(&WarmingCase::body, &WaterBody::covered)},
        {"cover_r", sets(&WarmingCase::body, &WaterBody::cover_r)},
        {"air_temperature", sets(&WarmingCase::around, &Surroundings::air_temperature)},
        {"humidity", sets(&WarmingCase::around, &Surroundings::humidity)},
        {"wind", sets(&WarmingCase::around, &Surroundings::wind)},
        {"altitude", sets(&WarmingCase::around, &Surroundings::altitude)},
        {"sky_share", sets(&WarmingCase::around, &Surroundings::sky_share)},
        {"cloud", sets(&WarmingCase::around, &Surroundings::cloud)},
        {"sun", sets(&WarmingCase::around, &Surroundings::sun)}};
    return map;
}

template <class E> void choose(E& out, std::string const& word)
{
    auto const words = fields::words_of<E>::words();
    auto const found = std::find(words.begin(), words.end(), word);
    if (found != words.end())
        out = static_cast<E>(found - words.begin());
}

void set(WarmingCase& c, figures::UsedInput const& input, double si)
{
    std::string_view const name = input.shape->name;
    if (auto const number = numbers().find(name); number != numbers().end())
        number->second(c, si);
    else if (name == "activity")
        choose(c.body.activity, input.words);
    else if (name == "form")
        choose(c.body.form, input.words);
    else if (name == "shell")
        choose(c.body.shell, input.words);
    c.loses = c.loses || name == "area";
}

// The shell is a square box whose other side is as warm as the air, as in the figures.
void settle(WarmingCase& c)
{
    if (!c.loses)
        return;
    c.body.shell_area = heating::shell_area(c.warming.volume, c.body.area);
    c.body.behind_shell = c.around.air_temperature;
}

/// The case with each input moved by so much; none means none.
WarmingCase moved(figures::Figure const& figure, std::vector<double> const& by)
{
    WarmingCase out;
    for (std::size_t i = 0; i < figure.inputs.size(); ++i)
    {
        auto const& input = figure.inputs[i];
        double value = input.reading.value + (by.empty() ? 0.0 : by[i]);
        if (input.shape->low)
            value = std::max(value, *input.shape->low);
        if (input.shape->high)
            value = std::min(value, *input.shape->high);
        set(out, input, value);
    }
    settle(out);
    return out;
}

// Share of the way that it goes in a second with the heat left over half way up, but for a factor.
double speed(WarmingCase const& c, heating::LossFacts const& facts)
{
    auto const& w = c.warming;
    units::TemperatureDifference const way = w.to - w.from;
    units::Power left = w.input * w.efficiency.value();
    if (c.loses)
        left = left - c.loss_at(w.from + way / 2.0, facts).total();
    return units::in_si(left) / (units::in_si(w.volume) * units::in_si(way));
}

// By how much each input is off at the fast end.
std::vector<double> towards_fast(figures::Figure const& figure, heating::LossFacts const& facts)
{
    auto const middle = moved(figure, {});
    double const way = units::in_si(middle.warming.to - middle.warming.from);
    std::vector<double> out(figure.inputs.size());
    double square = 0;
    for (std::size_t i = 0; i < out.size(); ++i)
    {
        double const doubt = figure.inputs[i].shape->measure ? figure.inputs[i].reading.doubt : 0.0;
        bool const nearly_there = figure.inputs[i].shape->name == "from" && units::coverage * doubt >= way / 2;
        if (!(doubt > 0) || nearly_there)
            continue;
        std::vector<double> up(out.size()), down(out.size());
        up[i] = doubt, down[i] = -doubt;
        double const effect = (speed(moved(figure, up), facts) - speed(moved(figure, down), facts)) / 2;
        out[i] = doubt * effect;
        square += effect * effect;
    }
    if (!(square > 0))
        return {};
    for (double& by : out)
        by *= units::coverage / std::sqrt(square);
    return out;
}

std::vector<heating::HeatUpPoint> curve(WarmingCase const& c, heating::LossFacts const& facts)
{
    constexpr int points = 33;
    auto const loss = [&](units::Temperature water)
    { return c.loses ? c.loss_at(water, facts).total() : units::Power(); };
    return heating::heat_up_curve(c.warming, loss, points);
}

// What the laws were not made for leaves a curve out.
template <class Make> auto or_nothing(Make const& make) -> decltype(make())
{
    try
    {
        return make();
    }
    catch (figures::NotComputed const&)
    {
        return {};
    }
    catch (physics::OutOfRange const&)
    {
        return {};
    }
}

} // namespace

heating::HeatLoss WarmingCase::loss_at(units::Temperature water, heating::LossFacts const& facts) const
{
    return heating::heat_loss(water, body, around, facts);
}

WarmingCase warming_case(figures::Figure const& figure)
{
    return moved(figure, {});
}

WarmingCurves warming_curves(figures::Figure const& heat_up, heating::LossFacts const& facts)
{
    WarmingCurves out;
    out.likely = or_nothing([&] { return curve(moved(heat_up, {}), facts); });
    auto by = or_nothing([&] { return towards_fast(heat_up, facts); });
    if (out.likely.empty() || by.empty())
        return out;
    out.fast = or_nothing([&] { return curve(moved(heat_up, by), facts); });
    for (double& b : by)
        b = -b;
    out.slow = or_nothing([&] { return curve(moved(heat_up, by), facts); });
    return out;
}

} // namespace padwalk::assess
