#include "dose_plan_parts.hpp"

#include <algorithm>

namespace padwalk::chemistry::planning
{
namespace
{

/// Fewest actions are the caller's loop; then what ends near its aims, what has prices for everything, the cost, the
/// rank, the mass.
struct Key
{
    bool spare = false, unpriced = false;
    double cost = 0.0, rank = 0.0, mass = 0.0;
    friend bool operator<(Key const& a, Key const& b)
    {
        if (a.spare != b.spare)
            return b.spare;
        if (a.unpriced != b.unpriced)
            return b.unpriced;
        if (a.cost != b.cost)
            return a.cost < b.cost;
        return a.rank != b.rank ? a.rank < b.rank : a.mass < b.mass;
    }
};

Key key_of(Problem const& problem, Recipe const& recipe)
{
    Key key;
    key.spare = recipe.spare;
    for (auto const& portion : recipe.portions)
    {
        double const mass = problem.mass(portion);
        auto const price = problem.price(*portion.product);
        key.unpriced = key.unpriced || !price;
        key.cost += price ? *price * mass : 0.0;
        key.rank += problem.rank(*portion.product);
        key.mass += mass;
    }
    if (key.unpriced)
        key.cost = 0.0;
    if (recipe.aerate) // air is free, but slow: behind soda ash in a pool, before borax; a spa's jets do it in hours
        key.rank += problem.request.venue == Venue::spa ? 1.0 : 1.5;
    return key;
}

} // namespace

bool search(Problem const& problem, Composition const& water, std::function<bool(Recipe const&)> const& accept)
{
    constexpr int most_actions = 8, most_levers = 2;
    auto const all = setups(problem, water);
    for (int actions = 0; actions <= most_actions; ++actions)
        for (auto const& setup : all)
        {
            int const levers = actions - setup.actions();
            if (levers < 0 || levers > most_levers)
                continue;
            auto found = balanced(problem, water, setup, levers);
            std::stable_sort(found.begin(), found.end(),
                             [&](Recipe const& a, Recipe const& b) { return key_of(problem, a) < key_of(problem, b); });
            for (auto const& recipe : found)
                if (accept(recipe))
                    return true;
        }
    return false;
}

} // namespace padwalk::chemistry::planning
