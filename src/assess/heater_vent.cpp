// What is said of a heater's vent and room: combustion air, distances of the vent's end, draft.
#include "heater_bench.hpp"

#include "padwalk/venting/clearance.hpp"

#include <algorithm>
#include <numbers>

namespace padwalk::assess
{
namespace
{

using units::Measured;

bool is_kind(HeaterBench const& b, visit::VentKind kind)
{
    return b.v.vent && b.v.vent->kind == kind;
}

/// Input of all that burns in the room.
visit::Taken<units::Power> input_in_room(HeaterBench const& b)
{
    visit::Taken<units::Power> total = b.v.input ? b.v.input : b.input;
    auto const& other = b.v.room->other_input;
    if (total && other)
        total = Measured<units::Power>{
            total->value + other->value,
            units::of_si<units::Power>(std::hypot(units::in_si(total->doubt), units::in_si(other->doubt))), "sum"};
    return total;
}

/// The section of the heater's own vent; all connectors of the room only where no other appliance is in it.
visit::Taken<units::Area> connector_area(HeaterBench const& b)
{
    bool const alone = b.v.room->other_input && !(units::in_si(b.v.room->other_input->value) > 0);
    if (!alone || !b.v.vent || !b.v.vent->bore)
        return std::nullopt;
    auto const& bore = *b.v.vent->bore;
    double const across = units::in_si(bore.value), doubt = units::in_si(bore.doubt);
    return Measured<units::Area>{units::of_si<units::Area>(std::numbers::pi / 4 * across * across),
                                 units::of_si<units::Area>(std::numbers::pi / 2 * across * doubt), "by the bore"};
}

/// '; high opening 30 in², low 0 in², each wants 100 in² free'
std::string openings_in_words(HeaterBench const& b, figures::Figure const& figure)
{
    auto const needed = figure.get<units::Area>("gross_needed");
    if (!needed || (!b.v.room->high_opening && !b.v.room->low_opening))
        return {};
    std::string out;
    if (b.v.room->high_opening)
        out += "; high opening " + b.w.show(*b.v.room->high_opening, "in2");
    if (b.v.room->low_opening)
        out += (out.empty() ? "; low opening " : ", low ") + b.w.show(*b.v.room->low_opening, "in2");
    return out + ", the rule asks " + b.w.show(*needed, "in2") + " of each";
}

void room(HeaterBench& b)
{
    if (!b.v.room || !b.vent || !burns_gas(b.v) || is_kind(b, visit::VentKind::direct))
        return;
    figures::Inputs in;
    in.add("input", input_in_room(b))
        .add("room_volume", b.v.room->volume)
        .add("high_opening", b.v.room->high_opening)
        .add("low_opening", b.v.room->low_opening)
        .add("vent_connector_area", connector_area(b));
    if (b.v.room->air_from)
        in.add_words("source",
                     fields::words_of<visit::AirSource>::words()[static_cast<std::size_t>(*b.v.room->air_from)]);
    if (b.v.room->louvre)
        in.add_words("louvre", fields::words_of<visit::Louvre>::words()[static_cast<std::size_t>(*b.v.room->louvre)]);
    auto const figure = b.w.figure(*b.vent, "combustion_air", in, "combustion air of " + b.w.name(b.heater));
    if (!figure.computed())
        return;
    if (!b.v.room->other_input)
        b.w.out.assumptions.push_back(
            {"no other fuel appliance in the room of " + b.w.name(b.heater), "'other_input' was not said"});
    std::string const verdict = figure.output("verdict").words;
    if (verdict == "enough" || verdict == "short")
        b.w.computed(*b.vent, "combustion_air_short", verdict == "short" ? 0.95 : 0.05,
                     figure.output("in_words").words + openings_in_words(b, figure));
}

void ask_about_rule(HeaterBench& b, std::string const& what, std::vector<std::string> const& known)
{
    std::string const near = fields::nearest(what, known);
    b.w.out.questions.push_back({*b.vent,
                                 "clearances: " + what,
                                 near.empty() ? "is no rule known here; 'padwalk figure vent_clearance' lists them"
                                              : "is no rule known here; did you mean " + near + "?",
                                 {}});
}

/// How likely one distance breaks its rule, and the words for it.
struct TooNear
{
    double p = 0.0;
    std::string said;
};

std::optional<TooNear> too_near(HeaterBench& b, std::string const& what, Measured<units::Length> const& distance)
{
    if (units::in_si(distance.value) < 0)
        return TooNear{1.0, what + " " + b.w.show(distance) + ": the end lies on the wrong side"};
    figures::Inputs in;
    in.add_words("what", what).add("distance", distance);
    auto const figure = b.w.figure(*b.vent, "vent_clearance", in, "clearance of " + b.w.name(*b.vent) + ", " + what);
    auto const least = figure.get<units::Length>("least");
    if (!least)
        return std::nullopt;
    return TooNear{1 - probability_above(distance, *least), figure.output("in_words").words};
}

void clearances(HeaterBench& b)
{
    if (!b.v.vent || !b.vent)
        return;
    auto const known = fields::words_of<venting::ClearanceId>::words();
    std::optional<TooNear> worst, opening; // below, beside or above an opening: keeping one of them is enough
    for (auto const& [what, distance] : b.v.vent->clearances)
    {
        if (std::find(known.begin(), known.end(), what) == known.end())
        {
            ask_about_rule(b, what, known);
            continue;
        }
        auto const found = too_near(b, what, distance);
        if (!found)
            continue;
        bool const one_of = what.starts_with("opening_");
        if (one_of && (!opening || found->p < opening->p))
            opening = found;
        else if (!one_of && (!worst || found->p > worst->p))
            worst = found;
    }
    if (opening && (!worst || opening->p > worst->p))
        worst = opening;
    if (worst)
        b.w.computed(*b.vent, "vent_clearance_short", worst->p, worst->said);
}

} // namespace

void assess_vent(HeaterBench& b)
{
    room(b);
    clearances(b);
    assess_run(b);
    assess_draft(b);
}

} // namespace padwalk::assess
