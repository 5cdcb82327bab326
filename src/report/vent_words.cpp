#include "vent_words.hpp"

#include "plain.hpp"

#include "padwalk/units/print.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace padwalk::report
{
namespace
{

using venting::JudgedRule;
using venting::Keeps;

struct Name
{
    std::string_view id, name;
};

constexpr std::array<Name, 36> names{{{"category", "category"},
                                      {"pipe", "kind of pipe"},
                                      {"size", "size"},
                                      {"run_single_wall", "level run"},
                                      {"run_double_wall", "level run"},
                                      {"slope", "slope"},
                                      {"bends", "bends"},
                                      {"buried", "in the ground"},
                                      {"enclosed", "enclosed"},
                                      {"under_deck", "under a deck"},
                                      {"cap", "cap"},
                                      {"combustibles_single_wall", "to what burns"},
                                      {"combustibles_double_wall", "to what burns"},
                                      {"propane_below_grade", "propane below ground"},
                                      {"pit_drained", "water in the pit"},
                                      {"pit_way_out", "way out of the pit"},
                                      {"service_space", "space for service"},
                                      {"draft_hood_rise", "height above the draft hood"},
                                      {"forced_inlet_above", "above a forced inlet"},
                                      {"opening_below", "below an opening"},
                                      {"opening_beside", "beside an opening"},
                                      {"opening_above", "above an opening"},
                                      {"walkway_above", "above a walk"},
                                      {"inside_corner", "inside corner"},
                                      {"meter_beside", "beside a meter"},
                                      {"meter_new_york_city", "to a meter, New York City"},
                                      {"grade_above", "above the ground"},
                                      {"grade_new_york_city", "above the ground, New York City"},
                                      {"direct_vent_small", "to an opening, small direct vent"},
                                      {"direct_vent_medium", "to an opening, direct vent"},
                                      {"direct_vent_large", "to an opening, large direct vent"},
                                      {"direct_vent_grade", "above the ground, direct vent"},
                                      {"property_line_beside", "property line"},
                                      {"other_vent_beside", "another vent"},
                                      {"roof_other", "above the roof and what is near"},
                                      {"roof", "above the roof"}}};

int rank(Keeps keeps)
{
    return keeps == Keeps::fails ? 0 : keeps == Keeps::too_close ? 1 : keeps == Keeps::holds ? 2 : 3;
}

std::string off_text(JudgedRule const& rule, units::System system)
{
    bool const short_of = rule.margin->value < 0;
    bool const most = rule.id.starts_with("run_");
    units::Reading size = *rule.margin;
    size.value = std::abs(size.value);
    std::string const by = plain_quantity(size, system);
    if (rule.keeps == Keeps::too_close)
        return "nearer to it than the measuring can tell";
    if (short_of)
        return by + (most ? " too much" : " missing");
    return by + " to spare";
}

} // namespace

std::string vent_rule_name(JudgedRule const& rule)
{
    for (auto const& entry : names)
        if (rule.id == entry.id)
            return std::string(entry.name);
    if (rule.id.starts_with("roof_"))
        return "above the roof";
    std::string out = rule.id;
    std::replace(out.begin(), out.end(), '_', ' ');
    return out;
}

std::string_view kept_word(Keeps keeps)
{
    switch (keeps)
    {
    case Keeps::holds: return "kept";
    case Keeps::fails: return "not kept";
    case Keeps::too_close: return "too close to tell";
    case Keeps::not_known: break;
    }
    return "not known";
}

std::string plain_quantity(units::Reading const& reading, units::System system)
{
    constexpr int digits = 3; // no tape is read finer
    std::string_view const unit = units::unit_for(reading.measure, reading.value, {system, {}, {}});
    std::string const number = units::show_significant(units::in_unit(reading.measure, reading.value, unit), digits);
    return unit.empty() ? number : glued(number + " " + std::string(units::printed(unit)));
}

std::string vent_rule_found(JudgedRule const& rule, units::System system)
{
    std::string out;
    if (rule.measured)
        out = plain_quantity(*rule.measured, system);
    if (rule.limit)
        out += std::string(rule.id.starts_with("run_") ? ", at most " : ", at least ") +
               plain_quantity(units::Reading{rule.limit->measure, rule.limit->value, 0.0, {}, false}, system);
    if (rule.margin)
        out += ": " + off_text(rule, system);
    if (!rule.found.empty())
        out += (out.empty() ? "" : "; ") + rule.found;
    return out;
}

std::vector<std::string> vent_rule_asks(JudgedRule const& rule, units::System system)
{
    std::string asks = rule.asks;
    if (rule.limit && !rule.where.empty())
        asks += " " + plain_quantity(units::Reading{rule.limit->measure, rule.limit->value, 0.0, {}, false}, system);
    std::vector<std::string> out{asks};
    if (!rule.note.empty())
        out.push_back(rule.note);
    out.push_back((rule.edition.empty() ? "" : rule.edition + " ") + "[" + rule.source.key + "]" +
                  (rule.from_memory() ? ", from memory, not confirmed" : ""));
    return out;
}

std::vector<JudgedRule const*> judged_rules(assess::VentEntry const& vent)
{
    std::vector<JudgedRule const*> out;
    for (auto const& rule : vent.rules)
        if (rule.keeps != Keeps::not_known)
            out.push_back(&rule);
    std::stable_sort(out.begin(), out.end(),
                     [](auto const* a, auto const* b) { return rank(a->keeps) < rank(b->keeps); });
    return out;
}

} // namespace padwalk::report
