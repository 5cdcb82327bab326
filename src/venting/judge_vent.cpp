#include "padwalk/venting/vent_rules.hpp"

#include "judging.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::venting
{
namespace
{

using units::Measured;

std::string word(Category category)
{
    return fields::words_of<Category>::words()[static_cast<std::size_t>(category)];
}

std::string word(PipeKind kind)
{
    static std::vector<std::string> const words{
        "single-wall pipe", "type B double-wall vent", "stainless special vent",          "plastic pipe",
        "bare masonry",     "lined masonry",           "flexible duct or connector hose", "another kind of pipe"};
    return words[static_cast<std::size_t>(kind)];
}

bool has(VentAsFound const& v, PipeKind kind)
{
    return std::find(v.pipes.begin(), v.pipes.end(), kind) != v.pipes.end();
}

/// By gravity: a draft hood, or where nothing was said what the plate's category I means.
std::optional<bool> by_gravity(VentAsFound const& v)
{
    if (v.moved_by)
        return *v.moved_by == MovedBy::draft_hood;
    if (v.category)
        return *v.category == Category::I ? std::nullopt : std::optional(false);
    return std::nullopt;
}

/// Pressure at the outlet as measured; where it wasn't, as what moves the gas makes it for certain.
std::optional<bool> under_pressure(VentAsFound const& v)
{
    if (v.outlet_pressure)
    {
        double const pascal = units::in_si(v.outlet_pressure->value);
        double const doubt = units::coverage * units::in_si(v.outlet_pressure->doubt);
        return pascal > doubt ? std::optional(true) : pascal < -doubt ? std::optional(false) : std::nullopt;
    }
    return v.moved_by == MovedBy::draft_hood ? std::optional(false) : std::nullopt;
}

/// The category of what was found, or none.
std::optional<Category> found_category(VentAsFound const& v, VentRules const& rules)
{
    auto const pressure = under_pressure(v);
    if (!pressure || !v.efficiency)
        return std::nullopt;
    return category_of(*pressure, condenses(v.efficiency->value, rules));
}

void category(VentAsFound const& v, VentRules const& rules, std::vector<JudgedRule>& out)
{
    auto judged = of(rules, "category");
    auto const found = found_category(v, rules);
    auto const pressure = under_pressure(v);
    if (v.category && pressure && *pressure != (*v.category == Category::III || *v.category == Category::IV))
        decide(judged, Keeps::fails,
               *pressure ? "pressure at the outlet, and the plate's category " + word(*v.category) + " has none"
                         : "no pressure at the outlet, where category " + word(*v.category) + " is made for pressure");
    else if (v.category && found)
        decide(judged, *found == *v.category ? Keeps::holds : Keeps::fails,
               "category " + word(*found) + " by pressure and efficiency, " + word(*v.category) + " on the plate");
    else if (v.category)
        decide(judged, Keeps::not_known,
               "category " + word(*v.category) + " on the plate; pressure and efficiency were not both known");
    else
        decide(judged, Keeps::not_known, "the plate's category was not recorded");
    out.push_back(std::move(judged));
}

/// A kind that no category of this heater allows fails whatever else is not known.
void pipe(VentAsFound const& v, VentRules const& rules, std::vector<JudgedRule>& out)
{
    auto judged = of(rules, "pipe");
    auto const category = v.category ? v.category : found_category(v, rules);
    bool all_known = !v.pipes.empty();
    std::string names, bad;
    for (PipeKind const kind : v.pipes)
    {
        names += (names.empty() ? "" : ", ") + word(kind);
        PipeRule const* row = rules.pipe(kind);
        bool const never = row != nullptr && row->categories.empty();
        bool const behind_hood = kind == PipeKind::plastic && v.moved_by == MovedBy::draft_hood;
        bool const not_made_for =
            row != nullptr && category &&
            std::find(row->categories.begin(), row->categories.end(), *category) == row->categories.end();
        if (never || behind_hood || not_made_for)
            bad += (bad.empty() ? "" : "; ") + word(kind) +
                   (not_made_for && !never ? " is not made for category " + word(*category) : "") +
                   (row->note.empty() ? "" : ": " + row->note);
        all_known = all_known && row != nullptr && category.has_value();
    }
    if (!bad.empty())
        decide(judged, Keeps::fails, bad);
    else if (all_known)
        decide(judged, Keeps::holds, names + ", for category " + word(*category));
    else
        decide(judged, Keeps::not_known,
               v.pipes.empty() ? "the kind of pipe was not recorded" : names + "; the heater's category is not known");
    out.push_back(std::move(judged));
}

void level_run(VentAsFound const& v, VentRules const& rules, std::vector<JudgedRule>& out)
{
    if (by_gravity(v) == false)
        return;
    bool const single = has(v, PipeKind::single_wall) || v.pipes.empty();
    auto judged = of(rules, single ? "run_single_wall" : "run_double_wall");
    if (v.pipes.empty())
        judged.note = "the kind of pipe was not recorded: held against the harder rule";
    if (!by_gravity(v))
        judged.note += std::string(judged.note.empty() ? "" : "; ") + "it holds for a draft hood, which was not said";
    if (!v.height || !v.run)
        decide(judged, Keeps::not_known, "height and level run were not both measured");
    else
    {
        Measured<units::Length> const most{v.height->value * rules.rule(judged.id).share->value(),
                                           v.height->doubt * rules.rule(judged.id).share->value(), "rule"};
        at_most(judged, *v.run, most);
    }
    out.push_back(std::move(judged));
}

void slope(VentAsFound const& v, VentRules const& rules, std::vector<JudgedRule>& out)
{
    bool const level = v.run && !(units::in_si(v.run->value) > 0);
    if (level || (!v.run && !v.slope))
        return;
    auto judged = of(rules, "slope");
    if (by_gravity(v) == false)
        judged.note = "of draft hoods; a fan's vent slopes as its maker says, some back to the heater";
    if (v.slope)
        at_least(judged, *v.slope, *rules.rule("slope").share);
    else
        decide(judged, Keeps::not_known, "the slope was not measured");
    if (by_gravity(v) == false && judged.keeps == Keeps::fails)
        judged.keeps = Keeps::not_known;
    out.push_back(std::move(judged));
}

void bends(VentAsFound const& v, VentRules const& rules, std::vector<JudgedRule>& out)
{
    if (by_gravity(v) == false || (!v.elbows_90 && !v.elbows_60))
        return;
    auto judged = of(rules, "bends");
    double const right = v.elbows_90 ? v.elbows_90->value.value() : 0.0;
    double const sixty = v.elbows_60 ? v.elbows_60->value.value() : 0.0;
    auto const counted = [](double n, std::string const& what) { return std::to_string(std::lround(n)) + " " + what; };
    std::string const found = counted(right, "of about a right angle, ") + counted(sixty, "of 60 degrees");
    constexpr double newer_allow = 2.5; // two right angles, as newer tables count them
    bool const old_kept = !(right > 0) && !(sixty > rules.rule("bends").number->value());
    if (old_kept)
        decide(judged, Keeps::holds, found);
    else if (right > newer_allow)
        decide(judged, Keeps::fails, found);
    else
        decide(judged, Keeps::not_known, found + ": the old rule allows none such, newer tables two right angles");
    out.push_back(std::move(judged));
}

void size(VentAsFound const& v, VentRules const& rules, std::vector<JudgedRule>& out)
{
    auto judged = of(rules, "size");
    if (v.bore && v.outlet_bore)
        at_least(judged, *v.bore, v.outlet_bore->value);
    else
        decide(judged, Keeps::not_known, "bores of vent and outlet were not both measured");
    out.push_back(std::move(judged));
}

/// A thing that must not be, or must be.
void yes_or_no(VentRules const& rules, std::string const& id, std::optional<bool> const& is, bool wanted,
               std::string const& yes, std::string const& no, std::vector<JudgedRule>& out)
{
    auto judged = of(rules, id);
    if (is)
        decide(judged, *is == wanted ? Keeps::holds : Keeps::fails, *is ? yes : no);
    else
        decide(judged, Keeps::not_known, "not looked at");
    out.push_back(std::move(judged));
}

void way(VentAsFound const& v, VentRules const& rules, std::vector<JudgedRule>& out)
{
    yes_or_no(rules, "buried", v.buried, false, "a part of it lies in the ground", "no part of it lies in the ground",
              out);
    bool const single = has(v, PipeKind::single_wall);
    if (v.enclosed == false || (v.enclosed && single))
        yes_or_no(rules, "enclosed", v.enclosed, false, "single-wall pipe runs inside a wall, floor or attic",
                  "it runs in the open", out);
    else
    {
        auto judged = of(rules, "enclosed");
        decide(judged, Keeps::not_known,
               v.enclosed ? "enclosed, and whether its pipe may be was not told" : "not looked at");
        out.push_back(std::move(judged));
    }
    yes_or_no(rules, "under_deck", v.under_deck, false, "a part of it runs under a deck or terrace",
              "it can be followed by eye", out);
    if (!v.combustibles || v.pipes.empty())
        return;
    bool const near = has(v, PipeKind::double_wall) && !single;
    if (!near && !single)
        return; // other pipes have the clearance of their label only
    auto judged = of(rules, near ? "combustibles_double_wall" : "combustibles_single_wall");
    at_least(judged, *v.combustibles, *rules.rule(judged.id).length);
    out.push_back(std::move(judged));
}

} // namespace

std::vector<JudgedRule> judge(VentAsFound const& v, VentRules const& rules)
{
    std::vector<JudgedRule> out;
    category(v, rules, out);
    pipe(v, rules, out);
    size(v, rules, out);
    level_run(v, rules, out);
    slope(v, rules, out);
    bends(v, rules, out);
    way(v, rules, out);
    yes_or_no(rules, "cap", v.capped, true, "it has its cap", "it has no cap", out);
    judge_end(v, rules, out);
    judge_pit(v, rules, out);
    return out;
}

} // namespace padwalk::venting
