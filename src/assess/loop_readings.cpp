// The readings of a loop held together against a sound one, and against every fault that can be simulated.
#include "accounts.hpp"
#include "walked_loop.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/physics/range.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace padwalk::assess
{
namespace
{

using circulation::LoopAccount;
using circulation::LoopComparison;
using circulation::LoopGauge;

LoopPlace place_of(LoopGauge gauge)
{
    switch (gauge)
    {
    case LoopGauge::suction: return LoopPlace::strainer;
    case LoopGauge::pump_outlet:
    case LoopGauge::motor_power: return LoopPlace::pump;
    case LoopGauge::filter:
    case LoopGauge::filter_when_clean:
    case LoopGauge::behind_filter: return LoopPlace::filter;
    case LoopGauge::heater_rise: return LoopPlace::heater;
    case LoopGauge::flow_meter: break;
    }
    return LoopPlace::returns;
}

/// Sound, each fault and each broken gauge, by how likely they make the readings.
struct LoopAccounts
{
    Accounts logs;
    std::vector<std::pair<std::string, LoopAccount>> causes; ///< those of logs.causes, whole

    [[nodiscard]] std::pair<std::string, LoopAccount> const* best_cause() const
    {
        auto const found = std::max_element(causes.begin(), causes.end(),
                                            [](auto const& a, auto const& b)
                                            { return a.second.log_likelihood < b.second.log_likelihood; });
        return found == causes.end() ? nullptr : &*found;
    }
};

LoopAccounts account_for(LoopComparison& comparison, LoopSignatures const& signatures, double something_else)
{
    LoopAccounts out;
    out.logs.sound = comparison.sound().log_likelihood;
    out.logs.anything = comparison.log_likelihood_of_anything() + std::log(something_else);
    for (auto const& [cause, signature] : signatures.signatures)
        if (auto const account = comparison.with(signature.suspicion()))
        {
            out.causes.emplace_back(cause, *account);
            out.logs.causes.emplace_back(cause, account->log_likelihood);
        }
    for (std::size_t i = 0; i < comparison.read().size(); ++i)
    {
        double const log = comparison.log_likelihood_if_broken(i);
        if (auto const cause = signatures.broken_gauges.of(comparison.read()[i].gauge); !cause.empty())
            out.logs.broken.emplace_back(cause, log);
        else // no cause stands for it, but it may be so
            out.logs.anything = std::max(out.logs.anything, log + std::log(something_else));
    }
    return out;
}

/// For causes that would make the readings less likely than a sound loop does: how much worse the best account fits
/// with them beside it.
std::map<std::string, double> beside(LoopComparison& comparison, LoopSignatures const& signatures,
                                     LoopAccounts const& accounts, double least)
{
    std::map<std::string, double> out;
    auto const* best = accounts.best_cause();
    bool const sound = best == nullptr || accounts.logs.sound >= best->second.log_likelihood;
    std::optional<circulation::PlantFault> first;
    if (!sound)
        for (auto const& [cause, signature] : signatures.signatures)
            if (cause == best->first && signature.fault)
                first = circulation::PlantFault{*signature.fault, best->second.severity};
    for (auto const& [cause, account] : accounts.causes)
    {
        if (account.log_likelihood >= accounts.logs.sound)
            continue;
        double log = account.log_likelihood - accounts.logs.sound;
        if (!sound)
        {
            auto const& signature = std::find_if(signatures.signatures.begin(), signatures.signatures.end(),
                                                 [&c = cause](auto const& s) { return s.first == c; })
                                        ->second;
            auto const both = first ? comparison.with_both(*first, signature.suspicion()) : std::nullopt;
            if (!both)
                continue;
            log = both->log_likelihood - best->second.log_likelihood;
        }
        if (double const share = std::clamp(std::exp(log), least, 1.0); share < 1)
            out[cause] = share;
    }
    return out;
}

/// The one reading without which the others fit a sound loop, while with it they do not.
std::optional<std::size_t> odd_one(LoopComparison const& comparison, double chance)
{
    std::size_t const n = comparison.read().size();
    constexpr double fits_well = 0.25; // judgement: the others must not only just pass
    if (n < 3 || numerics::chance_above(comparison.sound().chi_squared, static_cast<int>(n)) > chance)
        return std::nullopt;
    std::optional<std::size_t> out;
    for (std::size_t i = 0; i < n; ++i)
        if (numerics::chance_above(comparison.chi_squared_without(i), static_cast<int>(n - 1)) > fits_well)
        {
            if (out)
                return std::nullopt; // either may be it
            out = i;
        }
    return out;
}

std::string how_far(double off)
{
    return units::show_significant(std::abs(off), 2) + " doubts " + (off > 0 ? "high" : "low");
}

/// Those that lie off; the table of all of them stands in the report.
std::string in_words(Workbench const& w, LoopEntry const& entry, bool fit)
{
    std::string out;
    for (auto const& r : entry.readings)
        if (std::abs(r.off) >= 1)
            out += (out.empty() ? "" : "; ") + r.label + " " + w.show(r.reading) + " where a sound loop shows " +
                   w.show(r.expected) + ", " + how_far(r.off) + (r.odd ? " and the odd one out" : "");
    if (!out.empty() || fit)
        return out.empty() ? "each reading is what a sound loop shows" : out;
    for (auto const& r : entry.readings)
        out += (out.empty() ? "" : ", ") + r.label + " " + w.show(r.reading);
    return "each alone is what a sound loop may show, but not together: " + out;
}

std::vector<fields::CurvePoint> drawn_pump(circulation::PumpCurve const& curve, units::VolumeFlow most)
{
    constexpr int points = 24;
    std::vector<fields::CurvePoint> out;
    auto const end = std::min(most, curve.greatest_flow());
    for (int i = 0; i <= points; ++i)
    {
        auto const q = curve.least_flow() + (i / static_cast<double>(points)) * (end - curve.least_flow());
        out.push_back({q, curve.head_at(q)});
    }
    return out;
}

/// The head that the sound loop takes: lift and pipes, found by running other pumps against it.
std::vector<fields::CurvePoint> drawn_system(circulation::Plant const& plant, circulation::PlantTable const& table)
{
    std::vector<fields::CurvePoint> out;
    for (double speed = 0.2; speed < 1.35; speed += 0.08)
    {
        circulation::Plant other = plant;
        for (auto& pump : other.pumps)
            pump.speed = pump.speed * speed;
        try
        {
            auto const state = circulation::solve(other, table);
            out.push_back({state.total, state.pump_heads.front()});
        }
        catch (figures::NotComputed const&)
        {
        }
    }
    return out;
}

void draw(LoopEntry& entry, LoopBench const& b, WalkedLoop const& walked, LoopComparison const& comparison)
{
    auto const& tables = b.w.engine.loop_tables();
    auto const& state = comparison.sound_state();
    entry.parts = walked.parts;
    entry.basis = walked.basis;
    entry.pump_is_usual = walked.pump_is_usual;
    circulation::PumpCurve const curve(walked.known.plant.pumps.front().curve, walked.known.plant.pumps.front().speed);
    entry.pump_curve = drawn_pump(curve, 2.0 * state.total);
    entry.sound_system = drawn_system(walked.known.plant, tables.plants);
    entry.sound = LoopDuty{{state.total, comparison.sound_flow_doubt(), "computed"},
                           {state.pump_heads.front(), comparison.sound_head_doubt(), "computed"}};
    if (b.flow || b.head) // what is not known has no doubt either
        entry.measured = LoopDuty{b.flow.value_or(units::Measured<units::VolumeFlow>{}),
                                  b.head.value_or(units::Measured<units::Head>{})};
}

/// Neither a sound loop nor one fault gives these readings: most likely one of them is wrong.
void say_nothing_fits(LoopBench& b, LoopEntry const& entry)
{
    auto const worst = std::max_element(entry.readings.begin(), entry.readings.end(),
                                        [](auto const& x, auto const& y) { return std::abs(x.off) < std::abs(y.off); });
    b.w.out.questions.push_back(
        {b.loop,
         "readings of " + b.w.name(b.loop),
         "can't all be so: neither a sound loop nor any one fault known here gives them together. Read them again, "
         "first the " +
             worst->label +
             ", and look at the unit, the sign and the pump's speed and curve. Until then trust no gauge "
             "and stand clear of the filter",
         {}});
}

/// The findings that speak of the same readings, gauge by gauge, each once.
std::vector<std::vector<std::size_t>> same_readings(LoopBench const& b, WalkedLoop const& walked)
{
    std::vector<std::vector<std::size_t>> out;
    std::set<std::size_t> met;
    for (auto const& r : walked.read)
    {
        std::vector<std::size_t> of_gauge;
        auto const ids = b.w.engine.loop_tables().signatures.same_reading.of(r.gauge);
        for (std::size_t const i : computed_findings(b.w, b.loop, ids))
            if (met.insert(i).second)
                of_gauge.push_back(i);
        if (!of_gauge.empty())
            out.push_back(std::move(of_gauge));
    }
    return out;
}

void enter(LoopBench& b, WalkedLoop const& walked, LoopComparison& comparison, LoopEntry const& entry)
{
    auto const& signatures = b.w.engine.loop_tables().signatures;
    auto const accounts = account_for(comparison, signatures, b.w.rules.act("something_else"));
    double const by_chance = walked.read.empty() ? 1.0
                                                 : numerics::chance_above(comparison.sound().chi_squared,
                                                                          static_cast<int>(walked.read.size()));
    auto weighing = weigh_accounts(accounts.logs, by_chance, b.w.rules);
    auto& pattern = weighing.pattern;
    pattern.item = b.loop;
    pattern.beside = beside(comparison, signatures, accounts, 1 - b.w.rules.act("model_trust"));
    pattern.same_reading = same_readings(b, walked);
    b.w.computed(b.loop, "loop_readings_depart", weighing.departs, in_words(b.w, entry, weighing.by_chance_sound));
    if (weighing.nothing_fits)
        say_nothing_fits(b, entry);
    pattern.finding = b.w.out.findings.size() - 1;
    b.w.patterns.push_back(std::move(pattern));
}

void hold_against_sound(LoopBench& b, WalkedLoop const& walked, LoopEntry& entry)
{
    char const* what = "readings against a sound loop";
    if (!b.speed_known())
        return b.not_tested(b.loop, what, speed_not_recorded);
    try
    {
        auto const& tables = b.w.engine.loop_tables();
        LoopComparison comparison(walked.known, walked.read, tables.plants, tables.sound);
        auto const odd = odd_one(comparison, b.w.rules.act("odd_one_out"));
        for (std::size_t i = 0; i < walked.read.size(); ++i)
            entry.readings.push_back({walked.items[i], walked.labels[i], place_of(walked.read[i].gauge),
                                      walked.read[i].reading, comparison.sound().shown[i], comparison.off(i),
                                      odd == i});
        draw(entry, b, walked, comparison);
        enter(b, walked, comparison, entry);
    }
    catch (figures::NotComputed const& why)
    {
        b.not_tested(b.loop, what, why.what());
    }
    catch (physics::OutOfRange const& why)
    {
        b.not_tested(b.loop, what, why.what());
    }
}

} // namespace

void loop_readings(LoopBench& b)
{
    auto const walked = walked_loop(b);
    bool const now = std::any_of(walked.read.begin(), walked.read.end(),
                                 [](auto const& r) { return r.gauge != LoopGauge::filter_when_clean; });
    if (!now)
        return;
    LoopEntry entry;
    entry.item = b.loop;
    entry.flows = b.ways;
    entry.flow = b.ways.empty() ? std::nullopt : b.flow;
    entry.flow_words = b.flow_words;
    hold_against_sound(b, walked, entry);
    if (!entry.readings.empty() || entry.flows.size() > 1)
        b.w.out.loops.push_back(std::move(entry));
}

} // namespace padwalk::assess
