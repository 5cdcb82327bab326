#pragma once
#include "workbench.hpp"

#include "padwalk/chemistry/limits.hpp"

namespace padwalk::assess
{

/// One pool or spa while its readings are judged.
struct WaterBench
{
    Workbench& w;
    std::size_t item;
    visit::Water const& v;
    visit::WaterTest const* test; ///< the one that counts, or none
    visit::Taken<units::Temperature> temperature;
    visit::Taken<units::Area> area;
    std::vector<chemistry::WorkingBand> const& bands;
    std::vector<chemistry::Limit> const& limits;
    chemistry::LimitSet leads; ///< whose limits were chosen; without id where none were

    [[nodiscard]] bool spa() const { return w.property.kind_of(item) == visit::WaterKind::spa; }
};

/// The test that counts: the newest by its date, the last where none has one; none without tests.
[[nodiscard]] visit::WaterTest const* newest_test(visit::Water const& water);

/// How much a reading says of the value: a test beyond its scale gives one end only.
enum class Known
{
    exactly,
    at_least,
    at_most
};
/// 'at least ', 'at most ' or nothing.
[[nodiscard]] std::string known_as(Known known);
/// Whether a comparison may be said of a reading that is only 'at least' or 'at most': that it is beyond the end on its
/// own side, or not beyond the other.
[[nodiscard]] inline bool may_be_said(Known known, bool above, double p)
{
    return known == Known::exactly || ((known == Known::at_least) == above ? p >= 0.5 : p < 0.5);
}
/// '7.9 ± 0.2', or 'at least 8.2'.
[[nodiscard]] std::string known_text(WaterBench const& bench, units::Reading const& reading, Known known);

/// The limits to judge by: of the set that leads, else the usual ones.
[[nodiscard]] chemistry::LeadingBand band_of(WaterBench const& bench, chemistry::Parameter parameter,
                                             chemistry::Stabilizer stabilizer = chemistry::Stabilizer::either);
/// ' of New York [key]', which then stands among the sources; a limit from memory is not cited but said to be not
/// confirmed.
[[nodiscard]] std::string whose(WaterBench& bench, chemistry::LeadingBound const& bound);
/// Assumes, in words, each end that the set which leads leaves open.
void say_of_defaults(WaterBench& bench, chemistry::Parameter parameter, chemistry::LeadingBand const& band);
/// Lays on the assessment which published limits the reading breaks, if any.
void against_published(WaterBench& bench, chemistry::Parameter parameter, units::Reading const& reading,
                       chemistry::Stabilizer stabilizer = chemistry::Stabilizer::either, Known known = Known::exactly);

/// What the water tests say: bands, chlorine, balance, metals.
void assess_water_tests(WaterBench& bench);
/// When a level mark was read, hours of its calendar, with its standard uncertainty.
struct MarkTime
{
    double hours, doubt;
};
/// A mark with a date and no time of day was read some time of that day.
[[nodiscard]] MarkTime time_of(visit::LevelMark const& mark);

/// The probability that stands for log odds for a leak, and how much likelier that makes it, in words.
struct LeakWeight
{
    double probability;
    std::string words;
};
[[nodiscard]] LeakWeight leak_weight(double log_odds);

/// What the level says: bucket test, marks, pump on against off.
void assess_level(WaterBench& bench);
/// The bucket test or the history of marks weighed against evaporation, as evidence for and against a leak.
void weigh_level(WaterBench& bench);

} // namespace padwalk::assess
