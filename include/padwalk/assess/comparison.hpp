#pragma once
/// Two visits of one property held against each other: what agrees, what changed, which causes were confirmed, what is
/// resolved and what is open. Plain data; nothing is judged anew.

#include "padwalk/assess/assessment.hpp"

namespace padwalk::assess
{

/// How a matter stands at the later visit.
enum class Standing
{
    open,     ///< was there and is there still, or nobody looked, or it can't be told
    fresh,    ///< is there now and was not seen then
    resolved, ///< was there; looked for now and not seen, or it works
    well,     ///< no fault at either visit
    not_told  ///< no fault then, and now not tested or can't be told
};

/// A thing at the property, matched by where it stands in the visit file.
struct ItemCompared
{
    std::string path, name, kind;
    std::optional<std::size_t> then, now; ///< in Assessment::items of each visit
    std::optional<Verdict> verdict_then, verdict_now;
    Standing standing = Standing::not_told;
};

/// How a value of one visit stands to that of the other.
enum class Changed
{
    agrees,    ///< within the doubt of both
    changed,   ///< by more than that; or other words
    only_then, ///< not taken now
    only_now
};

/// The amount by which a value differs between the visits.
///
///     by = now − then,   doubt = √(u_then² + u_now²),   agrees where |by| ≤ 2 doubt
///
/// with u the standard uncertainty of each, taken as independent; coverage 2 [gum-2008]. An instrument that reads
/// wrong the same way at both visits makes the two agree better than that. On the edge it agrees. Where neither has a
/// doubt, they agree if they are equal as far as ten digits.
struct Difference
{
    double by = 0.0;              ///< SI, now less then
    double doubt = 0.0;           ///< standard uncertainty of it, SI
    std::optional<double> doubts; ///< |by| over doubt; none where there is no doubt
    Changed changed = Changed::agrees;
};

[[nodiscard]] Difference difference(double then, double doubt_then, double now, double doubt_now);

/// A reading of one visit.
struct ReadingSide
{
    units::Reading reading;
    std::string words;    ///< where it is no quantity
    std::string taken_at; ///< of a water test: when, as text; empty: at the visit
};

/// A reading matched by item and field. Of several water tests the newest that has the field counts.
struct ReadingCompared
{
    std::size_t item = 0; ///< in Comparison::items
    std::string label;    ///< 'filter gauge'
    fields::FieldShape const* shape = nullptr;
    std::optional<ReadingSide> then, now;
    Changed changed = Changed::agrees;
    std::optional<Difference> difference; ///< where both are quantities
    bool other_instrument = false;        ///< the two were not read by the same means
};

/// A figure matched by model, label and item, by its main output. Its interval gives its doubt; the two may rest on the
/// same assumptions, and then agree better than that.
struct FigureCompared
{
    std::size_t item = 0;
    std::string label, model;
    std::string output; ///< name of the output
    std::optional<figures::OutputValue> then, now;
    std::string why_not_then, why_not_now; ///< where it was tried and not computed
    Changed changed = Changed::agrees;
    std::optional<Difference> difference; ///< where both were computed
};

/// A finding at an item. Notes go before what was computed; contrary notes can't be told.
struct FindingCompared
{
    std::size_t item = 0;
    std::string id, name;
    std::optional<FindingState> then, now; ///< none: nobody looked
    std::string from_then, from_now;
    Standing standing = Standing::not_told;
};

/// Whether a cause was really there, as `found:` of either visit says; the later visit goes before.
enum class FoundAs
{
    not_spoken,
    confirmed,
    ruled_out
};

/// A cause that either visit names, or that was spoken of in `found:`.
struct CauseCompared
{
    std::size_t item = 0;
    std::string id, name;
    std::optional<double> then, now; ///< chance; none: not named and not computed for what was found
    std::size_t rank_then = 0;       ///< among those named then at this item, by chance; 0: not named
    FoundAs found = FoundAs::not_spoken;
    bool stops_use = false;   ///< it was found there, and people can be hurt by it
    std::string written = {}; ///< in `found:`
};

/// What was found at an item and fits no cause, or not surely one: as written.
struct OtherFound
{
    std::size_t item = 0;
    std::string words;
    FoundMeaning meaning = FoundMeaning::not_known;
};

enum class AlarmNow
{
    stands,        ///< then and now
    fresh,         ///< now, and not then
    not_looked_at, ///< then; nobody looked since, or it can't be told: it stands until somebody does
    gone           ///< then; looked for now and not there
};

struct AlarmCompared
{
    std::size_t item = 0;
    std::string finding, name; ///< id and name of the finding
    Urgency urgency = Urgency::stop_use;
    std::string say, trade;
    std::vector<std::string> cautions; ///< ids
    AlarmNow state = AlarmNow::stands;
};

/// Something that is resolved, open or new, in one line.
struct Matter
{
    std::size_t item = 0;
    std::string what;    ///< name of a finding or of a cause, or how the item stands
    std::string why;     ///< 'looked for and not seen', 'not looked at this time'
    bool danger = false; ///< people can be hurt by it
};

/// What the comparison amounts to.
enum class Left
{
    nothing, ///< open or new
    something,
    unsafe
};

struct Comparison
{
    std::string property;           ///< of the later visit, else of the earlier
    std::string on_then, on_now;    ///< as written; empty: undated
    std::vector<std::string> notes; ///< what is odd about the pair: wrong order, another property, nothing in common
    Left left = Left::nothing;
    std::vector<ItemCompared> items;   ///< items[0] is the property; then as in the later visit, then only-then ones
    std::vector<AlarmCompared> alarms; ///< those that stand first, most urgent first; those gone last
    std::vector<Matter> open, fresh, resolved; ///< dangers first
    std::vector<ReadingCompared> readings;
    std::vector<FigureCompared> figures;
    std::vector<FindingCompared> findings;
    std::vector<CauseCompared> causes; ///< those found first, then by the larger chance
    std::vector<OtherFound> other;
    std::size_t marks_then = 0, marks_now = 0; ///< readings of level marks, which count from a mark of their own
};

/// Holds the later of two assessments against the earlier. In whatever order they are given, nothing is left out; what
/// is odd about the pair stands in `notes`. Same input, same output.
[[nodiscard]] Comparison compare(Assessment const& earlier, Assessment const& later);

} // namespace padwalk::assess
