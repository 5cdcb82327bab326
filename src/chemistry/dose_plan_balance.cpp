#include "dose_plan_parts.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace padwalk::chemistry::planning
{
namespace
{

constexpr double endless = std::numeric_limits<double>::infinity();

double carbon(Composition const& water)
{
    return water.totals.carbonate.value();
}

Recipe plus(Recipe recipe, Product const* product, double active)
{
    recipe.portions.push_back({product, active});
    return recipe;
}

bool same_levers(Recipe const& a, Recipe const& b)
{
    return a.aerate == b.aerate && a.portions.size() == b.portions.size() &&
           std::equal(a.portions.begin(), a.portions.end(), b.portions.begin(),
                      [](Portion const& x, Portion const& y) { return x.product == y.product; });
}

/// The amounts of one set of levers that end nearest the aims, and those that weigh least.
struct Best
{
    Recipe nearest, lightest;
    double distance = endless, mass = endless;

    void offer(Recipe const& recipe, double with_distance, double with_mass)
    {
        if (with_distance < distance)
            nearest = recipe, distance = with_distance;
        if (with_mass < mass)
            lightest = recipe, mass = with_mass;
    }
};

/// pH and alkalinity by acid, bicarbonate, soda ash, borax and aeration, on top of a setup.
class Balance
{
public:
    Balance(Problem const& problem, Composition const& water, Recipe const& setup)
        : p_(problem), water_(water), setup_(setup), base_(setup.onto(water)), state_(problem.state(base_))
    {
    }

    /// Every recipe found with so many levers besides the setup.
    std::vector<Recipe> with(int levers)
    {
        if (!state_)
            return {};
        if (levers == 0)
            take(setup_);
        if (levers == 1)
            singles();
        if (levers == 2)
            pairs();
        return std::move(out_);
    }

private:
    /// Where there is no limit something still bounds the search: what any pool has.
    double low(Reading reading) const { return std::max(p_.bands.low[reading], reading == ph ? 6.8 : 20e-3); }
    double high(Reading reading) const { return std::min(p_.bands.high[reading], reading == ph ? 8.4 : 400e-3); }

    static bool reachable(Recipe const& recipe, State const& state)
    {
        return !recipe.aerate || state.log_co2_pressure() >= air_pressure;
    }

    void take(Recipe const& recipe)
    {
        if (auto const state = p_.state(recipe.onto(water_)))
            if (p_.bands.inside(values_of(*state)) && reachable(recipe, *state))
                out_.push_back(recipe);
    }

    void take(Best const& best)
    {
        if (best.distance == endless)
            return;
        take(best.nearest);
        if (mass(best.lightest) > 0.98 * mass(best.nearest))
            return;
        Recipe spare = best.lightest;
        spare.spare = true;
        take(spare);
    }

    double mass(Recipe const& recipe) const
    {
        double sum = 0.0;
        for (auto const& portion : recipe.portions)
            sum += p_.mass(portion);
        return sum;
    }

    bool used(Product const* product) const
    {
        return std::any_of(setup_.portions.begin(), setup_.portions.end(),
                           [&](Portion const& portion) { return portion.product == product; });
    }

    /// The range of a single lever by what it does to alkalinity, which is plain arithmetic.
    void singles()
    {
        double const now = values_of(*state_)[alkalinity];
        for (auto const purpose :
             {Purpose::lower_ph, Purpose::raise_alkalinity, Purpose::raise_ph, Purpose::raise_borate})
            for (auto const* product : p_.of(purpose))
            {
                double const each = product->adds.alkalinity.value();
                if (each == 0.0 || used(product))
                    continue;
                double const per = chemistry::alkalinity(units::of_si<units::Molality>(each)).value();
                double const a = (low(alkalinity) - now) / per, b = (high(alkalinity) - now) / per;
                single(product, std::max(0.0, std::min(a, b)), std::max(a, b));
            }
        aeration();
    }

    /// pH and saturation go one way along a lever: both ends on the same wrong side means all between are too.
    bool can_cross(Recipe const& least, Recipe const& most) const
    {
        auto const a = p_.state(least.onto(water_)), b = p_.state(most.onto(water_));
        if (!a || !b)
            return true;
        auto const from = values_of(*a), to = values_of(*b);
        for (auto r : {ph, saturation})
            if (std::max(from[r], to[r]) < p_.bands.low[r] || std::min(from[r], to[r]) > p_.bands.high[r])
                return false;
        return true;
    }

    void single(Product const* product, double from, double to)
    {
        if (!(to > from) || !can_cross(plus(setup_, product, std::max(from, 1e-9 * to)), plus(setup_, product, to)))
            return;
        Best best;
        double at = 0.5 * (from + to), least = endless;
        auto const look = [&](double x)
        {
            Recipe const recipe = plus(setup_, product, x);
            auto const state = x > 0.0 ? p_.state(recipe.onto(water_)) : std::nullopt;
            if (!state)
                return;
            auto const values = values_of(*state);
            double const miss = p_.bands.outside(values), distance = p_.bands.distance(values);
            if (miss <= 0.0)
                best.offer(recipe, distance, x);
            if (double const score = miss > 0.0 ? 1e6 * miss : distance; score < least)
                least = score, at = x;
        };
        constexpr int coarse = 10, fine = 3;
        double const step = (to - from) / coarse;
        for (int i = 0; i <= coarse; ++i)
            look(from + i * step);
        for (double half = step / 2; half > step / (2 << fine); half /= 2)
        {
            double const middle = at;
            look(std::max(from, middle - half)), look(std::min(to, middle + half));
        }
        take(best);
    }

    void aeration()
    {
        double const now = state_->ph().value(), most = high(ph);
        Best best;
        constexpr int steps = 8;
        for (int i = 1; i <= steps && now < most; ++i)
            if (auto const then = p_.state_at(base_, now + (most - now) * i / steps))
            {
                Recipe recipe = setup_;
                recipe.aerate = true;
                recipe.carbon_out = carbon(base_) - carbon(then->composition());
                auto const values = values_of(*then);
                if (recipe.carbon_out > 0.0 && p_.bands.inside(values) && reachable(recipe, *then))
                    best.offer(recipe, p_.bands.distance(values), recipe.carbon_out);
            }
        take(best);
    }

    /// A water in the band: how much more alkalinity and carbonate than now, mol/kg.
    struct Place
    {
        double alkalinity = 0.0, carbonate = 0.0;
        double distance = 0.0;
        bool above_air = true;
    };

    /// What each pair of levers must do to come to a place is two equations with two unknowns.
    void pairs()
    {
        auto const first = [&](Purpose purpose) -> Product const*
        {
            auto const products = p_.of(purpose);
            return products.empty() || used(products.front()) ? nullptr : products.front();
        };
        auto const *bicarbonate = first(Purpose::raise_alkalinity), *soda = first(Purpose::raise_ph);
        auto const acids = p_.of(Purpose::lower_ph);
        best_.clear();
        for (auto const& place : places())
        {
            double const a = place.alkalinity, c = place.carbonate;
            for (auto const* acid : acids)
            {
                with_air(place, acid, -a, -c);
                both(place, bicarbonate, c, acid, c - a);
                both(place, soda, c, acid, 2 * c - a);
            }
            both(place, bicarbonate, 2 * c - a, soda, a - c);
            with_air(place, bicarbonate, a, a - c);
            with_air(place, soda, a / 2, a / 2 - c);
        }
        for (auto const& best : best_)
            take(best);
    }

    void both(Place const& place, Product const* one, double x, Product const* other, double y)
    {
        if (one != nullptr && other != nullptr && x > 0.0 && y > 0.0)
            offer(plus(plus(setup_, one, x), other, y), place.distance);
    }

    void with_air(Place const& place, Product const* one, double x, double carbon_out)
    {
        if (one == nullptr || !(x > 0.0) || !(carbon_out > 0.0) || !place.above_air)
            return;
        Recipe recipe = plus(setup_, one, x);
        recipe.aerate = true, recipe.carbon_out = carbon_out;
        offer(recipe, place.distance);
    }

    void offer(Recipe const& recipe, double distance)
    {
        auto const known = std::find_if(best_.begin(), best_.end(),
                                        [&](Best const& best) { return same_levers(best.nearest, recipe); });
        auto& best = known != best_.end() ? *known : best_.emplace_back();
        best.offer(recipe, distance, mass(recipe));
    }

    std::vector<Place> places() const
    {
        std::vector<Place> out;
        constexpr int across = 7, along = 7;
        auto const between = [](double low, double high, int i, int n) { return low + (high - low) * (i + 0.5) / n; };
        for (int i = 0; i < along; ++i)
        {
            double const to = between(low(alkalinity), high(alkalinity), i, along);
            auto const wanted = equivalents(units::of_si<units::AsCalciumCarbonate>(to));
            auto const more = wanted - base_.totals.alkalinity;
            Composition water = base_;
            water.totals.alkalinity = wanted;
            // the ion that comes with it: sodium with a base, chloride with acid
            if (more.value() > 0.0)
                water.totals.sodium = water.totals.sodium + more;
            else
                water.totals.chloride = water.totals.chloride - more;
            for (int j = 0; j < across; ++j)
                if (auto const s = p_.state_at(water, between(low(ph), high(ph), j, across)))
                    if (auto const values = without_ions(values_of(*s)); p_.bands.inside(values))
                        out.push_back({more.value(), carbon(s->composition()) - carbon(base_),
                                       p_.bands.distance(values), s->log_co2_pressure() >= air_pressure});
        }
        return out;
    }

    /// The ions that stand in are not the product's: salt is judged on the recipe itself.
    Values without_ions(Values values) const
    {
        values[salt] = std::clamp(values[salt], p_.bands.low[salt], p_.bands.high[salt]);
        return values;
    }

    Problem const& p_;
    Composition const& water_;
    Recipe const& setup_;
    Composition base_;
    std::optional<State> state_;
    std::vector<Best> best_;
    std::vector<Recipe> out_;
};

} // namespace

std::vector<Recipe> balanced(Problem const& problem, Composition const& water, Recipe const& setup, int levers)
{
    return Balance(problem, water, setup).with(levers);
}

} // namespace padwalk::chemistry::planning
