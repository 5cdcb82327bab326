// What the pipes of a loop do to the water, and how its valves stood.
#include "loop_bench.hpp"
#include "name_words.hpp"

#include "padwalk/circulation/limits.hpp"

#include <algorithm>
#include <array>

namespace padwalk::assess
{

using units::Measured;

std::string as_in_table(std::string name)
{
    for (char& c : name)
        c = c == ' ' || c == '-' ? '_' : c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    return name;
}

visit::Taken<units::Number> minor_loss(LoopBench& b, visit::Pipe const& pipe, std::string const& which)
{
    if (pipe.minor_loss || pipe.fittings.empty())
        return pipe.minor_loss;
    // Standard: half of the 20 to 40 % that hydraulic-institute table 3.B.1 gives for elbows and tees; judgement.
    constexpr double doubt_of_fittings = 0.15;
    auto const table = circulation::pipes(b.w.engine.data());
    auto const nominal = table.nearest_nominal(pipe.bore->value);
    std::string known;
    for (auto const& [name, row] : table.fittings)
        known += (known.empty() ? "" : ", ") + name;
    double sum = 0;
    bool all_known = true;
    for (auto const& [name, count] : pipe.fittings)
    {
        auto const one = table.loss_coefficient(as_in_table(name), nominal);
        if (!one)
            b.w.out.questions.push_back({b.loop,
                                         which + " fitting '" + name + "'",
                                         "no fitting of this name is known here; known are " + known,
                                         {}});
        all_known = all_known && one;
        sum += one ? units::in_si(count) * units::in_si(*one) : 0.0;
    }
    if (!all_known)
        return std::nullopt;
    return Measured<units::Number>{units::of_si<units::Number>(sum),
                                   units::of_si<units::Difference<units::Number>>(doubt_of_fittings * sum), "fittings"};
}

namespace
{

void velocities(LoopBench& b)
{
    double worst = -1;
    std::string from;
    auto one = [&](std::optional<visit::Pipe> const& pipe, std::string const& which, std::string const& rule)
    {
        if (!pipe || !pipe->bore || !b.flow)
            return;
        figures::Inputs in;
        in.add("flow", b.flow).add("bore", pipe->bore).add_words("side", which == "suction" ? which : "discharge");
        auto const figure =
            b.w.figure(b.loop, "pipe_velocity", in, "speed of the water in the " + which + " of " + b.w.name(b.loop));
        if (auto const v = figure.get<units::Velocity>("velocity"))
        {
            b.w.meaning("limit " + b.w.rules.cited(rule));
            double const p = probability_above(*v, b.w.rules.limit<units::Velocity>(rule));
            if (p > worst)
            {
                worst = p;
                from = which + " " + b.w.show(*v) + "; speaks above " + b.w.rules.cited(rule);
            }
        }
    };
    one(b.v.suction, "suction", "velocity_suction");
    one(b.v.discharge, "return", "velocity_return");
    if (worst >= 0)
        b.w.computed(b.loop, "pipe_velocity_high", worst, from);
}

void friction(LoopBench& b, std::optional<visit::Pipe> const& pipe, std::string const& which)
{
    if (!pipe || !pipe->bore || !pipe->length)
        return;
    auto const fittings = minor_loss(b, *pipe, which);
    if (!fittings || !b.flow)
        return;
    figures::Inputs in;
    in.add("flow", b.flow).add("bore", pipe->bore).add("length", pipe->length).add("minor_loss", fittings);
    in.add("water_temperature", b.water);
    b.w.figure(b.loop, "pipe_friction", in, "head lost in the " + which + " pipe of " + b.w.name(b.loop));
}

// A drain valve of the equipment is shut by right; one of the water is a suction valve.
bool of_the_equipment(std::string const& valve)
{
    constexpr std::array words{"heater", "filter", "tank", "waste", "winter", "hose", "plug", "backwash", "pad"};
    return std::any_of(words.begin(), words.end(), [&](char const* word) { return says(valve, word); });
}

} // namespace

void loop_pipes(LoopBench& b)
{
    velocities(b);
    friction(b, b.v.suction, "suction");
    friction(b, b.v.discharge, "return");
}

void loop_valves(LoopBench& b)
{
    for (auto const& [name, valve] : b.v.valves)
    {
        if (!valve.position || *valve.position == visit::ValvePosition::open)
            continue;
        bool const suction =
            says(name, "suction") || says(name, "skimmer") || (says(name, "drain") && !of_the_equipment(name));
        bool const back = says(name, "return");
        if (suction == back) // neither, or a name that says both
            continue;
        b.w.noticed(b.loop, suction ? "loop_suction_handle_part_shut" : "loop_return_handle_part_shut", true,
                    "valve '" + name + "' recorded as " +
                        (*valve.position == visit::ValvePosition::shut ? "shut" : "part open"));
    }
}

} // namespace padwalk::assess
