#pragma once
#include "property_network.hpp"
#include "workbench.hpp"

namespace padwalk::assess
{

/// A check at an item, by what it would tell.
struct PossibleCheck
{
    std::string const* id;
    diagnosis::CheckEntry const* entry;
    std::size_t item;
    double gain = 0.0;                           ///< expected fall of the causes' uncertainty, bits
    std::pair<std::string, std::size_t> settles; ///< the most telling finding, and where
    std::vector<std::string> tells;              ///< names of all findings it bears on
    std::string changes;                         ///< what it would do if the most telling finding is there, in words
    std::string otherwise;                       ///< and if it is not
    std::vector<double> by_cause;                ///< of the first of Assessment::causes: what it tells of each, bits
};

/// What the evidence says of every cause, and what each piece of it said.
struct Weighed
{
    PropertyNetwork network;
    std::vector<diagnosis::Evidence> evidence; ///< one for each of Assessment::findings
    /// What a finding says beyond that, by its place: how the readings of a loop speak against causes.
    std::vector<std::pair<std::size_t, diagnosis::Evidence>> besides;
    diagnosis::Posterior all;
    std::vector<diagnosis::Posterior> without; ///< each piece of evidence left out in turn
    std::vector<PossibleCheck> checks;         ///< those that may be done here by someone, best first
    std::vector<std::size_t> shown;            ///< for each of Assessment::causes, its place in the network

    /// All of it, or all that does not come from one finding.
    [[nodiscard]] std::vector<diagnosis::Evidence> evidence_without(std::optional<std::size_t> finding = {}) const;
};

/// Adds what is not there yet.
void add_once(std::vector<std::string>& list, std::vector<std::string> const& more);
/// A cause that stops use because people can be hurt.
[[nodiscard]] bool stops(CauseEntryOf const& cause);

Weighed weigh(Workbench& w);
/// Lays what the readings of a loop say together into the network, and silences what says the same.
void lay_patterns(Workbench const& w, Weighed& weighed);
/// Where on its loop each cause sits that is named.
void place_faults(Workbench& w);
void name_causes(Workbench& w, Weighed& weighed);
/// P(none of these causes of the network | evidence).
[[nodiscard]] double chance_of_none(Weighed const& weighed, std::vector<std::size_t> const& causes);
/// What stands beside the causes named: nothing wrong, and what is not known here.
void explain_items(Workbench& w, Weighed const& weighed);
/// How far the order holds when every judged number is off by a factor of two.
void try_robustness(Workbench& w, Weighed const& weighed);
/// The causes that were asked about, in full.
void explain_asked(Workbench& w, Weighed& weighed);
/// What was found, beside what the assessment says of it.
void weigh_found(Workbench& w, Weighed& weighed);
/// One cause of the network as the assessment gives it, with what speaks for it and against it.
[[nodiscard]] CauseEntryOf cause_as_told(Workbench const& w, Weighed const& weighed, std::size_t cause);
/// Natural log of the odds, within what says more than 'settled'.
[[nodiscard]] double told_log_odds(double probability);
void look_for_conflict(Workbench& w, Weighed const& weighed);
void raise_alarms(Workbench& w);
/// How soon a cause calls, by what it is and how likely: stopping use wants danger and more than a hint of it.
[[nodiscard]] Urgency urgency_of(Workbench const& w, diagnosis::CauseEntry const& cause, double probability);
void refer(Workbench& w);
/// What each trade that is called should check when it comes.
void choose_trade_checks(Workbench& w);
/// Names at each referral the licence classes of the state that the visit names; nothing where it names none.
void name_licences(Workbench& w);
void give_verdicts(Workbench& w);
/// Every check that the dangers at hand allow, by what it would tell.
void weigh_checks(Workbench& w, Weighed& weighed);
/// The best of them that this person may do.
void choose_checks(Workbench& w, Weighed const& weighed);
/// What was seen and has no likely cause; wants the checks weighed.
void name_undecided(Workbench& w, Weighed const& weighed);
void summarise(Workbench& w);
void collect_cautions_and_sources(Workbench& w);

} // namespace padwalk::assess
