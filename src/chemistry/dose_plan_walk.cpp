#include "dose_plan_parts.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace padwalk::chemistry::planning
{
namespace
{

constexpr double acid_floor = 7.0;  ///< pH that acid may bring a water to on the way: tests end and metals suffer below
constexpr double rest_ph = 7.6;     ///< aerated to this between two doses of acid
constexpr double readable_ph = 0.1; ///< what a person can read on a kit
constexpr double target_share = 0.9; ///< of the high limit: where falling chlorine may stop

double carbon(State const& state)
{
    return state.composition().totals.carbonate.value();
}

/// How far each rounded amount is moved from the nearest, in steps of its measure; aeration in tenths of pH.
struct Shifts
{
    std::map<Product const*, int> doses;
    int aeration = 0;
};

/// Walks one recipe by household measures.
class Walker
{
public:
    Walker(Problem const& problem, State const& from, Recipe const& recipe, Shifts const& shifts)
        : p_(problem), state_(from), recipe_(recipe), shifts_(shifts)
    {
    }

    bool go()
    {
        target_carbon_ = carbon(state_) - recipe_.carbon_out;
        for (auto const& portion : recipe_.portions)
            target_carbon_ += portion.active * portion.product->adds.carbonate.value();
        dose(Purpose::raise_alkalinity);
        // Cyanuric and boric acid lower pH, over days: where it is low they wait until soda ash or borax has raised it.
        // With acid or aeration they go first, for air raises pH only so far.
        bool const weak_acids_first =
            state_.ph().value() > p_.bands.aim[ph] || recipe_.aerate || portion(Purpose::lower_ph) != nullptr;
        if (weak_acids_first)
            weak_acids();
        borate(true), dose(Purpose::raise_ph), acid();
        if (recipe_.aerate)
            aerate_to_end();
        dose(Purpose::raise_calcium);
        if (!weak_acids_first)
            weak_acids();
        dose(Purpose::raise_salt), dose(Purpose::raise_chlorine);
        number_parts();
        return good_;
    }

    std::vector<Move> const& moves() const { return moves_; }
    State const& state() const { return state_; }

private:
    Portion const* portion(Purpose purpose) const
    {
        for (auto const& one : recipe_.portions)
            if (one.product->purpose == purpose)
                return &one;
        return nullptr;
    }

    void apply(Product const& product, MeasuredAmount const& amount)
    {
        Composition water = state_.composition();
        water.totals = water.totals + added(product, amount.mass, p_.request.volume);
        auto const next = p_.state(water);
        if (!next || (product.purpose == Purpose::lower_ph && next->ph().value() < acid_floor - 0.5 * readable_ph))
            return fail();
        moves_.push_back({DoseStep::Kind::dose, &product, amount, 0.0, 1, 1, state_, *next});
        state_ = *next;
    }

    /// The last part of a product's doses takes up what the rounding of the others left.
    MeasuredAmount last(Product const& product, double mass) const
    {
        auto amount = measured(product, units::of_si<units::Mass>(mass));
        auto const shift = shifts_.doses.find(&product);
        for (int i = 0; shift != shifts_.doses.end() && i < std::abs(shift->second); ++i)
            if (auto const next = next_measure(product, amount, shift->second))
                amount = *next;
        return amount;
    }

    void dose(Purpose purpose)
    {
        for (auto const& one : recipe_.portions)
            if (one.product->purpose == purpose)
                in_parts(*one.product, p_.mass(one));
    }

    void in_parts(Product const& product, double mass)
    {
        double const most = safe_dose(product, p_.request.volume).value() * (1 + 1e-9);
        int parts = static_cast<int>(std::ceil(mass / most));
        if (parts > p_.request.most_parts)
            return fail();
        // a last part rounded or shifted up past the safe dose: one part more
        for (; parts <= p_.request.most_parts; ++parts)
        {
            auto const each = measured(product, units::of_si<units::Mass>(mass / parts), Rounding::down);
            double const rest = mass - (parts - 1) * each.mass.value();
            if (rest <= 0.0)
                return fail();
            auto const end = last(product, rest);
            if (end.mass.value() > most || end.metric_mass.value() > most || each.metric_mass.value() > most)
                continue;
            for (int i = 1; i < parts && good_; ++i)
                apply(product, each);
            apply(product, end);
            return;
        }
        fail();
    }

    void fail() { good_ = false; }

    void weak_acids() { dose(Purpose::raise_cyanurate), borate(false); }

    /// Borax raises pH and goes before acid; boric acid is one.
    void borate(bool alkaline)
    {
        for (auto const& one : recipe_.portions)
            if (one.product->purpose == Purpose::raise_borate &&
                (one.product->adds.alkalinity.value() > 0.0) == alkaline)
                in_parts(*one.product, p_.mass(one));
    }

    void acid()
    {
        auto const* one = portion(Purpose::lower_ph);
        if (one == nullptr)
            return;
        if (!recipe_.aerate)
            return in_parts(*one->product, p_.mass(*one));
        acid_between_aerations(*one->product, p_.mass(*one));
    }

    /// As much acid at a time as the floor of pH and the safe dose allow, aeration after each.
    void acid_between_aerations(Product const& product, double left)
    {
        double const most = safe_dose(product, p_.request.volume).value();
        double const smallest = measured(product, units::of_si<units::Mass>(1e-12)).mass.value();
        for (int parts = 0; good_ && left > 0.5 * smallest; ++parts)
        {
            double room = to_floor(product);
            if (room < std::min(left, 0.4 * most) && state_.ph().value() < rest_ph - 0.05)
            {
                aerate_between();
                room = to_floor(product);
            }
            double const part = std::min({left, most, room});
            if (parts == p_.request.most_parts || part <= 0.5 * smallest)
                return fail();
            auto amount =
                part == left ? last(product, part) : measured(product, units::of_si<units::Mass>(part), Rounding::down);
            if (amount.mass.value() > most || amount.metric_mass.value() > most)
                amount = measured(product, units::of_si<units::Mass>(most * 0.97), Rounding::down);
            if (amount.mass.value() > most || amount.metric_mass.value() > most)
                return fail();
            left -= amount.mass.value();
            apply(product, amount);
        }
    }

    /// Mass of the acid that brings this water to the floor of pH.
    double to_floor(Product const& product)
    {
        if (state_.ph().value() <= acid_floor)
            return 0.0;
        auto const there = p_.equilibria.titrated(state_.composition(), units::of_si<units::Ph>(acid_floor));
        double const equivalents =
            (state_.composition().totals.alkalinity - there.composition().totals.alkalinity).value();
        return p_.mass({&product, -equivalents / product.adds.alkalinity.value()});
    }

    void aerate(double to_ph)
    {
        auto const then = p_.state_at(state_.composition(), to_ph);
        if (!then || carbon(*then) >= carbon(state_) || then->log_co2_pressure() < air_pressure)
            return;
        moves_.push_back({DoseStep::Kind::aerate, nullptr, std::nullopt, 0.0, 1, 1, state_, *then});
        state_ = *then;
    }

    /// To the resting pH, but never past the carbonate that is wanted in the end.
    void aerate_between()
    {
        Composition water = state_.composition();
        water.totals.carbonate = units::of_si<units::Molality>(target_carbon_);
        auto const end = p_.state(water);
        double const most = end ? readable_ph * std::floor(end->ph().value() / readable_ph + 1e-6) : rest_ph;
        if (double const to = std::min(rest_ph, most); to > state_.ph().value() + 0.05)
            aerate(to);
    }

    void aerate_to_end()
    {
        Composition water = state_.composition();
        water.totals.carbonate = units::of_si<units::Molality>(target_carbon_);
        auto const end = p_.state(water);
        if (!end)
            return fail();
        double const to = readable_ph * (std::round(end->ph().value() / readable_ph) + shifts_.aeration);
        if (to > state_.ph().value() + 0.8 * readable_ph)
            aerate(to);
    }

    void number_parts()
    {
        std::map<Product const*, int> count, at;
        for (auto const& move : moves_)
            ++count[move.product];
        for (auto& move : moves_)
            move.part = ++at[move.product], move.parts = count[move.product];
    }

    Problem const& p_;
    State state_;
    Recipe const& recipe_;
    Shifts const& shifts_;
    double target_carbon_ = 0.0;
    bool good_ = true;
    std::vector<Move> moves_;
};

/// The same moves by metric measures: aeration ends at the same reading.
std::optional<State> by_metric(Problem const& problem, State const& from, std::vector<Move> const& moves)
{
    std::optional<State> state = from;
    for (auto const& move : moves)
    {
        Composition water = state->composition();
        if (move.product != nullptr)
            water.totals = water.totals + added(*move.product, move.amount->metric_mass, problem.request.volume);
        state = move.product != nullptr ? problem.state(water) : problem.state_at(water, move.after.ph().value());
        if (!state)
            break;
    }
    return state;
}

/// How far outside the band the walk ends, by household and by metric measures together.
double miss(Problem const& problem, State const& from, Recipe const& recipe, Shifts const& shifts)
{
    constexpr double no_way = 1e9;
    Walker walker(problem, from, recipe, shifts);
    if (!walker.go())
        return no_way;
    auto const metric = by_metric(problem, from, walker.moves());
    if (!metric)
        return no_way;
    return problem.bands.outside(values_of(walker.state())) + problem.bands.outside(values_of(*metric));
}

} // namespace

std::optional<std::vector<Move>> walk(Problem const& problem, State const& from, Recipe const& recipe)
{
    Shifts best;
    double least = miss(problem, from, recipe, best);
    // Rounding may leave the band: one measure more or less of one product after another, while it helps.
    for (int round = 0; round < 3 && least > 0.0 && least < 1e8; ++round)
    {
        auto const look = [&](auto&& change)
        {
            for (int by : {-1, 1})
            {
                Shifts other = best;
                change(other, by);
                if (double const now = miss(problem, from, recipe, other); now < least)
                    least = now, best = other;
            }
        };
        for (auto const& portion : recipe.portions)
            look([&](Shifts& s, int by) { s.doses[portion.product] += by; });
        if (recipe.aerate)
            look([](Shifts& s, int by) { s.aeration += by; });
    }
    if (least > 0.0)
        return std::nullopt;
    Walker walker(problem, from, recipe, best);
    walker.go();
    return walker.moves();
}

namespace
{

/// One mol of chlorine after another spent, until so much is left.
Composition spent(Problem const& problem, Composition water, double chlorine_left)
{
    auto const used = water.totals.chlorine - chemistry::molality(units::of_si<units::AsChlorine>(chlorine_left));
    water.totals = water.totals + added(problem.table.when_used, used);
    return water;
}

/// Far too much chlorine, and a reducer at hand: never so much of it that chlorine could end below its band.
void reduce(Problem const& problem, Start& out, double to)
{
    auto const values = values_of(out.state);
    double const now = values[free_chlorine];
    auto const reducers = problem.of(Purpose::lower_chlorine);
    if (now <= 2.0 * problem.bands.high[free_chlorine] || reducers.empty())
        return;
    Product const& product = *reducers.front();
    double const worst = product.uncertain ? product.uncertain->value() : 1.0;
    double const by = std::min(now - to, (now - problem.bands.aim_of(free_chlorine, values)) / worst);
    auto const mol = chemistry::molality(units::of_si<units::AsChlorine>(by));
    double const active = mol.value() / -product.adds.chlorine.value();
    double const whole = problem.mass({&product, active});
    double const most = safe_dose(product, problem.request.volume).value();
    int const parts = static_cast<int>(std::ceil(whole / most));
    if (parts > problem.request.most_parts)
        return;
    auto const amount = measured(product, units::of_si<units::Mass>(whole / parts), Rounding::down);
    if (amount.mass.value() > whole / parts * 1.001) // smaller than the smallest measure
        return;
    for (int i = 1; i <= parts; ++i)
    {
        Composition water = out.state.composition();
        water.totals = water.totals + added(product, amount.mass, problem.request.volume);
        auto const then = problem.state(water);
        if (!then)
            return;
        out.moves.push_back({DoseStep::Kind::dose, &product, amount, 0.0, i, parts, out.state, *then});
        out.state = *then;
    }
}

} // namespace

Start start(Problem const& problem, double share)
{
    Start out{{}, problem.now};
    if (share > 0.0)
    {
        auto water = mixed(problem.now.composition(), problem.fill, share);
        water.temperature = problem.now.composition().temperature; // heated again before anything is dosed
        auto const then = problem.equilibria.of(water);
        out.moves.push_back({DoseStep::Kind::replace_water, nullptr, std::nullopt, share, 1, 1, out.state, then});
        out.state = then;
    }
    double const high = problem.bands.high[free_chlorine];
    if (values_of(out.state)[free_chlorine] <= high)
        return out;
    double const to = target_share * high;
    reduce(problem, out, to);
    if (values_of(out.state)[free_chlorine] > high)
    {
        auto const then = problem.state(spent(problem, out.state.composition(), to));
        if (then)
        {
            out.moves.push_back(
                {DoseStep::Kind::let_chlorine_fall, nullptr, std::nullopt, 0.0, 1, 1, out.state, *then});
            out.state = *then;
        }
    }
    return out;
}

Replacement least_replacement(Problem const& problem)
{
    auto const now = values_of(problem.now);
    auto const fill = readings_of(problem.fill, units::of_si<units::Ph>(7.5));
    Values tap{};
    tap[calcium] = fill.calcium.value(), tap[cyanurate] = fill.cyanurate.value(), tap[borate] = fill.borate.value();
    tap[salt] = fill.salt.value(), tap[sulfate] = fill.sulfate.value();
    Replacement out;
    for (auto r : {calcium, cyanurate, borate, salt, sulfate})
    {
        double const high = problem.bands.high[r];
        if (problem.bands.outside(r, now) <= 0.0 || now[r] <= high)
            continue;
        double const share = tap[r] < high ? (now[r] - high) / (now[r] - tap[r]) : 2.0;
        if (share > out.share)
            out = {share, r};
    }
    return out;
}

} // namespace padwalk::chemistry::planning
