#pragma once
/// The parts of a property's log, each over its visits in order.

#include "padwalk/assess/history.hpp"

#include <map>

namespace padwalk::assess
{

/// A visit that was read and assessed.
struct AssessedVisit
{
    std::string file;
    visit::ReadVisit read;
    Assessment assessment;
};

/// One property while its log is written.
class LogBench
{
public:
    LogBench(std::vector<AssessedVisit const*> visits, Engine const& engine, units::System system);

    Engine const& engine;
    units::System system;
    std::vector<AssessedVisit const*> const visits; ///< as in PropertyLog::visits
    PropertyLog out;

    /// Where an item of a visit stands in PropertyLog::items.
    [[nodiscard]] std::size_t item_at(std::size_t visit, std::size_t item) const
    {
        return items_at_.at(visit).at(item);
    }
    [[nodiscard]] bool dated(std::size_t visit) const { return out.visits.at(visit).on.has_value(); }
    [[nodiscard]] std::size_t dated_visits() const;

private:
    std::vector<std::vector<std::size_t>> items_at_;

    void list_items();
    void note_oddities();
};

void add_series(LogBench& log);
void add_events(LogBench& log); ///< and the alarms that stand

/// The range that is wanted of a field of a water test, or of a water's temperature, by the limits that the last visit
/// with this water chose; none where nothing is known.
[[nodiscard]] std::optional<WantedBand> wanted_band(LogBench const& log, std::size_t item, std::string const& field);

} // namespace padwalk::assess
