#pragma once
/// A folder of visits as a log: readings and figures over time with their trends and bands, and what happened. Plain
/// data.

#include "padwalk/assess/assess.hpp"
#include "padwalk/assess/tuning.hpp"

#include <cmath>

namespace padwalk::assess
{

/// A visit of the log.
struct VisitInLog
{
    std::string file;
    std::optional<fields::Moment> on; ///< none: it stands in no trend
    std::optional<visit::By> by;
    Outcome outcome = Outcome::nothing_found;
    std::string summary;
};

enum class BandSide
{
    within,
    below,
    above
};

/// One value of a series.
struct HistoryPoint
{
    fields::Moment at;
    double value = 0.0;    ///< SI
    double doubt = 0.0;    ///< standard uncertainty, SI; 0: none is known
    std::size_t visit = 0; ///< in PropertyLog::visits
    std::string method;
    BandSide side = BandSide::within; ///< of the wanted band, by the value
    bool surely = false;              ///< outside by more than twice its doubt
};

/// The range that is wanted, and whose it is.
struct WantedBand
{
    std::optional<double> low, high; ///< SI
    std::string low_body, high_body; ///< who says so
    bool from_memory = false;        ///< of either end: not confirmed, to be said where it is shown
};

/// A straight line through a series, by weighted least squares (numerics::fit_line).
struct Trend
{
    double per_second = 0.0; ///< SI
    double half_width = 0.0; ///< of its 95 % interval
    std::size_t values = 0;
    bool by_scatter = false; ///< the values scatter more than their doubts, so the scatter gave the interval
    double centre = 0.0;     ///< hours, as a moment's: the middle of the line
    double at_centre = 0.0;  ///< SI: its value there
    /// The interval excludes zero.
    [[nodiscard]] bool shows() const { return std::abs(per_second) > half_width; }
};

/// A reading, or the main output of a figure, over the dated visits. What was not taken is a gap, never a value.
struct Series
{
    std::size_t item = 0; ///< in PropertyLog::items
    std::string label;
    std::string figure; ///< the model's name; empty: a reading
    units::Measure measure = units::Measure::number;
    fields::FieldShape const* shape = nullptr;
    std::vector<HistoryPoint> points; ///< two at least, by time
    std::vector<std::size_t> gaps;    ///< dated visits that have no value of it
    bool steady = false;              ///< every value is the same
    std::optional<Trend> trend;       ///< none: see why_no_trend
    std::string why_no_trend;
    std::optional<WantedBand> band;
};

enum class EventKind
{
    alarm,      ///< raised
    alarm_gone, ///< looked for and not there any more
    found,      ///< what a technician found
    verdict,    ///< an item came to stand otherwise
    dose,       ///< what is given again and again changed
    note,       ///< written at the visit
    not_tested  ///< with the reason
};

struct HistoryEvent
{
    std::size_t visit = 0; ///< in PropertyLog::visits
    std::size_t item = 0;  ///< in PropertyLog::items
    EventKind kind = EventKind::note;
    std::string words;
    bool danger = false;
    std::size_t number = 0; ///< of its mark on the time line: one for each dated visit at which anything happened
};

/// An alarm that nobody has seen gone.
struct StandingAlarm
{
    std::size_t item = 0, visit = 0; ///< at which it was last seen
    std::string name, say;
    Urgency urgency = Urgency::stop_use;
    bool looked_at = true; ///< at the last visit; else it stands because nobody looked
};

struct PropertyLog
{
    std::string name;                  ///< as first written; empty: none was
    std::vector<VisitInLog> visits;    ///< dated ones by time, then the undated
    std::vector<std::string> items;    ///< names; items[0] is the property
    std::vector<StandingAlarm> alarms; ///< most urgent first
    bool unsafe = false;               ///< at the last visit, or an alarm of that kind stands
    std::vector<Series> series;
    std::vector<HistoryEvent> events; ///< by visit
    std::vector<std::string> notes;   ///< what is odd: no date, the same moment twice, one visit only
};

struct History
{
    std::vector<PropertyLog> properties; ///< by name, that without a name last
    std::vector<FileNotRead> not_read;
    [[nodiscard]] std::size_t visits() const;
};

/// Reads each visit (path, text), assesses it and sets it in the log of its property. One that can't be read is named
/// and the others go on. The order of `files` does not matter. `system` is that of quantities in sentences.
[[nodiscard]] History history(std::vector<std::pair<std::string, std::string>> files, Engine const& engine,
                              units::System system = units::System::us);

} // namespace padwalk::assess
