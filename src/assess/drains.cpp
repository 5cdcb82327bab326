// Suction outlets: a cover without marks, past its date or loaded beyond its rating, and an outlet that is the only one
// with nothing to let go of a person held on it.
#include "loop_bench.hpp"

#include <algorithm>

namespace padwalk::assess
{
namespace
{

constexpr char const* law_on_covers = "covers sold in the US conform to a standard by 15 USC 8003(b) [us-code-8003]";

struct Outlet
{
    std::size_t item;
    visit::Drain const& v;
};

/// The outlets under water of one loop, as far as they are known.
struct Outlets
{
    std::vector<Outlet> recorded;
    std::optional<std::size_t> said; ///< by the loop's 'suction_outlets'

    /// At least so many; a count that is smaller than what was recorded is not believed.
    [[nodiscard]] std::size_t count() const { return std::max(recorded.size(), said.value_or(0)); }
    /// Whether there may be others than those counted.
    [[nodiscard]] bool counted() const { return said && *said >= recorded.size(); }
};

Outlets outlets_of(Workbench const& w, std::size_t loop)
{
    Outlets out;
    for (std::size_t i = 0; i < w.property.things().size(); ++i)
        if (Thing const& t = w.property.at(i); t.drain != nullptr && t.loops.contains(loop))
            out.recorded.push_back({i, *t.drain});
    if (auto const& said = w.property.at(loop).loop->suction_outlets)
        out.said = static_cast<std::size_t>(std::lround(said->value.value()));
    return out;
}

void marks(LoopBench& b, Outlet const& o)
{
    if (!o.v.listed)
        return;
    b.w.noticed(o.item, "drain_marks_absent", !*o.v.listed,
                *o.v.listed ? "recorded: 'listed: yes'" : std::string("recorded: 'listed: no'; ") + law_on_covers);
    b.w.cited.insert("us-code-8003");
}

// Stamps hold to the end of their day; the visit's hour does not matter.
bool past_its_date(LoopBench& b, Outlet const& o)
{
    if (!o.v.expires)
        return false;
    std::string const stamp = "stamped to " + o.v.expires->text;
    if (!b.w.visit.on)
    {
        b.w.out.questions.push_back({o.item,
                                     stamp,
                                     "the visit has no date ('on:'). If that day is past, the cover has outlived its "
                                     "stamped life: close the water until it is replaced",
                                     {}});
        return false;
    }
    auto day = [](fields::Moment const& m) { return std::floor(m.hours / 24); };
    bool const past = day(*b.w.visit.on) > day(*o.v.expires);
    b.w.computed(o.item, "drain_cover_expired", past ? 1.0 : 0.0,
                 stamp + ", visited " + b.w.visit.on->text +
                     (past ? std::string("; ") + law_on_covers + "; that its stamped life ends that is from memory"
                           : std::string()));
    return past;
}

std::string counted_in_words(Outlets const& all)
{
    std::size_t const n = all.count();
    if (n > 1)
        return "each of " + std::to_string(n) + " outlets";
    return all.counted() ? "the only outlet" : "the only outlet recorded";
}

// Both loads: as it runs, and with a body on one of the outlets.
std::string flows_in_words(Workbench const& w, Outlets const& all, Outlet const& o, figures::Figure const& figure)
{
    std::string out = w.show(*figure.get<units::VolumeFlow>("flow_per_cover")) + " through " + counted_in_words(all) +
                      (all.count() > 1 ? " with all open" : "");
    if (auto const blocked = figure.get<units::VolumeFlow>("flow_one_blocked"))
        out += ", " + w.show(*blocked) + " through " + (all.count() > 2 ? "each of the others" : "the other") +
               " with one blocked";
    return out + "; rated " + w.show(*o.v.rating);
}

std::string load_in_words(LoopBench const& b, Outlets const& all, std::string const& flows)
{
    std::string out = flows + "; " + b.most_flow_words;
    if (all.count() > 1)
        out += "; with one outlet blocked the rest carry all of it [utah-r392-302] [montana-37-115]";
    return out + ". That a cover's marked flow is not to be exceeded is from memory of the standard on entrapment "
                 "(APSP-7), not confirmed";
}

/// Covers of which the same is known, so that one figure speaks for them.
struct Alike
{
    std::vector<Outlet> outlets;
    std::string state; ///< a word of the model's 'cover_state', or none
};

bool same(Outlet const& a, Outlet const& b)
{
    return a.v.rating->value == b.v.rating->value && a.v.rating->doubt == b.v.rating->doubt &&
           a.v.unblockable == b.v.unblockable;
}

std::string names_of(Workbench const& w, Alike const& alike)
{
    std::string out;
    for (auto const& o : alike.outlets)
        out += (out.empty() ? "" : ", ") + w.name(o.item);
    return (alike.outlets.size() > 1 ? "each of the covers of " : "the cover of ") + out;
}

void load(LoopBench& b, Outlets const& all, Alike const& alike)
{
    auto const& first = alike.outlets.front();
    figures::Inputs in;
    in.add("flow", b.most_flow).add("cover_rating", first.v.rating);
    in.add("outlets", units::Reading::exact(units::Number(static_cast<double>(all.count()))));
    if (!alike.state.empty())
        in.add_words("cover_state", alike.state);
    if (first.v.unblockable)
        in.add_words("unblockable", *first.v.unblockable ? "yes" : "no");
    auto const figure = b.w.figure(alike.outlets.size() > 1 ? b.loop : first.item, "drain_cover_flow", in,
                                   "flow through " + names_of(b.w, alike));
    auto share = figure.get<units::Fraction>("share_one_blocked");
    if (!share)
        share = figure.get<units::Fraction>("share_of_rating");
    if (!share)
        return;
    units::Measured<units::Fraction> const rating{units::of_si<units::Fraction>(1.0), {}, "rating"};
    double const over = probability_above(*share, rating);
    std::string const flows = flows_in_words(b.w, all, first, figure);
    if (all.count() == 1 && !all.counted() && over <= 0.5) // the figure's own words would take it for the only one
        b.w.verdict(flows + "; whether there is another was not said");
    else
        b.w.meaning(flows);
    for (auto const& o : alike.outlets)
        b.w.computed(o.item, "drain_flow_over_rating", over, load_in_words(b, all, flows));
    if (all.count() > 1)
        for (char const* key : {"utah-r392-302", "montana-37-115"})
            b.w.cited.insert(key);
}

// Whether the flow can be held against this cover's rating; says why not where half of it is known.
bool loadable(LoopBench& b, Outlet const& o)
{
    if (o.v.rating.has_value() != b.most_flow.has_value())
        b.not_tested(o.item, "load of the outlet",
                     o.v.rating ? "no flow of the running loop is known to hold against the cover's rating"
                                : "no rating of its cover was recorded to hold the flow against");
    return o.v.rating && b.most_flow;
}

void assume_all_by_the_drains(LoopBench& b, Outlets const& all)
{
    bool const none_beside = b.v.skimmers && b.v.skimmers->value.value() < 0.5;
    if (!none_beside)
        b.w.out.assumptions.push_back(
            {"all of the flow of " + b.w.name(b.loop) + " goes by its suction outlets",
             "skimmers carry part of it while they are open; shut or blocked they carry none, "
             "and that worst case is what a cover must bear"});
    if (all.count() > all.recorded.size())
        b.w.out.assumptions.push_back({"the outlets of " + b.w.name(b.loop) + " that were not described share its flow",
                                       "'suction_outlets' counts more than were described"});
    else if (!all.said)
        b.w.out.assumptions.push_back({b.w.name(b.loop) + " has no other suction outlets than those described",
                                       "'suction_outlets' was not given; another would take part of the flow"});
}

// ---- one outlet alone

/// What was said of something that may be there: not at all, yes, no.
using Said = std::optional<bool>;

Said from_notes(Workbench const& w, std::size_t loop, Outlets const& all, std::string const& at_drain,
                std::string const& at_loop)
{
    Said out;
    for (auto const& finding : w.out.findings)
    {
        bool const drawn_from = finding.item == 0 || w.property.at(loop).waters.contains(finding.item);
        bool const at_outlet = std::any_of(all.recorded.begin(), all.recorded.end(),
                                           [&](Outlet const& o) { return o.item == finding.item; });
        bool const here = (finding.id == at_loop && finding.item == loop) ||
                          (finding.id == at_drain && (finding.item == loop || drawn_from || at_outlet));
        if (here && finding.state != FindingState::unclear)
            out = out.value_or(false) || finding.state == FindingState::seen;
    }
    return out;
}

template <class Field> Said from_fields(Outlets const& all, Field field)
{
    Said out;
    for (auto const& o : all.recorded)
        if (std::optional<bool> const value = o.v.*field)
            out = out.value_or(true) && *value; // the worse of two that differ
    return out;
}

void ask_which_count(Workbench& w, std::size_t loop, Outlets const& all, bool one_by_notes)
{
    if (all.said && *all.said < all.recorded.size())
        w.out.questions.push_back(
            {loop,
             "suction_outlets: " + std::to_string(*all.said),
             std::to_string(all.recorded.size()) + " are described under 'drains', more than that; count them again",
             {}});
    if (one_by_notes && all.count() > 1)
        w.out.questions.push_back({loop,
                                   "only one suction outlet",
                                   std::to_string(all.count()) + " are recorded, and a note says that there is only "
                                                                 "one; until it is settled the worse is taken",
                                   {}});
}

/// How a loop stands that has one outlet, or may have no other.
struct Lone
{
    bool known = false; ///< that it is the only one
    std::string how;    ///< that is known, or that it is not
    Said release;       ///< whether something breaks the suction
};

// Said at each outlet described, else at the loop.
void not_unprotected(Workbench& w, std::size_t loop, Outlets const& all, std::string const& because)
{
    for (auto const& o : all.recorded)
        w.computed(o.item, "drain_lone_unprotected", 0.0, because);
    if (all.recorded.empty())
        w.computed(loop, "drain_lone_unprotected", 0.0, because);
}

void rely_on(Workbench& w, std::size_t loop, Outlets const& all, std::string const& what)
{
    not_unprotected(w, loop, all, what);
    w.out.assumptions.push_back({"the only suction outlet of " + w.name(loop) + " lets go of a person held on it",
                                 what + "; it was not tested here. 15 USC 8003(c) asks this of public pools with a "
                                        "single outlet [us-code-8003]"});
    w.cited.insert("us-code-8003");
}

void judge_lone(Workbench& w, std::size_t loop, Outlets const& all, Lone const& lone)
{
    std::size_t const place = all.recorded.size() == 1 ? all.recorded.front().item : loop;
    bool const unblockable = from_fields(all, &visit::Drain::unblockable).value_or(false);
    if (unblockable || lone.release.value_or(false))
    {
        if (lone.known)
            rely_on(w, loop, all,
                    unblockable ? "'unblockable: yes' was recorded, so that a body can't cover it"
                                : "a device or vent that breaks the suction was recorded");
    }
    else if (lone.known && lone.release)
        w.computed(place, "drain_lone_unprotected", 1.0,
                   lone.how + ", and that no device breaks its suction; it was not said to be unblockable");
    else if (lone.known)
        w.computed(place, "drain_lone_unknown", 1.0,
                   lone.how + "; not said: 'release_device' and 'unblockable' of the drain");
    else if (lone.release)
        w.computed(place, "drain_lone_unknown", 1.0, lone.how + ", and no device breaks the suction");
    else if (!all.recorded.empty())
        w.out.not_tested.push_back(
            {loop, "number of suction outlets",
             "one drain is described, which is no proof that it is the only one; count them ('suction_outlets'). A "
             "single one that a body can cover, with nothing to break its suction, closes the water"});
}

void one_outlet(Workbench& w, std::size_t loop)
{
    Outlets const all = outlets_of(w, loop);
    bool const by_notes = from_notes(w, loop, all, "drain_only_one_seen", "loop_one_outlet_only").value_or(false);
    ask_which_count(w, loop, all, by_notes);
    Lone lone;
    lone.known = by_notes || (all.said && *all.said == 1 && all.count() == 1);
    lone.how = by_notes     ? "noticed that there is only one"
               : lone.known ? "recorded: 'suction_outlets: 1'"
                            : "it was not said whether there is another outlet";
    lone.release = from_fields(all, &visit::Drain::release_device);
    Said const none = from_notes(w, loop, all, "drain_no_release_device", "loop_no_release_device");
    if (none)
        lone.release = lone.release.value_or(true) && !*none;
    if (lone.known || (!all.said && all.recorded.size() <= 1))
        judge_lone(w, loop, all, lone);
    else if (none && all.count() > 1)
        not_unprotected(w, loop, all, "recorded: " + std::to_string(all.count()) + " suction outlets");
}

} // namespace

void loop_drains(LoopBench& b)
{
    Outlets const all = outlets_of(b.w, b.loop);
    std::vector<Alike> groups;
    for (auto const& outlet : all.recorded)
    {
        marks(b, outlet);
        std::string const state = past_its_date(b, outlet) ? "expired" : outlet.v.listed == false ? "not_listed" : "";
        if (!loadable(b, outlet))
            continue;
        auto const like =
            std::find_if(groups.begin(), groups.end(),
                         [&](Alike const& g) { return g.state == state && same(g.outlets.front(), outlet); });
        if (like != groups.end())
            like->outlets.push_back(outlet);
        else
            groups.push_back({{outlet}, state});
    }
    for (auto const& group : groups)
        load(b, all, group);
    if (!groups.empty())
        assume_all_by_the_drains(b, all);
}

void assess_outlets(Workbench& w)
{
    for (std::size_t i = 0; i < w.property.things().size(); ++i)
        if (w.property.at(i).entry.kind == "loop")
            one_outlet(w, i);
}

} // namespace padwalk::assess
