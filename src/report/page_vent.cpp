/// The section that holds a vent against its rules.

#include "plain.hpp"
#include "vent_drawing.hpp"
#include "vent_words.hpp"

#include <algorithm>

namespace padwalk::report
{
namespace
{

using venting::JudgedRule;
using venting::Keeps;

Tone tone_of(Keeps keeps)
{
    return keeps == Keeps::fails ? Tone::danger : keeps == Keeps::holds ? Tone::quiet : Tone::plain;
}

Card vent_card(assess::Assessment const& a, assess::VentEntry const& vent)
{
    std::string const name = vent.item < a.items.size() ? a.items[vent.item].name : std::string("the vent");
    Card card{capitalised(name), {}, {}, 0, Tone::plain, {}};
    auto const judged = judged_rules(vent);
    auto const broken =
        std::count_if(judged.begin(), judged.end(), [](auto const* r) { return r->keeps == Keeps::fails; });
    std::string const all = judged.size() == 1
                                ? "the one rule that could be judged is kept"
                                : "all " + std::to_string(judged.size()) + " rules that could be judged are kept";
    card.tag = broken == 0 ? all
                           : std::to_string(broken) + " of " + std::to_string(judged.size()) +
                                 (judged.size() == 1 ? " rule that could be judged is not kept"
                                                     : " rules that could be judged are not kept");
    if (broken > 0)
        card.parts.push_back(
            {{}, {"What was seen of the run is enough to leave the heater off; no symptom is needed."}});
    if (!vent.draft_words.empty())
        card.parts.push_back({{}, {"Its pull: " + vent.draft_words + "."}});
    card.parts.push_back(
        {{}, {"The maker's instructions and local code rule; the rules here are mostly seen as copies."}});
    return card;
}

Table rule_table(assess::VentEntry const& vent, units::System system)
{
    Table table{"What each rule asks, and what was found", {"rule", "found", "kept"}, {}, 40, true};
    for (auto const* rule : judged_rules(vent))
        table.rows.push_back({{capitalised(vent_rule_name(*rule)), {}},
                              {vent_rule_found(*rule, system), vent_rule_asks(*rule, system)},
                              {std::string(kept_word(rule->keeps)), {}, tone_of(rule->keeps)}});
    return table;
}

std::string not_known(assess::VentEntry const& vent)
{
    std::vector<std::string> names;
    for (auto const& rule : vent.rules)
        if (rule.keeps == Keeps::not_known)
            names.push_back(vent_rule_name(rule) + (rule.found.empty() ? "" : " (" + rule.found + ")"));
    return names.empty() ? std::string() : "Not known: " + joined(names, "; ", "; ") + ".";
}

void add_vent(Section& out, assess::Assessment const& a, assess::VentEntry const& vent, units::System system,
              std::string const& id)
{
    out.blocks.emplace_back(vent_card(a, vent));
    if (auto drawing = vent_drawing(a, vent, system, id); !drawing.svg.empty())
        out.blocks.emplace_back(std::move(drawing));
    if (!judged_rules(vent).empty())
        out.blocks.emplace_back(rule_table(vent, system));
    if (auto const missing = not_known(vent); !missing.empty())
        out.blocks.emplace_back(Paragraph{missing, Tone::quiet});
}

} // namespace

Section vent_section(assess::Assessment const& a, units::System system)
{
    Section out{"vents", "Vents", {}};
    for (std::size_t i = 0; i < a.vents.size(); ++i)
        add_vent(out, a, a.vents[i], system, "vent-" + std::to_string(i + 1));
    return out;
}

} // namespace padwalk::report
