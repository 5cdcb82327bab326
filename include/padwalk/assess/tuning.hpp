#pragma once
/// What technicians found over many visits, counted, and what it says of the judged numbers of the knowledge. Nothing
/// here changes the knowledge: it proposes.

#include "padwalk/assess/assess.hpp"

namespace padwalk::assess
{

/// data/assess/tuning.yaml: what a judged number is worth against what is found.
struct TuningRules
{
    units::Number base_rate_cases{}; ///< items with the cause that a judged base rate stands for
    units::Number weight_cases{};    ///< looks of the rarer outcome that a judged weight stands for
    units::Fraction silence{};       ///< what a cause that was not spoken of counts for, of one that was ruled out
    units::Number worth_change{};    ///< factor on the odds from which a change is proposed
    static fields::Record<TuningRules> const& declaration();
};

/// Throws reference::DataProblems.
[[nodiscard]] TuningRules tuning_rules(reference::Data const& data);

/// A judged chance after what was found. `low` and `high` hold 95 % of what it may be.
struct TunedChance
{
    double old = 0.0;
    double now = 0.0; ///< mean of what it may be
    double low = 0.0, high = 0.0;
};

/// A cause at one item that a technician looked into.
struct CauseLookedFor
{
    double assessed = 0.0; ///< the chance that the assessment gave it, from what was seen
    bool there = false;
    double counts = 1.0; ///< 1: it was spoken of
};

/// A base rate x after what was found.
///
/// Before: Beta(s m, s (1 − m)) about the judged rate m, with s = `cases` / min(m, 1 − m). What was seen at an item
/// changes the odds of a cause by a factor that does not depend on its base rate, so
///
///     logit P(there | seen, x) = logit(assessed) + logit(x) − logit(m)
///
/// and the chance of what was found is the product of these over the items. That somebody was called because of what
/// was seen is thereby allowed for; that somebody was called for reasons that stand in no visit is not. Where nothing
/// spoke for or against the cause (assessed = m everywhere) the answer is the Beta distribution with the counts added.
/// Integrated over x numerically, on logit(x).
///
/// Accuracy: 1e-4 relative in odds, against closed forms of the Beta distribution (tuning_test.cpp)
/// Range:    0 < m < 1, otherwise m is returned as it is; `cases` above 0
/// Source:   Bayes' rule; derived here
[[nodiscard]] TunedChance tuned_base_rate(double judged, double cases, std::vector<CauseLookedFor> const& looks);

/// A finding looked for where the cause was confirmed.
struct LinkLookedFor
{
    bool seen = false;
    double otherwise = 0.0; ///< chance that it would be there without this cause
};

/// A link's weight w after what was found: Beta(s m, s (1 − m)) before, as above, and of each look
///
///     P(seen | cause there) = 1 − (1 − otherwise) (1 − w)
///
/// so that a finding that shows anyway says little of the cause. With otherwise = 0 it is the Beta distribution with
/// the counts added. Accuracy and range as above.
[[nodiscard]] TunedChance tuned_weight(double judged, double cases, std::vector<LinkLookedFor> const& looks);

/// One cause over all items of its kind at which anything was found.
struct CauseRecord
{
    std::size_t there = 0, ruled_out = 0, not_spoken = 0;
    double expected = 0.0; ///< sum of the chances that the assessments gave it
    std::vector<CauseLookedFor> looks;
};

/// One link over all items at which its cause was confirmed.
struct LinkRecord
{
    std::size_t seen = 0, not_seen = 0;
    std::vector<LinkLookedFor> looks;
};

/// How well the assessments did where it is known what it was.
struct FoundScores
{
    std::size_t confirmed = 0;   ///< causes that were there
    std::size_t first = 0;       ///< of these, told as the likeliest
    std::size_t in_three = 0;    ///< told among the first three
    std::size_t not_told = 0;    ///< not named at all
    std::size_t judged = 0;      ///< causes that were there or ruled out, of which a chance was computed
    double squares = 0.0;        ///< sum of (chance − what it was)² over these; over `judged` it is the Brier score
    double squares_before = 0.0; ///< the same of the chances before anything was seen
};

/// What was found over many visits.
struct FoundRecord
{
    std::size_t visits = 0;                 ///< in which something was found
    std::size_t without = 0;                ///< read, and nothing was found or nothing was written of it
    std::size_t items = 0;                  ///< looked into
    std::size_t not_known = 0, unclear = 0; ///< entries that fit no cause, or not surely one
    std::map<std::string, CauseRecord> causes;
    std::map<std::pair<std::string, std::string>, LinkRecord> links; ///< by cause and finding
    FoundScores scores;

    /// Counts one visit.
    void add(Assessment const& assessment, double silence);
};

/// A number of the knowledge that what was found would change.
struct ProposedChange
{
    std::string cause, cause_name;
    std::string finding, finding_name; ///< of a link; empty for a base rate
    TunedChance chance;
    CauseRecord found; ///< of a base rate
    LinkRecord looked; ///< of a link
    [[nodiscard]] bool outside() const { return chance.old < chance.low || chance.old > chance.high; }
};

struct FileNotRead
{
    std::string file;
    std::string error; ///< in one or more lines
};

/// To be looked over by someone who knows; nothing is changed by it.
struct TuningProposal
{
    TuningRules rules;
    FoundRecord record;
    std::vector<ProposedChange> base_rates, weights; ///< judged numbers outside their interval first, then by size
    std::vector<FileNotRead> not_read;
};

/// What would change, from counts.
[[nodiscard]] TuningProposal proposal(FoundRecord record, TuningRules const& rules,
                                      diagnosis::Knowledge const& knowledge);

/// Reads each visit (path, text), assesses it and counts what was found. One that can't be read is named, and the
/// others go on.
[[nodiscard]] TuningProposal tune(std::vector<std::pair<std::string, std::string>> const& files, Engine const& engine);

} // namespace padwalk::assess
