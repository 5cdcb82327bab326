#include "dose_plan_parts.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::chemistry::planning
{
namespace
{

/// Adds the first product of a purpose so that a reading comes to its aim; false if there is none.
bool bring(Problem const& problem, Recipe& recipe, Purpose purpose, double missing_mol, double per_mol)
{
    auto const products = problem.of(purpose);
    if (products.empty())
        return false;
    recipe.portions.push_back({products.front(), missing_mol / per_mol});
    return true;
}

/// What is dosed whatever happens to pH and alkalinity: chlorine, calcium, cyanurate, borate, salt.
class Setups
{
public:
    Setups(Problem const& problem, Composition const& water) : p_(problem), water_(water)
    {
        for (auto const& chlorine : chlorines())
            for (double calcium_to : calcium_levels(chlorine))
            {
                Recipe recipe = chlorine;
                if (fill_in(recipe, calcium_to))
                    all_.push_back(std::move(recipe));
            }
    }

    std::vector<Recipe> const& all() const { return all_; }

private:
    /// What the readings that pH doesn't move come to.
    Values readings(Recipe const& recipe) const
    {
        auto const r = readings_of(recipe.onto(water_), units::of_si<units::Ph>(7.5));
        Values out{};
        out[calcium] = r.calcium.value(), out[cyanurate] = r.cyanurate.value();
        out[free_chlorine] = r.free_chlorine.value(), out[borate] = r.borate.value();
        out[salt] = r.salt.value();
        return out;
    }

    /// Nothing, or the chlorine that is missing from each kind that is there. Cyanurate that comes along raises the
    /// aim, so it is asked again.
    std::vector<Recipe> chlorines() const
    {
        Values const now = readings({});
        if (now[free_chlorine] >= p_.bands.low_of(free_chlorine, planned(now)))
            return {Recipe{}};
        std::vector<Recipe> out;
        for (auto const* product : p_.of(Purpose::raise_chlorine))
        {
            Recipe recipe;
            recipe.portions.push_back({product, 0.0});
            for (int i = 0; i < 6; ++i)
            {
                Values const then = planned(readings(recipe));
                double const missing = p_.bands.aim_of(free_chlorine, then) - then[free_chlorine];
                recipe.portions.front().active +=
                    chemistry::molality(units::of_si<units::AsChlorine>(missing)).value() /
                    product->adds.chlorine.value();
            }
            if (recipe.portions.front().active > 0.0)
                out.push_back(recipe);
        }
        return out;
    }

    /// With the cyanurate that will be there once it is dosed.
    Values planned(Values values) const
    {
        if (values[cyanurate] < p_.bands.low[cyanurate])
            values[cyanurate] = std::max(values[cyanurate], p_.bands.aim[cyanurate]);
        return values;
    }

    /// Calcium hardness to come to: where it is, its aim, and other places in the band for the saturation index.
    std::vector<double> calcium_levels(Recipe const& recipe) const
    {
        double const now = readings(recipe)[calcium];
        double const low = p_.bands.low[calcium], high = p_.bands.high[calcium], aim = p_.bands.aim[calcium];
        std::vector<double> out;
        if (!(now < low))
            out.push_back(now);
        if (p_.of(Purpose::raise_calcium).empty())
            return out;
        if (now < low)
            out.push_back(aim);
        if (!std::isfinite(low) || !std::isfinite(high))
            return out;
        for (double part : {0.25, 0.5, 0.75, 0.93})
            if (double const level = low + part * (high - low); level > now + 0.05 * (high - low))
                out.push_back(level);
        return out;
    }

    bool fill_in(Recipe& recipe, double calcium_to)
    {
        Values now = readings(recipe);
        auto const mol = [](auto concentration) { return chemistry::molality(concentration).value(); };
        bool all = true;
        if (double const more = calcium_to - now[calcium]; more > 1e-6)
            all = bring(p_, recipe, Purpose::raise_calcium, mol(units::of_si<units::AsCalciumCarbonate>(more)), 1.0);
        if (now[cyanurate] < p_.bands.low[cyanurate])
            all = all && bring(p_, recipe, Purpose::raise_cyanurate,
                               mol(units::of_si<units::AsCyanuricAcid>(p_.bands.aim[cyanurate] - now[cyanurate])), 1.0);
        if (now[borate] < p_.bands.low[borate])
        {
            auto const borates = p_.of(Purpose::raise_borate);
            all = all && !borates.empty() &&
                  bring(p_, recipe, Purpose::raise_borate,
                        mol(units::of_si<units::AsBoron>(p_.bands.aim[borate] - now[borate])),
                        borates.front()->adds.boron.value());
        }
        if (now[salt] < p_.bands.low[salt])
            all = all && bring(p_, recipe, Purpose::raise_salt,
                               mol(units::of_si<units::AsSodiumChloride>(p_.bands.aim[salt] - now[salt])), 1.0);
        return all;
    }

    Problem const& p_;
    Composition const& water_;
    std::vector<Recipe> all_;
};

} // namespace

std::vector<Recipe> setups(Problem const& problem, Composition const& water)
{
    return Setups(problem, water).all();
}

} // namespace padwalk::chemistry::planning
