/// The section that weighs a level that was watched.

#include "level_drawing.hpp"
#include "plain.hpp"
#include "section_drawing.hpp"
#include "sound_table.hpp"
#include "wording.hpp"

#include "padwalk/units/print.hpp"

#include <cmath>

namespace padwalk::report
{
namespace
{

using units::Measure;

std::string rate(units::Velocity v, units::System system)
{
    constexpr double as_told = 0.05; // of it
    double const si = units::in_si(v);
    return glued(units::show(Measure::velocity, si, as_told * std::abs(si), {system, "in/day", "mm/day"}));
}

std::string interval(level::LeakRate const& leak, units::System system)
{
    return rate(leak.median, system) + " (" + rate(leak.low, system) + " to " + rate(leak.high, system) + ")";
}

void add(Card& card, std::string label, std::string text)
{
    card.parts.push_back({std::move(label), {std::move(text)}, Tone::plain, true});
}

std::string longer(assess::LevelEntry const& level, units::System system)
{
    std::string const leak = "a leak of " + rate(level.sought, system);
    if (!level.watch_longer)
        return leak + " can't be told from none by watching longer: put a bucket of pool water in the pool.";
    double const seconds = units::in_si(*level.watch_longer);
    if (!(seconds > 0))
        return "none needed for " + leak + ".";
    return leak + " could be told from none after about " +
           glued(units::show(Measure::duration, seconds, 0.1 * seconds, {system, "h", "h"})) +
           " more, fill shut, marks as these.";
}

Card level_card(assess::Assessment const& a, assess::LevelEntry const& level, units::System system)
{
    auto const& b = level.balance;
    std::string const name = level.item < a.items.size() ? a.items[level.item].name : std::string("the water");
    Card card{capitalised(name), {}, {}, 0, Tone::plain, {}};
    card.parts.push_back({{}, {capitalised(level.words) + "."}});
    add(card, "If there is a leak", interval(b.leak, system) + ", 19 times in 20.");
    if (b.on && b.off)
        add(card, "With the pump on", interval(*b.on, system) + "; with it off " + interval(*b.off, system) + ".");
    if (level.settling)
    {
        std::string said;
        for (auto const& f : level.settling->fittings)
            said += (said.empty() ? "" : ", ") + f.name + " " + percent(f.chance.value());
        add(card, "Where it would stop",
            said + ", elsewhere or never " +
                percent(level.settling->elsewhere.chance.value() + level.settling->never.chance.value()) + ".");
    }
    add(card, "To watch longer", longer(level, system));
    return card;
}

} // namespace

namespace
{

void add_fill(Section& out, assess::Assessment const& a, assess::FillEntry const& fill, units::System system)
{
    Card card{capitalised(a.items.at(fill.item).name), {}, {}, 0, Tone::plain, {}};
    if (!fill.words.empty())
        card.parts.push_back({{}, {fill.words}});
    if (!fill.reach.empty())
        add(card, "How it is reached", fill.reach);
    out.blocks.emplace_back(std::move(card));
    if (!fill.readings.empty())
        out.blocks.emplace_back(sound_table(fill.readings,
                                            "Each reading, and what this fill valve would show were it sound",
                                            "a sound fill valve", system));
    if (!fill.basis.empty())
        out.blocks.emplace_back(Points{fill.basis, Tone::quiet});
}

} // namespace

Section level_section(assess::Assessment const& a, units::System system)
{
    Section out{"levels", "The level", {}};
    for (std::size_t i = 0; i < a.levels.size(); ++i)
    {
        out.blocks.emplace_back(level_card(a, a.levels[i], system));
        if (auto drawing = level_drawing(a.levels[i], system, "level-" + std::to_string(i + 1)); !drawing.svg.empty())
            out.blocks.emplace_back(std::move(drawing));
        if (auto drawing = section_drawing(a.levels[i], system, "level-section-" + std::to_string(i + 1));
            !drawing.svg.empty())
            out.blocks.emplace_back(std::move(drawing));
        if (!a.levels[i].basis.empty())
            out.blocks.emplace_back(Points{a.levels[i].basis, Tone::quiet});
    }
    for (auto const& fill : a.fills)
        add_fill(out, a, fill, system);
    return out;
}

} // namespace padwalk::report
