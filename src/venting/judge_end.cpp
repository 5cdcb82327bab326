#include "judging.hpp"

#include <algorithm>

namespace padwalk::venting
{
namespace
{

constexpr double rounding = 1e-9; // a distance that equals its rule passes, whatever unit it was written in

JudgedRule hood_rise(VentAsFound const& v, VentRules const& rules)
{
    auto judged = of(rule_of(rules.clearances, ClearanceId::draft_hood_rise));
    at_least(judged, *v.height, rule_of(rules.clearances, ClearanceId::draft_hood_rise).least);
    return judged;
}

/// The table is for a vent not over 12 in, a listed cap and 8 ft or more from a wall; the rest go by the other rule.
void roof(VentAsFound const& v, VentRules const& rules, std::vector<JudgedRule>& out)
{
    if (!v.above_roof)
        return;
    constexpr double wide = 0.3048, near_wall = 8 * 0.3048;
    bool const large = v.bore && units::in_si(v.bore->value) > wide * (1 + rounding);
    bool const by_wall = v.from_wall && units::in_si(v.from_wall->value) < near_wall * (1 - rounding);
    bool const by_table = !large && !by_wall && v.capped != false;
    std::optional<JudgedRule> judged;
    if (!by_table || v.roof_slope)
    {
        auto const* rule = roof_rule(v.roof_slope ? v.roof_slope->value : units::Number{}, by_table, rules);
        if (rule == nullptr)
            return;
        judged = of(*rule);
        at_least(*judged, *v.above_roof, rule->least);
    }
    else
    {
        judged = of(rule_of(rules.clearances, ClearanceId::roof_to_6_in_12));
        decide(*judged, Keeps::not_known, "the roof's slope was not measured");
        judged->measured = units::Reading::of(*v.above_roof);
    }
    if (by_table && (!v.from_wall || !v.bore || !v.capped))
        judged->note = "taken: a listed cap, a bore not over 12 in, 8 ft or more from a wall";
    out.push_back(std::move(*judged));
}

/// Below, beside or above an opening: keeping one of them is enough.
void one_of_openings(std::vector<JudgedRule>& distances)
{
    auto const is_opening = [](JudgedRule const& j) { return j.id.starts_with("opening_"); };
    bool const kept = std::any_of(distances.begin(), distances.end(),
                                  [&](auto const& j) { return is_opening(j) && j.keeps == Keeps::holds; });
    if (!kept)
        return;
    for (auto& j : distances)
        if (is_opening(j) && j.keeps != Keeps::holds)
        {
            j.keeps = Keeps::holds;
            j.found = "kept by another of the three distances";
            j.margin.reset();
        }
}

} // namespace

void judge_end(VentAsFound const& v, VentRules const& rules, std::vector<JudgedRule>& out)
{
    if (v.moved_by == MovedBy::draft_hood && v.height)
        out.push_back(hood_rise(v, rules));
    roof(v, rules, out);
    std::vector<JudgedRule> distances;
    for (auto const& entry : v.distances)
    {
        auto const& distance = entry.second;
        auto const rule = std::find_if(rules.clearances.begin(), rules.clearances.end(),
                                       [&](ClearanceRule const& r) { return r.id == entry.first; });
        if (rule == rules.clearances.end())
            continue;
        distances.push_back(of(*rule));
        at_least(distances.back(), distance, rule->least);
        if (units::in_si(distance.value) < 0)
            decide(distances.back(), Keeps::fails, "the end lies on the wrong side of it");
    }
    one_of_openings(distances);
    for (auto& judged : distances)
        out.push_back(std::move(judged));
}

void judge_pit(VentAsFound const& v, VentRules const& rules, std::vector<JudgedRule>& out)
{
    auto const yes_or_no = [&](std::string const& id, std::optional<bool> kept, std::string const& yes,
                               std::string const& no, std::string const& unknown)
    {
        auto judged = of(rules, id);
        decide(judged,
               !kept   ? Keeps::not_known
               : *kept ? Keeps::holds
                       : Keeps::fails,
               !kept   ? unknown
               : *kept ? yes
                       : no);
        out.push_back(std::move(judged));
    };
    if (v.in_pit && v.propane)
        yes_or_no("propane_below_grade", v.gas_way_out, "propane, with a way for leaked gas to run off to lower ground",
                  "propane, and leaked gas can't run off: it is half again as heavy as air",
                  "propane; whether leaked gas can run off was not looked at");
    if (v.in_pit)
    {
        yes_or_no("pit_drained", v.holds_water ? std::optional(!*v.holds_water) : std::nullopt, "no water, and a drain",
                  "water stands in it or nothing takes it out", "drain and water were not looked at");
        std::optional<bool> out_of;
        if (v.person_way_out == false || v.shut_lid == true)
            out_of = false;
        else if (v.person_way_out && v.shut_lid)
            out_of = true;
        yes_or_no("pit_way_out", out_of, "steps or a ladder, and no lid that shuts it",
                  v.shut_lid == true ? "a closed lid" : "no steps and no ladder", "steps and lid were not looked at");
    }
    if (v.service_space)
    {
        auto judged = of(rules, "service_space");
        at_least(judged, *v.service_space, *rules.rule("service_space").length);
        out.push_back(std::move(judged));
    }
}

JudgedRule of(VentRules const& rules, std::string const& id)
{
    VentRule const& rule = rules.rule(id);
    JudgedRule out;
    out.id = id;
    out.asks = rule.asks;
    out.edition = rule.edition;
    out.source = rule.source;
    return out;
}

JudgedRule of(ClearanceRule const& rule)
{
    JudgedRule out;
    out.id = rule.id;
    out.asks = "from " + rule.what + " " + rule.direction + " to the vent's end, at least";
    out.edition = rule.edition;
    out.where = rule.direction;
    out.note = rule.note;
    out.source = rule.source;
    return out;
}

void decide(JudgedRule& judged, Keeps keeps, std::string found)
{
    judged.keeps = keeps;
    judged.found = std::move(found);
}

void decide_by_margin(JudgedRule& judged, double margin, double doubt)
{
    double const doubtful = units::coverage * doubt;
    if (std::abs(margin) < doubtful)
        judged.keeps = Keeps::too_close;
    else
        judged.keeps = margin >= -1e-9 ? Keeps::holds : Keeps::fails;
}

} // namespace padwalk::venting
