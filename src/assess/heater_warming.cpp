// From what a water is to what is wanted of it: how long its heater takes, and whether it gets there.
#include "warming_bench.hpp"
#include "water_bench.hpp"

#include "padwalk/units/print.hpp"

#include <cctype>

namespace padwalk::assess
{
namespace
{

using figures::Figure;
using units::Measured;

visit::Taken<units::Temperature> temperature_now(visit::Water const& water)
{
    if (water.temperature)
        return water.temperature;
    auto const* test = newest_test(water);
    return test != nullptr ? test->temperature : std::nullopt;
}

// Never hotter than is safe, whatever is wanted.
units::Temperature wanted(WarmingBench& m)
{
    auto const& rules = m.w().rules;
    std::string const safe = m.spa ? "spa_too_hot" : "pool_too_hot", usual = m.spa ? safe : "usual_wanted_pool";
    auto const limit = rules.limit<units::Temperature>(safe).value;
    if (!m.v.wanted_temperature)
    {
        m.basis("Warmed to " + rules.cited(usual) + ": what its users want was not said.");
        return rules.limit<units::Temperature>(usual).value;
    }
    if (!(m.v.wanted_temperature->value > limit))
        return m.v.wanted_temperature->value;
    m.basis("Warmed to " + rules.cited(safe) + ", though " + m.w().show(*m.v.wanted_temperature) +
            " is wanted: nobody goes in hotter water.");
    return limit;
}

// What it gives when sound: the plate's input where the meter found less.
visit::Taken<units::Power> full_heat(HeaterBench const& b)
{
    if (!b.input || !b.efficiency)
        return std::nullopt;
    return heat_of(b.v.input && b.v.input->value > b.input->value ? *b.v.input : *b.input, *b.efficiency);
}

// Of a water that nobody asked to be warm nothing is concluded, nor of one that a cover may save and perhaps does.
void weigh_reach(WarmingBench& m, Figure const& loss)
{
    auto const heat = full_heat(m.b);
    if (!heat || !(m.spa || m.v.wanted_temperature))
        return;
    auto const covered = m.v.covered ? loss : figures::run(*loss.model, loss_inputs(m, true));
    auto const total = covered.get<units::Power>("total");
    if (!total)
        return;
    double const p = probability_above(*total, *heat);
    if (!m.v.covered && p < 0.5)
        return;
    m.w().computed(m.b.heater, "heater_cannot_reach", p,
                   m.w().name(m.water) + " at " + m.at_wanted() + " loses " + m.w().show(*total, "Btu/h") +
                       (!m.v.covered   ? " even under a cover"
                        : *m.v.covered ? " under its cover"
                                       : " uncovered") +
                       " in this weather; sound, the heater gives " + m.w().show(*heat, "Btu/h"));
}

figures::Inputs heat_up_inputs(WarmingBench const& m, std::optional<Figure> const& loss)
{
    figures::Inputs in;
    in.add("volume", m.volume)
        .add("from", m.now)
        .add("to", units::Reading::exact(m.entry.to))
        .add("input", m.b.input)
        .add("efficiency", m.b.efficiency);
    if (loss)
    {
        in.add("loss", units::Reading::exact(units::Power())); // none beside what the surroundings take
        for (auto const& used : loss->inputs)
        {
            auto const& name = used.shape->name;
            if (name == "water_temperature" || name == "volume")
                continue;
            if (used.shape->measure)
                in.add(name, used.reading);
            else
                in.add_words(name, used.words);
        }
    }
    if (auto const price = own_price(m.b))
        in.add("price", price->price).add_words("price_per", word(price->per));
    return in;
}

double chance_of_stopping(WarmingBench const& m, Figure const& loss)
{
    auto const total = loss.get<units::Power>("total");
    return total ? probability_above(*total, heat_of(*m.b.input, *m.b.efficiency)) : 0.0;
}

std::string words_of(WarmingBench const& m, Figure const& figure, std::optional<Figure> const& loss)
{
    constexpr double worth_saying = 0.025; // beyond the 95 % interval
    if (!loss)
        return "The shortest time it can be: what the water loses meanwhile is left out.";
    if (m.entry.stops_at)
        return "It never gets to " + m.at_wanted() + " in this weather: " +
               (*m.entry.stops_at < m.entry.from ? "with this heat the water cools, and stops at about "
                                                 : "it stops at about ") +
               units::show(units::Measure::temperature, units::in_si(*m.entry.stops_at), 1.0, {m.w().system, {}, {}}) +
               ", where it loses all that it is given. A cover, shelter from wind or more heat is needed.";
    bool const barely = figure.output("in_words").words.starts_with("barely enough");
    return (barely ? "Barely enough: at the end most of the heat is lost, and a little more wind or colder air keeps "
                     "the water from getting to " +
                         m.at_wanted() + ". A cover helps most."
                   : "Losses grow as the water warms, so the last degrees take longest.") +
           (m.entry.stops_short < worth_saying
                ? std::string()
                : " As far as wind, air and heater are known, it stops short of that in " +
                      units::show_significant(100 * m.entry.stops_short, 1) + " of 100 cases.");
}

// As it stands among a figure's values: 'it never gets …'.
std::string as_clause(std::string sentences)
{
    sentences.front() = static_cast<char>(std::tolower(static_cast<unsigned char>(sentences.front())));
    sentences.pop_back();
    return sentences;
}

void take(WarmingCost& out, Figure const& figure)
{
    out.time = told(figure, "time");
    out.energy = told(figure, "energy_used");
    out.cost = told(figure, "cost");
}

// The same without its cover, or with one.
void other_cover(WarmingBench& m, Figure const& loss, bool warms)
{
    auto const other = figures::run(*loss.model, loss_inputs(m, !m.entry.covered));
    if (!other.computed())
        return;
    WarmingCost out;
    out.loss = told(other, "total");
    bool const first = !m.entry.as_found.month_cost;
    add_month(m, other, out,
              first ? "a month of " + m.w().name(m.water) + " at " + m.at_wanted() +
                          (m.entry.covered ? ", uncovered" : ", under a cover")
                    : std::string());
    if (warms)
        take(out, figures::run(m.w().engine.catalogue().at("heat_up"), heat_up_inputs(m, other)));
    m.entry.other_cover = std::move(out);
}

void heat_up(WarmingBench& m, std::optional<Figure> const& loss)
{
    auto const figure = m.w().figure(m.b.heater, "heat_up", heat_up_inputs(m, loss),
                                     "time to heat " + m.w().name(m.water) + " to " + m.at_wanted());
    if (!figure.computed())
        return;
    take(m.entry.as_found, figure);
    if (auto const stop = told(figure, "stops_at"))
        m.entry.stops_at = units::of_si<units::Temperature>(*stop->value);
    m.entry.shortest = !loss;
    m.entry.stops_short = loss ? chance_of_stopping(m, *loss) : 0.0;
    m.entry.words = words_of(m, figure, loss);
    m.w().verdict(as_clause(m.entry.words));
    auto curves = warming_curves(figure, m.facts);
    m.entry.likely = std::move(curves.likely);
    m.entry.fast = std::move(curves.fast);
    m.entry.slow = std::move(curves.slow);
}

void warm(WarmingBench& m)
{
    m.entry.to = wanted(m);
    m.entry.covered = m.v.covered.value_or(false);
    bool const already = m.entry.to - m.now->value <= units::coverage * m.now->doubt;
    bool const warms = !already && m.b.input && m.b.efficiency;
    auto const loss = losses(m);
    say_of_price(m);
    if (already)
        m.entry.words = "It is as warm as wanted, as far as the thermometer tells.";
    if (loss)
    {
        m.entry.as_found.loss = told(*loss, "total");
        weigh_reach(m, *loss);
        add_month(m, *loss, m.entry.as_found, "a month of " + m.w().name(m.water) + " at " + m.at_wanted());
    }
    if (warms)
        heat_up(m, loss);
    if (loss)
        other_cover(m, *loss, warms);
    if (!m.evaporates.empty())
        m.entry.words += (m.entry.words.empty() ? "" : " ") + std::string("When warm, ") + m.evaporates + ".";
    if (!m.entry.likely.empty() || m.entry.as_found.month_cost)
        m.w().out.warmings.push_back(std::move(m.entry));
}

/// The rise shows for sure that it gives less than its plate says.
bool gives_less(HeaterBench const& b)
{
    if (!b.found_efficiency || !b.efficiency || !burns_gas(b.v) || !(units::in_si(b.found_efficiency->value) > 0))
        return false;
    double const less = units::in_si(b.efficiency->value) - units::in_si(b.found_efficiency->value);
    return less >
           units::coverage * std::hypot(units::in_si(b.efficiency->doubt), units::in_si(b.found_efficiency->doubt));
}

} // namespace

void assess_warming(HeaterBench& bench)
{
    HeaterBench b = bench;
    bool const as_found = gives_less(bench);
    if (as_found)
        b.efficiency = bench.found_efficiency;
    auto const facts = heating::loss_facts(b.w.engine.data());
    for (std::size_t const i : b.w.property.at(b.heater).waters)
    {
        visit::Water const& v = *b.w.property.at(i).water;
        WarmingBench m{b,
                       i,
                       v,
                       b.w.property.kind_of(i) == visit::WaterKind::spa,
                       facts,
                       temperature_now(v),
                       b.w.volume_of(i),
                       b.w.area_of(i),
                       {},
                       {}};
        bool const worth_it = b.efficiency && (b.input || own_price(b)); // else there is neither a time nor a cost
        if (!m.now || !m.volume || !worth_it)
            continue;
        m.entry.water = i;
        m.entry.heater = b.heater;
        m.entry.from = m.now->value;
        if (as_found)
            m.basis("Its water was found to get " + b.w.show(*b.efficiency) + " of the input, where the plate says " +
                    b.w.show(*bench.efficiency) + ": it is taken as found; put right, it is quicker by that.");
        warm(m);
    }
}

} // namespace padwalk::assess
