#pragma once
/// What a visit amounts to: plain data, complete, in the order of a report. Renderers compute nothing.

#include "padwalk/assess/level_course.hpp"
#include "padwalk/diagnosis/knowledge.hpp"
#include "padwalk/figures/figure.hpp"
#include "padwalk/heating/heat_balance.hpp"
#include "padwalk/heating/heat_up.hpp"
#include "padwalk/level/level_settling.hpp"
#include "padwalk/venting/vent_rules.hpp"
#include "padwalk/visit/visit.hpp"

namespace padwalk::assess
{

using diagnosis::Urgency;

/// One thing at the property: 'pump of spa loop'. Items refer to each other by their place in Assessment::items.
struct ItemEntry
{
    std::string kind; ///< pump, filter, heater … as in the knowledge
    std::string name; ///< as a report says it
    std::string path; ///< where it stands in the visit file: 'loops/spa loop/pump'
    std::string where;
    std::string notes;
    std::vector<visit::Photo> photos;
};

/// A reading as taken, for the referral.
struct ReadingTaken
{
    std::size_t item = 0;
    fields::FieldShape const* shape = nullptr;
    std::string label; ///< 'filter gauge'
    units::Reading reading;
    std::string words;       ///< where it is no quantity: 'yes', 'part open'
    std::string record = {}; ///< whose field it is: 'filter'
    std::string when = {};   ///< where it has a time of its own; else that of the visit
};

/// A computed figure and what it means here.
struct FigureEntry
{
    std::size_t item = 0;
    std::string label; ///< 'turnover of spa loop'
    figures::Figure figure;
    std::string meaning; ///< in plain words, with the limit and whose it is; empty where the number says it all
};

enum class FindingState
{
    seen,     ///< noticed, or computed as likely so
    not_seen, ///< looked for and not there, or computed as likely not so
    unclear   ///< computed, and the doubt is too large to say
};

struct FindingEntryOf
{
    std::string id;
    std::string name;
    std::size_t item = 0;
    FindingState state = FindingState::seen;
    double probability = 1.0; ///< that it is so; 1 or 0 where noticed
    bool computed = false;
    std::string from; ///< the note as written, or the comparison that was computed
};

/// A finding's weight for or against one cause, in natural log of the odds.
struct WeightEntry
{
    std::size_t finding = 0; ///< in Assessment::findings
    double log_odds = 0.0;
};

struct CauseEntryOf
{
    std::string id;
    std::string name, meaning, ask, meanwhile;
    std::size_t item = 0;
    double prior = 0.0;
    double probability = 0.0;
    Urgency urgency = Urgency::plan;
    bool hurts_people = false;
    std::string trade;                                   ///< id, or 'none'
    std::vector<std::string> cautions;                   ///< ids
    std::vector<WeightEntry> speaks_for, speaks_against; ///< strongest first
};

/// Something dangerous or faulty in itself, whatever its cause.
struct Alarm
{
    std::size_t item = 0;
    std::size_t finding = 0;
    Urgency urgency = Urgency::stop_use;
    std::string say;
    std::string trade;
    std::vector<std::string> cautions;
    std::vector<std::size_t> closes = {}; ///< waters that nobody may be in until it is put right, in Assessment::items
};

enum class Condition
{
    unsafe,
    does_not_work,
    works_with_fault,
    cannot_tell, ///< something was seen that may be a fault or nothing
    works,       ///< tried, and no fault found
    not_tested
};

struct Verdict
{
    std::size_t item = 0;
    Condition condition = Condition::not_tested;
    std::string because; ///< one line
};

/// A class of licence, as the state calls it.
struct LicenceClass
{
    std::string name;
    std::string key;          ///< of its source
    bool from_memory = false; ///< not confirmed; to be said wherever it is shown, and not cited
};

/// A check for the trade that comes: it would tell most of the causes it comes for.
struct TradeCheck
{
    std::string id, name, needs;
    std::size_t item = 0;
    double minutes = 0.0;
    std::string if_so, if_not;
    fields::Named<std::string> cautions; ///< id and sentence
};

/// What one licensed trade is asked to do.
struct Referral
{
    std::string trade; ///< id
    std::string name;  ///< 'licensed electrician'
    std::string why;   ///< what it is licensed for
    Urgency urgency = Urgency::plan;
    std::vector<std::size_t> causes; ///< in Assessment::causes, likeliest first
    std::vector<std::size_t> alarms; ///< in Assessment::alarms
    std::vector<std::string> cautions;
    std::vector<LicenceClass> licences = {}; ///< in the state that the visit names
    std::string licence_note = {};
    std::vector<TradeCheck> checks = {}; ///< that nobody did yet, most telling first
};

/// A check that this person may do safely, by what it would tell.
struct NextCheck
{
    std::string id, name, needs;
    std::size_t item = 0;
    double minutes = 0.0;
    double gain = 0.0;                 ///< expected loss of uncertainty about the causes, bits
    std::vector<std::string> tells;    ///< names of the findings
    std::vector<std::string> cautions; ///< ids
    std::string changes;               ///< what it would do if the most telling finding is there, in words
    std::string otherwise;             ///< and if it is not
    diagnosis::Risk risk = diagnosis::Risk::none;
    std::string if_so, if_not; ///< what each means, as the knowledge says it
};

/// Something seen that has several possible causes and none that is likely: it can't be told from here.
struct Undecided
{
    std::size_t finding = 0;
    std::vector<std::size_t> causes;  ///< in Assessment::causes, those that may be behind it
    std::string decides;              ///< the check that would tell most, whoever may do it; empty if none is known
    std::vector<std::string> by_whom; ///< 'inspector', 'technician', 'owner'
    double minutes = 0.0;
    std::string needs;
    std::vector<std::string> cautions; ///< of that check, ids
};

/// What stands beside the causes that are named, for one item at which something was found.
struct ItemExplained
{
    std::size_t item = 0;
    double nothing_wrong = 0.0;  ///< chance that no cause that calls for anyone is there
    double something_else = 0.0; ///< chance of a cause that this tool does not know
};

/// How far the answer holds when every judged number is off by a factor of two, at random up or down.
struct Robustness
{
    std::size_t tries = 0;       ///< 0: there was no cause to hold
    std::size_t likeliest = 0;   ///< tries in which the likeliest cause stays the likeliest
    std::size_t first_trade = 0; ///< tries in which the trade with most to come for stays the same
    std::string words;
};

/// What one of the findings that a cause shows says of it here.
struct ShownFinding
{
    std::string finding; ///< id
    std::string name;
    std::size_t item = 0;
    double weight = 0.0;                ///< chance that the cause alone produces it
    double leak = 0.0;                  ///< chance of it with none of the causes
    std::optional<std::size_t> noticed; ///< in Assessment::findings; none: nobody looked
    double log_odds = 0.0;              ///< what it does to this cause, where it was noticed or computed
};

/// A cause that was asked about, at one item, in full.
struct CauseAsked
{
    CauseEntryOf cause;
    double base_rate = 0.0;
    std::string why_rate;
    std::vector<std::pair<std::string, double>> changed_by; ///< contexts that hold here, and their factors on the odds
    std::vector<ShownFinding> shows;                        ///< most telling first, then by weight
    std::vector<WeightEntry> besides;                       ///< findings that it does not show and that change its odds
    std::vector<std::string> checks;                        ///< what would tell more, and who may do it
};

/// How an entry of what was found was understood.
enum class FoundMeaning
{
    cause,
    not_known, ///< fits no cause that is known; kept as written
    unclear    ///< may mean one or several: asked back
};

/// A finding that a confirmed cause shows, that was looked for.
struct ShownOrNot
{
    std::string finding; ///< id
    bool seen = false;
    double otherwise = 0.0; ///< chance of it without this cause
};

/// What a technician found, beside what the assessment says of it. It changes no chance.
struct FoundEntry
{
    std::size_t item = 0;
    bool was = true;   ///< there; else looked for and not there
    std::string words; ///< as written
    FoundMeaning meaning = FoundMeaning::not_known;
    std::string cause, name;           ///< id and name, where it means one
    std::vector<std::string> may_mean; ///< ids, where it is unclear
    double prior = 0.0;
    std::optional<double> probability; ///< from what was seen; none: it can't be here, or none was computed
    std::size_t rank = 0;          ///< among the causes named, by likelihood, those also found left out; 0: not named
    std::vector<ShownOrNot> shows; ///< where it was there
    bool stops_use = false;        ///< it was there, and people can be hurt by it
    std::string trade, meanwhile;  ///< only then
    std::vector<std::string> cautions; ///< only then; ids
};

/// An item at which anything was found, with the chance of every cause that may be there: by id.
struct ItemLookedInto
{
    std::size_t item = 0;
    std::vector<std::pair<std::string, double>> chances;
};

/// A note that was not understood, or not surely.
struct Question
{
    std::size_t item = 0;
    std::string note;
    std::string why;
    std::vector<std::string> may_mean; ///< names of findings
};

struct Assumption
{
    std::string what;
    std::string because;
};

struct NotTestedEntry
{
    std::size_t item = 0;
    std::string what, because;
};

/// A published limit that a reading breaks.
struct BrokenLimit
{
    std::string body, key;    ///< who says so, and where it stands
    std::string bound;        ///< '7.4 to 7.8', 'at most 10 ppm'
    std::string note;         ///< condition of the row
    bool from_memory = false; ///< not confirmed; to be said wherever it is shown, and not cited
    bool leads = false;       ///< of the body that the visit chose
};

/// A reading outside at least one published limit.
struct LimitsBroken
{
    std::size_t item = 0;
    std::string parameter;              ///< 'free chlorine'
    std::string reading;                ///< '8 ± 0.2', 'at least 110 ppm'
    std::vector<BrokenLimit> broken_by; ///< one for each body, the one that leads first, those from memory last
    std::size_t kept_by = 0;            ///< bodies whose limits it keeps
    std::string leading;                ///< whose limits it was judged by; says where they are from memory
    std::string leading_verdict;        ///< 'within', 'below', 'above'; empty where nothing leads
};

/// A place on a loop, in the order in which the water passes.
enum class LoopPlace
{
    suction, ///< skimmers, drains and their pipe
    strainer,
    pump,
    filter,
    roof,
    heater,
    bypass, ///< of the heater
    returns,
    gauge ///< an instrument, wherever it sits
};

/// A reading beside what the loop or the heater would show were it sound.
struct ReadingAgainstSound
{
    std::size_t item = 0;
    std::string label; ///< 'filter gauge'
    LoopPlace place = LoopPlace::pump;
    units::Reading reading;
    units::Reading expected; ///< its doubt is that of the loop or heater as far as it is known
    double off = 0.0;        ///< (reading - expected) / root of the two doubts squared
    bool odd = false;        ///< without it the others agree with a sound one, with it they do not
};

/// The flow by one of the ways to know it.
struct FlowBy
{
    std::string way; ///< 'flow meter', 'head on the pump's curve'
    units::Measured<units::VolumeFlow> flow{};
    double off = 0.0; ///< from what the others give together, in units of doubt
    bool odd = false; ///< the others agree without it
};

/// What is drawn at one place of the loop.
struct LoopPart
{
    LoopPlace place = LoopPlace::pump;
    std::size_t item = 0; ///< the loop itself where it is a pipe
    std::string name;     ///< 'pump', '2 drains, 1 skimmer'
    std::string detail;   ///< '1.5 hp, usual curve of that power'; may be empty
    bool assumed = false; ///< nothing was said of it; it is usual
};

/// A cause named in the report, where it sits.
struct LoopFault
{
    LoopPlace place = LoopPlace::pump;
    std::size_t cause = 0; ///< in Assessment::causes
};

/// A point of flow and head.
struct LoopDuty
{
    units::Measured<units::VolumeFlow> flow{};
    units::Measured<units::Head> head{};
};

/// One loop: its readings against what a sound one would show, its flow by every way there is, and what a drawing
/// needs.
struct LoopEntry
{
    std::size_t item = 0;
    std::vector<ReadingAgainstSound> readings;
    std::vector<FlowBy> flows;
    std::optional<units::Measured<units::VolumeFlow>> flow; ///< of all of them together
    std::string flow_words;                                 ///< what they say together; which is odd
    std::vector<LoopPart> parts;                            ///< in the order of the flow
    std::vector<LoopFault> faults;                          ///< likeliest first
    bool pump_is_usual = false;                             ///< its curve is that of a usual pump, not its own
    std::vector<fields::CurvePoint> pump_curve;             ///< at its speed, by rising flow
    std::vector<fields::CurvePoint> sound_system;           ///< head that the sound loop takes, by rising flow
    std::optional<LoopDuty> sound;                          ///< where a sound loop would run
    std::optional<LoopDuty> measured;                       ///< where the readings put it
    std::vector<std::string> basis;                         ///< what was taken for what is not known, one sentence each
};

/// One vent: each rule held against what was found of its run, its end and its pit, and what a drawing needs.
struct VentEntry
{
    std::size_t item = 0;   ///< the vent
    std::size_t heater = 0; ///< whose it is
    std::vector<venting::JudgedRule> rules;
    visit::Vent vent;                ///< as recorded; its roof's rise always in 12
    std::optional<visit::Room> room; ///< as recorded
    std::optional<visit::HeaterPlace> stands;
    bool in_pit = false;
    std::string draft_words; ///< what the pull, less the losses, means for spill; empty where it was not computed
};

/// One gas heater: where its heat goes by what was read of it, and each reading against a sound one.
struct HeaterEntry
{
    std::size_t item = 0;
    std::optional<heating::HeatBalance> balance;
    std::string balance_words; ///< how it closes, and which side it speaks against
    std::vector<ReadingAgainstSound> readings;
    std::vector<std::string> basis; ///< what was taken for what is not known, one sentence each
};

/// What it takes to warm a water and to keep it so, as computed, with the intervals. None where the heater can't, or
/// without a price.
struct WarmingCost
{
    std::optional<figures::OutputValue> time, energy, cost;
    std::optional<figures::OutputValue> loss;                     ///< when warm, in the weather of the visit
    std::optional<figures::OutputValue> month_energy, month_cost; ///< of keeping it warm in that weather
};

/// A water and the heater that warms it, from what it is to what is wanted.
struct WarmingEntry
{
    std::size_t water = 0, heater = 0;
    units::Temperature from{}, to{};
    std::vector<heating::HeatUpPoint> likely, fast, slow; ///< fast and slow: the ends of the 95 % interval
    std::string words;
    std::vector<std::string> basis;
    std::optional<units::Temperature> stops_at; ///< short of `to`, for good
    double stops_short = 0.0; ///< chance that it does, by what is not known; its times are those of the other cases
    bool shortest = false;    ///< losses could not be worked out and are left out
    bool covered = false;
    WarmingCost as_found;
    std::optional<WarmingCost> other_cover; ///< without its cover, or with one
};

/// The history of a level, weighed against evaporation.
struct LevelEntry
{
    std::size_t item = 0; ///< the water
    level::LevelRecord record;
    level::LevelBalance balance;
    std::optional<units::Duration>
        watch_longer;                        ///< until a small leak could be told from none; none: a bucket is needed
    units::Velocity sought{};                ///< that leak
    std::optional<level::Settling> settling; ///< where fittings were measured
    std::string words;
    std::vector<std::string> basis;     ///< what was taken for what is not known, one sentence each
    std::vector<FittingEntry> fittings; ///< those measured, in the order of the settling's
    std::size_t last_mark = 0;          ///< below the first; marks after it are a bucket test's, at a level of its own
    std::optional<LevelCourse> course;  ///< none: water came in by the last mark and nobody knows how much
};

/// A fill valve's readings against a sound one, and how it is reached.
struct FillEntry
{
    std::size_t item = 0;
    std::vector<ReadingAgainstSound> readings;
    std::string words;              ///< what a sound one would do here; may be empty
    std::string reach;              ///< how a trade gets at it; empty where it was not noted
    std::vector<std::string> basis; ///< what was taken for what is not known, one sentence each
};

enum class Outcome
{
    nothing_found, ///< and something was looked at
    refer,
    unsafe
};

struct Assessment
{
    std::optional<visit::By> by;
    std::string on, property, weather, notes;
    Outcome outcome = Outcome::nothing_found;
    std::string summary;           ///< one or two sentences
    std::vector<ItemEntry> items;  ///< items[0] is the property itself
    std::vector<Alarm> alarms;     ///< most urgent first
    std::vector<Verdict> verdicts; ///< one for each item but the property
    std::vector<ReadingTaken> readings;
    std::vector<FigureEntry> figures;
    std::vector<ItemExplained> explained; ///< items at which something was found
    Robustness robustness;
    std::vector<CauseAsked> asked;           ///< causes that were asked about
    std::vector<LimitsBroken> limits_broken; ///< published limits that readings break, body by body
    std::vector<LoopEntry> loops;            ///< those with a reading to hold against the loop
    std::vector<FindingEntryOf> findings;
    std::vector<CauseEntryOf> causes; ///< what is worth naming, dangerous ones first, then by likelihood
    std::vector<Referral> referrals;  ///< most urgent first
    std::vector<NextCheck> next;      ///< best first
    std::vector<Undecided> undecided; ///< what can't be told from here, and what would decide it
    std::vector<Question> questions;
    std::vector<Assumption> assumptions;
    std::vector<NotTestedEntry> not_tested;
    std::vector<fields::Problem> oddities;
    std::vector<std::string> blanks;
    std::string conflict;                     ///< non-empty: these findings don't fit together, and which stands out
    fields::Named<std::string> cautions;      ///< id and sentence of every caution named above
    fields::Named<reference::Source> sources; ///< every source that a figure or cause shown here rests on
    std::vector<std::string> danger_words;    ///< notes that speak of danger and fit no finding here, as written
    std::vector<VentEntry> vents;             ///< those of which anything could be judged
    std::vector<LevelEntry> levels;           ///< waters whose level was watched
    std::vector<FillEntry> fills;             ///< fill valves of which readings or access were noted
    std::vector<HeaterEntry> heaters;         ///< gas heaters whose balance or readings could be worked out
    std::vector<WarmingEntry> warmings;       ///< those whose heat-up could be worked out
    std::vector<FoundEntry> found;            ///< what a technician really found
    std::vector<ItemLookedInto> looked_into;  ///< where
    std::string licences_of, licences_say;    ///< the state whose classes are named, and what to say beside them
};

} // namespace padwalk::assess

template <> struct padwalk::fields::words_of<padwalk::assess::LoopPlace>
{
    static std::vector<std::string> words()
    {
        return {"suction", "strainer", "pump", "filter", "roof", "heater", "bypass", "returns", "gauge"};
    }
};
