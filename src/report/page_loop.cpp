/// The section that holds a loop's readings against a sound one.

#include "curve_drawing.hpp"
#include "loop_drawing.hpp"
#include "loop_words.hpp"
#include "plain.hpp"
#include "sound_table.hpp"

#include <cmath>

namespace padwalk::report
{
namespace
{

Tone tone_of(double off, bool odd)
{
    return odd || std::abs(off) > doubts_allowed ? Tone::danger : Tone::plain;
}

std::string sentence(std::string const& text)
{
    return capitalised(text) + (std::string_view(".!?…").find(text.back()) == std::string_view::npos ? "." : "");
}

std::string name_of(assess::Assessment const& a, std::size_t item)
{
    return item < a.items.size() && item > 0 ? a.items[item].name : std::string("the loop");
}

// Of one way alone there is no table.
Card flow_card(assess::Assessment const& a, assess::LoopEntry const& loop, units::System system)
{
    Card card{capitalised(name_of(a, loop.item)), {}, {}, 0, Tone::plain, {}};
    if (loop.flow)
        card.tag = "flow " + flow_text(*loop.flow, system) +
                   (loop.flows.size() == 1 ? ", by " + loop.flows.front().way : std::string());
    if (!loop.flow_words.empty())
        card.parts.push_back({{}, {sentence(loop.flow_words)}, Tone::plain});
    return card;
}

Table flow_table(assess::LoopEntry const& loop, units::System system)
{
    Table table{"The flow, each way it can be had", {"flow by", "flow", "against the others"}, {}, 0, true};
    for (auto const& way : loop.flows)
        table.rows.push_back(
            {{way.way, {}}, {flow_text(way.flow, system), {}}, {off_words(way), {}, tone_of(way.off, way.odd)}});
    return table;
}

void add_loop(Section& out, assess::Assessment const& a, assess::LoopEntry const& loop, units::System system,
              std::string const& id)
{
    out.blocks.emplace_back(flow_card(a, loop, system));
    if (!loop.readings.empty())
        out.blocks.emplace_back(sound_table(
            loop.readings, "Each reading, and what it would be in this loop were it sound", "a sound loop", system));
    if (loop.flows.size() > 1)
        out.blocks.emplace_back(flow_table(loop, system));
    if (!loop.readings.empty() || loop.flows.size() > 1)
        out.blocks.emplace_back(Paragraph{std::string(doubt_footnote()), Tone::quiet});
    if (!loop.parts.empty())
        out.blocks.emplace_back(loop_drawing(a, loop, system, id + "-way"));
    if (auto curves = curve_drawing(loop, system, id + "-head"); !curves.svg.empty())
        out.blocks.emplace_back(std::move(curves));
    if (!loop.basis.empty())
        out.blocks.emplace_back(Points{loop.basis, Tone::quiet});
}

} // namespace

Section loop_section(assess::Assessment const& a, units::System system)
{
    Section out{"loops", "Readings against a sound loop", {}};
    for (std::size_t i = 0; i < a.loops.size(); ++i)
        add_loop(out, a, a.loops[i], system, "loop-" + std::to_string(i + 1));
    return out;
}

} // namespace padwalk::report
