#include "dose_plan_parts.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/physics/range.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace padwalk::chemistry::planning
{
namespace
{

constexpr double endless = std::numeric_limits<double>::infinity();
constexpr double none = std::numeric_limits<double>::quiet_NaN();

/// What counts as one step outside, SI: about a kit's resolution. Only ever compares waters with each other.
constexpr Values scale = {0.1, 10e-3, 10e-3, 20e-3, 10e-3, 0.5e-3, 5e-3, 200e-3, 50e-3, 0.1};

// An end that the water is beyond by no more than is ignored moves out by that much; all others hold as they are, so
// that what is corrected lands in the band itself.
template <class Q> void set(Bands& bands, Values const& now, Reading reading, Aim<Q> const& aim, double ignore)
{
    double const low = aim.low ? units::in_si(*aim.low) : -endless, high = aim.high ? units::in_si(*aim.high) : endless;
    double const value = now[reading];
    bands.low[reading] = value < low && value >= low - ignore ? low - ignore : low;
    bands.high[reading] = value > high && value <= high + ignore ? high + ignore : high;
    if (aim.aim)
        bands.aim[reading] = units::in_si(*aim.aim);
    else if (aim.low) // whoever asks for at least so much and says no more: the middle, or a little above
        bands.aim[reading] = aim.high ? 0.5 * (units::in_si(*aim.low) + units::in_si(*aim.high))
                                      : units::in_si(*aim.low) + scale[reading];
    else
        bands.aim[reading] = none;
}

/// How much of what it is bought for one mol does.
double effect(Product const& product)
{
    switch (product.purpose)
    {
    case Purpose::lower_ph: return -product.adds.alkalinity.value();
    case Purpose::raise_borate: return product.adds.boron.value();
    case Purpose::raise_chlorine: return product.adds.chlorine.value();
    case Purpose::lower_chlorine: return -product.adds.chlorine.value();
    default: return 1.0;
    }
}

} // namespace

Values values_of(State const& state)
{
    auto const readings = readings_of(state.composition(), state.ph());
    Values out{};
    out[ph] = readings.ph.value();
    out[alkalinity] = readings.alkalinity.value();
    out[carbonate_alkalinity] = chemistry::alkalinity(state.carbonate_alkalinity()).value();
    out[calcium] = readings.calcium.value();
    out[cyanurate] = readings.cyanurate.value();
    out[free_chlorine] = readings.free_chlorine.value();
    out[borate] = readings.borate.value();
    out[salt] = readings.salt.value();
    out[sulfate] = readings.sulfate.value();
    out[saturation] = state.saturation(Mineral::calcite);
    return out;
}

Bands bands_of(Targets const& t, IgnoreWithin const& ignore, Values const& now)
{
    Bands out;
    set(out, now, ph, t.ph, ignore.ph.value());
    set(out, now, alkalinity, t.alkalinity, ignore.alkalinity.value());
    set(out, now, carbonate_alkalinity, t.carbonate_alkalinity, ignore.alkalinity.value());
    set(out, now, calcium, t.calcium, ignore.calcium.value());
    set(out, now, cyanurate, t.cyanurate, ignore.cyanurate.value());
    set(out, now, free_chlorine, t.free_chlorine, ignore.free_chlorine.value());
    set(out, now, borate, t.borate, 0.0);
    set(out, now, salt, t.salt, ignore.salt.value());
    set(out, now, sulfate, t.sulfate, 0.0);
    set(out, now, saturation, t.saturation, ignore.saturation.value());
    out.most_cyanurate = t.cyanurate_to_chlorine.high ? t.cyanurate_to_chlorine.high->value() : endless;
    out.aim_cyanurate = t.cyanurate_to_chlorine.aim ? t.cyanurate_to_chlorine.aim->value() : endless;
    return out;
}

double Bands::low_of(Reading reading, Values const& values) const
{
    if (reading != free_chlorine || low[free_chlorine] == -endless)
        return low[reading];
    return std::max(low[free_chlorine], std::min(high[free_chlorine], values[cyanurate] / most_cyanurate));
}

double Bands::aim_of(Reading reading, Values const& values) const
{
    if (reading != free_chlorine)
        return aim[reading];
    double const middle = 0.5 * (low_of(free_chlorine, values) + high[free_chlorine]);
    return std::max(aim[free_chlorine], std::min(middle, values[cyanurate] / aim_cyanurate));
}

double Bands::outside(Reading reading, Values const& values) const
{
    double const below = low_of(reading, values) - values[reading];
    double const above = values[reading] - high[reading];
    double const most = std::max(below, above);
    // A conversion moves the last digits; a reading that stands on the limit is inside it.
    return most > 1e-9 * scale[reading] ? most / scale[reading] : 0.0;
}

double Bands::outside(Values const& values) const
{
    double sum = 0.0;
    for (std::size_t r = 0; r < reading_count; ++r)
        sum += outside(static_cast<Reading>(r), values);
    return sum;
}

double Bands::distance(Values const& values) const
{
    double sum = 0.0;
    for (std::size_t i = 0; i < reading_count; ++i)
    {
        auto const r = static_cast<Reading>(i);
        double const to = aim_of(r, values);
        double const edge = values[r] < to ? low_of(r, values) : high[r];
        if (std::isnan(to) || !std::isfinite(edge) || edge == to)
            continue;
        double const part = (values[r] - to) / (edge - to);
        sum += part * part + 20.0 * std::pow(std::max(0.0, part - 0.8), 2);
    }
    return sum;
}

Composition Recipe::onto(Composition water) const
{
    for (auto const& portion : portions)
        water.totals = water.totals + added(portion.product->adds, units::of_si<units::Molality>(portion.active));
    water.totals.carbonate = water.totals.carbonate - units::of_si<units::Molality>(carbon_out);
    return water;
}

std::optional<double> Problem::price(Product const& product) const
{
    for (auto const& price : request.prices)
        if (price.product == product.id && price.contents.value() > 0.0)
            return price.paid / price.contents.value();
    return std::nullopt;
}

double Problem::rank(Product const& product) const
{
    return request.venue == Venue::spa ? product.spa_rank.value() : product.pool_rank.value();
}

double Problem::mass(Portion const& portion) const
{
    return dose_of(*portion.product, units::of_si<units::Molality>(portion.active), request.volume).value();
}

std::vector<Product const*> Problem::of(Purpose purpose) const
{
    std::vector<Product const*> out;
    std::copy_if(products.begin(), products.end(), std::back_inserter(out),
                 [&](Product const* p) { return p->purpose == purpose; });
    return out;
}

std::optional<State> Problem::state(Composition const& water) const
{
    try
    {
        return equilibria.of(water);
    }
    catch (figures::NotComputed const&)
    {
        return std::nullopt;
    }
    catch (physics::OutOfRange const&)
    {
        return std::nullopt;
    }
}

std::optional<State> Problem::state_at(Composition const& water, double at_ph) const
{
    try
    {
        return equilibria.at_ph(water, units::of_si<units::Ph>(at_ph));
    }
    catch (figures::NotComputed const&)
    {
        return std::nullopt;
    }
    catch (physics::OutOfRange const&)
    {
        return std::nullopt;
    }
}

Problem problem_of(Equilibria const& equilibria, ProductTable const& table, PlanRequest const& request)
{
    auto const fill = request.fill_water.value_or(request.assumed_fill);
    State const now = equilibria.at_ph(composition_of(request.now), request.now.ph);
    Problem out{equilibria,
                table,
                request,
                bands_of(request.targets, request.ignore, values_of(now)),
                {},
                now,
                equilibria.at_ph(composition_of(fill), fill.ph).composition()};
    for (auto const& price : request.prices)
        (void)table.product(price.product);
    std::vector<Product const*> all;
    for (auto const& product : table.products)
        if (request.available.empty())
            all.push_back(&product);
    for (auto const& id : request.available)
        all.push_back(&table.product(id));
    // Priced before not priced, then by cost for the same effect, then by rank: the first of a kind is the one to use.
    auto const before = [&](Product const* a, Product const* b)
    {
        auto const cost = [&](Product const* p)
        {
            auto const price = out.price(*p);
            return price ? *price / (active_in(*p).value() * effect(*p)) : endless;
        };
        double const of_a = cost(a), of_b = cost(b);
        return of_a != of_b ? of_a < of_b : out.rank(*a) < out.rank(*b);
    };
    std::stable_sort(all.begin(), all.end(), before);
    auto const quick = [&](Purpose purpose) {
        return std::any_of(all.begin(), all.end(), [&](Product const* p) { return p->purpose == purpose && !p->slow; });
    };
    for (auto const* product : all)
        if (!(product->slow && quick(product->purpose)) &&
            std::none_of(out.products.begin(), out.products.end(),
                         [&](Product const* p) { return p->kind == product->kind; }))
            out.products.push_back(product);
    return out;
}

} // namespace padwalk::chemistry::planning
