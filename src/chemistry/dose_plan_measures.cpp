#include "padwalk/chemistry/products.hpp"

#include "padwalk/units/definitions.hpp"
#include "padwalk/units/print.hpp"

#include <array>
#include <cmath>
#include <limits>
#include <span>
#include <stdexcept>

namespace padwalk::chemistry
{
namespace
{

using namespace units::exact;

constexpr double endless = std::numeric_limits<double>::infinity();
constexpr double teaspoon = us_fluid_ounce / 6;
constexpr double tablespoon = us_fluid_ounce / 2;
constexpr double gram = 1e-3;

/// Below `end`, amounts are counted in `step`.
struct Ruler
{
    double end;
    double step;
};
constexpr double fl_oz = us_fluid_ounce;
constexpr auto cups_and_spoons = std::to_array<Ruler>({{2 * fl_oz, teaspoon / 4},
                                                       {8 * fl_oz, fl_oz / 4},
                                                       {16 * fl_oz, fl_oz / 2},
                                                       {us_quart, fl_oz},
                                                       {2 * us_quart, 2 * fl_oz},
                                                       {us_gallon, us_cup / 2},
                                                       {5 * us_gallon, us_cup},
                                                       {10 * us_gallon, us_pint},
                                                       {20 * us_gallon, us_quart},
                                                       {100 * us_gallon, us_gallon},
                                                       {endless, 5 * us_gallon}});
constexpr auto jug = std::to_array<Ruler>({{10e-6, 0.1e-6},
                                           {50e-6, 0.5e-6},
                                           {100e-6, 1e-6},
                                           {500e-6, 5e-6},
                                           {1e-3, 10e-6},
                                           {5e-3, 50e-6},
                                           {20e-3, 0.1e-3},
                                           {100e-3, 0.5e-3},
                                           {endless, 2e-3}});
constexpr auto us_scale = std::to_array<Ruler>({{2 * ounce, gram},
                                                {4 * ounce, ounce / 4},
                                                {8 * ounce, ounce / 2},
                                                {2 * pound, ounce},
                                                {10 * pound, pound / 4},
                                                {25 * pound, pound / 2},
                                                {100 * pound, pound},
                                                {500 * pound, 5 * pound},
                                                {endless, 25 * pound}});
constexpr auto metric_scale = std::to_array<Ruler>(
    {{0.1, gram}, {0.5, 5 * gram}, {1.0, 10 * gram}, {5.0, 50 * gram}, {20.0, 0.1}, {100.0, 0.5}, {endless, 2.0}});

constexpr double slack = 1e-9; // of a step: what a conversion may have moved

Ruler const& ruler_at(std::span<Ruler const> rulers, double value)
{
    for (auto const& ruler : rulers)
        if (value < ruler.end * (1 - slack))
            return ruler;
    return rulers.back();
}

double rounded(std::span<Ruler const> rulers, double value, Rounding rounding)
{
    auto const& ruler = ruler_at(rulers, value);
    double const n = value / ruler.step;
    double const count = rounding == Rounding::nearest ? std::round(n)
                         : rounding == Rounding::down  ? std::floor(n + slack)
                                                       : std::ceil(n - slack);
    double const smallest = rulers.front().step;
    return std::max(smallest, std::min(ruler.end, count * ruler.step));
}

double next(std::span<Ruler const> rulers, double value, int direction)
{
    if (direction > 0)
    {
        auto const& ruler = ruler_at(rulers, value);
        return std::min(ruler.end, (std::floor(value / ruler.step + slack) + 1) * ruler.step);
    }
    auto const& ruler = ruler_at(rulers, value * (1 - 1e-6));
    return (std::ceil(value / ruler.step - slack) - 1) * ruler.step;
}

/// '2', '1/4', '2 1/4': whole numbers and quarters.
std::string quarters(double value)
{
    static constexpr std::array<std::string_view, 4> parts = {"", "1/4", "1/2", "3/4"};
    auto const n = static_cast<long>(std::lround(4 * value));
    std::string out = n >= 4 ? units::show_number(std::floor(static_cast<double>(n) / 4), 0) : std::string();
    auto const part = parts[static_cast<std::size_t>(n % 4)];
    if (!part.empty())
        out += (out.empty() ? "" : " ") + std::string(part);
    return out.empty() ? "0" : out;
}

void join(std::string& text, std::string const& part)
{
    text += (text.empty() ? "" : " ") + part;
}

std::string counted(double value, std::string const& one, std::string const& many)
{
    return quarters(value) + " " + (value > 1.01 ? many : one);
}

std::string spoons(double volume)
{
    double const n = std::floor(volume / tablespoon + 1e-6);
    double const rest = (volume - n * tablespoon) / teaspoon;
    std::string out;
    if (n > 0)
        join(out, quarters(n) + " tbsp");
    if (rest > 0.1)
        join(out, quarters(rest) + " tsp");
    return out;
}

std::string gallons(double volume)
{
    std::string out;
    double left = volume;
    auto const take = [&](double unit, std::string const& symbol)
    {
        double const n = std::floor(left / unit + 1e-6);
        if (n > 0)
            join(out, units::show_number(n, 0) + " " + symbol);
        left = std::max(0.0, left - n * unit);
    };
    take(us_gallon, "gal");
    take(us_quart, "qt");
    if (left > 0.1 * us_cup)
        join(out, counted(left / us_cup, "cup", "cups"));
    return out;
}

std::string liquid_text(double volume)
{
    if (volume < 1.999 * fl_oz)
        return spoons(volume);
    if (volume > 0.999 * us_quart)
        return gallons(volume);
    double const ounces = volume / fl_oz;
    std::string out = quarters(ounces) + " fl oz";
    double const halves = ounces / 2; // quarter cups
    if (ounces > 3.9 && std::abs(halves - std::round(halves)) < 1e-6)
        out += " (" + counted(volume / us_cup, "cup", "cups") + ")";
    return out;
}

/// What a powder about fills, in words that promise no more than its loose density.
std::string about(double volume)
{
    auto const nearest = [](double value, double step) { return std::max(step, step * std::round(value / step)); };
    if (volume < 2.9 * teaspoon)
        return quarters(nearest(volume / teaspoon, 0.25)) + " tsp";
    if (volume < 3.9 * tablespoon)
        return quarters(nearest(volume / tablespoon, 0.5)) + " tbsp";
    if (volume < 15.5 * us_cup)
    {
        double const cups = nearest(volume / us_cup, volume < 4 * us_cup ? 0.25 : 0.5);
        return counted(cups, "cup", "cups");
    }
    return quarters(nearest(volume / us_gallon, volume < 4 * us_gallon ? 0.25 : 1.0)) + " gal";
}

std::string powder_text(double mass, double volume)
{
    std::string out;
    if (mass < 1.999 * ounce)
        out = units::show_number(mass / ounce, 2) + " oz";
    else if (mass < 0.999 * pound)
        out = quarters(mass / ounce) + " oz";
    else if (mass < 9.999 * pound)
    {
        double const pounds = std::floor(mass / pound + 1e-6);
        out = quarters(pounds) + " lb";
        if (double const rest = (mass - pounds * pound) / ounce; rest > 0.1)
            out += " " + quarters(rest) + " oz";
    }
    else
        out = quarters(mass / pound) + " lb";
    return out + " (about " + about(volume) + ")";
}

std::string metric_text(ProductForm form, double value)
{
    bool const liquid = form == ProductForm::liquid;
    double const small = liquid ? value * 1e6 : value * 1e3;
    double const big = small * 1e-3;
    if (small < 999.9)
        return units::show_significant(small, 4) + (liquid ? " mL" : " g");
    return units::show_significant(big, 5) + (liquid ? " L" : " kg");
}

/// The amount for a mass that already stands on the measure.
MeasuredAmount amount(Product const& product, double measure)
{
    bool const liquid = product.form == ProductForm::liquid;
    double const density = product.density.value();
    double const metric =
        liquid ? rounded(jug, measure, Rounding::nearest) : rounded(metric_scale, measure, Rounding::nearest);
    double const per_measure = liquid ? density : 1.0;
    MeasuredAmount out;
    out.mass = units::of_si<units::Mass>(measure * per_measure);
    out.metric_mass = units::of_si<units::Mass>(metric * per_measure);
    out.us = liquid ? liquid_text(measure) : powder_text(measure, measure / density);
    out.metric = metric_text(product.form, metric);
    return out;
}

double on_measure(Product const& product, units::Mass mass)
{
    return product.form == ProductForm::liquid ? mass.value() / product.density.value() : mass.value();
}

std::span<Ruler const> rulers(Product const& product)
{
    if (product.form == ProductForm::liquid)
        return cups_and_spoons;
    return us_scale;
}

} // namespace

MeasuredAmount measured(Product const& product, units::Mass mass, Rounding rounding)
{
    if (!(mass.value() > 0.0) || !std::isfinite(mass.value()))
        throw std::invalid_argument("an amount to measure must be above zero");
    return amount(product, rounded(rulers(product), on_measure(product, mass), rounding));
}

std::optional<MeasuredAmount> next_measure(Product const& product, MeasuredAmount const& at, int direction)
{
    auto const all = rulers(product);
    double const value = next(all, on_measure(product, at.mass), direction);
    if (value < 0.5 * all.front().step)
        return std::nullopt;
    return amount(product, value);
}

} // namespace padwalk::chemistry
