#include "dose_plan_parts.hpp"

#include "padwalk/units/definitions.hpp"
#include "padwalk/units/print.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::chemistry::planning
{
namespace
{

constexpr double mg_per_litre = 1e-3;

std::string amount_words(MeasuredAmount const& amount)
{
    return amount.us + ", " + amount.metric + ",";
}

/// 'alkalinity from 60 to 90 mg/L'.
std::string from_to(Reading reading, Values const& before, Values const& after)
{
    return name_of(reading) + " from " + shown(reading, before[reading]) + " to " + shown(reading, after[reading]);
}

std::string besides(std::vector<Reading> const& readings, Values const& before, Values const& after)
{
    constexpr Values worth_saying = {0.05, 1e-3, 1e-3, 1e-3, 1e-3, 0.1e-3, 0.5e-3, 5e-3, 1e-3, 0.05};
    std::string out;
    for (auto r : readings)
        if (std::abs(after[r] - before[r]) >= worth_saying[r])
            out += (out.empty() ? " With it comes " : ", ") + from_to(r, before, after);
    return out.empty() ? out : out + ".";
}

/// What the chlorine of a dose leaves once sun and bathers have used it up.
std::string once_spent(Problem const& p, Move const& move)
{
    Totals const dose = move.after.composition().totals - move.before.composition().totals;
    Totals const left = dose + added(p.table.when_used, dose.chlorine);
    double const change = chemistry::alkalinity(left.alkalinity).value();
    std::string out = " Once it is used up, ";
    if (std::abs(change) < 0.3e-3)
        out += "alkalinity is what it was before";
    else
        out += "alkalinity is " + shown(planning::alkalinity, std::abs(change)) +
               (change < 0.0 ? " lower" : " higher") + " than before";
    return out + "; salt stays.";
}

/// What a product of a purpose does, and the reading that shows it.
struct Doing
{
    std::string_view words;
    Reading reading;
};

Doing doing_of(Problem const& p, Product const& product, Values const& before)
{
    switch (product.purpose)
    {
    case Purpose::lower_ph: return {"Acid takes alkalinity away and makes carbon dioxide of it, so both fall: ", ph};
    case Purpose::raise_alkalinity: return {"Bicarbonate is alkalinity, with little change of pH: ", alkalinity};
    case Purpose::raise_ph: return {"Carbonate binds carbon dioxide, so pH rises more than alkalinity: ", ph};
    case Purpose::raise_calcium: return {"So that the water doesn't take calcium from what it touches: ", calcium};
    case Purpose::raise_cyanurate:
        return {"Keeps chlorine from being lost to the sun; it is an acid and lowers pH, which the plan reckons with: ",
                cyanurate};
    case Purpose::raise_borate:
        if (product.adds.alkalinity.value() > 0.0 && before[borate] > p.bands.low[borate])
            return {"Raises pH with little alkalinity: ", ph};
        return {"Steadies pH: ", borate};
    case Purpose::raise_salt: return {"The cell needs it: ", salt};
    case Purpose::lower_chlorine: return {"Takes up chlorine: ", free_chlorine};
    case Purpose::raise_chlorine: break;
    }
    return {"Last, for everything else is easier to test and set without fresh chlorine: ", free_chlorine};
}

std::string why_dose(Problem const& p, Move const& move)
{
    Product const& product = *move.product;
    auto const before = values_of(move.before), after = values_of(move.after);
    auto const doing = doing_of(p, product, before);
    std::vector<Reading> rest = {ph, alkalinity, calcium, cyanurate, borate, salt, sulfate, saturation};
    rest.erase(std::remove(rest.begin(), rest.end(), doing.reading), rest.end());
    std::string out =
        std::string(doing.words) + from_to(doing.reading, before, after) + "." + besides(rest, before, after);
    if (product.purpose == Purpose::raise_chlorine)
        out += once_spent(p, move);
    if (product.uncertain)
        out += " How much it takes is uncertain by a factor of " +
               units::show_significant(product.uncertain->value(), 2) + ": test before more.";
    return out;
}

void dose_in_words(Problem const& p, Move const& move, DoseStep& step)
{
    Product const& product = *move.product;
    step.product = product.id;
    step.what = "Add " + amount_words(*move.amount) + " of " + product.name;
    if (move.parts > 1)
        step.what += " (dose " + std::to_string(move.part) + " of " + std::to_string(move.parts) + ")";
    step.why = why_dose(p, move);
    step.how = p.table.way(product.how);
    step.wait = product.wait;
    step.swim = product.swim;
    step.cautions = product.cautions;
    step.retest = move.parts > 1 || product.uncertain.has_value();
}

std::string volume_words(units::Volume volume)
{
    return units::show_significant(volume.value() / units::exact::us_gallon, 2) + " gal (" +
           units::show_significant(volume.value(), 2) + " m³)";
}

void replacement_in_words(Problem const& p, Move const& move, DoseStep& step)
{
    auto const before = values_of(move.before), after = values_of(move.after);
    step.what = "Replace " + units::show_number(100 * move.share, 0) + " % of the water, about " +
                volume_words(p.request.volume * move.share);
    step.why = "First, so that nothing dosed is poured away: ";
    for (auto r : {calcium, cyanurate, salt, sulfate, borate, free_chlorine, alkalinity})
        if (before[r] > 1e-6)
            step.why += from_to(r, before, after) + (r == alkalinity ? "." : ", ");
    step.how =
        "Let out a part, refill, let the pump mix it, and repeat; replacing in several parts takes more water for "
        "the same share than at once, so test and go by the test.";
    if (p.request.venue == Venue::spa && move.share > 0.6)
        step.how += " In a spa it is simpler to change all of the water and plan anew.";
    step.wait = units::of_si<units::Duration>(8 * units::exact::hour);
    step.cautions = {"drain_with_care", "draining_shell"};
}

} // namespace

std::string name_of(Reading reading)
{
    static constexpr std::array<std::string_view, reading_count> names = {
        "pH",   "alkalinity", "carbonate alkalinity", "calcium hardness", "cyanurate", "free chlorine", "borate",
        "salt", "sulfate",    "saturation index"};
    return std::string(names[reading]);
}

std::string shown(Reading reading, double value)
{
    if (reading == ph)
        return units::show_number(value, 1);
    if (reading == saturation)
        return std::isfinite(value) ? units::show_number(std::abs(value) < 0.005 ? 0.0 : value, 2) : "none";
    double const mg = value / mg_per_litre;
    return units::show_number(std::abs(mg) < 0.05 ? 0.0 : mg, mg < 19.95 ? 1 : 0) + " mg/L";
}

std::vector<std::string> outside_in_words(Problem const& problem, Values const& values)
{
    std::vector<std::string> out;
    for (std::size_t i = 0; i < reading_count; ++i)
    {
        auto const r = static_cast<Reading>(i);
        if (problem.bands.outside(r, values) <= 0.0)
            continue;
        bool const below = values[r] < problem.bands.low_of(r, values);
        double const limit = below ? problem.bands.low_of(r, values) : problem.bands.high[r];
        std::string const value = shown(r, values[r]), to = shown(r, limit);
        out.push_back(name_of(r) + " " + value + " is " + (value == to ? "just " : "") + (below ? "below " : "above ") +
                      to);
    }
    return out;
}

WaterAt water_at(State const& state)
{
    WaterAt out;
    out.readings = readings_of(state.composition(), state.ph());
    out.carbonate_alkalinity = chemistry::alkalinity(state.carbonate_alkalinity());
    out.saturation = units::of_si<units::Number>(state.saturation(Mineral::calcite));
    return out;
}

DoseStep step_in_words(Problem const& p, Move const& move)
{
    DoseStep step;
    step.kind = move.kind;
    step.amount = move.amount;
    step.share = units::of_si<units::Fraction>(move.share);
    step.part = move.part, step.parts = move.parts;
    step.before = water_at(move.before), step.after = water_at(move.after);
    step.retest = true;
    auto const before = values_of(move.before), after = values_of(move.after);
    switch (move.kind)
    {
    case DoseStep::Kind::dose: dose_in_words(p, move, step); break;
    case DoseStep::Kind::replace_water: replacement_in_words(p, move, step); break;
    case DoseStep::Kind::let_chlorine_fall:
        step.what = "Add no chlorine until free chlorine reads " + shown(free_chlorine, after[free_chlorine]);
        step.why = "Too much chlorine bleaches the tests of pH and alkalinity, and sun and time take it away: " +
                   from_to(free_chlorine, before, after) +
                   "; used up, it takes alkalinity along: " + from_to(alkalinity, before, after) + ".";
        step.how = "Cover off in the sun, pump running, nobody in the water; a day or more.";
        break;
    case DoseStep::Kind::aerate:
        step.what = "Aerate until pH reads " + shown(ph, after[ph]);
        step.why =
            "Carbon dioxide leaves the water, so pH rises and alkalinity stays: " + from_to(ph, before, after) + ".";
        step.how = "Cover off, returns turned up to break the surface, falls, jets and air on. It takes hours in a spa "
                   "and may take days in a pool; go by the test.";
        break;
    }
    return step;
}

std::vector<std::string> general_sentences()
{
    return {"One product at a time, in this order, each alone in the water until its waiting time is over; never mix "
            "two products, not even in turn in one bucket.",
            "Product into water, never water into product. Goggles and gloves; children and pets away.",
            "Pump on during each dose and the waiting after it. Nobody goes in before the waiting time is over and "
            "free chlorine and pH test in range.",
            "The amounts are as good as the volume and the tests: test again where a step says so and a day after the "
            "last, and work out a new plan from what is read. Labels and local rules decide."};
}

} // namespace padwalk::chemistry::planning
