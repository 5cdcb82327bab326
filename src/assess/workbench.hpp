#pragma once
#include "padwalk/assess/assess.hpp"

#include "property.hpp"
#include "rules.hpp"

#include <map>
#include <set>

namespace padwalk::assess
{

/// What a heater gives to the water that passes it, and by how much it warms it.
struct HeatOfHeater
{
    std::size_t heater = 0;
    units::Measured<units::Power> heat{};
    units::Measured<units::TemperatureDifference> rise{};
    bool clocked = false;                 ///< the input was measured, or is an element's
    visit::Taken<units::VolumeFlow> flow; ///< that follows from them
};

/// What the readings of a loop or a heater, taken together, say of causes: how well each accounts for them.
struct ReadingsPattern
{
    std::size_t item = 0;                   ///< the loop or the heater
    std::size_t finding = 0;                ///< in Assessment::findings
    std::set<std::size_t> leaves_out = {};  ///< items beside it that these readings say nothing of
    double sound = 1.0;                     ///< of a sound one, 1 for the best account
    std::map<std::string, double> accounts; ///< by cause: the same of each that can be simulated
    std::map<std::string, double> beside;   ///< by cause that accounts for less than a sound one: how much worse the
                                            ///< best account becomes with it
    /// Findings that speak of the same readings, those of one gauge together.
    std::vector<std::vector<std::size_t>> same_reading;

    [[nodiscard]] bool speaks_for(std::size_t finding_of_a_gauge) const
    {
        for (auto const& gauge : same_reading)
            for (std::size_t const i : gauge)
                if (i == finding_of_a_gauge)
                    return true;
        return false;
    }
};

/// The assessment while it is being made: figures and findings are laid on it, room by room.
class Workbench
{
public:
    Workbench(visit::ReadVisit const& read, Engine const& engine, units::System system,
              std::vector<std::string> asked_about = {});

    visit::Visit const& visit;
    Engine const& engine;
    units::System system; ///< of the texts that name quantities
    Rules rules;
    Assessment out;
    Property property;
    std::vector<diagnosis::Evidence> evidence; ///< one for each of out.findings, by place there
    std::set<std::string> cited;               ///< keys of sources that sentences name
    std::vector<HeatOfHeater> heats;
    std::vector<ReadingsPattern> patterns;
    std::map<std::pair<std::size_t, std::string>, std::string> at_once; ///< by item and finding: what to do at once,
                                                                        ///< where it goes by the reading
    std::vector<std::string> asked;                                     ///< ids of causes to explain in full
    std::map<std::string, double> trade_chance; ///< that at least one cause that calls for the trade is there
    std::vector<std::string> shared_reading; ///< for each of out.findings: the reading it shares with others, or empty

    /// Runs a model. The figure is kept if it was computed, or if it had what it needs and still could not be.
    figures::Figure figure(std::size_t item, std::string const& model, figures::Inputs const& inputs,
                           std::string label);
    /// Says what the last figure kept means.
    void meaning(std::string text);
    /// The same, instead of the figure's own words, which know no doubt.
    void verdict(std::string text);

    /// A finding that was computed with this probability; `from` says by which comparison. Computed again at the same
    /// item, the larger probability stands: it is so if either comparison says so.
    ///
    /// Findings that follow from one reading and point the same way (a small rise and the small efficiency worked out
    /// from it) are given its name as `reading`; together they then count for one piece of evidence.
    void computed(std::size_t item, std::string const& id, double probability, std::string from,
                  std::string const& reading = {});
    /// A finding that was noticed, or looked for and not there.
    void noticed(std::size_t item, std::string const& id, bool there, std::string from);

    [[nodiscard]] std::string show(units::Reading const& r, std::string_view unit = {}) const;
    template <units::Quantity Q>
    [[nodiscard]] std::string show(units::Measured<Q> const& m, std::string_view unit = {}) const
    {
        return show(units::Reading::of(m), unit);
    }
    /// Of a water, as given, else as its shape gave it.
    [[nodiscard]] visit::Taken<units::Volume> volume_of(std::size_t water) const;
    [[nodiscard]] visit::Taken<units::Area> area_of(std::size_t water) const;
    [[nodiscard]] std::string const& name(std::size_t item) const { return property.at(item).entry.name; }

private:
    bool last_kept_ = false;
};

/// Each lays its figures and findings on the bench.
void assess_waters(Workbench& bench);
/// One loop, its parts and what of it is known: loop_bench.hpp.
struct LoopBench;
/// What stands at each loop, its gauges and the flow on the pump's curve; the heaters need it.
[[nodiscard]] std::vector<LoopBench> read_loops(Workbench& bench);
/// What follows from that, and from what the heaters give.
void assess_loops(std::vector<LoopBench>& loops);
/// One heater and what of it is known: heater_bench.hpp.
struct HeaterBench;
[[nodiscard]] std::vector<HeaterBench> assess_heaters(Workbench& bench);
/// Its balance, and its readings against a sound heater.
void assess_heater_readings(std::vector<HeaterBench> const& heaters);
/// Where something drips from a heater, by notes too: whether it may be dew.
void tell_dew_from_leak(std::vector<HeaterBench> const& heaters);
void assess_fill_valves(Workbench& bench);
/// What was found, to be held beside the chances when those are known.
void read_found(Workbench& bench);
void read_notes(Workbench& bench);
/// Whether a loop draws from one outlet alone, and what then lets go of a person: by fields and by notes, so after
/// both.
void assess_outlets(Workbench& bench);
void list_readings(Workbench& bench);
/// Findings to causes, verdicts, referrals, checks.
void judge(Workbench& bench);

} // namespace padwalk::assess
