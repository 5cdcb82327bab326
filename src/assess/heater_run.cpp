// A vent's run and its end, and the pit it stands in, each rule held against what was found.
#include "heater_bench.hpp"

#include "padwalk/venting/vent_rules.hpp"

#include <array>
#include <cctype>

namespace padwalk::assess
{
namespace
{

/// A roof's rise in 12 of run. Up to 1 it was written as rise over run: 4/12; what is meant by 1 alone is then taken
/// for the steeper roof, which asks more.
visit::Taken<units::Number> in_twelve(visit::Taken<units::Number> slope)
{
    constexpr double run = 12;
    if (slope && units::in_si(slope->value) <= 1)
        slope = units::Measured<units::Number>{slope->value * run, slope->doubt * run, slope->method};
    return slope;
}

using units::Measured;
using venting::JudgedRule;
using venting::Keeps;

template <class To, class From> std::optional<To> same_word(std::optional<From> const& word)
{
    return word ? std::optional(static_cast<To>(*word)) : std::nullopt;
}

bool is_pit(HeaterBench const& b)
{
    bool const sunk = b.v.room && b.v.room->depth && units::in_si(b.v.room->depth->value) > 0;
    return b.v.stands == visit::HeaterPlace::pit || sunk;
}

/// Water that stands there, or nothing that takes it out; dry only where both were looked at.
std::optional<bool> holds_water(visit::Room const& room)
{
    bool const stands = room.water && units::in_si(room.water->value) > 0;
    bool const undrained = room.drain == visit::PitDrain::none || room.drain == visit::PitDrain::not_working;
    if (stands || undrained)
        return true;
    return room.water && room.drain ? std::optional(false) : std::nullopt;
}

/// The kind of pipe in free words, where none was ticked.
std::vector<venting::PipeKind> pipes_in_words(std::string words)
{
    using venting::PipeKind;
    std::transform(words.begin(), words.end(), words.begin(),
                   [](unsigned char c) { return c == '-' ? ' ' : static_cast<char>(std::tolower(c)); });
    struct Word
    {
        std::string_view said;
        PipeKind kind;
    };
    static constexpr std::array<Word, 14> known{{{"single wall", PipeKind::single_wall},
                                                 {"double wall", PipeKind::double_wall},
                                                 {"b vent", PipeKind::double_wall},
                                                 {"type b", PipeKind::double_wall},
                                                 {"stainless", PipeKind::stainless},
                                                 {"plastic", PipeKind::plastic},
                                                 {"pvc", PipeKind::plastic},
                                                 {"abs pipe", PipeKind::plastic},
                                                 {"polypropylene", PipeKind::plastic},
                                                 {"lined chimney", PipeKind::masonry_lined},
                                                 {"clay lin", PipeKind::masonry_lined},
                                                 {"dryer", PipeKind::flexible},
                                                 {"foil", PipeKind::flexible},
                                                 {"flex duct", PipeKind::flexible}}};
    std::vector<PipeKind> out;
    bool const denied = words.find("not ") != std::string::npos || words.find("no ") == 0;
    for (auto const& [said, kind] : known)
        if (!denied && words.find(said) != std::string::npos && std::find(out.begin(), out.end(), kind) == out.end())
            out.push_back(kind);
    return out;
}

void add_vent(venting::VentAsFound& out, visit::Vent const& v)
{
    out.moved_by = same_word<venting::MovedBy>(v.kind);
    for (auto const kind : v.made_of)
        out.pipes.push_back(static_cast<venting::PipeKind>(kind));
    if (out.pipes.empty())
        out.pipes = pipes_in_words(v.material);
    out.category = same_word<venting::Category>(v.category);
    out.outlet_pressure = v.outlet_pressure;
    out.height = v.height, out.run = v.run, out.bore = v.bore, out.outlet_bore = v.outlet_bore;
    out.elbows_90 = v.elbows, out.elbows_60 = v.elbows_60, out.elbows_45 = v.elbows_45;
    out.slope = v.slope;
    out.buried = v.buried, out.enclosed = v.enclosed, out.under_deck = v.under_deck, out.capped = v.capped;
    out.combustibles = v.combustibles;
    out.roof_slope = in_twelve(v.roof_slope), out.above_roof = v.above_roof, out.from_wall = v.from_wall;
    out.distances = v.clearances;
}

venting::VentAsFound as_found(HeaterBench const& b)
{
    venting::VentAsFound out;
    if (b.v.vent)
        add_vent(out, *b.v.vent);
    out.efficiency = b.v.efficiency;
    out.in_pit = is_pit(b);
    out.propane = b.v.energy == visit::EnergyKind::propane;
    if (b.v.room)
    {
        auto const& room = *b.v.room;
        out.gas_way_out = room.gas_way_out;
        out.person_way_out = room.person_way_out;
        if (room.lid)
            out.shut_lid = *room.lid == visit::PitLid::closed;
        out.holds_water = holds_water(room);
        out.service_space = room.service_space;
    }
    return out;
}

/// What a broken rule is as a finding. Distances of the end are weighed together in heater_vent.cpp.
struct RuleFinding
{
    std::string_view rule, finding;
};

constexpr std::array<RuleFinding, 14> finding_of{{{"category", "vent_category_mismatch"},
                                                  {"pipe", "vent_material_odd"},
                                                  {"size", "vent_reduced"},
                                                  {"run_single_wall", "vent_run_beyond_rule"},
                                                  {"run_double_wall", "vent_run_beyond_rule"},
                                                  {"buried", "vent_runs_underground"},
                                                  {"enclosed", "vent_enclosed"},
                                                  {"under_deck", "vent_under_deck"},
                                                  {"cap", "vent_end_uncapped"},
                                                  {"combustibles_single_wall", "vent_pipe_near_wood"},
                                                  {"combustibles_double_wall", "vent_pipe_near_wood"},
                                                  {"draft_hood_rise", "vent_rise_short"},
                                                  {"pit_way_out", "vent_pit_no_way_out"},
                                                  {"service_space", "vent_no_service_space"}}};

std::string whose(JudgedRule const& judged)
{
    return judged.edition + " [" + judged.source.key + "]" + (judged.from_memory() ? ", from memory" : "");
}

std::string compared(HeaterBench const& b, JudgedRule const& judged)
{
    std::string out =
        "found " + b.w.show(*judged.measured) + ", the rule " + b.w.show(*judged.limit) + ": " + judged.asks;
    for (auto const& more : {judged.found, judged.note})
        if (!more.empty())
            out += "; " + more;
    return out + "; " + whose(judged);
}

void lay(HeaterBench& b, JudgedRule const& judged, std::string const& finding)
{
    if (judged.margin)
        b.w.computed(*b.vent, finding, 1 - probability_above(judged.margin->value, judged.margin->doubt, -1e-9, 0.0),
                     compared(b, judged));
    else if (judged.keeps == Keeps::fails || judged.keeps == Keeps::holds)
        b.w.noticed(*b.vent, finding, judged.keeps == Keeps::fails, judged.found + ": " + whose(judged));
}

/// A run that falls is one thing, one that rises too little another.
void lay_slope(HeaterBench& b, JudgedRule const& judged)
{
    if (!judged.measured || judged.keeps == Keeps::not_known)
        return;
    double const falls = 1 - probability_above(judged.measured->value, judged.measured->doubt, 0.0, 0.0);
    double const short_of = 1 - probability_above(judged.margin->value, judged.margin->doubt, -1e-9, 0.0);
    b.w.computed(*b.vent, "vent_runs_downhill", falls, compared(b, judged), "slope");
    if (falls <= 0.5)
        b.w.computed(*b.vent, "vent_rise_small", short_of, compared(b, judged), short_of < 0.5 ? "slope" : "");
}

void lay_pressure(HeaterBench& b, venting::VentAsFound const& found)
{
    bool const by_pull = found.moved_by == venting::MovedBy::draft_hood || found.category == venting::Category::I ||
                         found.category == venting::Category::II;
    if (!found.outlet_pressure || !by_pull)
        return;
    double const p = probability_above(units::in_si(found.outlet_pressure->value),
                                       units::in_si(found.outlet_pressure->doubt), 0.0, 0.0);
    b.w.computed(*b.vent, "vent_outlet_pressure", p,
                 "pressure " + b.w.show(*found.outlet_pressure) +
                     " at an outlet whose vent lives by its pull [ifgc-vent-categories-as-quoted]");
}

void lay_pit(HeaterBench& b, venting::VentAsFound const& found)
{
    if (!found.in_pit)
        return;
    auto const& v = *b.vent;
    if (found.propane)
        b.w.noticed(v, "vent_propane_below_grade", true, "propane, below the ground outside");
    if (found.propane && found.gas_way_out)
        b.w.noticed(v, "vent_pit_gas_trapped", !*found.gas_way_out,
                    *found.gas_way_out ? "gas can run off to lower ground"
                                       : "propane is half again as heavy as air [gas-density-and-pits-pages]");
    if (!b.v.room)
        return;
    auto const& room = *b.v.room;
    if (room.water)
        b.w.noticed(v, "vent_pit_water", units::in_si(room.water->value) > 0,
                    b.w.show(*room.water) + " of water on the floor");
    if (room.drain)
    {
        bool const works = *room.drain == visit::PitDrain::floor_drain || *room.drain == visit::PitDrain::sump_pump;
        b.w.noticed(v, "vent_pit_no_drain", !works, works ? "a drain or pump" : "no drain or pump that works");
    }
}

void lay_findings(HeaterBench& b, venting::VentAsFound const& found, std::vector<JudgedRule> const& judged)
{
    for (auto const& rule : judged)
    {
        if (rule.id == "slope")
            lay_slope(b, rule);
        if (rule.id.starts_with("roof_"))
            lay(b, rule, "vent_short_above_roof");
        for (auto const& [id, finding] : finding_of)
            if (rule.id == id)
                lay(b, rule, std::string(finding));
    }
    lay_pressure(b, found);
    lay_pit(b, found);
}

void figures_of_run(HeaterBench& b)
{
    auto const& v = *b.v.vent;
    figures::Inputs category;
    category.add("outlet_pressure", v.outlet_pressure).add("efficiency", b.v.efficiency);
    b.w.figure(*b.vent, "vent_category", category, "category of " + b.w.name(*b.vent) + " as found");
    if (v.kind && *v.kind != visit::VentKind::draft_hood)
        return;
    figures::Inputs run;
    run.add("height", v.height)
        .add("run", v.run)
        .add("slope", v.slope)
        .add("roof_slope", in_twelve(v.roof_slope))
        .add("from_wall", v.from_wall);
    bool const double_wall =
        !v.made_of.empty() &&
        std::all_of(v.made_of.begin(), v.made_of.end(), [](auto m) { return m != visit::VentMaterial::single_wall; });
    if (!v.made_of.empty())
        run.add_words("wall", double_wall ? "double_wall" : "single_wall");
    b.w.figure(*b.vent, "vent_run", run, "run of " + b.w.name(*b.vent));
}

} // namespace

void assess_run(HeaterBench& b)
{
    if (!b.vent || !burns_gas(b.v) || (!b.v.vent && !b.v.room && !is_pit(b)))
        return;
    auto const rules = venting::vent_rules(b.w.engine.data());
    auto const found = as_found(b);
    auto const judged = venting::judge(found, rules);
    lay_findings(b, found, judged);
    if (b.v.vent)
        figures_of_run(b);
    bool const anything =
        std::any_of(judged.begin(), judged.end(), [](JudgedRule const& j) { return j.keeps != Keeps::not_known; });
    if (!anything)
        return;
    VentEntry entry;
    entry.item = *b.vent;
    entry.heater = b.heater;
    entry.rules = judged;
    if (b.v.vent)
        entry.vent = *b.v.vent;
    entry.vent.roof_slope = in_twelve(entry.vent.roof_slope);
    if (b.v.room)
        entry.room = *b.v.room;
    entry.stands = b.v.stands;
    entry.in_pit = found.in_pit;
    for (auto const& rule : judged)
        b.w.cited.insert(rule.source.key);
    b.w.out.vents.push_back(std::move(entry));
}

} // namespace padwalk::assess
