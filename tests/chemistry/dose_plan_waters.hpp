#pragma once
/// Waters to plan for, and what every plan is held to.

#include "catch_compat.hpp"

#include "run_model.hpp"

#include "padwalk/chemistry/dose_plan.hpp"
#include "padwalk/figures/model.hpp"
#include "padwalk/numerics/quasi_random.hpp"
#include "padwalk/units/definitions.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace padwalk::chemistry_tests
{

using namespace padwalk::chemistry;
namespace exact = padwalk::units::exact;

inline ProductTable const& table()
{
    static ProductTable const one = product_table(data());
    return one;
}
inline Equilibria const& equilibria()
{
    static Equilibria const one(data());
    return one;
}

template <class Q> Q ppm(double n)
{
    return units::of_si<Q>(n * 1e-3);
}
inline units::Temperature fahrenheit(double t)
{
    return units::of_si<units::Temperature>((t + exact::fahrenheit_zero) * exact::fahrenheit_degree);
}

inline WaterReadings water(double ph, double alkalinity, double calcium, double cyanurate, double chlorine)
{
    WaterReadings out;
    out.temperature = fahrenheit(82);
    out.ph = units::of_si<units::Ph>(ph);
    out.alkalinity = ppm<units::AsCalciumCarbonate>(alkalinity);
    out.calcium = ppm<units::AsCalciumCarbonate>(calcium);
    out.cyanurate = ppm<units::AsCyanuricAcid>(cyanurate);
    out.free_chlorine = ppm<units::AsChlorine>(chlorine);
    out.salt = ppm<units::AsSodiumChloride>(500);
    return out;
}

inline PlanRequest request(WaterReadings const& now, double gallons, Venue venue = Venue::pool,
                           Finish finish = Finish::plaster, Sanitizer sanitizer = Sanitizer::stabilized_chlorine)
{
    PlanRequest out;
    out.now = now;
    out.volume = units::of_si<units::Volume>(gallons * exact::us_gallon);
    out.venue = venue;
    out.targets = targets_for(data(), venue, finish, sanitizer);
    out.assumed_fill = assumed_fill_water(data());
    return out;
}

inline DosePlan plan(PlanRequest const& request)
{
    return plan_doses(equilibria(), table(), request);
}

/// The steps once more from the amounts alone, by household or by metric measures, not from what the plan computed:
/// only the readings at which a person stops aerating or waiting are taken from it.
inline State simulated(PlanRequest const& request, DosePlan const& plan, bool metric)
{
    auto const fill = request.fill_water.value_or(request.assumed_fill);
    State state = equilibria().at_ph(composition_of(request.now), request.now.ph);
    for (auto const& step : plan.steps)
    {
        Composition then = state.composition();
        if (step.kind == DoseStep::Kind::aerate)
        {
            double const read = std::round(10 * step.after.readings.ph.value()) / 10;
            state = equilibria().at_ph(then, units::of_si<units::Ph>(read));
            continue;
        }
        if (step.kind == DoseStep::Kind::dose)
            then.totals = then.totals + added(table().product(step.product),
                                              metric ? step.amount->metric_mass : step.amount->mass, request.volume);
        if (step.kind == DoseStep::Kind::replace_water)
        {
            then = mixed(then, equilibria().at_ph(composition_of(fill), fill.ph).composition(), step.share.value());
            then.temperature = request.now.temperature;
        }
        if (step.kind == DoseStep::Kind::let_chlorine_fall)
        {
            auto const gone = then.totals.chlorine - molality(step.after.readings.free_chlorine);
            then.totals = then.totals + added(table().when_used, gone);
        }
        state = equilibria().of(then);
    }
    return state;
}

template <class Q>
void look(std::vector<std::string>& out, Aim<Q> const& aim, double value, double least, std::string const& name)
{
    if (aim.low && value < aim.low->value() - least)
        out.push_back(name + " low " + std::to_string(value));
    if (aim.high && value > aim.high->value() + least)
        out.push_back(name + " high " + std::to_string(value));
}

/// What of a water is outside its targets, from the targets themselves.
inline std::vector<std::string> outside(Targets const& t, State const& state)
{
    auto const r = readings_of(state.composition(), state.ph());
    std::vector<std::string> out;
    look(out, t.ph, r.ph.value(), 1e-6, "pH");
    look(out, t.alkalinity, r.alkalinity.value(), 1e-8, "alkalinity");
    look(out, t.carbonate_alkalinity, alkalinity(state.carbonate_alkalinity()).value(), 1e-8, "carbonate alkalinity");
    look(out, t.calcium, r.calcium.value(), 1e-8, "calcium");
    look(out, t.cyanurate, r.cyanurate.value(), 1e-8, "cyanurate");
    look(out, t.free_chlorine, r.free_chlorine.value(), 1e-8, "free chlorine");
    look(out, t.borate, r.borate.value(), 1e-8, "borate");
    look(out, t.salt, r.salt.value(), 1e-8, "salt");
    look(out, t.sulfate, r.sulfate.value(), 1e-8, "sulfate");
    look(out, t.saturation, state.saturation(Mineral::calcite), 1e-6, "saturation");
    if (t.cyanurate_to_chlorine.high && t.free_chlorine.low &&
        r.cyanurate.value() > t.cyanurate_to_chlorine.high->value() * r.free_chlorine.value() + 1e-8 &&
        r.free_chlorine < *t.free_chlorine.high)
        out.push_back("cyanurate to chlorine");
    return out;
}

inline std::string listed(std::vector<std::string> const& parts)
{
    std::string out;
    for (auto const& part : parts)
        out += part + "; ";
    return out;
}

/// What holds for every plan, whatever the water.
inline void check_rules(PlanRequest const& request, DosePlan const& plan)
{
    CHECK(!plan.answer.empty());
    std::set<std::string> chlorine_kinds;
    std::string last_product;
    std::set<std::string> finished;
    bool chlorine_came = false;
    for (auto const& step : plan.steps)
    {
        INFO(step.what);
        CHECK(!step.what.empty());
        CHECK(!step.why.empty());
        CHECK(!step.how.empty());
        if (step.kind != DoseStep::Kind::dose)
        {
            CHECK(!chlorine_came);
            continue;
        }
        auto const& product = table().product(step.product);
        double const most = safe_dose(product, request.volume).value() * (1 + 1e-6);
        CHECK(step.amount->mass.value() > 0.0);
        CHECK(step.amount->mass.value() <= most);
        CHECK(step.amount->metric_mass.value() <= most);
        CHECK(step.wait.value() > 0.0);
        CHECK(step.swim.value() > 0.0);
        CHECK(!step.cautions.empty());
        CHECK(step.part <= step.parts);
        CHECK(step.parts <= request.most_parts);
        if (product.id != last_product)
        {
            CHECK(finished.count(product.id) == 0); // a product's doses stand together, aeration at most between them
            finished.insert(last_product);
            last_product = product.id;
        }
        bool const is_chlorine = product.purpose == Purpose::raise_chlorine;
        CHECK((is_chlorine || !chlorine_came)); // chlorine last
        chlorine_came = chlorine_came || is_chlorine;
        if (is_chlorine)
            chlorine_kinds.insert(product.kind);
        if (product.purpose == Purpose::lower_ph)
            CHECK(step.after.readings.ph.value() >= 6.95);
    }
    CHECK(chlorine_kinds.size() <= 1);
}

/// 1000 waters of pools and spas, good, bad and hopeless, the same in every run.
inline std::vector<PlanRequest> thousand_waters()
{
    std::vector<PlanRequest> out;
    numerics::QuasiRandom points(16);
    while (out.size() < 1000)
    {
        auto const u = points.next();
        auto const between = [&](std::size_t i, double low, double high) { return low + u[i] * (high - low); };
        auto const skewed = [&](std::size_t i, double high) { return high * u[i] * u[i] * u[i]; };
        bool const spa = u[0] < 0.3;
        WaterReadings now = water(between(1, 6.7, 8.5), between(2, 30, 260), 20 + skewed(3, 580),
                                  skewed(4, spa ? 120 : 220), skewed(5, 25));
        now.temperature = spa ? fahrenheit(between(6, 90, 104)) : fahrenheit(between(6, 45, 95));
        auto const sanitizer = static_cast<Sanitizer>(static_cast<int>(u[7] * 4));
        now.salt = ppm<units::AsSodiumChloride>(sanitizer == Sanitizer::salt_cell ? between(8, 1500, 4500)
                                                                                  : between(8, 100, 2500));
        now.borate = ppm<units::AsBoron>(u[9] < 0.8 ? 0.0 : 350 * (u[9] - 0.8));
        now.sulfate = ppm<units::AsSulfate>(skewed(10, 500));
        double const gallons = spa ? between(11, 150, 1500) : 3000 * std::pow(1e6 / 3000, u[11] * u[11]);
        auto one = request(now, gallons, spa ? Venue::spa : Venue::pool,
                           static_cast<Finish>(static_cast<int>(u[12] * 6)), sanitizer);
        if (u[13] < 0.5)
        {
            one.fill_water = water(between(14, 7.0, 8.6), between(15, 20, 250), 300 * u[14] * u[15], 0, 0);
            one.fill_water->salt = ppm<units::AsSodiumChloride>(50);
        }
        out.push_back(one);
    }
    return out;
}

} // namespace padwalk::chemistry_tests
