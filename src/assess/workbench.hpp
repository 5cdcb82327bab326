#pragma once
#include "padwalk/assess/assess.hpp"

#include "property.hpp"
#include "rules.hpp"

#include <set>

namespace padwalk::assess
{

/// The assessment while it is being made: figures and findings are laid on it, room by room.
class Workbench
{
public:
    Workbench(visit::ReadVisit const& read, Engine const& engine, units::System system);

    visit::Visit const& visit;
    Engine const& engine;
    units::System system; ///< of the texts that name quantities
    Rules rules;
    Assessment out;
    Property property;
    std::vector<diagnosis::Evidence> evidence; ///< one for each of out.findings, by place there
    std::set<std::string> cited;               ///< keys of sources that sentences name
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
    [[nodiscard]] std::string const& name(std::size_t item) const { return property.at(item).entry.name; }

private:
    bool last_kept_ = false;
};

/// Each lays its figures and findings on the bench.
void assess_waters(Workbench& bench);
void assess_loops(Workbench& bench);
void assess_heaters(Workbench& bench);
void assess_fill_valves(Workbench& bench);
void read_notes(Workbench& bench);
void list_readings(Workbench& bench);
/// Findings to causes, verdicts, referrals, checks.
void judge(Workbench& bench);

} // namespace padwalk::assess
