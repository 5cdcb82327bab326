#pragma once

#include "influences.hpp"

#include <cstddef>
#include <vector>

namespace padwalk::diagnosis
{

/// A finding whose evidence ties its parents together: none can be weighed without the others.
struct Tie
{
    std::size_t finding;
    Fired leak;
    std::vector<Link> parents; ///< at least two
};

/// What is done next to the table over all that is open. A cause is open from its first link to its last ("is it
/// present?"), a finding from its first link to its last ("has it fired by now?"). Each is one bit of the position.
struct SweepStep
{
    enum class Act
    {
        open_cause,
        open_finding,
        link, ///< the cause, if present, may fire the finding
        close_finding,
        close_cause
    };

    Act act;
    std::size_t cause;   ///< as SweepPlan::tied_causes
    std::size_t finding; ///< as SweepPlan::ties
    unsigned cause_bit;
    unsigned finding_bit;
    double weight; ///< of the link
};

/// In which order the links are gone through. What opens takes the highest bit; what closes leaves no gap.
struct SweepPlan
{
    std::vector<Tie> ties;
    std::vector<std::size_t> tied_causes; ///< in increasing number
    std::vector<SweepStep> steps;
    double entries; ///< of all the tables that are made; one is made wherever a cause or finding opens
};

/// The order is greedy: all that is left of one cause or finding after the other, always of the one near what is open
/// that leaves least open. If that is dear, a few more such orders are tried and the cheapest is taken; among them are
/// causes only, whose tables have no more bits than there are ties and one, and findings only, with as many as there
/// are tied causes and one.
///
/// Throws: TooEntangled
[[nodiscard]] SweepPlan plan_sweep(std::vector<Tie> ties, std::size_t causes);

} // namespace padwalk::diagnosis
