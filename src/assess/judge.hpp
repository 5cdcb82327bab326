#pragma once
#include "property_network.hpp"
#include "workbench.hpp"

namespace padwalk::assess
{

/// What the evidence says of every cause, and what each piece of it said.
struct Weighed
{
    PropertyNetwork network;
    std::vector<diagnosis::Evidence> evidence; ///< one for each of Assessment::findings
    diagnosis::Posterior all;
    std::vector<diagnosis::Posterior> without; ///< each piece of evidence left out in turn
    std::map<std::string, double> gains;       ///< of each check at its best place, by id, whoever may do it
    std::vector<std::size_t> shown;            ///< for each of Assessment::causes, its place in the network
};

Weighed weigh(Workbench& w);
void name_causes(Workbench& w, Weighed& weighed);
void look_for_conflict(Workbench& w, Weighed const& weighed);
void raise_alarms(Workbench& w);
/// How soon a cause calls, by what it is and how likely: stopping use wants danger and more than a hint of it.
[[nodiscard]] Urgency urgency_of(Workbench const& w, diagnosis::CauseEntry const& cause, double probability);
void refer(Workbench& w);
void give_verdicts(Workbench& w);
void choose_checks(Workbench& w, Weighed& weighed);
/// What was seen and has no likely cause; wants the gains of the checks.
void name_undecided(Workbench& w, Weighed const& weighed);
void summarise(Workbench& w);
void collect_cautions_and_sources(Workbench& w);

} // namespace padwalk::assess
