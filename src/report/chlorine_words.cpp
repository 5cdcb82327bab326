#include "chlorine_words.hpp"

#include "plain.hpp"

namespace padwalk::report
{
namespace
{

using assess::ChlorineStanding;
using assess::ScaleEnd;

std::string without_basis(std::string const& text)
{
    return glued(text.substr(0, text.find(" as ")));
}

template <class Q> std::string shown(Q const& value, units::System system)
{
    return without_basis(units::show(units::measure_of<Q>::value, units::in_si(value), 0, {system, {}, {}}));
}

template <class Q> std::string with_doubt(units::Measured<Q> const& m, units::System system)
{
    return without_basis(units::show_with_doubt(units::measure_of<Q>::value, units::in_si(m.value),
                                                units::in_si(m.doubt), {system, {}, {}}));
}

} // namespace

std::string free_chlorine_text(ChlorineStanding const& c, units::System system)
{
    return with_doubt(c.free_chlorine, system);
}

std::string cyanurate_text(ChlorineStanding const& c, units::System system)
{
    switch (c.cyanurate_is)
    {
    case ScaleEnd::at_least: return "at least " + shown(c.cyanurate->value, system);
    case ScaleEnd::at_most: return "at most " + shown(c.cyanurate->value, system);
    case ScaleEnd::within: break;
    }
    return with_doubt(*c.cyanurate, system);
}

std::string bathing_text(ChlorineStanding const& c, units::System system)
{
    if (!c.most)
        return glued("at least " + shown(*c.least, system));
    return glued(c.least ? units::show_significant(in_shown_unit(*c.least, system), 3) + " to " + shown(*c.most, system)
                         : "at most " + shown(*c.most, system));
}

bool short_of(ChlorineStanding const& c)
{
    return c.least && c.free_chlorine.value < *c.least;
}

bool more_than(ChlorineStanding const& c)
{
    return c.most && c.free_chlorine.value > *c.most;
}

bool held_too_much(ChlorineStanding const& c)
{
    return c.cyanurate && c.most_cyanurate &&
           units::in_si(c.cyanurate->value) > c.most_cyanurate->value() * units::in_si(c.free_chlorine.value);
}

std::vector<std::string> chlorine_said(ChlorineStanding const& c, units::System system)
{
    std::string text = "Free chlorine " + free_chlorine_text(c, system);
    text += c.cyanurate ? ", stabilizer (cyanurate) " + cyanurate_text(c, system) : ", stabilizer not known";
    std::vector<std::string> out{text + "."};
    if (c.least || c.most)
        out.push_back("Allowed for bathing: " + bathing_text(c, system) + "; this is " +
                      (short_of(c)    ? "too little."
                       : more_than(c) ? "too much."
                                      : "within."));
    if (held_too_much(c))
        out.emplace_back("For this much stabilizer there is too little chlorine.");
    return out;
}

std::string chlorine_caption(ChlorineStanding const& c, units::System system)
{
    std::string out = "Free chlorine kills germs";
    out += c.cyanurate
               ? "; stabilizer (cyanurate) shields it from the sun and holds it back. The dot is this water, its "
                 "bars where it may be, 19 times in 20."
               : ". The dot is this water, its bar where it may be, 19 times in 20.";
    std::string const whose = c.least_of == c.most_of || c.most_of.empty() ? c.least_of
                              : c.least_of.empty()                         ? c.most_of
                                                                           : c.least_of + " and " + c.most_of;
    if (c.least || c.most)
        out += " Shaded: allowed for bathing (" + whose + ").";
    if (c.cyanurate && c.most_cyanurate)
        out += " The corner 'too little': more than " + units::show_significant(c.most_cyanurate->value(), 3) +
               " parts of stabilizer to one of chlorine (" + c.most_cyanurate_of + ").";
    if (c.cyanurate && !c.equal_work.empty())
        out += " On each grey line chlorine kills as fast as the " + std::string(concentration_unit(system)) +
               " at its end would without stabilizer.";
    return out;
}

} // namespace padwalk::report
