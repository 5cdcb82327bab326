#include "dose_plan_parts.hpp"

#include "padwalk/physics/range.hpp"
#include "padwalk/units/definitions.hpp"
#include "padwalk/units/print.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::chemistry
{
namespace
{

using namespace planning;

constexpr double percent = 0.01;

double up_to_percent(double share)
{
    return percent * std::ceil(share / percent - 1e-9);
}

/// Every move of the first recipe that lands in the band after this share has been replaced.
std::optional<std::vector<Move>> moves_after(Problem const& problem, double share)
{
    auto const begin = start(problem, share);
    std::optional<std::vector<Move>> out;
    search(problem, begin.state.composition(),
           [&](Recipe const& recipe)
           {
               out = walk(problem, begin.state, recipe);
               return out.has_value();
           });
    if (out)
        out->insert(out->begin(), begin.moves.begin(), begin.moves.end());
    return out;
}

struct Way
{
    double share = 0.0;
    std::vector<Move> moves;
};

/// The least share, to a whole percent and not under `least`, after which something leads into the band.
std::optional<Way> way_from(Problem const& problem, double least)
{
    double failed = least;
    for (double more : {0.0, 0.01, 0.02, 0.05, 0.1, 0.2, 0.35, 0.5, 0.65, 0.8, 0.95})
    {
        double const share = up_to_percent(least + more);
        if (share > 0.99 || (more > 0.0 && share <= failed))
            continue;
        auto moves = moves_after(problem, share);
        if (!moves)
        {
            failed = share;
            continue;
        }
        Way best{share, std::move(*moves)};
        while (more > 0.0 && best.share - failed > 1.5 * percent)
        {
            double const middle = up_to_percent(0.5 * (failed + best.share) - 0.5 * percent);
            if (auto between = moves_after(problem, middle))
                best = {middle, std::move(*between)};
            else
                failed = middle;
        }
        return best;
    }
    return std::nullopt;
}

void check(PlanRequest const& request)
{
    double const gallons = request.volume.value() / units::exact::us_gallon;
    physics::require_within({50.0, 5e6, "gal", ""}, gallons, "volume of the water");
}

std::string listed(std::vector<std::string> const& parts)
{
    std::string out;
    for (auto const& part : parts)
        out += (out.empty() ? "" : ", ") + part;
    return out;
}

/// What the reading asks for and no product that is there does.
std::vector<std::string> nothing_for(Problem const& problem)
{
    auto const now = values_of(problem.now);
    std::vector<std::string> out;
    auto const ask = [&](Reading r, bool low, Purpose purpose, std::string const& words)
    {
        bool const missing = low ? now[r] < problem.bands.low_of(r, now) : now[r] > problem.bands.high[r];
        if (missing && problem.of(purpose).empty())
            out.push_back(words);
    };
    ask(planning::alkalinity, false, Purpose::lower_ph, "acid");
    ask(ph, false, Purpose::lower_ph, "acid");
    ask(planning::alkalinity, true, Purpose::raise_alkalinity, "baking soda");
    ask(calcium, true, Purpose::raise_calcium, "calcium chloride");
    ask(cyanurate, true, Purpose::raise_cyanurate, "cyanuric acid");
    ask(borate, true, Purpose::raise_borate, "boric acid or borax");
    ask(salt, true, Purpose::raise_salt, "pool salt");
    ask(free_chlorine, true, Purpose::raise_chlorine, "chlorine");
    out.erase(std::unique(out.begin(), out.end()), out.end());
    return out;
}

std::string share_words(double share)
{
    return units::show_number(100 * share, 0) + " % of the water";
}

/// What a dose can't lower; else alkalinity, which takes the most doses; else what is furthest out.
Reading reason(Problem const& problem, Replacement const& least)
{
    if (least.share > 0.0)
        return least.because;
    auto const now = values_of(problem.now);
    auto const out = [&](std::size_t r) { return problem.bands.outside(static_cast<Reading>(r), now); };
    std::size_t most = planning::alkalinity;
    for (std::size_t r = 0; r < reading_count && now[planning::alkalinity] <= problem.bands.high[planning::alkalinity];
         ++r)
        if (out(r) > out(most))
            most = r;
    return static_cast<Reading>(most);
}

/// The moves that would do without replacing water if the request were another; nothing where none do.
std::optional<std::vector<Move>> if_only(Problem const& problem, PlanRequest const& other)
{
    return moves_after(problem_of(problem.equilibria, problem.table, other), 0.0);
}

/// 'No dose gets there: replace 40 % of the water for its cyanurate.' or, where doses could, what they would take.
std::string replacement_words(Problem const& problem, double share, DosePlan const& plan)
{
    std::string const replace = "replace " + share_words(share) + " for its " + plan.because + ".";
    double const least = up_to_percent(least_replacement(problem).share);
    if (least > 0.0 && share < least + 0.5 * percent)
        return "No dose gets there: " + replace;
    if (least > 0.0)
        return "No dose gets there: at least " + units::show_number(100 * least, 0) + " % must be replaced for its " +
               plan.because + "; with " + share_words(share) + " replaced doses do the rest.";
    auto other = problem.request;
    other.available.clear();
    auto const with_all = other.available == problem.request.available ? std::nullopt : if_only(problem, other);
    if (with_all)
    {
        std::vector<std::string> names;
        for (auto const& move : *with_all)
            if (move.product != nullptr && std::find(names.begin(), names.end(), move.product->name) == names.end() &&
                std::count(problem.request.available.begin(), problem.request.available.end(), move.product->id) == 0)
                names.push_back(move.product->name);
        return "With the products at hand no dose gets there: " + replace + " With " + listed(names) +
               " no water need be replaced.";
    }
    constexpr int without_end = 200;
    other = problem.request;
    other.most_parts = without_end;
    if (if_only(problem, other))
        return "Doses alone would take more than " + std::to_string(problem.request.most_parts) +
               " of one product; better " + replace;
    return "No dose gets there: " + replace;
}

void say_cannot(Problem const& problem, Replacement const& least, DosePlan& plan)
{
    plan.outcome = Outcome::cannot;
    if (least.share >= 1.0)
    {
        plan.answer =
            "No dose gets there, and replacing the water does not either: the fill water itself has too much " +
            name_of(least.because) + ".";
        return;
    }
    plan.answer =
        "No combination of the products at hand that was tried leads into the band (" + listed(plan.outside) + ").";
    if (auto const missing = nothing_for(problem); !missing.empty())
        plan.answer += " Missing: " + listed(missing) + ".";
}

void add_cost(Problem const& problem, std::vector<Move> const& moves, DosePlan& plan)
{
    double sum = 0.0;
    for (auto const& move : moves)
        if (move.product != nullptr)
        {
            auto const price = problem.price(*move.product);
            if (!price)
                return;
            sum += *price * move.amount->mass.value();
        }
    if (!problem.request.prices.empty())
        plan.cost = sum;
}

void say_way(Problem const& problem, Way const& way, DosePlan& plan)
{
    for (auto const& move : way.moves)
    {
        plan.steps.push_back(step_in_words(problem, move));
        if (move.product != nullptr &&
            std::find(plan.products.begin(), plan.products.end(), move.product->id) == plan.products.end())
            plan.products.push_back(move.product->id);
    }
    add_cost(problem, way.moves, plan);
    plan.end = plan.steps.empty() ? plan.now : plan.steps.back().after;
    plan.outcome = way.share > 0.0 ? Outcome::replace_water : Outcome::doses;
    auto const dosed = static_cast<int>(
        std::count_if(way.moves.begin(), way.moves.end(), [](Move const& m) { return m.product != nullptr; }));
    auto const counted = [](int n, std::string const& one)
    { return std::to_string(n) + " " + one + (n == 1 ? "" : "s"); };
    std::string const in_all = " (" + counted(static_cast<int>(plan.steps.size()), "step") + " in all).";
    int const products = static_cast<int>(plan.products.size());
    std::string const doses = dosed == 0 ? "no product is needed" + in_all
                                         : counted(products, "product") + " in " + counted(dosed, "dose") +
                                               (products == 1 ? " leads" : " lead") + " into the band" + in_all;
    plan.answer = way.share > 0.0 ? replacement_words(problem, way.share, plan) + " After that " + doses
                  : dosed == 0    ? "N" + doses.substr(1)
                                  : doses;
}

void say_assumptions(Problem const& problem, DosePlan& plan)
{
    auto const& request = problem.request;
    if (plan.replace.value() > 0.0 && !request.fill_water)
        plan.assumptions.push_back("The fill water was not given; taken as alkalinity " +
                                   shown(planning::alkalinity, request.assumed_fill.alkalinity.value()) +
                                   ", calcium hardness " + shown(calcium, request.assumed_fill.calcium.value()) +
                                   ", pH " + shown(ph, request.assumed_fill.ph.value()) + ". Test the tap.");
    if (plan.replace.value() > 0.0)
        plan.assumptions.push_back("The refilled water is warmed to the old temperature before anything is dosed.");
    if (!request.targets.free_chlorine.low)
        plan.assumptions.push_back(
            "The sanitizer is not in this plan, for no band of free chlorine was given: keep it by "
            "its own test.");
    auto const now = values_of(problem.now);
    if (now[free_chlorine] < problem.bands.low_of(free_chlorine, now))
        plan.assumptions.push_back(
            "Free chlorine is below its band until the last step: nobody goes in before that. Where "
            "the steps take days, keep some chlorine of the same kind in the water meanwhile, and "
            "test before the last dose.");
    if (request.now.free_chlorine.value() > 10e-3)
        plan.assumptions.push_back("Above 10 mg/L of free chlorine the tests of pH, alkalinity and chlorine itself may "
                                   "read false; go by the tests after it has fallen.");
}

} // namespace

DosePlan plan_doses(Equilibria const& equilibria, ProductTable const& table, PlanRequest const& request)
{
    check(request);
    auto const problem = problem_of(equilibria, table, request);
    auto const now = values_of(problem.now);
    DosePlan plan;
    plan.now = plan.end = water_at(problem.now);
    plan.outside = outside_in_words(problem, now);
    if (problem.bands.inside(now))
    {
        plan.answer = "Nothing to do: every reading is in its band.";
        say_assumptions(problem, plan);
        return plan;
    }
    plan.general = general_sentences();
    auto const least = least_replacement(problem);
    if (least.share >= 1.0)
    {
        say_cannot(problem, least, plan);
        return plan;
    }
    auto const way = way_from(problem, up_to_percent(least.share));
    if (!way)
    {
        say_cannot(problem, least, plan);
        return plan;
    }
    plan.replace = units::of_si<units::Fraction>(way->share);
    if (way->share > 0.0)
        plan.because = name_of(reason(problem, least));
    if (way->share > 0.0 && !request.may_drain)
    {
        plan.outcome = Outcome::cannot;
        plan.answer = replacement_words(problem, way->share, plan);
    }
    else
        say_way(problem, *way, plan);
    say_assumptions(problem, plan);
    return plan;
}

} // namespace padwalk::chemistry
