// What a water loses at the temperature that is wanted of it, in the weather of the visit.
#include "warming_bench.hpp"

#include "padwalk/units/print.hpp"

namespace padwalk::assess
{
namespace
{

using figures::Figure;

std::string missing_for_losses(WarmingBench const& m)
{
    std::string out;
    auto const lacks = [&out](bool there, char const* what)
    { out += there ? "" : (out.empty() ? "" : ", ") + std::string(what); };
    lacks(m.area.has_value(), "the water's surface");
    lacks(m.w().visit.air_temperature.has_value(), "the air's temperature");
    lacks(m.w().visit.humidity.has_value(), "its humidity");
    return out;
}

void add_cover(WarmingBench const& m, figures::Inputs& in)
{
    in.add("covered", units::Reading::exact(units::of_si<units::Fraction>(1.0)));
    if (m.v.cover_r)
        in.add("cover_r", m.v.cover_r);
    else if (m.spa)
        in.add("cover_r", m.w().rules.limit<units::Number>("usual_cover_r_spa"));
}

void say_of_surroundings(WarmingBench& m)
{
    bool const covered = m.entry.covered;
    if (covered && m.spa && !m.v.cover_r)
        m.basis("Its cover is taken as R " + m.w().rules.cited("usual_cover_r_spa") + ": no label was read.");
    m.basis(covered       ? "The cover is on all the while."
            : m.v.covered ? "It is uncovered all the while."
                          : "Whether it is covered was not said: it is taken as uncovered all the while.");
    if (m.v.care && m.v.care->surface == visit::Stirred::jets)
        m.basis("Jets run all the while, as was said of its surface.");
    if (m.v.care && m.v.care->surface == visit::Stirred::features)
        m.basis("What falling water loses is left out: its sheets were not measured. It may double the loss.");
    if (m.v.care && m.v.care->sun == visit::Sunshine::none)
        m.basis("No sun reaches it, so it sees no sky; the air of the visit is taken as the air around it.");
    constexpr double measured_to = 2.2; // m/s, as heat_loss.hpp says
    if (m.w().visit.wind && units::in_si(m.w().visit.wind->value) > measured_to)
        m.basis(
            "The wind is stronger than evaporation was measured in (5 mph, 2.2 m/s): the law is taken beyond that.");
    m.basis("The weather of the visit is taken to last; nights are colder, and sun is left out.");
}

// The sentence that says what the figure took for what was not said, but for what is said apart.
std::string taken_for_losses(WarmingBench const& m, Figure const& loss)
{
    auto const& w = m.w();
    std::string out;
    for (auto const& input : loss.inputs)
    {
        std::string const& name = input.shape->name;
        bool const apart =
            name == "form" || name == "sun" || name == "covered" || (name == "cover_r" && !m.entry.covered);
        if (!input.assumed || apart)
            continue;
        out += (out.empty() ? "" : ", ") + name + " " +
               (input.shape->measure ? units::show_with_doubt(input.reading.measure, input.reading.value,
                                                              input.reading.doubt, input.shape->style(w.system))
                                     : input.words);
    }
    std::replace(out.begin(), out.end(), '_', ' ');
    return out.empty() ? out : "Taken where nothing was said: " + out + ".";
}

// Rounded as evaporation's own doubt asks.
std::string about(Workbench const& w, units::Power power)
{
    constexpr double own_doubt = 0.15;
    double const watts = units::in_si(power);
    return units::show(units::Measure::power, watts, own_doubt * std::abs(watts), {w.system, "Btu/h", {}});
}

// The same water still and with jets, as a clause.
std::string evaporation_words(WarmingBench const& m, Figure const& loss)
{
    auto const evaporation = [&](heating::Activity activity)
    {
        WarmingCase c = warming_case(loss);
        c.body.activity = activity;
        return c.loss_at(m.entry.to, m.facts).evaporation;
    };
    auto const still = evaporation(heating::Activity::still), jets = evaporation(heating::Activity::jets);
    return units::in_si(still) > 0 ? "evaporation takes " + about(m.w(), still) + " of it while still and " +
                                         about(m.w(), jets) + " with jets running"
                                   : std::string();
}

} // namespace

figures::Inputs loss_inputs(WarmingBench const& m, bool covered)
{
    auto const& visit = m.w().visit;
    figures::Inputs in;
    in.add("water_temperature", units::Reading::exact(m.entry.to)).add("volume", m.volume).add("area", m.area);
    in.add("air_temperature", visit.air_temperature).add("humidity", visit.humidity).add("wind", visit.wind);
    in.add("altitude", visit.altitude).add("cloud", visit.cloud);
    if (covered)
        add_cover(m, in);
    else if (m.v.covered)
        in.add("covered", units::Reading::exact(units::Fraction()));
    if (m.v.walls)
        in.add_words("shell", word(*m.v.walls));
    if (m.v.care && m.v.care->surface == visit::Stirred::jets)
        in.add_words("activity", word(heating::Activity::jets));
    if (m.v.care && m.v.care->sun == visit::Sunshine::none)
        in.add("sky_share", units::Reading::exact(units::Fraction()));
    return in;
}

std::optional<Figure> losses(WarmingBench& m)
{
    if (auto const missing = missing_for_losses(m); !missing.empty())
    {
        m.basis("Losses are left out: not recorded: " + missing + ".");
        return std::nullopt;
    }
    auto const before = std::find_if(m.w().out.figures.begin(), m.w().out.figures.end(),
                                     [&](FigureEntry const& entry) {
                                         return entry.item == m.water && entry.figure.model->name == "spa_heat_loss" &&
                                                entry.figure.computed();
                                     });
    bool const known = before != m.w().out.figures.end();
    auto const figure = known ? before->figure
                              : m.w().figure(m.water, "spa_heat_loss", loss_inputs(m, m.entry.covered),
                                             "heat that " + m.w().name(m.water) + " loses at " + m.at_wanted());
    if (!figure.computed())
    {
        m.basis("Losses are left out: " + figure.why_not + ".");
        return std::nullopt;
    }
    m.evaporates = evaporation_words(m, figure);
    if (!known)
        m.w().meaning(m.evaporates);
    say_of_surroundings(m);
    if (auto const taken = taken_for_losses(m, figure); !taken.empty())
        m.basis(taken);
    return figure;
}

} // namespace padwalk::assess
