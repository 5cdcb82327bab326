// A fill valve's readings against a sound one and each fault of one that can be simulated, and how a trade gets at it.
#include "accounts.hpp"
#include "fill_bench.hpp"
#include "fill_tables.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/level/fill_faults.hpp"
#include "padwalk/units/definitions.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::assess
{
namespace
{

using level::FillComparison;
using level::FillGauge;

/// A valve as it should be, what was read of it, and which computed findings speak of each reading.
struct WalkedFill
{
    level::FillValveAsKnown known;
    std::vector<level::FillRead> read;
    std::vector<std::string> labels;
    std::vector<std::vector<std::string>> same; ///< of each reading
    std::vector<std::string> basis;
};

class FillBuilder
{
public:
    FillBuilder(Workbench& w, std::size_t water, visit::FillValve const& v,
                visit::Taken<units::VolumeFlow> const& wide_open)
        : w_(w), water_(water), v_(v), wide_open_(wide_open), table_(w.engine.fill_tables().valve)
    {
    }

    WalkedFill build(units::Measured<units::Area> const& area)
    {
        kind();
        pool(area);
        flow();
        read();
        return std::move(out_);
    }

private:
    Workbench& w_;
    std::size_t water_;
    visit::FillValve const& v_;
    visit::Taken<units::VolumeFlow> const& wide_open_;
    level::FillValveTable const& table_;
    WalkedFill out_;

    level::FillValve& valve() { return out_.known.valve; }

    void kind()
    {
        bool const sensor = v_.kind == visit::FillKind::level_sensor;
        valve().kind = sensor ? level::FillKind::level_sensor : level::FillKind::float_valve;
        if (!v_.kind)
            out_.basis.emplace_back("It is taken for a float valve; of what kind it is was not said.");
        valve().travel = v_.travel ? v_.travel->value : (sensor ? table_.sensor_band.value : table_.float_travel.value);
        valve().overflow = table_.overflow.value;
        valve().closing = sensor ? table_.sensor_closing.value : table_.float_closing.value;
    }

    void pool(units::Measured<units::Area> const& area)
    {
        auto const loss = evaporation_of(w_, water_, area);
        valve().area = area.value;
        valve().loss = loss.value;
        out_.known.loss_doubt = units::of_si<units::Velocity>(units::in_si(loss.doubt));
    }

    void flow()
    {
        auto const usual = w_.rules.limit<units::VolumeFlow>("fill_usual_flow");
        auto const flow = wide_open_.value_or(usual);
        double const own = units::in_si(flow.doubt) / units::in_si(flow.value);
        valve().flow = flow.value;
        out_.known.flow_spread = units::Number::from_value(std::sqrt(std::log1p(own * own)));
        if (!wide_open_)
            out_.basis.push_back("Wide open it is taken to give " + w_.show(usual, "gpm") +
                                 "; its seat and the supply's pressure would tell.");
    }

    template <class Q>
    void take(FillGauge gauge, char const* label, visit::Taken<Q> const& reading, std::vector<std::string> same = {})
    {
        if (!reading)
            return;
        out_.read.push_back({gauge, units::Reading::of(*reading)});
        out_.labels.emplace_back(label);
        out_.same.push_back(std::move(same));
    }

    void read()
    {
        take(FillGauge::level, "level below the wanted one", v_.below_wanted, {"water_level_low", "water_level_high"});
        if (!v_.watched) // that volume was weighed with the level
            take(FillGauge::day_volume, "delivered in a day", v_.day_volume);
        take(FillGauge::run_share, "share of the time that it runs", v_.run_share);
        if (v_.starts && valve().kind == level::FillKind::level_sensor)
        {
            auto starts = v_.starts;
            constexpr double counted = 0.5; // openings; judgement: one at the ends of the day
            starts->doubt = units::Number::from_value(std::max(counted, starts->doubt.value()));
            take(FillGauge::starts, "openings in a day", starts);
        }
        take(FillGauge::flow_held_down, "flow when it should run", v_.flow,
             {"fill_delivers_nothing", "fill_flow_weak"});
        take(FillGauge::flow_held_up, "flow when it should be shut", v_.flow_when_shut, {"fill_drips_closed"});
    }
};

Accounts account_for(FillComparison const& comparison, Workbench const& w)
{
    double const something_else = std::log(w.rules.act("something_else"));
    Accounts out;
    out.sound = comparison.sound().log_likelihood;
    out.anything = comparison.log_likelihood_of_anything() + something_else;
    std::map<level::FillFaultKind, double> by_fault;
    for (auto const& rule : w.engine.fill_tables().valve.faults)
        by_fault[rule.fault] = comparison.with(rule.fault).log_likelihood;
    for (auto const& [cause, signature] : w.engine.fill_tables().signatures.signatures)
    {
        std::vector<double> logs;
        for (auto const fault : signature.does)
            logs.push_back(by_fault.at(fault));
        out.causes.emplace_back(cause, numerics::log_mean(logs));
    }
    return out;
}

/// Computed findings of these ids at the valve or its waters.
std::vector<std::size_t> of_reading(Workbench const& w, std::size_t item, std::vector<std::string> const& ids)
{
    std::vector<std::size_t> out = computed_findings(w, item, ids);
    for (std::size_t const water : w.property.at(item).waters)
        for (std::size_t const i : computed_findings(w, water, ids))
            out.push_back(i);
    return out;
}

std::string in_words(Workbench const& w, FillEntry const& entry)
{
    std::string out;
    for (auto const& r : entry.readings)
        out += (out.empty() ? "" : "; ") + r.label + " " + w.show(r.reading) + " where a sound one shows " +
               w.show(r.expected);
    return out;
}

void enter(Workbench& w, std::size_t item, FillComparison const& comparison, WalkedFill const& walked,
           FillEntry const& entry)
{
    double const by_chance =
        numerics::chance_above(comparison.sound().chi_squared, static_cast<int>(comparison.read().size()));
    auto weighing = weigh_accounts(account_for(comparison, w), by_chance, w.rules);
    auto& pattern = weighing.pattern;
    pattern.item = item;
    for (std::size_t i = 0; i < w.property.things().size(); ++i)
        if (i != item && w.property.at(i).fill_valve != nullptr)
            pattern.leaves_out.insert(i);
    for (auto const& ids : walked.same)
        if (auto same = of_reading(w, item, ids); !same.empty())
            pattern.same_reading.push_back(std::move(same));
    w.computed(item, "fill_readings_depart", weighing.departs, in_words(w, entry));
    pattern.finding = w.out.findings.size() - 1;
    w.patterns.push_back(std::move(pattern));
    if (weighing.nothing_fits)
        w.out.questions.push_back({item,
                                   "readings of " + w.name(item),
                                   "can't all be so: neither a sound valve nor any one fault known here gives them "
                                   "together. Was another tap open, or the level changed by hand?",
                                   {}});
}

/// Limits of single readings; where the readings are weighed together they don't count again.
void alone(Workbench& w, std::size_t item, std::size_t water, visit::FillValve const& v)
{
    if (v.flow_when_shut)
        w.computed(item, "fill_drips_closed",
                   probability_above(*v.flow_when_shut, w.rules.limit<units::VolumeFlow>("fill_passes_shut")),
                   "passes " + w.show(*v.flow_when_shut, "gpm") + " when shut; speaks above " +
                       w.rules.cited("fill_passes_shut"));
    if (!v.below_wanted)
        return;
    std::string const stands = "stands " + w.show(*v.below_wanted, "in") + " below the level wanted";
    auto above = *v.below_wanted;
    above.value = -above.value;
    w.computed(water, "water_level_low",
               probability_above(*v.below_wanted, w.rules.limit<units::Length>("level_below")),
               stands + "; speaks above " + w.rules.cited("level_below"));
    w.computed(water, "water_level_high", probability_above(above, w.rules.limit<units::Length>("level_above")),
               stands + "; speaks the other way above " + w.rules.cited("level_above"));
}

/// What a sound valve would do here.
std::string sound_words(Workbench const& w, level::FillValveAsKnown const& known)
{
    constexpr double near = 0.0032; // m, an eighth of an inch, judgement: closer can't be told from a mark
    auto const& table = w.engine.fill_tables().valve;
    auto const rest = level::fill_at_rest(known.valve, table);
    if (!rest.holds)
        return "A sound valve would not keep up with this water's evaporation.";
    units::Length const day = known.valve.loss * units::of_si<units::Duration>(units::exact::day);
    std::string out = "A sound valve would run " + w.show(units::Reading::exact(rest.run)) + " of the time for " +
                      "evaporation alone";
    if (auto const time = level::time_to_make_up(known.valve, day, units::of_si<units::Length>(near)))
        out += ", and make up a day's loss of " + w.show(units::Reading::exact(day), "in") + " in about " +
               w.show(units::Reading::exact(*time), "h");
    return out + ".";
}

void hold_against_sound(Workbench& w, std::size_t item, visit::FillValve const& v,
                        visit::Taken<units::VolumeFlow> const& wide_open, FillEntry& entry)
{
    std::size_t const water = *w.property.at(item).waters.begin();
    auto const area = w.area_of(water);
    bool const only_flow = !v.below_wanted && !v.day_volume && !v.run_share && !v.starts && !v.flow_when_shut;
    alone(w, item, water, v);
    if (only_flow) // one reading alone is told by its own limit
        return;
    if (!area)
    {
        w.out.not_tested.push_back(
            {item, "the valve's readings against a sound one", "the surface of the water is not known"});
        return;
    }
    try
    {
        auto const walked = FillBuilder(w, water, v, wide_open).build(*area);
        if (walked.read.empty())
            return;
        FillComparison const comparison(walked.known, walked.read, w.engine.fill_tables().valve);
        for (std::size_t i = 0; i < walked.read.size(); ++i)
        {
            auto const& expected = comparison.sound().shown[i];
            auto const& reading = walked.read[i].reading;
            entry.readings.push_back({item, walked.labels[i], LoopPlace::gauge, reading, expected,
                                      (reading.value - expected.value) / std::hypot(reading.doubt, expected.doubt),
                                      false});
        }
        entry.words = sound_words(w, walked.known);
        entry.basis = walked.basis;
        enter(w, item, comparison, walked, entry);
        w.cited.insert("gum-2008");
    }
    catch (figures::NotComputed const& why)
    {
        w.out.not_tested.push_back({item, "the valve's readings against a sound one", why.what()});
    }
    catch (std::invalid_argument const&)
    {
        w.out.not_tested.push_back({item, "the valve's readings against a sound one",
                                    "a reading was given without any doubt, and none is so sure"});
    }
}

std::string reach_of(Workbench& w, visit::FillValve const& v)
{
    if (!v.access)
        return {};
    for (auto const& row : w.engine.fill_tables().signatures.reach)
        if (row.access == *v.access && (!row.deck || row.deck == v.deck))
        {
            w.cited.insert(row.source.key);
            return row.say;
        }
    return {};
}

} // namespace

void weigh_fill_readings(Workbench& w, std::size_t item, visit::FillValve const& valve,
                         visit::Taken<units::VolumeFlow> const& wide_open)
{
    FillEntry entry;
    entry.item = item;
    entry.reach = reach_of(w, valve);
    if (!w.property.at(item).waters.empty() && valve.kind != visit::FillKind::by_hand)
        hold_against_sound(w, item, valve, wide_open, entry);
    if (!entry.readings.empty() || !entry.reach.empty())
        w.out.fills.push_back(std::move(entry));
}

} // namespace padwalk::assess
