// Where the heat of a gas heater goes by what was read, and its readings against a sound heater and every fault of one
// that can be simulated.
#include "accounts.hpp"
#include "heater_bench.hpp"
#include "heater_tables.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/heating/heat_balance.hpp"
#include "padwalk/physics/range.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::assess
{
namespace
{

using heating::HeaterComparison;
using heating::HeaterGauge;
using heating::HeaterUnsure;
using units::Measured;

/// A heater as it should be, and what was read of it.
struct WalkedHeater
{
    heating::HeaterAsKnown known;
    std::vector<heating::HeaterRead> read;
    std::vector<std::string> labels; ///< of each reading
    std::vector<std::string> basis;
};

/// So much oxygen that the sample was thinned with air, behind a draft hood or by a leak at the probe.
bool thinned(HeaterBench const& b)
{
    return b.v.flue && b.v.flue->oxygen &&
           probability_above(*b.v.flue->oxygen, b.w.rules.limit<units::Fraction>("flue_thinned")) > 0.5;
}

/// Made to condense: what its flue carries is not worked out.
bool condenses(HeaterBench const& b)
{
    constexpr double dry_most = 0.89; // of the gross heat, with the vapour let go; judgement
    return b.efficiency->value.value() > dry_most;
}

/// Builds it from the visit, with usual values where nothing was said.
class HeaterBuilder
{
public:
    explicit HeaterBuilder(HeaterBench const& b) : b_(b), table_(b.w.engine.heater_tables().fired) {}

    WalkedHeater build()
    {
        out_.known.doubts = heating::usual_heater_doubts(table_);
        plate();
        place();
        water();
        gas_heat();
        read();
        return std::move(out_);
    }

private:
    HeaterBench const& b_;
    heating::FiredHeaterTable const& table_;
    WalkedHeater out_;

    heating::FiredHeater& heater() { return out_.known.heater; }

    void basis(std::string text) { out_.basis.push_back(std::move(text)); }

    template <class Q> Q usual(std::string const& rule) const { return b_.w.rules.limit<Q>(rule).value; }

    void doubt(HeaterUnsure what, double spread)
    {
        for (auto& d : out_.known.doubts)
            if (d.what == what)
                d.spread = units::Number::from_value(spread);
    }

    template <class Q> static double relative(Measured<Q> const& m)
    {
        return units::in_si(m.doubt) / std::abs(units::in_si(m.value));
    }

    void plate()
    {
        heater().fuel = b_.v.energy == visit::EnergyKind::propane ? physics::Fuel::propane : physics::Fuel::natural_gas;
        if (!b_.v.energy)
            basis("the gas is taken for natural gas; which it is was not said");
        heater().plate_input = b_.v.input->value;
        heater().plate_efficiency = b_.efficiency->value;
        if (!b_.v.efficiency && !b_.v.output)
            doubt(HeaterUnsure::efficiency, relative(*b_.efficiency));
        bool const hood =
            b_.v.vent && b_.v.vent->kind &&
            (*b_.v.vent->kind == visit::VentKind::draft_hood || *b_.v.vent->kind == visit::VentKind::outdoor_top);
        heater().draft = hood ? heating::Draft::natural : heating::Draft::fan;
        if (!b_.v.vent || !b_.v.vent->kind)
        {
            doubt(HeaterUnsure::excess_air, units::in_si(usual<units::Number>("spread_air_unknown")));
            basis("how its flue gas is moved was not noted; a fan is taken, with a wide doubt of its air");
        }
    }

    void place()
    {
        heater().air = usual<units::Temperature>("usual_burner_air");
        bool const outdoors = !b_.v.stands || *b_.v.stands == visit::HeaterPlace::outdoors;
        if (outdoors && b_.w.visit.air_temperature)
            heater().air = b_.w.visit.air_temperature->value;
        else
            basis("the burner's air is taken at " + b_.w.show(units::Reading::exact(heater().air)));
        if (!b_.w.visit.altitude)
            return;
        heater().altitude = b_.w.visit.altitude->value;
        if (b_.plate && b_.plate->value < b_.v.input->value)
        {
            heater() =
                heating::set_for_altitude(heater(), units::of_si<units::Fraction>(units::in_si(b_.plate->value) /
                                                                                  units::in_si(b_.v.input->value)));
            doubt(HeaterUnsure::input, std::hypot(relative(*b_.plate), spread_of(HeaterUnsure::input)));
        }
    }

    double spread_of(HeaterUnsure what) const
    {
        for (auto const& d : out_.known.doubts)
            if (d.what == what)
                return d.spread.value();
        return 0;
    }

    void water()
    {
        heater().inlet =
            b_.v.inlet_temperature ? b_.v.inlet_temperature->value : usual<units::Temperature>("usual_water_pool");
        auto const flow = known_flow();
        heater().flow = flow ? flow->value : heating::plate_flow(heater(), table_);
        doubt(HeaterUnsure::flow,
              flow ? relative(*flow) : units::in_si(usual<units::Number>("spread_heater_flow_unknown")));
        if (!flow)
            basis("its flow is not known; one that warms the water by the usual " +
                  b_.w.show(units::Reading::exact(table_.plate.rise)) + " is taken, with a wide doubt");
    }

    LoopEntry const* loop() const
    {
        for (auto const& entry : b_.w.out.loops)
            if (b_.w.property.at(b_.heater).loops.contains(entry.item))
                return &entry;
        return nullptr;
    }

    /// Whether the loop's readings were weighed with this rise among them.
    bool rise_counts_in_loop() const
    {
        auto const* entry = loop();
        return entry != nullptr && std::any_of(entry->readings.begin(), entry->readings.end(),
                                               [&](auto const& r) { return r.item == b_.heater; });
    }

    /// The loop's, by all ways together where the rise counts there; else by a way that does not use the rise.
    visit::Taken<units::VolumeFlow> known_flow() const
    {
        auto const* entry = loop();
        bool const joined = entry != nullptr && entry->flow && rise_counts_in_loop();
        return joined ? entry->flow : b_.flow;
    }

    void gas_heat()
    {
        // What a clocked input already doubts of the heating value is doubted twice so: on the safe side.
        if (b_.v.meter && b_.v.meter->heating_value)
            doubt(HeaterUnsure::gas_heat, relative(*b_.v.meter->heating_value));
    }

    template <class Q> void take(HeaterGauge gauge, char const* label, visit::Taken<Q> const& reading)
    {
        if (!reading)
            return;
        out_.read.push_back({gauge, units::Reading::of(*reading)});
        out_.labels.emplace_back(label);
    }

    void read()
    {
        if (b_.rise && b_.rise_can_be && !part_passes_beside(b_.v) && !rise_counts_in_loop() &&
            units::in_si(b_.rise->value) > 0)
            take(HeaterGauge::rise, "rise", b_.rise);
        if (b_.clocked)
            take(HeaterGauge::clocked_input, "clocked input", b_.input);
        if (!b_.v.flue || thinned(b_))
            return;
        take(HeaterGauge::flue_temperature, "flue gas", b_.v.flue->temperature);
        take(HeaterGauge::oxygen, "oxygen in the flue", b_.v.flue->oxygen);
        if (!b_.v.flue->oxygen) // an analyser works out one of them from the other
            take(HeaterGauge::carbon_dioxide, "carbon dioxide in the flue", b_.v.flue->carbon_dioxide);
        take(HeaterGauge::carbon_monoxide, "carbon monoxide in the flue", b_.v.flue->carbon_monoxide);
    }
};

// ---- the balance

heating::BalanceReadings balance_readings(HeaterBench const& b, WalkedHeater const& walked)
{
    auto const& table = b.w.engine.heater_tables().fired;
    heating::BalanceReadings r;
    r.fuel = walked.known.heater.fuel;
    r.nameplate_input = b.plate;
    if (b.clocked)
        r.clocked_input = b.input;
    r.nameplate_efficiency = *b.efficiency;
    double own = 0; // one heater against the one that was tested
    for (auto const& d : table.doubts)
        if (d.what == HeaterUnsure::efficiency)
            own = d.spread.value() * b.efficiency->value.value();
    r.nameplate_efficiency.doubt = units::of_si<units::Fraction>(std::hypot(b.efficiency->doubt.value(), own));
    double const jacket = table.jacket.value.value();
    double spread = 0;
    for (auto const& d : table.doubts)
        if (d.what == HeaterUnsure::jacket)
            spread = d.spread.value();
    r.jacket = {units::of_si<units::Fraction>(jacket), units::of_si<units::Fraction>(jacket * spread), "usual"};
    if (b.rise_can_be && b.rise && units::in_si(b.rise->value) > 0)
        r.rise = b.rise;
    r.flow = b.flow;
    r.inlet = walked.known.heater.inlet;
    r.air = walked.known.heater.air;
    if (b.v.flue && !thinned(b) && !condenses(b))
        r.flue = b.v.flue->temperature, r.oxygen = b.v.flue->oxygen, r.carbon_dioxide = b.v.flue->carbon_dioxide;
    return r;
}

void balance(HeaterBench const& b, WalkedHeater const& walked, HeaterEntry& entry)
{
    auto const& table = b.w.engine.heater_tables().fired;
    auto const readings = balance_readings(b, walked);
    bool const by_water = readings.rise && readings.flow;
    bool const by_stack = readings.flue && (readings.oxygen || readings.carbon_dioxide);
    if (!by_water && !by_stack)
        return;
    try
    {
        entry.balance = heating::heat_balance(readings, table);
        entry.balance_words = heating::balance_in_words(*entry.balance, readings, table);
        b.w.cited.insert({"iapws-if97", "gum-2008"});
        if (by_stack)
            b.w.cited.insert("gri-mech-thermo");
    }
    catch (figures::NotComputed const& why)
    {
        b.w.out.not_tested.push_back({b.heater, "heat balance", why.what()});
    }
    catch (physics::OutOfRange const& why)
    {
        b.w.out.not_tested.push_back({b.heater, "heat balance", why.what()});
    }
}

// ---- against a sound heater

Accounts account_for(HeaterComparison& comparison, HeaterSignatures const& signatures, double something_else)
{
    Accounts out;
    out.sound = comparison.sound().log_likelihood;
    out.anything = comparison.log_likelihood_of_anything() + std::log(something_else);
    for (auto const& [cause, signature] : signatures.signatures)
    {
        std::vector<double> logs;
        for (auto const& one : signature.does)
            if (auto const account = comparison.with({one.fault, one.least, one.most}))
                logs.push_back(account->log_likelihood);
        if (!logs.empty())
            out.causes.emplace_back(cause, numerics::log_mean(logs));
    }
    // No cause stands for a broken instrument of a heater, but it may be so.
    for (std::size_t i = 0; i < comparison.read().size(); ++i)
        out.anything = std::max(out.anything, comparison.log_likelihood_if_broken(i) + std::log(something_else));
    return out;
}

/// Causes that account for less than a sound heater, where nothing accounts for more: how much less.
std::map<std::string, double> beside(Accounts const& accounts, double least)
{
    std::map<std::string, double> out;
    for (auto const& [cause, log] : accounts.causes)
        if (log > accounts.sound)
            return {};
        else if (double const share = std::max(std::exp(log - accounts.sound), least); share < 1)
            out[cause] = share;
    return out;
}

std::string in_words(Workbench const& w, HeaterEntry const& entry)
{
    std::string off, all;
    for (auto const& r : entry.readings)
    {
        all += (all.empty() ? "" : ", ") + r.label + " " + w.show(r.reading);
        if (std::abs(r.off) >= 1)
            off += (off.empty() ? "" : "; ") + r.label + " " + w.show(r.reading) + " where a sound heater shows " +
                   w.show(r.expected) + ", " + units::show_significant(std::abs(r.off), 2) + " doubts " +
                   (r.off > 0 ? "high" : "low");
    }
    return off.empty() ? "together: " + all : off;
}

/// Heaters and vents beside this one, of which its readings say nothing.
std::set<std::size_t> others(HeaterBench const& b)
{
    std::set<std::size_t> out;
    for (std::size_t i = 0; i < b.w.property.things().size(); ++i)
    {
        std::string const& kind = b.w.property.at(i).entry.kind;
        if ((kind == "heater" && i != b.heater) || (kind == "vent" && i != b.vent))
            out.insert(i);
    }
    return out;
}

void enter(HeaterBench const& b, HeaterComparison& comparison, HeaterEntry const& entry)
{
    auto const& signatures = b.w.engine.heater_tables().signatures;
    auto const accounts = account_for(comparison, signatures, b.w.rules.act("something_else"));
    double const by_chance =
        numerics::chance_above(comparison.sound().chi_squared, static_cast<int>(comparison.read().size()));
    auto weighing = weigh_accounts(accounts, by_chance, b.w.rules);
    auto& pattern = weighing.pattern;
    pattern.item = b.heater;
    pattern.leaves_out = others(b);
    pattern.beside = beside(accounts, 1 - b.w.rules.act("model_trust"));
    for (auto const& r : comparison.read())
        if (auto of_gauge = computed_findings(b.w, b.heater, signatures.same_reading.of(r.gauge)); !of_gauge.empty())
            pattern.same_reading.push_back(std::move(of_gauge));
    b.w.computed(b.heater, "heater_readings_depart", weighing.departs, in_words(b.w, entry));
    if (weighing.nothing_fits)
        b.w.out.questions.push_back({b.heater,
                                     "readings of " + b.w.name(b.heater),
                                     "can't all be so: neither a sound heater nor any one fault known here gives them "
                                     "together. Read them again, once it has burned steadily for ten minutes",
                                     {}});
    pattern.finding = b.w.out.findings.size() - 1;
    b.w.patterns.push_back(std::move(pattern));
}

void hold_against_sound(HeaterBench const& b, WalkedHeater const& walked, HeaterEntry& entry)
{
    if (walked.read.size() < 2) // one reading alone is told by its own limit
        return;
    try
    {
        HeaterComparison comparison(walked.known, walked.read, b.w.engine.heater_tables().fired);
        for (std::size_t i = 0; i < walked.read.size(); ++i)
            entry.readings.push_back({b.heater, walked.labels[i], LoopPlace::heater, walked.read[i].reading,
                                      comparison.sound().shown[i], comparison.off(i), false});
        enter(b, comparison, entry);
        entry.basis = walked.basis;
        b.w.cited.insert({"gri-mech-thermo", "gum-2008"});
    }
    catch (figures::NotComputed const& why)
    {
        b.w.out.not_tested.push_back({b.heater, "readings against a sound heater", why.what()});
    }
    catch (physics::OutOfRange const& why)
    {
        b.w.out.not_tested.push_back({b.heater, "readings against a sound heater", why.what()});
    }
}

} // namespace

void assess_heater_readings(std::vector<HeaterBench> const& heaters)
{
    for (auto const& b : heaters)
    {
        assess_heater_limits(b);
        bool const fires = b.v.fires.value_or(true);
        if (!burns_gas(b.v) || !fires || !b.v.input || !b.efficiency)
            continue;
        if (thinned(b))
            b.w.out.questions.push_back({b.heater,
                                         "oxygen in the flue: " + b.w.show(*b.v.flue->oxygen),
                                         "is what a sample thinned with air shows: was it taken behind a draft hood? "
                                         "Ahead of it counts; nothing was concluded from this one",
                                         {}});
        auto const walked = HeaterBuilder(b).build();
        HeaterEntry entry;
        entry.item = b.heater;
        balance(b, walked, entry);
        hold_against_sound(b, walked, entry);
        if (entry.balance || !entry.readings.empty())
            b.w.out.heaters.push_back(std::move(entry));
    }
}

} // namespace padwalk::assess
